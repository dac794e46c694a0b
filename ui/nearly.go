package ui

import (
	"strings"

	"seamwright/calc/length"
	"seamwright/calc/plan"
)

// What counts as nearly as good, and as well worth it: judgments of ours, no source. A choice is spoken of only where it asks
// for little and gives much, so that the line is worth reading when it stands there.
const (
	littleMoney  = 0.02 // of the total
	littleSheets = 1
	littleButt   = 8 * length.Foot
	muchMoney    = 0.05
	muchButt     = 0.5 // of the butt joints
)

// seams is the run that is finished like a butt joint, as the ledger counts it.
func seams(a *plan.Answer) length.Length { return a.ButtJoint + a.MixedJoint }

// nearly is an answer that asks for little more than the one that stands and gives much for it, and the line that says so;
// nil where there is none.
func (w *Window) nearly() (*plan.Answer, string) {
	p := w.model.Plan
	if p == nil || p.Summary.Searching { // until all is searched the other answers are estimates
		return nil, ""
	}
	now := w.answerNow()
	if now == nil || now.Sheets == 0 {
		return nil, ""
	}
	for i := range p.Answers {
		if other := &p.Answers[i]; other != now {
			if asks, gives := w.asks(now, other), w.gives(now, other); asks != "" && gives != "" {
				return other, capital(asks + " " + gives + ".")
			}
		}
	}
	return nil, ""
}

// asks says how little more another answer takes; "" where that is not little, or nothing.
func (w *Window) asks(now, other *plan.Answer) string {
	money, sheets, butt := other.Cost-now.Cost, other.Sheets-now.Sheets, seams(other)-seams(now)
	if float64(money) > littleMoney*float64(now.Cost) || sheets > littleSheets || butt > littleButt {
		return ""
	}
	var parts []string
	if money > 0 {
		parts = append(parts, exactAmount(money, w.model.Plan.Cost.Currency))
	}
	if sheets > 0 {
		parts = append(parts, counted(sheets, "sheet"))
	}
	if butt > 0 {
		parts = append(parts, w.run(butt)+" of butt joint")
	}
	if len(parts) == 0 {
		return ""
	}
	return strings.Join(parts, " and ") + " more"
}

// gives says what is well worth it in another answer; "" where nothing is.
func (w *Window) gives(now, other *plan.Answer) string {
	money, sheets, butt := now.Cost-other.Cost, now.Sheets-other.Sheets, seams(now)-seams(other)
	switch {
	case seams(now) > 0 && seams(other) == 0:
		return "leaves no butt joint (now " + w.run(seams(now)) + ")"
	case butt > 0 && float64(butt) >= muchButt*float64(seams(now)):
		return "takes " + w.run(butt) + " off " + w.run(seams(now)) + " of butt joints"
	case sheets > 0:
		return "saves " + counted(sheets, "sheet")
	case float64(money) >= muchMoney*float64(now.Cost):
		return "saves " + amount(money, w.model.Plan.Cost.Currency)
	}
	return ""
}
