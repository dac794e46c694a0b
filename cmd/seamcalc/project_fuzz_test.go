package main

import (
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamwright/calc"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/planner"
	"seamwright/scene"
	"seamwright/scene/draft"
)

// fuzzPieces is how many sheets the projects that are fuzzed take at most, about, so that many are tried in a minute.
const fuzzPieces = 60

// patience is how long one project may take on a busy machine before the test says that it does not end.
const patience = 2 * time.Minute

// FuzzProject mutates projects value by value and line by line, and takes what comes of them down the whole road: read,
// plan, words, tables, drawings, a picture. Nothing panics, everything ends, and what is refused is refused with file, line,
// column, cause and remedy, by whichever part of the program.
func FuzzProject(f *testing.F) {
	grounds := fuzzGrounds(f)
	for i := range grounds {
		f.Add(uint8(i), []byte{})
		f.Add(uint8(i), []byte{0, 9, 1, 0, 40, 2, 0, 77, 13})
	}
	f.Fuzz(func(t *testing.T, ground uint8, changes []byte) {
		text := mutated(grounds[int(ground)%len(grounds)], changes)
		defer func() {
			if t.Failed() {
				t.Logf("the project:\n%s", text)
			}
		}()
		d, err := planner.Parse("fuzz.seam.yaml", []byte(text))
		if err != nil {
			requirePlaced(t, err)
			return
		}
		j := d.Job()
		if about(j) > fuzzPieces {
			return
		}
		ctx, cancel := context.WithTimeout(context.Background(), patience)
		defer cancel()
		p, err := calc.Prompt(ctx, j, nil)
		if err != nil {
			requirePlaced(t, d.Placed(err))
			return
		}
		requireTold(t, j, p)
	})
}

// requirePlaced asks of a refusal all that a user needs to mend the file.
func requirePlaced(t *testing.T, err error) {
	t.Helper()
	require.NotErrorIs(t, err, context.DeadlineExceeded, "it does not end")
	var faults planner.Errors
	require.True(t, errors.As(err, &faults), "%v has no place", err)
	for _, e := range faults {
		require.NotEmpty(t, e.File)
		require.Positive(t, e.Line, e.Error())
		require.Positive(t, e.Col, e.Error())
		require.NotEmpty(t, e.Message)
		require.NotEmpty(t, e.Remedy, e.Error())
	}
}

// requireTold writes everything that can be said and drawn of a plan.
func requireTold(t *testing.T, j *job.Job, p *plan.Plan) {
	say := voice("", j)
	for _, build := range []func(teller, *plan.Plan) *table{takeoff, cutlist, schedule, compare, site} {
		for _, format := range []string{"text", "csv", "json"} {
			shown := build(teller{say, j, format != "text"}, p)
			require.NoError(t, shown.write(io.Discard, format))
		}
	}
	require.NoError(t, writeFindings(io.Discard, say, p.Checks))
	require.NoError(t, plan.Write(io.Discard, p, say.Fact))
	const w, h = 320, 240
	sheet := draft.Rect{W: w, H: h}
	page := draft.NewSVG(w, h)
	draft.DrawPlan(page, draft.Paper(), p, j, draft.FitPlan(j, sheet), draft.PlanState{})
	draft.DrawSequence(page, draft.Paper(), draft.SequenceRows(p, nil), j, draft.Pt{}, draft.SequenceState{})
	for _, r := range j.Rooms {
		draft.DrawStrip(page, draft.Paper(), p, j, draft.FitStrip(p, j, r.ID, sheet), draft.StripState{Room: r.ID, Members: true, Screws: true})
	}
	for i := range p.Sheets {
		draft.DrawCutSheet(page, draft.Paper(), &p.Sheets[i], p, j, sheet, draft.CutState{})
	}
	s := scene.Build(p, j, scene.Options{})
	cam, ok := s.Camera("SE", 32, 24)
	require.True(t, ok)
	require.NoError(t, scene.PNG(io.Discard, s, cam, scene.DefaultStyle(), 32, 24))
	require.NoError(t, scene.GLB(io.Discard, s))
}

// about is how many sheets of 3 m² the walls and ceilings of a job are, counted by their bounds.
func about(j *job.Job) (n float64) {
	const sheet = 3
	for i := range j.Rooms {
		r := &j.Rooms[i]
		high := max(r.Height, 0)
		if r.Ceiling != nil {
			high = max(high, r.Ceiling.High)
		}
		layers := 1
		for k := range r.Walls {
			for _, z := range r.Walls[k].Lining {
				layers = max(layers, len(z.Layers))
			}
			p, q := r.Corners[k], r.Corners[(k+1)%len(r.Corners)]
			n += float64(layers) * ((p.X - q.X).Abs() + (p.Y - q.Y).Abs()).Metres() * high.Metres() / sheet
		}
		x, y := r.Corners[0], r.Corners[0]
		for _, c := range r.Corners {
			x.X, x.Y, y.X, y.Y = min(x.X, c.X), min(x.Y, c.Y), max(y.X, c.X), max(y.Y, c.Y)
		}
		n += float64(layers) * (y.X - x.X).Metres() * (y.Y - x.Y).Metres() / sheet
	}
	return n
}

