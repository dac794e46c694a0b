package page

import (
	"bytes"
	"encoding/base64"
	"html/template"
	"image"
	"image/jpeg"

	"seamwright/scene"
	"seamwright/scene/raster"
)

// Pictures of the page.
const (
	patternSide    = 1 << raster.PatternBits
	patternQuality = 72 // of the patterns: grain survives, and a telephone takes it
	stillWide      = 1200
	stillHigh      = 800
	stillQuality   = 80
)

// Where lines vanish and where they show whole, as our renderer has it.
const (
	fadeFrom = raster.FadeFrom
	fadeTo   = raster.FadeTo
)

// patternsOf is the number of each material's pattern in one picture that holds those in use one above the other. The
// first stands for materials that the variants have not.
func patternsOf(l scene.Look, variants []variant) (layers []int, picture string, err error) {
	used := make([]bool, len(l.Materials))
	for _, v := range variants {
		for _, b := range v.bodies {
			for i := range b.Mesh.Faces {
				used[b.Mesh.Faces[i].Material] = true
			}
		}
	}
	numbers := map[*raster.Pattern]int{}
	var order []*raster.Pattern
	layers = make([]int, len(l.Materials))
	for i, m := range l.Materials {
		if !used[i] {
			continue
		}
		at, known := numbers[m.Pattern]
		if !known {
			at = len(order)
			numbers[m.Pattern] = at
			order = append(order, m.Pattern)
		}
		layers[i] = at
	}
	grey := image.NewGray(image.Rect(0, 0, patternSide, patternSide*len(order)))
	for i, p := range order {
		copy(grey.Pix[i*patternSide*patternSide:], p.Levels[0])
	}
	var small bytes.Buffer
	err = jpeg.Encode(&small, grey, &jpeg.Options{Quality: patternQuality})
	return layers, base64.StdEncoding.EncodeToString(small.Bytes()), err
}

// stillOf is our renderer's picture of a variant, for where nothing turns.
func stillOf(s *scene.Scene) (template.URL, error) {
	img := image.NewRGBA(image.Rect(0, 0, stillWide, stillHigh))
	r := scene.NewRenderer(0)
	defer r.Close()
	cam, _ := s.Camera("SE", stillWide, stillHigh)
	r.Render(img, s, cam, style(scene.Paper))
	var small bytes.Buffer
	if err := jpeg.Encode(&small, img, &jpeg.Options{Quality: stillQuality}); err != nil {
		return "", err
	}
	return template.URL("data:image/jpeg;base64," + base64.StdEncoding.EncodeToString(small.Bytes())), nil
}
