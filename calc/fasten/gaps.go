package fasten

import (
	"cmp"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

// Gap is the widest distance between neighbouring screws along a member on one sheet.
type Gap struct {
	Surface     string
	Zone, Layer int
	Panel       string
	Widest      length.Length
	At          shape.Point // halfway along the gap
	Limit       length.Length
	Source      plan.Fact // of the limit
}

// Gaps finds the widest gap of every sheet of a plan from its points alone, in the order of the plan. Points on one
// line along a member or along the edge of the sheet belong together; a stretch that leaves the sheet (an opening, a notch) is no gap.
func Gaps(p *plan.Plan) []Gap {
	var all []Gap
	for i := range p.Surfaces {
		s := &p.Surfaces[i]
		for k := range s.Zones {
			z := &s.Zones[k]
			for _, g := range zoneGaps(s, z, z.Fasteners.Points) {
				g.Surface, g.Zone, g.Layer, g.Limit, g.Source = s.ID, z.Zone, z.Layer, z.Fasteners.Limit, z.Fasteners.Source
				all = append(all, g)
			}
		}
	}
	return all
}

func zoneGaps(surface *plan.Surface, z *plan.Zone, points []shape.Point) []Gap {
	turned := surface.Members.Axis == string(job.AxisY)
	var gaps []Gap
	for i := range z.Panels {
		p := &z.Panels[i]
		s := newSheet(p.Outline, p.Holes, turned)
		g := Gap{Panel: p.ID}
		rows := map[length.Length][]length.Length{}
		for _, q := range points {
			if turned {
				q.X, q.Y = q.Y, q.X
			}
			if s.box.X <= q.X && q.X <= s.box.MaxX() && s.outline.Contains(q) != shape.Outside {
				rows[q.X] = append(rows[q.X], q.Y)
			}
		}
		keys := sortedKeys(rows)
		for _, u := range keys {
			if s.alongMember(surface, rows, keys, u) {
				g.widen(s, u, rows[u], turned)
			}
		}
		gaps = append(gaps, g)
	}
	return gaps
}

// alongMember tells a row from screws that stand in one line by chance, on plates and blocks at both ends of the sheet:
// a row has screws between the ends, or it is all that a member under it has.
func (s sheet) alongMember(surface *plan.Surface, rows map[length.Length][]length.Length, keys []length.Length, u length.Length) bool {
	between := func(v length.Length) bool { return v > s.box.Y+Edge && v < s.box.MaxY()-Edge }
	if slices.ContainsFunc(rows[u], between) {
		return true
	}
	post := 2*surface.Members.Width + inch/4 // two members that touch
	near := func(at length.Length) bool { return (at-u).Abs() <= post && slices.ContainsFunc(rows[at], between) }
	on := func(at length.Length) bool { return (u - at).Abs() <= surface.Members.Width/2 }
	return (slices.ContainsFunc(surface.Members.At, on) || slices.ContainsFunc(surface.Cripples, on)) && !slices.ContainsFunc(keys, near)
}

func (g *Gap) widen(s sheet, u length.Length, vs []length.Length, turned bool) {
	slices.Sort(vs)
	stretches := s.clear(u)
	for i := 1; i < len(vs); i++ {
		whole := slices.ContainsFunc(stretches, func(c stretch) bool { return c.From <= vs[i-1] && vs[i] <= c.To })
		if d := vs[i] - vs[i-1]; whole && d > g.Widest {
			g.Widest, g.At = d, shape.Point{X: u, Y: vs[i-1] + d/2}
			if turned {
				g.At.X, g.At.Y = g.At.Y, g.At.X
			}
		}
	}
}

func sortedKeys(m map[length.Length][]length.Length) []length.Length {
	keys := make([]length.Length, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	slices.SortFunc(keys, cmp.Compare)
	return keys
}

// Checks are the findings on the screws of a plan: gaps beyond the limit, boards that the table does not list, screws
// that reach deep enough to meet a cable, lengths that nobody sells, keep-outs.
func Checks(j *job.Job, b *survey.Building, p *plan.Plan) []plan.Check {
	var found []plan.Check
	var largest Gap
	for _, g := range Gaps(p) {
		if g.Widest > largest.Widest {
			largest = g
		}
		if g.Limit > 0 && g.Widest > g.Limit {
			found = append(found, plan.Check{Rule: "fastener-spacing", Level: plan.Error, Where: g.Surface, At: g.At,
				Says: plan.Tell("fasten.too-far-apart", "piece", g.Panel, "gap", g.Widest, "limit", g.Limit), Source: g.Source})
		}
	}
	if largest.Widest > 0 && largest.Widest <= largest.Limit {
		found = append(found, plan.Check{Rule: "fastener-gap", Level: plan.Note, Where: largest.Surface, At: largest.At,
			Says: plan.Tell("fasten.widest-gap", "gap", largest.Widest, "piece", largest.Panel, "limit", largest.Limit), Source: largest.Source})
	}
	eachZone(b, p, func(s *survey.Surface, z *survey.Zone, layer *plan.Zone) {
		at := middle(layer.Outline)
		say := func(rule string, level plan.Level, source, what plan.Fact) {
			found = append(found, plan.Check{Rule: rule, Level: level, Where: s.ID, At: at, Source: source,
				Says: plan.Tell("fasten.layer", "product", layer.Product, "layer", layer.Layer, "what", what)})
		}
		w := ScrewFor(j, s, z)
		if reach := w.Length - w.Through; w.Type != "S" && reach > inches(deepest.Of(j)) {
			say("screw-depth", plan.Caution, plan.CiteMemory("NEC 300.4"), plan.Tell("fasten.too-deep", "long", w.Length, "reach", reach))
		}
		if w.Supply == "" && len(layer.Fasteners.Points) > 0 {
			say("screw-length", plan.Note, plan.Fact{}, plan.Tell("fasten.none-for-sale", "type", w.Type, "needed", w.Through+w.Reach, "stock", w.Length))
		}
		// where the board itself may not carry so far, the rule of spans speaks of it
		_, carries := z.Spans(job.Run(layer.Run))
		if w := Limit(z.Product, useOf(j, z, layer.Run)); carries && !w.Listed {
			say("fastener-table", plan.Caution, w.Source, plan.Tell("fasten.no-table", "planned", w.Limit))
		}
		if layer.Fasteners.Short > 0 {
			say("keep-out", plan.Note, plan.Practice(), plan.Tell("fasten.keep-out", "count", layer.Fasteners.Short, "long", layer.Fasteners.ShortLength))
		}
	})
	return found
}

func middle(p shape.Polygon) shape.Point {
	r := p.Bounds()
	return shape.Point{X: r.X + r.W/2, Y: r.Y + r.H/2}
}
