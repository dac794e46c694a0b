package check_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/check"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

// looks is what the list before covering names, by kind.
func looks(w *wall) map[string][]plan.Look {
	surface := w.surveyed.Surface
	surface.Zones = []plan.Zone{w.planned}
	p := &plan.Plan{Surfaces: []plan.Surface{surface}}
	check.Check(&w.job, &survey.Building{Surfaces: []*survey.Surface{w.surveyed}}, p)
	byKind := map[string][]plan.Look{}
	for _, l := range p.Before {
		byKind[l.What] = append(byKind[l.What], l)
	}
	return byKind
}

// Every wall has its members looked at; gypsum its blocking; boxes one by one, deep ones with what they need (NEC
// 314.20: 1/4 in behind board, read); keep-outs their nail plates.
func TestBeforeCovering(t *testing.T) {
	w := sound()
	found := looks(w)
	require.Contains(t, said(found["studs"][0].Text), "13 members")
	require.Len(t, found["blocking"], 1)
	require.Len(t, found["insulation"], 1)
	require.Empty(t, found["box"])
	require.Empty(t, found["plates"])
	w.surveyed.Wall.Boxes = []job.Box{{At: 5 * ft, Up: 16 * in, Width: 2 * in, Height: 4 * in, Kind: "outlet"}, {At: 9 * ft, Up: 16 * in, Width: 2 * in, Height: 4 * in, SetOut: in / 2}}
	found = looks(w)
	require.Len(t, found["box"], 2)
	require.Contains(t, said(found["box"][0].Text), `bring it out 1/4"`)
	require.Contains(t, said(found["box"][1].Text), "within what is allowed")
	require.Equal(t, []shape.Point{{X: 5 * ft, Y: 16 * in}, {X: 9 * ft, Y: 16 * in}}, found["plates"][0].At)
	for _, all := range found {
		for _, l := range all {
			require.NotEmpty(t, l.Source)
			require.NotContains(t, said(l.Text), "compliant")
			require.Equal(t, "studio/south", l.Surface)
		}
	}
	w.asked.Product = &w.job.Products[1]
	require.Empty(t, looks(w)["blocking"], "plywood holds anywhere")
	w.surveyed.Wall.Insulation = job.KraftBatt
	require.Contains(t, said(looks(w)["insulation"][0].Text), "facing is not left open")
}

// A ceiling whose joists run along y at 16 in from its middle: the edges along them at both ends lie 8 in beside the
// last joist and want backing (IBC 2508.3, read); with a joist at the wall they do not.
func TestBackingAtCeilingEdges(t *testing.T) {
	w := sound()
	w.surveyed.Kind, w.surveyed.Wall, w.surveyed.Ceiling = plan.Ceiling, nil, &job.Ceiling{Framing: job.Framing{Spacing: 16 * in, Member: 3 * in / 2}}
	w.surveyed.Studs = nil
	for x := 8 * in; x < 16*ft; x += 16 * in {
		w.surveyed.Studs = append(w.surveyed.Studs, survey.Member{At: x, Width: 3 * in / 2})
	}
	found := looks(w)["backing"]
	require.Len(t, found, 1)
	require.Len(t, found[0].At, 2)
	require.Contains(t, said(found[0].Text), "16' 1\"")
	for _, x := range []length.Length{3 * in / 4, 16*ft - 3*in/4} {
		w.surveyed.Studs = append(w.surveyed.Studs, survey.Member{At: x, Width: 3 * in / 2})
	}
	require.Empty(t, looks(w)["backing"])
}
