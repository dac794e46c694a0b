package book_test

import (
	"encoding/xml"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/assets"
	"seamwright/assets/words"
	"seamwright/scene/document/ask"
	"seamwright/scene/document/book"
	"seamwright/scene/document/internal/reader"
)

// page is a page as pdftotext -bbox tells it: its words with their boxes, in points.
type page struct {
	Width  float64 `xml:"width,attr"`
	Height float64 `xml:"height,attr"`
	Words  []struct {
		X0   float64 `xml:"xMin,attr"`
		Y0   float64 `xml:"yMin,attr"`
		X1   float64 `xml:"xMax,attr"`
		Y1   float64 `xml:"yMax,attr"`
		Text string  `xml:",chardata"`
	} `xml:"word"`
}

func pagesOf(t *testing.T, path string) []page {
	var doc struct {
		Pages []page `xml:"body>doc>page"`
	}
	dec := xml.NewDecoder(strings.NewReader(reader.Run(t, nil, "pdftotext", "-bbox", path, "-")))
	dec.Strict = false
	require.NoError(t, dec.Decode(&doc))
	require.NotEmpty(t, doc.Pages)
	return doc.Pages
}

// Boxes of words reach from the font's ascent to its descent, beyond the letters: so much of them may meet.
const lineOverlap = 4.5

// apart finds no word beyond its page's edge, and none over another.
func apart(t *testing.T, r *ask.Request, path string) {
	const edge = 30.0
	size := map[ask.Paper][2]float64{ask.Letter: {612, 792}, ask.A4: {595.276, 841.89}}[r.Paper]
	for n, p := range pagesOf(t, path) {
		require.InDelta(t, size[0]*size[1], p.Width*p.Height, 10, "page %d", n+1)
		require.NotEmpty(t, p.Words, "page %d", n+1)
		for i, a := range p.Words {
			require.True(t, a.X0 >= edge && a.Y0 >= edge-10 && a.X1 <= p.Width-edge && a.Y1 <= p.Height-edge, "page %d: %q leaves the page: %v", n+1, a.Text, a)
			for _, b := range p.Words[:i] {
				w := math.Min(a.X1, b.X1) - math.Max(a.X0, b.X0)
				h := math.Min(a.Y1, b.Y1) - math.Max(a.Y0, b.Y0)
				require.False(t, w > lineOverlap && h > lineOverlap, "page %d: %q stands over %q: %v %v", n+1, a.Text, b.Text, a, b)
			}
		}
	}
}

// tower is ten feet wide, and so high that a page holds it at 1/4 in = 1 ft only.
const tower = `seamwright: 1
name: Tower
units: imperial
site: {start: 2027-03-01}
rooms:
  - id: tower
    height: 20'
    corners: [[0, 0], [10', 0], [10', 10'], [0, 10']]
defaults: {lining: [{product: gyp-12}]}
`

// A 10 ft wall at 1/4 in = 1 ft measures 2.5 in on the page within 0.2 mm, read back from the page's operators: its outline
// is the one closed line that is 1.5 points wide. And so it is with every wall of the samples at its stated scale.
func TestDrawingsAreToScale(t *testing.T) {
	r := request(t, []byte(tower), words.English, ask.Letter)
	r.Parts = []string{"elevations"}
	outlines := outlinesOf(t, r)
	require.Len(t, outlines, 4)
	for _, o := range outlines {
		require.Equal(t, `1/4" = 1'-0"`, o.scale)
		require.InDelta(t, 2.5*72, o.wide, 0.2/25.4*72)
		require.InDelta(t, 5.0*72, o.high, 0.2/25.4*72)
	}
	ratios := map[string]float64{`1/8" = 1'-0"`: 96, `3/16" = 1'-0"`: 64, `1/4" = 1'-0"`: 48, `3/8" = 1'-0"`: 32, `1/2" = 1'-0"`: 24, `3/4" = 1'-0"`: 16, "1:10": 10, "1:20": 20, "1:25": 25, "1:50": 50, "1:100": 100}
	for _, sample := range [][]byte{assets.KilnYardStudio, assets.LaneWorkshop} {
		r := request(t, sample, words.English, ask.A4)
		r.Parts = []string{"elevations"}
		outlines := outlinesOf(t, r)
		require.GreaterOrEqual(t, len(outlines), len(r.Plan.Surfaces))
		for _, o := range outlines {
			require.NotZero(t, ratios[o.scale], o.scale)
			found := false
			for i := range r.Plan.Surfaces {
				b := r.Plan.Surfaces[i].Outline.Bounds()
				w, h := b.W.In()*72/ratios[o.scale], b.H.In()*72/ratios[o.scale]
				found = found || math.Abs(w-o.wide) < 0.5 && math.Abs(h-o.high) < 0.5
			}
			require.True(t, found, "%s: an outline of %.2f × %.2f points is no wall's", o.scale, o.wide, o.high)
		}
	}
}

