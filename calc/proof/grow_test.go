package proof

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// boxRoom is a plain room with a ceiling, a window and a door, x inches to the right.
func boxRoom(id string, x, wide, deep, high int) string {
	return fmt.Sprintf(`  - id: %s
    height: %d"
    corners: [[%d", 0], [%d", 0], [%d", %d"], [%d", %d"]]
    ceiling: {lining: [{product: gyp-12c}]}
    walls:
      - {side: 1, id: south, trim: 3 1/2", openings: [{id: w, kind: window, at: 20", width: 24", height: 30", sill: 30", reveal: 4", return: board}]}
      - {side: 2, id: east, trim: 3 1/2"}
      - {side: 3, id: north, trim: 3 1/2", openings: [{id: d, kind: door, at: 20", width: 32", height: 80"}]}
      - {side: 4, id: west, trim: 3 1/2", lining: [{product: ply-18}]}
`, id, high, x, x+wide, x+wide, deep, x, deep)
}

// needsOf plans rooms of least joint, since layouts of least cost change with the packs that two rooms share, and gives what
// they need by name, packs put together.
func needsOf(t require.TestingT, rooms ...string) (needs map[string]float64, a *answer) {
	src := "seamwright: 1\naim: joints\nsite: {rate: 20}\nrooms:\n" + strings.Join(rooms, "") + "figures: {panel-coats: 2, panel-battens: 1, casing: 3}\n" +
		"defaults: {framing: {spacing: 16\"}, lining: [{product: gyp-12}]}\n"
	out, err := planned(src)
	require.NoError(t, err)
	a, err = readAnswer(out)
	require.NoError(t, err)
	needs = map[string]float64{}
	for _, r := range a.Takeoff {
		if r.Group == "sheets" {
			continue
		}
		name := r.Supply // packs of one supply are one need
		needs[name] += r.Need
	}
	return needs, a
}

// byExtent are the supplies whose need follows from areas and edges of the room alone, whatever the layout.
var byExtent = []string{"primer", "paint", "floor-paper", "base-trim", "masking-tape", "masking-paper", "casing", "corner-bead", "clear-finish"}

// grown is how many rooms are drawn for each of the two properties: every one is planned twice.
const grown = 20

// Quantities driven by area and length never fall when a wall grows, to either side or upwards.
func TestGrowingWalls(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range grown {
		size := [3]int{96 + r.IntN(200), 96 + r.IntN(140), 90 + r.IntN(30)}
		larger := size
		larger[r.IntN(3)] += 1 + r.IntN(40)
		small, _ := needsOf(t, boxRoom("r", 0, size[0], size[1], size[2]))
		large, _ := needsOf(t, boxRoom("r", 0, larger[0], larger[1], larger[2]))
		for _, item := range byExtent {
			require.Positive(t, small[item], item)
			require.GreaterOrEqual(t, large[item]+1e-4, small[item], "%s: %v to %v", item, size, larger)
		}
	}
}

// A project of two rooms alike needs twice what one needs: to the rounding of each row where areas and edges decide, and
// nearly so where the search may lay the second room out with another seam.
func TestDoubling(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 3))
	for range grown {
		wide, deep, high := 96+r.IntN(140), 96+r.IntN(100), 90+r.IntN(30)
		one, single := needsOf(t, boxRoom("r", 0, wide, deep, high))
		two, double := needsOf(t, boxRoom("r", 0, wide, deep, high), boxRoom("s", wide+40, wide, deep, high))
		for _, item := range byExtent {
			require.InDelta(t, 2*one[item], two[item], 1e-3, "%s: %d by %d by %d", item, wide, deep, high)
		}
		require.InEpsilon(t, 2*single.Summary.Hours, double.Summary.Hours, 0.1)
		require.InEpsilon(t, 2*single.boughtArea(), double.boughtArea(), 0.25, "offcuts are shared")
		for _, item := range []string{"compound", "tape"} {
			require.InEpsilon(t, 2*one[item], two[item], 0.25, item)
		}
	}
}

// boughtArea is the area of the sheets bought, in mm²: under least cost their number says little, since sizes differ.
func (a *answer) boughtArea() (sum float64) {
	for _, s := range a.Sheets {
		if s.Source == "buy" {
			sum += float64(s.Size[0] * s.Size[1])
		}
	}
	return sum
}
