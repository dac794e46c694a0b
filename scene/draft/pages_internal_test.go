package draft

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
)

func TestSheetsText(t *testing.T) {
	zone := func(opened, bound int) plan.Zone {
		return plan.Zone{Zone: 1, Opened: opened, Bound: bound, Panels: []plan.Panel{{ID: "x"}}}
	}
	few := func(p *plan.Plan, s *plan.Surface) string { // at its shortest but one
		d := &stripSheet{p: p, say: voice(nil, nil)}
		all := d.sheetsText(s)
		return all[max(0, len(all)-2)]
	}
	for want, zones := range map[string][]plan.Zone{
		"left open":              {},
		"8 sheets, none fewer":   {zone(8, 8)},
		"9 sheets, at least 8":   {zone(9, 8)},
		"1 sheet":                {zone(1, 0)},
		"7 sheets":               {zone(3, 3), zone(4, 0)}, // a bound for one zone only is none for the wall
		"5 sheets":               {zone(5, 6)},             // offcuts of other walls went in: the bound says nothing
		"16 sheets, at least 15": {zone(8, 8), zone(8, 7)},
	} {
		require.Equal(t, want, few(&plan.Plan{}, &plan.Surface{Zones: zones}))
	}
	// Offcuts of another wall may serve this one: what is proven holds for it alone.
	two := &plan.Plan{Surfaces: []plan.Surface{{ID: "a/b", Zones: []plan.Zone{zone(8, 8)}}, {ID: "a/c", Zones: []plan.Zone{zone(9, 8)}}, {ID: "a/d"}}}
	require.Equal(t, "8 sheets, by itself no fewer", few(two, &two.Surfaces[0]))
	require.Equal(t, "9 sheets, by itself at least 8", few(two, &two.Surfaces[1]))
	require.Equal(t, "left open", few(two, &two.Surfaces[2]))
	p := &plan.Plan{Cost: plan.Cost{BySurface: []plan.SurfaceCost{{Surface: "a/b", Sheets: 6}}}}
	require.Equal(t, "6 sheets", few(p, &plan.Surface{ID: "a/b", Zones: []plan.Zone{zone(0, 0)}}))
	require.Equal(t, "from offcuts", few(p, &plan.Surface{ID: "a/c", Zones: []plan.Zone{zone(0, 0)}}))
}

// Days are columns; the hours of work fill a column, nights take no room, a weekend is narrow.
func TestSequenceColumns(t *testing.T) {
	p := &plan.Plan{Schedule: []plan.Task{
		{ID: "a", Kind: "work", Day: "2027-03-05", Start: "2027-03-05T08:00", Finish: "2027-03-05T14:00"}, // a Friday
		{ID: "b", Kind: "wait", Start: "2027-03-05T14:00", Finish: "2027-03-06T14:00"},
		{ID: "c", Kind: "work", Day: "2027-03-08", Start: "2027-03-08T08:00", Finish: "2027-03-08T11:00"}, // the Monday after
		{ID: "d", Kind: "work", Start: "never", Finish: "2027-03-08T11:00"},
	}}
	rows := SequenceRows(p, nil)
	l := laySequence(rows)
	require.Equal(t, []bool{true, false, false, true}, l.busy)
	require.Equal(t, []float64{seqNames, seqNames + seqDay, seqNames + seqDay + seqIdle, seqNames + seqDay + 2*seqIdle, seqNames + 2*seqDay + 2*seqIdle}, l.days)
	require.Equal(t, seqNames, l.x(l.start[0]))
	require.Equal(t, seqNames+seqDay, l.x(l.end[0]))
	require.Equal(t, l.days[3]+seqDay/2, l.x(l.end[2])) // three of six hours
	require.Equal(t, "c", SequenceHit(rows, Pt{}, Pt{10, seqHead + 2.5*seqRow}))
	require.Equal(t, "c", SequenceHit(rows, Pt{0, seqRow}, Pt{10, seqHead + 1.5*seqRow}))
	require.Equal(t, "", SequenceHit(rows, Pt{}, Pt{10, 3}))
	require.Equal(t, "", SequenceHit(rows, Pt{}, Pt{10, seqHead + 9*seqRow}))
	w, h := SequenceSize(rows)
	require.Equal(t, l.days[4]+12, w)
	require.Equal(t, seqHead+4*seqRow+seqFoot, h)
}

