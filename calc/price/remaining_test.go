package price_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/job"
	"seamwright/calc/money"
	"seamwright/calc/plan"
	"seamwright/calc/policy"
	"seamwright/calc/survey"
)

func row(t *testing.T, p *plan.Plan, item string) plan.Item {
	for _, r := range p.Takeoff {
		if r.Record == item {
			return r
		}
	}
	require.Fail(t, "no row "+item)
	return plan.Item{}
}

// A room half of whose joints are coated: half the compound is expected to be used, half is left. Compound comes in
// pails of 4.5 gal here (invented), so that pails follow by hand.
func TestUsedAndLeft(t *testing.T) {
	j, b, p := room(16*foot, 12*foot, 8*foot, 4)
	p.Schedule = []plan.Task{{ID: "coat-1-r", Step: plan.TapeStep, Kind: "work", Room: "r", Hours: 3, Done: true}, {ID: "coat-2-r", Step: plan.CoatStep, Kind: "work", Room: "r", Hours: 3}}
	priced(j, b, p)
	c := row(t, p, "joint compound")
	require.InDelta(t, c.Need/2, c.Expected, 1e-4)
	require.InDelta(t, c.Need/2, c.Left, 1e-4)
	require.Zero(t, c.Used)
	require.Equal(t, 4.5, c.Holds)
	require.Equal(t, 1, c.StillBuy, "nothing is recorded as used, so the first pail is still to be bought")

	j.Progress = []job.Done{{Task: "coat-1-r", Used: []job.Used{{Item: "joint compound", Quantity: 2}, {Item: "floor-paper", Quantity: 10}}}}
	priced(j, b, p)
	c = row(t, p, "joint compound")
	require.InDelta(t, 2, c.Used, 1e-9)
	want := 0
	if c.Used+c.Left > 4.5 {
		want = 1
	}
	require.Equal(t, want, c.StillBuy, "one pail is open")
	require.Equal(t, c.Price.Times(want), c.StillPay)
	paper := row(t, p, "floor paper") // named by its supply; no task of its own
	require.InDelta(t, paper.Need-10, paper.Left, 1e-4)

	j.Progress[0].Used[0].Quantity = 9 // far more than was reckoned with
	priced(j, b, p)
	c = row(t, p, "joint compound")
	require.Equal(t, 1, c.StillBuy, "two pails are empty; the other half needs a third")
}

// Cans of two sizes are one thing to the painter: what is recorded fills the rows in turn, and everything used is counted once.
func TestUsedOverTwoPacks(t *testing.T) {
	var rows []plan.Item
	var j *job.Job
	var b *survey.Building
	var p *plan.Plan
	for wide := 12 * foot; len(rows) < 2; wide += foot { // until a can beside the pails costs least
		require.Less(t, wide, 80*foot)
		j, b, p = room(wide, 30*foot, 12*foot, 4)
		priced(j, b, p)
		rows = nil
		for _, r := range p.Takeoff {
			if r.Supply == "paint" {
				rows = append(rows, r)
			}
		}
	}
	j.Progress = []job.Done{{Task: "paint-1-r", Used: []job.Used{{Item: "wall and ceiling paint", Quantity: rows[0].Need + 0.5}}}}
	priced(j, b, p)
	used := 0.0
	for _, r := range p.Takeoff {
		if r.Supply == "paint" {
			used += r.Used
		}
	}
	require.InDelta(t, rows[0].Need+0.5, used, 1e-3)
	require.InDelta(t, rows[0].Need, row(t, p, rows[0].Record).Used, 1e-3)
}

// pieces are the panels of a surface.
func pieces(p *plan.Plan, surface int) (ids []string) {
	for _, z := range p.Surfaces[surface].Zones {
		for _, q := range z.Panels {
			ids = append(ids, q.ID)
		}
	}
	return ids
}

// When every task is ticked nothing is left to buy; before any is, everything is.
func TestLeftToBuyFallsToNothing(t *testing.T) {
	j, b, p := room(16*foot, 12*foot, 8*foot, 4)
	for i := range p.Surfaces {
		p.Schedule = append(p.Schedule, plan.Task{Step: plan.HangStep, Kind: "work", Hours: 2, Pieces: pieces(p, i)})
	}
	for _, step := range []plan.Step{plan.BeadStep, plan.TapeStep, plan.CoatStep, plan.SmoothStep, plan.SandStep, plan.MaskStep, plan.PrimeStep, plan.PaintStep, plan.BaseStep, plan.CoverStep} {
		p.Schedule = append(p.Schedule, plan.Task{Step: step, Kind: "work", Room: "r", Hours: 2})
	}
	priced(j, b, p)
	require.Equal(t, p.Cost.Material, p.Progress.LeftToBuy)
	last := p.Progress.LeftToBuy
	for i := range p.Schedule {
		p.Schedule[i].Done = true
		priced(j, b, p)
		require.LessOrEqual(t, p.Progress.LeftToBuy, last)
		last = p.Progress.LeftToBuy
	}
	for _, r := range p.Takeoff {
		require.Zero(t, r.StillBuy, r.Item)
	}
}

