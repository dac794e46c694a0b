package ui

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/planner"
)

// Nobody at the yard knows a sheet by its id, nor a 12.5 mm board as one of 13 mm.
func TestIdsAreReadAsNames(t *testing.T) {
	w := newBench(t, oneRoom)
	require.Equal(t, `Board 1/2" 4x12 (76.8 lb), ply 3/4" 4x8 (70.4 lb): lift them with two people`,
		w.plainly("gyp-12 4x12 (76.8 lb), ply-18 4x8 (70.4 lb): lift them with two people"))
	require.Equal(t, "Shed, south: 12 ft² of it", w.plainly("shed/south: 12 ft2 of it"))
	require.Equal(t, "Gyp-12 is not on the list", w.plainly("gyp-12 is not on the list"))

	metric := &job.Job{Units: job.Metric, Products: []job.Product{
		{ID: "a", Thickness: length.FromMM(12.5)}, {ID: "b", Thickness: length.FromMM(18), Kind: job.WoodPanel}, {ID: "c", Thickness: length.Inch / 2}}}
	require.Equal(t, "board 12.5 mm", shortLayers(metric, []string{"a"}))
	require.Equal(t, "ply 18 mm", shortLayers(metric, []string{"b"}))
	require.Equal(t, "board 12.7 mm", shortLayers(metric, []string{"c"}))
}

// The ledger shows the head of a long check, which ends with a whole word.
func TestShortMessagesCutNoWord(t *testing.T) {
	w := newBench(t, oneRoom)
	for lead := range 8 {
		short := w.shortMessage(plan.Check{Says: plan.Verbatim(strings.Repeat("x", lead+1) + strings.Repeat(", sheets", 30))})
		require.Regexp(t, "^X?x*(, sheets)+…$", short)
		require.LessOrEqual(t, len([]rune(short)), messageLength+1)
	}
	require.Equal(t, "Lift it with two people", w.shortMessage(plan.Check{Says: plan.Verbatim("lift it with two people")}))
}

// What stands within a view is found by its own name too: the rules stand with the job.
func TestRulesAreFound(t *testing.T) {
	b := newBench(t, oneRoom)
	b.settle()
	f := &finder{w: b.Window, all: b.findable(), lines: container0()}
	for _, letters := range []string{"rules", "raked", "stagger"} {
		f.search(letters)
		require.NotEmpty(t, f.hits, letters)
		require.Equal(t, "Job", f.hits[0].words, letters)
	}
}

// Who holds a piece finds the sheet that it is cut from by what is written on it.
func TestSheetsAreFoundByTheirPieces(t *testing.T) {
	b := newBench(t, oneRoom)
	b.settle()
	last := &b.model.Plan.Sheets[len(b.model.Plan.Sheets)-1]
	f := &finder{w: b.Window, all: b.findable(), lines: container0()}
	for _, letters := range []string{last.ID, last.Parts[0].Panel} {
		f.search(letters)
		require.NotEmpty(t, f.hits)
		require.Equal(t, "Sheet "+last.ID, f.hits[0].words, letters)
	}
	f.hits[0].run()
	require.Equal(t, 1, b.tab)
	require.Equal(t, last.ID, b.views[1].(*sheetsView).sheet().ID)
}

// A recent file goes by its name: one whose folder alone has the letters comes after all that have them themselves.
func TestRecentFilesAreRankedByTheirNames(t *testing.T) {
	b := newBench(t, oneRoom)
	b.settle()
	far := filepath.Join(t.TempDir(), "sequence", "barn.seam.yaml")
	near := filepath.Join(t.TempDir(), "plain", "sequence.seam.yaml")
	for _, path := range []string{near, far} { // the one in the folder was worked on last
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, []byte(oneRoom), 0o644))
		require.NoError(t, planner.Remember(path))
	}
	f := &finder{w: b.Window, all: b.findable(), lines: container0()}
	at := func(words string) int {
		return slices.IndexFunc(f.hits, func(x found) bool { return strings.HasSuffix(x.words, words) })
	}
	f.search("sequence")
	require.GreaterOrEqual(t, at(near), 0)
	require.Equal(t, len(f.hits)-1, at(far), "the folder's letters count last")
	require.GreaterOrEqual(t, at("Sequence"), 0)
	f.search("barn")
	require.Equal(t, 0, at(far))
	f.search("sequencebarn")
	require.Empty(t, f.hits, "letters are not gathered from all of the path")
}

// Places are found by the names that stand on the drawings, and by those that the file writes.
func TestPlacesAreFoundByTheirNames(t *testing.T) {
	b := newBench(t, oneRoom)
	b.settle()
	f := &finder{w: b.Window, all: b.findable(), lines: container0()}
	for letters, want := range map[string]string{"shed, north": "Shed, north", "shed/north": "Shed, north", "d1 in": "D1 in Shed, south"} {
		f.search(letters)
		require.NotEmpty(t, f.hits, letters)
		require.True(t, strings.EqualFold(want, f.hits[0].words), f.hits[0].words)
	}
}