// fuzzGrounds are the projects that mutations begin from: small ones that hold every key, and the samples.
func fuzzGrounds(f *testing.F) []string {
	names, err := filepath.Glob("testdata/ground/*.yaml")
	require.NoError(f, err)
	require.NotEmpty(f, names)
	var grounds []string
	for _, name := range names {
		text, err := os.ReadFile(name)
		require.NoError(f, err)
		grounds = append(grounds, string(text))
	}
	return grounds
}

// values are what a value may become: ordinary ones, ones at the limits, and ones past them.
var values = strings.Split(`0|1|-1|1 mm|0.000001 mm|1/64"|6"|15 7/8"|16"|24"|30"|48"|4'|5' 1"|8'|9' 11"|12'|16'|20'|10 m|300 m|-3'|010/16"|2,4 m|`+
	`x|y|flat|south|north|west|east|open|gyp-12|gyp-16x|ply-18|plank|auto|across|along|staggered|stacked|centred|head|floor|true|false|none|board|jamb|`+
	`door|window|hatch|keep-out|rated|separation|bracing|wet|cost|sheets|joints|imperial|metric|notch|rect|paired|apart|tapered|cut|square|5 %|100 %|`+
	`40 F|-40 C|2027-03-01|[]|{}|~|""|"=1+1"|"a\e[31m"|a/b|shed/south|lean/ceiling|1000000|1e9|NaN`, "|")

// scalars are the values of a file: what stands behind a colon, a bracket, a comma or a dash.
var scalars = regexp.MustCompile(`(?m)[:\[,{-] *([^\s\[\]{},:#][^\[\]{},:#\n]*)`)

// mutated makes one change for every three bytes: two say where, the third says what.
func mutated(text string, changes []byte) string {
	const most = 12
	for n := 0; n+2 < len(changes) && n/3 < most; n += 3 {
		where, what := int(changes[n])<<8|int(changes[n+1]), int(changes[n+2])
		lines := strings.SplitAfter(text, "\n")
		line := where % len(lines)
		switch {
		case what >= 250: // a line is left out
			text = strings.Join(append(lines[:line:line], lines[line+1:]...), "")
		case what >= 244: // a line stands twice
			text = strings.Join(append(lines[:line+1:line+1], lines[line:]...), "")
		default:
			places := scalars.FindAllStringSubmatchIndex(text, -1)
			if len(places) == 0 {
				return text
			}
			at := places[where%len(places)]
			pool := values
			if what >= 160 { // another value of the same file
				pool = pool[:0:0]
				for _, p := range places {
					pool = append(pool, text[p[2]:p[3]])
				}
			}
			if what%4 > 0 { // mostly one of the same kind, so that it may make sense
				pool = alike(pool, text[at[2]:at[3]])
			}
			value := pool[what/4%len(pool)]
			text = text[:at[2]] + value + text[at[3]:]
		}
	}
	return text
}

// alike is the values of a pool that are of the same kind as one: lengths, other numbers, or words; the one itself where
// there are none.
func alike(pool []string, as string) []string {
	kind := func(v string) int {
		if _, err := length.Parse(strings.Trim(v, `"`)); err == nil {
			return 0
		}
		return 1 + strings.IndexFunc(v+"x", func(c rune) bool { return c < '0' || c > '9' })
	}
	var same []string
	for _, v := range pool {
		if min(kind(v), 2) == min(kind(as), 2) {
			same = append(same, v)
		}
	}
	if len(same) == 0 {
		return []string{as}
	}
	return same
}

// TestMutations holds that mutated projects are not all refused: else the fuzzing would try the reader alone. Changes are
// strewn over the file regardless of what stands there, and most values of a project have few others that make sense, so about
// one change in eleven (27 of these 296) is read; fuzzing goes on from those, and a minute of it plans hundreds.
func TestMutations(t *testing.T) {
	text, err := os.ReadFile("testdata/ground/shed.seam.yaml")
	require.NoError(t, err)
	read, changed := 0, 0
	for i := range 300 {
		s := mutated(string(text), []byte{byte(i >> 4), byte(i << 4), byte(i * 37)})
		if s != string(text) {
			changed++
		}
		if _, err := planner.Parse("f", []byte(s)); err == nil {
			read++
		}
	}
	require.Greater(t, changed, 200)
	require.GreaterOrEqual(t, read, 25)
}
