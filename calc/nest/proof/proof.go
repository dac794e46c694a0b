// Package proof checks a cutting from its rectangles alone. It shares no code with the search that made the cutting:
// every rule is written here a second time, the plain way.
//
// Checked are: every part is an item of the problem, of its size, turned only where it may be; inside its sheet; apart
// from every other part by at least the kerf along x or along y; each item cut exactly as often as asked; no more sheets
// of a size than there are; the cost; tapered edges where asked; that cuts right across the piece at hand can part them
// all (found afresh); and, in Cuts, that the cuts given do just that. Time O(n² ) a sheet of n parts.
package proof

import (
	"fmt"
	"slices"

	"seamwright/calc/nest"
)

// Result checks a whole result against its problem; nil means that it holds.
func Result(p *nest.Problem, r *nest.Result) error {
	made := make([]int, len(p.Items))
	used := make([]int, len(p.Sheets))
	cost := int64(0)
	for i, b := range r.Bins {
		if b.Sheet < 0 || b.Sheet >= len(p.Sheets) {
			return fmt.Errorf("sheet %d: there is no sheet size %d", i+1, b.Sheet)
		}
		used[b.Sheet]++
		cost += p.Sheets[b.Sheet].Cost
		parts := b.Parts()
		if err := Sheet(p, b.Sheet, parts); err != nil {
			return fmt.Errorf("sheet %d: %w", i+1, err)
		}
		if err := Cuts(p, b.Sheet, parts, b.Offcuts(), b.Cuts()); err != nil {
			return fmt.Errorf("sheet %d: %w", i+1, err)
		}
		for _, q := range parts {
			made[q.Item]++
		}
	}
	for i, it := range p.Items {
		if made[i] != it.N {
			return fmt.Errorf("item %d is cut %d times, asked for %d times", i+1, made[i], it.N)
		}
	}
	for i, s := range p.Sheets {
		if s.Max > 0 && used[i] > s.Max {
			return fmt.Errorf("sheet size %d is used %d times, there are %d", i+1, used[i], s.Max)
		}
	}
	if cost != r.Cost {
		return fmt.Errorf("the sheets cost %d, the result says %d", cost, r.Cost)
	}
	if r.Bound > r.Cost {
		return fmt.Errorf("bound %d above the cost %d", r.Bound, r.Cost)
	}
	if r.Proven != (r.Bound == r.Cost) {
		return fmt.Errorf("proven is %v at bound %d and cost %d", r.Proven, r.Bound, r.Cost)
	}
	return nil
}

// Sheet checks the parts of one sheet.
func Sheet(p *nest.Problem, sheet int, parts []nest.Part) error {
	s := p.Sheets[sheet]
	for _, q := range parts {
		if q.Item < 0 || q.Item >= len(p.Items) {
			return fmt.Errorf("there is no item %d", q.Item+1)
		}
		it := p.Items[q.Item]
		w, h := it.W, it.H
		if q.Turned {
			if !it.Turn || it.Tapers > 0 {
				return fmt.Errorf("item %d is turned and may not be", q.Item+1)
			}
			w, h = h, w
		}
		switch {
		case q.W != w || q.H != h:
			return fmt.Errorf("item %d lies %d × %d, should be %d × %d", q.Item+1, q.W, q.H, w, h)
		case q.X < 0 || q.Y < 0 || q.X+q.W > s.W || q.Y+q.H > s.H:
			return fmt.Errorf("item %d at %d, %d runs out of the sheet", q.Item+1, q.X, q.Y)
		}
		tapers := 0
		if q.Y == 0 && s.Tapered[0] {
			tapers++
		}
		if q.Y+q.H == s.H && s.Tapered[1] {
			tapers++
		}
		if tapers < it.Tapers {
			return fmt.Errorf("item %d has %d tapered edges, asked for %d", q.Item+1, tapers, it.Tapers)
		}
	}
	for i, a := range parts {
		for _, b := range parts[:i] {
			apartX := a.X+a.W+p.Kerf <= b.X || b.X+b.W+p.Kerf <= a.X
			apartY := a.Y+a.H+p.Kerf <= b.Y || b.Y+b.H+p.Kerf <= a.Y
			if !apartX && !apartY {
				return fmt.Errorf("items %d and %d are less than a kerf apart", a.Item+1, b.Item+1)
			}
		}
	}
	if !separable(slices.Clone(parts), p.Kerf) {
		return fmt.Errorf("no cuts right across part the pieces")
	}
	return nil
}

