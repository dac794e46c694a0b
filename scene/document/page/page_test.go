package page_test

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"html"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamwright/assets"
	"seamwright/assets/words"
	"seamwright/calc"
	"seamwright/calc/job"
	"seamwright/calc/money"
	"seamwright/calc/plan"
	"seamwright/planner"
	"seamwright/scene/document/ask"
	"seamwright/scene/document/page"
)

// request plans a sample and its alternatives, at once and not in full: the page does not know the difference.
func request(t *testing.T, source []byte, language words.Language) *ask.Request {
	t.Helper()
	d, err := planner.Parse("sample", source)
	require.NoError(t, err)
	j := d.Job()
	p, err := calc.Prompt(context.Background(), j, nil)
	require.NoError(t, err)
	r := &ask.Request{
		Job: j, Plan: p, Prices: ask.ForClient, Markup: 1500, Made: time.Date(2026, 11, 28, 0, 0, 0, 0, time.UTC),
		Voice: words.In(language, words.Units{Imperial: j.Units != job.Metric, Currency: j.Currency}),
	}
	for _, a := range j.Alternatives {
		with := j.With(a)
		p, err := calc.Prompt(context.Background(), with, nil)
		require.NoError(t, err)
		r.Others = append(r.Others, ask.Alternative{Name: a.Name, Job: with, Plan: p})
	}
	return r
}

func write(t *testing.T, r *ask.Request) []byte {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, page.Write(context.Background(), &out, r))
	return out.Bytes()
}

// SEAMWRIGHT_PICTURES names a folder in which the pages are left to be looked at.
func TestSamplesFitALetter(t *testing.T) {
	for name, source := range map[string][]byte{"kiln-yard": assets.KilnYardStudio, "lane": assets.LaneWorkshop} {
		for _, l := range words.Languages {
			text := write(t, request(t, source, l))
			require.Less(t, len(text), page.Largest/2)
			require.Contains(t, string(text), `<html lang="`+string(l)+`">`)
			require.NotContains(t, string(text), "⟦", "every phrase is in the catalog")
			if keep := os.Getenv("SEAMWRIGHT_PICTURES"); keep != "" {
				require.NoError(t, os.WriteFile(filepath.Join(keep, name+"-"+string(l)+".html"), text, 0o644))
			}
		}
	}
}

// The policy (Content Security Policy Level 3) names what the page holds by its hash and forbids all else; nothing in the
// page has an address elsewhere but for the licences' text.
func TestNothingIsFetchedAndNothingElseRuns(t *testing.T) {
	r := request(t, assets.LaneWorkshop, words.English)
	text := string(write(t, r))
	policy := html.UnescapeString(between(t, text, `http-equiv="Content-Security-Policy" content="`, `"`))
	require.True(t, strings.HasPrefix(policy, "default-src 'none'; "), policy)
	require.NotContains(t, policy, "unsafe")
	require.NotContains(t, policy, "http")
	inline := regexp.MustCompile(`(?s)<(script|style)>(.*?)</(?:script|style)>`).FindAllStringSubmatch(text, -1)
	require.Len(t, inline, 3)
	for _, m := range inline {
		sum := sha256.Sum256([]byte(m[2]))
		require.Contains(t, policy, m[1]+"-src ")
		require.Contains(t, policy, "'sha256-"+base64.StdEncoding.EncodeToString(sum[:])+"'")
	}
	bare := regexp.MustCompile(`(?s)<script.*?</script>|<style.*?</style>|<pre.*?</pre>`).ReplaceAllString(text, "")
	require.NotRegexp(t, `(?i)https?://|src="[^d]|href="[^#d]|\son[a-z]+=|\sstyle=`, bare)
	require.Equal(t, text, string(write(t, r)), "the same request gives the same bytes")
}

