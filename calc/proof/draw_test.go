package proof

import (
	"fmt"
	"math/rand/v2"
	"strings"
)

// drawn writes a random project file: one or two rooms of the forms that people build, with ceilings, openings,
// zones, layers, backing, boxes, curbs and stock. The same number gives the same file.
func drawn(number uint64) string { return draw(number).project(number) }

func draw(number uint64) *drawing {
	return &drawing{rng: rand.New(rand.NewPCG(1, number)), rare: rand.New(rand.NewPCG(2, number)), edges: rand.New(rand.NewPCG(3, number))}
}

// drawing draws from three sources, so that what is rare, and the fixed joints of upright courses, leave the rest of a
// project as it is.
type drawing struct {
	rng, rare, edges *rand.Rand
	room             string // at hand
	exact            bool   // its side at hand is just as long as drawn
	variant          bool   // the project as its alternative would have it, without alternatives
}

func (d *drawing) chance(of int) bool     { return d.rng.IntN(of) == 0 }
func (d *drawing) between(lo, hi int) int { return lo + d.rng.IntN(hi-lo+1) }

func pick[T any](d *drawing, of ...T) T { return of[d.rng.IntN(len(of))] }

func (d *drawing) project(number uint64) string {
	var b strings.Builder
	fmt.Fprintf(&b, "seamwright: 1\nname: Drawn %d\naim: %s\nsite: {tax: %s, people: %d, rate: %d}\nrooms:\n", number,
		pick(d, "cost", "sheets", "joints"), pick(d, "0 %", "8.25 %", "19 %"), d.between(1, 3), pick(d, 0, 0, 25))
	rooms := 1
	if d.chance(6) || d.seldom(8) {
		rooms = 2
	}
	x := 0
	for i := range rooms {
		x = d.roomAt(&b, fmt.Sprintf("r%d", i+1), x) + 5
	}
	fmt.Fprintf(&b, "defaults: {framing: {material: wood, spacing: %s, member: 1 1/2\"}, lining: [{product: gyp-12}]}\n", pick(d, `16"`, `16"`, `24"`))
	if d.chance(3) {
		fmt.Fprintf(&b, "stock:\n  - {product: %s, size: [%d\", %d\"], edges: %s, count: %d}\n", pick(d, "gyp-12", "gyp-16x"), d.between(20, 96), pick(d, 24, 30, 48),
			pick(d, "tapered", "cut"), d.between(1, 3))
	}
	var rules []string
	if d.chance(4) {
		rules = append(rules, fmt.Sprintf("cutouts: %s, floor_gap: %s, stagger: %s, least_piece: %s", pick(d, "rect", "notch"), pick(d, `1/2"`, `3/8"`, `1/4"`),
			pick(d, `16"`, `12"`, `24"`), pick(d, `16"`, `12"`, `20"`)))
	}
	if d.seldom(5) {
		rules = append(rules, "back_blocking: true")
	}
	if d.seldom(2) {
		rules = append(rules, "rakes: paired")
	}
	if len(rules) > 0 {
		fmt.Fprintf(&b, "rules: {%s}\n", strings.Join(rules, ", "))
	}
	if !d.variant {
		fmt.Fprintf(&b, "alternatives: [{name: other, set: [{walls: [%s], lining: %s}]}]\n", changedWall, changedLining)
	}
	b.WriteString(`catalog:
  - {id: gyp-12, edges: tapered, sizes: [{size: [8', 48"], price: 15.50}, {size: [10', 48"], price: 19.80}, {size: [12', 48"], price: 23.80}]}
  - {id: gyp-16x, edges: tapered, sizes: [{size: [8', 48"], price: 18.20}, {size: [12', 48"], price: 27.90}]}
  - {id: ply-18, kerf: 1/8", sizes: [{size: [8', 48"], price: 58.00}]}
  - {id: osb-11, kerf: 1/8", sizes: [{size: [8', 48"], price: 17.00}]}
`)
	return b.String()
}

