package calc_test

import (
	"fmt"
	"strings"
)

// village writes a project file of rooms, twelve in a row: by turns four walls and six, so five to a room, each with a
// lined ceiling, a door, a window and boxes. No two rooms are alike.
func village(rooms int) []byte {
	var b strings.Builder
	b.WriteString("seamwright: 1\nname: Village\nsite: {rate: 25, people: 2}\nrooms:\n")
	for i := range rooms {
		x, y, w, h := 400*(i%12), 300*(i/12), 180+i*37%97, 150+i*53%71
		corners := [][2]int{{0, 0}, {w, 0}, {w, h}, {0, h}}
		if i%2 == 1 {
			corners = [][2]int{{0, 0}, {w, 0}, {w, h - 60}, {w - 72, h - 60}, {w - 72, h}, {0, h}}
		}
		var places []string
		for _, p := range corners {
			places = append(places, fmt.Sprintf(`[%d", %d"]`, x+p[0], y+p[1]))
		}
		fmt.Fprintf(&b, "  - id: room%d\n    height: 8' 6\"\n    corners: [%s]\n", i, strings.Join(places, ", "))
		b.WriteString("    ceiling: {framing: {spacing: 16\", along: y}, lining: [{product: gyp-12c}]}\n    walls:\n")
		for side := range corners {
			fmt.Fprintf(&b, "      - side: %d\n        id: w%d\n        trim: 3 1/2\"\n        lining: [{product: gyp-12}]\n", side+1, side+1)
			b.WriteString("        boxes: [{at: 20\", up: 16\", width: 2 1/4\", height: 3 3/4\", set_out: 1/2\", kind: outlet}]\n")
			switch side {
			case 0:
				fmt.Fprintf(&b, "        openings: [{id: d, kind: door, at: %d\", width: 38\", height: 82 1/2\"}]\n", 30+i*11%40)
			case len(corners) - 1:
				fmt.Fprintf(&b, "        openings: [{id: w, kind: window, at: %d\", width: 48\", height: 36\", sill: 42\", reveal: 4\", return: board}]\n", 30+i*7%30)
			}
		}
	}
	return []byte(b.String())
}
