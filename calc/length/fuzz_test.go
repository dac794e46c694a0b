package length_test

import (
	"math/big"
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/length"
)

// FuzzParse holds Parse against an independent reader: on the plain forms both read the same value or refuse, and what
// Parse reads of any other text comes back from its own spelling.
func FuzzParse(f *testing.F) {
	for _, s := range []string{`12' 6 1/2"`, "2,4 m", "8’ 6½”", "-3'", "0", "1/0", "1,200 mm", `5' 6`, "9e9 m", "½",
		`1/08"`, `09/16"`, `010/16"`, `1/016"`, `0'-0 0/1"`, "00.500 m", `1 1/64 in`, "100000 m", "3 ft 2 in"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		l, err := length.Parse(text)
		if want, ok := slowly(text); ok {
			require.NoError(t, err, text)
			require.Equal(t, want, int64(l), text)
		}
		if err != nil {
			var syntax *length.SyntaxError
			require.ErrorAs(t, err, &syntax)
			require.NotEmpty(t, syntax.Remedy)
			return
		}
		require.LessOrEqual(t, l.Abs(), length.Longest)
		for _, imperial := range []bool{true, false} {
			again, err := length.Parse(l.Exact(imperial))
			require.NoError(t, err)
			require.Equal(t, l, again)
		}
	})
}

// The forms that slowly reads: [-] feet and inches, or one amount with its unit; amounts are 12, 12.5, 1/2 or 6 1/2.
var (
	amountForm = `(?:(\d{1,6}) +)?(\d{1,6})(?:/(\d{1,4})|\.(\d{1,6}))?`
	oneForm    = regexp.MustCompile(`^(-?)` + amountForm + ` ?('|"|ft|in|m|cm|mm)$`)
	feetForm   = regexp.MustCompile(`^(-?)(\d{1,6})(?:'| ft) ?-?` + amountForm + `(?:"| in)$`)
)

// slowly reads the plain forms by another road: a pattern takes the text apart, sums make numbers in base ten digit by
// digit, and whole multiples of the unit are divided once at the end. Not ok: the text is of another form, or too long.
func slowly(text string) (nm int64, ok bool) {
	var up, down big.Int // the amount as a ratio
	var feet, unit, sign string
	var parts []string
	switch m := oneForm.FindStringSubmatch(text); {
	case m != nil:
		sign, feet, parts, unit = m[1], "", m[2:6], m[6]
	default:
		if m = feetForm.FindStringSubmatch(text); m == nil {
			return 0, false
		}
		sign, feet, parts, unit = m[1], m[2], m[3:7], `"`
	}
	whole, number, under, places := parts[0], parts[1], parts[2], parts[3]
	if whole != "" && under == "" { // two numbers without a fraction are no amount
		return 0, false
	}
	down.SetInt64(1)
	up.Set(summed(number))
	switch {
	case under != "":
		if down.Set(summed(under)); down.Sign() == 0 {
			return 0, false
		}
		up.Add(&up, new(big.Int).Mul(summed(whole), &down))
	case places != "":
		down.Exp(big.NewInt(10), big.NewInt(int64(len(places))), nil)
		up.Set(summed(number + places))
	}
	if feet != "" && new(big.Int).Mul(&down, big.NewInt(12)).Cmp(&up) <= 0 { // 12 inches or more after feet
		return 0, false
	}
	perUnit := map[string]int64{"'": 304_800_000, "ft": 304_800_000, `"`: 25_400_000, "in": 25_400_000,
		"m": 1_000_000_000, "cm": 10_000_000, "mm": 1_000_000}[unit]
	up.Mul(&up, big.NewInt(perUnit))
	up.Add(&up, new(big.Int).Mul(&down, new(big.Int).Mul(summed(feet), big.NewInt(304_800_000))))
	up.Add(up.Lsh(&up, 1), &down) // halves up
	up.Div(&up, down.Lsh(&down, 1))
	if up.Cmp(big.NewInt(100_000_000_000_000)) > 0 { // 100 km
		return 0, false
	}
	if nm = up.Int64(); sign == "-" {
		nm = -nm
	}
	return nm, true
}

// summed adds up digits from the left; no digits are 0.
func summed(digits string) *big.Int {
	sum := new(big.Int)
	for _, d := range []byte(digits) {
		sum.Add(sum.Mul(sum, big.NewInt(10)), big.NewInt(int64(d-'0')))
	}
	return sum
}
