package price_test

import (
	"fmt"
	"math"
	"math/big"
	"math/rand/v2"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamwright/calc/fasten"
	"seamwright/calc/finish"
	"seamwright/calc/internal/sample"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/money"
	"seamwright/calc/plan"
	"seamwright/calc/policy"
	"seamwright/calc/price"
	"seamwright/calc/survey"
)

const (
	inch = length.Inch
	foot = length.Foot
)

// A spare that is nothing adds nothing, and a whole number of sheets is not rounded up.
func TestSpare(t *testing.T) {
	require.Zero(t, price.Spare(20, 0))
	require.Equal(t, 1, price.Spare(20, 0.05), "exactly 21 is not rounded up to 22")
}

// The corner formula against its derivation: the least over all angles of a/sin t + b/cos t, found by golden section.
func TestRoundCornerAgainstCalculus(t *testing.T) {
	require.Equal(t, length.Length(math.Floor(2*math.Sqrt2*float64(48*inch))), policy.RoundCorner(48*inch, 48*inch), "equal corridors: 2 sqrt 2 a")
	require.InDelta(t, math.Pow(13, 1.5), policy.RoundCorner(8*length.Metre, 27*length.Metre).Metres(), 1e-6, "8 and 27: (4 + 9)^1.5")
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.IntRange(20, 120).Draw(t, "a"), rapid.IntRange(20, 120).Draw(t, "b")
		rod := func(angle float64) float64 { return float64(a)/math.Sin(angle) + float64(b)/math.Cos(angle) }
		lo, hi := 0.01, math.Pi/2-0.01
		for range 200 {
			g := (math.Sqrt(5) - 1) / 2
			if x, y := hi-g*(hi-lo), lo+g*(hi-lo); rod(x) < rod(y) {
				hi = y
			} else {
				lo = x
			}
		}
		require.InDelta(t, rod((lo+hi)/2), policy.RoundCorner(length.Length(a)*inch, length.Length(b)*inch).In(), 1e-4)
	})
}

// The format's own example of a way in: door 36 by 80 in, corridor 48 in, turn 42 in. An 8 ft and a 10 ft sheet go
// round, a 12 ft one does not.
func TestWayIn(t *testing.T) {
	a := job.Access{DoorWidth: 36 * inch, DoorHeight: 80 * inch, Corridor: 48 * inch, Turn: 42 * inch}
	longest, ok := policy.LongestSheet(a, 48*inch)
	require.True(t, ok)
	require.Greater(t, longest, 8*foot)
	require.Less(t, longest, 12*foot)
	_, ok = policy.LongestSheet(job.Access{DoorHeight: 40 * inch, DoorWidth: 30 * inch}, 48*inch)
	require.False(t, ok, "a 48 in sheet under a 40 in hatch")
	free, ok := policy.LongestSheet(job.Access{}, 48*inch)
	require.True(t, ok && free == 0)

	j, b, p := room(16*foot, 12*foot, 12*foot, 4)
	priced(j, b, p)
	j.Site.Access = a
	rules := map[string]bool{}
	for _, c := range price.Checks(j, p) {
		require.Equal(t, plan.Caution, c.Level)
		rules[c.Rule] = true
	}
	require.True(t, rules["access"] && rules["lifting"], "12 ft sheets of 1/2 in board: too long here, and 76.8 lb")
}

// Cover against every combination of up to three packs.
func TestCoverIsLeastCost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 3).Draw(t, "packs")
		packs, holds := make([]job.Pack, n), make([]float64, n)
		for i := range packs {
			holds[i] = float64(rapid.IntRange(1, 20).Draw(t, "holds")) / 4
			packs[i] = job.Pack{Name: fmt.Sprint(i), Holds: holds[i], Unit: "gal", Price: money.Money(rapid.IntRange(1, 5000).Draw(t, "price"))}
		}
		need := rapid.Float64Range(0.01, 12).Draw(t, "need")
		chosen, cost := price.Cover(packs, holds, need)
		held, paid := 0.0, money.Money(0)
		for _, c := range chosen {
			held += c.Pack.Holds * float64(c.Count)
			paid += c.Pack.Price.Times(c.Count)
		}
		require.GreaterOrEqual(t, held, need-1e-6)
		require.Equal(t, paid, cost)
		best := money.Money(math.MaxInt64)
		var try func(i int, held float64, cost money.Money)
		try = func(i int, held float64, cost money.Money) {
			if held >= need {
				best = min(best, cost)
				return
			}
			if i == n {
				return
			}
			for k := 0; ; k++ {
				try(i+1, held+float64(k)*holds[i], cost+packs[i].Price.Times(k))
				if held+float64(k)*holds[i] >= need {
					return
				}
			}
		}
		try(0, 0, 0)
		require.Equal(t, best, cost)
	})
}

