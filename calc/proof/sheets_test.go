package proof

import (
	"math"
	"slices"
	"strings"
)

type box struct{ x, y, w, h float64 }

func boxOf(r [4]mm) box { return box{float64(r[0]), float64(r[1]), float64(r[2]), float64(r[3])} }

func (b box) same(c box) bool {
	return near(b.x, c.x, epsLength) && near(b.y, c.y, epsLength) && near(b.w, c.w, epsLength) && near(b.h, c.h, epsLength)
}

// sheets: every panel is cut from exactly one sheet, in its size and with its edges, by cuts that part the sheet.
func (p *proof) sheets() {
	used := map[string]int{}
	ids := map[string]bool{}
	for i := range p.plan.Sheets {
		s := &p.plan.Sheets[i]
		if ids[s.ID] {
			p.fail("sheet", "%s stands twice", s.ID)
		}
		ids[s.ID] = true
		tapered := p.origin(s)
		pieces := p.replay(s)
		take := func(what string, want box) {
			for k, b := range pieces {
				if b.same(want) {
					pieces = slices.Delete(pieces, k, k+1)
					return
				}
			}
			p.fail("cuts", "%s: no cut frees %s at %.2f, %.2f of %.2f by %.2f", s.ID, what, want.x, want.y, want.w, want.h)
		}
		for _, part := range s.Parts {
			used[part.Panel]++
			take(part.Panel, boxOf(part.Rect))
			if r, ok := p.strips[part.Panel]; ok {
				p.strip(s, r, boxOf(part.Rect), part.Turned)
				continue
			}
			if part.Pair != nil {
				used[part.Pair.Panel]++
				if near, far := p.cutFrom(s, part.Panel), p.cutFrom(s, part.Pair.Panel); near != nil && far != nil {
					p.pair(s, part, *near, *far, tapered)
				}
				continue
			}
			if n := p.cutFrom(s, part.Panel); n != nil {
				p.part(s, *n, boxOf(part.Rect), part.Turned, tapered)
			}
		}
		for _, o := range s.Offcuts {
			take("an offcut", boxOf(o))
		}
		for _, b := range pieces {
			if b.w > epsLength && b.h > epsLength {
				p.fail("cuts", "%s: a piece of %.2f by %.2f is neither part nor offcut", s.ID, b.w, b.h)
			}
		}
	}
	for id := range p.panels {
		if used[id] != 1 {
			p.fail("part", "%s is cut from %d sheets", id, used[id])
		}
	}
	for id, r := range p.strips {
		if want := map[bool]int{true: 1, false: 0}[r.Sheet != ""]; used[id] != want {
			p.fail("return", "%s is cut from %d sheets", id, used[id])
		}
	}
}

// cutFrom: a panel hangs somewhere and says that it is cut from that sheet, of its own product.
func (p *proof) cutFrom(s *sheet, id string) *placed {
	n, ok := p.panels[id]
	switch {
	case !ok:
		p.fail("part", "%s of %s hangs nowhere", id, s.ID)
	case n.Sheet != s.ID:
		p.fail("part", "%s says it is cut from %s, not %s", id, n.Sheet, s.ID)
	case n.zone.Product != s.Product:
		p.fail("part", "%s of %s is cut from %s", id, n.zone.Product, s.Product)
	default:
		return &n
	}
	return nil
}

// strip: a strip of a return is cut in its size from a sheet of its product that it names.
func (p *proof) strip(s *sheet, r strip, b box, turned bool) {
	w, h := b.w, b.h
	if turned {
		w, h = h, w
	}
	if r.Sheet != s.ID || r.Product != s.Product || !near(w, float64(r.Size[0]), epsLength) || !near(h, float64(r.Size[1]), epsLength) {
		p.fail("return", "%s of %s, %v by %v, is cut from %s of %s as %.2f by %.2f", r.ID, r.Product, r.Size[0], r.Size[1], s.ID, s.Product, w, h)
	}
}

