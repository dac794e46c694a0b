package cases_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/nest/cases"
)

func TestReadsOneAndMany(t *testing.T) {
	one := `{"name": "a", "sheet": [20, 10], "kerf": 1, "rotate": true, "items": [[3, 4, 2]]}`
	f, err := cases.Read(strings.NewReader(one))
	require.NoError(t, err)
	require.Len(t, f.Cases, 1)
	p := f.Cases[0].Sheets
	require.EqualValues(t, 20, p.Sheets[0].W)
	require.EqualValues(t, 1, p.Kerf)
	require.True(t, p.Items[0].Turn)
	require.Equal(t, 2, p.Items[0].N)

	f, err = cases.Read(strings.NewReader(`{"family": "f", "instances": [` + one + `,
		{"stock": [{"L": 30, "max": 2}, {"L": 50, "cost": 7}], "items": [[9, 1, 3]]}]}`))
	require.NoError(t, err)
	require.Equal(t, "f", f.Name)
	l := f.Cases[1].Lengths
	require.EqualValues(t, 30, l.Sticks[0].Cost, "a cost left out is the length")
	require.Equal(t, 2, l.Sticks[0].Max)
	require.EqualValues(t, 7, l.Sticks[1].Cost)
	require.True(t, f.Cases[1].Costs)
}

// A published value counts only for its own variant, and a packing that no straight cuts part never does.
func TestBestKnownOfTheVariant(t *testing.T) {
	f, err := cases.Read(strings.NewReader(`{"sheet": [20, 10], "items": [[3, 4, 2]], "best_known": [
		{"value": 5, "variant": "guillotine, oriented, at most 3 stages"}, {"value": 4, "variant": "guillotine, 90-degree rotation"},
		{"value": 3, "variant": "FREE (non-guillotine), oriented"}]}`))
	require.NoError(t, err)
	require.EqualValues(t, 5, f.Cases[0].Best(false))
	require.EqualValues(t, 4, f.Cases[0].Best(true))
}

func TestErrorsNameThePlace(t *testing.T) {
	for in, want := range map[string]string{
		``:                                     "empty",
		`[`:                                    "line 1",
		`{"instances": [{"name": "x"}]}`:       "instance 1 (x): neither",
		`{"sheet": [1], "items": [[1, 1, 1]]}`: "must be [W, H]",
		`{"sheet": [5, 5], "items": [[1, 1]]}`: "item 1 has 2 numbers",
		`{"sheet": [5, 5], "items": [[6, 6, 1]]}`:                       "item 1 (6 × 6) fits none",
		`{"sheet": [5, 5], "items": [[1, 1, -1]]}`:                      "asked for -1 times",
		`{"sheet": [5, 5], "items": [[1, 1, 9999999999]]}`:              "pieces are asked for",
		`{"sheet": [5, 5], "kerf": -1, "items": [[1, 1, 1]]}`:           "kerf -1",
		`{"stock": [{"L": 5, "W": 5}], "items": [[1, 1, 1]]}`:           "either L, or W and H",
		`{"stock": [{"L": 5, "max": 0}], "items": [[1, 1, 1]]}`:         "must be 0 (no limit) or more",
		`{"sheet": [5, 5], "stock": [{"L": 5}], "items": [[1, 1, 1]]}`:  "one is enough",
		`{"sheet": [5, 5], "items": []}`:                                "missing or empty",
		`{"sheet": ["5", 5], "items": [[1, 1, 1]]}`:                     "whole numbers",
		`{"sheet": [5, 5], "items": [[1, 1, 99999999999999999999999]]}`: "whole numbers",
	} {
		_, err := cases.Read(strings.NewReader(in))
		require.ErrorContains(t, err, want, in)
	}
}

// What is read at all is a problem that the engine accepts.
func FuzzRead(f *testing.F) {
	f.Add(`{"name": "a", "sheet": [20, 10], "kerf": 1, "rotate": true, "items": [[3, 4, 2]]}`)
	f.Add(`{"family": "f", "instances": [{"stock": [{"L": 30, "max": 2}], "items": [[9, 1, 3]]}]}`)
	f.Add(`{"sheet": [-1, 9223372036854775807], "items": [[0, 1e3, null]]}`)
	f.Fuzz(func(t *testing.T, in string) {
		family, err := cases.Read(strings.NewReader(in))
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
