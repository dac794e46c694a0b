package drawing

import (
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/scene/draft"
)

// elevation draws one surface: its outline, members within it, openings and boxes, sheets, joints, screws, and the
// dimensions of the whole.
func (o *office) elevation(s *plan.Surface) {
	o.d.outline(layerOutline, o.ring(s.Outline)...)
	axis := shape.AtX
	if s.Members.Axis == string(job.AxisY) {
		axis = shape.AtY
	}
	half := s.Members.Width / 2
	for _, at := range s.Members.At {
		for _, member := range s.Outline.Band(axis, at-half, at+half) {
			o.d.outline(layerMembers, o.ring(member)...)
		}
	}
	for i := range s.Openings {
		o.d.outline(layerOpenings, o.ring(s.Openings[i].Outline)...)
	}
	for _, b := range s.Boxes {
		o.d.outline(layerBoxes, o.ring(b)...)
	}
	for i := range s.Zones {
		o.zone(s, &s.Zones[i])
	}
	for _, l := range o.r.Plan.Levels {
		if b := s.Outline.Bounds(); l.Surface == s.ID {
			o.d.line(layerLevels, o.place(shape.Point{X: b.X, Y: l.Line}), o.place(shape.Point{X: b.MaxX(), Y: l.Line}))
		}
	}
	o.whole(s)
}

// zone draws a layer of a zone; words and screws stand on the outermost alone.
func (o *office) zone(s *plan.Surface, z *plan.Zone) {
	sheets, outermost := layerSheets, true
	for i := range s.Zones {
		if s.Zones[i].Zone == z.Zone && s.Zones[i].Layer > z.Layer {
			sheets, outermost = layerBehind, false
		}
	}
	for i := range z.Panels {
		p := &z.Panels[i]
		o.d.outline(sheets, o.ring(p.Outline)...)
		for _, h := range p.Holes {
			o.d.outline(sheets, o.ring(h)...)
		}
		if outermost {
			b := p.Outline.Bounds()
			o.d.text(layerWords, o.place(shape.Point{X: b.X + b.W/2, Y: b.Y + b.H/2}), o.letter(), 0, p.ID)
		}
	}
	if !outermost {
		return
	}
	for _, k := range z.Joints {
		o.d.line(jointLayers[k.Kind], o.place(k.From), o.place(k.To))
	}
	for _, p := range z.Fasteners.Points {
		o.d.dot(layerScrews, o.place(p))
	}
}

// whole sets the name below a surface, and its width and height.
func (o *office) whole(s *plan.Surface) {
	b := s.Outline.Bounds()
	const off = 450 * length.Millimetre
	lowLeft, lowRight := shape.Point{X: b.X, Y: b.Y - off}, shape.Point{X: b.MaxX(), Y: b.Y - off}
	o.size(o.place(lowLeft), o.place(lowRight), o.figure(b.W))
	o.size(o.place(shape.Point{X: b.X - off, Y: b.Y}), o.place(shape.Point{X: b.X - off, Y: b.MaxY()}), o.figure(b.H))
	o.d.text(layerWords, o.place(shape.Point{X: b.X + b.W/2, Y: b.Y - 2*off}), 1.5*o.letter(), 0, draft.SurfaceName(s.ID))
}
