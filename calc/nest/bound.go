package nest

import (
	"context"
	"math"
	"math/big"
	"math/bits"
	"slices"
)

// wide is an unsigned 128-bit number: the area of one sheet in nanometres already fills 62 bits.
type wide struct{ hi, lo uint64 }

func (a wide) addProduct(x, y int64) wide {
	hi, lo := bits.Mul64(uint64(x), uint64(y))
	l, c := bits.Add64(a.lo, lo, 0)
	h, _ := bits.Add64(a.hi, hi, c)
	return wide{h, l}
}

func (a wide) less(b wide) bool { return a.hi < b.hi || a.hi == b.hi && a.lo < b.lo }

// ceilDiv divides by d, rounding up; the quotient must fit 63 bits, as a share of a cost does.
func (a wide) ceilDiv(d int64) int64 {
	q, r := bits.Div64(a.hi, a.lo, uint64(d))
	if r > 0 {
		q++
	}
	return int64(q)
}

// bounder holds a problem as the bounds see it.
type bounder struct {
	*search
	w, h            int64   // sides of a sheet as large as all sheets together ask
	straightW       []int64 // sizes of the types on the sides; turned: 0 where a type is never turned
	straightH       []int64
	turnedW         []int64
	turnedH         []int64
	square, turns   bool
	best            int64
	acrossW         []scale
	acrossH         []scale
	fw, fwt, gh, gt [][]float64
}

// Bound is a proven lower bound on the cost of every cutting of the problem, guillotine or not: the best over pairs of
// dual feasible functions for the two sides, the area among them, with sheets of several sizes and limited ones counted
// by an exact covering; and the length of tapered edge asked for. No rounded number decides it: floating point only
// chooses which pairs are worth an exact count.
func Bound(p *Problem) int64 {
	if p.Check() != nil {
		return 0
	}
	return newSearch(context.Background(), p, Budget{}).bound()
}

func (s *search) bound() int64 {
	if len(s.types) == 0 {
		return 0
	}
	b := &bounder{search: s}
	b.prepare()
	b.pairs()
	b.edges()
	return b.best
}

// manyTypes is how many types of part make one pair of functions slow enough to ask the clock after it.
const manyTypes = 500

// prepare exchanges the sizes by every function.
func (b *bounder) prepare() {
	for _, s := range b.sheets {
		b.w, b.h = max(b.w, s.w), max(b.h, s.h)
	}
	var onW, onH []int64
	for _, t := range b.types {
		b.straightW, b.straightH = append(b.straightW, t.w), append(b.straightH, t.h)
		tw, th := int64(0), int64(0)
		if t.turn && slices.ContainsFunc(b.sheets, func(s sheetType) bool { return t.h <= s.w && t.w <= s.h }) {
			tw, th = t.h, t.w
			b.turns = true
			onW, onH = append(onW, tw), append(onH, th)
		}
		b.turnedW, b.turnedH = append(b.turnedW, tw), append(b.turnedH, th)
		if t.w <= b.w && t.h <= b.h {
			onW, onH = append(onW, t.w), append(onH, t.h)
		}
	}
	if b.square = b.w == b.h && b.turns; b.square {
		onW = append(onW, onH...)
		onH = onW
	}
	fit := func(f function, sizes []int64, side int64) []int64 {
		out := make([]int64, len(sizes))
		for i, x := range sizes {
			if x <= side { // what is larger lies the other way; its value is not asked for
				out[i] = f.at(x)
			}
		}
		return out
	}
	acrossW, acrossH := functions(b.w, onW), functions(b.h, onH)
	if b.budget.Plain {
		acrossW, acrossH = acrossW[:1], acrossH[:1]
	}
	for _, f := range acrossW {
		b.acrossW = append(b.acrossW, scale{fit(f, b.straightW, b.w), fit(f, b.turnedW, b.w), f.top})
	}
	for _, g := range acrossH {
		b.acrossH = append(b.acrossH, scale{fit(g, b.straightH, b.h), fit(g, b.turnedH, b.h), g.top})
	}
	part := func(list []int64, top int64) []float64 {
		out := make([]float64, len(list))
		for i, v := range list {
			out[i] = float64(v) / float64(top)
		}
		return out
	}
	for _, f := range b.acrossW {
		b.fw, b.fwt = append(b.fw, part(f.straight, f.top)), append(b.fwt, part(f.turned, f.top))
	}
	for _, g := range b.acrossH {
		b.gh, b.gt = append(b.gh, part(g.straight, g.top)), append(b.gt, part(g.turned, g.top))
	}
}

// lies tells which ways a type can lie at all on the largest sheet.
func (b *bounder) lies(i int) (straight, turned bool) {
	return b.straightW[i] <= b.w && b.straightH[i] <= b.h, b.turnedW[i] > 0
}

