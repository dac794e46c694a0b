package money_test

import (
	"encoding/json"
	"fmt"
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamwright/calc/money"
)

func TestParseAndString(t *testing.T) {
	for text, want := range map[string]money.Money{"15.50": 1550, "15.5": 1550, "1200": 120000, "0": 0, "-3.05": -305, "0.07": 7} {
		got, err := money.Parse(text)
		require.NoError(t, err, text)
		require.Equal(t, want, got, text)
	}
	for _, text := range []string{"", "1.234", "1e3", "NaN", "12.", ".5", "--1", "1,5", "99999999999999999999"} {
		_, err := money.Parse(text)
		require.Error(t, err, text)
	}
	require.Equal(t, "-3.05", money.Money(-305).String())
	require.Equal(t, "1234.50", money.Money(123450).String())
}

// Half away from zero: 8.25 % of 100.00 is 8.25; half a cent goes up, and down where the amount is negative. 7.25 % of 2.00
// is 14.5 cents and goes up too, which a binary float misses. Against exact fractions of arbitrary size.
func TestPartRoundsOnce(t *testing.T) {
	require.EqualValues(t, 825, money.Money(10000).Part(825, 10000))
	require.EqualValues(t, 15, money.Money(200).Part(72500, 1_000_000))
	require.EqualValues(t, 1, money.Money(1).Part(1, 2))
	require.EqualValues(t, -1, money.Money(-1).Part(1, 2))
	require.EqualValues(t, 10850, money.Money(1550).Times(7))
	rapid.Check(t, func(t *rapid.T) {
		m, num := rapid.Int64Range(-1e12, 1e12).Draw(t, "cents"), rapid.Int64Range(-1e6, 1e6).Draw(t, "num")
		den := rapid.Int64Range(1, 1e6).Draw(t, "den")
		exact := new(big.Rat).Mul(new(big.Rat).SetInt64(m), big.NewRat(num, den))
		require.Equal(t, strings.TrimPrefix(exact.FloatString(0), "-"), strings.TrimPrefix(fmt.Sprint(int64(money.Money(m).Part(num, den))), "-"))
		require.False(t, (m < 0) == (num < 0) && money.Money(m).Part(num, den) < 0)
	})
}

func TestJSONRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := money.Money(rapid.Int64Range(-1e15, 1e15).Draw(t, "cents"))
		b, err := json.Marshal(m)
		require.NoError(t, err)
		var back money.Money
		require.NoError(t, json.Unmarshal(b, &back))
		require.Equal(t, m, back)
		again, err := money.Parse(m.String())
		require.NoError(t, err)
		require.Equal(t, m, again)
	})
	b, _ := json.Marshal(money.Money(10850))
	require.Equal(t, "108.5", string(b))
	b, _ = json.Marshal(money.Money(120000))
	require.Equal(t, "1200", string(b))
}
