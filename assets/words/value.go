package words

import (
	"fmt"
	"math"
	"strings"
	"time"

	"golang.org/x/text/number"

	"seamwright/calc/length"
	"seamwright/calc/money"
	"seamwright/calc/plan"
)

// Exact by definition.
const (
	litresPerGallon      = 3.785411784
	kilogramsPerPound    = 0.45359237
	metresPerFoot        = 0.3048
	squareMetresPerFoot2 = metresPerFoot * metresPerFoot
)

// Value shows a value in the form of the language and of the project's units.
func (v *Voice) Value(value any) string {
	switch x := value.(type) {
	case nil:
		return ""
	case string:
		return x
	case plan.Fact:
		return v.Fact(x)
	case []plan.Fact:
		return v.list(x)
	case length.Length:
		return v.Length(x)
	case money.Money:
		return v.Money(x)
	case int:
		return v.numbers.Sprint(number.Decimal(x))
	case float64:
		return v.Number(x)
	case time.Time:
		return v.Date(x)
	case fmt.Stringer:
		return x.String()
	}
	if text, ok := v.quantity(value); ok {
		return text
	}
	return fmt.Sprint(value)
}

// quantity shows what has a unit of its own.
func (v *Voice) quantity(value any) (string, bool) {
	switch x := value.(type) {
	case plan.Fine:
		return v.fine(length.Length(x)), true
	case plan.Film:
		return v.film(length.Length(x)), true
	case plan.Run:
		return v.unit(length.Length(x).Metres(), "m", length.Length(x).Feet(), "ft", 1), true
	case length.Area:
		return v.area(x.SquareMetres()), true
	case plan.Litres:
		return v.unit(float64(x), "l", float64(x)/litresPerGallon, "gal", 2), true
	case plan.Kilograms:
		return v.rounded(float64(x), "kg", float64(x)/kilogramsPerPound, "lb", number.MaxFractionDigits(1)), true
	case plan.KilogramsM2:
		return v.rounded(float64(x), "kg/m²", float64(x)/kilogramsPerPound*squareMetresPerFoot2, "lb/ft²", number.MaxFractionDigits(1)), true
	case plan.Section:
		if v.units.Imperial {
			return v.Decimal(float64(x)/25.4/25.4, 3) + " in²", true
		}
		return v.Decimal(float64(x), 0) + " mm²", true
	case plan.Coverage:
		if v.units.Imperial {
			return v.Decimal(float64(x)/squareMetresPerFoot2*litresPerGallon, 0) + " ft²/gal", true
		}
		return v.Decimal(float64(x), 1) + " m²/l", true
	case plan.HoursM2:
		return v.rounded(10*float64(x), "h/10 m²", 100*squareMetresPerFoot2*float64(x), "h/100 ft²", number.Precision(3)), true
	case plan.HoursM:
		return v.rounded(10*float64(x), "h/10 m", 100*metresPerFoot*float64(x), "h/100 ft", number.Precision(3)), true
	case plan.Celsius:
		return v.unit(float64(x), "°C", float64(x)*1.8+32, "°F", 0), true
	case plan.Share:
		return v.numbers.Sprint(number.Percent(float64(x), number.MaxFractionDigits(1))), true
	}
	return "", false
}

// unit shows a quantity in the metric unit or in the other, with so many decimals.
func (v *Voice) unit(metric float64, metricUnit string, imperial float64, imperialUnit string, decimals int) string {
	return v.rounded(metric, metricUnit, imperial, imperialUnit, number.Scale(decimals))
}

func (v *Voice) rounded(metric float64, metricUnit string, imperial float64, imperialUnit string, to number.Option) string {
	if v.units.Imperial {
		return v.numbers.Sprint(number.Decimal(imperial, to)) + " " + imperialUnit
	}
	return v.numbers.Sprint(number.Decimal(metric, to)) + " " + metricUnit
}

// fine shows a small length to 1/32 in, or to the millimetre.
func (v *Voice) fine(l length.Length) string {
	if v.units.Imperial {
		return l.Imperial(32)
	}
	return v.Length(l)
}

// film shows the thickness of a coat.
func (v *Voice) film(l length.Length) string {
	if v.units.Imperial {
		return v.numbers.Sprint(number.Decimal(l.In(), number.Precision(4))) + " in"
	}
	return v.numbers.Sprint(number.Decimal(l.MM(), number.Precision(2))) + " mm"
}

// area shows small areas to a tenth.
func (v *Voice) area(m2 float64) string {
	shown := m2
	if v.units.Imperial {
		shown = m2 / squareMetresPerFoot2
	}
	decimals := 0
	if shown < 100 {
		decimals = 1
	}
	return v.unit(m2, "m²", m2/squareMetresPerFoot2, "ft²", decimals)
}

// Length shows a length as it is read on a drawing: to 1/16 in, or to the millimetre.
func (v *Voice) Length(l length.Length) string {
	text := l.Show(v.units.Imperial)
	if v.units.Imperial {
		return text
	}
	return strings.Replace(text, ".", v.decimal(), 1)
}

// decimal is the mark before decimals.
func (v *Voice) decimal() string {
	if v.language == Spanish && !v.units.Imperial {
		return ","
	}
	return "."
}

// Number shows a number with as many decimals as its size needs: two below ten, one below a hundred.
func (v *Voice) Number(x float64) string {
	decimals := 0
	switch size := math.Abs(x); {
	case size < 10:
		decimals = 2
	case size < 100:
		decimals = 1
	}
	return v.numbers.Sprint(number.Decimal(x, number.MaxFractionDigits(decimals)))
}

// Decimal shows a number with just so many decimals.
func (v *Voice) Decimal(x float64, decimals int) string {
	return v.numbers.Sprint(number.Decimal(x, number.Scale(decimals)))
}

// Percent shows a rate that someone has stated, a part of one, with two decimals at most.
func (v *Voice) Percent(x float64) string {
	return v.numbers.Sprint(number.Percent(x, number.MaxFractionDigits(2)))
}

// signs are the signs of currencies; others are shown by their letters.
var signs = map[string]string{"USD": "$", "EUR": "€", "GBP": "£", "CAD": "$", "AUD": "$", "NZD": "$", "MXN": "$", "": "$"}

// Money shows an amount to the hundredth with its sign: $1,234.50, -$0.80, 12,40 €.
func (v *Voice) Money(m money.Money) string {
	sign, ok := signs[v.units.Currency]
	if !ok {
		sign = v.units.Currency + " "
	}
	minus := ""
	if m < 0 {
		minus, m = "-", -m
	}
	amount := v.numbers.Sprint(number.Decimal(m.Float(), number.Scale(2)))
	if v.language == Spanish && sign == "€" {
		return minus + amount + " " + sign
	}
	return minus + sign + amount
}

// list shows one or more things, the last two joined by "and".
func (v *Voice) list(facts []plan.Fact) string {
	if len(facts) == 0 {
		return ""
	}
	text := v.Fact(facts[0])
	for i, f := range facts[1:] {
		join := "list.and"
		if i < len(facts)-2 {
			join = "list.comma"
		}
		text = v.Text(join, "before", text, "after", f)
	}
	return text
}
