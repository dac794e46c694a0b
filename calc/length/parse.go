package length

import (
	"fmt"
	"math/big"
	"strings"
	"unicode"
)

// Longest is the longest length that is read: well past any building, well inside an int64 of nanometres.
const Longest = 100_000 * Metre

// SyntaxError says why a text is not a length, and what to write instead.
type SyntaxError struct{ Text, Why, Remedy string }

// Error gives cause and remedy in one line.
func (e *SyntaxError) Error() string { return fmt.Sprintf("%q %s; %s", e.Text, e.Why, e.Remedy) }

const example = `write a length with its unit, like 12' 6 1/2", 16 in, 2.4 m or 600 mm`

// plain maps the marks that people and word processors write to the ones that Parse knows.
var plain = strings.NewReplacer(
	"’", "'", "‘", "'", "′", "'", "”", `"`, "“", `"`, "″", `"`, "''", `"`, "−", "-", "\u00a0", " ", "\u202f", " ",
	"½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8", "⅓", " 1/3", "⅔", " 2/3", "⁄", "/",
)

var units = map[string]Length{
	"'": Foot, "ft": Foot, "foot": Foot, "feet": Foot,
	`"`: Inch, "in": Inch, "inch": Inch, "inches": Inch,
	"m": Metre, "cm": Centimetre, "mm": Millimetre,
}

// Parse reads a length with its unit: 12' 6 1/2", 12'-6", 150", 16 in, 8 ft 3 in, 2.4 m, 2400 mm, 60 cm, -3'.
// Only 0 needs no unit. The value is exact where the text is a whole number of nanometres, else rounded once.
// The error is a *SyntaxError.
func Parse(text string) (Length, error) {
	fail := func(why, remedy string) (Length, error) { return 0, &SyntaxError{text, why, remedy} }
	s := strings.TrimSpace(plain.Replace(text))
	negative := strings.HasPrefix(s, "-")
	s = strings.TrimSpace(strings.TrimPrefix(s, "-"))
	if s == "" {
		return fail("is empty", example)
	}
	if strings.Trim(s, "0") == "" {
		return 0, nil
	}
	total := new(big.Rat)
	var last Length
	for first := true; s != ""; first = false {
		if !first {
			s = strings.TrimSpace(strings.TrimPrefix(s, "-"))
		}
		amount, rest, why := readAmount(s)
		if why != "" {
			return fail(why, example)
		}
		word, after := readUnit(rest)
		unit, known := units[strings.ToLower(word)]
		switch {
		case word == "" && first:
			return fail("has no unit", fmt.Sprintf(`write %s mm, %s in or %s ft`, s, s, s))
		case word == "":
			return fail("ends without a unit", example)
		case !known:
			return fail(fmt.Sprintf("has the unknown unit %q", word), "known units are ' ft, \" in, m, cm, mm")
		case !first && (last != Foot || unit != Inch):
			return fail("mixes units", "only feet and inches go together")
		}
		if last == Foot && amount.Cmp(big.NewRat(12, 1)) >= 0 {
			return fail("has 12 inches or more after feet", `carry them into the feet, or write inches alone`)
		}
		total.Add(total, amount.Mul(amount, new(big.Rat).SetInt64(int64(unit))))
		last, s = unit, strings.TrimSpace(after)
	}
	if total.Cmp(new(big.Rat).SetInt64(int64(Longest))) > 0 {
		return fail("is longer than 100 km", "check the unit")
	}
	nm := roundRat(total)
	if negative {
		nm = -nm
	}
	return nm, nil
}

// readAmount takes a number off the front: 12, 12.5, 12,5 (a decimal comma), 1/2, 6 1/2.
func readAmount(s string) (amount *big.Rat, rest, why string) {
	whole, rest := digits(s)
	if whole == "" && !strings.HasPrefix(rest, ".") {
		return nil, "", "is not a length"
	}
	if len(whole) > 12 {
		return nil, "", "has too many digits"
	}
	amount = new(big.Rat)
	switch {
	case strings.HasPrefix(rest, ".") || strings.HasPrefix(rest, ","):
		places, after := digits(rest[1:])
		if places == "" || len(places) > 12 {
			return nil, "", "is not a length"
		}
		if rest[0] == ',' && len(places) == 3 {
			return nil, "", "can be read in two ways: the comma may part thousands or decimals"
		}
		amount.SetString(whole + "." + places)
		return amount, after, ""
	case strings.HasPrefix(rest, "/"):
		return readFraction(new(big.Rat), whole, rest[1:])
	}
	amount.SetString(whole)
	if numerator, after := digits(strings.TrimLeft(rest, " ")); numerator != "" && strings.HasPrefix(after, "/") && rest[0] == ' ' {
		return readFraction(amount, numerator, after[1:])
	}
	return amount, rest, ""
}

func readFraction(whole *big.Rat, numerator, s string) (amount *big.Rat, rest, why string) {
	denominator, rest := digits(s)
	if denominator == "" || strings.Trim(denominator, "0") == "" || len(denominator) > 4 || len(numerator) > 12 {
		return nil, "", "has a broken fraction"
	}
	f := new(big.Rat).SetFrac(decimal(numerator), decimal(denominator))
	return f.Add(f, whole), rest, ""
}

// decimal reads digits in base ten: to big.Rat and to big.Int a leading 0 may mean another base.
func decimal(digits string) *big.Int {
	n, _ := new(big.Int).SetString(digits, 10)
	return n
}

func readUnit(s string) (word, rest string) {
	s = strings.TrimLeft(s, " ")
	if strings.HasPrefix(s, "'") || strings.HasPrefix(s, `"`) {
		return s[:1], s[1:]
	}
	n := strings.IndexFunc(s, func(r rune) bool { return !unicode.IsLetter(r) })
	if n < 0 {
		n = len(s)
	}
	if n == 0 && s != "" { // a stray mark: name it
		for i := range s {
			if i > 0 {
				return s[:i], s[i:]
			}
		}
		return s, ""
	}
	return s[:n], strings.TrimPrefix(s[n:], ".")
}

func digits(s string) (number, rest string) {
	n := 0
	for n < len(s) && s[n] >= '0' && s[n] <= '9' {
		n++
	}
	return s[:n], s[n:]
}

// roundRat rounds a non-negative ratio to a whole number, halves up.
func roundRat(r *big.Rat) Length {
	n := new(big.Int).Mul(r.Num(), big.NewInt(2))
	n.Add(n, r.Denom())
	n.Div(n, new(big.Int).Mul(r.Denom(), big.NewInt(2)))
	return Length(n.Int64())
}
