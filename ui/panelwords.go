package ui

import (
	"seamwright/calc/plan"
	"seamwright/calc/shape"
)

// heldBy says how many screws stand in a panel, and what it weighs to lift.
func (w *Window) heldBy(z *plan.Zone, p *plan.Panel) string {
	screws := 0
	for _, at := range z.Fasteners.Points {
		if p.Outline.Contains(at) != shape.Outside {
			screws++
		}
	}
	words := counted(screws, "screw")
	if product := w.model.Doc.Job().Product(z.Product); product != nil && product.Weight > 0 {
		area := p.Outline.Area().SquareMetres()
		for _, h := range p.Holes {
			area -= h.Area().SquareMetres()
		}
		words += ", " + w.weight(area*product.Weight)
	}
	return words
}
