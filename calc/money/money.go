// Package money keeps prices as whole hundredths of the project's currency, never as a binary float.
// Each line of an account is rounded once, half away from zero.
package money

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Money is a count of hundredths of the currency unit (cents).
type Money int64

// Parse reads a decimal with at most two places: 15.50, 15.5, 1200.
func Parse(s string) (Money, error) {
	s = strings.TrimSpace(s)
	whole, frac, dotted := strings.Cut(s, ".")
	digits := whole
	neg := strings.HasPrefix(whole, "-")
	digits = strings.TrimPrefix(digits, "-")
	if digits == "" || (dotted && frac == "") || len(frac) > 2 {
		return 0, fmt.Errorf("%q is not an amount of money: write it like 15.50", s)
	}
	for len(frac) < 2 {
		frac += "0"
	}
	n, err := strconv.ParseUint(digits+frac, 10, 62)
	if err != nil {
		return 0, fmt.Errorf("%q is not an amount of money: write it like 15.50", s)
	}
	if neg {
		return -Money(n), nil
	}
	return Money(n), nil
}

// Times multiplies a price by a count or quantity and rounds the line once, half away from zero.
func (m Money) Times(quantity float64) Money { return Money(math.Round(float64(m) * quantity)) }

// Float is the amount in currency units, for ratios and drawing only.
func (m Money) Float() float64 { return float64(m) / 100 }

// String writes the amount with two places: 1234.50.
func (m Money) String() string {
	sign := ""
	u := uint64(m)
	if m < 0 {
		sign, u = "-", -u
	}
	return fmt.Sprintf("%s%d.%02d", sign, u/100, u%100)
}

// MarshalJSON writes the amount as a decimal number without needless zeros.
func (m Money) MarshalJSON() ([]byte, error) {
	s := m.String()
	return []byte(strings.TrimSuffix(strings.TrimRight(s, "0"), ".")), nil
}

// UnmarshalJSON reads a decimal number of currency units.
func (m *Money) UnmarshalJSON(b []byte) error {
	v, err := Parse(string(b))
	*m = v
	return err
}
