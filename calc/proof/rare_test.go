package proof

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"
)

// What is rarer in projects: seams fixed by hand, stair walls, heads as measured, back-blocking, the two faces of a
// partition, and alternatives.

func (d *drawing) seldom(of int) bool { return d.rare.IntN(of) == 0 }

// The alternative of every drawn project changes one wall.
const (
	changedWall   = "r1/s2"
	changedLining = "[{product: gyp-16x}]"
)

// rarer writes what few walls have.
func (d *drawing) rarer(b *strings.Builder, long, height int, busy, open bool) {
	between := func(lo, hi int) int { return lo + d.rare.IntN(max(1, hi-lo+1)) }
	var pins []string
	if d.seldom(6) && long > 60 && !open {
		pins = append(pins, fmt.Sprintf(`{zone: 1, layer: 1, course: %d, seam: %d"}`, between(1, 2), between(12, long-12)))
	}
	if d.edges.IntN(6) == 0 && long > 60 && !open {
		pins = append(pins, fmt.Sprintf(`{edge: %d"}`, 8+d.edges.IntN(long-16)))
	}
	if len(pins) > 0 {
		fmt.Fprintf(b, `, pins: [%s]`, strings.Join(pins, ", "))
	}
	if d.seldom(10) && d.exact && !busy {
		fmt.Fprintf(b, `, bottom: [[0, 0], [%d", 0], [%d", %d"]]`, long/3, long, between(10, height/3))
	}
	if d.seldom(10) && d.exact {
		fmt.Fprintf(b, `, top: [[0, %d"], [%d", %d 1/4"]]`, height-1, long, height-between(1, 3))
	}
}

// pins: a seam fixed by hand is a seam, on whatever it then lies; where no course is to be parted the plan says so.
func (p *proof) pins() {
	for i := range p.plan.Surfaces {
		s := &p.plan.Surfaces[i]
		w, ok := p.wallOf(s.ID)
		if !ok {
			continue
		}
		for _, pin := range w.wall.Pins {
			for k := range s.Zones {
				z := &s.Zones[k]
				switch {
				case z.Zone != max(1, pin.Zone) || z.Layer != max(1, pin.Layer):
				case pin.Edge != nil:
					p.edge(s, z, float64(*pin.Edge))
				default:
					p.pin(s, z, pin.Course, float64(pin.Seam))
				}
			}
		}
	}
}

func (p *proof) pin(s *surface, z *zone, course int, seam float64) {
	levelCourses := (z.Run == "across") == (s.Members.Axis == "x")
	ends := false
	for _, n := range z.Panels {
		o := n.Outline.poly()
		if !levelCourses {
			o = o.swapped()
		}
		x0, _, x1, _ := o.bounds()
		if n.Course != course {
			continue
		}
		if x0 < seam-sameLine && seam+sameLine < x1 {
			p.fail("pin", "%s: panel %s runs over the seam fixed at %.1f in course %d", s.ID, n.ID, seam, course)
			return
		}
		ends = ends || near(x0, seam, sameLine) || near(x1, seam, sameLine)
	}
	if !ends && !p.reported(s.ID, "pin") {
		p.fail("pin", "%s: the seam fixed at %.1f in course %d parts nothing, and nothing is said", s.ID, seam, course)
	}
}

// edge: a joint fixed between upright courses is where these meet, or the plan says why not.
func (p *proof) edge(s *surface, z *zone, at float64) {
	if p.reported(s.ID, "pin") {
		return
	}
	meet := false
	for _, n := range z.Panels {
		o := n.Outline.poly()
		if s.Members.Axis != "x" {
			o = o.swapped()
		}
		x0, _, x1, _ := o.bounds()
		if x0 < at-sameLine && at+sameLine < x1 {
			p.fail("pin", "%s: panel %s runs over the joint fixed at %.1f", s.ID, n.ID, at)
			return
		}
		meet = meet || near(x0, at, sameLine) || near(x1, at, sameLine)
	}
	if !meet || z.Run != "along" {
		p.fail("pin", "%s: no upright courses meet at %.1f, and nothing is said", s.ID, at)
	}
}