// Two gallons in cans, five in a pail, by price.
func TestCansAtLeastCost(t *testing.T) {
	packs := []job.Pack{{Name: "1 gal", Holds: 1, Price: 3800}, {Name: "5 gal", Holds: 5, Price: 15500}}
	for _, c := range []struct {
		need float64
		want money.Money
	}{{0.2, 3800}, {2, 7600}, {4, 15200}, {4.1, 15500}, {6, 19300}, {9.5, 31000}} {
		_, cost := price.Cover(packs, []float64{1, 5}, c.need)
		require.Equal(t, c.want, cost, "%v gal", c.need)
	}
}

// Units by definition: foot, gallon of 231 cubic inches, pound.
func TestConvert(t *testing.T) {
	for _, c := range []struct {
		n        float64
		from, to string
		want     float64
	}{{1, "ft", "m", 0.3048}, {1, "gal", "L", 231 * 16.387064 / 1000}, {100, "ft2", "m2", 9.290304}, {50, "lb", "kg", 22.6796185}, {3, "count", "count", 3}} {
		got, ok := price.Convert(c.n, c.from, c.to)
		require.True(t, ok)
		require.InDelta(t, c.want, got, 1e-9)
	}
	_, ok := price.Convert(1, "ft", "gal")
	require.False(t, ok)
}

// Sheet names in trade words.
func TestSizeNames(t *testing.T) {
	require.Equal(t, "4x8", job.SizeName(8*foot, 4*foot, true))
	require.Equal(t, "4.5x12", job.SizeName(12*foot, 54*inch, true))
	require.Equal(t, "24x49 in", job.SizeName(49*inch, 24*inch, true))
	require.Equal(t, "1200x2400 mm", job.SizeName(2400*length.Millimetre, 1200*length.Millimetre, false))
	require.Equal(t, "1200x2400 mm", job.SizeName(2400*length.Millimetre, 1200*length.Millimetre, true))
}

// Parts of an amount add up to it, and none is more than a hundredth from its share.
func TestApportion(t *testing.T) {
	require.Equal(t, []money.Money{34, 33, 33}, price.Apportion(100, []int64{1, 1, 1}))
	require.Equal(t, []money.Money{-50, -51}, price.Apportion(-101, []int64{10000, 10001}))
	rapid.Check(t, func(t *rapid.T) {
		amount := money.Money(rapid.Int64Range(-1e9, 1e9).Draw(t, "amount"))
		weights := rapid.SliceOfN(rapid.Int64Range(0, 1e12), 1, 30).Draw(t, "weights")
		total := 0.0
		for _, w := range weights {
			total += float64(w)
		}
		sum := money.Money(0)
		for i, part := range price.Apportion(amount, weights) {
			sum += part
			if total > 1 {
				require.InDelta(t, float64(amount)*float64(weights[i])/total, float64(part), 1.001)
			}
		}
		require.Equal(t, amount, sum)
	})
}

// Break-even: a quote of 5,400 against 3,000 of outlay and 60 hours makes an own hour worth 40; at that worth both cost
// the same.
func TestBreakEven(t *testing.T) {
	require.Equal(t, money.Money(4000), price.BreakEven(540000, 300000, 60))
	require.Zero(t, price.BreakEven(0, 300000, 60))
	require.Negative(t, price.BreakEven(100000, 300000, 60))
	j, b, p := room(16*foot, 12*foot, 8*foot, 4)
	j.Site.Quote, p.Summary.Hours = 540000, 60
	priced(j, b, p)
	j.Site.Rate = p.Cost.BreakEven
	priced(j, b, p)
	require.InDelta(t, float64(j.Site.Quote), float64(p.Cost.Total), p.Summary.Hours, "to the rounding of the rate")
}

func room(w, d, long length.Length, finishLevel int) (*job.Job, *survey.Building, *plan.Plan) {
	j := sample.Job()
	b, p := sample.Room(j, "r", "gyp-12", w, d, 8*foot, long, finishLevel)
	return j, b, p
}

func priced(j *job.Job, b *survey.Building, p *plan.Plan) {
	fasten.Fasten(j, b, p)
	price.Price(j, p, finish.Finish(j, b, p, nil, finish.Thorough), finish.Measures(j, b, p))
}

