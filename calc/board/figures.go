package board

import (
	"seamwright/calc/job"
	"seamwright/calc/length"
)

// Figures of the trade that the search weighs joints and cuts with. The account of the job itself is kept by the
// later stages; these only rank layouts.
var (
	TaperedHours = job.Figure{ID: "layout-tapered-hours", Value: 0.012, Unit: "h/ft", What: "own time to finish a foot of tapered joint, all coats", Status: job.Practice}
	ButtHours    = job.Figure{ID: "layout-butt-hours", Value: 0.03, Unit: "h/ft", What: "own time to finish a foot of butt or mixed joint, which is feathered wider", Status: job.Practice}
	TaperedPrice = job.Figure{ID: "layout-tapered-price", Value: 0.10, Unit: "currency/ft", What: "tape and compound for a foot of tapered joint", Status: job.Practice}
	ButtPrice    = job.Figure{ID: "layout-butt-price", Value: 0.20, Unit: "currency/ft", What: "tape and compound for a foot of butt or mixed joint", Status: job.Practice}
	CutHours     = job.Figure{ID: "layout-cut-hours", Value: 0.03, Unit: "h", What: "own time to measure and make one straight cut", Status: job.Practice}
	PieceHours   = job.Figure{ID: "layout-piece-hours", Value: 0.15, Unit: "h", What: "own time to carry, lift and fasten one more piece", Status: job.Practice}
)

// Figures lists what the search can be adjusted by.
func Figures() []job.Figure {
	return []job.Figure{TaperedHours, ButtHours, TaperedPrice, ButtPrice, CutHours, PieceHours}
}

// costUnit is how many units of the search's own money make one hundredth of the currency: joints are worth less
// than a hundredth a inch, so the search counts finer.
const costUnit = 100

// rates are the figures of one job in units of the search.
type rates struct {
	tapered, butt float64 // per nanometre
	cut, piece    int64
}

func newRates(j *job.Job) rates {
	hour := float64(j.Site.Rate) * costUnit
	foot := float64(length.Foot)
	return rates{
		tapered: (TaperedPrice.Of(j)*100*costUnit + TaperedHours.Of(j)*hour) / foot,
		butt:    (ButtPrice.Of(j)*100*costUnit + ButtHours.Of(j)*hour) / foot,
		cut:     int64(CutHours.Of(j) * hour),
		piece:   int64(PieceHours.Of(j) * hour),
	}
}
