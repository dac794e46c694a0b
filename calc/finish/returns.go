package finish

import (
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
)

// Piece is a strip of board that lines one side of an opening: Long along the opening's edge, Wide into the wall.
type Piece struct {
	Surface, Opening, Product string
	Long, Wide                length.Length
}

// returned lists the pieces of every opening whose return is board: the head, both jambs between head and sill, and,
// if the user's figure says so, the sill of a window. The pieces at the head and sill run the whole width.
func returned(j *job.Job, all []face) []Piece {
	var pieces []Piece
	seen := map[string]bool{}
	for _, f := range all {
		if !f.gypsum() {
			continue
		}
		t := f.zone.Product.Thickness
		for _, h := range f.zone.Holes {
			o := h.Opening
			id := f.surface.ID + " " + o.ID
			if o.Return != job.ReturnBoard || o.Reveal <= 0 || seen[id] {
				continue
			}
			seen[id] = true
			add := func(long length.Length) {
				pieces = append(pieces, Piece{f.surface.ID, o.ID, f.zone.Product.ID, long, o.Reveal})
			}
			jamb := o.Height - t
			add(o.Width)
			if o.Kind == job.Window && boardSill.Of(j) > 0 {
				add(o.Width)
				jamb -= t
			}
			add(jamb)
			add(jamb)
		}
	}
	return pieces
}

// fromOffcuts fits return pieces into the offcuts of the plan's sheets, largest first, first place that holds it, and
// gives the pieces that found none. A piece is cut from a corner; what stays beside it and beyond it is used again.
func fromOffcuts(p *plan.Plan, pieces []Piece) (left []Piece) {
	type scrap struct {
		product    string
		long, wide length.Length
	}
	var scraps []scrap
	for _, s := range p.Sheets {
		for _, o := range s.Offcuts {
			scraps = append(scraps, scrap{s.Product, max(o.W, o.H), min(o.W, o.H)})
		}
	}
	for _, q := range longestFirst(pieces) {
		placed := false
		for i := range scraps {
			s := scraps[i]
			if s.product != q.Product || s.long < q.Long || s.wide < q.Wide {
				continue
			}
			rest := scrap{s.product, max(s.long-q.Long, q.Wide), min(s.long-q.Long, q.Wide)}
			scraps[i] = scrap{s.product, max(s.long, s.wide-q.Wide), min(s.long, s.wide-q.Wide)}
			scraps = append(scraps, rest)
			placed = true
			break
		}
		if !placed {
			left = append(left, q)
		}
	}
	return left
}