// Steps of one trade in one room on one day stand in one row, which opens; waits stand by themselves, and a step in a closed
// group is found with the group.
func TestSequenceRows(t *testing.T) {
	step := func(id, kind string, trade plan.Trade, start string, hours float64, done bool, pieces ...string) plan.Task {
		return plan.Task{ID: id, Name: plan.Verbatim("do " + id), Kind: kind, Room: "studio", Trade: trade, Day: start[:10], Start: start, Finish: start[:11] + "18:00",
			Hours: hours, Slack: hours, Done: done, Pieces: pieces}
	}
	p := &plan.Plan{Schedule: []plan.Task{
		step("a", "work", plan.Hang, "2027-03-05T08:00", 2, true, "S-01", "S-02"),
		step("dry", "wait", plan.Finish, "2027-03-05T09:00", 24, false),
		step("b", "work", plan.Hang, "2027-03-05T10:00", 3, false, "E-01"),
		step("c", "work", plan.Hang, "2027-03-06T08:00", 1, false),
	}}
	rows := SequenceRows(p, nil)
	require.Len(t, rows, 3)
	require.Equal(t, []int{0, 1, 0, 2, -1}, []int{RowOf(rows, "a"), RowOf(rows, "dry"), RowOf(rows, "b"), RowOf(rows, "c"), RowOf(rows, "z")})
	group := rows[0]
	require.Nil(t, group.Step())
	require.Equal(t, "Studio, hang: 2 steps, 3 pieces", group.Name(nil, voice(nil, nil)))
	require.Equal(t, []float64{5, 2}, []float64{group.Hours, group.Slack})
	require.False(t, group.Done, "half of it is")
	open := SequenceRows(p, map[string]bool{group.ID: true})
	require.Len(t, open, 5)
	require.True(t, open[0].Open && open[1].Within && open[2].Within && !open[3].Within)
	require.Equal(t, []int{1, 2}, []int{RowOf(open, "a"), RowOf(open, "b")})
	require.Empty(t, SequenceRows(nil, nil))
}

// Of each zone the layer asked for is shown, else its outermost.
func TestShownZones(t *testing.T) {
	s := &plan.Surface{Zones: []plan.Zone{{Zone: 1, Layer: 1}, {Zone: 2, Layer: 1}, {Zone: 2, Layer: 2}}}
	require.Equal(t, []int{0, 2}, shownZones(s, 0))
	require.Equal(t, []int{0, 1}, shownZones(s, 1))
	require.Equal(t, []int{0, 2}, shownZones(s, 2))
	require.Equal(t, []int{0, 2}, shownZones(s, 7))
}

// Months between a step that was ticked off early and the next take no more room than a week would.
func TestRestingWeeksTakeLittleRoom(t *testing.T) {
	p := &plan.Plan{Schedule: []plan.Task{
		{ID: "a", Kind: "work", Day: "2026-11-25", Start: "2026-11-25T08:00", Finish: "2026-11-25T10:00"},
		{ID: "b", Kind: "work", Day: "2027-03-01", Start: "2027-03-01T08:00", Finish: "2027-03-01T14:00"},
	}}
	w, _ := SequenceSize(SequenceRows(p, nil))
	require.InDelta(t, seqNames+2*seqDay+seqRest+12, w, 1e-6)
}

// A builder must be able to read where every cut goes, in a narrow window too: the list stands below the sheet there,
// and wherever that leaves the sheet larger.
func TestCutsAreListedWhereverTheyFit(t *testing.T) {
	sh := &plan.Sheet{Size: [2]length.Length{12 * length.Foot, 4 * length.Foot}, Cuts: make([]plan.Cut, 8)}
	for _, k := range []struct {
		w, h  float64
		below bool
		none  bool
	}{{w: 500, h: 640, below: true}, {w: 930, h: 700, below: true}, {w: 900, h: 280}, {w: 300, h: 200, none: true}} {
		into := Rect{10, 10, k.w, k.h}
		v, list := cutView(sh, nil, into, 0)
		sheet := rectBox(v, shape.Rect{W: sh.Size[0], H: sh.Size[1]})
		require.Equal(t, k.none, list.W == 0, "%v", k)
		if k.none {
			continue
		}
		require.False(t, sheet.Meets(list), "%v", k)
		require.Equal(t, k.below, list.Y >= sheet.Y+sheet.H+cutFoot, "%v", k)
		require.LessOrEqual(t, list.Y+list.H, into.Y+into.H+1e-6)
		require.GreaterOrEqual(t, list.H, cutListRow*float64(len(sh.Cuts)+2), "every cut has its line: %v", k)
	}
}

// A notch narrower than a block of words keeps it away, from whichever side it comes in; beside a slope it may lie.
func TestNotchesKeepWordsAway(t *testing.T) {
	box := Rect{X: 40, Y: 20, W: 20, H: 10}
	whole := []Pt{{0, 0}, {100, 0}, {100, 50}, {0, 50}}
	require.True(t, holds(whole, box))
	for _, end := range []float64{25, 10} { // its end lies in the box, or beyond it
		require.False(t, holds([]Pt{{0, 0}, {100, 0}, {100, 50}, {52, 50}, {52, end}, {48, end}, {48, 50}, {0, 50}}, box))
	}
	require.True(t, holds([]Pt{{0, 0}, {100, 0}, {100, 50}, {52, 50}, {52, 35}, {48, 35}, {48, 50}, {0, 50}}, box))
	require.True(t, holds([]Pt{{0, 0}, {100, 0}, {100, 50}, {80, 50}}, Rect{X: 80, Y: 20, W: 15, H: 10}))
}
