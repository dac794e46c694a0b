package ui

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/money"
	"seamwright/calc/plan"
)

// How quantities are written in the window: the figure first, the unit small after it, one way for each.

// currencies that have a sign of their own; others are written with their letters.
var currencies = map[string]string{"USD": "$", "EUR": "€", "GBP": "£", "CAD": "$", "AUD": "$", "NZD": "$", "": "$"}

// amount writes money in whole units above a hundred: $2,184, else to the cent: $15.50.
func amount(m money.Money, currency string) string {
	sign, ok := currencies[currency]
	if !ok {
		sign = currency + " "
	}
	minus := ""
	if m < 0 {
		minus, m = "−", -m
	}
	if m >= 100_00 {
		return minus + sign + thousands(int64(math.Round(float64(m)/100)))
	}
	return minus + sign + m.String()
}

// exactAmount writes money to the cent.
func exactAmount(m money.Money, currency string) string {
	sign, ok := currencies[currency]
	if !ok {
		sign = currency + " "
	}
	minus := ""
	if m < 0 {
		minus, m = "−", -m
	}
	return minus + sign + thousands(int64(m/100)) + fmt.Sprintf(".%02d", m%100)
}

// thousands writes a whole number with commas.
func thousands(n int64) string {
	s := strconv.FormatInt(n, 10)
	sign := ""
	if strings.HasPrefix(s, "-") {
		sign, s = "−", s[1:]
	}
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return sign + s
}

// change writes a difference with its sign, "" where there is none.
func change(n int) string {
	switch {
	case n > 0:
		return "+ " + thousands(int64(n))
	case n < 0:
		return "− " + thousands(int64(-n))
	}
	return ""
}

func moneyChange(m money.Money, currency string) string {
	switch {
	case m > 0:
		return "+ " + amount(m, currency)
	case m < 0:
		return "− " + amount(-m, currency)
	}
	return ""
}

// quantity writes a number with as many places as its size needs.
func quantity(v float64) string {
	switch {
	case v == math.Trunc(v) && math.Abs(v) < 1e9:
		return thousands(int64(v))
	case math.Abs(v) >= 100:
		return thousands(int64(math.Round(v)))
	case math.Abs(v) >= 10:
		return strconv.FormatFloat(v, 'f', 1, 64)
	}
	return strconv.FormatFloat(v, 'f', 2, 64)
}

// run writes the length of joints and the like: whole feet or tenths of a metre.
func (w *Window) run(l length.Length) string {
	if w.imperial() {
		return thousands(int64(math.Round(l.Feet()))) + " ft"
	}
	return strconv.FormatFloat(l.Metres(), 'f', 1, 64) + " m"
}

func (w *Window) runChange(l length.Length) string {
	if w.imperial() {
		if n := int(math.Round(l.Feet())); n != 0 {
			return change(n) + " ft"
		}
		return ""
	}
	m := math.Round(l.Metres()*10) / 10
	switch {
	case m > 0:
		return "+ " + strconv.FormatFloat(m, 'f', 1, 64) + " m"
	case m < 0:
		return "− " + strconv.FormatFloat(-m, 'f', 1, 64) + " m"
	}
	return ""
}

func (w *Window) length(l length.Length) string { return l.Show(w.imperial()) }

// size writes a sheet's size: 4′ × 8′ or 1200 × 2400 mm, the width first as sheets are called.
func (w *Window) size(long, wide length.Length) string {
	if w.imperial() && wide%length.Inch == 0 { // a metric sheet is called by its millimetres everywhere
		return feet(wide) + " × " + feet(long)
	}
	return strings.TrimSuffix(wide.Metric(), " mm") + " × " + long.Metric()
}

// feet drops needless inches: 8', 4' 6", 48 1/2".
func feet(l length.Length) string { return strings.TrimSuffix(l.Imperial(length.ShownFraction), ` 0"`) }

func percent(v float64) string { return strconv.FormatFloat(v*100, 'f', 1, 64) + " %" }

// day writes a plan's date or time: Fri 19 Mar.
func day(s string) string {
	t, ok := planTime(s)
	if !ok {
		return s
	}
	return t.Format("Mon 2 Jan")
}

// planTime reads the times that a plan writes: a day, or a day and a time.
func planTime(s string) (time.Time, bool) {
	for _, form := range []string{"2006-01-02T15:04", "2006-01-02"} {
		if t, err := time.Parse(form, s); err == nil {
			return t, true
		}
	}
	return time.Time{}, false
}

// layersName is what a finish is called: the product's name, or how many layers of it.
func layersName(j *job.Job, layers []string) string {
	if len(layers) == 0 || len(layers) == 1 && layers[0] == job.Open {
		return "left open"
	}
	names := make([]string, len(layers))
	same := true
	for i, id := range layers {
		names[i] = productName(j, id)
		same = same && id == layers[0]
	}
	switch {
	case len(layers) == 1:
		return names[0]
	case same && len(layers) == 2:
		return "two layers " + names[0]
	}
	return strings.Join(names, " + ")
}

func productName(j *job.Job, id string) string {
	if p := j.Product(id); p != nil && p.Name != "" {
		return p.Name
	}
	return id
}

// lastDay is the day on which the plan is finished.
func lastDay(p *plan.Plan) string { return day(p.Summary.Finish) }

// roundMoney rounds hundredths to whole ones, halves away from zero.
func roundMoney(cents float64) money.Money { return money.Money(math.Round(cents)) }

func oneDecimal(v float64) string { return strconv.FormatFloat(v, 'f', 1, 64) }
