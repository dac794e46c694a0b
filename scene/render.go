package scene

import (
	"cmp"
	"image"
	"slices"

	"seamwright/calc/plan"
	"seamwright/scene/draft"
	"seamwright/scene/raster"
)

// Renderer draws scenes. It keeps its buffers from frame to frame and draws one picture at a time.
type Renderer struct {
	core   *raster.Renderer
	frame  raster.Frame
	pens   [penCount]raster.Pen
	mats   [materialCount]raster.Material
	order  []ordered
	tints  [][]uint8 // one for each part, kept from frame to frame
	marked markedLines

	lit           Raking // what the finished parts are lit for
	gloss         raster.Gloss
	lobed         bool // gloss has been made
	rooms         map[string]lit
	finished      map[*part]*finished
	floors        map[string]*finished
	finishedOf    *Scene
	finishedBuilt int
}

// ordered is a part and how far it stands from the eye.
type ordered struct {
	index    int // of the part, or of the room after the parts
	distance float64
}

// NewRenderer makes a renderer for so many cores; 0 takes all that the process may use. The picture does not
// depend on the number.
func NewRenderer(workers int) *Renderer { return &Renderer{core: raster.New(workers)} }

// Close lets the renderer's workers go; it must not be used afterwards.
func (r *Renderer) Close() { r.core.Close() }

// Spare lets go of the unevenness of finished walls, which is worked out again when it is next drawn, and of all else that
// was made for the frame drawn last.
func (r *Renderer) Spare() {
	r.finished, r.floors, r.rooms = nil, nil, nil
	clear(r.frame.Items[:cap(r.frame.Items)])
	r.core.Spare()
}

// cutAway reports whether a style leaves a part out because the eye is behind it, and whether its outline shows.
func cutAway(q *part, cam Camera, st Style) (hidden, outline bool) {
	ceiling := q.surface.Kind == plan.Ceiling
	if ceiling && !st.Ceilings {
		return true, false
	}
	// A sloped ceiling is also in the way of an eye that is above it but still in front of its plane.
	if st.Cutaway && (q.frame.behind(cam.Eye, 0) || ceiling && cam.Eye[2] > q.top) {
		return true, true
	}
	return false, false
}

// Render draws the scene into the whole of img.
func (r *Renderer) Render(img *image.RGBA, s *Scene, cam Camera, st Style) {
	size := img.Bounds().Size()
	if size.X <= 0 || size.Y <= 0 {
		return
	}
	if st.Theme < Paper || st.Theme > HighContrast {
		st.Theme = Paper
	}
	p := palettes()[st.Theme]
	setPens(&r.pens, p, st)
	pats := patterns()
	for m := range r.mats {
		r.mats[m] = raster.Material{Pattern: pats[m], Palettes: p.ramps[m]}
	}
	f := &r.frame
	f.View = cam.View(size.X, size.Y)
	f.Materials, f.Pens = r.mats[:], r.pens[:]
	f.Top, f.Bottom, f.Clear, f.Sharp = p.top, p.bottom, st.Clear, st.Sharp
	f.Items = f.Items[:0]
	r.sort(s, cam)
	r.tint(s, st)
	for _, o := range r.order {
		if o.index >= len(s.parts) {
			m := &s.rooms[o.index-len(s.parts)]
			mesh := &m.mesh
			if st.Raking.On {
				mesh = r.floor(s, m, st.Raking)
			}
			f.Items = append(f.Items, raster.Item{Mesh: mesh})
			continue
		}
		q := s.parts[o.index]
		if hidden, _ := cutAway(q, cam, st); !hidden {
			mesh := &q.solid
			if st.Raking.On {
				mesh = r.finish(s, q, st.Raking)
			}
			f.Items = append(f.Items, raster.Item{Mesh: mesh, Tints: r.tints[o.index]})
		}
	}
	for _, o := range r.order {
		if o.index < len(s.parts) {
			if _, outline := cutAway(s.parts[o.index], cam, st); outline {
				f.Items = append(f.Items, raster.Item{Mesh: &s.parts[o.index].ghost})
			}
		}
	}
	if m := r.marked.update(s, st); m != nil {
		f.Items = append(f.Items, raster.Item{Mesh: m})
	}
	r.core.Draw(img, f)
	if st.Legend {
		scale := max(1, st.Scale)
		s.DrawLegend(draft.NewRaster(img, scale), st, draft.Pt{X: legendMargin, Y: float64(size.Y)/scale - legendMargin})
	}
}

// sort puts the parts in order, nearest first, and the floors last.
func (r *Renderer) sort(s *Scene, cam Camera) {
	r.order = r.order[:0]
	for i, q := range s.parts {
		r.order = append(r.order, ordered{i, q.centre.Sub(cam.Eye).Len()})
	}
	slices.SortFunc(r.order, func(a, b ordered) int {
		return cmp.Or(cmp.Compare(a.distance, b.distance), cmp.Compare(a.index, b.index))
	})
	for i := range s.rooms {
		r.order = append(r.order, ordered{index: len(s.parts) + i})
	}
}

// Tints of the frame's palettes.
const (
	plainTint uint8 = iota
	hoverTint
	selectTint
)

// tint sets the tint of every panel that is selected or hovered.
func (r *Renderer) tint(s *Scene, st Style) {
	for len(r.tints) < len(s.parts) {
		r.tints = append(r.tints, nil)
	}
	any := len(st.Selected) > 0 || st.Hovered != Ref{}
	for i, q := range s.parts {
		if !any {
			r.tints[i] = nil
			continue
		}
		t := r.tints[i]
		if cap(t) < len(q.panels) {
			t = make([]uint8, len(q.panels))
		}
		t = t[:len(q.panels)]
		for k := range t {
			t[k] = plainTint
			if q.names(k, st.Hovered) && st.Hovered != (Ref{}) {
				t[k] = hoverTint
			}
			for _, ref := range st.Selected {
				if q.names(k, ref) {
					t[k] = selectTint
				}
			}
		}
		r.tints[i] = t
	}
}

// names reports whether a reference names the panel with that tag.
func (q *part) names(tag int, ref Ref) bool {
	if ref.Surface != q.id {
		return false
	}
	p := q.panels[tag]
	return ref.Panel == "" || ref.Panel == q.surface.Zones[p.zone].Panels[p.panel].ID
}

// markedLines are the outlines of what is selected, kept until the selection or the scene changes.
type markedLines struct {
	scene    *Scene
	built    int
	selected []Ref
	mesh     raster.Mesh
}

// update is the mesh of the selection's outlines, nil where nothing is selected.
func (m *markedLines) update(s *Scene, st Style) *raster.Mesh {
	if len(st.Selected) == 0 {
		return nil
	}
	if m.scene != s || m.built != s.built || !slices.Equal(m.selected, st.Selected) {
		m.scene, m.built = s, s.built
		m.selected = append(m.selected[:0], st.Selected...)
		m.mesh = raster.Mesh{}
		for _, ref := range st.Selected {
			q := s.partOf(ref.Surface)
			if q == nil {
				continue
			}
			b := &builder{m: &m.mesh, frame: q.frame}
			if ref.Panel == "" {
				b.ring(b.level(0, paint{}), penSelected, 0, metres(q.surface.Outline), q.front)
				continue
			}
			for k, p := range q.panels {
				if q.names(k, ref) {
					z := &q.surface.Zones[p.zone]
					b.ring(b.level(0, paint{}), penSelected, 0, metres(z.Panels[p.panel].Outline), q.front)
				}
			}
		}
		m.mesh.Bound()
	}
	return &m.mesh
}
