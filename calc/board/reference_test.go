package board_test

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/money"
	"seamwright/calc/plan"
	"seamwright/calc/survey"
)

// smallWall is one wall in whole inches, as the exact model sees it. Its courses are given, gaps and fits are nothing.
// Heights of pieces are chosen so that cutting a sheet across, ripping one section and crossing the strips again loses
// nothing against any other way of cutting: no two kinds of narrow piece, and no narrow piece goes beside a wide one.
type smallWall struct {
	width, first, pitch int
	rows                []int // heights from the bottom
	sizes               []int // sheet lengths for sale
	across              int   // sheet width
	stagger, least      int
	tapered             bool
	open                bool // there is a hole
	rect                bool // pieces are rectangles: joints stand at the jambs
	x0, x1, y0, y1      int
}

// drawWall draws a wall that keeps to the model.
func drawWall(r *rand.Rand) smallWall {
	for {
		w := smallWall{width: 60 + r.IntN(200), pitch: 16 + 8*r.IntN(2), across: 48 + 6*r.IntN(2), stagger: 16, least: 16 + 8*r.IntN(4)}
		w.first = w.pitch - r.IntN(2)*r.IntN(w.pitch-4)
		for _, l := range []int{96, 108, 120, 144} {
			if r.IntN(2) == 0 {
				w.sizes = append(w.sizes, l)
			}
		}
		if w.sizes == nil {
			continue
		}
		rip := []int{w.across / 4, w.across / 3, w.across / 2, w.across - 14, 8, 10}[r.IntN(6)]
		w.rows = [][]int{{w.across}, {w.across, w.across}, {w.across, w.across}, {rip, w.across}, {rip, w.across, w.across}, {w.across, w.across, rip}}[r.IntN(6)]
		w.tapered = r.IntN(4) == 0
		if !w.tapered && r.IntN(2) == 0 && w.width > 110 {
			w.open, w.rect = true, r.IntN(3) == 0
			w.x0 = 20 + r.IntN(w.width-90)
			w.x1, w.y0, w.y1 = w.x0+30+r.IntN(20), 0, w.height()-[]int{16, 12, 20}[r.IntN(3)]
			if r.IntN(2) == 0 {
				w.y0 = w.across - 6 - r.IntN(8)
			}
			if w.y1 <= w.y0+12 {
				continue
			}
		}
		if w.exact() {
			return w
		}
	}
}

func (w *smallWall) height() (h int) {
	for _, r := range w.rows {
		h += r
	}
	return h
}

// span is a stretch of a row that takes seams of its own.
type span struct{ row, from, to, low, high int }

// spans parts the rows at holes that take up all their height and, for rectangles, at every hole.
func (w *smallWall) spans() (all []span) {
	low := 0
	for i, h := range w.rows {
		high := low + h
		whole := w.open && w.y0 <= low && w.y1 >= high
		switch {
		case !w.open || w.y0 >= high || w.y1 <= low || !whole && !w.rect:
			all = append(all, span{i, 0, w.width, low, high})
		default:
			all = append(all, span{i, 0, w.x0, low, high})
			if w.y0 > low {
				all = append(all, span{i, w.x0, w.x1, low, w.y0})
			}
			if w.y1 < high {
				all = append(all, span{i, w.x0, w.x1, w.y1, high})
			}
			all = append(all, span{i, w.x1, w.width, low, high})
		}
		low = high
	}
	return all
}

// seamAt is the length of a seam at u, and whether it may stand there.
func (w *smallWall) seamAt(s span, u int) (long int, ok bool) {
	long = s.high - s.low
	if w.open && !w.rect && w.y1 >= s.low && w.y0 <= s.high {
		if abs(u-w.x0) < 6 || abs(u-w.x1) < 6 {
			return 0, false
		}
		if u > w.x0 && u < w.x1 {
			long -= max(0, min(w.y1, s.high)-max(w.y0, s.low))
		}
	}
	return long, true
}

// tall is the height of the sheet part that covers a stretch of a span: all of it, but for the hole where the stretch
// lies wholly over or under it.
func (w *smallWall) tall(s span, from, to int) int {
	if w.open && !w.rect && from >= w.x0 && to <= w.x1 && w.y0 < s.high && w.y1 > s.low {
		return s.high - s.low - (min(w.y1, s.high) - max(w.y0, s.low))
	}
	return s.high - s.low
}

