package proof

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// epsSlant is how far slants may be off, which are rounded on the way.
const epsSlant = 0.2

// turnedBy turns a panel's outline in its plane by quarters, clockwise, never mirrored, and moves its bounds to the origin.
func (p poly) turnedBy(quarters int) poly {
	out := slices.Clone(p)
	for ; quarters > 0; quarters-- {
		for i, q := range out {
			out[i] = pt{q.y, -q.x}
		}
	}
	x0, y0, _, _ := out.bounds()
	for i := range out {
		out[i].x, out[i].y = out[i].x-x0, out[i].y-y0
	}
	return out
}

// pair: two raked pieces share a rectangle, where the file allows it. Each lies in its corner, turned in its plane alone, on
// its own side of a slanted cut that runs from side to side and follows the straight ones; a blade's width is between them.
// Their edges are those of the sheet where the rectangle lies at the sheet's edge.
func (p *proof) pair(s *sheet, q part, near, far placed, tapered bool) {
	k := q.Pair
	r := boxOf(q.Rect)
	if p.asked.Rules.Rakes != "paired" {
		p.fail("pair", "%s and %s share a rectangle, which the file does not ask for", near.ID, far.ID)
	}
	a, b := pt{float64(k.From[0]), float64(k.From[1])}, pt{float64(k.To[0]), float64(k.To[1])}
	flat := near2(a.x, r.x) && near2(b.x, r.x+r.w) && a.y >= r.y-epsSlant && b.y <= r.y+r.h+epsSlant
	steep := near2(a.y, r.y) && near2(b.y, r.y+r.h) && a.x >= r.x-epsSlant && b.x <= r.x+r.w+epsSlant
	if !flat && !steep || k.Order <= len(s.Cuts) {
		p.fail("pair", "%s: cut %d from %v to %v does not part the rectangle of %s", s.ID, k.Order, k.From, k.To, near.ID)
		return
	}
	want := [2]float64{a.y - r.y, b.y - r.y}
	if !flat {
		want = [2]float64{a.x - r.x, b.x - r.x}
	}
	if !near2(float64(k.Measures[0]), want[0]) || !near2(float64(k.Measures[1]), want[1]) {
		p.fail("pair", "%s: the slanted cut is measured %v, it lies at %.2f", s.ID, k.Measures, want)
	}
	long := math.Hypot(b.x-a.x, b.y-a.y)
	beyond := func(q pt) float64 {
		d := ((b.x-a.x)*(q.y-a.y) - (b.y-a.y)*(q.x-a.x)) / long
		if !flat {
			return -d
		}
		return d
	}
	for i, n := range []placed{near, far} {
		quarters := 0
		if turned := [2]bool{q.Turned, k.Turned}[i]; turned {
			quarters++
		}
		if k.HalfRound[i] {
			quarters += 2
		}
		lie := n.Outline.poly().turnedBy(quarters)
		_, _, w, h := lie.bounds()
		if i == 1 {
			for c := range lie {
				lie[c].x, lie[c].y = lie[c].x+r.w-w, lie[c].y+r.h-h
			}
		}
		least, most := math.Inf(1), math.Inf(-1)
		for _, c := range lie {
			d := beyond(pt{c.x + r.x, c.y + r.y})
			least, most = math.Min(least, d), math.Max(most, d)
			if c.x < -epsSlant || c.y < -epsSlant || c.x > r.w+epsSlant || c.y > r.h+epsSlant {
				p.fail("pair", "%s leaves its rectangle on %s", n.ID, s.ID)
			}
		}
		if i == 0 && math.Abs(most) > epsSlant {
			p.fail("pair", "%s ends %.2f from the slanted cut of %s", n.ID, most, s.ID)
		}
		if i == 1 && (least < float64(s.Kerf)-epsSlant || least > float64(s.Kerf)+2*epsSlant) {
			p.fail("pair", "%s begins %.2f behind the slanted cut of %s, the blade takes %v", n.ID, least, s.ID, s.Kerf)
		}
		p.halfEdges(s, n, r, i == 0, flat, quarters, tapered)
	}
}

func near2(a, b float64) bool { return math.Abs(a-b) <= epsSlant }

// halfEdges: a side of a half that lies on the side of the rectangle is an edge of the sheet where that side is one; all
// others are cut.
func (p *proof) halfEdges(s *sheet, n placed, r box, isNear, flat bool, quarters int, tapered bool) {
	long := "square"
	if tapered {
		long = "tapered"
	}
	if s.Source == "stock" && !tapered && isGypsum(s.Product) {
		long = "cut"
	}
	// sides of the rectangle: lower, right, upper, left
	at := [4]bool{near(r.y, 0, epsLength), near(r.x+r.w, float64(s.Size[0]), epsLength), near(r.y+r.h, float64(s.Size[1]), epsLength), near(r.x, 0, epsLength)}
	factory := [4]string{long, "end", long, "end"}
	slant := map[[2]bool]int{{true, true}: 2, {true, false}: 1, {false, true}: 0, {false, false}: 3}[[2]bool{isNear, flat}]
	for side := range 4 {
		// Clockwise by a quarter, the panel's right side comes to lie below.
		mine := (side + quarters) % 4
		got := n.Edges[mine]
		switch {
		case side == slant || !at[side]:
			if got != "cut" && !p.slanted(n, mine) {
				p.fail("edges", "side %d of %s is %s, but it is cut on %s", mine, n.ID, got, s.ID)
			}
		case got != factory[side] && (s.Source == "buy" || got != "cut") && !p.slanted(n, mine):
			p.fail("edges", "side %d of %s is %s, but lies at the %s edge of %s", mine, n.ID, got, factory[side], s.ID)
		}
	}
}

