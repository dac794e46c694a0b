package board_test

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/survey"
)

// How many rooms of walls whose direction is free, or that have two layers, are compared with the exact solver.
var freeRooms = flag.Int("freerooms", 12, "random rooms of free directions and second layers")

// Studs stand at every foot and a half or two feet less often than that in practice; here they stand so that all courses,
// level and upright, are whole or half sheets wide, which keeps the model's way of cutting exact: pieces of half a sheet's
// width lie two and two beside each other, or across a stretch of the sheet that is half a sheet long; whole ones never
// gain by being turned, since no piece is shorter than 32 in.
const (
	bay       = 24 // between studs
	halfSheet = 24
	fullSheet = 48
)

// freeWall is a wall whose sheets may lie across the studs, in level courses as given, or along them; or one of two layers
// whose sheets lie across.
type freeWall struct {
	width  int
	rows   []int // level courses from the bottom
	second []int // those of the second layer; none: one layer, of free direction
}

func (w *freeWall) height() (h int) {
	for _, r := range w.rows {
		h += r
	}
	return h
}

func drawFreeWall(r *rand.Rand) freeWall {
	w := freeWall{width: bay * (3 + r.IntN(7))}
	k := r.IntN(4)
	w.rows = [][]int{{48, 48}, {24, 48, 48}, {48, 48, 48}, {24, 48}}[k]
	if r.IntN(3) == 0 {
		w.second = [][]int{{24, 48, 24}, {48, 48, 24}, {24, 48, 48, 24}, {48, 24}}[k]
	}
	return w
}

// free is the model of one wall added to a programme: level courses and, where the direction is free, upright ones from
// stud to stud, of which one set is taken. End joints of upright courses stand where package layout looks for them: on a
// grid of 8 in from the floor, and at whole sheets from floor and head.
func (m *programme) free(n int, w *freeWall, sizes []int, least, stagger int) bool {
	m.short = halfSheet
	one := "1"
	if w.second == nil {
		one = fmt.Sprintf("a_%d", n)
		m.binary = append(m.binary, one)
	}
	level := func(layer int, rows []int) [][]string {
		var all [][]string
		for i, h := range rows {
			all = append(all, m.course(fmt.Sprintf("%d_%d_%d", n, layer, i), one, w.width, h, studs(w.width), sizes, least, w.second == nil))
		}
		m.apart(all, stagger, func(i, k int) bool { return k == i-1 })
		return all
	}
	first := level(1, w.rows)
	if w.second != nil {
		for _, over := range level(2, w.second) {
			for _, under := range first {
				m.clear(over, under, bay)
			}
		}
		return true
	}
	in, out := map[int][]string{}, map[int][]string{}
	places := uprightPlaces(w.height(), sizes)
	var strips [][2]int
	var seams [][]string
	for from := 0; from < w.width; from += bay {
		for _, wide := range []int{halfSheet, fullSheet} {
			to := from + wide
			if to > w.width {
				continue
			}
			s := fmt.Sprintf("s_%d_%d_%d", n, from, to)
			m.binary = append(m.binary, s)
			out[from], in[to] = append(out[from], s), append(in[to], s)
			strips = append(strips, [2]int{from, to})
			seams = append(seams, m.course(fmt.Sprintf("%d_u%d_%d", n, from, to), s, w.height(), wide, places, sizes, least, true))
		}
	}
	fmt.Fprintf(&m.rules, " %s + %s = 1\n", strings.Join(out[0], " + "), one)
	for at := bay; at < w.width; at += bay {
		fmt.Fprintf(&m.rules, " %s = 0\n", terms(in[at], out[at]))
	}
	m.apart(seams, stagger, func(i, k int) bool { return strips[i][1] == strips[k][0] || strips[k][1] == strips[i][0] })
	return true
}

func studs(width int) (at []int) {
	for u := bay; u < width; u += bay {
		at = append(at, u)
	}
	return at
}