// returns: an opening that asks for board all round, in a wall that is faced with gypsum board throughout, has a strip as
// wide as the reveal on each side: head and sill as wide as the opening, the others as high less both boards.
func (p *proof) returns(s *surface, w side) {
	for _, z := range w.wall.Lining {
		if !isGypsum(z.Product[len(z.Product)-1]) {
			return
		}
	}
	for _, o := range w.wall.Openings {
		if o.Return != "board" || len(w.wall.Lining) != 1 {
			continue
		}
		product := w.wall.Lining[0].Product[len(w.wall.Lining[0].Product)-1]
		high := float64(o.Height) - 2*thickness[product]
		for side, want := range map[string]float64{"head": float64(o.Width), "sill": float64(o.Width), "left": high, "right": high} {
			got := 0.0
			for _, r := range p.plan.Returns {
				if r.Surface == s.ID && r.Opening == o.ID && r.Side == side {
					got += float64(r.Size[0])
					if !near(float64(r.Size[1]), float64(o.Reveal), epsLength) || r.Product != product || r.Sheet == "" {
						p.fail("return", "%s of %s is %v wide, of sheet %q; the reveal is %v", r.ID, r.Product, r.Size[1], r.Sheet, float64(o.Reveal))
					}
				}
			}
			if !near(got, want, epsLength) {
				p.fail("return", "%s %s of %s is %.2f long, not %.2f", o.ID, side, s.ID, got, want)
			}
		}
	}
}

// origin: the sheet is for sale or in stock in that size; says whether its long edges are tapered.
func (p *proof) origin(s *sheet) (tapered bool) {
	size := func(a [2]dist) bool {
		return near(float64(a[0]), float64(s.Size[0]), epsLength) && near(float64(a[1]), float64(s.Size[1]), epsLength)
	}
	tapered = isGypsum(s.Product)
	kerf := 0.0
	if !isGypsum(s.Product) {
		kerf = 25.4 / 8 // shipped; the drawn projects set it
	}
	for _, c := range p.asked.Catalog {
		if c.ID != s.Product {
			continue
		}
		if c.Edges == "square" {
			tapered = false
		}
		if c.Kerf > 0 {
			kerf = float64(c.Kerf)
		}
		if s.Source == "buy" {
			if !slices.ContainsFunc(c.Sizes, func(z struct {
				Size  [2]dist
				Price string
			}) bool {
				return size(z.Size)
			}) {
				p.fail("sheet", "%s of %v by %v is not for sale", s.ID, s.Size[0], s.Size[1])
			}
			if !near(kerf, float64(s.Kerf), epsLength) {
				p.fail("sheet", "%s is cut with a kerf of %v, not %v", s.ID, s.Kerf, kerf)
			}
		}
	}
	if s.Source == "stock" {
		found := false
		for _, k := range p.asked.Stock {
			if k.Product == s.Product && size(k.Size) {
				found = true
				tapered = tapered && k.Edges != "cut"
			}
		}
		if !found {
			p.fail("stock", "%s of %v by %v is not in stock", s.ID, s.Size[0], s.Size[1])
		}
	}
	return tapered
}

// replay follows the cuts in order and returns the pieces that are left.
func (p *proof) replay(s *sheet) []box {
	pieces := []box{{0, 0, float64(s.Size[0]), float64(s.Size[1])}}
	kerf := float64(s.Kerf)
	for i, c := range s.Cuts {
		if c.Order != i+1 {
			p.fail("cuts", "%s: cut %d is numbered %d", s.ID, i+1, c.Order)
		}
		x0, y0 := math.Min(float64(c.From[0]), float64(c.To[0])), math.Min(float64(c.From[1]), float64(c.To[1]))
		x1, y1 := math.Max(float64(c.From[0]), float64(c.To[0])), math.Max(float64(c.From[1]), float64(c.To[1]))
		done := false
		for k, b := range pieces {
			switch {
			case c.Kind == "cross" && near(x0, x1, epsLength) && near(y0, b.y, epsLength) && near(y1, b.y+b.h, epsLength) && x0 > b.x+epsLength && x0 < b.x+b.w-epsLength:
				pieces[k] = box{b.x, b.y, x0 - b.x, b.h}
				pieces = append(pieces, box{x0 + kerf, b.y, b.x + b.w - x0 - kerf, b.h})
				done = true
			case c.Kind == "rip" && near(y0, y1, epsLength) && near(x0, b.x, epsLength) && near(x1, b.x+b.w, epsLength) && y0 > b.y+epsLength && y0 < b.y+b.h-epsLength:
				pieces[k] = box{b.x, b.y, b.w, y0 - b.y}
				pieces = append(pieces, box{b.x, y0 + kerf, b.w, b.y + b.h - y0 - kerf})
				done = true
			}
			if done {
				break
			}
		}
		if !done {
			p.fail("cuts", "%s: cut %d (%s from %v to %v) does not run right across a piece", s.ID, i+1, c.Kind, c.From, c.To)
		}
	}
	return pieces
}

