package fasten

import (
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/span"
)

// inch and the fractions that the tables are written in.
const (
	inch    = length.Inch
	quarter = inch / 4
	eighth  = inch / 8
)

// Edge is how far a fastener stands from the edge of its sheet (read: IRC R702.3.6 and makers' guides, 3/8 in).
const Edge = 3 * eighth

// Spacings that the span table does not give.
const (
	unlisted = 12 * inch // where it has no row: the closest general rule
	bracing  = 7 * inch  // gypsum as ceiling diaphragm: IRC R702.3.6 (read); as wall bracing: R602.10 (from memory)
	// metric board without a row: a maker's answer, United Kingdom (read)
	metricWall    = 300 * length.Millimetre
	metricCeiling = 230 * length.Millimetre
	metricEnds    = 150 * length.Millimetre // ceilings, at the ends of the boards
)

// Screws is how far apart screws may stand along a member.
type Screws struct {
	Limit  length.Length
	Ends   length.Length // at the ends of the boards; 0: no closer than elsewhere
	Listed bool          // a table gives it for board, place, direction and bays; else a general rule stands in
	Source plan.Fact
}

// Limit is the widest spacing of screws that is allowed for a board as it is used.
func Limit(p *job.Product, u span.Use) Screws {
	if p.Kind == job.WoodPanel {
		return Screws{Limit: panelField, Listed: true, Source: plan.Tell("source.wood-screws")}
	}
	w := Screws{Limit: unlisted, Source: plan.Tell("source.unlisted-screws")}
	row, ok := span.Find(p, u)
	switch {
	case ok && row.Screws > 0:
		w = Screws{row.Screws, row.Ends, true, row.By}
	case p.MetricBoard() && u.Ceiling:
		w = Screws{Limit: metricCeiling, Ends: metricEnds, Source: plan.Tell("source.metric-ceiling-screws")}
	case p.MetricBoard():
		w = Screws{Limit: metricWall, Source: plan.Tell("source.metric-wall-screws")}
	}
	if u.Has(job.Bracing) && w.Limit > bracing {
		w.Limit, w.Source = bracing, plan.Tell("source.bracing-screws")
	}
	return w
}

// Spacings of wood panels (read: APA Engineered Wood Construction Guide B360P p. 58; NAVEDTRA 14044).
const (
	panelEdge  = 6 * inch
	panelField = 12 * inch
)

// Figures of fastening that the user may change.
var (
	floating      = job.Figure{ID: "floating-angle", Value: 12, Unit: "in", Source: "GA-216", Status: job.Memory}
	adhesive      = job.Figure{ID: "stud-adhesive", Value: 0, Unit: "yes = 1", Source: "choice of the user", Status: job.Practice}
	baseLayer     = job.Figure{ID: "base-layer-screws", Value: 0, Unit: "in", Source: "no table seen", Status: job.Practice}
	intoWood      = job.Figure{ID: "screw-into-wood", Value: 0.625, Unit: "in", Source: "screw tables of the trade: thickness + 5/8 in", Status: job.Memory}
	intoWoodPanel = job.Figure{ID: "panel-screw-into-wood", Value: 1, Unit: "in", Source: "practice for wood screws: at least 1 in", Status: job.Memory}
	intoSteel     = job.Figure{ID: "screw-into-steel", Value: 0.375, Unit: "in", Source: "screw tables of the trade: thickness + 3/8 in", Status: job.Memory}
	intoKeepOut   = job.Figure{ID: "screw-into-keep-out", Value: 0.5, Unit: "in", Status: job.Practice}
	intoBoard     = job.Figure{ID: "screw-into-board", Value: 0.5, Unit: "in", Status: job.Practice}
	deepest       = job.Figure{ID: "screw-deepest", Value: 1.25, Unit: "in", Source: "NEC 300.4", Status: job.Memory}
)

// Figures are the adjustable numbers of fastening.
var Figures = []job.Figure{floating, adhesive, baseLayer, intoWood, intoWoodPanel, intoSteel, intoKeepOut, intoBoard, deepest}

// inches turns a figure in inches into a length, to the nearest 1/64 in.
func inches(value float64) length.Length {
	if value <= 0 {
		return 0
	}
	return length.Sixtyfourths(int64(float64(value*64) + 0.5))
}
