package words_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamwright/assets/words"
	"seamwright/calc/length"
	"seamwright/calc/money"
	"seamwright/calc/plan"
)

var (
	yard   = words.In(words.English, words.Units{Imperial: true, Currency: "USD"})
	obra   = words.In(words.Spanish, words.Units{Imperial: true, Currency: "USD"})
	metric = words.In(words.Spanish, words.Units{Currency: "EUR"})
)

// The forms of numbers are those of the Unicode CLDR for en-US, es-US and es-ES; es-ES is the one that groups with points and
// takes the decimal comma.
func TestValuesTakeTheFormOfLanguageAndUnits(t *testing.T) {
	const foot, board = length.Foot, 12*length.Millimetre + length.Millimetre/2
	for _, c := range []struct {
		value            any
		yard, obra, euro string
	}{
		{8*foot + length.Inch/2, `8' 1/2"`, `8' 1/2"`, "2451 mm"},
		{board, `1/2"`, `1/2"`, "12,5 mm"},
		{money.Money(1_234_50), "$1,234.50", "$1,234.50", "1.234,50 €"},
		{money.Money(-80), "-$0.80", "-$0.80", "-0,80 €"},
		{12345, "12,345", "12,345", "12.345"},
		{0.05, "0.05", "0.05", "0,05"},
		{plan.Share(0.075), "7.5%", "7.5\u00a0%", "7,5\u00a0%"},
		{plan.Run(10 * foot), "10.0 ft", "10.0 ft", "3,0 m"},
		{32 * length.SquareFoot, "32.0 ft²", "32.0 ft²", "3,0 m²"},
		{3200 * length.SquareFoot, "3,200 ft²", "3,200 ft²", "297 m²"},
		{plan.Kilograms(0.45359237 * 51), "51 lb", "51 lb", "23,1 kg"},
		{plan.Celsius(10), "50 °F", "50 °F", "10 °C"},
		{plan.Litres(3.785411784), "1.00 gal", "1.00 gal", "3,79 l"},
		{time.Date(2027, 3, 1, 14, 5, 0, 0, time.UTC), "Mar 1, 2027", "1 mar 2027", "1 mar 2027"},
		{[]plan.Fact{plan.Verbatim("a"), plan.Verbatim("b"), plan.Verbatim("c")}, "a, b and c", "a, b y c", "a, b y c"},
		{plan.Tell("count.sheets", "count", 1), "1 sheet", "1 hoja", "1 hoja"},
		{"studio/south", "studio/south", "studio/south", "studio/south"},
	} {
		require.Equal(t, []string{c.yard, c.obra, c.euro}, []string{yard.Value(c.value), obra.Value(c.value), metric.Value(c.value)})
	}
}

func TestCountPicksThePluralForm(t *testing.T) {
	require.Equal(t, "1 sheet", yard.Text("count.sheets", "count", 1))
	require.Equal(t, "7 sheets", yard.Text("count.sheets", "count", 7))
	require.Equal(t, "0 hojas", obra.Text("count.sheets", "count", 0))
	require.Equal(t, "1.000.000 hojas", metric.Text("count.sheets", "count", 1_000_000), "CLDR has a third form in Spanish, which reads like the last")
}

func TestDatesAndTimes(t *testing.T) {
	noon := time.Date(2027, 3, 1, 12, 5, 0, 0, time.UTC)
	require.Equal(t, "Monday, March 1, 2027", yard.LongDate(noon))
	require.Equal(t, "lunes, 1 de marzo de 2027", obra.LongDate(noon))
	require.Equal(t, "12:05 PM", yard.Clock(noon))
	require.Equal(t, "8:00 a. m.", obra.Clock(noon.Add(-4*time.Hour-5*time.Minute)))
}

func TestWhatIsMissingShows(t *testing.T) {
	require.Equal(t, "⟦no.such-phrase⟧", yard.Text("no.such-phrase"))
	require.Equal(t, "⟦no.such-phrase⟧", obra.Text("no.such-phrase"))
	require.Equal(t, "⟦count.sheets⟧", yard.Text("count.sheets"), "a value that the text asks for")
	require.Empty(t, yard.Fact(plan.Fact{}))
}

func TestManySpeakAtOnce(t *testing.T) {
	done := make(chan string)
	for range 8 {
		go func() { done <- words.In(words.Spanish, words.Units{}).Text("count.pieces", "count", 3) }()
	}
	for range 8 {
		require.Equal(t, "3 piezas", <-done)
	}
}

// A sentence with five values and one nested fact; a window tells some hundreds at a time, a plan's JSON some thousands.
func BenchmarkFact(b *testing.B) {
	f := plan.Tell("check.near-opening", "kind", plan.JointName(plan.Butt), "at", 8*length.Foot, "away", length.Inch, "opening", "d1", "required", 6*length.Inch)
	b.ReportAllocs()
	for b.Loop() {
		_ = obra.Fact(f)
	}
}

func BenchmarkIn(b *testing.B) {
	for b.Loop() {
		_ = words.In(words.Spanish, words.Units{})
	}
}