func abs(v int) int { return max(v, -v) }

// places are where a span may be parted, its ends among them.
func (w *smallWall) places(s span) []int {
	at := []int{s.from}
	for u := w.first; u < s.to; u += w.pitch {
		if _, ok := w.seamAt(s, u); ok && u > s.from {
			at = append(at, u)
		}
	}
	return append(at, s.to)
}

// exact tells whether the model's way of cutting loses nothing, and holes lie as it takes them.
func (w *smallWall) exact() bool {
	narrow, ok := w.narrow()
	return ok && len(narrow) <= 1
}

// narrow are the heights of pieces that others lie beside on their sheet. Not ok: a hole lies as the model does not
// take it.
func (w *smallWall) narrow() (narrow []int, ok bool) {
	least := w.across
	for _, s := range w.spans() {
		if s.to-s.from < 1 || w.open && (w.y0 > s.low && w.y1 < s.high) {
			return nil, false
		}
		for _, h := range []int{w.tall(s, s.from, s.to), w.tall(s, w.x0, w.x1)} {
			if h > 0 {
				least = min(least, h)
				narrow = append(narrow, h)
			}
		}
	}
	slices.Sort(narrow)
	return slices.DeleteFunc(slices.Compact(narrow), func(h int) bool { return h > w.across-least }), true
}

// drawRoom draws four walls that share their sheets and keep to the model.
func drawRoom(r *rand.Rand) []smallWall {
	walls := []smallWall{drawWall(r)}
	for len(walls) < 4 {
		w := drawWall(r)
		a := &walls[0]
		w.sizes, w.across, w.tapered, w.rect = a.sizes, a.across, a.tapered, a.rect
		w.stagger, w.least = a.stagger, a.least
		w.rows = slices.Clone(a.rows)
		if w.open {
			w.open = !w.tapered && w.y1 < w.height() && w.y0 < w.height()-24
		}
		all, ok := w.narrow()
		for k := range walls {
			more, _ := walls[k].narrow()
			all = append(all, more...)
		}
		slices.Sort(all)
		if ok && len(slices.Compact(all)) <= 1 {
			walls = append(walls, w)
		}
	}
	return walls
}

// model writes walls that share their sheets as a mixed-integer programme: a path of pieces through the lawful places of every span, seams
// of adjoining rows apart by the stagger, and the pieces cut from sheets by flows (Valério de Carvalho 1999) along the
// sheet and along the strips of one ripped section. It makes 10,000 times the sheets plus the inches of end joint least.
func model(walls ...smallWall) string {
	m := &programme{}
	m.objective.WriteString("Minimize\n cost: 10000 z")
	m.whole.WriteString("General\n z\n")
	m.wants = [2]map[int][]string{{}, {}}
	for n := range walls {
		if !m.wall(n, &walls[n]) {
			return ""
		}
	}
	w := &walls[0]
	strips := 0
	if m.short > 0 {
		if strips = w.across / m.short; w.tapered {
			strips = min(strips, 2) // every narrow course has one tapered edge, of which a sheet has two
		}
	}
	m.flows(slices.Max(w.sizes), strips)
	return m.objective.String() + "\nSubject To\n" + m.rules.String() + m.whole.String() + "Binary\n " + strings.Join(m.binary, "\n ") + "\nEnd\n"
}

// programme is a model in the making.
type programme struct {
	objective, rules, whole strings.Builder
	binary                  []string
	wants                   [2]map[int][]string // variables by length: wide pieces, narrow ones
	short                   int                 // height of the narrow pieces
	turned                  int                 // not 0: narrow pieces may also lie across a stretch of so much of the sheet's length
	asDrawn                 map[int][]string    // of these the ones that may not, by length
}

