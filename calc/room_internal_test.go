package calc

import (
	"reflect"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/memo"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

// What a room adds depends on these fields; whoever adds one must say whether the key knows it. Where a panel is cut
// from is left out on purpose.
func TestKeyKnowsEveryField(t *testing.T) {
	fields := func(v any) (names []string) {
		for i := range reflect.TypeOf(v).NumField() {
			names = append(names, reflect.TypeOf(v).Field(i).Name)
		}
		return names
	}
	require.Equal(t, []string{"ID", "Outline", "Holes", "Course", "Sheet", "Edges"}, fields(plan.Panel{}))
	require.Equal(t, []string{"Kind", "From", "To", "Panels", "Support"}, fields(plan.Joint{}))

	square := shape.Rect{W: 8, H: 4}.Polygon()
	fresh := func() *plan.Plan {
		z := plan.Zone{Run: "across", Panels: []plan.Panel{{ID: "A-01", Outline: square, Holes: []shape.Polygon{square}, Sheet: "S001"}},
			Joints: []plan.Joint{{Kind: plan.Butt, Panels: []string{"A-01", "A-02"}}}}
		return &plan.Plan{Surfaces: []plan.Surface{{ID: "r/w", Zones: []plan.Zone{z}}}, Returns: []plan.Return{{ID: "A-d-head", Sheet: "S002"}}}
	}
	key := func(p *plan.Plan) memo.Key { return shareKey(&memo.Writer{}, survey.Room{}, p) }
	before := key(fresh())
	require.Equal(t, before, key(fresh()))
	for name, change := range map[string]func(*plan.Plan, *plan.Zone){
		"run":     func(_ *plan.Plan, z *plan.Zone) { z.Run = "along" },
		"id":      func(_ *plan.Plan, z *plan.Zone) { z.Panels[0].ID = "B-01" },
		"outline": func(_ *plan.Plan, z *plan.Zone) { z.Panels[0].Outline = shape.Rect{W: 9, H: 4}.Polygon() },
		"hole":    func(_ *plan.Plan, z *plan.Zone) { z.Panels[0].Holes = nil },
		"course":  func(_ *plan.Plan, z *plan.Zone) { z.Panels[0].Course = 2 },
		"edge":    func(_ *plan.Plan, z *plan.Zone) { z.Panels[0].Edges[3] = plan.EdgeCut },
		"kind":    func(_ *plan.Plan, z *plan.Zone) { z.Joints[0].Kind = plan.Mixed },
		"from":    func(_ *plan.Plan, z *plan.Zone) { z.Joints[0].From.X = 1 },
		"to":      func(_ *plan.Plan, z *plan.Zone) { z.Joints[0].To.Y = 1 },
		"panels":  func(_ *plan.Plan, z *plan.Zone) { z.Joints[0].Panels = []string{"A-01"} },
		"support": func(_ *plan.Plan, z *plan.Zone) { z.Joints[0].Support = plan.OnMember },
		"return":  func(p *plan.Plan, _ *plan.Zone) { p.Returns[0].Size[0] = 1 },
	} {
		p := fresh()
		change(p, &p.Surfaces[0].Zones[0])
		require.NotEqual(t, before, key(p), name)
	}
	p := fresh()
	p.Surfaces[0].Zones[0].Panels[0].Sheet, p.Returns[0].Sheet = "S009", "S010"
	require.Equal(t, before, key(p), "sheets are no part of it")
}