// outline is a surface's outline on its page, with the scale that the page states.
type outline struct {
	scale      string
	wide, high float64
}

var scaleWords = regexp.MustCompile(`Scale (.*?) +is (?:2 in|50 mm) long`)

func outlinesOf(t *testing.T, r *ask.Request) (list []outline) {
	_, path := written(t, book.Write, r)
	pages := strings.Split(reader.Run(t, nil, "pdftotext", "-layout", path, "-"), "\f")
	plain := filepath.Join(t.TempDir(), "plain.pdf")
	reader.Run(t, nil, "qpdf", "--qdf", "--object-streams=disable", path, plain)
	file, err := os.ReadFile(plain)
	require.NoError(t, err)
	contents := strings.Split(string(file), "%% Contents for page ")[1:]
	require.NotEmpty(t, contents)
	for i, c := range contents {
		stated := scaleWords.FindStringSubmatch(pages[i])
		if stated == nil { // notes that go on
			continue
		}
		o := outline{scale: stated[1]}
		body, _, _ := strings.Cut(c, "endstream")
		for _, ring := range closedLines(body, 1.5) {
			if w, h := extent(ring); w*h > o.wide*o.high {
				o.wide, o.high = w, h
			}
		}
		list = append(list, o)
	}
	return list
}

// closedLines reads the closed lines of a width from a page's operators.
func closedLines(body string, width float64) (rings [][][2]float64) {
	var args []float64
	var ring [][2]float64
	pen, closed := 0.0, false
	for _, token := range strings.Fields(body) {
		if v, err := strconv.ParseFloat(token, 64); err == nil {
			args = append(args, v)
			continue
		}
		switch token {
		case "w":
			pen = args[len(args)-1]
		case "m":
			ring, closed = [][2]float64{{args[len(args)-2], args[len(args)-1]}}, false
		case "l":
			ring = append(ring, [2]float64{args[len(args)-2], args[len(args)-1]})
		case "h":
			closed = true
		case "S":
			if closed && pen == width {
				rings = append(rings, ring)
			}
		}
		args = args[:0]
	}
	return rings
}

func extent(ring [][2]float64) (w, h float64) {
	lo, hi := ring[0], ring[0]
	for _, p := range ring {
		lo = [2]float64{math.Min(lo[0], p[0]), math.Min(lo[1], p[1])}
		hi = [2]float64{math.Max(hi[0], p[0]), math.Max(hi[1], p[1])}
	}
	return hi[0] - lo[0], hi[1] - lo[1]
}

var fontSize = regexp.MustCompile(`BT /F[0-9a-f]+ ([0-9.]+) Tf ET\s+(?:q [0-9. ]+ rg )?BT`)

// Pages that are read at arm's length are set in letters of 11 points at least.
func TestLettersAreLargeEnough(t *testing.T) {
	r := request(t, assets.KilnYardStudio, words.Spanish, ask.Letter)
	_, path := written(t, book.Write, r)
	plain := filepath.Join(t.TempDir(), "plain.pdf")
	reader.Run(t, nil, "qpdf", "--qdf", "--object-streams=disable", path, plain)
	file, err := os.ReadFile(plain)
	require.NoError(t, err)
	sizes := fontSize.FindAllStringSubmatch(string(file), -1)
	require.Greater(t, len(sizes), 100)
	for _, s := range sizes {
		points, err := strconv.ParseFloat(s[1], 64)
		require.NoError(t, err)
		require.GreaterOrEqual(t, points, 11.0)
	}
}
