package main

import (
	"strconv"
	"strings"

	"seamwright/assets/words"
	"seamwright/calc/job"
	"seamwright/calc/money"
	"seamwright/calc/plan"
)

// teller shows the figures of one plan: to people in the form of their language, to programs with a decimal point and
// nothing between thousands.
type teller struct {
	say   *words.Voice
	j     *job.Job
	plain bool // for programs
}

// text is a phrase of this command's own.
func (t teller) text(key string, values ...any) string { return t.say.Text(key, values...) }

// fact is a fact of the plan.
func (t teller) fact(f plan.Fact) string { return t.say.Fact(f) }

// number shows a number with so many decimals.
func (t teller) number(x float64, decimals int) string {
	if t.plain {
		return strconv.FormatFloat(x, 'f', decimals, 64)
	}
	return t.say.Decimal(x, decimals)
}

// count shows a whole number.
func (t teller) count(n int) string {
	if t.plain {
		return strconv.Itoa(n)
	}
	return t.say.Value(n)
}

// money shows an amount without its currency.
func (t teller) money(m money.Money) string {
	if t.plain {
		return m.String()
	}
	return t.say.Decimal(m.Float(), 2)
}

// quantity shows what is needed: to the hundredth below ten, else to the tenth, without a fraction that is zero.
func (t teller) quantity(n float64) string {
	places := 1
	if n < 10 && n > -10 {
		places = 2
	}
	if whole := strconv.FormatFloat(n, 'f', places, 64); strings.Trim(whole[strings.IndexByte(whole, '.')+1:], "0") == "" {
		places = 0
	}
	return t.number(n, places)
}

// hours shows hours to a tenth, nothing where there are none.
func (t teller) hours(h float64) string {
	if h == 0 {
		return ""
	}
	return t.number(h, 1)
}

// moment shows a time of the sequence; programs and people read the same form (ISO 8601), people without its T.
func moment(stamp string) string { return strings.Replace(stamp, "T", " ", 1) }

// weight shows a weight in the project's units, without the unit.
func (t teller) weight(kg float64) string {
	if t.j.Units == job.Metric {
		return t.number(kg, 1)
	}
	return t.number(kg/kilogramsPerPound, 1)
}

// kilogramsPerPound is exact by definition.
const kilogramsPerPound = 0.45359237

// pack tells a pack by its name in the catalog, "" for none.
func (t teller) pack(name string) string {
	if name == "" {
		return ""
	}
	return t.fact(plan.Pack(name))
}
