package proof

import "math"

// setbacks: where two walls meet at a right angle the zones of a wall start and stop where the linings hung before
// say: those of a lower layer and, within a layer, of the wall that stands earlier in the hang order. At an inside
// corner they take their thickness away, at an outside corner they add it. Heights: from the floor, the curb or the
// zone below to the zone above or the ceiling's lining, where the ceiling is flat.
func (p *proof) setbacks() {
	byID := map[string]*surface{}
	for i := range p.plan.Surfaces {
		byID[p.plan.Surfaces[i].ID] = &p.plan.Surfaces[i]
	}
	for i, r := range p.asked.Rooms {
		sides := p.asked.sides(i)
		n := len(sides)
		down := 0.0
		if r.Ceiling != nil {
			for _, z := range r.Ceiling.Lining {
				for _, l := range z.Product {
					down += thickness[l]
				}
			}
		}
		flat := r.Ceiling == nil || r.Ceiling.Shape.Kind == 0
		eave := float64(r.Height) - 4*down // under a slope: clear of its lining on the upright
		for k, w := range sides {
			s := byID[r.ID+"/"+w.wall.ID]
			if s == nil || len(w.wall.Top) > 0 || len(w.wall.Bottom) > 0 {
				continue
			}
			for _, o := range []side{sides[(k+1)%n], sides[(k+n-1)%n]} {
				q := byID[r.ID+"/"+o.wall.ID]
				if q == nil || len(o.wall.Top) > 0 || len(o.wall.Bottom) > 0 {
					continue
				}
				for z := range s.Zones {
					p.setback(s, &s.Zones[z], w, q, o, eave)
				}
			}
			for _, z := range s.Zones {
				_, y0, _, y1 := z.Outline.poly().bounds()
				foot, head := float64(w.wall.Base), float64(r.Height)-down
				if z.Zone > 1 {
					foot = math.Max(foot, float64(w.wall.Lining[z.Zone-2].To))
				}
				if to := float64(w.wall.Lining[z.Zone-1].To); to > 0 && to < head {
					head = to
				}
				if !near(y0, foot, epsLength) || flat && !near(y1, head, epsLength) {
					p.fail("height", "%s zone %d layer %d goes from %.3f to %.3f, not from %.3f to %.3f", s.ID, z.Zone, z.Layer, y0, y1, foot, head)
				}
			}
		}
	}
}

func (p *proof) setback(s *surface, z *zone, w side, q *surface, o side, eave float64) {
	right := w.right == o.left
	a, b := pt{w.right.x - w.left.x, w.right.y - w.left.y}, pt{o.right.x - o.left.x, o.right.y - o.left.y}
	if math.Abs(a.x*b.x+a.y*b.y) > 1e-6 {
		return
	}
	turn := a.x*b.y - a.y*b.x // from this wall to the next one: to the right at an inside corner
	if !right {
		turn = -turn
	}
	_, y0, _, y1 := z.Outline.poly().bounds()
	y1 = math.Min(y1, eave)
	for k := range 8 { // heights between
		y := y0 + (y1-y0)*(float64(k)+0.5)/8
		if y >= y1 {
			return
		}
		t := 0.0
		for i, l := range o.wall.Lining {
			from := 0.0
			if i > 0 {
				from = float64(o.wall.Lining[i-1].To)
			}
			if y < from || l.To > 0 && y >= float64(l.To) {
				continue
			}
			for j, product := range l.Product {
				if product != "open" && (j+1 < z.Layer || j+1 == z.Layer && q.Order < s.Order) {
					t += thickness[product]
				}
			}
		}
		spans := union(cross([]poly{z.Outline.poly().swapped()}, y))
		if len(spans) == 0 {
			continue
		}
		got := spans[0].lo
		if right {
			got = w.width() - spans[len(spans)-1].hi
		}
		if turn > 0 {
			t = -t
		}
		if !near(got, t, epsLength) {
			p.fail("setback", "%s zone %d layer %d stands %.3f from %s at %.0f, not %.3f", s.ID, z.Zone, z.Layer, got, q.ID, y, t)
			return
		}
	}
}
