package nest

import "slices"

// setting is what the saw or knife is set to: a direction and a distance from an edge.
type setting struct {
	kind Kind
	at   int64
}

// orderWork bounds the search for an order of cuts; beyond it the best order found stands.
const orderWork = 4000

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
	o.walk(0)
	return o.best
}

type orderer struct {
	cuts   []Cut
	after  []int
	done   []bool
	order  []int
	best   []int
	fewest int
	work   int
}

// walk extends the order by one set-up.
func (o *orderer) walk(setups int) {
	if len(o.order) == len(o.done) {
		if setups < o.fewest {
			o.fewest, o.best = setups, append(o.best[:0], o.order...)
		}
		return
	}
	o.work++
	var next []setting
	left := map[setting]bool{} // only looked up, never walked
	blocked := map[setting]bool{}
	for i, c := range o.cuts {
		if o.done[i] {
			continue
		}
		s := setting{c.Kind, c.Setting}
		left[s] = true
		if a := o.after[i]; a < 0 || o.done[a] {
			if !slices.Contains(next, s) {
				next = append(next, s)
			}
		} else if !o.follows(i, s) {
			blocked[s] = true
		}
	}
	if setups+len(left) >= o.fewest || o.work > orderWork && o.best != nil {
		return
	}
	for _, s := range next {
		if !blocked[s] {
			o.make(s, setups)
			return
		}
	}
	for _, s := range next {
		o.make(s, setups)
	}
}

// follows tells whether a cut waits only for cuts of its own setting, the first of which can be made.
func (o *orderer) follows(i int, s setting) bool {
	for a := o.after[i]; a >= 0 && !o.done[a]; a = o.after[a] {
		if c := o.cuts[a]; (setting{c.Kind, c.Setting}) != s {
			return false
		}
	}
	return true
}

// make makes every cut of the setting that can be made, in the order of the tree, and goes on from there.
func (o *orderer) make(s setting, setups int) {
	from := len(o.order)
	for i, c := range o.cuts {
		if a := o.after[i]; !o.done[i] && (setting{c.Kind, c.Setting}) == s && (a < 0 || o.done[a]) {
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
