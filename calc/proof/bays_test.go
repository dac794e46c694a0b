package proof

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
)

// barn is a room of 16 ft by 12 ft whose four walls and ceiling have the framing given.
func barn(product, walls, ceiling string) string {
	sides := ""
	for side := 1; side <= 4; side++ {
		sides += fmt.Sprintf("      - {side: %d, id: w%d, framing: {%s}, lining: [{product: %s}]}\n", side, side, walls, product)
	}
	return "seamwright: 1\nrooms:\n  - id: barn\n    height: 9'\n    corners: [[0, 0], [16', 0], [16', 16'], [0, 16']]\n" +
		"    ceiling: {framing: {along: y, " + ceiling + "}, lining: [{product: gyp-16x}]}\n    walls:\n" + sides
}

// A barn is the same barn however its framing is written: studs at 32 in under joists at 24 in give the same plan, byte by
// byte, written by their spacing, by what is left out, by the first, by hand or moved. So do joists.
func TestAPlanGoesByTheBaysThatExist(t *testing.T) {
	for _, product := range []string{"gyp-12", "ply-18"} {
		want, err := planned(barn(product, `spacing: 32"`, `spacing: 24"`))
		require.NoError(t, err)
		for _, framing := range []string{
			`spacing: 16", without: [16", 48", 80", 112", 144", 176"]`,
			`spacing: 64", first: 32", also: [64", 128"]`,
			`spacing: 96", also: [32", 64", 128", 160"]`,
			`spacing: 24", without: [24", 48", 72", 120", 144", 168"], also: [32", 64", 128", 160"]`,
		} {
			got, err := planned(barn(product, framing, `spacing: 12", without: [12", 36", 60", 84", 108", 132", 156", 180"]`))
			require.NoError(t, err)
			require.Equal(t, string(want), string(got), framing)
		}
		require.Empty(t, faults([]byte(barn(product, `spacing: 32"`, `spacing: 24"`)), want))
		if product == "gyp-12" {
			require.Contains(t, string(want), `"rule": "span"`)
			require.Contains(t, string(want), `the widest bay here is 2' 8\"`)
		}
	}
}
