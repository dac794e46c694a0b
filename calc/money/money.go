// Package money keeps prices as whole hundredths of the project's currency, never as a binary float.
// Each line of an account is rounded once, half away from zero.
package money

import (
	"fmt"
	"math/bits"
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

// Times is the price of n things.
func (m Money) Times(n int) Money { return m * Money(n) }

// Part is m x num / den, rounded once, half away from zero; den is positive. The product is held in 128 bits, so no binary
// float stands between a price and a percentage: 7.25 % of 2.00 is 14.5 cents exactly, and so 0.15.
func (m Money) Part(num, den int64) Money {
	hi, lo := bits.Mul64(magnitude(int64(m)), magnitude(num))
	lo, carry := bits.Add64(lo, uint64(den)/2, 0)
	q, _ := bits.Div64(hi+carry, lo, uint64(den))
	if (m < 0) != (num < 0) {
		return -Money(q)
	}
	return Money(q)
}

func magnitude(n int64) uint64 {
	if n < 0 {
		return -uint64(n)
	}
	return uint64(n)
}

// Float is the amount in currency units, for ratios and drawing only.
func (m Money) Float() float64 { return float64(m) / 100 }

// String writes the amount with two places: 1234.50.
func (m Money) String() string {
	sign, u := "", magnitude(int64(m))
	if m < 0 {
		sign = "-"
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
