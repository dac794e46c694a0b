package calc_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc"
)

// box is a room with four walls lined alike, its corners counted in inches.
func box(id string, x, y, w, h int, wall string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "  - id: %s\n    height: 8'\n    corners: [[%d\", %d\"], [%d\", %d\"], [%d\", %d\"], [%d\", %d\"]]\n    walls:\n",
		id, x, y, x+w, y, x+w, y+h, x, y+h)
	for side := range 4 {
		fmt.Fprintf(&b, "      - {side: %d, %s}\n", side+1, wall)
	}
	return b.String()
}

// What a plan depends on besides the walls of a room counts as well: each step changes one such thing, and the plan from
// the memo of the plan before has the bytes of a cold one, both ways. Only a further product, which nothing takes, leaves
// the plan as it is.
func TestWhatStandsBesideCounts(t *testing.T) {
	project := func(head string, rooms ...string) string {
		return "seamwright: 1\nname: Beside\n" + head + "\nrooms:\n" + strings.Join(rooms, "")
	}
	const gypsum, open = "lining: [{product: gyp-12}]", "lining: [{product: open}]"
	const door, late = "openings: [{id: d, kind: door, at: 40\", width: 38\", height: 82\"}]", "pins: [{course: 1, seam: 21\"}]"
	a, b := box("a", 0, 0, 200, 140, gypsum), box("b", 0, 145, 200, 140, gypsum)
	under := func(ceiling string) string {
		return strings.Replace(a, "    walls:", "    ceiling: {"+ceiling+"}\n    walls:", 1)
	}
	const wide = "framing: {spacing: 24\", along: y}, lining: [{product: gyp-12c}]"
	for name, c := range map[string][2]string{
		"what lies on a ceiling": {project("", under(wide)), project("", under(wide+", insulation: unfaced-batt"))},
		"a board's strength":     {project("", under(wide)), project("catalog: [{id: gyp-12c, sag: false}]", under(wide))},
		"another product":        {project("", a), project("catalog: [{id: aaa-1, kind: gypsum, thickness: 1/2\", sizes: [{size: [8', 48\"], price: 9}]}]", a)},
		"the layer over a divided one": {
			project("", box("a", 0, 0, 440, 140, "lining: [{product: [gyp-12, gyp-12]}]")),
			project("", box("a", 0, 0, 440, 140, "lining: [{product: [gyp-12, ply-18]}]"))},
		"a room moved along the partition": {project("", a, b), project("", a, box("b", 8, 145, 200, 140, gypsum))},
		"rooms in another order":           {project("", a, b), project("", b, a)},
		"rooms left open": {
			project("", box("a", 0, 0, 200, 140, open), box("b", 400, 0, 200, 140, open)),
			project("", box("a", 0, 0, 200, 140, open), box("b", 400, 0, 200, 140, open+", insulation: foam-plastic"))},
		"an opening's name": {
			project("rules: {cutouts: rect}", box("a", 0, 0, 200, 140, gypsum+", "+door)),
			project("rules: {cutouts: rect}", box("a", 0, 0, 200, 140, gypsum+", "+strings.Replace(door, "id: d", "id: front", 1)))},
		"the units of a pin's fault": {project("units: imperial", box("a", 0, 0, 200, 140, gypsum+", "+late)), project("units: metric", box("a", 0, 0, 200, 140, gypsum+", "+late))},
		"own time":                   {project("site: {rate: 25}", a), project("site: {rate: 90}", a)},
		"a figure":                   {project("", a), project("figures: {hang-piece: 2}\nsite: {rate: 25}", a)},
		"a price":                    {project("", a), project("catalog: [{id: gyp-12, sizes: [{size: [8', 48\"], price: 99}, {size: [12', 48\"], price: 23}]}]", a)},
		"a piece in stock":           {project("", a), project("stock: [{product: gyp-12, size: [8', 48\"], edges: tapered, count: 2}]", a)},
	} {
		t.Run(name, func(t *testing.T) {
			for _, e := range efforts {
				memo, before := calc.NewMemo(), ""
				for _, src := range append(slices.Clone(c[:]), c[0]) {
					j := loaded(t, []byte(src)).Job()
					cold, err := e.effort(t.Context(), j, nil)
					require.NoError(t, err)
					warm, err := e.effort(t.Context(), j, memo)
					require.NoError(t, err)
					now := string(encoded(t, cold))
					require.True(t, now == string(encoded(t, warm)), e.name)
					require.True(t, now != before || name == "another product", "the step changes nothing")
					before = now
				}
			}
		})
	}
}
