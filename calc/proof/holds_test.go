package proof

import (
	"bytes"
	"fmt"
	"math"
	"strings"
)

// proof collects what is wrong with a plan.
type proof struct {
	asked  *project
	plan   *answer
	faults []string
	panels map[string]placed // by panel id
	strips map[string]strip  // of returns, by id
}

// placed is a panel with the zone that it hangs in.
type placed struct {
	*panel
	zone    *zone
	surface *surface
}

func (p *proof) fail(rule, format string, args ...any) {
	p.faults = append(p.faults, rule+": "+fmt.Sprintf(format, args...))
}

// faults holds a plan against its project file and lists what is wrong, each beginning with the name of the check.
func faults(project, plan []byte) []string {
	asked, err := readProject(project)
	if err != nil {
		return []string{"read: project: " + err.Error()}
	}
	a, err := readAnswer(plan)
	if err != nil {
		return []string{"read: plan: " + err.Error()}
	}
	if bytes.Contains(plan, []byte(":null")) {
		return []string{"read: plan: a list is missing (null)"}
	}
	p := &proof{asked: asked, plan: a, panels: map[string]placed{}, strips: map[string]strip{}}
	for _, r := range a.Returns {
		p.strips[r.ID] = r
	}
	p.rooms()
	p.setbacks()
	for i := range a.Surfaces {
		s := &a.Surfaces[i]
		for k := range s.Zones {
			z := &s.Zones[k]
			p.cover(s, z)
			for n := range z.Panels {
				id := z.Panels[n].ID
				if _, twice := p.panels[id]; twice {
					p.fail("panel", "%s stands twice", id)
				}
				p.panels[id] = placed{&z.Panels[n], z, s}
			}
			p.seams(s, z)
			p.blocks(s, z)
		}
	}
	p.pins()
	p.faces()
	p.sheets()
	p.sums()
	p.agree()
	p.sequence()
	return p.faults
}

// reported says whether the plan itself names a breach of one of the rules on a surface.
func (p *proof) reported(where string, rules ...string) bool {
	for _, c := range p.plan.Checks {
		for _, r := range rules {
			if c.Rule == r && (c.Where == where || strings.HasPrefix(c.Where, where+" ") || c.Where == "") {
				return true
			}
		}
	}
	return false
}

func near(a, b, eps float64) bool { return math.Abs(a-b) <= eps }

// rooms: walls, openings and zones of the plan are those of the file.
func (p *proof) rooms() {
	byID := map[string]*surface{}
	for i := range p.plan.Surfaces {
		s := &p.plan.Surfaces[i]
		if byID[s.ID] != nil {
			p.fail("surfaces", "%s stands twice", s.ID)
		}
		byID[s.ID] = s
	}
	expected := 0
	for i, r := range p.asked.Rooms {
		for _, w := range p.asked.sides(i) {
			expected++
			s := byID[r.ID+"/"+w.wall.ID]
			if s == nil {
				p.fail("surfaces", "%s/%s is missing", r.ID, w.wall.ID)
				continue
			}
			p.wall(s, w, float64(r.Height), r.Ceiling == nil || r.Ceiling.Shape.Kind == 0)
		}
		if r.Ceiling != nil {
			planes := 0
			for _, s := range p.plan.Surfaces {
				if s.Room == r.ID && s.Kind == "ceiling" {
					planes++
					p.zonesOf(&s, r.Ceiling.Lining)
					if r.Ceiling.Shape.Kind == 0 {
						p.flat(&s, r.Ceiling.Openings)
					}
				}
			}
			if planes == 0 {
				p.fail("surfaces", "%s has no ceiling", r.ID)
			}
			expected += planes
		}
	}
	if len(p.plan.Surfaces) != expected {
		p.fail("surfaces", "%d surfaces in the plan, %d in the file", len(p.plan.Surfaces), expected)
	}
}

// flat: a flat ceiling has the room's own coordinates, its openings stand where the file has them.
func (p *proof) flat(s *surface, openings []hatch) {
	if len(s.Openings) != len(openings) || len(s.Holes) != len(openings) {
		p.fail("opening", "%s has %d openings, the file %d", s.ID, len(s.Openings), len(openings))
		return
	}
	for i, o := range openings {
		x0, y0, x1, y1 := s.Openings[i].Outline.poly().bounds()
		if !near(x0, float64(o.At[0]), epsLength) || !near(y0, float64(o.At[1]), epsLength) || !near(x1-x0, float64(o.Size[0]), epsLength) || !near(y1-y0, float64(o.Size[1]), epsLength) {
			p.fail("opening", "%s of %s is not where the file has it", o.ID, s.ID)
		}
	}
}

