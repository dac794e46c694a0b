package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// nestRun runs the verb on text given as standard input.
func nestRun(t *testing.T, input string, args ...string) (code int, out, errs string) {
	t.Helper()
	var o, e bytes.Buffer
	code = runNest(args, strings.NewReader(input), &o, &e)
	return code, o.String(), e.String()
}

// Four halves of a sheet are two sheets; with a blade of 2 a half is too wide for its neighbour, so four (arithmetic).
func TestNestCountsTheBlade(t *testing.T) {
	for kerf, want := range map[string]int64{"0": 2, "2": 4} {
		code, out, errs := nestRun(t, `{"name": "halves", "sheet": [100, 50], "kerf": `+kerf+`, "items": [[50, 50, 4]]}`, "-")
		require.Zero(t, code, errs)
		var line nestLine
		require.NoError(t, json.Unmarshal([]byte(out), &line))
		require.Equal(t, want, line.Value)
		require.Equal(t, want, line.Bound)
		var layout []nestSheet
		require.NoError(t, json.Unmarshal(line.Layout, &layout))
		require.Len(t, layout, int(want))
	}
}

// Nine 700 from 3000 long sticks and two free ends of 900: two from the free ends, seven more at four a stick (arithmetic).
func TestNestUsesFreeStock(t *testing.T) {
	code, out, errs := nestRun(t, `{"name": "battens", "stock": [{"L": 3000, "cost": 12}, {"L": 900, "cost": 0, "max": 2}],
		"items": [[700, 1, 9]]}`, "-", "--limit=1s")
	require.Zero(t, code, errs)
	var line nestLine
	require.NoError(t, json.Unmarshal([]byte(out), &line))
	require.EqualValues(t, 24, line.Value)
	require.EqualValues(t, 24, line.Bound)
}

// Two parts of 10 by 10: a sheet of 20 by 10 for 30, or two of 10 by 10 for 12 each, or for 16 each (arithmetic).
func TestNestChoosesAmongSheetsByCost(t *testing.T) {
	for cost, want := range map[string]struct {
		value int64
		stock int
	}{"12": {24, 1}, "16": {30, 0}} {
		code, out, errs := nestRun(t, `{"sheets": [{"size": [20, 10], "cost": 30}, {"size": [10, 10], "cost": `+cost+`}],
			"items": [[10, 10, 2]]}`, "-")
		require.Zero(t, code, errs)
		var line nestLine
		require.NoError(t, json.Unmarshal([]byte(out), &line))
		require.Equal(t, want.value, line.Value)
		require.Equal(t, want.value, line.Bound)
		var layout []nestSheet
		require.NoError(t, json.Unmarshal(line.Layout, &layout))
		for _, s := range layout {
			require.Equal(t, want.stock, s.Stock)
		}
	}
}

// A thousand parts on few sheets: their cuts are many, and ordering, checking and writing them belongs to the limit. The
// search must be at its end soon after it: a quarter over is left to a busy machine.
func TestNestKeepsToItsLimit(t *testing.T) {
	rng := rand.New(rand.NewPCG(15, 10))
	var items []string
	for range 1000 {
		items = append(items, fmt.Sprintf("[%d, %d, 1]", 20+rng.IntN(150), 20+rng.IntN(150)))
	}
	in := `{"sheet": [2440, 1220], "kerf": 3, "items": [` + strings.Join(items, ", ") + `]}`
	start := time.Now()
	code, out, errs := nestRun(t, in, "-", "--limit=2s")
	took := time.Since(start).Seconds()
	require.Zero(t, code, errs)
	var line nestLine
	require.NoError(t, json.Unmarshal([]byte(out), &line))
	require.Less(t, took, 2.5)
	require.InDelta(t, took, line.Seconds, 0.2, "the wait is told in full")
}

// --turn counts before the items are checked.
func TestNestTurnsWhatFitsOnlyTurned(t *testing.T) {
	code, out, errs := nestRun(t, `{"sheet": [20, 10], "items": [[9, 15, 1]]}`, "-", "--turn=yes")
	require.Zero(t, code, errs)
	require.Contains(t, out, `"value":1`)
}

func TestNestTableAndLayoutSwitch(t *testing.T) {
	in := `{"family": "two", "instances": [{"name": "a", "sheet": [10, 10], "items": [[10, 5, 2]],
		"best_known": [{"value": 1, "proven": true, "variant": "guillotine, oriented"}]},
		{"name": "b", "sheet": [10, 1], "items": [[6, 1, 2]]}]}`
	code, out, _ := nestRun(t, in, "--table", "-")
	require.Zero(t, code)
	require.Contains(t, out, "two ")
	require.Contains(t, out, "median s")
	code, out, _ = nestRun(t, in, "-", "--layout=false")
	require.Zero(t, code)
	require.NotContains(t, out, "layout")
	require.Equal(t, 2, strings.Count(out, "\n"))
}

func TestNestRefusesInOneClearLine(t *testing.T) {
	dir := t.TempDir()
	binary := filepath.Join(dir, "binary.json")
	require.NoError(t, os.WriteFile(binary, []byte{0, 1, 2, 0xff}, 0o600))
	for _, c := range []struct{ input, arg, want string }{
		{"", "-", "empty"},
		{"", dir, "folder"},
		{"", filepath.Join(dir, "none.json"), "no such file"},
		{"", binary, "not a cutting case"},
		{`{"sheet": [10, 10], "items": [[11, 11, 1]]}`, "-", "item 1 (11 × 11) fits none of the sheets"},
		{`{"sheet": [10, 0], "items": [[1, 1, 1]]}`, "-", "above zero"},
		{`{"sheet": [10, 10], "items": [[1, -1, 1]]}`, "-", "above zero"},
		{`{"sheet": [9223372036854775807, 10], "items": [[1, 1, 1]]}`, "-", "no side may be above"},
		{`{"sheet": [92233720368547758070, 10], "items": [[1, 1, 1]]}`, "-", "whole numbers"},
		{`{"sheet": [10.5, 10], "items": [[1, 1, 1]]}`, "-", "whole numbers"},
		{strings.Repeat(" ", 50<<20), "-", "larger than 16 MB"},
		{"{}", "--turn=maybe", "--turn"},
	} {
		args := []string{c.arg}
		if strings.HasPrefix(c.arg, "--") {
			args = append(args, "-")
		}
		code, out, errs := nestRun(t, c.input, args...)
		require.Equal(t, 2, code, c.want)
		require.Empty(t, out)
		require.Contains(t, errs, c.want)
	}
}

func TestNestHelpShowsAnExample(t *testing.T) {
	code, out, _ := nestRun(t, "", "--help")
	require.Zero(t, code)
	require.Contains(t, out, "CASE.json")
}
