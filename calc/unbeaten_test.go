package calc_test

import (
	"cmp"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc"
	"seamwright/calc/job"
	"seamwright/calc/money"
	"seamwright/calc/plan"
)

var rooms = flag.Int("rooms", 6, "random rooms planned under every aim and rate")

// rates of an own hour, as a project file writes them; the first states none.
var rates = []string{"", "0", "10", "25", "40", "60", "120"}

// asked is one plan of a room.
type asked struct {
	aim  job.Aim
	rate string
	plan *plan.Plan
}

// planAll plans a project, written without its head, under every aim and rate. They share a memo, which spares the search:
// it knows neither.
func planAll(t *testing.T, body string) (all []asked) {
	memo := calc.NewMemo()
	for _, rate := range rates {
		for _, aim := range []job.Aim{job.AimCost, job.AimSheets, job.AimJoints} {
			site := ""
			if rate != "" {
				site = "site: {rate: " + rate + "}\n"
			}
			p, err := calc.Plan(t.Context(), loaded(t, []byte(fmt.Sprintf("seamwright: 1\nname: Room\naim: %s\n%s%s", aim, site, body))).Job(), memo)
			require.NoError(t, err, body)
			all = append(all, asked{aim, rate, p})
		}
	}
	return all
}

// broken counts the rules that a plan breaks: one that breaks fewer comes before any other.
func broken(p *plan.Plan) (n int) {
	for _, c := range p.Checks {
		if c.Level == plan.Error {
			n++
		}
	}
	return n
}

// measured is what an answer is judged by: sheets and butt joint, butt joint and sheets, or what is printed as its total
// with own hours at the rate, where that is a placeholder of 25 printed beside it.
func measured(p *plan.Plan, aim job.Aim, rate string) (by [3]int64) {
	rough := int64(p.Summary.ButtJoint + p.Summary.MixedJoint)
	switch aim {
	case job.AimSheets:
		return [3]int64{int64(p.Summary.SheetsBought), rough, 0}
	case job.AimJoints:
		return [3]int64{rough, int64(p.Summary.SheetsBought), 0}
	}
	hour := money.Money(2500)
	if rate != "" {
		fmt.Sscan(rate, &hour)
		hour *= 100
	}
	return [3]int64{int64(p.Cost.Material + p.Cost.Tax + hour.Part(int64(math.Round(p.Summary.Hours*100)), 100)), 0, 0}
}

// mustNotBeBeaten holds every answer against all others of the same room in its own measure.
func mustNotBeBeaten(t *testing.T, all []asked, body string) {
	for _, a := range all {
		own := measured(a.plan, a.aim, a.rate)
		for _, b := range all {
			if broken(b.plan) > broken(a.plan) {
				continue
			}
			other := measured(b.plan, a.aim, a.rate)
			require.LessOrEqual(t, compare(own, other), 0, "aim %s, rate %q comes to %v; aim %s, rate %q to %v\n%s", a.aim, a.rate, own, b.aim, b.rate, other, body)
		}
	}
}

func compare(a, b [3]int64) int { return cmp.Or(cmp.Compare(a[0], b[0]), cmp.Compare(a[1], b[1])) }

// Every answer that is named beside a plan is what a plan for that aim prints.
func mustBeAsNamed(t *testing.T, all []asked) {
	for _, a := range all {
		require.Len(t, a.plan.Answers, 3)
		for _, named := range a.plan.Answers {
			for _, b := range all {
				if b.rate != a.rate || string(b.aim) != named.Aim {
					continue
				}
				s, c := &b.plan.Summary, &b.plan.Cost
				require.Equal(t, plan.Answer{Aim: named.Aim, Sheets: s.SheetsBought, Bound: s.SheetsBound, ButtJoint: s.ButtJoint, MixedJoint: s.MixedJoint,
					Pieces: pieces(b.plan), Hours: s.Hours, Cost: c.Total, OwnTime: c.OwnTime - c.Labour}, named)
			}
		}
	}
}

