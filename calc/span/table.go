package span

import (
	"seamwright/calc/length"
	"seamwright/calc/plan"
)

const (
	inch = length.Inch
	mm   = length.Millimetre
)

// What the rows are written in.
const (
	threeEighths = 3 * inch / 8
	half         = inch / 2
	fiveEighths  = 5 * inch / 8
	nineAndHalf  = 19 * mm / 2
	twelveAndHlf = 25 * mm / 2
)

// Sources. IRC Table R702.3.5 (2015 to 2021) itself was not seen; what makers print of it was.
var (
	irc    = plan.CiteMemory("IRC Table R702.3.5")
	maker  = plan.Tell("source.maker-single-layer")
	sheet  = plan.Tell("source.maker-ceiling-board")
	double = plan.Tell("source.maker-double-layer")
	living = plan.Tell("source.under-habitable-rooms")
	taken  = plan.Tell("source.taken-over")
	walls  = plan.CiteRead("NHBC Standards 2020, 6.3.12")
	over   = plan.CiteRead("NHBC Standards 2022, 9.2.4 Table 5")
	din    = plan.CiteMemory("DIN 18181")
	rule   = plan.Tell("source.maker-wood-screws")
	uk     = plan.Tell("source.maker-metric-screws")
)

// What board overhead bears in psf: 1/2 in ceiling board 1.3 over 24 in and 2.2 over 16 in (read: a maker's sheet); 5/8 in
// board 2.2 (GA-216, from memory). Board under 1/2 in bears none (read: Ontario 9.29.5.3 asks 12.7 mm under insulation).
const (
	light = 1.3
	heavy = 2.2
)

// table lists, for each board and place, the closer bays first. Board of 3/8 in and, unless it is sag-resistant, of 1/2 in over
// 24 in is not for ceilings that get a water-based texture or bear insulation: footnote d (from memory). Here 1/2 in board over
// 24 in always has to be sag-resistant, as makers ask (read: 24 in joists take 5/8 in or 1/2 in ceiling board).
var table = []Row{
	{Board: threeEighths, Plies: 1, Ceiling: true, Across: true, Bay: 16 * inch, From: maker, Screws: 12 * inch, By: rule},
	{Board: threeEighths, Plies: 1, Bay: 16 * inch, From: irc, Screws: 16 * inch, By: irc},
	{Board: half, Plies: 1, Ceiling: true, Bay: 16 * inch, Bears: heavy, From: maker, Screws: 12 * inch, By: rule},
	{Board: half, Plies: 1, Ceiling: true, Across: true, Sag: true, Bay: 24 * inch, Bears: light, From: sheet, Screws: 12 * inch, By: rule},
	{Board: half, Plies: 1, Bay: 16 * inch, From: maker, Screws: 16 * inch, By: rule},
	{Board: half, Plies: 1, Bay: 24 * inch, From: maker, Screws: 12 * inch, By: irc},
	{Board: fiveEighths, Plies: 1, Ceiling: true, Bay: 16 * inch, Bears: heavy, From: irc, Screws: 12 * inch, By: rule},
	{Board: fiveEighths, Plies: 1, Ceiling: true, Across: true, Bay: 24 * inch, Bears: heavy, From: maker, Screws: 12 * inch, By: rule},
	{Board: fiveEighths, Plies: 1, Ceiling: true, Across: true, Under: true, Bay: 24 * inch, Bears: heavy, From: living, Screws: 6 * inch, By: living},
	{Board: fiveEighths, Plies: 1, Bay: 16 * inch, From: maker, Screws: 16 * inch, By: rule},
	{Board: fiveEighths, Plies: 1, Bay: 24 * inch, From: maker, Screws: 12 * inch, By: irc},

	{Board: threeEighths, Plies: 1, Ceiling: true, Across: true, Bay: 16 * inch, Glued: true, From: irc, Screws: 16 * inch, By: irc},
	{Board: threeEighths, Plies: 1, Bay: 16 * inch, Glued: true, From: irc, Screws: 24 * inch, By: irc},
	{Board: half, Plies: 1, Ceiling: true, Bay: 16 * inch, Glued: true, Bears: heavy, From: irc, Screws: 16 * inch, By: irc},
	{Board: half, Plies: 1, Ceiling: true, Across: true, Sag: true, Bay: 24 * inch, Glued: true, Bears: light, From: irc, Screws: 16 * inch, By: irc},
	{Board: half, Plies: 1, Bay: 24 * inch, Glued: true, From: irc, Screws: 24 * inch, By: irc},
	{Board: fiveEighths, Plies: 1, Ceiling: true, Bay: 16 * inch, Glued: true, Bears: heavy, From: irc, Screws: 16 * inch, By: irc},
	{Board: fiveEighths, Plies: 1, Ceiling: true, Across: true, Bay: 24 * inch, Glued: true, Bears: heavy, From: irc, Screws: 16 * inch, By: irc},
	{Board: fiveEighths, Plies: 1, Bay: 24 * inch, Glued: true, From: irc, Screws: 24 * inch, By: irc},

	{Board: threeEighths, Plies: 2, Ceiling: true, Across: true, Bay: 16 * inch, Bears: Unstated, From: double},
	{Board: threeEighths, Plies: 2, Bay: 24 * inch, From: double},
	{Board: half, Plies: 2, Ceiling: true, Bay: 24 * inch, Bears: Unstated, From: double},
	{Board: fiveEighths, Plies: 2, Ceiling: true, Bay: 24 * inch, Bears: Unstated, From: double},

	{Board: nineAndHalf, Metric: true, Plies: 1, Ceiling: true, Across: true, Bay: 400 * mm, From: over, Screws: 230 * mm, Ends: 150 * mm, By: uk},
	{Board: nineAndHalf, Metric: true, Plies: 1, Bay: 450 * mm, From: walls, Screws: 300 * mm, By: uk},
	{Board: twelveAndHlf, Metric: true, Plies: 1, Ceiling: true, Bay: 400 * mm, Bears: Unstated, From: din, Screws: 230 * mm, Ends: 150 * mm, By: uk},
	{Board: twelveAndHlf, Metric: true, Plies: 1, Ceiling: true, Across: true, Bay: 450 * mm, Bears: Unstated, From: over, Screws: 230 * mm, Ends: 150 * mm, By: uk},
	{Board: twelveAndHlf, Metric: true, Plies: 1, Bay: 600 * mm, From: walls, Screws: 300 * mm, By: uk},
	{Board: twelveAndHlf, Metric: true, Plies: 1, Bay: 625 * mm, From: din, Screws: 300 * mm, By: uk},
	{Board: 15 * mm, Metric: true, Plies: 1, Ceiling: true, Bay: 400 * mm, Bears: Unstated, From: din, Screws: 230 * mm, Ends: 150 * mm, By: uk},
	{Board: 15 * mm, Metric: true, Plies: 1, Ceiling: true, Across: true, Bay: 600 * mm, Bears: Unstated, From: over, Screws: 230 * mm, Ends: 150 * mm, By: uk},
	{Board: 15 * mm, Metric: true, Plies: 1, Ceiling: true, Across: true, Under: true, Bay: 600 * mm, Bears: Unstated, From: taken, Screws: 150 * mm, By: taken},
	{Board: 15 * mm, Metric: true, Plies: 1, Bay: 600 * mm, From: walls, Screws: 300 * mm, By: uk},
	{Board: 15 * mm, Metric: true, Plies: 1, Bay: 625 * mm, From: din, Screws: 300 * mm, By: uk},
}
