package scene

import (
	"image"
	"image/png"
	"io"
)

// PNG draws a scene and writes it as a PNG picture of w by h pixels.
func PNG(out io.Writer, s *Scene, cam Camera, st Style, w, h int) error {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	r := NewRenderer(0)
	defer r.Close()
	r.Render(img, s, cam, st)
	return png.Encode(out, img)
}
