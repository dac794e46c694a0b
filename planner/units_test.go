package planner_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/assets"
	"seamwright/calc"
	"seamwright/calc/job"
	"seamwright/calc/plan"
	"seamwright/planner"
)

// numbers are what a plan says that no choice of words may change.
type numbers struct {
	Summary plan.Summary
	Cost    plan.Cost
	Buy     map[string]int // packs by supply and price
	Answers []plan.Answer
}

func numbersOf(t *testing.T, d *planner.Document) numbers {
	p, err := calc.Prompt(t.Context(), d.Job(), nil)
	require.NoError(t, err)
	n := numbers{Summary: p.Summary, Cost: p.Cost, Buy: map[string]int{}, Answers: p.Answers}
	for _, item := range p.Takeoff {
		n.Buy[item.Supply] += item.Buy
	}
	for i := range n.Cost.BySurface {
		n.Cost.BySurface[i].Area, n.Cost.BySurface[i].PerArea = 0, 0
	}
	n.Cost.Basis, n.Cost.PerArea, n.Cost.AreaUnit, n.Cost.Hired = plan.Fact{}, 0, "", plan.Hired{} // said for a square foot or metre
	return n
}

// Units are how lengths are shown. Changing them leaves framing, packs and every number of the plan as they are, and
// changing them back leaves the file as it was.
func TestUnitsChangeWordsOnly(t *testing.T) {
	for name, source := range map[string][]byte{
		"kiln":   assets.KilnYardStudio,
		"plain":  []byte("seamwright: 1\nrooms:\n  - {id: shed, height: 9', corners: [[0, 0], [14', 0], [14', 12'], [0, 12']], ceiling: {}}\ndefaults: {lining: [{product: gyp-12}]}\n"),
		"stated": []byte("seamwright: 1\nrooms:\n  - {id: shed, height: 9', corners: [[0, 0], [14', 0], [14', 12'], [0, 12']]}\ndefaults:\n  framing: {spacing: 24\"} # trusses\n  lining: [{product: gyp-12}]\n"),
		"metric": []byte("seamwright: 1\nunits: metric\nrooms:\n  - {id: shed, height: 2.7 m, corners: [[0, 0], [4 m, 0], [4 m, 3 m], [0, 3 m]]}\ndefaults: {lining: [{product: gyp-12.5}]}\n"),
	} {
		t.Run(name, func(t *testing.T) {
			d, err := planner.Parse(name, source)
			require.NoError(t, err)
			was, before := d.Job().Units, numbersOf(t, d)
			other := job.Metric
			if was == other {
				other = job.Imperial
			}
			require.NoError(t, d.Apply(planner.SetUnits{Units: other}))
			require.Equal(t, other, d.Job().Units)
			require.Equal(t, before, numbersOf(t, d))
			again, err := planner.Parse(name, d.Source())
			require.NoError(t, err)
			require.Equal(t, before, numbersOf(t, again))
			if name == "stated" {
				require.Contains(t, string(d.Source()), "# trusses")
			}

			require.NoError(t, d.Apply(planner.SetUnits{Units: was}))
			require.Equal(t, before, numbersOf(t, d))
			require.NotContains(t, string(d.Source()), "packs")
			require.True(t, d.Undo())
			require.True(t, d.Undo())
			require.Equal(t, string(source), string(d.Source()))
		})
	}
}

func TestPacksAreSoldAsTheFileSays(t *testing.T) {
	packs := func(head string) (names string) {
		d, err := planner.Parse("packs", []byte("seamwright: 1\n"+head))
		require.NoError(t, err)
		for _, s := range d.Job().Supplies {
			for _, p := range s.Packs {
				names += p.Name + "|"
			}
		}
		return names
	}
	require.Equal(t, packs(""), packs("units: metric\npacks: imperial\n"))
	require.Equal(t, packs("units: metric\n"), packs("packs: metric\n"))
	require.NotEqual(t, packs(""), packs("packs: metric\n"))
	require.True(t, strings.Contains(packs(""), "gal"))
}
