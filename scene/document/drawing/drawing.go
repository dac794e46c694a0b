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

// The ids of parts beside those of surfaces and of sheets.
const (
	Plan       = "plan"
	Elevations = "elevations" // of all surfaces
	CutSheets  = "cutsheets"  // all of them
)

// Parts lists what can be drawn as SVG: the plan, each surface in the order of the building, each sheet in that of cutting.
func Parts(r *ask.Request) []ask.Part {
	parts := Built(r)
	for i := range r.Plan.Sheets {
		id := r.Plan.Sheets[i].ID
		parts = append(parts, ask.Part{ID: id, Name: r.Voice.Text("drawing.cut-sheet", "sheet", id)})
	}
	return parts
}

// single names the wanted parts one by one.
func single(r *ask.Request) (ids []string) {
	for _, id := range r.Parts {
		switch id {
		case Elevations:
			for i := range r.Plan.Surfaces {
				ids = append(ids, r.Plan.Surfaces[i].ID)
			}
		case CutSheets:
			for i := range r.Plan.Sheets {
				ids = append(ids, r.Plan.Sheets[i].ID)
			}
		default:
			ids = append(ids, id)
		}
	}
	return ids
}

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
