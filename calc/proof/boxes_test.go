package proof

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// boxed is a room with one lined wall, 12 ft by 97 1/8 in, and the boxes on it.
func boxed(lining string, boxes ...string) string {
	return "seamwright: 1\nrooms:\n  - id: r\n    height: 97 1/8\"\n    corners: [[0, 0], [12', 0], [12', 8'], [0, 8']]\n    walls:\n" +
		"      - {side: 1, id: south, trim: 3 1/2\", lining: [" + lining + "], boxes: [" + strings.Join(boxes, ", ") + "]}\n" +
		"      - {side: 2, id: east, lining: [{product: open}]}\n      - {side: 3, id: north, lining: [{product: open}]}\n" +
		"      - {side: 4, id: west, lining: [{product: open}]}\n" +
		"defaults: {framing: {spacing: 16\", member: 1 1/2\"}}\n"
}

func panelboard(at, up, wide, high string) string {
	return fmt.Sprintf(`{at: %s, up: %s, width: %s, height: %s, set_out: 1/2", kind: panel}`, at, up, wide, high)
}

// boardCovers plans a wall and lists what its panels and the sheets that they are cut from get wrong, and the rules that the
// plan says are broken on it.
func boardCovers(t require.TestingT, src string) (wrong []string, a *answer) {
	out, err := planned(src)
	require.NoError(t, err, src)
	a, err = readAnswer(out)
	require.NoError(t, err)
	return faults([]byte(src), out), a
}

// Whatever its size and place, a box is cut out of every piece that it meets and board goes on beside it.
func TestBoxesOfAnySize(t *testing.T) {
	const (
		plain    = `{product: gyp-12, run: across}`
		upright  = `{product: gyp-12, run: along}`
		wainscot = `{product: ply-18, to: 48", courses: [24", 24"]}, {product: gyp-12, courses: [24", 24"]}`
		layers   = `{product: [gyp-12, gyp-12]}`
	)
	for name, src := range map[string]string{
		"a panelboard above a wainscot, taller than its course": boxed(wainscot, panelboard(`56"`, `62 1/2"`, `14 1/2"`, `28"`)),
		"a panelboard over two courses":                         boxed(plain, panelboard(`56"`, `56"`, `14 1/2"`, `28"`)),
		"a panelboard taller than a sheet is wide":              boxed(plain, panelboard(`56"`, `50"`, `14 1/2"`, `62"`)),
		"wider than a bay, at the floor":                        boxed(plain, panelboard(`70"`, `10"`, `40"`, `20"`)),
		"wider than an upright sheet":                           boxed(upright, panelboard(`70"`, `50"`, `60"`, `20"`)),
		"in the corner under the ceiling":                       boxed(plain, panelboard(`8"`, `85"`, `16"`, `24"`)),
		"two side by side between studs":                        boxed(plain, panelboard(`56"`, `60"`, `14 1/2"`, `30"`), panelboard(`72"`, `60"`, `14 1/2"`, `30"`)),
		"centred on a stud":                                     boxed(upright, panelboard(`48"`, `48"`, `4"`, `4"`)),
		"on the seam between two courses":                       boxed(plain, panelboard(`56"`, `49"`, `2 1/4"`, `3 3/4"`)),
		"on the line of a wainscot":                             boxed(wainscot, panelboard(`56"`, `48"`, `14 1/2"`, `28"`)),
		"through two layers":                                    boxed(layers, panelboard(`56"`, `62"`, `14 1/2"`, `28"`)),
		"from the base up to the ceiling":                       boxed(plain, panelboard(`56"`, `52"`, `14 1/2"`, `88"`)),
	} {
		t.Run(name, func(t *testing.T) {
			wrong, a := boardCovers(t, src)
			require.Empty(t, wrong)
			for _, c := range a.Checks {
				require.NotEqual(t, "cover", c.Rule)
			}
		})
	}
}

// A course that a box parts hangs in two pieces, each with its place on a sheet: without one of them the proof speaks up.
func TestAPartedCourseHasBothPieces(t *testing.T) {
	src := boxed(`{product: gyp-12, to: 48"}, {product: gyp-12, courses: [24", 24"]}`, panelboard(`56"`, `60"`, `14 1/2"`, `28"`))
	out, err := planned(src)
	require.NoError(t, err)
	require.Empty(t, faults([]byte(src), out))
	var tight bytes.Buffer
	require.NoError(t, json.Compact(&tight, out))
	out = tight.Bytes()
	a, err := readAnswer(out)
	require.NoError(t, err)
	beside := map[bool]string{}
	for i := range a.Surfaces {
		for k := range a.Surfaces[i].Zones {
			for _, n := range a.Surfaces[i].Zones[k].Panels {
				if x0, _, x1, _ := n.Outline.poly().bounds(); a.Surfaces[i].Zones[k].Zone == 2 && n.Course == 1 {
					beside[(x0+x1)/2 > 56*25.4] = n.ID
				}
			}
		}
	}
	require.Len(t, beside, 2, "the box reaches from zone line to over the course")
	for _, id := range beside {
		gone := dropPanel(t, string(out), id)
		found := strings.Join(faults([]byte(src), []byte(gone)), "\n")
		require.Contains(t, found, "cover: r/south zone 2")
	}
}

// dropPanel takes a panel out of a plan's JSON.
func dropPanel(t *testing.T, plan, id string) string {
	from := strings.Index(plan, `{"id":"`+id+`"`)
	require.GreaterOrEqual(t, from, 0)
	depth, to := 0, from
	for ; to < len(plan); to++ {
		switch plan[to] {
		case '{':
			depth++
		case '}':
			depth--
		}
		if depth == 0 {
			break
		}
	}
	rest := strings.TrimPrefix(plan[to+1:], ",")
	return strings.TrimSuffix(plan[:from], ",") + map[bool]string{true: ",", false: ""}[plan[from-1] == ',' && rest[0] != ']'] + rest
}

// Boxes drawn anywhere on the wall, small and large, over each other too: nothing stays uncovered, nothing is cut twice.
func TestDrawnBoxes(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		n := rapid.IntRange(1, 3).Draw(rt, "boxes")
		var boxes []string
		for range n {
			wide, high := rapid.IntRange(2, 40).Draw(rt, "wide"), rapid.IntRange(2, 60).Draw(rt, "high")
			at := rapid.IntRange((wide+1)/2+1, 143-(wide+1)/2).Draw(rt, "at")
			up := rapid.IntRange((high+1)/2+4, 95-(high+1)/2).Draw(rt, "up") // above the base trim
			boxes = append(boxes, panelboard(fmt.Sprintf(`%d"`, at), fmt.Sprintf(`%d"`, up), fmt.Sprintf(`%d"`, wide), fmt.Sprintf(`%d"`, high)))
		}
		lining := rapid.SampledFrom([]string{`{product: gyp-12}`, `{product: gyp-12, run: along}`, `{product: ply-18, to: 48"}, {product: gyp-12}`}).Draw(rt, "lining")
		src := boxed(lining, boxes...)
		if wrong, _ := boardCovers(rt, src); len(wrong) > 0 {
			rt.Fatalf("%s\n%s", strings.Join(wrong, "\n"), src)
		}
	})
}
