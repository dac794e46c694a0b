package length_test

import (
	"encoding/json"
	"math/big"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamwright/calc/length"
)

// The international inch is exactly 25.4 mm (international yard and pound agreement, 1959).
func TestUnitsAreExact(t *testing.T) {
	require.EqualValues(t, 25_400_000, length.Inch)
	require.EqualValues(t, 396_875, length.Sixtyfourths(1))
	require.EqualValues(t, 0, length.Inch%64)
	require.EqualValues(t, 304_800_000, length.Foot)
}

func TestParse(t *testing.T) {
	in := func(n, d int64) length.Length { return length.Inch * length.Length(n) / length.Length(d) }
	for text, want := range map[string]length.Length{
		`12' 6 1/2"`: in(301, 2), `12'-6"`: in(150, 1), `150"`: in(150, 1), `16 in`: in(16, 1), `8 ft`: in(96, 1),
		`2.4 m`: 2400 * length.Millimetre, `2400 mm`: 2400 * length.Millimetre, `60 cm`: 600 * length.Millimetre,
		`12.5"`: in(25, 2), `0`: 0, `1/2"`: in(1, 2), `7' 3"`: in(87, 1), `1 1/2"`: in(3, 2), `8'6"`: in(102, 1),
		`8ft 6in`: in(102, 1), `8’ 6½”`: in(205, 2), `5′ 3 ¼″`: in(253, 4), `-3'`: in(-36, 1), `2,4 m`: 2400 * length.Millimetre,
		`97 1/8"`: in(777, 8), `27/32 in`: in(27, 32), `.5 in`: in(1, 2), `3 ft. 2 in.`: in(38, 1), `00`: 0, `8''`: in(8, 1),
		// leading zeros are padding, as on a dial, not another base
		`1/08"`: in(1, 8), `09/16"`: in(9, 16), `010/16"`: in(10, 16), `1/016"`: in(1, 16), `1 08/010"`: in(18, 10),
		`010 mm`: 10 * length.Millimetre, `08.50 in`: in(17, 2), `0/8"`: 0,
	} {
		got, err := length.Parse(text)
		require.NoError(t, err, text)
		require.Equal(t, want, got, text)
	}
}

func TestParseRefuses(t *testing.T) {
	for text, why := range map[string]string{
		"": "is empty", "12": "has no unit", "2.4": "has no unit", "abc": "is not a length", "12 parsecs": `unknown unit "parsecs"`,
		`6" 2'`: "mixes units", "2 m 40 cm": "mixes units", `3' 14"`: "12 inches or more", `1/0"`: "broken fraction", "1,200 mm": "two ways",
		"1e9 m": "unknown unit", `5' 6`: "ends without a unit", "1000000 m": "longer than 100 km", "--3'": "is not a length",
		"9999999999999999 mm": "too many digits", "2.m": "is not a length", "NaN": "is not a length", `3@`: `unknown unit "@"`,
	} {
		_, err := length.Parse(text)
		var syntax *length.SyntaxError
		require.ErrorAs(t, err, &syntax, text)
		require.Contains(t, err.Error(), why, text)
		require.NotEmpty(t, syntax.Remedy, text)
	}
}

func TestShow(t *testing.T) {
	for want, l := range map[string]length.Length{
		`12' 6 1/2"`: length.Sixtyfourths(301 * 32), `8' 0"`: 8 * length.Foot, `3/4"`: length.Sixtyfourths(48), `0"`: 0,
		`1' 0"`: length.Foot - length.Inch/64, `-6 1/2"`: -length.Sixtyfourths(13 * 32),
	} {
		require.Equal(t, want, l.Show(true))
	}
	require.Equal(t, "2438 mm", (8 * length.Foot).Show(false))
	require.Equal(t, "8'", (8 * length.Foot).Exact(true))
	require.Equal(t, "2438.4 mm", (8 * length.Foot).Exact(false))
}

func TestExactRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		imperial := rapid.Bool().Draw(t, "imperial")
		l := length.Length(rapid.Int64Range(-int64(length.Longest), int64(length.Longest)).Draw(t, "nm"))
		if rapid.Bool().Draw(t, "on a mark") {
			l -= l % length.Sixtyfourths(1)
		}
		got, err := length.Parse(l.Exact(imperial))
		require.NoError(t, err)
		require.Equal(t, l, got)
	})
}

func TestTimesAgainstBigIntegers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		side := rapid.Int64Range(0, int64(500*length.Metre))
		a, b := side.Draw(t, "a"), side.Draw(t, "b")
		want := new(big.Int).Mul(big.NewInt(a), big.NewInt(b))
		want.Add(want, big.NewInt(500_000)).Div(want, big.NewInt(1_000_000))
		require.Equal(t, want.Int64(), int64(length.Length(a).Times(length.Length(b))))
		require.Equal(t, -want.Int64(), int64(length.Length(-a).Times(length.Length(b))))
	})
	require.Equal(t, length.SquareFoot, length.Foot.Times(length.Foot))
	require.Equal(t, length.SquareMetre, length.Metre.Times(length.Metre))
}

func TestJSONIsMillimetresWithoutExponent(t *testing.T) {
	for want, l := range map[string]length.Length{
		"1219.2": 4 * length.Foot, "0.396875": length.Sixtyfourths(1), "-19.05": -length.Sixtyfourths(48), "0": 0,
		"0.000001": length.Nanometre, "100000000": length.Longest,
	} {
		b, err := json.Marshal(l)
		require.NoError(t, err)
		require.Equal(t, want, string(b))
		var back length.Length
		require.NoError(t, json.Unmarshal(b, &back))
		require.Equal(t, l, back)
	}
}