// shed is a room whose two raked walls rise the same way as seen from inside, of a board in one length.
func shed(r *rand.Rand) string {
	wide := []int{96, 96, 97, 110, 144}[r.IntN(5)]
	low, rise := 30+r.IntN(50), 24+r.IntN(50)
	product, kerf := "gyp-12", ", edges: tapered"
	if r.IntN(3) == 0 {
		product, kerf = "ply-18", ", kerf: 1/8\""
	}
	return fmt.Sprintf(`seamwright: 1
name: Shed
aim: sheets
site: {tax: 0 %%, people: 2}
rooms:
  - id: r
    height: %d"
    corners: [[0, 0], [%d", 0], [%d", 100"], [0, 100"]]
    walls:
      - {side: 1, id: s1, top: [[0, %d"], [%d", %d"]], lining: [{product: %s, run: %s}]}
      - {side: 2, id: s2, lining: [{product: open}]}
      - {side: 3, id: s3, top: [[0, %d"], [%d", %d"]], lining: [{product: %s, run: %s}]}
      - {side: 4, id: s4, lining: [{product: open}]}
defaults: {framing: {spacing: 16", member: 1 1/2"}, lining: [{product: open}]}
rules: {rakes: paired, least_piece: %d"}
catalog:
  - {id: %s%s, sizes: [{size: [%s, 48"], price: 15.00}]}
`, low+rise, wide, wide, low, wide, low+rise, product, pick2(r, "along", "across"), low, wide, low+rise, product, pick2(r, "along", "along", "across"),
		16+r.IntN(2)*40, product, kerf, pick2(r, "8'", "10'", "12'"))
}

func pick2[T any](r *rand.Rand, of ...T) T { return of[r.IntN(len(of))] }

// Sheds whose raked pieces may share rectangles hold against their files, and what is wrong with a pair is noticed.
func TestPairedRakes(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 1))
	pairs, spoilt := 0, 0
	for n := 0; n < 60; n++ {
		src := shed(r)
		out, err := planned(src)
		require.NoError(t, err, src)
		require.Empty(t, faults([]byte(src), out), src)
		a, err := readAnswer(out)
		require.NoError(t, err)
		mine := 0
		for _, s := range a.Sheets {
			for _, q := range s.Parts {
				if q.Pair != nil {
					mine++
				}
			}
		}
		if pairs += mine; mine == 0 || spoilt > 2 {
			continue
		}
		spoilt++
		for what, spoil := range map[string]func(part, pair map[string]any) string{
			"flipped over":        func(_, k map[string]any) string { k["half_round"] = []bool{true, true}; return "pair" },
			"turned a quarter":    func(_, k map[string]any) string { k["turned"] = !k["turned"].(bool); return "pair" },
			"measured elsewhere":  func(_, k map[string]any) string { k["measures"] = []int{1, 2}; return "pair" },
			"cut before the rest": func(_, k map[string]any) string { k["order"] = 0; return "pair" },
			"a half that is lost": func(q, _ map[string]any) string { delete(q, "pair"); return "part" },
		} {
			require.True(t, spoiltIs(t, src, out, spoil), "not noticed: %s", what)
		}
		apart := strings.Replace(src, "rakes: paired", "rakes: apart", 1)
		require.Contains(t, strings.Join(faults([]byte(apart), out), "\n"), "pair: ", "a pair that is not asked for")
	}
	t.Logf("%d pairs", pairs)
	require.Positive(t, pairs)
	require.Positive(t, spoilt)
}

// spoiltIs spoils the first pair of a plan and tells whether the check that it names notices.
func spoiltIs(t *testing.T, src string, out []byte, spoil func(part, pair map[string]any) string) bool {
	var tree map[string]any
	require.NoError(t, json.Unmarshal(out, &tree))
	for _, s := range tree["sheets"].([]any) {
		for _, q := range s.(map[string]any)["parts"].([]any) {
			part := q.(map[string]any)
			if part["pair"] == nil {
				continue
			}
			check := spoil(part, part["pair"].(map[string]any))
			bad, err := json.Marshal(tree)
			require.NoError(t, err)
			return slices.ContainsFunc(faults([]byte(src), bad), func(f string) bool { return strings.HasPrefix(f, check+": ") })
		}
	}
	return false
}
