package raster

// Relief is the slope of an uneven surface on a grid over its plane.
type Relief struct{}

// Lamp is a raking lamp.
type Lamp struct{}

func (c *core) rake(out []Colour, p *poly, s *shot, x, y float64) {}
