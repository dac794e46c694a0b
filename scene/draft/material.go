package draft

import (
	"seamwright/calc/job"
)

// look is how a product is drawn: fill, mark colour, hatch.
func (th *Theme) look(p *job.Product) (Material, HatchKind) {
	switch {
	case p == nil:
		return th.Open, Batt
	case p.Kind == job.WoodPanel:
		return th.Wood, Grain
	case p.FireType:
		return th.Fire, StippleDiagonal
	case p.Moisture:
		return th.Wet, Wave
	default:
		return th.Board, Stipple
	}
}

// lay fills a path as a product's face; upright where the paper or grain runs up the canvas.
func lay(c Canvas, th *Theme, p *job.Product, path Path, from Pt, upright bool) {
	m, k := th.look(p)
	c.Fill(path, m.Fill)
	c.Hatch(path, Hatch{Kind: k, Color: m.Mark, From: from, Upright: upright})
}

// batt hatches one open bay with insulation, the waves in its middle; level bays run from left to right.
func batt(c Canvas, th *Theme, bay Path, level bool) {
	b := around(bay[0]...)
	tile := PatternOf(Batt, level)
	c.Hatch(bay, Hatch{Kind: Batt, Color: fade(th.Open.Mark, 0.7), From: Pt{b.Mid().X - tile.W/2, b.Mid().Y - tile.H/2}, Upright: level})
}
