package price_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/assets/words"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/money"
	"seamwright/calc/plan"
	"seamwright/calc/price"
)

// screwed is a job of layers with so many screws each.
func screwed(box [2]money.Money, layers ...plan.Fasteners) (*job.Job, *plan.Plan) {
	pack := func(p money.Money) []job.Pack { return []job.Pack{{Name: "box", Holds: 1000, Unit: "count", Price: p}} }
	j := &job.Job{Units: job.Imperial, Rules: job.Rules{Screws: 12 * length.Inch}, Figures: map[string]float64{"screw-loss": 0}, Supplies: []job.Supply{
		{ID: "w-28", Kind: "screw", Type: "W", Length: 9 * length.Inch / 8, Packs: pack(box[0])},
		{ID: "w-32", Kind: "screw", Type: "W", Length: 10 * length.Inch / 8, Packs: pack(box[1])},
	}}
	p := &plan.Plan{Surfaces: []plan.Surface{{ID: "r/w"}}}
	for _, f := range layers {
		p.Surfaces[0].Zones = append(p.Surfaces[0].Zones, plan.Zone{Fasteners: f})
	}
	return j, p
}

// A box of 1,000 for 600 screws of 1 1/8 in and one for 300 of 1 1/4 in: together 900 of the longer, one box (arithmetic).
func TestOneBoxWhereThatIsCheaper(t *testing.T) {
	short := plan.Fasteners{Count: 600, Supply: "w-28", Length: 9 * length.Inch / 8, Longest: 7 * length.Inch / 4}
	long := plan.Fasteners{Count: 300, Supply: "w-32", Length: 10 * length.Inch / 8, Longest: 2 * length.Inch}
	j, p := screwed([2]money.Money{1200, 1345}, short, long)
	price.OneLength(j, p)
	got := p.Surfaces[0].Zones[0].Fasteners
	require.Equal(t, "w-32", got.Supply)
	require.Equal(t, 10*length.Inch/8, got.Length)
	require.Contains(t, said(got.Basis), `1 1/4" is taken`)

	many := short
	many.Count = 900
	j, p = screwed([2]money.Money{1200, 1345}, many, long)
	price.OneLength(j, p)
	require.Equal(t, "w-28", p.Surfaces[0].Zones[0].Fasteners.Supply, "1,200 take two boxes of the longer, 1.45 dearer than one of each")

	shallow := short
	shallow.Longest = 9 * length.Inch / 8
	j, p = screwed([2]money.Money{1200, 1345}, shallow, long)
	price.OneLength(j, p)
	require.Equal(t, "w-28", p.Surfaces[0].Zones[0].Fasteners.Supply, "a longer screw would reach what runs behind")

	j, p = screwed([2]money.Money{1200, 1345}, short)
	price.OneLength(j, p)
	require.Equal(t, "w-28", p.Surfaces[0].Zones[0].Fasteners.Supply, "one kind by itself stays the shortest that holds")
}

// Screws in a keep-out stay short, whatever is cheaper.
func TestOneBoxLeavesKeepOutsShort(t *testing.T) {
	behind := plan.Fasteners{Count: 10, Supply: "w-32", Length: 10 * length.Inch / 8, Longest: 2 * length.Inch,
		Short: 4, ShortSupply: "w-28", ShortLength: 9 * length.Inch / 8}
	face := plan.Fasteners{Count: 20, Supply: "w-28", Length: 9 * length.Inch / 8, Longest: 2 * length.Inch}
	j, p := screwed([2]money.Money{1200, 1345}, behind, face)
	price.OneLength(j, p)
	require.Equal(t, "w-28", p.Surfaces[0].Zones[0].Fasteners.ShortSupply)
	require.Equal(t, "w-28", p.Surfaces[0].Zones[1].Fasteners.Supply, "the short ones take a box anyway")
}

// said is a fact in English, in feet and inches.
func said(f plan.Fact) string { return words.In(words.English, words.Units{Imperial: true}).Fact(f) }