// separable tells whether straight cuts, each right across the piece at hand, can part the rectangles. Any cut that
// harms none of them may be made first: a part of a separable set is separable.
func separable(parts []nest.Part, kerf int64) bool {
	if len(parts) < 2 {
		return true
	}
	for axis := range 2 {
		from := func(q nest.Part) int64 { return []int64{q.X, q.Y}[axis] }
		to := func(q nest.Part) int64 { return []int64{q.X + q.W, q.Y + q.H}[axis] }
		slices.SortFunc(parts, func(a, b nest.Part) int {
			if from(a) < from(b) {
				return -1
			}
			if from(a) > from(b) {
				return 1
			}
			return 0
		})
		end := to(parts[0])
		for i := 1; i < len(parts); i++ {
			if from(parts[i]) >= end+kerf {
				return separable(slices.Clone(parts[:i]), kerf) && separable(slices.Clone(parts[i:]), kerf)
			}
			end = max(end, to(parts[i]))
		}
	}
	return false
}

// Cuts follows the cuts one by one and checks that each runs right across a piece and that the parts and offcuts are
// what is there in the end. A trim narrower than the blade may lie beside the piece, by less than a kerf.
func Cuts(p *nest.Problem, sheet int, parts []nest.Part, offcuts []nest.Rect, cuts []nest.Cut) error {
	pieces := []nest.Rect{{W: p.Sheets[sheet].W, H: p.Sheets[sheet].H}}
	for i, c := range cuts {
		found := false
		for j, q := range pieces {
			near, far := q, q
			switch {
			case c.Kind == nest.Cross && c.X1 == c.X2 && c.Y1 == q.Y && c.Y2 == q.Y+q.H && c.X1 > q.X-p.Kerf && c.X1 < q.X+q.W:
				near.W = c.X1 - q.X
				far.X = c.X1 + p.Kerf
				far.W = q.X + q.W - far.X
			case c.Kind == nest.Rip && c.Y1 == c.Y2 && c.X1 == q.X && c.X2 == q.X+q.W && c.Y1 > q.Y-p.Kerf && c.Y1 < q.Y+q.H:
				near.H = c.Y1 - q.Y
				far.Y = c.Y1 + p.Kerf
				far.H = q.Y + q.H - far.Y
			default:
				continue
			}
			setting := []int64{near.W, near.H}[c.Kind]
			if c.FromFar {
				setting = []int64{far.W, far.H}[c.Kind]
			}
			if setting != c.Setting {
				return fmt.Errorf("cut %d is set to %d, measures %d", i+1, c.Setting, setting)
			}
			found = true
			pieces = slices.Delete(pieces, j, j+1)
			for _, q := range []nest.Rect{near, far} {
				if q.W > 0 && q.H > 0 {
					pieces = append(pieces, q)
				}
			}
			break
		}
		if !found {
			return fmt.Errorf("cut %d runs right across no piece", i+1)
		}
	}
	want := slices.Clone(offcuts)
	for _, q := range parts {
		want = append(want, q.Rect)
	}
	for _, q := range want {
		j := slices.Index(pieces, q)
		if j < 0 {
			return fmt.Errorf("the cuts do not make the piece %v", q)
		}
		pieces = slices.Delete(pieces, j, j+1)
	}
	if len(pieces) > 0 {
		return fmt.Errorf("the cuts make a piece %v that is neither part nor offcut", pieces[0])
	}
	return nil
}

// Lengths checks a cutting of sticks against its problem.
func Lengths(p *nest.LengthProblem, r *nest.LengthResult) error {
	made := make([]int, len(p.Pieces))
	used := make([]int, len(p.Sticks))
	cost := int64(0)
	for i, b := range r.Bars {
		if b.Stick < 0 || b.Stick >= len(p.Sticks) {
			return fmt.Errorf("bar %d: there is no stick %d", i+1, b.Stick)
		}
		used[b.Stick]++
		cost += p.Sticks[b.Stick].Cost
		end := int64(0)
		for j, q := range b.Pieces {
			if q < 0 || q >= len(p.Pieces) {
				return fmt.Errorf("bar %d: there is no piece %d", i+1, q)
			}
			if made[q]++; j > 0 {
				end += p.Kerf
			}
			end += p.Pieces[q].L
		}
		if end > p.Sticks[b.Stick].L {
			return fmt.Errorf("bar %d: the pieces need %d, the stick is %d long", i+1, end, p.Sticks[b.Stick].L)
		}
	}
	for i, q := range p.Pieces {
		if made[i] != q.N {
			return fmt.Errorf("piece %d is cut %d times, asked for %d times", i+1, made[i], q.N)
		}
	}
	for i, s := range p.Sticks {
		if s.Max > 0 && used[i] > s.Max {
			return fmt.Errorf("stick %d is used %d times, there are %d", i+1, used[i], s.Max)
		}
	}
	switch {
	case cost != r.Cost:
		return fmt.Errorf("the sticks cost %d, the result says %d", cost, r.Cost)
	case r.Bound > r.Cost:
		return fmt.Errorf("bound %d above the cost %d", r.Bound, r.Cost)
	case r.Proven != (r.Bound == r.Cost):
		return fmt.Errorf("proven is %v at bound %d and cost %d", r.Proven, r.Bound, r.Cost)
	}
	return nil
}
