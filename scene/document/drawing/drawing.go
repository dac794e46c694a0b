// Package drawing writes the flat drawings of a project for paper and for the drawing office: the plan, an elevation of each
// wall and ceiling, and cut sheets as SVG, true to a stated scale on paper; plan and elevations as DXF, in the size of the
// building itself.
//
// SVG shows what the window shows, through the same functions, in groups named for what they hold: framing, sheets, members,
// openings, joints, boxes, floor, dimensions, words. Text is text.
package drawing

import (
	"seamwright/calc/plan"
	"seamwright/scene/document/ask"
	"seamwright/scene/draft"
)

// Plan is the id of the floor plan among the parts; the others are the ids of surfaces and of sheets.
const Plan = "plan"

// Built lists what can be drawn as DXF: the plan and each surface.
func Built(r *ask.Request) []ask.Part {
	parts := []ask.Part{{ID: Plan, Name: r.Voice.Text("drawing.plan")}}
	for i := range r.Plan.Surfaces {
		id := r.Plan.Surfaces[i].ID
		parts = append(parts, ask.Part{ID: id, Name: draft.SurfaceName(id)})
	}
	return parts
}

// surface finds a part's surface in the plan, nil where the part is something else.
func surface(p *plan.Plan, id string) *plan.Surface {
	for i := range p.Surfaces {
		if p.Surfaces[i].ID == id {
			return &p.Surfaces[i]
		}
	}
	return nil
}