// wall adds one wall; false: no lawful pieces cover it.
func (m *programme) wall(n int, w *smallWall) bool {
	longest := slices.Max(w.sizes)
	spans := w.spans()
	least := w.across
	for _, s := range spans {
		least = min(least, s.high-s.low, max(w.tall(s, w.x0, w.x1), 1))
	}
	seams := make([]map[int]string, len(spans))
	for i, s := range spans {
		id := n*10 + i
		at := w.places(s)
		in, out := map[int][]string{}, map[int][]string{}
		for a, from := range at {
			for _, to := range at[a+1:] {
				if to-from > longest || to-from < w.least && to-from < s.to-s.from {
					continue
				}
				x := fmt.Sprintf("x_%d_%d_%d", id, from, to)
				m.binary = append(m.binary, x)
				out[from], in[to] = append(out[from], x), append(in[to], x)
				kind := 0
				if h := w.tall(s, from, to); h <= w.across-least {
					kind, m.short = 1, h
				}
				m.wants[kind][to-from] = append(m.wants[kind][to-from], x)
			}
		}
		if out[s.from] == nil || in[s.to] == nil {
			return false
		}
		fmt.Fprintf(&m.rules, " %s = 1\n", strings.Join(out[s.from], " + "))
		seams[i] = map[int]string{}
		for _, u := range at[1 : len(at)-1] {
			if in[u] == nil && out[u] == nil {
				continue
			}
			fmt.Fprintf(&m.rules, " %s = 0\n", terms(in[u], out[u]))
			if in[u] != nil {
				long, _ := w.seamAt(s, u)
				fmt.Fprintf(&m.objective, " + %d y_%d_%d", long, id, u)
				fmt.Fprintf(&m.rules, " y_%d_%d%s = 0\n", id, u, " - "+strings.Join(in[u], " - "))
				seams[i][u] = fmt.Sprintf("y_%d_%d", id, u)
				m.binary = append(m.binary, seams[i][u])
			}
		}
	}
	apart := min(w.stagger, w.pitch)
	for i, s := range spans {
		for k, o := range spans[:i] {
			if abs(s.row-o.row) != 1 || s.from >= o.to || o.from >= s.to {
				continue
			}
			for _, u := range sorted(seams[i]) {
				for _, v := range sorted(seams[k]) {
					if abs(u-v) < apart {
						fmt.Fprintf(&m.rules, " %s + %s <= 1\n", seams[i][u], seams[k][v])
					}
				}
			}
		}
	}
	return true
}

// flows writes how the wanted lengths are cut: from a place with so much left, a piece leads to a place with less.
func (m *programme) flows(longest, strips int) {
	balance := [2]map[int][]string{{}, {}} // what leaves less what enters, at most 0
	cut := [2]map[int][]string{{}, {}}
	straight := map[int][]string{} // narrow pieces cut along the sheet
	balance[0][longest] = []string{"- z"}
	reached := []int{longest}
	grow := func(kind int) {
		lengths := sorted(m.wants[kind])
		if kind == 0 && m.turned > 0 {
			for _, l := range sorted(m.wants[1]) {
				if l <= fullSheet {
					lengths = append(lengths, -l) // turned
				}
			}
		}
		slices.SortStableFunc(lengths, func(a, b int) int { return m.along(b) - m.along(a) })
		seen := map[int]bool{}
		for _, r := range reached {
			seen[r] = true
		}
		for _, l := range lengths {
			for r := longest; r >= m.along(l); r-- {
				if !seen[r] {
					continue
				}
				f := fmt.Sprintf("f%d_%d_%d", kind, r, l)
				gives := kind
				if kind == 1 {
					straight[l] = append(straight[l], f)
				}
				if l < 0 {
					f = fmt.Sprintf("t_%d_%d", r, -l)
					gives = 1
				}
				m.whole.WriteString(" " + f + "\n")
				rest := r - m.along(l)
				balance[kind][r] = append(balance[kind][r], "+ "+f)
				balance[kind][rest] = append(balance[kind][rest], "- "+f)
				cut[gives][abs(l)] = append(cut[gives][abs(l)], f)
				seen[rest] = true
			}
		}
		reached = sorted(seen)
	}
	grow(0)
	if len(m.wants[1]) > 0 {
		for _, r := range reached {
			if r == 0 {
				continue
			}
			fmt.Fprintf(&m.whole, " rip_%d\n", r)
			balance[0][r] = append(balance[0][r], fmt.Sprintf("+ rip_%d", r))
			balance[1][r] = append(balance[1][r], fmt.Sprintf("- %d rip_%d", strips, r))
		}
		grow(1)
	}
	for _, l := range sorted(m.asDrawn) {
		fmt.Fprintf(&m.rules, " %s >= 0\n", terms(straight[l], m.asDrawn[l]))
	}
	for kind := range balance {
		for _, r := range sorted(balance[kind]) {
			if r > 0 {
				fmt.Fprintf(&m.rules, " %s <= 0\n", strings.Join(balance[kind][r], " "))
			}
		}
		for _, l := range sorted(m.wants[kind]) {
			fmt.Fprintf(&m.rules, " %s >= 0\n", terms(cut[kind][l], m.wants[kind][l]))
		}
	}
}

