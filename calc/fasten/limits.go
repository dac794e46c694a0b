package fasten

import (
	"seamwright/calc/job"
	"seamwright/calc/length"
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
	Source string
}

// Limit is the widest spacing of screws that is allowed for a board as it is used.
func Limit(p *job.Product, u span.Use) Screws {
	if p.Kind == job.WoodPanel {
		return Screws{Limit: panelField, Listed: true, Source: "APA B360P p. 58 and NAVEDTRA 14044 (read): 6 in at edges, 12 in elsewhere"}
	}
	w := Screws{Limit: unlisted, Source: "no row in IRC Table R702.3.5 (from memory) for this board, place and bay: 12 in as the general rule"}
	row, ok := span.Find(p, u)
	switch {
	case ok && row.Screws > 0:
		w = Screws{row.Screws, row.Ends, true, row.By.Told()}
	case p.MetricBoard() && u.Ceiling:
		w = Screws{Limit: metricCeiling, Ends: metricEnds, Source: "a maker's answer on screw centres, United Kingdom (read): 230 mm on ceilings, 150 mm at board ends"}
	case p.MetricBoard():
		w = Screws{Limit: metricWall, Source: "a maker's answer on screw centres, United Kingdom (read): 300 mm on walls"}
	}
	if u.Has(job.Bracing) && w.Limit > bracing {
		w.Limit, w.Source = bracing, "IRC R702.3.6, 7 in at all supports of a diaphragm (read); wall bracing R602.10 (from memory)"
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
	floating = job.Figure{ID: "floating-angle", Value: 12, Unit: "in",
		What: "first screw from a floating corner of gypsum board; 0 fixes the corner", Source: "GA-216", Status: job.Memory}
	adhesive = job.Figure{ID: "stud-adhesive", Value: 0, Unit: "yes = 1",
		What: "beads of adhesive on the members as well as screws", Source: "choice of the user", Status: job.Practice}
	baseLayer = job.Figure{ID: "base-layer-screws", Value: 0, Unit: "in",
		What:   "screw spacing of a layer that another one covers, where your table allows more; 0 = as for a single layer",
		Source: "no table seen", Status: job.Practice}
	intoWood = job.Figure{ID: "screw-into-wood", Value: 0.625, Unit: "in",
		What: "least reach of a screw into wood", Source: "screw tables of the trade: thickness + 5/8 in", Status: job.Memory}
	intoWoodPanel = job.Figure{ID: "panel-screw-into-wood", Value: 1, Unit: "in",
		What: "least reach of a wood-panel screw into wood", Source: "practice for wood screws: at least 1 in", Status: job.Memory}
	intoSteel = job.Figure{ID: "screw-into-steel", Value: 0.375, Unit: "in",
		What: "least reach of a screw through steel", Source: "screw tables of the trade: thickness + 3/8 in", Status: job.Memory}
	intoKeepOut = job.Figure{ID: "screw-into-keep-out", Value: 0.5, Unit: "in",
		What: "farthest reach of a screw where a pocket door or pipe runs behind", Source: "", Status: job.Practice}
	intoBoard = job.Figure{ID: "screw-into-board", Value: 0.5, Unit: "in",
		What: "least reach of a laminating screw into the board behind", Source: "", Status: job.Practice}
	deepest = job.Figure{ID: "screw-deepest", Value: 1.25, Unit: "in",
		What: "reach into a stud beyond which a screw may meet a cable", Source: "NEC 300.4", Status: job.Memory}
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