// A client reads no figure of the builder's, whatever is asked: cost, hours, rate, markup, what a crew asked.
func TestTheBuildersOwnCostIsNeverInIt(t *testing.T) {
	r := request(t, assets.LaneWorkshop, words.English)
	priced, open := text(write(t, r)), ""
	r.Prices = ask.NoPrices
	open = text(write(t, r))
	price, err := r.ClientPrice(r.Plan)
	require.NoError(t, err)
	require.Contains(t, priced, r.Voice.Money(price))
	require.NotContains(t, open, r.Voice.Money(price))
	require.NotContains(t, open, "€")
	c := &r.Plan.Cost
	own := []money.Money{c.Total, c.Material, c.Labour, c.Tax, c.Rate}
	for _, i := range r.Plan.Takeoff {
		own = append(own, i.Cost)
	}
	for _, m := range own {
		if m != 0 {
			require.NotContains(t, priced, r.Voice.Money(m))
		}
	}
	require.NotContains(t, priced, r.Voice.Number(r.Plan.Summary.Hours))
	r.Prices = ask.ForBuilder
	require.Error(t, page.Write(context.Background(), io.Discard, r))
}

// Where own hours are worth nothing and nothing is added, the price would be the builder's outlay: it is refused.
func TestNoPriceThatIsTheOutlay(t *testing.T) {
	r := request(t, bytes.Replace(assets.KilnYardStudio, []byte("rate: 25"), []byte("rate: 0"), 1), words.English)
	require.Zero(t, r.Plan.Cost.Labour)
	require.NotZero(t, r.Plan.Cost.Total)
	r.Markup = 0
	require.ErrorIs(t, page.Write(context.Background(), io.Discard, r), ask.ErrOwnCost)
	r.Markup = 1250
	price, err := r.ClientPrice(r.Plan)
	require.NoError(t, err)
	require.InDelta(t, 1.125*r.Plan.Cost.Total.Float(), price.Float(), 0.0051)
}

// Names come from anywhere: what they hold is text.
func TestNamesAreText(t *testing.T) {
	r := request(t, assets.LaneWorkshop, words.English)
	const bad = `</title><script>alert(1)</script>"'><img src=x onerror=alert(1)>`
	named := *r.Plan
	named.Name = bad
	r.Plan = &named
	r.Others[0].Name = bad
	out := string(write(t, r))
	require.NotContains(t, out, "<script>alert")
	require.NotContains(t, out, "<img src=x")
	require.Equal(t, 3, strings.Count(out, "<script>")+strings.Count(out, "<style>"))
}

// The figures are the plan's.
func TestFiguresAreThePlans(t *testing.T) {
	r := request(t, assets.KilnYardStudio, words.English)
	out := text(write(t, r))
	s := &r.Plan.Summary
	for _, want := range []string{
		r.Plan.Name, fmt.Sprint(s.SheetsBought + s.StockUsed), fmt.Sprint(s.Days), "Mar 15", "Monday, March 15, 2027",
		r.Voice.Value(plan.Run(s.TaperedJoint + s.ButtJoint + s.MixedJoint)), "Plywood all round", "Fire-type gypsum board 5/8\"", "Stays open",
		"lead", "asbestos", "local code",
	} {
		require.Contains(t, out, want)
	}
}

func TestCancelledPageIsNone(t *testing.T) {
	r := request(t, assets.LaneWorkshop, words.English)
	over, cancel := context.WithCancel(context.Background())
	cancel()
	require.ErrorIs(t, page.Write(over, io.Discard, r), context.Canceled)
}

// text is what a page says: its tags, scripts and licences left out.
func text(page []byte) string {
	bare := regexp.MustCompile(`(?s)<script.*?</script>|<style.*?</style>|<pre.*?</pre>|<[^>]*>`).ReplaceAllString(string(page), " ")
	return html.UnescapeString(bare)
}

// between is the text from one mark to the next.
func between(t *testing.T, text, from, to string) string {
	t.Helper()
	_, rest, ok := strings.Cut(text, from)
	require.True(t, ok)
	out, _, ok := strings.Cut(rest, to)
	require.True(t, ok)
	return out
}
