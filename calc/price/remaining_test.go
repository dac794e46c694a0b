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
		if r.Item == item {
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
	p.Schedule = []plan.Task{{ID: "coat-1-r", Kind: "work", Room: "r", Hours: 3, Done: true}, {ID: "coat-2-r", Kind: "work", Room: "r", Hours: 3}}
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
	require.Equal(t, c.Price.Times(float64(want)), c.StillPay)
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
	require.InDelta(t, rows[0].Need, row(t, p, rows[0].Item).Used, 1e-3)
}

// When every task is ticked nothing is left to buy; before any is, everything is.
func TestLeftToBuyFallsToNothing(t *testing.T) {
	j, b, p := room(16*foot, 12*foot, 8*foot, 4)
	for _, id := range []string{"hang-1", "coat-1-r", "prime-1-r", "paint-1-r", "trim-r"} {
		p.Schedule = append(p.Schedule, plan.Task{ID: id, Kind: "work", Room: "r", Product: map[bool]string{true: "gyp-12"}[id == "hang-1"], Hours: 2})
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
		if r.Group != "sundries" && r.Group != "paint" {
			require.Zero(t, r.StillBuy, r.Item)
		}
	}
}

// Sheets are used up by the tasks that hang their own product: a ceiling that hangs leaves the board of the walls whole.
func TestSheetsFollowTheirProduct(t *testing.T) {
	j, b, p := room(16*foot, 12*foot, 8*foot, 4)
	p.Schedule = []plan.Task{{ID: "hang-c", Product: "gyp-16x", Hours: 3, Done: true}, {ID: "hang-w1", Product: "gyp-12", Hours: 2, Done: true}, {ID: "hang-w2", Product: "gyp-12", Hours: 6}}
	priced(j, b, p)
	seen := false
	for _, r := range p.Takeoff {
		if r.Group == "sheets" {
			seen = true
			require.Equal(t, "gyp-12", r.Supply)
			require.InDelta(t, float64(r.Buy)/4, r.Expected, 1e-4, "2 h of 8 h: %s", r.Item)
		}
	}
	require.True(t, seen)
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
