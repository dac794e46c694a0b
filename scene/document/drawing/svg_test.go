package drawing_test

import (
	"bytes"
	"context"
	"image/png"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/assets"
	"seamwright/assets/words"
	"seamwright/calc/job"
	"seamwright/calc/plan"
	"seamwright/scene/document/ask"
	"seamwright/scene/document/drawing"
	"seamwright/scene/document/internal/reader"
)

func svg(t *testing.T, r *ask.Request, parts ...string) []byte {
	r.Parts = parts
	var b bytes.Buffer
	require.NoError(t, drawing.SVG(context.Background(), &b, r))
	return b.Bytes()
}

// xpath asks xmllint for a place in the file.
func xpath(t *testing.T, file []byte, path string) string {
	return strings.TrimSpace(reader.Run(t, file, "xmllint", "--nonet", "--xpath", path, "-"))
}

// millimetres of the width of the first path in a group, on paper.
func wide(t *testing.T, file []byte, group string) float64 {
	number := func(s string) float64 {
		v, err := strconv.ParseFloat(strings.TrimSuffix(s, "mm"), 64)
		require.NoError(t, err, s)
		return v
	}
	box := strings.Fields(xpath(t, file, "string(/*/@viewBox)"))
	perUnit := number(xpath(t, file, "string(/*/@width)")) / number(box[2])
	require.InDelta(t, perUnit, number(xpath(t, file, "string(/*/@height)"))/number(box[3]), 1e-6, "one scale both ways")
	path := xpath(t, file, `string(//*[@id="`+group+`"]/*[name()="path"][1]/@d)`)
	lo, hi := 1e9, -1e9
	for _, at := range strings.FieldsFunc(path, func(c rune) bool { return c == 'M' || c == 'L' || c == 'Z' }) {
		x := number(strings.Fields(at)[0])
		lo, hi = min(lo, x), max(hi, x)
	}
	return (hi - lo) * perUnit
}

// Every wall and ceiling of the samples, read back by xmllint, is as wide on paper as its stated scale says; and a wall of
// 24 ft at a quarter inch to the foot is 6 in.
func TestScaleIsReadBack(t *testing.T) {
	ratio := map[string]float64{`1/8"`: 96, `3/16"`: 64, `1/4"`: 48, `3/8"`: 32, `1/2"`: 24, `3/4"`: 16, `1"`: 12, "1:10": 10, "1:20": 20, "1:25": 25, "1:50": 50, "1:100": 100}
	for _, sample := range [][]byte{assets.KilnYardStudio, assets.LaneWorkshop} {
		r := request(t, sample)
		for i := range r.Plan.Surfaces {
			s := &r.Plan.Surfaces[i]
			file := svg(t, r, s.ID)
			stated := xpath(t, file, `string(//*[@id="title"]/*[name()="text"][2])`)
			_, scale, _ := strings.Cut(stated, "scale ")
			scale, _, _ = strings.Cut(scale, " = ")
			require.Contains(t, ratio, scale, stated)
			require.InDelta(t, s.Outline.Bounds().W.MM(), wide(t, file, "outline")*ratio[scale], 0.002*ratio[scale], "%s at %s: to 0.002 mm on paper", s.ID, scale)
		}
	}
	r := request(t, assets.KilnYardStudio)
	file := svg(t, r, "studio/south")
	require.Contains(t, string(file), "scale 1/4&#34; = 1&#39;-0&#34;")
	require.InDelta(t, 6*25.4, wide(t, file, "outline"), 0.2)
}

