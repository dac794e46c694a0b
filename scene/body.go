package scene

import (
	"github.com/go-gl/mathgl/mgl64"

	"seamwright/calc/plan"
	"seamwright/scene/light"
	"seamwright/scene/raster"
)

// Body is one surface, or one room's floor, for those who draw a scene by other means than Renderer: what it is made of,
// how it looks finished under lamps, and when it stands in the way.
type Body struct {
	ID, Room             string
	Kind                 plan.SurfaceKind // "" of a floor
	Origin, X, Y, Normal mgl64.Vec3       // its place; it is left out where the eye is behind its plane, a floor never
	Top                  float64          // a ceiling is left out as well where the eye is higher
	Corners              []mgl64.Vec3     // what framing the whole scene must show
	Mesh, Ghost          *raster.Mesh     // to be drawn, and what is drawn instead where it is left out; not to be changed
	Lit                  []Lit            // by the mesh's planes
	Coats                []Coat           // finished faces: painted under lamps, their joints' lines left out
	Even                 float64          // of the coats: brightness from all sides
	Lamps                []raster.Lamp    // of the coats, in the axes of their planes
	Seen                 []raster.Line    // joints that would be seen under the lamps
}

// Lit is a plane under lamps, where no coat is on it: its own brightness goes on times Keeps; or, where Keeps is 0, times
// the tone of Falling and the square of its contact shading. Of a lamp that is near Falling is taken in the plane's middle.
type Lit struct{ Keeps, Falling float64 }

// Bodies lists the floors and surfaces of a scene, and how they look finished under a style's lamps.
func (s *Scene) Bodies(k Raking) []Body {
	out := make([]Body, 0, len(s.rooms)+len(s.parts))
	rooms := map[string]lit{}
	room := func(id string) lit {
		if _, known := rooms[id]; !known {
			rooms[id] = s.litRoom(id, k)
		}
		return rooms[id]
	}
	for i := range s.rooms {
		r := &s.rooms[i]
		l := room(r.id)
		lamps, more := l.onFloor()
		out = append(out, Body{ID: r.id, Room: r.id, Mesh: &r.mesh, Lit: l.planes(&r.mesh, whole(lamps), more, k)})
	}
	for _, q := range s.parts {
		out = append(out, q.body(room(q.room), k))
	}
	return out
}

// body is a part as a body.
func (q *part) body(l lit, k Raking) Body {
	b := Body{
		ID: q.id, Room: q.room, Kind: q.surface.Kind, Top: q.top,
		Origin: q.frame.origin, X: q.frame.x, Y: q.frame.y, Normal: q.frame.normal, Corners: q.corners,
		Mesh: &q.solid, Ghost: &q.ghost, Lit: l.planes(&q.solid, whole(q.shining(l, k)), 0, k),
	}
	b.Even, b.Lamps = q.lamps(l, k)
	for _, f := range q.fronts {
		b.Coats = append(b.Coats, q.coat(f, k))
	}
	var marked raster.Mesh
	k.Marks, k.Joint = true, nil
	q.mark(&marked, l, k)
	b.Seen = marked.Lines
	return b
}

// planes is the light on every plane of a mesh.
func (l lit) planes(m *raster.Mesh, lamps []light.Source, more float64, k Raking) []Lit {
	out := make([]Lit, len(m.Planes))
	for i, seat := range seatsOf(m) {
		if keeps, ok := ownLight(seat.material, k.lampsOn()&Daylight != 0); ok {
			out[i].Keeps = float64(keeps)
			continue
		}
		out[i].Falling = l.falling(lamps, more, wide(seat.at), wide(m.Planes[i].Normal))
	}
	return out
}

// Look is the colours and pens of a style, by the numbers that meshes name them by.
type Look struct {
	Top, Bottom raster.Colour // the ground
	Materials   []Material
	Paint       int // the material of coats
	Pens        []raster.Pen
}

// Material is a pattern of tones and the colours of its darkest and lightest.
type Material struct {
	Pattern     *raster.Pattern
	Dark, Light raster.Colour
}

// LookOf is the look of a style.
func LookOf(st Style) Look {
	p := palettes()[st.Theme]
	var pens [penCount]raster.Pen
	setPens(&pens, p, st)
	l := Look{Top: p.top, Bottom: p.bottom, Paint: matPaint, Pens: pens[:]}
	for i, pattern := range patterns() {
		l.Materials = append(l.Materials, Material{pattern, p.swatches[i].dark, p.swatches[i].light})
	}
	return l
}

// Pens by their numbers: the one whose lines a finished face keeps, and the one that letters sheets.
const (
	EdgePen   = penEdge
	LetterPen = penLetter
)

// JointPens are the pens of joints that are filled and painted over.
var JointPens = []uint8{penTapered, penMixed, penButt, penControl}