func (p *proof) wall(s *surface, w side, height float64, flat bool) {
	x0, y0, x1, y1 := s.Outline.poly().bounds()
	if !near(x0, 0, epsLength) || !near(x1, w.width(), epsLength) {
		p.fail("wall", "%s runs from %v to %v, the file says %v wide", s.ID, x0, x1, w.width())
	}
	if flat && len(w.wall.Top) == 0 && !near(y1, height, epsLength) {
		p.fail("wall", "%s is %v high, the room %v", s.ID, y1, height)
	}
	if len(w.wall.Bottom) == 0 && !near(y0, 0, epsLength) {
		p.fail("wall", "%s starts at %v", s.ID, y0)
	}
	if !near(float64(s.Members.Width), float64(w.framing.Member), epsLength) {
		p.fail("wall", "%s has members %v wide", s.ID, s.Members.Width)
	}
	holes := 0
	for i, o := range w.wall.Openings {
		if i >= len(s.Openings) || s.Openings[i].ID != o.ID {
			p.fail("opening", "%s lacks %s", s.ID, o.ID)
			continue
		}
		a0, b0, a1, b1 := s.Openings[i].Outline.poly().bounds()
		if !near(a0, float64(o.At), epsLength) || !near(b0, float64(o.Sill), epsLength) || !near(a1, float64(o.At+o.Width), epsLength) || !near(b1, float64(o.Sill+o.Height), epsLength) {
			p.fail("opening", "%s of %s is not where the file has it", o.ID, s.ID)
		}
		if o.Kind != "keep-out" {
			holes++
		}
	}
	if len(s.Openings) != len(w.wall.Openings) || len(s.Holes) != holes || len(s.Boxes) != len(w.wall.Boxes) {
		p.fail("opening", "%s has %d openings, %d holes and %d boxes", s.ID, len(s.Openings), len(s.Holes), len(s.Boxes))
	}
	p.members(s, w)
	p.returns(s, w)
	p.zonesOf(s, w.wall.Lining)
}

// members: ends, jambs and every grid member that nothing else stands against.
func (p *proof) members(s *surface, w side) {
	half := float64(w.framing.Member) / 2
	want := []float64{half, w.width() - half}
	busy := append([]float64(nil), want...)
	cut := func(x float64) bool {
		for _, o := range w.wall.Openings {
			if o.Kind != "keep-out" && x+half > float64(o.At)+epsLength && x-half < float64(o.At+o.Width)-epsLength {
				return true
			}
		}
		return false
	}
	for _, o := range w.wall.Openings {
		for _, x := range []float64{float64(o.At) - half, float64(o.At+o.Width) + half} {
			busy = append(busy, x)
			if x >= 0 && x <= w.width() && !cut(x) {
				want = append(want, x)
			}
		}
	}
	for _, x := range w.framing.Also {
		busy = append(busy, float64(x))
	}
	first := float64(w.framing.First)
	if first == 0 {
		first = float64(w.framing.Spacing)
	}
grid:
	for x := first; x < w.width(); x += float64(w.framing.Spacing) {
		for _, b := range busy {
			if math.Abs(b-x) < 2*half-epsLength {
				continue grid
			}
		}
		if !cut(x) {
			want = append(want, x)
		}
	}
	for _, x := range want {
		found := false
		for _, without := range w.framing.Without {
			found = found || math.Abs(float64(without)-x) <= half
		}
		for _, at := range s.Members.At {
			found = found || near(float64(at), x, epsLength)
		}
		if !found {
			p.fail("members", "%s lacks the member at %v", s.ID, x)
		}
	}
}

// zonesOf: every layer of every zone of the file is there with its product, and no other.
func (p *proof) zonesOf(s *surface, lining []zoneAsked) {
	layers := 0
	for i, z := range lining {
		for k, product := range z.Product {
			if product == "open" {
				continue
			}
			layers++
			found := false
			for _, q := range s.Zones {
				if q.Zone == i+1 && q.Layer == k+1 {
					found = true
					if q.Product != product {
						p.fail("zone", "%s zone %d layer %d is of %s, the file says %s", s.ID, i+1, k+1, q.Product, product)
					}
					if len(z.Run) > 0 {
						run := z.Run[min(k, len(z.Run)-1)]
						if run != "auto" && q.Run != run {
							p.fail("zone", "%s zone %d runs %s, the file says %s", s.ID, i+1, q.Run, run)
						}
					}
				}
			}
			if !found {
				p.fail("zone", "%s lacks zone %d layer %d", s.ID, i+1, k+1)
			}
		}
	}
	if len(s.Zones) < layers {
		p.fail("zone", "%s has %d layers, the file %d", s.ID, len(s.Zones), layers)
	}
	for _, z := range s.Zones {
		if z.Zone < 1 || z.Zone > len(lining) || z.Layer < 1 || z.Layer > len(lining[z.Zone-1].Product) {
			p.fail("zone", "%s has a zone %d layer %d that the file does not know", s.ID, z.Zone, z.Layer)
		}
	}
}