// Layers are groups with an id each, and what is written is text. rsvg-convert renders the page at its size.
func TestDrawingsReadByOthers(t *testing.T) {
	r := request(t, assets.KilnYardStudio)
	for part, groups := range map[string][]string{
		"plan":                 {"plan", "framing", "sheets", "openings", "dimensions", "words", "title"},
		"studio/south":         {"sheets", "members", "openings", "joints", "boxes", "outline", "floor", "words", "dimensions", "notes", "legend", "title"},
		"studio/ceiling-south": {"sheets", "members", "joints", "boxes", "outline", "words", "dimensions", "legend", "title"},
		"S009":                 {"sheet-S009", "parts", "cuts", "dimensions", "list", "title"},
	} {
		file := svg(t, r, part)
		for _, id := range groups {
			require.Equal(t, "1", xpath(t, file, `count(//*[@id="`+id+`"])`), "%s of %s", id, part)
		}
		picture := reader.Run(t, file, "rsvg-convert", "--dpi-x", "96", "--dpi-y", "96")
		img, err := png.DecodeConfig(strings.NewReader(picture))
		require.NoError(t, err)
		require.Equal(t, []int{1056, 816}, []int{img.Width, img.Height}, "a Letter page laid wide at 96 pixels to the inch")
		require.Equal(t, file, svg(t, r, part), "the same bytes again")
	}
	for _, s := range r.Plan.Surfaces {
		file := string(svg(t, r, s.ID))
		for _, z := range s.Zones {
			for _, p := range z.Panels {
				if b := p.Outline.Bounds(); b.H > 300e6 && b.W > 300e6 && z.Layer == layers(&s, z.Zone) {
					require.Contains(t, file, ">"+p.ID+"<", "a sheet of a foot and more is named")
				}
			}
		}
	}
}

func layers(s *plan.Surface, zone int) (n int) {
	for _, z := range s.Zones {
		if z.Zone == zone {
			n = max(n, z.Layer)
		}
	}
	return n
}

// Several parts stand one below the other; a name that is not there is an error that says what there is.
func TestPartsOfDrawings(t *testing.T) {
	r := request(t, assets.LaneWorkshop)
	r.Voice = words.In(words.Spanish, words.Units{})
	parts := drawing.Parts(r)
	require.Equal(t, "Plano de planta", parts[0].Name)
	require.Len(t, parts, 1+len(r.Plan.Surfaces)+len(r.Plan.Sheets))
	require.Len(t, drawing.Built(r), 1+len(r.Plan.Surfaces))
	require.Equal(t, job.Metric, r.Job.Units)
	file := svg(t, r, parts[0].ID, parts[1].ID)
	require.Equal(t, "420.000000mm", xpath(t, file, "string(/*/@height)"), "two A4 pages")
	require.Contains(t, string(file), "escala 1:")
	err := drawing.SVG(context.Background(), &bytes.Buffer{}, &ask.Request{Job: r.Job, Plan: r.Plan, Voice: r.Voice, Parts: []string{"attic/north"}})
	require.ErrorContains(t, err, `"attic/north"`)
	over, cancel := context.WithCancel(context.Background())
	cancel()
	require.ErrorIs(t, drawing.SVG(over, &bytes.Buffer{}, r), context.Canceled)
}

// A notch has its measures on the cut sheet: a piece with one cut-out is its rectangle less that, by area.
func TestCutOutsHaveMeasures(t *testing.T) {
	r := request(t, assets.LaneWorkshop)
	areas := map[string][2]float64{} // of each panel, in mm²: what hangs, and the rectangle round it
	for _, s := range r.Plan.Surfaces {
		for _, z := range s.Zones {
			for _, p := range z.Panels {
				b, area := p.Outline.Bounds(), p.Outline.Area()
				for _, h := range p.Holes {
					area -= h.Area()
				}
				areas[p.ID] = [2]float64{area.SquareMetres() * 1e6, b.W.MM() * b.H.MM()}
			}
		}
	}
	single := regexp.MustCompile(`>(\w\w-\d\d) cut-outs: (\d+) × (\d+), \d+ from left, \d+ up<`)
	found := 0
	for i := range r.Plan.Sheets {
		for _, m := range single.FindAllStringSubmatch(string(svg(t, r, r.Plan.Sheets[i].ID)), -1) {
			w, err := strconv.ParseFloat(m[2], 64)
			require.NoError(t, err)
			h, err := strconv.ParseFloat(m[3], 64)
			require.NoError(t, err)
			require.InDelta(t, areas[m[1]][1]-areas[m[1]][0], w*h, w+h, "%s: measures are told to the millimetre", m[1])
			found++
		}
	}
	require.Greater(t, found, 1)
}