// What is left to buy comes from the pieces that are not up: a sheet is bought when the first of its pieces hangs, whatever
// hours its task was to take, and those that no piece up was cut from are still to buy. So do screws: theirs are the share
// by area of what hangs.
func TestSheetsFollowTheirPieces(t *testing.T) {
	j, b, p := room(16*foot, 12*foot, 8*foot, 4)
	priced(j, b, p)
	require.Len(t, p.Sheets[0].Parts, 1)
	p.Sheets[1].Parts = append(p.Sheets[1].Parts, p.Sheets[0].Parts...) // a leftover: the first sheet goes, its piece from the second
	p.Sheets = p.Sheets[1:]
	first := []string{p.Sheets[0].Parts[0].Panel, p.Sheets[0].Parts[1].Panel}
	var rest []string
	for i := range p.Surfaces {
		for _, id := range pieces(p, i) {
			if id != first[0] && id != first[1] {
				rest = append(rest, id)
			}
		}
	}
	p.Schedule = []plan.Task{
		{Step: plan.HangStep, Hours: 9, Done: true, Pieces: first[:1]},
		{Step: plan.HangStep, Hours: 1, Pieces: append(rest, first[1])},
	}
	priced(j, b, p)
	sheets, screws := 0, 0
	for _, r := range p.Takeoff {
		switch r.Kind {
		case plan.SheetKind:
			sheets++
			require.InDelta(t, 1, r.Expected, 1e-9)
			require.Equal(t, r.Buy-1, r.StillBuy)
		case "screw":
			screws++
			require.Less(t, r.Expected, r.Need/4, "one piece of many is up, though its task took most of the hours")
			require.Positive(t, r.Expected)
		}
	}
	require.Equal(t, []int{1, 1}, []int{min(sheets, 1), min(screws, 1)})
	p.Schedule[0].Pieces = first
	priced(j, b, p)
	require.InDelta(t, 1, row(t, p, "gyp-12 4x8").Expected, 1e-9, "both pieces come from one sheet")
}

// Quote of 5,400 against the outlay: what is saved is what own hours earn.
func TestHiredCrew(t *testing.T) {
	j, b, p := room(16*foot, 12*foot, 8*foot, 4)
	p.Summary.Hours, p.Summary.Days = 60, 9
	priced(j, b, p)
	require.Zero(t, p.Cost.Hired.Quote)
	require.NotEmpty(t, p.Cost.Hired.Basis)
	j.Site.Quote, j.Figures = 540000, map[string]float64{"quote-days": 4}
	priced(j, b, p)
	h := p.Cost.Hired
	require.Equal(t, money.Money(540000)-p.Cost.Material-p.Cost.Tax, h.Saved)
	require.Equal(t, []float64{60, 9, 4}, []float64{h.OwnHours, float64(h.OwnDays), h.CrewDays})
	require.InDelta(t, h.Saved.Float()/60, h.BreakEven.Float(), 0.01)
}

// Weights, stacks and the way in of a room's sheets: 4x12 sheets of 1/2 in board at 7.8 kg/m² weigh 34.8 kg, more than
// one person's 23.1; 40 lb/ft² are 195.3 kg/m², under 25 such sheets (arithmetic on read values).
func TestHandling(t *testing.T) {
	j, b, p := room(16*foot, 12*foot, 12*foot, 4)
	j.Site.Access = job.Access{DoorWidth: 36 * inch, DoorHeight: 80 * inch, Corridor: 48 * inch, Turn: 42 * inch}
	priced(j, b, p)
	h := p.Handling
	require.Len(t, h.Sheets, 1)
	s := h.Sheets[0]
	require.InDelta(t, 34.8, s.Weight, 0.05)
	require.True(t, s.TwoPeople)
	require.Equal(t, 25, s.Stack)
	require.False(t, s.Passes)
	require.Equal(t, policy.RoundCorner(48*inch, 36*inch), s.Longest, "from the corridor through the door is the tightest")
	require.Equal(t, len(p.Sheets), s.Count)
	require.InDelta(t, h.Delivery/(12*4*0.3048*0.3048), h.Stacked, 0.1)
	require.InDelta(t, h.Delivery/195.3, h.Needs, 0.1)
	j.Site.Access = job.Access{StairWidth: 30 * inch, StairHeight: 78 * inch, Corridor: 36 * inch}
	longest, ok := policy.LongestSheet(j.Site.Access, 48*inch)
	require.True(t, ok)
	require.Equal(t, policy.RoundCorner(30*inch, 36*inch), longest)
	_, ok = policy.LongestSheet(job.Access{StairHeight: 47 * inch}, 48*inch)
	require.False(t, ok, "a 48 in sheet under 47 in of headroom")
}
