package schedule

import (
	"fmt"
	"slices"
	"strings"

	"seamwright/calc/finish"
	"seamwright/calc/job"
	"seamwright/calc/length"
)

// The productivity figures: person-hours, all of them inputs that the user can change. Government tables of man
// hours exist, but no page of theirs could be read; what was read stands as such.
var (
	hangWall    = job.Figure{ID: "hang-wall-board", Value: 0.8, Unit: "h/100 ft2", What: "hang gypsum board on walls", Source: "annual cost data", Status: job.Memory}
	hangCeiling = job.Figure{ID: "hang-ceiling-board", Value: 1.2, Unit: "h/100 ft2", What: "hang gypsum board overhead", Source: "the wall figure with half as much again", Status: job.Practice}
	hangWood    = job.Figure{ID: "hang-wood", Value: 1.8, Unit: "h/100 ft2", What: "hang wood panels on walls", Source: "Peterson and Dagostino, Estimating in Building Construction, 7th ed., p. 170: 1.2 to 2.5", Status: job.Read}
	hangPiece   = job.Figure{ID: "hang-piece", Value: 0.1, Unit: "h each", What: "measure, cut, carry and lift one piece more than whole sheets of 4 by 8 ft would be, which the hanging figures are for", Source: "", Status: job.Practice}
	highUp      = job.Figure{ID: "height-factor", Value: 1.4, Unit: "times", What: "hanging more than 10 ft above the floor", Source: "AWCI, Practical estimating part 2", Status: job.Read}
	perBox      = job.Figure{ID: "cut-out-box", Value: 0.1, Unit: "h each", What: "cut out for a box", Source: "", Status: job.Practice}
	perOpening  = job.Figure{ID: "cut-out-opening", Value: 0.25, Unit: "h each", What: "cut round an opening", Source: "", Status: job.Practice}
	lookBehind  = job.Figure{ID: "look-behind", Value: 0.3, Unit: "h/100 ft2", What: "check and photograph what will be hidden", Source: "", Status: job.Practice}
	markMembers = job.Figure{ID: "mark-members", Value: 0.1, Unit: "h/100 ft2", What: "mark members on floor and ceiling", Source: "", Status: job.Practice}
	levelLine   = job.Figure{ID: "level-line", Value: 0.4, Unit: "h/room", What: "strike the level line for the first course", Source: "", Status: job.Practice}
	screwCheck  = job.Figure{ID: "screw-check", Value: 0.1, Unit: "h/100 ft2", What: "feel every screw head, drive or pull the bad ones", Source: "", Status: job.Practice}
	fillGaps    = job.Figure{ID: "fill-gaps", Value: 0.1, Unit: "h/100 ft2", What: "fill gaps before taping", Source: "", Status: job.Practice}
	setBead     = job.Figure{ID: "set-bead", Value: 2.5, Unit: "h/100 ft", What: "cut and fix bead and edge trim", Source: "", Status: job.Practice}
	fixReturn   = job.Figure{ID: "fix-return", Value: 0.2, Unit: "h each", What: "cut and fix a strip of board in an opening", Source: "", Status: job.Practice}
	tapeCoat    = job.Figure{ID: "tape-coat", Value: 0.9, Unit: "h/100 ft", What: "tape with the first coat", Source: "hand taping, three coats with sanding, 1.0 to 1.5 h/100 ft2 in all", Status: job.Memory}
	nextCoat    = job.Figure{ID: "next-coat", Value: 0.5, Unit: "h/100 ft", What: "each further coat on joints", Source: "the same", Status: job.Memory}
	buttWork    = job.Figure{ID: "butt-work", Value: 2, Unit: "times", What: "finish a foot of butt or mixed joint, feathered about twice as wide, against a foot of other joint", Source: "", Status: job.Practice}
	skimCoat    = job.Figure{ID: "skim-coat", Value: 0.9, Unit: "h/100 ft2", What: "skim the whole face for level 5", Source: "", Status: job.Practice}
	sand        = job.Figure{ID: "sand", Value: 0.4, Unit: "h/100 ft2", What: "sand", Source: "order of magnitude only", Status: job.Memory}
	smooth      = job.Figure{ID: "sand-between", Value: 0.1, Unit: "h/100 ft", What: "sand ridges off a coat before the next one", Source: "", Status: job.Practice}
	dustOff     = job.Figure{ID: "dust-off", Value: 0.1, Unit: "h/100 ft2", What: "dust off", Source: "", Status: job.Practice}
	mask        = job.Figure{ID: "mask", Value: 0.6, Unit: "h/100 ft", What: "mask an edge", Source: "", Status: job.Practice}
	unmask      = job.Figure{ID: "unmask", Value: 0.2, Unit: "h/100 ft", What: "peel masking tape", Source: "", Status: job.Practice}
	prime       = job.Figure{ID: "prime", Value: 0.5, Unit: "h/100 ft2", What: "roll a coat of primer", Source: "0.4 to 0.7 h/100 ft2", Status: job.Memory}
	paint       = job.Figure{ID: "paint-coat", Value: 0.5, Unit: "h/100 ft2", What: "roll a coat of paint", Source: "0.4 to 0.7 h/100 ft2", Status: job.Memory}
	rakingLook  = job.Figure{ID: "raking-look", Value: 0.1, Unit: "h/100 ft2", What: "look along the primed faces in raking light, mark and touch up", Source: "", Status: job.Practice}
	trimBase    = job.Figure{ID: "fix-trim", Value: 2.0, Unit: "h/100 ft", What: "cut and fix base trim", Source: "Peterson and Dagostino p. 182: baseboard 1.5 to 2.5", Status: job.Read}
	panelCoat   = job.Figure{ID: "panel-coat", Value: 0.5, Unit: "h/100 ft2", What: "a clear coat on wood panels that lie on trestles", Source: "as rolling a coat of paint, 0.4 to 0.7 h/100 ft2", Status: job.Memory}
	carryIn     = job.Figure{ID: "carry-in", Value: 0.2, Unit: "h/100 ft2", What: "bring wood panels in and lay strips between them", Source: "", Status: job.Practice}
	carryBoard  = job.Figure{ID: "carry-board", Value: 0.15, Unit: "h/100 ft2", What: "bring gypsum board in and lean it where it hangs", Source: "", Status: job.Practice}
	fixPlate    = job.Figure{ID: "fix-plate", Value: 0.03, Unit: "h each", What: "drive a nail plate", Source: "", Status: job.Practice}
	fixBlock    = job.Figure{ID: "fix-block", Value: 0.1, Unit: "h each", What: "cut and fix a block or a back-block", Source: "", Status: job.Practice}
	setShim     = job.Figure{ID: "set-shim", Value: 0.05, Unit: "h each", What: "set shims for a sheet on the level line", Source: "", Status: job.Practice}
	sealBox     = job.Figure{ID: "seal-box", Value: 0.05, Unit: "h each", What: "sealant round a box", Source: "", Status: job.Practice}
	coverFloor  = job.Figure{ID: "cover-floor", Value: 0.1, Unit: "h/100 ft2", What: "lay and tape floor paper", Source: "", Status: job.Practice}
	fixStrip    = job.Figure{ID: "fix-strip", Value: 3, Unit: "h/100 ft", What: "cut and fix strips on panel edges", Source: "Peterson and Dagostino p. 182: moulding 2.0 to 4.0", Status: job.Read}
	fixCasing   = job.Figure{ID: "fix-casing", Value: 3, Unit: "h/100 ft", What: "cut and fix casing", Source: "Peterson and Dagostino p. 182: moulding 2.0 to 4.0", Status: job.Read}
	panelRest   = job.Figure{ID: "panel-rest", Value: 48, Unit: "h", What: "wood panels lie in the dry room before they are hung", Source: "48 h is customary", Status: job.Memory}
	fixBatten   = job.Figure{ID: "fix-batten", Value: 3, Unit: "h/100 ft", What: "cut and fix battens over panel joints", Source: "Peterson and Dagostino p. 182: moulding 2.0 to 4.0", Status: job.Read}
	cover       = job.Figure{ID: "fix-cover", Value: 0.1, Unit: "h each", What: "set a box extender and cover", Source: "", Status: job.Practice}
	visitDays   = job.Figure{ID: "inspection-days", Value: 1, Unit: "workdays", What: "wait for an inspection", Source: "", Status: job.Practice}
	setting     = finish.SettingMinutes
)