// pairs counts area by every pair of functions. Only a pair that might raise the bound is counted exactly.
func (b *bounder) pairs() {
	single := len(b.sheets) == 1 && b.sheets[0].most == 0
	var ways [][2]bool
	for i := range b.types {
		s, t := b.lies(i)
		ways = append(ways, [2]bool{s, t})
	}
	most := 0.0
	for f := range b.acrossW {
		if f > 0 && b.halted() { // the area has been counted: what stands is a bound
			return
		}
		fw, fwt := b.fw[f], b.fwt[f]
		for g := range b.acrossH {
			if g > 0 && len(b.types) > manyTypes && b.halted() {
				return
			}
			gh, gt := b.gh[g], b.gt[g]
			sum, mixed := 0.0, 0.0
			for i := range b.types {
				n := float64(b.types[i].n)
				v := fw[i] * gh[i]
				if ways[i][1] && (!ways[i][0] || fwt[i]*gt[i] < v) {
					v = fwt[i] * gt[i]
				}
				sum += float64(n * v)
				if b.square {
					mixed += float64(n * (float64(fw[i]*gh[i]) + float64(b.fw[g][i]*b.gh[f][i])) / 2)
				}
			}
			if b.worth(sum, single, &most) {
				b.exact(f, g, false)
			}
			if b.square && b.worth(mixed, single, &most) {
				b.exact(f, g, true)
			}
		}
	}
}

// worth tells whether a count of sheets, known to about nine digits, may raise the bound.
func (b *bounder) worth(sheets float64, single bool, most *float64) bool {
	const doubt = 1e-9
	if single {
		return math.Ceil(sheets*(1+doubt))*float64(b.sheets[0].cost) > float64(b.best)
	}
	if sheets*(1+doubt) < *most*0.9 { // with several sizes capacities differ too: look at all that are near
		return false
	}
	*most = max(*most, sheets)
	return true
}

// exact counts one pair in whole numbers. mixed: half the area by (f, g) and half by (g, f), which is the same for a
// part and the part turned on a square sheet.
func (b *bounder) exact(f, g int, mixed bool) {
	F, G := &b.acrossW[f], &b.acrossH[g]
	var F2, G2 *scale
	if mixed {
		F2, G2 = &b.acrossW[g], &b.acrossH[f]
	}
	need, v, u := new(big.Int), new(big.Int), new(big.Int)
	times := func(x, y int64) *big.Int { return new(big.Int).Mul(big.NewInt(x), big.NewInt(y)) }
	for i, t := range b.types {
		straight, turned := b.lies(i)
		v.Set(times(F.straight[i], G.straight[i]))
		if mixed {
			v.Add(v, times(F2.straight[i], G2.straight[i]))
		} else if turned {
			u.Set(times(F.turned[i], G.turned[i]))
			if !straight || u.Cmp(v) < 0 {
				v.Set(u)
			}
		}
		need.Add(need, v.Mul(v, big.NewInt(int64(t.n))))
	}
	full := times(F.top, G.top)
	if mixed {
		full.Add(full, times(F2.top, G2.top))
	}
	if full.Sign() == 0 {
		return
	}
	capacity := make([]int64, len(b.sheets))
	for i, s := range b.sheets {
		c := times(F.most(s.w, b.straightW, b.turnedW), G.most(s.h, b.straightH, b.turnedH))
		if mixed {
			c.Add(c, times(F2.most(s.w, b.straightW, b.turnedW), G2.most(s.h, b.straightH, b.turnedH)))
		}
		c.Lsh(c, 40)
		c.Add(c, full).Sub(c, big.NewInt(1)).Quo(c, full)
		capacity[i] = c.Int64()
	}
	need.Lsh(need, 40).Quo(need, full)
	b.best = max(b.best, cover(need.Int64(), b.sheets, capacity))
}

// edges counts the length of tapered edge that is asked for against what the sheets have.
func (b *bounder) edges() {
	if !slices.ContainsFunc(b.types, func(t itemType) bool { return t.need > 0 }) {
		return
	}
	for _, f := range b.acrossW {
		need := new(big.Int)
		for i, t := range b.types {
			v := new(big.Int).Mul(big.NewInt(f.straight[i]), big.NewInt(int64(t.need)*int64(t.n)))
			need.Add(need, v)
		}
		if f.top == 0 {
			continue
		}
		full := big.NewInt(f.top)
		capacity := make([]int64, len(b.sheets))
		for i, s := range b.sheets {
			c := new(big.Int).Mul(big.NewInt(f.most(s.w, b.straightW, b.turnedW)), big.NewInt(int64(s.tapers)))
			c.Lsh(c, 40)
			c.Add(c, full).Sub(c, big.NewInt(1)).Quo(c, full)
			capacity[i] = c.Int64()
		}
		need.Lsh(need, 40).Quo(need, full)
		if n := cover(need.Int64(), b.sheets, capacity); n < math.MaxInt64 {
			b.best = max(b.best, n)
		}
	}
}