// Takeoff, cut list and cost agree to the piece and the cent on 2,000 random rooms: every line is price times count,
// the sum is the material, tax is taken once, and the parts by surface, room and trade add up to the total.
func TestAccountsAgree(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	for range 2000 {
		long := []length.Length{8 * foot, 12 * foot}[r.IntN(2)]
		product := []string{"gyp-12", "gyp-16x", "ply-18"}[r.IntN(3)]
		j := sample.Job()
		w, d := length.Length(40+r.IntN(300))*inch, length.Length(40+r.IntN(200))*inch
		b, p := sample.Room(j, "r", product, w, d, length.Length(84+r.IntN(60))*inch, long, r.IntN(6))
		p.Summary.Hours = float64(r.IntN(20000)) / 100
		j.Site.TaxRate, j.Site.Rate = float64(r.IntN(2000))/10000, money.Money(r.IntN(5000))
		priced(j, b, p)
		material, sheets := money.Money(0), 0
		for _, row := range p.Takeoff {
			require.Equal(t, row.Price.Times(row.Buy), row.Cost)
			require.NotEmpty(t, row.Basis)
			material += row.Cost
			if row.Group == "sheets" {
				sheets += row.Buy
				require.LessOrEqual(t, row.Need, float64(row.Buy)+1e-9)
			}
		}
		require.Equal(t, len(p.Sheets), sheets)
		c := p.Cost
		require.Equal(t, material, c.Material)
		require.Equal(t, ofDecimal(material, j.Site.TaxRate), c.Tax)
		require.Equal(t, ofDecimal(j.Site.Rate, p.Summary.Hours), c.Labour)
		require.Equal(t, c.Total, c.Material+c.Labour+c.Tax)
		bySurface, counted := money.Money(0), 0
		for _, s := range c.BySurface {
			bySurface += s.Cost
			counted += s.Sheets
		}
		require.Equal(t, c.Total, bySurface)
		require.Equal(t, sheets, counted)
		for _, parts := range [][]plan.ShareCost{c.ByRoom, c.ByTrade} {
			sum := money.Money(0)
			for _, s := range parts {
				sum += s.Cost
			}
			require.Equal(t, c.Total, sum)
		}
	}
}

// ofDecimal multiplies by a number as it is written, with fractions of arbitrary size, and rounds half away from zero.
func ofDecimal(m money.Money, by float64) money.Money {
	r, _ := new(big.Rat).SetString(strconv.FormatFloat(by, 'f', 6, 64))
	n, _ := strconv.ParseInt(r.Mul(r, new(big.Rat).SetInt64(int64(m))).FloatString(0), 10, 64)
	return money.Money(n)
}

// 7.25 % of 2.00 is 14.5 cents, which is 0.15; the nearest binary float to 0.0725 makes it 0.14.
func TestTaxIsDecimal(t *testing.T) {
	j := sample.Job()
	j.Site.TaxRate, j.Figures = 0.0725, map[string]float64{"tool-hire": 2}
	p := &plan.Plan{}
	price.Price(j, p, nil, nil)
	require.Equal(t, money.Money(15), p.Cost.Tax)
	j.Figures = map[string]float64{"tool-hire": 2, "delivery": 40}
	price.Price(j, p, nil, nil)
	require.Equal(t, money.Money(15), p.Cost.Tax, "delivery is not taxed")
}

// The same input gives the same rows.
func TestPriceIsDeterminate(t *testing.T) {
	j, b, p := room(20*foot, 13*foot, 8*foot, 5)
	priced(j, b, p)
	first, cost := p.Takeoff, p.Cost
	for range 20 {
		priced(j, b, p)
		require.Equal(t, first, p.Takeoff)
		require.Equal(t, cost, p.Cost)
	}
}

// What nobody sells stands in the takeoff with nothing bought, and says so.
func TestNothingIsDropped(t *testing.T) {
	j, b, p := room(16*foot, 12*foot, 8*foot, 4)
	priced(j, b, p)
	n := map[string]bool{}
	for _, row := range p.Takeoff {
		n[row.Group] = true
	}
	j.Supplies = nil
	priced(j, b, p)
	bare := map[string]bool{}
	for _, row := range p.Takeoff {
		bare[row.Group] = true
		if row.Group != "sheets" {
			require.Zero(t, row.Buy)
			require.Contains(t, said(row.Basis), "no price on the list", row.Item)
		}
	}
	require.Equal(t, n, bare)
}

// Metric projects are bought in metric units and named in millimetres.
func TestMetric(t *testing.T) {
	j := sample.Job()
	j.Units = job.Metric
	b, p := sample.Room(j, "r", "gyp-12", 5*length.Metre, 4*length.Metre, 2400*length.Millimetre, 8*foot, 4)
	priced(j, b, p)
	units := map[string]bool{}
	for _, row := range p.Takeoff {
		units[row.Unit] = true
	}
	require.True(t, units["m"] && units["L"] && units["m2"])
	require.False(t, units["ft"] || units["gal"] || units["ft2"])
	require.Equal(t, "m2", p.Cost.AreaUnit)
}
