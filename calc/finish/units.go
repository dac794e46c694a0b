package finish

import (
	"fmt"

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

// units writes quantities as the project shows them. Inside, lengths are Length, areas m² and volumes litres.
type units struct{ imperial bool }

func unitsOf(j *job.Job) units { return units{j.Units != job.Metric} }

// counted writes a number of things.
func counted(n int, one, more string) string {
	if n == 1 {
		more = one
	}
	return fmt.Sprintf("%d %s", n, more)
}

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

func (u units) long(l length.Length) string {
	n, unit := u.lengthNeed(l)
	return fmt.Sprintf("%.1f %s", n, unit)
}

func (u units) area(m2 float64) string {
	n, unit := u.areaNeed(m2)
	if n < 100 {
		return fmt.Sprintf("%.1f %s", n, unit)
	}
	return fmt.Sprintf("%.0f %s", n, unit)
}

// coverage writes a figure in square feet for a gallon.
func (u units) coverage(figure float64) string {
	if u.imperial {
		return fmt.Sprintf("%.0f ft2/gal", figure)
	}
	return fmt.Sprintf("%.1f m2/L", figure*squareMetresPerFoot2/litresPerGallon)
}

// section writes a cross-section given in square inches.
func (u units) section(squareInches float64) string {
	if u.imperial {
		return fmt.Sprintf("%.3f in²", squareInches)
	}
	return fmt.Sprintf("%.0f mm²", squareInches*25.4*25.4)
}

func (u units) volume(litres float64) string {
	n, unit := u.volumeNeed(litres)
	return fmt.Sprintf("%.2f %s", n, unit)
}

// byLength, byArea, byVolume and byCount are rows of the takeoff; supply is the kind to be bought.
func (u units) byLength(group, item, kind string, l length.Length, basis, source string) plan.Item {
	n, unit := u.lengthNeed(l)
	return plan.Item{Item: item, Supply: kind, Group: group, Need: n, Unit: unit, Basis: basis, Source: source}
}

func (u units) byArea(group, item, kind string, m2 float64, basis, source string) plan.Item {
	n, unit := u.areaNeed(m2)
	return plan.Item{Item: item, Supply: kind, Group: group, Need: n, Unit: unit, Basis: basis, Source: source}
}

func (u units) byVolume(group, item, kind string, litres float64, basis, source string) plan.Item {
	n, unit := u.volumeNeed(litres)
	return plan.Item{Item: item, Supply: kind, Group: group, Need: n, Unit: unit, Basis: basis, Source: source}
}

func byCount(group, item, kind string, n float64, basis, source string) plan.Item {
	return plan.Item{Item: item, Supply: kind, Group: group, Need: n, Unit: "count", Basis: basis, Source: source}
}

// told is the source of a figure with its status, as a row of the takeoff shows it.
func told(f job.Figure) string { return f.Told() }
