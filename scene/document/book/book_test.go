package book_test

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamwright/assets"
	"seamwright/assets/words"
	"seamwright/calc"
	"seamwright/calc/job"
	"seamwright/calc/money"
	"seamwright/planner"
	"seamwright/scene/document/ask"
	"seamwright/scene/document/book"
	"seamwright/scene/document/internal/reader"
)

// request asks for a document of a project, planned promptly. A project is planned once.
func request(t *testing.T, src []byte, l words.Language, paper ask.Paper) *ask.Request {
	known, ok := planned[string(src)]
	if !ok {
		known = planAnew(t, src)
		planned[string(src)] = known
	}
	return &ask.Request{Job: known.Job, Plan: known.Plan, Paper: paper, Made: time.Date(2026, 11, 28, 9, 0, 0, 0, time.UTC),
		Voice: words.In(l, words.Units{Imperial: known.Job.Units != job.Metric, Currency: known.Job.Currency})}
}

var planned = map[string]ask.Alternative{}

func planAnew(t *testing.T, src []byte) ask.Alternative {
	d, err := planner.Parse("project", src)
	require.NoError(t, err)
	j := d.Job()
	p, err := calc.Prompt(context.Background(), j, nil)
	require.NoError(t, err)
	for _, a := range j.Alternatives { // the full answer holds them
		variant := j.With(a)
		other, err := calc.Prompt(context.Background(), variant, nil)
		require.NoError(t, err)
		p.Alternatives = append(p.Alternatives, calc.Compared(a.Name, variant, other))
	}
	return ask.Alternative{Job: j, Plan: p}
}

type writer func(context.Context, io.Writer, *ask.Request) error

// written is a document as bytes and as a file.
func written(t *testing.T, write writer, r *ask.Request) (file []byte, path string) {
	var b bytes.Buffer
	require.NoError(t, write(context.Background(), &b, r))
	path = filepath.Join(t.TempDir(), "document.pdf")
	require.NoError(t, os.WriteFile(path, b.Bytes(), 0o644))
	return b.Bytes(), path
}

// squeezed is text with every run of blanks made one.
func squeezed(s string) string { return strings.Join(strings.Fields(s), " ") }

// The samples, in both languages and by turns on both papers, are whole for qpdf, say how many pages they have, bear title and
// language, embed what they are set in, and ask the catalog for no phrase that it lacks. No word leaves its page, and none
// stands over another.
func TestOthersReadTheBooks(t *testing.T) {
	for name, sample := range map[string][]byte{"studio": assets.KilnYardStudio, "workshop": assets.LaneWorkshop} {
		for _, l := range words.Languages {
			paper := map[bool]ask.Paper{true: ask.Letter, false: ask.A4}[(name == "studio") == (l == words.English)]
			r := request(t, sample, l, paper)
			for kind, write := range map[string]writer{"book": book.Write, "bid": book.WriteBid} {
				t.Run(fmt.Sprint(name, " ", kind, " ", l, " ", paper), func(t *testing.T) {
					_, path := written(t, write, r)
					whole(t, r, path)
					apart(t, r, path)
				})
			}
		}
	}
}

// whole asks other programs whether a file is what it should be.
func whole(t *testing.T, r *ask.Request, path string) {
	require.Contains(t, reader.Run(t, nil, "qpdf", "--check", path), "No syntax or stream encoding errors")
	text := reader.Run(t, nil, "pdftotext", "-layout", path, "-")
	require.NotContains(t, text, "⟦")
	info := reader.Run(t, nil, "pdfinfo", path)
	pages, l := field(info, "Pages:"), r.Voice.Language()
	require.Contains(t, squeezed(text), " "+pages+" "+map[words.Language]string{"en": "of ", "es": "de "}[l]+pages, "the last page is the last")
	require.True(t, strings.HasPrefix(field(info, "Title:"), r.Job.Name+" · "), info)
	require.Contains(t, reader.Run(t, nil, "qpdf", "--json=1", "--json-key=objects", path), `"/Lang": "`+string(l)+`"`)
	for _, font := range strings.Split(strings.TrimSpace(reader.Run(t, nil, "pdffonts", path)), "\n")[2:] {
		require.Regexp(t, `Identity-H +yes (yes|no) +yes`, font, "embedded, with its letters named")
	}
}

// field is what a line of pdfinfo says.
func field(info, name string) string {
	for _, l := range strings.Split(info, "\n") {
		if rest, ok := strings.CutPrefix(l, name); ok {
			return strings.TrimSpace(rest)
		}
	}
	return ""
}