func uprightPlaces(height int, sizes []int) (at []int) {
	for u := 8; u < height; u += 8 {
		at = append(at, u)
	}
	for _, l := range sizes {
		for k := l; k < height; k += l {
			at = append(at, k, height-k)
		}
	}
	slices.Sort(at)
	return slices.Compact(at)
}

// course adds a course of some length that is laid if the variable one is 1, and gives the variables of its seams by
// place. Its pieces may be turned on the sheet where the direction of the wall is free.
func (m *programme) course(id, one string, long, wide int, places, sizes []int, least int, turn bool) []string {
	at := append(append([]int{0}, places...), long)
	in, out := map[int][]string{}, map[int][]string{}
	kind := 0
	if wide == halfSheet {
		kind = 1
	}
	for a, from := range at {
		for _, to := range at[a+1:] {
			if to-from > slices.Max(sizes) || to-from < least && to-from < long {
				continue
			}
			x := fmt.Sprintf("x_%s_%d_%d", id, from, to)
			m.binary = append(m.binary, x)
			out[from], in[to] = append(out[from], x), append(in[to], x)
			m.wants[kind][to-from] = append(m.wants[kind][to-from], x)
			if kind == 1 && !turn {
				m.asDrawn[to-from] = append(m.asDrawn[to-from], x)
			}
		}
	}
	if one == "1" {
		fmt.Fprintf(&m.rules, " %s = 1\n", strings.Join(out[0], " + "))
	} else {
		fmt.Fprintf(&m.rules, " %s = 0\n", terms(out[0], []string{one}))
	}
	var seams []string
	for _, u := range places {
		if in[u] == nil && out[u] == nil {
			continue
		}
		if in[u] == nil {
			fmt.Fprintf(&m.rules, " %s = 0\n", strings.Join(out[u], " + "))
			continue
		}
		y := fmt.Sprintf("y_%s_%d", id, u)
		fmt.Fprintf(&m.rules, " %s = 0\n", terms(in[u], out[u]))
		fmt.Fprintf(&m.rules, " %s - %s = 0\n", y, strings.Join(in[u], " - "))
		fmt.Fprintf(&m.objective, " + %d %s", wide, y)
		m.binary = append(m.binary, y)
		seams = append(seams, y)
	}
	return seams
}

// apart keeps the seams of courses that adjoin apart.
func (m *programme) apart(seams [][]string, by int, adjoin func(i, k int) bool) {
	for i := range seams {
		for k := range seams[:i] {
			if adjoin(i, k) {
				m.clear(seams[i], seams[k], by)
			}
		}
	}
}

func (m *programme) clear(a, b []string, by int) {
	place := func(y string) (u int) {
		_, err := fmt.Sscanf(y[strings.LastIndexByte(y, '_')+1:], "%d", &u)
		if err != nil {
			panic(err)
		}
		return u
	}
	for _, y := range a {
		for _, z := range b {
			if abs(place(y)-place(z)) < by {
				fmt.Fprintf(&m.rules, " %s + %s <= 1\n", y, z)
			}
		}
	}
}

func freeModel(walls []freeWall, sizes []int, least, stagger int) string {
	m := &programme{wants: [2]map[int][]string{{}, {}}, asDrawn: map[int][]string{}}
	m.objective.WriteString("Minimize\n cost: 10000 z")
	m.whole.WriteString("General\n z\n")
	for n := range walls {
		if !m.free(n, &walls[n], sizes, least, stagger) {
			return ""
		}
	}
	m.turned = halfSheet
	m.flows(slices.Max(sizes), fullSheet/halfSheet)
	return m.objective.String() + "\nSubject To\n" + m.rules.String() + m.whole.String() + "Binary\n " + strings.Join(m.binary, "\n ") + "\nEnd\n"
}

