package finish

import (
	"math"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
)

// Exact by definition.
const (
	litresPerGallon      = 231 * litresPerCubicInch
	metresPerFoot        = 0.3048
	kilogramsPerPound    = 0.45359237
	squareMetresPerFoot2 = metresPerFoot * metresPerFoot
)

// units counts quantities as the project buys them. Inside, lengths are Length, areas m² and volumes litres.
type units struct{ imperial bool }

func unitsOf(j *job.Job) units { return units{j.Units != job.Metric} }

func (u units) lengthNeed(l length.Length) (float64, string) {
	if u.imperial {
		return l.Feet(), "ft"
	}
	return l.Metres(), "m"
}

func (u units) areaNeed(m2 float64) (float64, string) {
	if u.imperial {
		return m2 / squareMetresPerFoot2, "ft2"
	}
	return m2, "m2"
}

func (u units) volumeNeed(litres float64) (float64, string) {
	if u.imperial {
		return litres / litresPerGallon, "gal"
	}
	return litres, "L"
}

// squareMetres is an area that is told.
func squareMetres(m2 float64) length.Area {
	return length.Area(math.Round(m2 * float64(length.SquareMetre)))
}

// coverage is a figure in square feet for a gallon that is told.
func coverage(figure float64) plan.Coverage {
	return plan.Coverage(figure * squareMetresPerFoot2 / litresPerGallon)
}

// section is a cross-section in square inches that is told.
func section(squareInches float64) plan.Section { return plan.Section(squareInches * 25.4 * 25.4) }

// thing is what a row of the takeoff buys: as it is told, and the name by which quantities of it are recorded in projects,
// which is the same in every language.
type thing struct {
	record string
	told   plan.Fact
}

// byLength, byArea, byVolume and byCount are rows of the takeoff; supply is the kind to be bought.
func (u units) byLength(group string, item thing, kind string, l length.Length, basis, source plan.Fact) plan.Item {
	n, unit := u.lengthNeed(l)
	return row(group, item, kind, n, unit, basis, source)
}

func (u units) byArea(group string, item thing, kind string, m2 float64, basis, source plan.Fact) plan.Item {
	n, unit := u.areaNeed(m2)
	return row(group, item, kind, n, unit, basis, source)
}

func (u units) byVolume(group string, item thing, kind string, litres float64, basis, source plan.Fact) plan.Item {
	n, unit := u.volumeNeed(litres)
	return row(group, item, kind, n, unit, basis, source)
}

func byCount(group string, item thing, kind string, n float64, basis, source plan.Fact) plan.Item {
	return row(group, item, kind, n, "count", basis, source)
}

func row(group string, item thing, kind string, need float64, unit string, basis, source plan.Fact) plan.Item {
	return plan.Item{Item: item.told, Record: item.record, Thing: item.record, Supply: kind, Group: group, Need: need, Unit: unit, Basis: basis, Source: source}
}

// told is the source of a figure with its status, as a row of the takeoff shows it.
func told(f job.Figure) plan.Fact { return plan.Cited(plan.Cite(f.Source), string(f.Status)) }
