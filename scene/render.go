package scene

import "image"

// Renderer draws scenes. It keeps its buffers from frame to frame and draws one picture at a time.
type Renderer struct{ workers int }

// NewRenderer makes a renderer for so many cores; 0 takes all that the process may use. The picture does not
// depend on the number.
func NewRenderer(workers int) *Renderer { return &Renderer{workers: workers} }

// Close lets the renderer's workers go.
func (r *Renderer) Close() {}

// Render draws the scene into the whole of img.
func (r *Renderer) Render(img *image.RGBA, s *Scene, cam Camera, st Style) {
}
