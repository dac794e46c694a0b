package schedule

import (
	"seamwright/calc/finish"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
)

// The productivity figures: person-hours, all of them inputs that the user can change. Government tables of man
// hours exist, but no page of theirs could be read; what was read stands as such.
var (
	hangWall    = job.Figure{ID: "hang-wall-board", Value: 0.8, Unit: "h/100 ft2", Source: "annual cost data", Status: job.Memory}
	hangCeiling = job.Figure{ID: "hang-ceiling-board", Value: 1.2, Unit: "h/100 ft2", Source: "the wall figure with half as much again", Status: job.Practice}
	hangWood    = job.Figure{ID: "hang-wood", Value: 1.8, Unit: "h/100 ft2", Source: "Peterson and Dagostino, Estimating in Building Construction, 7th ed., p. 170: 1.2 to 2.5", Status: job.Read}
	hangPiece   = job.Figure{ID: "hang-piece", Value: 0.1, Unit: "h each", Status: job.Practice}
	highUp      = job.Figure{ID: "height-factor", Value: 1.4, Unit: "times", Source: "AWCI, Practical estimating part 2", Status: job.Read}
	perBox      = job.Figure{ID: "cut-out-box", Value: 0.1, Unit: "h each", Status: job.Practice}
	perOpening  = job.Figure{ID: "cut-out-opening", Value: 0.25, Unit: "h each", Status: job.Practice}
	lookBehind  = job.Figure{ID: "look-behind", Value: 0.3, Unit: "h/100 ft2", Status: job.Practice}
	markMembers = job.Figure{ID: "mark-members", Value: 0.1, Unit: "h/100 ft2", Status: job.Practice}
	levelLine   = job.Figure{ID: "level-line", Value: 0.4, Unit: "h/room", Status: job.Practice}
	screwCheck  = job.Figure{ID: "screw-check", Value: 0.1, Unit: "h/100 ft2", Status: job.Practice}
	fillGaps    = job.Figure{ID: "fill-gaps", Value: 0.1, Unit: "h/100 ft2", Status: job.Practice}
	setBead     = job.Figure{ID: "set-bead", Value: 2.5, Unit: "h/100 ft", Status: job.Practice}
	fixReturn   = job.Figure{ID: "fix-return", Value: 0.2, Unit: "h each", Status: job.Practice}
	tapeCoat    = job.Figure{ID: "tape-coat", Value: 0.9, Unit: "h/100 ft", Source: "hand taping, three coats with sanding, 1.0 to 1.5 h/100 ft2 in all", Status: job.Memory}
	nextCoat    = job.Figure{ID: "next-coat", Value: 0.5, Unit: "h/100 ft", Source: "the same", Status: job.Memory}
	buttWork    = job.Figure{ID: "butt-work", Value: 2, Unit: "times", Status: job.Practice}
	skimCoat    = job.Figure{ID: "skim-coat", Value: 0.9, Unit: "h/100 ft2", Status: job.Practice}
	sand        = job.Figure{ID: "sand", Value: 0.4, Unit: "h/100 ft2", Source: "order of magnitude only", Status: job.Memory}
	smooth      = job.Figure{ID: "sand-between", Value: 0.1, Unit: "h/100 ft", Status: job.Practice}
	dustOff     = job.Figure{ID: "dust-off", Value: 0.1, Unit: "h/100 ft2", Status: job.Practice}
	mask        = job.Figure{ID: "mask", Value: 0.6, Unit: "h/100 ft", Status: job.Practice}
	unmask      = job.Figure{ID: "unmask", Value: 0.2, Unit: "h/100 ft", Status: job.Practice}
	prime       = job.Figure{ID: "prime", Value: 0.5, Unit: "h/100 ft2", Source: "0.4 to 0.7 h/100 ft2", Status: job.Memory}
	paint       = job.Figure{ID: "paint-coat", Value: 0.5, Unit: "h/100 ft2", Source: "0.4 to 0.7 h/100 ft2", Status: job.Memory}
	rakingLook  = job.Figure{ID: "raking-look", Value: 0.1, Unit: "h/100 ft2", Status: job.Practice}
	trimBase    = job.Figure{ID: "fix-trim", Value: 2.0, Unit: "h/100 ft", Source: "Peterson and Dagostino p. 182: baseboard 1.5 to 2.5", Status: job.Read}
	panelCoat   = job.Figure{ID: "panel-coat", Value: 0.5, Unit: "h/100 ft2", Source: "as rolling a coat of paint, 0.4 to 0.7 h/100 ft2", Status: job.Memory}
	carryIn     = job.Figure{ID: "carry-in", Value: 0.2, Unit: "h/100 ft2", Status: job.Practice}
	carryBoard  = job.Figure{ID: "carry-board", Value: 0.15, Unit: "h/100 ft2", Status: job.Practice}
	fixPlate    = job.Figure{ID: "fix-plate", Value: 0.03, Unit: "h each", Status: job.Practice}
	fixBlock    = job.Figure{ID: "fix-block", Value: 0.1, Unit: "h each", Status: job.Practice}
	setShim     = job.Figure{ID: "set-shim", Value: 0.05, Unit: "h each", Status: job.Practice}
	sealBox     = job.Figure{ID: "seal-box", Value: 0.05, Unit: "h each", Status: job.Practice}
	coverFloor  = job.Figure{ID: "cover-floor", Value: 0.1, Unit: "h/100 ft2", Status: job.Practice}
	fixStrip    = job.Figure{ID: "fix-strip", Value: 3, Unit: "h/100 ft", Source: "Peterson and Dagostino p. 182: moulding 2.0 to 4.0", Status: job.Read}
	fixCasing   = job.Figure{ID: "fix-casing", Value: 3, Unit: "h/100 ft", Source: "Peterson and Dagostino p. 182: moulding 2.0 to 4.0", Status: job.Read}
	panelRest   = job.Figure{ID: "panel-rest", Value: 48, Unit: "h", Source: "48 h is customary", Status: job.Memory}
	fixBatten   = job.Figure{ID: "fix-batten", Value: 3, Unit: "h/100 ft", Source: "Peterson and Dagostino p. 182: moulding 2.0 to 4.0", Status: job.Read}
	cover       = job.Figure{ID: "fix-cover", Value: 0.1, Unit: "h each", Status: job.Practice}
	visitDays   = job.Figure{ID: "inspection-days", Value: 1, Unit: "workdays", Status: job.Practice}
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
	basis  plan.Fact
	source plan.Fact
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
	e.basis = e.basis.Plus(o.basis)
	if !e.source.Tells(o.source) {
		e.source = e.source.Also(o.source)
	}
	return e
}

