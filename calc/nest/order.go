package nest

// setting is what the saw or knife is set to: a direction and a distance from an edge.
type setting struct {
	kind Kind
	at   int64
}

// orderWork bounds the search for an order of cuts, in cuts looked at; beyond it the best order found stands.
const orderWork = 160_000

// ordered gives the cuts in an order with as few set-ups as found.
func (r *reader) ordered() []Cut {
	out := make([]Cut, 0, len(r.cuts))
	for _, i := range Order(r.cuts, r.after) {
		out = append(out, r.cuts[i])
	}
	return out
}

// Order puts cuts into an order with as few set-ups as found: a cut may be made as soon as its piece is there, that is
// after cut after[i], -1 for none, and cuts of one setting that stand together are one set-up. A setting all of whose
// cuts are possible now is always made at once, since it needs one set-up in any case; only where there is none does
// the search branch. It gives the indexes of the cuts.
func Order(cuts []Cut, after []int) []int {
	o := orderer{cuts: cuts, after: after, done: make([]bool, len(cuts)), fewest: len(cuts) + 1}
	number := map[setting]int{} // only looked up, never walked
	for _, c := range cuts {
		s := setting{c.Kind, c.Setting}
		n, known := number[s]
		if !known {
			n = len(number)
			number[s] = n
		}
		o.set = append(o.set, n)
	}
	o.seen = make([]glance, len(number))
	o.walk(0)
	return o.best
}

type orderer struct {
	cuts   []Cut
	after  []int
	set    []int // setting of each cut, by number
	done   []bool
	order  []int
	best   []int
	fewest int
	work   int
	seen   []glance // of each setting, at the last look
	looks  int
}

// glance is what a look at the cuts that are left says of a setting: the look that saw it last, as left to make, as
// possible now, and as waiting for another setting.
type glance struct{ left, next, blocked int }

// walk extends the order by one set-up.
func (o *orderer) walk(setups int) {
	if len(o.order) == len(o.done) {
		if setups < o.fewest {
			o.fewest, o.best = setups, append(o.best[:0], o.order...)
		}
		return
	}
	next, left := o.look()
	if setups+left >= o.fewest {
		return
	}
	for _, s := range next {
		if o.seen[s].blocked != o.looks {
			o.make(s, setups)
			return
		}
	}
	for _, s := range next {
		if o.work > orderWork && o.best != nil {
			return
		}
		o.make(s, setups)
	}
}

// look lists the settings that can be made now, in the order of the tree, and counts those that are left at all.
func (o *orderer) look() (next []int, left int) {
	o.looks++
	o.work += len(o.cuts)
	for i, s := range o.set {
		if o.done[i] {
			continue
		}
		g := &o.seen[s]
		if g.left != o.looks {
			g.left = o.looks
			left++
		}
		if a := o.after[i]; a < 0 || o.done[a] {
			if g.next != o.looks {
				g.next = o.looks
				next = append(next, s)
			}
		} else if !o.follows(i) {
			g.blocked = o.looks
		}
	}
	return next, left
}

// follows tells whether a cut waits only for cuts of its own setting, the first of which can be made.
func (o *orderer) follows(i int) bool {
	for a := o.after[i]; a >= 0 && !o.done[a]; a = o.after[a] {
		if o.set[a] != o.set[i] {
			return false
		}
	}
	return true
}

// make makes every cut of the setting that can be made, in the order of the tree, and goes on from there.
func (o *orderer) make(s, setups int) {
	from := len(o.order)
	o.work += len(o.cuts)
	for i := range o.cuts {
		if a := o.after[i]; !o.done[i] && o.set[i] == s && (a < 0 || o.done[a]) {
			o.done[i] = true
			o.order = append(o.order, i)
		}
	}
	o.walk(setups + 1)
	for _, i := range o.order[from:] {
		o.done[i] = false
	}
	o.order = o.order[:from]
}