func pieces(p *plan.Plan) (n int) {
	for _, s := range p.Surfaces {
		for _, z := range s.Zones {
			n += len(z.Panels)
		}
	}
	return n
}

// bareRoom is 14 by 12 ft, 9 ft high.
const bareRoom = `rooms:
  - id: room
    height: 9'
    corners: [[0, 0], [14', 0], [14', 12'], [0, 12']]
    ceiling: {framing: {spacing: 16", along: y}, lining: [{product: gyp-12c}]}
defaults: {lining: [{product: gyp-12}]}
`

// A bare room has an answer of 11 sheets without a butt joint and of 11 pieces, for 661.40 of material: nothing less is shown
// where sheets or joints are asked for, nor where own time is worth 60 an hour, and a file that states no rate gets no butt
// joint either.
func TestBareRoom(t *testing.T) {
	all := planAll(t, bareRoom)
	mustNotBeBeaten(t, all, bareRoom)
	mustBeAsNamed(t, all)
	for _, a := range all {
		if a.aim != job.AimCost || a.rate == "60" {
			require.Equal(t, 11, a.plan.Summary.SheetsBought, "%s %s", a.aim, a.rate)
			require.Equal(t, 11, pieces(a.plan), "%s %s", a.aim, a.rate)
		}
		require.Zero(t, a.plan.Summary.ButtJoint+a.plan.Summary.MixedJoint, "%s %s", a.aim, a.rate)
	}
}

// No answer is beaten in its own measure by one that is given for another aim or rate.
func TestRandomRoomsUnderEveryAimAndRate(t *testing.T) {
	r := rand.New(rand.NewPCG(10, 1))
	for range *rooms {
		body := drawRoom(r)
		all := planAll(t, body)
		mustNotBeBeaten(t, all, body)
		mustBeAsNamed(t, all)
	}
}

// drawRoom draws a room, or two that share a partition, with openings, layers, stock, and boards in several sizes.
func drawRoom(r *rand.Rand) string {
	var b strings.Builder
	pick := func(of ...string) string { return of[r.IntN(len(of))] }
	height := 90 + r.IntN(40)
	fmt.Fprintf(&b, "rooms:\n")
	x := 0
	for n := range 1 + r.IntN(5)/4 {
		w, h := 80+r.IntN(160), 80+r.IntN(140)
		fmt.Fprintf(&b, "  - id: r%d\n    height: %d\"\n    corners: [[%d\", 0], [%d\", 0], [%d\", %d\"], [%d\", %d\"]]\n", n, height, x, x+w, x+w, h, x, h)
		if r.IntN(3) > 0 {
			fmt.Fprintf(&b, "    ceiling: {framing: {spacing: %s, along: %s}, lining: [{product: gyp-12c}]}\n", pick(`16"`, `24"`), pick("x", "y"))
		}
		b.WriteString("    walls:\n")
		for side := 1; side <= 4; side++ {
			fmt.Fprintf(&b, "      - {side: %d, framing: {spacing: %s}, lining: [{product: %s, run: %s}]", side, pick(`16"`, `24"`),
				pick("gyp-12", "gyp-12", "gyp-16x", "[gyp-12, gyp-12]"), pick("auto", "across"))
			if r.IntN(3) == 0 {
				fmt.Fprintf(&b, ", openings: [{id: o%d, kind: %s}]", side, pick(`door, at: 20", width: 36", height: 82"`, `window, at: 24", sill: 36", width: 30", height: 40"`))
			}
			b.WriteString("}\n")
		}
		x += w + 5
	}
	if r.IntN(3) == 0 {
		fmt.Fprintf(&b, "stock:\n  - {product: gyp-12, size: [%d\", 48\"], edges: tapered, count: %d}\n", 40+r.IntN(50), 1+r.IntN(3))
	}
	return b.String()
}
