package page_test

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamwright/assets"
	"seamwright/assets/words"
	"seamwright/calc"
	"seamwright/calc/job"
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

func TestTry(t *testing.T) {
	dir := os.Getenv("SEAMWRIGHT_PAGES")
	if dir == "" {
		t.Skip("")
	}
	for name, source := range map[string][]byte{"kiln": assets.KilnYardStudio, "lane": assets.LaneWorkshop} {
		for _, l := range words.Languages {
			text := write(t, request(t, source, l))
			t.Log(name, l, len(text))
			require.NoError(t, os.WriteFile(filepath.Join(dir, name+"-"+string(l)+".html"), text, 0o644))
		}
	}
}
