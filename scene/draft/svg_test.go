package draft_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"flag"
	"image/color"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamwright/assets/words"
	"seamwright/calc/job"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/scene/draft"
)

var update = flag.Bool("update", false, "write the drawings in testdata and the icons in assets anew")

// read parses a file as XML and gives the texts on it; ids must be unique.
func read(t require.TestingT, file []byte) (texts []string) {
	dec := xml.NewDecoder(bytes.NewReader(file))
	ids := map[string]bool{}
	inText := false
	for {
		tok, err := dec.Token()
		if errors.Is(err, io.EOF) {
			return texts
		}
		require.NoError(t, err)
		switch x := tok.(type) {
		case xml.StartElement:
			inText = x.Name.Local == "text"
			for _, a := range x.Attr {
				if a.Name.Local == "id" {
					require.False(t, ids[a.Value], "id %s twice", a.Value)
					ids[a.Value] = true
				}
				require.NotContains(t, a.Value, "NaN")
				require.NotContains(t, a.Value, "Inf")
			}
		case xml.CharData:
			if inText {
				texts = append(texts, string(x))
			}
		case xml.EndElement:
			inText = false
		}
	}
}

func svg(t require.TestingT, w, h float64, title string, draw func(c draft.Canvas)) []byte {
	s := draft.NewSVG(w, h)
	s.Title = title
	draw(s)
	var b bytes.Buffer
	_, err := s.WriteTo(&b)
	require.NoError(t, err)
	return b.Bytes()
}

// Whatever a name holds, the file stays well formed and says the name.
func TestSVGEscapes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.StringMatching(`[ -~äß€²]{1,30}`).Draw(t, "text")
		file := svg(t, 100, 100, s, func(c draft.Canvas) {
			c.Begin(s)
			c.Begin(s)
			c.Text(draft.Pt{X: 1, Y: 1}, s, draft.Type{Size: draft.Small, Color: color.NRGBA{A: 255}})
			c.End()
			c.End()
		})
		require.Equal(t, s, strings.Join(read(t, file), ""))
	})
}

// The same drawing says the same words on both canvases, and twice the same bytes.
func TestDrawingsAreDeterministic(t *testing.T) {
	j := studio()
	p := answer(j)
	sh, _, _ := cutUp()
	all := func(c draft.Canvas) {
		draft.DrawPlan(c, draft.Paper(), p, j, draft.FitPlan(j, draft.Rect{W: 900, H: 500}), draft.PlanState{})
		draft.DrawStrip(c, draft.Paper(), p, j, draft.FitStrip(p, j, "", draft.Rect{W: 900, H: 500}), draft.StripState{})
		draft.DrawCutSheet(c, draft.Paper(), sh, p, j, draft.Rect{W: 900, H: 500}, draft.CutState{})
		draft.DrawSequence(c, draft.Paper(), draft.SequenceRows(sequence(), nil), j, draft.Pt{}, draft.SequenceState{})
	}
	one := svg(t, 900, 500, "all", all)
	require.Equal(t, one, svg(t, 900, 500, "all", all))
	r := &record{w: 900, h: 500}
	all(r)
	require.Equal(t, r.words(), read(t, one))
	require.Equal(t, drawn(900, 500, 1.5, all).Pix, drawn(900, 500, 1.5, all).Pix)
}

// small is a shed with one window and one door, for goldens that a person can read.
func small() (*job.Job, *plan.Plan) {
	j := studio()
	j.Rooms = j.Rooms[1:]
	r := &j.Rooms[0]
	r.Corners = []shape.Point{{}, {X: 8 * ft}, {X: 8 * ft, Y: 6 * ft}, {Y: 6 * ft}}
	r.Walls[0].Openings = []job.Opening{{ID: "d", Kind: job.Door, At: 2 * ft, Width: 3 * ft, Height: 80 * in}}
	p := &plan.Plan{Surfaces: []plan.Surface{lined("store/front", plan.Wall, 8*ft, 8*ft, j.Product("gyp-12m"), 1, shape.Rect{X: 2 * ft, W: 3 * ft, H: 80 * in})}}
	p.Surfaces[0].Openings[0].Kind = "door"
	return j, p
}

func TestGoldenDrawings(t *testing.T) {
	j, p := small()
	sh, cp, cj := cutUp()
	for name, file := range map[string][]byte{
		"plan": svg(t, 300, 260, "Plan", func(c draft.Canvas) {
			draft.DrawPlan(c, draft.Paper(), nil, j, draft.FitPlan(j, draft.Rect{W: 300, H: 260}), draft.PlanState{NoGrid: true})
		}),
		"strip": svg(t, 300, 260, "Walls", func(c draft.Canvas) {
			draft.DrawStrip(c, draft.Paper(), p, j, draft.FitStrip(p, j, "store", draft.Rect{W: 300, H: 260}), draft.StripState{Room: "store"})
		}),
		"cutsheet": svg(t, 600, 260, "S004", func(c draft.Canvas) {
			draft.DrawCutSheet(c, draft.Paper(), sh, cp, cj, draft.Rect{W: 600, H: 260}, draft.CutState{})
		}),
		"sequence": svg(t, 560, 300, "Sequence", func(c draft.Canvas) {
			draft.DrawSequence(c, draft.Paper(), draft.SequenceRows(sequence(), nil), cj, draft.Pt{}, draft.SequenceState{})
		}),
	} {
		path := filepath.Join("testdata", name+".svg")
		if *update {
			require.NoError(t, os.MkdirAll("testdata", 0o755))
			require.NoError(t, os.WriteFile(path, file, 0o644))
		}
		want, err := os.ReadFile(path)
		require.NoError(t, err)
		old, now := strings.Split(string(want), "\n"), strings.Split(string(file), "\n")
		for i := range now {
			require.Less(t, i, len(old), "%s has more lines now", path)
			require.Equal(t, old[i], now[i], "%s line %d: look at the drawing, then run with -update", path, i+1)
		}
		require.Len(t, now, len(old), "%s has fewer lines now", path)
		read(t, file)
		if tool, err := exec.LookPath("xmllint"); err == nil {
			cmd := exec.Command(tool, "--noout", "--nonet", "-")
			cmd.Stdin = bytes.NewReader(file)
			out, err := cmd.CombinedOutput()
			require.NoError(t, err, string(out))
		} else {
			t.Logf("xmllint is not installed: %s was read by encoding/xml only", path)
		}
	}
}

// A drawing speaks the language that it is asked for, and every phrase of it is in the catalog.
func TestDrawingsSpeakSpanish(t *testing.T) {
	j := studio()
	p := answer(j)
	sh, cp, cj := cutUp()
	say := words.In(words.Spanish, words.Units{Imperial: true})
	r := &record{w: 560, h: 520}
	draft.DrawPlan(r, draft.Paper(), p, j, draft.FitPlan(j, draft.Rect{W: 560, H: 520}), draft.PlanState{Say: say})
	r.has(t, `16" a centros`)
	draft.DrawStrip(r, draft.Paper(), p, j, draft.FitStrip(p, j, "", draft.Rect{W: 900, H: 500}), draft.StripState{Say: say})
	r.has(t, "junta a tope")
	draft.DrawCutSheet(r, draft.Paper(), sh, cp, cj, draft.Rect{W: 900, H: 500}, draft.CutState{Say: say})
	r.has(t, "del extremo izquierdo")
	draft.DrawSequence(r, draft.Paper(), draft.SequenceRows(sequence(), nil), j, draft.Pt{}, draft.SequenceState{Say: say})
	r.has(t, "4 mar")
	for _, x := range r.texts {
		require.NotContains(t, x.s, "⟦")
	}
}