// crew estimates efforts for one job, shown in its units.
type crew struct {
	j *job.Job
}

// area is the effort for an area at a figure in h/100 ft².
func (c crew) area(a length.Area, f job.Figure) effort {
	return effort{hours: a.SquareFeet() / 100 * f.Of(c.j), source: cite(f),
		basis: plan.Tell("schedule.by-area", "area", a, "rate", plan.HoursM2(f.Of(c.j)/(100*length.SquareFoot).SquareMetres()), "what", what(f))}
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
		e.basis = plan.Tell("schedule.pieces", "pieces", n, "sheets", float64(a)/float64(wholeSheet), "rate", hangPiece.Of(c.j))
	}
	return e
}

// run is the effort for a length at a figure in h/100 ft.
func (c crew) run(l length.Length, f job.Figure) effort {
	if l == 0 {
		return effort{}
	}
	return effort{hours: l.Feet() / 100 * f.Of(c.j), source: cite(f),
		basis: plan.Tell("schedule.by-length", "long", plan.Run(l), "rate", plan.HoursM(f.Of(c.j)/(100*length.Foot).Metres()), "what", what(f))}
}

// count is the effort for a number of things at a figure in hours each.
func (c crew) count(n int, f job.Figure) effort {
	if n == 0 {
		return effort{}
	}
	return effort{hours: float64(n) * f.Of(c.j), basis: plan.Tell("schedule.by-count", "number", n, "rate", f.Of(c.j), "what", what(f)), source: cite(f)}
}

// high adds the extra effort of the part above ten feet.
func (e effort) high(c crew, share float64) effort {
	if share <= 0 {
		return e
	}
	f := 1 + float64(share*(highUp.Of(c.j)-1))
	e.hours *= f
	e.basis = plan.Tell("schedule.high", "work", e.basis, "times", f, "above", tenFeet)
	return e
}

// cite is the source of a figure with its status.
func cite(f job.Figure) plan.Fact { return plan.Cited(plan.Cite(f.Source), string(f.Status)) }

// what tells what a figure is of.
func what(f job.Figure) plan.Fact { return plan.Tell("figure." + f.ID) }