// part: the panel fits its rectangle and is no smaller than a fit and a gap allow; its edges are those of the sheet.
func (p *proof) part(s *sheet, n placed, r box, turned, tapered bool) {
	x0, y0, x1, y1 := n.Outline.poly().bounds()
	w, h := x1-x0, y1-y0
	if turned {
		w, h = h, w
	}
	slack := 2*float64(p.asked.Rules.Fit) + largestGap + epsLength
	whole := near(r.w, float64(s.Size[0]), epsLength) || near(r.h, float64(s.Size[1]), epsLength)
	if w > r.w+epsLength || h > r.h+epsLength {
		p.fail("size", "%s is %.2f by %.2f but cut as %.2f by %.2f", n.ID, w, h, r.w, r.h)
	}
	if (r.w-w > slack && !near(r.w, float64(s.Size[0]), epsLength) || r.h-h > slack && !near(r.h, float64(s.Size[1]), epsLength)) || !whole && (r.w-w > slack || r.h-h > slack) {
		p.fail("size", "%s is %.2f by %.2f but cut as %.2f by %.2f", n.ID, w, h, r.w, r.h)
	}
	// edges of the rectangle: low y, high x, high y, low x; what each is on the sheet
	long, end := "square", "end"
	if tapered {
		long = "tapered"
	}
	if s.Source == "stock" && !tapered && isGypsum(s.Product) {
		long = "cut"
	}
	kind := func(on bool, factory string, exact bool) []string {
		switch {
		case on && exact && s.Source == "buy":
			return []string{factory} // of a piece in stock nobody knows whether its ends and its second long edge were cut
		case on:
			return []string{factory, "cut"} // or the panel hangs smaller than its rectangle: one of the two sides is trimmed
		}
		return []string{"cut"}
	}
	exactW, exactH := near(r.w, w, epsLength), near(r.h, h, epsLength)
	of := [4][]string{
		kind(near(r.y, 0, epsLength), long, exactH),
		kind(near(r.x+r.w, float64(s.Size[0]), epsLength), end, exactW),
		kind(near(r.y+r.h, float64(s.Size[1]), epsLength), long, exactH),
		kind(near(r.x, 0, epsLength), end, exactW),
	}
	fits := func(turn int, mirrored bool) bool {
		for i := range 4 {
			k := (i + turn) % 4
			if mirrored {
				k = (turn - i + 8) % 4
			}
			if !slices.Contains(of[k], n.Edges[i]) && !p.slanted(n, i) {
				return false
			}
		}
		return true
	}
	turns := []int{0, 2}
	if turned {
		turns = []int{1, 3}
	}
	// A sheet may be marked from either face, so the mirror image will do as well.
	if !slices.ContainsFunc(turns, func(t int) bool { return fits(t, false) || fits(t, true) }) {
		p.fail("edges", "%s has edges %s, its place on %s (%.1f, %.1f, %.1f by %.1f) gives bottom, right, top, left of %v", n.ID,
			strings.Join(n.Edges[:], " "), s.ID, r.x, r.y, r.w, r.h, of)
	}
}

// slanted: that side of the panel is not one straight edge of its bounding box, and so cut by hand.
func (p *proof) slanted(n placed, i int) bool {
	o := n.Outline.poly()
	x0, y0, x1, y1 := o.bounds()
	length := 0.0
	for k, a := range o {
		b := o[(k+1)%len(o)]
		on := [4]bool{a.y == y0 && b.y == y0, a.x == x1 && b.x == x1, a.y == y1 && b.y == y1, a.x == x0 && b.x == x0}[i]
		if on {
			length += math.Abs(a.x-b.x) + math.Abs(a.y-b.y)
		}
	}
	full := x1 - x0
	if i%2 == 1 {
		full = y1 - y0
	}
	return length < full-epsLength && n.Edges[i] == "cut"
}