// along is what a piece takes up of its sheet's length; one turned, whose length stands with a minus, its width.
func (m *programme) along(l int) int {
	if l < 0 {
		return m.turned
	}
	return l
}

// How long the exact solver may take over a wall, which it is to solve, and over a room, which is left out where it
// takes longer.
const (
	wallSeconds = "3600"
	roomSeconds = "20"
)

// terms are sums with a minus before the second.
func terms(plus, minus []string) string {
	s := strings.Join(plus, " + ")
	for _, m := range minus {
		s += " - " + m
	}
	return s
}

func sorted[V any](m map[int]V) []int {
	var ks []int
	for k := range m {
		ks = append(ks, k)
	}
	slices.Sort(ks)
	return ks
}

// reference solves a model with CBC or GLPK. ok is false where the model has no answer, or none is proven in time.
func reference(t *testing.T, solver, model, seconds string) (sheets, butt int, ok bool) {
	dir := t.TempDir()
	in, out := filepath.Join(dir, "wall.lp"), filepath.Join(dir, "wall.txt")
	require.NoError(t, os.WriteFile(in, []byte(model), 0o600))
	args := []string{in, "sec", seconds, "solve", "solution", out}
	if strings.HasSuffix(solver, "glpsol") {
		args = []string{"--lp", in, "--tmlim", seconds, "-o", out}
	}
	said, err := exec.Command(solver, args...).CombinedOutput()
	require.NoError(t, err, string(said))
	text, err := os.ReadFile(out)
	require.NoError(t, err, string(said))
	value, found := 0.0, false
	for _, line := range strings.Split(string(text), "\n") {
		words := strings.Fields(line)
		if len(words) > 0 && (strings.HasPrefix(line, "Infeasible") || strings.HasPrefix(line, "Integer infeasible")) || strings.HasPrefix(line, "Stopped") || strings.Contains(line, "UNDEFINED") || strings.Contains(line, "INTEGER EMPTY") {
			return 0, 0, false
		}
		var err error
		switch {
		case strings.HasPrefix(line, "Optimal - objective value"):
			value, err = strconv.ParseFloat(words[4], 64)
		case strings.HasPrefix(line, "Objective:") && strings.Contains(string(text), "INTEGER OPTIMAL"):
			value, err = strconv.ParseFloat(words[3], 64)
		default:
			continue
		}
		require.NoError(t, err, line)
		found = true
		break
	}
	require.True(t, found, "no optimum: %s", said)
	v := int(value + 0.5)
	return v / 10000, v % 10000, true
}

// exactSolver is where an exact solver is installed.
func exactSolver(t *testing.T) string {
	for _, name := range []string{"cbc", "glpsol"} {
		if at, err := exec.LookPath(name); err == nil {
			return at
		}
	}
	t.Skip("neither cbc nor glpsol is installed: nothing is compared with an exact solver")
	return ""
}

// How many random cases are compared with the exact solver.
var (
	walls = flag.Int("walls", 200, "random small walls")
	rooms = flag.Int("rooms", 4, "random rooms")
)

// asJob states the wall in the program's own words.
func (w *smallWall) asJob() (*job.Job, *survey.Surface) {
	p := job.Product{ID: "gyp", Kind: job.Gypsum, Tapered: w.tapered}
	for _, l := range w.sizes {
		p.Sizes = append(p.Sizes, job.Size{Length: length.Inches(int64(l)), Width: length.Inches(int64(w.across)), Price: money.Money(16 * l)})
	}
	j := newJob(job.AimSheets, p)
	inch := func(v int) length.Length { return length.Inches(int64(v)) }
	j.Rules.FloorGap, j.Rules.Fit = 0, 0
	j.Rules.Stagger, j.Rules.LeastPiece = inch(w.stagger), inch(w.least)
	s := wall("room/south", inch(w.width), inch(w.height()), inch(w.pitch), inch(w.first), &j.Products[0])
	s.Wall.Framing.Spacing = inch(w.pitch)
	s.Zones[0].FloorGap = 0
	for _, r := range w.rows {
		s.Zones[0].Courses = append(s.Zones[0].Courses, inch(r))
	}
	if w.open {
		if w.rect {
			j.Rules.Cutouts = job.RectOnly
		}
		opened(s, inch(w.x0), inch(w.y0), inch(w.x1-w.x0), inch(w.y1-w.y0))
	}
	return j, s
}