// asSurface states the wall in the program's own words.
func (w *freeWall) asSurface(id string, p *job.Product) *survey.Surface {
	inch := func(v int) length.Length { return length.Inches(int64(v)) }
	s := wall(id, inch(w.width), inch(w.height()), inch(bay), inch(bay), p)
	s.Wall.Framing.Spacing = inch(bay)
	courses := func(z *survey.Zone, rows []int) {
		z.FloorGap, z.Courses = 0, nil
		for _, r := range rows {
			z.Courses = append(z.Courses, inch(r))
		}
	}
	courses(s.Zones[0], w.rows)
	s.Zones[0].Run = job.RunAuto
	if w.second != nil {
		over := *s.Zones[0]
		over.Layer = 2
		s.Zones = append(s.Zones, &over)
		courses(&over, w.second)
		for _, z := range s.Zones {
			z.Run, z.Layers = job.RunAcross, 2
		}
	}
	return s
}

// Rooms whose walls may be lined across the studs or along them, some in two layers, against an exact solver: no bound of
// ours is above it, where ours is proven the sheets are equal, and how often they are otherwise is told.
func TestFreeRoomsAgainstAnExactSolver(t *testing.T) {
	solver := exactSolver(t)
	r := rand.New(rand.NewPCG(7, 4))
	compared, met, proven, upright, layers, joints := 0, 0, 0, 0, 0, 0
	for compared < *freeRooms {
		var walls []freeWall
		for range 1 + r.IntN(3) {
			walls = append(walls, drawFreeWall(r))
		}
		var sizes []int
		for _, l := range []int{96, 108, 120, 144} {
			if r.IntN(2) == 0 {
				sizes = append(sizes, l)
			}
		}
		if sizes == nil {
			continue
		}
		least, stagger := 32+8*r.IntN(2), 16
		p := job.Product{ID: "gyp", Kind: job.Gypsum, Thickness: length.Inch / 2}
		for _, l := range sizes {
			p.Sizes = append(p.Sizes, job.Size{Length: length.Inches(int64(l)), Width: length.Inches(fullSheet), Price: 1600})
		}
		j := newJob(job.AimSheets, p)
		j.Rules.FloorGap, j.Rules.Fit = 0, 0
		j.Rules.Stagger, j.Rules.LeastPiece = length.Inches(int64(stagger)), length.Inches(int64(least))
		var surfaces []*survey.Surface
		for k := range walls {
			surfaces = append(surfaces, walls[k].asSurface(fmt.Sprintf("room/%d", k), &j.Products[0]))
		}
		sheets, butt, ok := reference(t, solver, freeModel(walls, sizes, least, stagger), roomSeconds)
		if !ok {
			continue
		}
		compared++
		a := solve(t, j, surfaces...)
		broken := slices.ContainsFunc(a.Checks, func(c plan.Check) bool { return c.Level == plan.Error })
		assert.LessOrEqual(t, a.Bound, sheets, "bound of %+v, sheets %v, least %d", walls, sizes, least)
		if broken {
			continue // no lawful layout was found: what stands may take fewer
		}
		assert.GreaterOrEqual(t, bought(a), sheets, "the reference is not the optimum of %+v, sheets %v, least %d: %s", walls, sizes, least, describe(a))
		assert.LessOrEqual(t, bought(a), sheets+1, "sheets of %+v, sheets %v, least %d: %s", walls, sizes, least, describe(a))
		for _, z := range a.Zones {
			if z.Run == string(job.RunAlong) {
				upright++
			}
			if z.Layer == 2 {
				layers++
			}
		}
		if a.Bound == bought(a) {
			proven++
		}
		if bought(a) == sheets {
			met++
			if a.Butt.In() < float64(butt)+1e-6 {
				joints++
			}
		}
		if testing.Verbose() {
			t.Logf("%d of %d sheets, bound %d; %.0f of %d in of end joint: %+v of %v", bought(a), sheets, a.Bound, a.Butt.In(), butt, walls, sizes)
		}
	}
	t.Logf("%d rooms compared with %s: %d with the fewest sheets, %d of these with no more end joint; bound met on %d; %d walls upright, %d in two layers",
		compared, filepath.Base(solver), met, joints, proven, upright, layers)
	require.Positive(t, upright*layers)
	require.GreaterOrEqual(t, 10*met, 8*compared)
}