// Figures lists the adjustable numbers of the sequence.
var Figures = []job.Figure{
	hangWall, hangCeiling, hangWood, hangPiece, highUp, perBox, perOpening, lookBehind, markMembers, levelLine, screwCheck, fillGaps,
	setBead, fixReturn, tapeCoat, nextCoat, buttWork, smooth, skimCoat, sand, dustOff, mask, unmask, prime, paint, rakingLook, panelCoat, carryIn,
	carryBoard, fixPlate, fixBlock, setShim, sealBox, coverFloor, fixStrip, fixCasing, panelRest, trimBase, fixBatten, cover, visitDays, setting,
}

// effort is person-hours with the sum that gave them.
type effort struct {
	hours  float64
	basis  string
	source string
}

// plus joins two efforts into one task.
func (e effort) plus(o effort) effort {
	switch {
	case o.hours == 0:
		return e
	case e.hours == 0:
		return o
	}
	e.hours += o.hours
	e.basis += " + " + o.basis
	if !slices.Contains(strings.Split(e.source, "; "), o.source) {
		e.source += "; " + o.source
	}
	return e
}

// crew estimates efforts for one job, shown in its units.
type crew struct {
	j        *job.Job
	imperial bool
}

// area is the effort for an area at a figure in h/100 ft².
func (c crew) area(a length.Area, f job.Figure) effort {
	e := effort{hours: a.SquareFeet() / 100 * f.Of(c.j), source: cite(f)}
	if c.imperial {
		e.basis = fmt.Sprintf("%.0f ft² × %.3g h/100 ft² (%s)", a.SquareFeet(), f.Of(c.j), f.What)
	} else {
		e.basis = fmt.Sprintf("%.1f m² × %.3g h/10 m² (%s)", a.SquareMetres(), f.Of(c.j)*float64(10*length.SquareMetre)/float64(100*length.SquareFoot), f.What)
	}
	return e
}

