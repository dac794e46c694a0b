package check

import (
	"fmt"

	"seamwright/calc/finish"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

// What is to be looked at before covering.
const (
	lookStuds      = "studs"
	lookPlates     = "plates"
	lookBlocking   = "blocking"
	lookBacking    = "backing"
	lookBox        = "box"
	lookInsulation = "insulation"
)

// before lists what to check and photograph before the lining hides it, surface by surface. It is a help for the
// person who looks, not an inspection.
func (s *site) before() []plan.Look {
	all := []plan.Look{}
	depths := map[string][]finish.BoxDepth{}
	for _, d := range finish.Boxes(s.j, s.b) {
		depths[d.Surface] = append(depths[d.Surface], d)
	}
	for _, surface := range s.b.Surfaces {
		if len(surface.Zones) == 0 {
			continue
		}
		add := func(what string, at []shape.Point, source, format string, args ...any) {
			if at == nil {
				at = []shape.Point{}
			}
			all = append(all, plan.Look{Surface: surface.ID, What: what, At: at, Text: fmt.Sprintf(format, args...), Source: source})
		}
		add(lookStuds, nil, "Gypsum Association, Using Gypsum Board, s. II (read)",
			"hold a straightedge across the %d members: plane or shim what stands proud or bows more than %s; none loose, none twisted", len(surface.Studs), s.show(length.Inch/8))
		boxes := depths[surface.ID]
		var places []shape.Point
		for _, d := range boxes {
			places = append(places, shape.Point{X: d.Box.At, Y: d.Box.Up})
		}
		if len(places) > 0 || len(s.keepOuts(surface)) > 0 {
			add(lookPlates, append(places, s.keepOuts(surface)...), "NEC 300.4 (from memory)",
				"nail plates where a cable or pipe lies nearer than %s to the face of a member; photograph every run with a rule beside it", s.show(5*length.Inch/4))
		}
		for _, d := range boxes {
			s.lookAtBox(d, add)
		}
		if hangsOnStuds(surface) {
			add(lookBlocking, nil, "common practice, no source", "blocking for what will hang here: shelves, rails, racks, a basin; measure and photograph it")
		}
		if at, sum := bareEdges(surface); sum > 0 {
			add(lookBacking, at, "IBC 2508.3: edges not at right angles to the framing are supported (read)",
				"%s of ceiling edge runs along the members with none behind it: fix backing there", s.show(sum))
		}
		if k := insulation(surface); k != "" && k != job.NoInsulation {
			words := "%s fills the bays without gaps"
			if k == job.KraftBatt {
				words += ", its facing is not left open anywhere, and none lies over the faces of the members where board is glued"
			}
			add(lookInsulation, nil, "common practice, no source; facing on stud faces: Gypsum Association, s. III (read)", words, k)
		}
	}
	return all
}

func (s *site) lookAtBox(d finish.BoxDepth, add func(string, []shape.Point, string, string, ...any)) {
	kind := d.Box.Kind
	if kind == "" {
		kind = "box"
	}
	words := "its face stands within what is allowed"
	if d.Extension > 0 {
		words = fmt.Sprintf("bring it out %s or set an extender", s.fine(d.Extension))
	} else if d.Proud > 0 {
		words = fmt.Sprintf("it stands %s out of the finished face: set it back by as much", s.fine(d.Proud))
	}
	add(lookBox, []shape.Point{{X: d.Box.At, Y: d.Box.Up}}, "NEC 314.20 (read)", "%s at %s, %s up: set out %s, the lining is %s thick: %s; a licensed person judges the wiring",
		kind, s.show(d.Box.At), s.show(d.Box.Up), s.fine(d.Box.SetOut), s.fine(d.BuildUp), words)
}

// fine writes a small length to 1/32 in, as thick as panels are told apart, or to a millimetre.
func (s *site) fine(l length.Length) string {
	if s.imperial {
		return l.Imperial(32)
	}
	return l.Metric()
}

// keepOuts are the middles of a surface's keep-outs.
func (s *site) keepOuts(surface *survey.Surface) (at []shape.Point) {
	seen := map[shape.Rect]bool{}
	for _, z := range surface.Zones {
		for _, r := range z.KeepOuts {
			if !seen[r] {
				seen[r] = true
				at = append(at, shape.Point{X: r.X + r.W/2, Y: r.Y + r.H/2})
			}
		}
	}
	return at
}

// hangsOnStuds: a wall faced with gypsum board holds weight at its members only.
func hangsOnStuds(s *survey.Surface) bool {
	if s.Wall == nil {
		return false
	}
	for _, z := range s.Zones {
		if z.Layer == z.Layers && z.Product.Kind == job.Gypsum {
			return true
		}
	}
	return false
}

// bareEdges are the middles of a ceiling's edges that run along its members without one behind them, and their length.
func bareEdges(s *survey.Surface) (at []shape.Point, sum length.Length) {
	if s.Kind != plan.Ceiling {
		return nil, 0
	}
	for _, z := range s.Zones {
		if z.Layer > 1 {
			continue
		}
		for i, a := range z.Outline {
			b := z.Outline[(i+1)%len(z.Outline)]
			from, across := a.X, a.X == b.X
			if s.Members.Axis == string(job.AxisY) {
				from, across = a.Y, a.Y == b.Y
			}
			if !across || a == b || bornAt(s, from) {
				continue
			}
			at = append(at, shape.Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2})
			sum += (a.X - b.X).Abs() + (a.Y - b.Y).Abs()
		}
	}
	return at, sum
}

// bornAt says whether a member lies under a line along the members, or within the bearing that an edge there needs.
func bornAt(s *survey.Surface, at length.Length) bool {
	const bearing = 3 * length.Inch / 4 // half a 1-1/2 in member
	for _, m := range s.Studs {
		if (m.At - at).Abs() <= m.Width/2+bearing {
			return true
		}
	}
	return false
}
