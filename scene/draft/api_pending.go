package draft

import (
	"image"

	"seamwright/calc/job"
	"seamwright/calc/plan"
)

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

// Swatch is a sheet as it stands in the rack: w by h logical pixels at the given device scale. No layers: left open.
func Swatch(th *Theme, layers []*job.Product, w, h int, scale float64) *image.RGBA {
	return image.NewRGBA(image.Rect(0, 0, int(float64(w)*scale), int(float64(h)*scale)))
}