// roomAt writes one room with its left side at x and returns its right side.
func (d *drawing) roomAt(b *strings.Builder, id string, x int) int {
	d.room = id
	w, h := d.between(72, 150), d.between(72, 140)
	if d.chance(6) {
		w, h = d.between(150, 300), d.between(100, 240)
	}
	a, c := d.between(30, w/2-4), d.between(30, h/2-4)
	var corners [][2]int
	switch d.rng.IntN(6) {
	case 0, 1:
		corners = [][2]int{{0, 0}, {w, 0}, {w, h}, {0, h}}
	case 2: // L
		corners = [][2]int{{0, 0}, {w, 0}, {w, h - c}, {w - a, h - c}, {w - a, h}, {0, h}}
	case 3: // U
		k := min(a, w/3)
		corners = [][2]int{{0, 0}, {w, 0}, {w, h}, {w - k, h}, {w - k, c}, {k, c}, {k, h}, {0, h}}
	case 4: // a corner cut off
		corners = [][2]int{{0, 0}, {w, 0}, {w, h - c}, {w - a, h}, {0, h}}
	case 5: // slanted sides
		corners = [][2]int{{0, 0}, {w, 0}, {w - a/2, h}, {a / 3, h}}
	}
	if d.chance(2) {
		for i, j := 0, len(corners)-1; i < j; i, j = i+1, j-1 {
			corners[i], corners[j] = corners[j], corners[i]
		}
	}
	height := pick(d, 90, 96, 97, 108, 120, d.between(84, 132))
	fraction := pick(d, "", "", " 1/8", " 1/2")
	var points []string
	millimetres := d.chance(5)
	for _, p := range corners {
		if millimetres {
			points = append(points, fmt.Sprintf("[%d mm, %d mm]", 26*(x+p[0]), 26*p[1])) // a little wider, so that openings fit
		} else {
			points = append(points, fmt.Sprintf(`[%d", %d"]`, x+p[0], p[1]))
		}
	}
	fmt.Fprintf(b, "  - id: %s\n    height: %d%s\"\n    corners: [%s]\n", id, height, fraction, strings.Join(points, ", "))
	if !d.chance(3) {
		d.ceiling(b, w, h, x, height, a)
	}
	b.WriteString("    walls:\n")
	n := len(corners)
	for i := range corners {
		p, q := corners[i], corners[(i+1)%n]
		long := max(abs(q[0]-p[0]), abs(q[1]-p[1]))
		d.exact = !millimetres && (q[0] == p[0] || q[1] == p[1])
		d.wall(b, i+1, long, height)
	}
	return x + w
}

func abs(n int) int { return max(n, -n) }

func (d *drawing) ceiling(b *strings.Builder, w, h, x, height, a int) {
	shape := ""
	switch d.rng.IntN(6) {
	case 0:
		shape = fmt.Sprintf(`shape: {ridge: {along: x, at: %d", height: %d"}}, `, d.between(h/3, 2*h/3), height+d.between(6, 80))
	case 1:
		shape = fmt.Sprintf(`shape: {ridge: {along: y, at: %d", height: %d"}}, `, x+d.between(w/3, 2*w/3), height+d.between(6, 80))
	case 2:
		from := d.rng.IntN(4)
		shape = fmt.Sprintf(`shape: {slope: {from: %s, to: %s, height: %d"}}, `, []string{"south", "north", "west", "east"}[from],
			[]string{"north", "south", "east", "west"}[from], height+d.between(4, 60))
	}
	fmt.Fprintf(b, "    ceiling: {%sframing: {spacing: %s, along: %s}, lining: [{product: %s}]", shape, pick(d, `16"`, `24"`), pick(d, "x", "y"),
		pick(d, "gyp-16x", "gyp-16x", "gyp-12", "open"))
	if shape == "" && d.chance(3) {
		fmt.Fprintf(b, `, openings: [{id: hatch, at: [%d", 6"], size: [20", 16"]}]`, x+a/3+8)
	}
	b.WriteString("}\n")
}

