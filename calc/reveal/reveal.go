// Package reveal wraps the sides of openings in board: which pieces that takes, and which sheets they are cut from.
//
// A window or door set back in a thick wall leaves its head, its two sides and, below a window, its sill bare (the
// reveal). Where the return is board, a strip as wide as the reveal lines each: head and sill run the whole width, the
// sides stand between them. The strips are cut from what the cut list leaves over, longest first, each from the
// smallest offcut that holds it; what fits no offcut is nested onto sheets of its own. Filling offcuts is a heuristic:
// good, not proven best.
//
// Limits: one strip to a side, as wide as the reveal in the file; splayed reveals are not known.
package reveal

import (
	"cmp"
	"fmt"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/survey"
)

// BoardSill says whether the sill of a window whose return is board is board too.
var BoardSill = job.Figure{ID: "board-sill", Value: 1, Unit: "yes = 1", Status: job.Practice}

// Pieces lists the strips of every opening whose return is board, in the order of the building. letters names a
// surface in the ids of its pieces, as those of its panels begin. A side longer than the longest sheet is made of
// equal strips.
func Pieces(j *job.Job, b *survey.Building, letters func(surface string) string) []plan.Return {
	all := []plan.Return{}
	for _, s := range b.Surfaces {
		seen := map[string]bool{}
		for _, z := range s.Zones {
			if z.Product == nil || z.Product.Kind != job.Gypsum || z.Layer != z.Layers {
				continue
			}
			for _, h := range z.Holes {
				o := h.Opening
				if o.Return != job.ReturnBoard || o.Reveal <= 0 || seen[o.ID] {
					continue
				}
				seen[o.ID] = true
				for _, side := range sides(j, o, z.Product.Thickness) {
					all = append(all, strips(z.Product, plan.Return{ID: fmt.Sprintf("%s-%s-%s", letters(s.ID), o.ID, side.name),
						Surface: s.ID, Opening: o.ID, Side: side.name, Product: z.Product.ID, Size: [2]length.Length{side.long, o.Reveal}})...)
				}
			}
		}
	}
	return all
}

type side struct {
	name string
	long length.Length
}

// sides of an opening: board of a thickness on head and sill shortens the sides.
func sides(j *job.Job, o job.Opening, thick length.Length) []side {
	all := []side{{"head", o.Width}}
	high := o.Height - thick
	if o.Kind == job.Window && BoardSill.Of(j) > 0 {
		all = append(all, side{"sill", o.Width})
		high -= thick
	}
	if high > 0 {
		all = append(all, side{"left", high}, side{"right", high})
	}
	return all
}

// strips parts a side that is longer than the longest sheet.
func strips(p *job.Product, r plan.Return) []plan.Return {
	longest := length.Length(0)
	for _, z := range p.Sizes {
		longest = max(longest, z.Length, z.Width)
	}
	if longest <= 0 || r.Size[0] <= longest {
		return []plan.Return{r}
	}
	n := (r.Size[0] + longest - 1) / longest
	var all []plan.Return
	for i := range n {
		part := r
		part.ID = fmt.Sprintf("%s-%d", r.ID, i+1)
		part.Size[0] = r.Size[0]*(i+1)/n - r.Size[0]*i/n
		all = append(all, part)
	}
	return all
}

// Corners is the length of corner that the returns of a surface make: outside ones along the face, which get bead, and
// inside ones from strip to strip, each as long as the reveal is deep.
func Corners(pieces []plan.Return, surface string) (outside, inside length.Length) {
	type opening struct{ sill, depth length.Length }
	of := map[string]*opening{}
	var order []string
	for _, r := range pieces {
		if r.Surface != surface {
			continue
		}
		outside += r.Size[0]
		if of[r.Opening] == nil {
			of[r.Opening] = &opening{}
			order = append(order, r.Opening)
		}
		o := of[r.Opening]
		o.depth = r.Size[1]
		if r.Side == "sill" {
			o.sill = 1
		}
	}
	for _, id := range order { // two under the head, two over the sill
		inside += (2 + 2*of[id].sill) * of[id].depth
	}
	return outside, inside
}

// longestFirst is the order in which strips choose their offcut.
func longestFirst(pieces []plan.Return) []int {
	order := make([]int, len(pieces))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Or(cmp.Compare(pieces[b].Size[0], pieces[a].Size[0]), cmp.Compare(pieces[b].Size[1], pieces[a].Size[1]))
	})
	return order
}
