package fasten

import (
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
)

// inch and the fractions that the tables are written in.
const (
	inch    = length.Inch
	quarter = inch / 4
	eighth  = inch / 8
)

// Edge is how far a fastener stands from the edge of its sheet (read: IRC R702.3.6 and makers' guides, 3/8 in).
const Edge = 3 * eighth

// row is one line of the table of screw spacings: gypsum board of a thickness on members up to a spacing apart.
type row struct {
	thick   length.Length // nominal
	ceiling bool
	across  bool // only with the long edge across the members
	members length.Length
	glued   bool
	screws  length.Length
}

// Rows of IRC Table R702.3.5 (2015 to 2021), screws into wood, as recalled (from memory; the general rule of 12 in on
// ceilings and 16 in on walls was read). For one board and place the closer framing comes first.
var table = []row{
	{3 * eighth, true, true, 16 * inch, false, 12 * inch},
	{3 * eighth, false, false, 16 * inch, false, 16 * inch},
	{4 * eighth, true, false, 16 * inch, false, 12 * inch},
	{4 * eighth, true, true, 24 * inch, false, 12 * inch},
	{4 * eighth, false, false, 16 * inch, false, 16 * inch},
	{4 * eighth, false, false, 24 * inch, false, 12 * inch},
	{5 * eighth, true, false, 16 * inch, false, 12 * inch},
	{5 * eighth, true, true, 24 * inch, false, 12 * inch},
	{5 * eighth, false, false, 16 * inch, false, 16 * inch},
	{5 * eighth, false, false, 24 * inch, false, 12 * inch},
	{3 * eighth, true, true, 16 * inch, true, 16 * inch},
	{3 * eighth, false, false, 16 * inch, true, 24 * inch},
	{4 * eighth, true, false, 16 * inch, true, 16 * inch},
	{4 * eighth, true, true, 24 * inch, true, 16 * inch},
	{4 * eighth, false, false, 24 * inch, true, 24 * inch},
	{5 * eighth, true, false, 16 * inch, true, 16 * inch},
	{5 * eighth, true, true, 24 * inch, true, 16 * inch},
	{5 * eighth, false, false, 24 * inch, true, 24 * inch},
}

// Spacings that other duties ask for.
const (
	unlisted  = 12 * inch // where the table has no row: the closest general rule
	bracing   = 7 * inch  // gypsum as ceiling diaphragm: IRC R702.3.6 (read); as wall bracing: R602.10 (from memory)
	separates = 6 * inch  // fire-type board on the ceiling under habitable rooms: R302.6 with R702.3.5 (from memory)
)

// nominal is the table's thickness for a board, one that is a little thinner counted in.
func nominal(thickness length.Length) length.Length {
	const slack = inch / 32 // the tolerance of ASTM C1396 on thickness (from memory)
	for _, n := range []length.Length{5 * eighth, 4 * eighth, 3 * eighth} {
		if thickness >= n-slack {
			return n
		}
	}
	return 0
}

// Use is how a board is fixed: what the spacing of its screws depends on.
type Use struct {
	Ceiling bool
	Run     job.Run       // across or along the members
	Members length.Length // spacing of the members, centre to centre
	Glued   bool          // beads of adhesive on the members
	Duties  []job.Duty
}

func (u Use) has(d job.Duty) bool { return slices.Contains(u.Duties, d) }

// Limit is the widest spacing of screws along a member that is allowed for a board, with its source. listed is false
// where the table has no row for board, place, direction and framing; 12 in then stands in for it.
func Limit(p *job.Product, u Use) (limit length.Length, listed bool, source string) {
	if p.Kind == job.WoodPanel {
		return panelField, true, "APA B360P p. 58 and NAVEDTRA 14044 (read): 6 in at edges, 12 in elsewhere"
	}
	if p.MetricBoard() && p.Thickness >= thinnestMetric {
		limit, listed, source = metricWall, true, "a maker's answer on screw centres, United Kingdom (read): 300 mm on walls"
		if u.Ceiling {
			limit, source = metricCeiling, "a maker's answer on screw centres, United Kingdom (read): 230 mm on ceilings, 150 mm at board ends"
		}
		limit, source = stricter(p, u, limit, source)
		return limit, listed, source
	}
	limit, source = unlisted, "no row in IRC Table R702.3.5 (from memory) for this board, place and framing: 12 in as the general rule"
	for _, r := range table {
		if r.thick == nominal(p.Thickness) && r.ceiling == u.Ceiling && r.glued == u.Glued &&
			(!r.across || u.Run == job.RunAcross) && u.Members <= r.members {
			limit, listed, source = r.screws, true, "IRC Table R702.3.5 (from memory)"
			break
		}
	}
	limit, source = stricter(p, u, limit, source)
	return limit, listed, source
}

// stricter applies what the duty of a surface asks for.
func stricter(p *job.Product, u Use, limit length.Length, source string) (length.Length, string) {
	if u.Ceiling && p.FireType && u.has(job.Separation) && limit > separates {
		limit, source = separates, "IRC R302.6 and Table R702.3.5, fire-type board under habitable rooms (from memory)"
	}
	if u.has(job.Bracing) && limit > bracing {
		limit, source = bracing, "IRC R702.3.6, 7 in at all supports of a diaphragm (read); wall bracing R602.10 (from memory)"
	}
	return limit, source
}

// Screw centres of metric board (read: a maker's answer, United Kingdom; NBS-format specification).
const (
	thinnestMetric = 9500 * length.Millimetre / 1000
	metricWall     = 300 * length.Millimetre
	metricCeiling  = 230 * length.Millimetre
	metricEnds     = 150 * length.Millimetre // ceilings, at the ends of the boards
)

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
	return length.Sixtyfourths(int64(value*64 + 0.5))
}
