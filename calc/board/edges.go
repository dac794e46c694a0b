package board

import (
	"cmp"
	"slices"
	"strings"

	"seamwright/calc/job"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

// holesOf are the openings and large boxes that leave a zone uncovered.
func holesOf(z *survey.Zone) []shape.Rect {
	rs := slices.Clone(z.Large)
	for _, h := range z.Holes {
		rs = append(rs, h.Outline.Bounds())
	}
	return rs
}

// perimeter lists the joints of a zone with what surrounds it. They are finished on the outermost layer only, and a
// corner between two lined surfaces stands once, with the surface that comes first in the building.
func perimeter(z *survey.Zone, order map[string]int, lined map[string]bool, panels []plan.Panel) []plan.Joint {
	if z.Layer < z.Layers {
		return nil
	}
	var joints []plan.Joint
	for i, e := range z.Edges {
		from, to := z.Outline[i], z.Outline[(i+1)%len(z.Outline)]
		kind := plan.Perimeter
		switch e.Meets {
		case survey.AtInsideCorner, survey.AtCeiling, survey.AtRidge:
			if lined[e.With] {
				kind = plan.InsideCorner
			}
		case survey.AtOutsideCorner:
			kind = plan.OutsideCorner
		case survey.AtFloor, survey.AtCurb:
			if w := z.Surface.Wall; w != nil && w.Trim > 0 {
				kind = plan.Trim
			}
		case survey.AtZone:
			kind = plan.Trim
		}
		if (kind == plan.InsideCorner || kind == plan.OutsideCorner) && e.With != "" && lined[e.With] && order[e.With] < order[z.Surface.ID] {
			continue
		}
		if e.Meets == survey.AtZone && !isTop(z, from, to) {
			continue // the line between two zones stands with the lower one
		}
		joints = append(joints, plan.Joint{Kind: kind, From: from, To: to, Panels: along(panels, from, to), Support: plan.OnPlate})
	}
	return joints
}

// isTop tells whether a side of a zone is its upper one.
func isTop(z *survey.Zone, from, to shape.Point) bool {
	b := z.Outline.Bounds()
	return from.Y+to.Y > 2*b.Y+b.H
}

// along names the panels whose bounds come near a side: within what floor gap, trim and fit can open.
func along(panels []plan.Panel, from, to shape.Point) []string {
	ids := []string{}
	x0, x1 := min(from.X, to.X), max(from.X, to.X)
	y0, y1 := min(from.Y, to.Y), max(from.Y, to.Y)
	for i := range panels {
		b := panels[i].Outline.Bounds()
		var near bool
		if x1-x0 >= y1-y0 {
			near = b.X < x1 && b.MaxX() > x0 && b.Y <= y1+nearSide && b.MaxY() >= y0-nearSide
		} else {
			near = b.Y < y1 && b.MaxY() > y0 && b.X <= x1+nearSide && b.MaxX() >= x0-nearSide
		}
		if near {
			ids = append(ids, panels[i].ID)
		}
	}
	return ids
}

// nearSide is how far a panel may stand from the side that it belongs to: more than any clearance under a trim.
const nearSide = 4 * 25_400_000

// initials gives every surface two capital letters of its own, from its own name where they are free.
func initials(b *survey.Building) map[*survey.Surface]string {
	l := lettering{taken: map[string]bool{}}
	names := map[*survey.Surface]string{}
	for _, s := range b.Surfaces {
		names[s] = l.of(s.ID)
	}
	return names
}

// lettering gives letters out, each pair once.
type lettering struct {
	taken map[string]bool
	full  [256]bool // first letters of which no pair with a letter is left
	next  int       // all pairs before it are taken
}

func (l *lettering) of(id string) string {
	letters := capitals(id)
	n := l.free(letters)
	l.taken[n] = true
	return n
}

func (l *lettering) free(letters []byte) string {
	for k := 1; k < len(letters); k++ {
		if n := string([]byte{letters[0], letters[k]}); !l.taken[n] {
			return n
		}
	}
	for c := byte('A'); c <= 'Z' && !l.full[letters[0]]; c++ {
		if n := string([]byte{letters[0], c}); !l.taken[n] {
			return n
		}
	}
	l.full[letters[0]] = true
	for ; ; l.next++ {
		if n := letterPair(l.next); !l.taken[n] {
			return n
		}
	}
}

// capitals are the letters of a surface's own name, and the digits behind the first of them.
func capitals(id string) (letters []byte) {
	own := id[strings.LastIndexByte(id, '/')+1:]
	for i := 0; i < len(own); i++ {
		c := own[i]
		if c >= 'a' && c <= 'z' {
			c -= 'a' - 'A'
		}
		if c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' && len(letters) > 0 {
			letters = append(letters, c)
		}
	}
	if len(letters) == 0 {
		letters = []byte{'W'}
	}
	return letters
}

// letterPair counts AA, AB … ZZ, and on with three letters.
func letterPair(n int) string {
	if n < 26*26 {
		return string([]byte{byte('A' + n/26), byte('A' + n%26)})
	}
	n -= 26 * 26
	return string([]byte{byte('A' + n/676%26), byte('A' + n/26%26), byte('A' + n%26)})
}

// openZone is a zone that stays uncovered.
func openZone(z *survey.Zone) plan.Zone {
	return plan.Zone{Zone: z.Index, Layer: z.Layer, Product: job.Open, Run: string(z.Run), Pattern: string(z.Pattern), Outline: z.Outline,
		Panels: []plan.Panel{}, Joints: []plan.Joint{}}
}

// boxed cuts the electrical boxes out of a panel: a hole where the box lies in the panel, a notch where it runs over an
// edge. Large ones are out of it already.
func boxed(outline shape.Polygon, holes, boxes []shape.Polygon) (shape.Polygon, []shape.Polygon) {
	g := shape.Region{Outline: outline, Holes: holes}
	if g.Holes == nil {
		g.Holes = []shape.Polygon{}
	}
	for _, box := range boxes {
		b, whole := box.Bounds(), g.Outline.Bounds()
		switch {
		case b.X >= whole.MaxX() || b.MaxX() <= whole.X || b.Y >= whole.MaxY() || b.MaxY() <= whole.Y:
		case inside(g, box):
			g.Holes = append(g.Holes, box)
		case len(box) == 4:
			if rest := g.Subtract(b); len(rest) > 0 {
				g = slices.MaxFunc(rest, func(a, b shape.Region) int { return cmp.Compare(a.Area(), b.Area()) })
			}
		default:
			for _, part := range box.Intersect(whole) {
				if g.Contains(middle(part)) != shape.Inside {
					continue
				}
				if notched, ok := g.Outline.Notch(part); ok {
					g.Outline = notched // a joint parts the box
				} else {
					g.Holes = append(g.Holes, part)
				}
			}
		}
	}
	if g.Holes == nil {
		g.Holes = []shape.Polygon{}
	}
	return g.Outline, g.Holes
}

// inside tells whether a box lies wholly in a panel, clear of its edges.
func inside(g shape.Region, box shape.Polygon) bool {
	for _, p := range box {
		if g.Contains(p) != shape.Inside {
			return false
		}
	}
	return true
}

func middle(p shape.Polygon) shape.Point {
	b := p.Bounds()
	return shape.Point{X: b.X + b.W/2, Y: b.Y + b.H/2}
}