// faces: upright seams of the base layers on the two faces of one partition do not share a stud.
func (p *proof) faces() {
	type face struct {
		side
		*surface
		room string
	}
	var all []face
	for i, r := range p.asked.Rooms {
		for _, w := range p.asked.sides(i) {
			for k := range p.plan.Surfaces {
				if s := &p.plan.Surfaces[k]; s.ID == r.ID+"/"+w.wall.ID {
					all = append(all, face{w, s, r.ID})
				}
			}
		}
	}
	const thickest = 16 * 25.4
	for i, a := range all {
		for _, b := range all[:i] {
			la, lb := a.width(), b.width()
			ax, ay := (a.right.x-a.left.x)/la, (a.right.y-a.left.y)/la
			bx, by := (b.right.x-b.left.x)/lb, (b.right.y-b.left.y)/lb
			apart := (b.left.x-a.left.x)*-ay + (b.left.y-a.left.y)*ax // along a's normal
			if a.room == b.room || ax*bx+ay*by > -1+1e-9 || math.Abs(apart) > thickest || p.reported(a.ID, "opposite-faces") || p.reported(b.ID, "opposite-faces") {
				continue
			}
			for _, x := range p.baseSeams(a.surface) {
				for _, y := range p.baseSeams(b.surface) {
					wx, wy := b.left.x+bx*y.at, b.left.y+by*y.at
					there := (wx-a.left.x)*ax + (wy-a.left.y)*ay
					if math.Min(x.hi, y.hi)-math.Max(x.lo, y.lo) > epsLength && math.Abs(there-x.at) < float64(a.Members.Width)-sameLine {
						p.fail("opposite faces", "%s at %.1f and %s at %.1f share a stud", a.ID, x.at, b.ID, y.at)
					}
				}
			}
		}
	}
}

// baseSeams are the upright seams of a surface's first layers.
func (p *proof) baseSeams(s *surface) (found []seam) {
	for k := range s.Zones {
		if s.Zones[k].Layer == 1 {
			upright, _ := s.Zones[k].seams(2*float64(p.asked.Rules.Fit) + largestGap)
			found = append(found, upright...)
		}
	}
	return found
}

// blocks: a joint on blocks lies in a bay, clear of the members, where the file allows blocks and no duty forbids them.
func (p *proof) blocks(s *surface, z *zone) {
	for _, j := range z.Joints {
		if j.Support != "back-block" {
			continue
		}
		if !p.mayBlock(s) {
			p.fail("back-block", "%s: a joint is back-blocked where that is not allowed", s.ID)
		}
		at := float64(j.From[0])
		if s.Members.Axis == "y" {
			at = float64(j.From[1])
		}
		for _, m := range append(append([]mm(nil), s.Members.At...), s.Cripples...) {
			if math.Abs(float64(m)-at) < float64(s.Members.Width) && !p.reported(s.ID, "pin", "bearing") {
				p.fail("back-block", "%s: the joint at %.1f has no room for blocks beside the member at %.1f", s.ID, at, float64(m))
			}
		}
	}
}

// mayBlock: the file allows blocks behind joints, and no duty of the wall forbids them.
func (p *proof) mayBlock(s *surface) bool {
	w, _ := p.wallOf(s.ID)
	for _, d := range w.wall.Duty {
		if d == "rated" || d == "separation" || d == "bracing" {
			return false
		}
	}
	return p.asked.Rules.BackBlocking
}

// alternative: the numbers of the alternative are those of a project that has its lining from the start.
func alternative(number uint64, plan []byte, planned func(string) ([]byte, error)) []string {
	d := draw(number)
	d.variant = true
	other, err := planned(d.project(number))
	if err != nil {
		return []string{"alternative: " + err.Error()}
	}
	type numbers struct {
		Summary struct {
			Sheets int `json:"sheets_bought"`
			Bound  int `json:"sheets_bound"`
			Days   int
			Hours  float64
			Waste  float64
			Butt   mm `json:"butt_joint"`
		}
		Cost struct{ Total float64 }
	}
	var own struct {
		Alternatives []struct {
			Cost   float64
			Sheets int
			Bound  int `json:"sheets_bound"`
			Days   int
			Hours  float64
			Waste  float64
			Butt   mm `json:"butt_joint"`
		}
	}
	var want numbers
	if err := json.Unmarshal(plan, &own); err != nil {
		return []string{"alternative: " + err.Error()}
	}
	if err := json.Unmarshal(other, &want); err != nil {
		return []string{"alternative: " + err.Error()}
	}
	if len(own.Alternatives) != 1 {
		return []string{fmt.Sprintf("alternative: %d in the plan, the file names one", len(own.Alternatives))}
	}
	a, s := own.Alternatives[0], want.Summary
	if a.Cost != want.Cost.Total || a.Sheets != s.Sheets || a.Bound != s.Bound || a.Days != s.Days || a.Hours != s.Hours || a.Waste != s.Waste || a.Butt != s.Butt {
		return []string{fmt.Sprintf("alternative: %+v beside the plan, %+v and %v when planned by itself", a, s, want.Cost.Total)}
	}
	return nil
}
