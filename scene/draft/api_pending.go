package draft

import (
	"image"

	"seamwright/calc/job"
	"seamwright/calc/plan"
)

// DrawStrip draws the surfaces of a room side by side, left to right as you turn in the room, ceiling last.
func DrawStrip(c Canvas, th *Theme, p *plan.Plan, j *job.Job, v View, s StripState) {}

// FitStrip shows the whole strip, captions and legend included.
func FitStrip(p *plan.Plan, j *job.Job, room string, into Rect) View { return View{Scale: 48} }

// SurfaceView places the points of one surface within the strip; ok is false where the strip does not show it.
// SurfaceView(...).At(pixel) is the point on the surface, SurfaceView(...).Place(point) its pixel.
func SurfaceView(p *plan.Plan, j *job.Job, room, surface string, v View) (at View, ok bool) {
	return v, false
}

// FitSurface shows one surface of the strip as large as the rectangle allows.
func FitSurface(p *plan.Plan, j *job.Job, room, surface string, into Rect) View {
	return View{Scale: 48}
}

// StripHit finds what lies under a pixel of the strip.
func StripHit(p *plan.Plan, j *job.Job, v View, s StripState, at Pt) Target { return Target{} }

// DrawCutSheet draws how one sheet is cut up.
func DrawCutSheet(c Canvas, th *Theme, sh *plan.Sheet, p *plan.Plan, j *job.Job, into Rect, s CutState) {
}

// CutSheetHit finds the panel id of the part under a pixel, "" outside of parts.
func CutSheetHit(sh *plan.Sheet, j *job.Job, into Rect, at Pt) string { return "" }

// DrawSequence draws the tasks as bars on working days from the canvas's upper left corner less the scroll.
func DrawSequence(c Canvas, th *Theme, p *plan.Plan, j *job.Job, scroll Pt, s SequenceState) {}

// SequenceSize is the size of the whole bar chart in logical pixels.
func SequenceSize(p *plan.Plan) (w, h float64) { return 0, 0 }

// SequenceHit finds the id of the task in whose row a pixel lies, "" outside.
func SequenceHit(p *plan.Plan, scroll Pt, at Pt) string { return "" }

// DrawLegend draws the signs of seams and materials in rows within the width, and gives the height it took.
func DrawLegend(c Canvas, th *Theme, at Pt, width float64) (height float64) { return 0 }

// Swatch is a sheet as it stands in the rack: w by h logical pixels at the given device scale. No layers: left open.
func Swatch(th *Theme, layers []*job.Product, w, h int, scale float64) *image.RGBA {
	return image.NewRGBA(image.Rect(0, 0, int(float64(w)*scale), int(float64(h)*scale)))
}