// Every number of the takeoff stands in the shopping list as another program reads it: what is needed, asked for, and paid.
func TestEveryNumberOfTheTakeoffIsThere(t *testing.T) {
	for _, sample := range [][]byte{assets.KilnYardStudio, assets.LaneWorkshop} {
		r := request(t, sample, words.English, ask.Letter)
		r.Parts = []string{"shopping"}
		_, path := written(t, book.Write, r)
		text := squeezed(reader.Run(t, nil, "pdftotext", "-layout", path, "-"))
		for i := range r.Plan.Takeoff {
			k := &r.Plan.Takeoff[i]
			require.Contains(t, text, r.Voice.Number(k.Need), k.Item)
			if k.Buy > 0 {
				require.Contains(t, text, strconv.Itoa(k.Buy), k.Item)
				require.Contains(t, text, r.Voice.Money(k.Price), k.Item)
				require.Contains(t, text, r.Voice.Money(k.Cost), k.Item)
			}
		}
		for _, m := range []money.Money{r.Plan.Cost.Material, r.Plan.Cost.Tax, r.Plan.Cost.Material + r.Plan.Cost.Tax} {
			require.Contains(t, text, r.Voice.Money(m))
		}
	}
}

// Every piece stands on an elevation and on a cut sheet, and every sheet is cut.
func TestEveryPieceIsThere(t *testing.T) {
	r := request(t, assets.KilnYardStudio, words.English, ask.Letter)
	for _, part := range []string{"elevations", "cuts"} {
		r.Parts = []string{part}
		_, path := written(t, book.Write, r)
		text := " " + squeezed(reader.Run(t, nil, "pdftotext", path, "-")) + " "
		for i := range r.Plan.Surfaces {
			for k := range r.Plan.Surfaces[i].Zones {
				for n := range r.Plan.Surfaces[i].Zones[k].Panels {
					require.Contains(t, text, " "+r.Plan.Surfaces[i].Zones[k].Panels[n].ID, part)
				}
			}
		}
		for i := range r.Plan.Sheets {
			if part == "cuts" {
				require.Contains(t, text, " "+r.Plan.Sheets[i].ID+" ")
			}
		}
	}
}

// The client's bid holds none of the builder's figures: no cost, rate, hour, quantity or supplier's price.
func TestBidTellsNothingOfTheCost(t *testing.T) {
	r := request(t, assets.LaneWorkshop, words.English, ask.A4) // it states a rate
	r.Markup = 1750
	c := &r.Plan.Cost
	secret := []money.Money{c.Material, c.Labour, c.Tax, c.Total, c.Rate, c.OwnTime, c.Quote, c.BreakEven, c.PerArea, c.Hired.Outlay, c.Hired.Saved}
	for i := range r.Plan.Takeoff {
		secret = append(secret, r.Plan.Takeoff[i].Price, r.Plan.Takeoff[i].Cost)
	}
	for _, a := range r.Plan.Alternatives {
		secret = append(secret, a.Cost)
	}
	// 17.5 % upon the total, rounded once.
	offered := money.Money((int64(c.Total)*11750 + 5000) / 10000)
	for _, r.Prices = range []ask.Prices{"", ask.ForBuilder, ask.ForClient} { // whatever is asked
		_, path := written(t, book.WriteBid, r)
		text := squeezed(reader.Run(t, nil, "pdftotext", "-layout", path, "-"))
		for _, m := range secret {
			if m != 0 {
				require.NotContains(t, text, r.Voice.Money(m))
			}
		}
		require.NotContains(t, text, r.Voice.Decimal(r.Plan.Summary.Hours, 1))
		require.NotContains(t, text, r.Voice.Value(r.Plan.Summary.Screws))
		require.Contains(t, text, r.Voice.Money(offered))
	}
	r.Prices = ask.NoPrices
	_, path := written(t, book.WriteBid, r)
	require.NotContains(t, reader.Run(t, nil, "pdftotext", path, "-"), "€")
}

// A part asked for alone is the only one, and the same request gives the same bytes.
func TestPartsAndSameness(t *testing.T) {
	r := request(t, assets.KilnYardStudio, words.English, ask.Letter)
	r.Parts = []string{"safety"}
	var told [][2]int
	r.Progress = func(done, total int) { told = append(told, [2]int{done, total}) }
	one, path := written(t, book.Write, r)
	require.Equal(t, [][2]int{{0, 1}, {1, 1}}, told)
	require.Equal(t, "1", field(reader.Run(t, nil, "pdfinfo", path), "Pages:"))
	two, _ := written(t, book.Write, r)
	require.True(t, bytes.Equal(one, two))
	cancelled, cancel := context.WithCancel(context.Background())
	cancel()
	var b bytes.Buffer
	require.ErrorIs(t, book.Write(cancelled, &b, r), context.Canceled)
	require.Zero(t, b.Len())
	for _, p := range append(book.Parts(r), book.BidParts(r)...) {
		require.NotContains(t, p.Name, "⟦")
	}
}
