package nest

// recall remembers for every type and sheet the best place found, so that only sheets that changed are looked through
// again. A trial that is taken back must not cost what was known before it: two places are kept for each pair.
type recall struct {
	s     *search
	stamp []int32 // version of each sheet
	free  []free  // what is left on each
	clock int32
	known [][][2]known // type, sheet
}

// free is what is left on a sheet: area, with a little grace for rounding, the width of the widest place and the height of
// the highest, which need not be one place.
type free struct {
	area float64
	w, h int64
}

// holds tells whether a part might find a place, as far as can be seen at a glance.
func (f *free) holds(t *itemType) bool {
	return f.area >= t.area && (t.w <= f.w && t.h <= f.h || t.turn && t.h <= f.w && t.w <= f.h)
}

// known is a place found in one version of a sheet.
type known struct {
	score float64
	at    int32
	stamp int32
	cut   Kind
	flags uint8
}

const (
	knownTurned = 1 << iota
	knownFits
)

// areaGrace makes up for rounding where areas are summed in floating point.
const areaGrace = 1 + 1e-12

// recalls begins with no sheets. What is known of earlier ones stays in its place, but no version of it comes again.
func (s *search) recalls() *recall {
	if s.recall == nil {
		s.recall = &recall{s: s, known: make([][][2]known, len(s.types))}
	}
	s.recall.stamp, s.recall.free = s.recall.stamp[:0], s.recall.free[:0]
	return s.recall
}

// touch gives the sheet at index i, perhaps a new one, its next version.
func (r *recall) touch(i int, b *bin) {
	for i >= len(r.stamp) {
		r.stamp, r.free = append(r.stamp, 0), append(r.free, free{})
	}
	r.clock++
	r.stamp[i] = r.clock
	r.measure(i, b)
}

// back returns the sheet to a version that it had.
func (r *recall) back(i int, b *bin, stamp int32) {
	r.stamp[i] = stamp
	r.measure(i, b)
}

func (r *recall) measure(i int, b *bin) {
	f := free{area: -1}
	if b.sheet != closed {
		sh := &r.s.sheets[b.sheet]
		f = free{float64(sh.area*areaGrace) - b.area, sh.w, sh.h}
		if b.root != none {
			f.w, f.h = 0, 0
			for k := range b.slots {
				f.w, f.h = max(f.w, b.slots[k].w), max(f.h, b.slots[k].h)
			}
		}
	}
	r.free[i] = f
}

// row is what is known of a type, for each sheet.
func (r *recall) row(t int) [][2]known {
	row := r.known[t]
	if n := len(r.stamp); len(row) < n {
		longer := make([][2]known, max(n, 2*len(row), leastRow))
		copy(longer, row)
		row, r.known[t] = longer, longer
	}
	return row
}

// leastRow is for how many sheets a row is made at least.
const leastRow = 8

// find looks the best place of a type in sheet i up, or searches the sheet. trial: the version may be taken back.
func (r *recall) find(k *[2]known, i, t int, b *bin, trial bool) *known {
	stamp := r.stamp[i]
	if k[0].stamp == stamp {
		return &k[0]
	}
	slot := 0
	if k[1].stamp == stamp {
		if trial {
			return &k[1]
		}
		k[0] = k[1]
		return &k[0]
	}
	if trial {
		slot = 1
	}
	p, ok := r.s.best(b, t)
	n := known{score: p.score, at: p.at, stamp: stamp, cut: p.cut}
	if ok {
		n.flags |= knownFits
	}
	if p.turned {
		n.flags |= knownTurned
	}
	k[slot] = n
	return &k[slot]
}

func (k *known) fits() bool { return k.flags&knownFits != 0 }

func (k *known) place() place { return place{k.at, k.cut, k.flags&knownTurned != 0, k.score} }