func (d *drawing) lining(height int) string {
	run := func() string { return pick(d, "", "", ", run: across", ", run: along") }
	switch d.rng.IntN(8) {
	case 0:
		return "[{product: open}]"
	case 1:
		return fmt.Sprintf(`[{product: ply-18, to: 48"%s}, {product: gyp-12%s}]`, run(), run())
	case 2:
		return `[{product: ply-18, to: 48"}, {product: open}]`
	case 3:
		return fmt.Sprintf("[{product: [gyp-16x, gyp-16x]%s}]", pick(d, "", ", run: across", ", run: [along, across]"))
	case 4:
		return fmt.Sprintf("[{product: gyp-12, pattern: %s}]", pick(d, "stacked", "staggered", "centred"))
	case 5:
		return fmt.Sprintf("[{product: ply-18%s}]", run())
	}
	return fmt.Sprintf("[{product: %s%s}]", pick(d, "gyp-12", "gyp-16x"), run())
}

func (d *drawing) wall(b *strings.Builder, side, long, height int) {
	fmt.Fprintf(b, "      - {side: %d, id: s%d", side, side)
	if d.chance(4) {
		fmt.Fprintf(b, `, framing: {spacing: %s, first: %d"}`, pick(d, `16"`, `24"`), d.between(6, 16))
	}
	if d.chance(6) {
		b.WriteString(`, base: 1 1/2"`)
	}
	if d.chance(2) {
		b.WriteString(`, trim: 3 1/2"`)
	}
	if d.chance(6) {
		fmt.Fprintf(b, `, duty: [%s]`, pick(d, "separation", "rated", "bracing", "exterior"))
	}
	if d.chance(8) {
		fmt.Fprintf(b, `, backing: {product: osb-11, seams: [[%d", 0, %d", %d"]]}`, min(48, long-6), min(48, long-6), height)
	}
	lining := ""
	if !d.chance(3) {
		lining = d.lining(height)
	}
	open := strings.HasPrefix(lining, "[{product: open") // a wall left open has no seams to fix
	if d.variant && fmt.Sprintf("%s/s%d", d.room, side) == changedWall {
		lining = changedLining
	}
	if lining != "" {
		fmt.Fprintf(b, ", lining: %s", lining)
	}
	at, boxes := d.between(6, 40), []string{}
	var openings []string
	for k := 0; at+30 < long-6 && k < 2; k++ {
		wide := d.between(16, 48)
		if at+wide > long-6 {
			break
		}
		switch d.rng.IntN(4) {
		case 0:
			openings = append(openings, fmt.Sprintf(`{id: o%d, kind: door, at: %d", width: %d", height: %d"}`, k, at, wide, d.between(76, 82)))
		case 1:
			sill := d.between(16, 44)
			wrapped := ""
			if wide%2 == 0 {
				wrapped = fmt.Sprintf(`, reveal: %d", return: board`, 2+wide%7)
			}
			openings = append(openings, fmt.Sprintf(`{id: o%d, kind: window, at: %d", width: %d", height: %d", sill: %d"%s}`, k, at, wide, d.between(16, 80-sill), sill, wrapped))
		case 2:
			if d.chance(3) {
				openings = append(openings, fmt.Sprintf(`{id: o%d, kind: keep-out, at: %d", width: %d", height: 80"}`, k, at, wide))
			}
		case 3:
			if wide > 20 {
				boxes = append(boxes, fmt.Sprintf(`{at: %d", up: %d", width: 2 1/4", height: 3 3/4", kind: outlet}`, at+10, pick(d, 16, 44)))
			}
		}
		at += wide + d.between(14, 50)
	}
	if len(openings) > 0 {
		fmt.Fprintf(b, ", openings: [%s]", strings.Join(openings, ", "))
	}
	if len(boxes) > 0 {
		fmt.Fprintf(b, ", boxes: [%s]", strings.Join(boxes, ", "))
	}
	d.rarer(b, long, height, len(openings)+len(boxes) > 0, open)
	b.WriteString("}\n")
}
