package board_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/money"
	"seamwright/calc/worth"
)

// brute is the best of every lawful layout of a tiny wall of whole courses, for each aim by itself.
type brute struct {
	w           smallWall
	price       map[int]float64 // of a sheet by its length, in hundredths
	foot, piece float64         // of end joint; of one more piece
	sheets      int
	butt        int // at the fewest sheets
	joints      int // fewest of all, in inches
	cost        float64
	layouts     int
}

// rows goes through every set of seams of every course.
func (b *brute) rows(done [][]int, pieces []int) {
	if len(done) == len(b.w.rows) {
		b.layouts++
		slices.Sort(pieces)
		seams := len(pieces) - len(done)
		joint := seams * b.w.across
		n, price := b.cut(slices.Clone(pieces), nil)
		if n < b.sheets || n == b.sheets && joint < b.butt {
			b.sheets, b.butt = n, joint
		}
		b.joints = min(b.joints, joint)
		b.cost = min(b.cost, price+float64(joint)/12*b.foot+float64(len(pieces))*b.piece)
		return
	}
	s := b.w.spans()[len(done)]
	at := b.w.places(s)
	var walk func(i int, seams, lengths []int)
	walk = func(i int, seams, lengths []int) {
		if i == len(at)-1 {
			b.rows(append(slices.Clone(done), slices.Clone(seams)), append(slices.Clone(pieces), lengths...))
			return
		}
		for k := i + 1; k < len(at); k++ {
			l := at[k] - at[i]
			if l > slices.Max(b.w.sizes) || l < b.w.least && l < b.w.width {
				continue
			}
			if k < len(at)-1 {
				if len(done) > 0 && slices.ContainsFunc(done[len(done)-1], func(u int) bool { return abs(u-at[k]) < min(b.w.stagger, b.w.pitch) }) {
					continue
				}
				walk(k, append(slices.Clone(seams), at[k]), append(slices.Clone(lengths), l))
				continue
			}
			walk(k, seams, append(slices.Clone(lengths), l))
		}
	}
	walk(0, nil, nil)
}

// cut finds the fewest sheets and the least price for lengths by themselves: each joins a sheet opened before or opens
// one, and a sheet is as short as it may be.
func (b *brute) cut(lengths, filled []int) (n int, price float64) {
	if len(lengths) == 0 {
		for _, f := range filled {
			price += b.least(f)
		}
		return len(filled), price
	}
	l, rest := lengths[len(lengths)-1], lengths[:len(lengths)-1]
	n, price = b.cut(rest, append(slices.Clone(filled), l))
	for i, f := range filled {
		if f+l <= slices.Max(b.w.sizes) && !slices.Contains(filled[:i], f) {
			with := slices.Clone(filled)
			with[i] += l
			m, p := b.cut(rest, with)
			n, price = min(n, m), min(price, p)
		}
	}
	return n, price
}

// least is the price of the cheapest sheet that is long enough.
func (b *brute) least(long int) float64 {
	best := math.Inf(1)
	for l, p := range b.price {
		if l >= long {
			best = min(best, p)
		}
	}
	return best
}

// Every lawful layout of tiny walls, by trying all: the three named answers are each the least of their aim.
func TestTinyWallsAgainstAllLayouts(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 2))
	layouts, walls := 0, 0
	for walls < 150 {
		w := drawWall(r)
		w.open, w.tapered, w.width = false, false, 50+r.IntN(110)
		w.rows = [][]int{{w.across}, {w.across, w.across}}[r.IntN(2)]
		j, s := w.asJob()
		j.Site.Rate = money.Money(r.IntN(4000))
		b := brute{w: w, price: map[int]float64{}, sheets: 1 << 30, joints: 1 << 30, cost: math.Inf(1)}
		for i := range j.Products[0].Sizes {
			z := &j.Products[0].Sizes[i]
			z.Price += money.Money(r.IntN(400))
			b.price[w.sizes[i]] = float64(z.Price)
		}
		book := worth.Of(j)
		butt := book.Face(true, true, s.Zones[0].Finish).Butt
		b.foot = (butt.Money + butt.Hours*float64(j.Site.Rate)) * float64(length.Foot)
		b.piece = book.Piece * float64(j.Site.Rate)
		b.rows(nil, nil)
		if b.layouts == 0 {
			continue
		}
		walls++
		layouts += b.layouts
		least := byAim(t, j, s)
		require.InDelta(t, b.cost, float64(least[job.AimCost].Cost), 1.5, "cost of %+v", w)
		require.Equal(t, b.sheets, bought(least[job.AimSheets]), "sheets of %+v", w)
		require.InDelta(t, b.butt, least[job.AimSheets].Butt.In(), 1e-6, "end joint at the fewest sheets of %+v", w)
		require.InDelta(t, b.joints, least[job.AimJoints].Butt.In(), 1e-6, "end joint of %+v", w)
		for aim, a := range least {
			require.LessOrEqual(t, a.Bound, b.sheets, "bound of %+v, aim %s", w, aim)
			require.LessOrEqual(t, a.Zones[0].Bound, b.sheets, "bound of the wall %+v, aim %s", w, aim)
		}
	}
	t.Logf("%d walls, %d layouts", walls, layouts)
}
