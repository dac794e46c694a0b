package nest

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
)

// Among hundreds of parts of many sizes there is nearly always a set that fills one sheet almost to the last corner. A
// filler looks for such a set: it ruins and recreates one sheet, from all parts that are left, and where two or three of
// them fill a room better than one part could, they go in together.

const (
	fillPast  = 12 // rounds that a sheet may be worth less for
	fillTaken = 3  // nodes taken out in a round, at most
	fillPass  = 5  // one part in so many that would fit is passed over
)

// lying is a part in one of its ways to lie.
type lying struct {
	t      int
	w, h   int64
	turned bool
	worth  float64
}

// filler fills one sheet after another, of the only kind there is.
type filler struct {
	s     *search
	rng   *rand.Rand
	left  []int     // of each type, without a sheet
	worth []float64 // of each type
	every []lying   // all types, worthiest first
	lots  []lying   // those left, worthiest first
	wide  []lying   // those left, widest first
	high  []lying   // those left, highest first
	stack stacker

	cur   bin
	gain  float64 // worth of all on cur
	spare bin     // memory
	out   []int   // types taken from the sheet in a round
	added []int   // types put on it
}

// filler has all parts left, worth as price says.
func (s *search) filler(seed uint64, roots int) *filler {
	f := &filler{s: s, rng: rand.New(rand.NewPCG(seed, 17)), worth: make([]float64, len(s.types))}
	for t := range s.types {
		f.left = append(f.left, s.types[t].n)
	}
	f.price(roots)
	return f
}

// price makes every type worth its area, and the more for its size the fewer roots are taken: large parts are hard to
// place and go first. Roots are exact on every processor, other powers are not.
func (f *filler) price(roots int) {
	f.every = f.every[:0]
	for t := range f.s.types {
		ty := &f.s.types[t]
		share := ty.area / f.s.sheets[0].area
		for range roots {
			share = math.Sqrt(share)
		}
		f.worth[t] = ty.area * share
		if f.s.lies(ty.w, ty.h) {
			f.every = append(f.every, lying{t, ty.w, ty.h, false, f.worth[t]})
		}
		if ty.turn && f.s.lies(ty.h, ty.w) {
			f.every = append(f.every, lying{t, ty.h, ty.w, true, f.worth[t]})
		}
	}
	slices.SortStableFunc(f.every, func(a, b lying) int { return cmp.Compare(b.worth, a.worth) })
}

// lies tells whether a part fits an empty sheet.
func (s *search) lies(w, h int64) bool { return w <= s.sheets[0].w && h <= s.sheets[0].h }

// gather lists the parts that are left.
func (f *filler) gather() {
	f.lots = f.lots[:0]
	for _, l := range f.every {
		if f.left[l.t] > 0 {
			f.lots = append(f.lots, l)
		}
	}
	f.wide, f.high = append(f.wide[:0], f.lots...), append(f.high[:0], f.lots...)
	slices.SortStableFunc(f.wide, func(a, b lying) int { return cmp.Compare(b.w, a.w) })
	slices.SortStableFunc(f.high, func(a, b lying) int { return cmp.Compare(b.h, a.h) })
}

// drop strikes from the lists what is no longer left.
func (f *filler) drop() {
	gone := func(l lying) bool { return f.left[l.t] == 0 }
	f.lots, f.wide, f.high = slices.DeleteFunc(f.lots, gone), slices.DeleteFunc(f.wide, gone), slices.DeleteFunc(f.high, gone)
}

// sheet fills one sheet and takes its parts from those left. It ends after so many rounds, or as many idle ones.
func (f *filler) sheet(rounds, idle int) bin {
	s := f.s
	f.cur, f.gain = s.empty(0), 0
	f.drop()
	if len(f.lots) == 0 {
		return f.cur
	}
	f.put(&f.cur, f.lots[0], place{at: none})
	f.gain = f.worth[f.lots[0].t] + f.grow(&f.cur)
	best, top, since := f.cur.clone(), f.gain, 0
	var past [fillPast]float64
	for i := range past {
		past[i] = f.gain
	}
	for r := 0; r < rounds && r-since < idle && best.area*areaGrace < s.sheets[0].area && !s.done(); r++ {
		trial, gain := f.round()
		h := &past[r%fillPast]
		if gain >= f.gain || gain >= *h {
			f.spare, f.cur, f.gain = f.cur, trial, gain
		} else {
			f.undo()
			f.spare = trial
		}
		*h = f.gain
		if f.gain > top {
			best, top, since = f.cur.clone(), f.gain, r
		}
	}
	f.count(&f.cur, +1)
	f.count(&best, -1)
	return best
}

// count changes the numbers of parts left by those on a sheet.
func (f *filler) count(b *bin, times int) {
	for i := range b.nodes {
		if t := b.nodes[i].item; t != none {
			f.left[t] += times
		}
	}
}

// round takes a few parts out of the sheet and fills it again.
func (f *filler) round() (trial bin, gain float64) {
	var picks [fillTaken]int32
	take := 1 + f.rng.IntN(fillTaken)
	for j := range take {
		picks[j] = int32(f.rng.IntN(len(f.cur.nodes)))
	}
	trial, f.out = f.s.without(&f.cur, picks[:take], f.spare, f.out[:0])
	f.added, gain = f.added[:0], f.gain
	for _, t := range f.out {
		gain -= f.worth[t]
		f.left[t]++
	}
	f.s.work += roundWork
	return trial, gain + f.grow(&trial)
}

// undo takes back what the last round did to the numbers of parts.
func (f *filler) undo() {
	for _, t := range f.out {
		f.left[t]--
	}
	for _, t := range f.added {
		f.left[t]++
	}
}

// put places a part and gives its worth.
func (f *filler) put(b *bin, l lying, p place) float64 {
	p.turned = l.turned
	f.left[l.t]--
	f.added = append(f.added, l.t)
	f.s.work += int64(len(b.nodes)) / 2
	f.s.put(b, l.t, p)
	return l.worth
}

// grow puts parts on the sheet until no slot holds any.
func (f *filler) grow(b *bin) (gain float64) {
	if sh := &f.s.sheets[b.sheet]; b.root == none {
		l := f.worthiest(sh.w, sh.h)
		if l == nil {
			return 0
		}
		gain = f.put(b, *l, place{at: none})
	}
	for placed := true; placed && len(b.slots) > 0; {
		placed = false
		from := f.rng.IntN(len(b.slots))
		for k := range b.slots {
			o := b.slots[(from+k)%len(b.slots)]
			if l := f.worthiest(o.w, o.h); l != nil {
				gain += f.fill(b, o, *l)
				placed = true
				break
			}
		}
	}
	return gain
}

// fill puts the part into the slot, or a stack that is worth more.
func (f *filler) fill(b *bin, o slot, l lying) (gain float64) {
	where := place{at: o.at, cut: o.cut}
	set, cut := f.stacked(o, l)
	for _, l := range set {
		me := int32(len(b.nodes))
		gain += f.put(b, l, where)
		where = place{at: me, cut: cut}
	}
	return gain
}

// worthiest is the part of most worth for a room, some passed over.
func (f *filler) worthiest(w, h int64) (last *lying) {
	f.s.work += int64(len(f.lots)) / 8
	for i := range f.lots {
		l := &f.lots[i]
		if l.w <= w && l.h <= h && f.left[l.t] > 0 {
			if f.rng.IntN(fillPass) != 0 {
				return l
			}
			last = l
		}
	}
	return last
}
