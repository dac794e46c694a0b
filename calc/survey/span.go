package survey

import (
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
)

// spanRow is one row of the span table for a single layer of gypsum board.
type spanRow struct {
	atLeast       length.Length // thickness
	wall          length.Length // widest spacing on walls, either direction
	across, along length.Length // on ceilings
	sag           length.Length // on ceilings across, sag-resistant and carrying nothing
}

// spanTable is IRC Table R702.3.5 (from memory), whose ceiling rows agree with the maker's table that was read:
// 3/8 in across at 16 in, 1/2 in at 16 in either way and 24 in across only if sag-resistant, 5/8 in at 24 in across.
var spanTable = []spanRow{
	{length.Sixtyfourths(38), 24 * length.Inch, 24 * length.Inch, 16 * length.Inch, 24 * length.Inch},
	{length.Sixtyfourths(30), 24 * length.Inch, 16 * length.Inch, 16 * length.Inch, 24 * length.Inch},
	{length.Sixtyfourths(23), 16 * length.Inch, 16 * length.Inch, 0, 16 * length.Inch},
}

// metricTable is the same for metric board: NHBC Standards 2022, 9.2.4 Table 5 (ceilings, edges at the walls on noggings) and
// 2020, 6.3.12 (walls), both read; 625 mm on walls, and along the joists, by DIN 18181 (from memory).
var metricTable = []spanRow{
	{15 * length.Millimetre, 625 * length.Millimetre, 600 * length.Millimetre, 400 * length.Millimetre, 600 * length.Millimetre},
	{12500 * length.Millimetre / 1000, 625 * length.Millimetre, 450 * length.Millimetre, 400 * length.Millimetre, 450 * length.Millimetre},
	{9500 * length.Millimetre / 1000, 450 * length.Millimetre, 400 * length.Millimetre, 0, 400 * length.Millimetre},
}

// SpacingSlack lets 600 mm pass for 24 in and 410 mm for 16 in.
const SpacingSlack = length.Inch / 4

// Spans tells whether the board of this layer may carry over the spacing of the members when laid in a direction, and
// the widest spacing that it may. Wood panels, further layers and layers on solid backing are not limited here.
func (z *Zone) Spans(run job.Run) (limit length.Length, ok bool) {
	s := z.Surface
	if z.Product.Kind != job.Gypsum || z.Layer > 1 || s.Backing != nil {
		return 0, true
	}
	var spacing length.Length
	var insulation job.Insulation
	if s.Wall != nil {
		spacing, insulation = s.Wall.Framing.Spacing, s.Wall.Insulation
	} else if s.Ceiling != nil {
		spacing, insulation = s.Ceiling.Framing.Spacing, s.Ceiling.Insulation
	}
	table := spanTable
	if z.Product.MetricBoard() {
		table = metricTable
	}
	for _, row := range table {
		if z.Product.Thickness < row.atLeast {
			continue
		}
		switch loaded := insulation != job.NoInsulation && insulation != ""; {
		case s.Kind == plan.Wall || z.Layers > 1:
			limit = row.wall
		case run == job.RunAlong:
			limit = row.along
		case z.Product.Sag && !loaded:
			limit = row.sag
		default:
			limit = row.across
		}
		break
	}
	return limit, spacing <= limit+SpacingSlack
}