// Random small walls against an exact solver: as many sheets, as much end joint at that number, and a bound that is
// never above. The model is that of strip tiling with its own code throughout.
func TestSmallWallsAgainstAnExactSolver(t *testing.T) {
	solver := exactSolver(t)
	r := rand.New(rand.NewPCG(3, 1))
	compared, proven, unlawful := 0, 0, 0
	var ours, theirs time.Duration
	for range *walls {
		w := drawWall(r)
		j, s := w.asJob()
		start := time.Now()
		a := solve(t, j, s)
		ours += time.Since(start)
		start = time.Now()
		sheets, butt, ok := 0, 0, false
		if m := model(w); m != "" {
			sheets, butt, ok = reference(t, solver, m, wallSeconds)
		}
		theirs += time.Since(start)
		if !ok {
			unlawful++
			assert.True(t, slices.ContainsFunc(a.Checks, func(c plan.Check) bool { return c.Level == plan.Error }), "no lawful layout, but none of the rules is reported: %+v", w)
			continue
		}
		compared++
		assert.Equal(t, sheets, bought(a), "sheets of %+v: %s", w, describe(a))
		assert.InDelta(t, butt, a.Butt.In(), 1e-6, "end joint of %+v: %s", w, describe(a))
		assert.LessOrEqual(t, a.Bound, sheets, "bound of %+v", w)
		if a.Bound == sheets {
			proven++
		}
	}
	t.Logf("%d walls compared with %s, all equal; %d have no lawful layout; bound met on %d; %v against %v: %.0f times as fast", compared, filepath.Base(solver), unlawful, proven,
		ours.Round(time.Millisecond), theirs.Round(time.Millisecond), theirs.Seconds()/ours.Seconds())
	require.GreaterOrEqual(t, compared, *walls*5/6)
}

// Random rooms of four walls against an exact solver: no bound of ours is above it, and how near the sheets and end
// joints come is told.
func TestRoomsAgainstAnExactSolver(t *testing.T) {
	solver := exactSolver(t)
	r := rand.New(rand.NewPCG(5, 2))
	compared, sheetsMet, jointsMet, proven := 0, 0, 0, 0
	var ours time.Duration
	for range *rooms {
		walls := drawRoom(r)
		j, first := walls[0].asJob()
		surfaces := []*survey.Surface{first}
		for k := range walls[1:] {
			_, s := walls[k+1].asJob()
			s.ID = fmt.Sprintf("room/%d", k+1)
			s.Zones[0].Product = &j.Products[0]
			surfaces = append(surfaces, s)
		}
		start := time.Now()
		a := solve(t, j, surfaces...)
		took := time.Since(start)
		m := model(walls...)
		if m == "" {
			continue
		}
		sheets, butt, ok := reference(t, solver, m, roomSeconds)
		if !ok {
			continue
		}
		ours += took
		compared++
		assert.LessOrEqual(t, a.Bound, sheets, "bound of %+v", walls)
		assert.GreaterOrEqual(t, bought(a), sheets, "the reference is not the optimum of %+v: %s", walls, describe(a))
		assert.LessOrEqual(t, bought(a), sheets+1, "sheets of %+v: %s", walls, describe(a))
		if a.Bound == sheets {
			proven++
		}
		if bought(a) == sheets {
			sheetsMet++
			assert.GreaterOrEqual(t, a.Butt.In(), float64(butt)-1e-6, "the reference is not the optimum of %+v: %s", walls, describe(a))
			if a.Butt.In() < float64(butt)+1e-6 {
				jointsMet++
			}
		}
		if testing.Verbose() {
			t.Logf("%d of %d sheets, bound %d; %.0f of %d in of end joint; %v", bought(a), sheets, a.Bound, a.Butt.In(), butt, took)
		}
	}
	t.Logf("%d rooms compared with %s: %d with the fewest sheets, %d of these with the least end joint; bound met on %d; %v a room", compared, filepath.Base(solver),
		sheetsMet, jointsMet, proven, ours/time.Duration(max(1, compared)))
}
