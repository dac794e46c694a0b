package cases_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/nest"
	"seamwright/calc/nest/cases"
)

func TestReadsOneAndMany(t *testing.T) {
	one := `{"name": "a", "sheet": [20, 10], "kerf": 1, "rotate": true, "items": [[3, 4, 2]]}`
	f, err := cases.Read(strings.NewReader(one), cases.AsCase)
	require.NoError(t, err)
	require.Len(t, f.Cases, 1)
	p := f.Cases[0].Sheets
	require.EqualValues(t, 20, p.Sheets[0].W)
	require.EqualValues(t, 1, p.Kerf)
	require.True(t, p.Items[0].Turn)
	require.Equal(t, 2, p.Items[0].N)

	f, err = cases.Read(strings.NewReader(`{"family": "f", "instances": [`+one+`,
		{"stock": [{"L": 30, "max": 2}, {"L": 50, "cost": 7}], "items": [[9, 1, 3]]}]}`), cases.AsCase)
	require.NoError(t, err)
	require.Equal(t, "f", f.Name)
	l := f.Cases[1].Lengths
	require.EqualValues(t, 30, l.Sticks[0].Cost, "a cost left out is the length")
	require.Equal(t, 2, l.Sticks[0].Max)
	require.EqualValues(t, 7, l.Sticks[1].Cost)
	require.True(t, f.Cases[1].Costs)
}

// Several sizes of sheet have their own costs and numbers; what is left out is 1 and no limit.
func TestReadsSeveralSheets(t *testing.T) {
	f, err := cases.Read(strings.NewReader(`{"sheets": [{"size": [20, 10], "cost": 7, "max": 3}, {"size": [9, 9]}], "kerf": 1,
		"items": [[3, 4, 2], [5, 1, 1]]}`), cases.AsCase)
	require.NoError(t, err)
	c := f.Cases[0]
	require.True(t, c.Costs)
	require.Equal(t, []nest.Sheet{{W: 20, H: 10, Cost: 7, Max: 3}, {W: 9, H: 9, Cost: 1}}, c.Sheets.Sheets)
	require.EqualValues(t, 1, c.Sheets.Kerf)
}

// An item that fits only when it is turned is refused by what is asked for in the end, not by what the file says.
func TestTurningCountsBeforeItemsAreChecked(t *testing.T) {
	const upright, rotated = `{"sheet": [20, 10], "items": [[9, 15, 1]]}`, `{"sheet": [20, 10], "rotate": true, "items": [[9, 15, 1]]}`
	for _, c := range []struct {
		in    string
		turn  cases.Turn
		taken bool
	}{{upright, cases.AsCase, false}, {upright, cases.All, true}, {rotated, cases.AsCase, true}, {rotated, cases.None, false}} {
		_, err := cases.Read(strings.NewReader(c.in), c.turn)
		if c.taken {
			require.NoError(t, err)
		} else {
			require.ErrorContains(t, err, "fits none of the sheets")
		}
	}
}

// A published value counts only for its own variant, and a packing that no straight cuts part never does.
func TestBestKnownOfTheVariant(t *testing.T) {
	f, err := cases.Read(strings.NewReader(`{"sheet": [20, 10], "items": [[3, 4, 2]], "best_known": [
		{"value": 5, "variant": "guillotine, oriented, at most 3 stages"}, {"value": 4, "variant": "guillotine, 90-degree rotation"},
		{"value": 3, "variant": "FREE (non-guillotine), oriented"}]}`), cases.AsCase)
	require.NoError(t, err)
	require.EqualValues(t, 5, f.Cases[0].Best(false))
	require.EqualValues(t, 4, f.Cases[0].Best(true))
}

func TestErrorsNameThePlace(t *testing.T) {
	for in, want := range map[string]string{
		``:                                     "empty",
		`[`:                                    "line 1",
		`{"instances": [{"name": "x"}]}`:       "instance 1 (x): none of",
		`{"sheet": [1], "items": [[1, 1, 1]]}`: "must be [W, H]",
		`{"sheet": [5, 5], "items": [[1, 1]]}`: "item 1 has 2 numbers",
		`{"sheet": [5, 5], "items": [[6, 6, 1]]}`:                          "item 1 (6 × 6) fits none",
		`{"sheet": [5, 5], "items": [[1, 1, -1]]}`:                         "asked for -1 times",
		`{"sheet": [5, 5], "items": [[1, 1, 9999999999]]}`:                 "pieces are asked for",
		`{"sheet": [5, 5], "kerf": -1, "items": [[1, 1, 1]]}`:              "kerf -1",
		`{"stock": [{"W": 5, "H": 5}], "items": [[1, 1, 1]]}`:              "stand under \"sheets\"",
		`{"stock": [{"L": 5}], "items": [[1, 2, 1]]}`:                      "item 1 is 2 wide",
		`{"sheets": [], "items": [[1, 1, 1]]}`:                             "\"sheets\" is empty",
		`{"sheets": [{"size": [5]}], "items": [[1, 1, 1]]}`:                "sheet 1: \"size\" has 1 numbers",
		`{"sheets": [{"size": [5, 5], "cost": -1}], "items": [[1, 1, 1]]}`: "costs -1",
		`{"stock": [{"L": 5, "max": 0}], "items": [[1, 1, 1]]}`:            "must be 0 (no limit) or more",
		`{"sheet": [5, 5], "stock": [{"L": 5}], "items": [[1, 1, 1]]}`:     "give one of them",
		`{"sheet": [5, 5], "items": []}`:                                   "missing or empty",
		`{"sheet": ["5", 5], "items": [[1, 1, 1]]}`:                        "whole numbers",
		`{"sheet": [5, 5], "items": [[1, 1, 99999999999999999999999]]}`:    "whole numbers",
	} {
		_, err := cases.Read(strings.NewReader(in), cases.AsCase)
		require.ErrorContains(t, err, want, in)
	}
}

// What is read at all is a problem that the engine accepts.
func FuzzRead(f *testing.F) {
	f.Add(`{"name": "a", "sheet": [20, 10], "kerf": 1, "rotate": true, "items": [[3, 4, 2]]}`)
	f.Add(`{"family": "f", "instances": [{"stock": [{"L": 30, "max": 2}], "items": [[9, 1, 3]]}]}`)
	f.Add(`{"sheet": [-1, 9223372036854775807], "items": [[0, 1e3, null]]}`)
	f.Fuzz(func(t *testing.T, in string) {
		family, err := cases.Read(strings.NewReader(in), cases.AsCase)
		if err != nil {
			require.NotEmpty(t, err.Error())
			return
		}
		for _, c := range family.Cases {
			if c.Lengths != nil {
				require.NoError(t, c.Lengths.Check())
			} else {
				require.NoError(t, c.Sheets.Check())
			}
		}
	})
}
