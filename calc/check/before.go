package check

import (
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
		add := func(what string, at []shape.Point, source, text plan.Fact) {
			if at == nil {
				at = []shape.Point{}
			}
			all = append(all, plan.Look{Surface: surface.ID, What: what, At: at, Text: text, Source: source})
		}
		add(lookStuds, nil, plan.CiteRead("Gypsum Association, Using Gypsum Board, s. II"), plan.Tell("look.studs", "count", len(surface.Studs), "bow", plan.Fine(length.Inch/8)))
		boxes := depths[surface.ID]
		var places []shape.Point
		for _, d := range boxes {
			places = append(places, shape.Point{X: d.Box.At, Y: d.Box.Up})
		}
		if len(places) > 0 || len(s.keepOuts(surface)) > 0 {
			add(lookPlates, append(places, s.keepOuts(surface)...), plan.CiteMemory("NEC 300.4"), plan.Tell("look.plates", "depth", plan.Fine(5*length.Inch/4)))
		}
		for _, d := range boxes {
			s.lookAtBox(d, add)
		}
		if hangsOnStuds(surface) {
			add(lookBlocking, nil, plan.Practice(), plan.Tell("look.blocking"))
		}
		if at, sum := bareEdges(surface); sum > 0 {
			add(lookBacking, at, plan.Tell("source.edges-supported"), plan.Tell("look.backing", "long", sum))
		}
		if k := insulation(surface); k != "" && k != job.NoInsulation {
			kind := "look.insulation"
			if k == job.KraftBatt {
				kind = "look.insulation-faced"
			}
			add(lookInsulation, nil, plan.Tell("source.insulation-look"), plan.Tell(kind, "insulation", insulationName(k)))
		}
	}
	return all
}

func (s *site) lookAtBox(d finish.BoxDepth, add func(what string, at []shape.Point, source, text plan.Fact)) {
	so := plan.Tell("look.box-fine")
	if d.Extension > 0 {
		so = plan.Tell("look.box-deep", "by", plan.Fine(d.Extension))
	} else if d.Proud > 0 {
		so = plan.Tell("look.box-proud", "by", plan.Fine(d.Proud))
	}
	add(lookBox, []shape.Point{{X: d.Box.At, Y: d.Box.Up}}, plan.CiteRead("NEC 314.20"), plan.Tell("look.box", "box", plan.Box(d.Box.Kind), "at", d.Box.At, "up", d.Box.Up,
		"out", plan.Fine(d.Box.SetOut), "lining", plan.Fine(d.BuildUp), "so", so))
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
