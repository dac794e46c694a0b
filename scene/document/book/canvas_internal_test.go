package book

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"codeberg.org/go-pdf/fpdf"
	"github.com/stretchr/testify/require"

	"seamwright/scene/document/internal/reader"
	"seamwright/scene/draft"
)

// onPage draws one page of 200 by 100 points and gives the file.
func onPage(t *testing.T, draw func(c *canvas)) string {
	pdf := newPDF()
	pdf.AddPageFormat("P", fpdf.SizeType{Wd: 200, Ht: 100})
	draw(&canvas{pdf: pdf, high: 100, w: 200, h: 100, tiles: map[tileKey]*tile{}})
	var b bytes.Buffer
	require.NoError(t, pdf.Output(&b))
	path := filepath.Join(t.TempDir(), "page.pdf")
	require.NoError(t, os.WriteFile(path, b.Bytes(), 0o644))
	return path
}

// The marks of the trade and the letters of both languages are embedded, and another program reads them back.
func TestMarksAreEmbedded(t *testing.T) {
	const marks = "½ ′ ″ ² ≤ − × ° € ñ á é í ó ú ü ¿ ¡ … – ·"
	black := color.NRGBA{A: 255}
	path := onPage(t, func(c *canvas) {
		c.Text(draft.Pt{X: 10, Y: 40}, marks, draft.Type{Size: 8, Color: black})
		c.Text(draft.Pt{X: 10, Y: 60}, marks, draft.Type{Size: 8, Weight: draft.Semibold, Color: black})
	})
	text := reader.Run(t, nil, "pdftotext", "-layout", path, "-")
	lines := strings.Split(strings.TrimSpace(text), "\n")
	letters := func(s string) string { return strings.Join(strings.Fields(s), "") } // the reader guesses at blanks
	require.Equal(t, letters(marks), letters(lines[0]))
	require.Equal(t, letters(marks), letters(lines[len(lines)-1]))
}

// What is drawn stands where it should, in the colour that it should, seen by another program's eyes: a fill with a hole, a
// line, a disc, a clipped fill, and a hatch that covers its path and nothing beside it.
func TestShapesStandWhereTheyShould(t *testing.T) {
	ink := color.NRGBA{R: 200, A: 255}
	path := onPage(t, func(c *canvas) {
		on := c.within(draft.Rect{X: 10, Y: 10, W: 180, H: 80})
		on.Fill(draft.Path{draft.Rect{W: 30, H: 30}.Path()[0], draft.Rect{X: 10, Y: 10, W: 10, H: 10}.Path()[0]}, ink)
		on.Stroke([]draft.Pt{{X: 40, Y: 15}, {X: 70, Y: 15}}, false, draft.Pen{Width: 4, Color: ink})
		on.Disc(draft.Pt{X: 90, Y: 15}, 8, ink)
		on.Clip(draft.Rect{X: 110, W: 10, H: 30})
		on.Fill(draft.Rect{X: 100, W: 40, H: 30}.Path(), ink)
		on.Unclip()
		on.Hatch(draft.Rect{X: 140, W: 40, H: 40}.Path(), draft.Hatch{Kind: draft.Waste, Color: ink, From: draft.Pt{X: 140}})
	})
	img := picture(t, path)
	red := func(x, y int) bool { r, g, _, _ := img.At(x*2, y*2).RGBA(); return r > 0x8000 && g < 0x4000 }
	for _, p := range [][3]int{{15, 15, 1}, {25, 25, 0}, {35, 35, 1}, {45, 25, 0}, {60, 25, 1}, {60, 29, 0}, {100, 25, 1}, {107, 30, 0}, {114, 20, 0}, {125, 20, 1}, {134, 20, 0}} {
		require.Equal(t, p[2] == 1, red(p[0], p[1]), "at %v", p)
	}
	inside, beside := 0, 0
	for y := 0; y < 200; y++ {
		for x := 290; x < 400; x++ {
			r, g, _, _ := img.At(x, y).RGBA()
			switch marked := r > g+0x2000; {
			case !marked:
			case x >= 299 && x <= 381 && y >= 19 && y <= 101:
				inside++
			default:
				beside++
			}
		}
	}
	require.Greater(t, inside, 800, "lines every 8 points on 40 by 40 points, seen at two pixels a point")
	require.Zero(t, beside)
}

// picture is the page as pdftoppm draws it, two pixels a point.
func picture(t *testing.T, path string) image.Image {
	file := reader.Run(t, nil, "pdftoppm", "-r", "144", "-png", path)
	img, err := png.Decode(strings.NewReader(file))
	require.NoError(t, err)
	return img
}
