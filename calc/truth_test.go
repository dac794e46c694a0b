package calc_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/assets"
	"seamwright/calc"
	"seamwright/calc/length"
	"seamwright/calc/money"
	"seamwright/calc/plan"
)

// Every number stands once: what a summary, the takeoff, the cost, an answer and the drawings say of one thing is added up
// here from the panels, joints, screws, sheets and openings that the plan itself holds (arithmetic).
func TestEveryNumberIsTheSameWhereverItStands(t *testing.T) {
	lane := append(slices.Clone(assets.LaneWorkshop), "\nfigures: {casing: 2.5}\n"...) // the studio has casing of its own
	for name, text := range map[string][]byte{"studio": assets.KilnYardStudio, "lane": lane} {
		t.Run(name, func(t *testing.T) {
			j := loaded(t, text).Job()
			p, err := calc.Prompt(t.Context(), j, nil)
			require.NoError(t, err)
			const told = 1e-3 // needs are told to the ten-thousandth, row by row
			rows := map[string]plan.Item{}
			need, cost, sold := map[string]float64{}, money.Money(0), 0
			for _, i := range p.Takeoff {
				rows[i.Kind] = i
				need[i.Kind] += i.Need
				cost += i.Cost
				if i.Kind == plan.SheetKind {
					sold += i.Buy
				}
			}
			perUnit := func(kind string, l length.Length) float64 {
				if rows[kind].Unit == "m" {
					return l.Metres()
				}
				return l.Feet()
			}
			bought := 0
			for i := range p.Sheets {
				if p.Sheets[i].Source == plan.Buy {
					bought++
				}
			}
			joints, opened, screws := map[plan.JointKind]length.Length{}, 0, 0
			var base, casing length.Length
			for _, s := range p.Surfaces {
				for _, r := range s.BaseTrim.Runs {
					base += r[1] - r[0]
				}
				for _, o := range s.Openings {
					r := o.Outline.Bounds()
					if o.Casing == 0 {
						continue
					}
					casing += r.W + 2*o.Casing + 2*(r.H+o.Casing)
					if o.Kind == "window" {
						casing += r.W + 2*o.Casing + 2*o.Casing
					}
				}
				for _, z := range s.Zones {
					opened += z.Opened
					screws += z.Fasteners.Count
					require.Len(t, z.Fasteners.Points, z.Fasteners.Count)
					for _, x := range z.Joints {
						joints[x.Kind] += x.Long()
					}
				}
			}
			sum := p.Summary
			require.Equal(t, bought, sum.SheetsBought)
			require.Equal(t, bought, sold, "the takeoff buys the sheets of the cut list")
			require.LessOrEqual(t, opened, bought, "returns may open sheets of their own")
			require.Equal(t, screws, sum.Screws)
			require.Equal(t, joints[plan.Tapered], sum.TaperedJoint)
			require.Equal(t, joints[plan.Butt], sum.ButtJoint)
			require.Equal(t, joints[plan.Mixed], sum.MixedJoint)
			require.Positive(t, casing)
			require.InDelta(t, perUnit("trim/casing", casing), need["trim/casing"], told, "the casing that is drawn is the casing that is bought")
			require.Positive(t, base)
			require.InDelta(t, perUnit("trim/base", base), need["trim/base"], told)

			require.Equal(t, cost, p.Cost.Material)
			require.Equal(t, p.Cost.Total, p.Cost.Material+p.Cost.Labour+p.Cost.Tax)
			var surfaces, rooms, trades money.Money
			for _, s := range p.Cost.BySurface {
				surfaces += s.Cost
			}
			for _, s := range p.Cost.ByRoom {
				rooms += s.Cost
			}
			for _, s := range p.Cost.ByTrade {
				trades += s.Cost
			}
			require.Equal(t, []money.Money{p.Cost.Total, p.Cost.Total, p.Cost.Total}, []money.Money{surfaces, rooms, trades})

			hours := 0.0
			for _, k := range p.Schedule {
				if k.Kind == "work" {
					hours += k.Hours
				}
			}
			require.InDelta(t, hours, sum.Hours, 0.01*float64(len(p.Schedule)))
			require.InDelta(t, sum.Hours, p.Progress.Left, 0.01)
			for _, a := range p.Answers {
				if a.Aim == string(j.Aim) {
					require.Equal(t, plan.Answer{Aim: a.Aim, Sheets: sum.SheetsBought, Bound: sum.SheetsBound, ButtJoint: sum.ButtJoint, MixedJoint: sum.MixedJoint,
						Pieces: a.Pieces, Hours: sum.Hours, Cost: p.Cost.Total, OwnTime: p.Cost.OwnTime - p.Cost.Labour}, a)
				}
			}
			again := calc.Compared("as drawn", j, p)
			require.Equal(t, []any{sum.SheetsBought, sum.SheetsBound, sum.ButtJoint, sum.MixedJoint, sum.Hours, p.Cost.Total}, []any{again.Sheets, again.Bound, again.ButtJoint, again.MixedJoint, again.Hours, again.Cost})
		})
	}
}