// metres2 is the effort for an area in m².
func (c crew) metres2(m2 float64, f job.Figure) effort {
	if m2 <= 0 {
		return effort{}
	}
	return c.area(length.Area(m2*float64(length.SquareMetre)), f)
}

// wholeSheet is the area of the sheet that the published hours of hanging are taken to be for.
const wholeSheet = 32 * length.SquareFoot

// pieces is the effort for what more, or fewer, pieces there are in an area than whole sheets would be.
func (c crew) pieces(n int, a length.Area) effort {
	more := float64(n) - float64(a)/float64(wholeSheet)
	e := effort{hours: more * hangPiece.Of(c.j), source: cite(hangPiece)}
	if e.hours != 0 {
		e.basis = fmt.Sprintf("(%d - %.2f whole sheets of 4 by 8 ft) × %.3g h", n, float64(a)/float64(wholeSheet), hangPiece.Of(c.j))
	}
	return e
}

// run is the effort for a length at a figure in h/100 ft.
func (c crew) run(l length.Length, f job.Figure) effort {
	if l == 0 {
		return effort{}
	}
	e := effort{hours: l.Feet() / 100 * f.Of(c.j), source: cite(f)}
	if c.imperial {
		e.basis = fmt.Sprintf("%.0f ft × %.3g h/100 ft (%s)", l.Feet(), f.Of(c.j), f.What)
	} else {
		e.basis = fmt.Sprintf("%.1f m × %.3g h/10 m (%s)", l.Metres(), f.Of(c.j)*float64(10*length.Metre)/float64(100*length.Foot), f.What)
	}
	return e
}

// count is the effort for a number of things at a figure in hours each.
func (c crew) count(n int, f job.Figure) effort {
	if n == 0 {
		return effort{}
	}
	return effort{hours: float64(n) * f.Of(c.j), basis: fmt.Sprintf("%d × %.3g h (%s)", n, f.Of(c.j), f.What), source: cite(f)}
}

// high adds the extra effort of the part above ten feet.
func (e effort) high(c crew, share float64) effort {
	if share <= 0 {
		return e
	}
	f := 1 + float64(share*(highUp.Of(c.j)-1))
	e.hours *= f
	e.basis += fmt.Sprintf(" × %.2f for the part above 10 ft", f)
	return e
}

func cite(f job.Figure) string { return f.Told() }
