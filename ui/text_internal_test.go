package ui

import (
	"strings"
	"testing"

	"seamwright/calc/length"
	"seamwright/calc/money"
	"seamwright/calc/shape"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// hasText says whether a line of text stands anywhere in a container.
func hasText(o fyne.CanvasObject, words string) bool {
	switch x := o.(type) {
	case *canvas.Text:
		return strings.Contains(x.Text, words)
	case *fyne.Container:
		for _, c := range x.Objects {
			if hasText(c, words) {
				return true
			}
		}
	case *container.Scroll:
		return hasText(x.Content, words)
	case *container.Clip:
		return hasText(x.Content, words)
	}
	return false
}

func shapeMiddle(a, b shape.Point) shape.Point {
	return shape.Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2}
}

func TestFitNeverOverflows(t *testing.T) {
	test.NewApp()
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.StringMatching(`[A-Za-z0-9 ½′″×−]{0,60}`).Draw(t, "s")
		width := rapid.Float32Range(20, 400).Draw(t, "width")
		got := fit(s, sizeText, false, width)
		require.LessOrEqual(t, textWidth(got, sizeText, false), width)
		if textWidth(s, sizeText, false) <= width {
			require.Equal(t, s, got, "what fits stays whole")
		}
	})
}

func TestWrapKeepsEveryWord(t *testing.T) {
	test.NewApp()
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.StringMatching(`([a-z]{1,12} ){0,30}`).Draw(t, "s")
		lines := wrap(s, sizeText, false, 120)
		require.Equal(t, strings.Fields(s), strings.Fields(strings.Join(lines, " ")))
		for _, l := range lines {
			if strings.Contains(l, " ") {
				require.LessOrEqual(t, textWidth(l, sizeText, false), float32(120))
			}
		}
	})
}

func TestNumbersAsPeopleReadThem(t *testing.T) {
	require.Equal(t, "$2,184", amount(2184_40, "USD"))
	require.Equal(t, "$15.50", amount(15_50, "USD"))
	require.Equal(t, "−€1,200", amount(-1200_00, "EUR"))
	require.Equal(t, "CHF 99.00", amount(99_00, "CHF"))
	require.Equal(t, "$1,234.05", exactAmount(1234_05, "USD"))
	require.Equal(t, "+ 2", change(2))
	require.Equal(t, "− 2", change(-2))
	require.Empty(t, change(0))
	require.Equal(t, "− $41.00", moneyChange(-41_00, "USD"))
	require.Equal(t, "12,345,678", thousands(12345678))
	require.Equal(t, "Fri 19 Mar", day("2027-03-19T15:00"))
	require.Equal(t, "1 box", counted(1, "box"))
	require.Equal(t, "2 boxes", counted(2, "box"))
	m, err := parseMoney("$1,234.50", "USD")
	require.NoError(t, err)
	require.Equal(t, money.Money(1234_50), m)
}

func TestWorkingDaysRoundTrip(t *testing.T) {
	d, err := parseDays("Mon, tue wednesday fri")
	require.NoError(t, err)
	require.Equal(t, "mon tue wed fri", daysWords(d))
	_, err = parseDays("mon someday")
	require.ErrorContains(t, err, "someday")
}

func TestFreePlace(t *testing.T) {
	wall := 10 * length.Length(length.Foot)
	require.Equal(t, 3*length.Foot, freePlace(nil, wall, 4*length.Foot, length.Inch, nil), "the middle, where nothing stands")
	require.Equal(t, length.Length(0), freePlace(nil, wall, 4*length.Foot, length.Inch, &shape.Point{}), "never beyond the wall")
}
