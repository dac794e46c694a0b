package scene

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"io"
	"math"

	"github.com/go-gl/mathgl/mgl32"

	"seamwright/scene/raster"
)

// materialNames name the materials for other programs.
var materialNames = [materialCount]string{
	matBoard: "gypsum board", matFire: "fire board", matWet: "wet-area board", matPly: "plywood", matStrand: "strand board",
	matPlyEdge: "panel edge", matStud: "wood framing", matSteel: "steel framing", matBatt: "batt", matKraft: "kraft batt",
	matWool: "mineral wool", matFoam: "foam", matFloor: "floor", matGlass: "glass", matReveal: "jamb", matFilling: "joint",
	matGap: "gap", matCut: "section", matSheath: "sheathing", matTrim: "trim", matLeaf: "door leaf", matIron: "ironwork", matLamp: "lamp", matPaint: "paint", matCurb: "curb",
}

// The parts of a glTF 2.0 document that are written (Khronos, glTF 2.0 specification, section 5).
type (
	gltf struct {
		Asset       gltfAsset        `json:"asset"`
		Scene       int              `json:"scene"`
		Scenes      []gltfScene      `json:"scenes"`
		Nodes       []gltfNode       `json:"nodes"`
		Meshes      []gltfMesh       `json:"meshes"`
		Materials   []gltfMaterial   `json:"materials"`
		Accessors   []gltfAccessor   `json:"accessors"`
		BufferViews []gltfBufferView `json:"bufferViews"`
		Buffers     []gltfBuffer     `json:"buffers"`
	}
	gltfAsset struct {
		Version   string `json:"version"`
		Generator string `json:"generator"`
	}
	gltfScene struct {
		Nodes []int `json:"nodes"`
	}
	gltfNode struct {
		Name     string `json:"name"`
		Mesh     *int   `json:"mesh,omitempty"`
		Children []int  `json:"children,omitempty"`
	}
	gltfMesh struct {
		Name       string          `json:"name"`
		Primitives []gltfPrimitive `json:"primitives"`
	}
	gltfPrimitive struct {
		Attributes map[string]int `json:"attributes"`
		Material   int            `json:"material"`
	}
	gltfMaterial struct {
		Name string  `json:"name"`
		PBR  gltfPBR `json:"pbrMetallicRoughness"`
	}
	gltfPBR struct {
		Base      [4]float64 `json:"baseColorFactor"`
		Metallic  float64    `json:"metallicFactor"`
		Roughness float64    `json:"roughnessFactor"`
	}
	gltfAccessor struct {
		View      int         `json:"bufferView"`
		Component int         `json:"componentType"`
		Count     int         `json:"count"`
		Type      string      `json:"type"`
		Min       *mgl32.Vec3 `json:"min,omitempty"`
		Max       *mgl32.Vec3 `json:"max,omitempty"`
	}
	gltfBufferView struct {
		Buffer int `json:"buffer"`
		Offset int `json:"byteOffset"`
		Length int `json:"byteLength"`
		Target int `json:"target"`
	}
	gltfBuffer struct {
		Length int `json:"byteLength"`
	}
)

// Codes of the glTF and GLB formats.
const (
	gltfFloat       = 5126
	gltfArrayBuffer = 34962
	glbMagic        = 0x46546C67
	glbJSON         = 0x4E4F534A
	glbBinary       = 0x004E4942
)

// GLB writes the scene as binary glTF 2.0: a node for each surface, under it a node for each sheet, named by its
// panel and the sheet it is cut from, and one for what stands behind. Metres, y up as the format asks: north is -z.
func GLB(out io.Writer, s *Scene) error {
	e := &exporter{used: map[uint16]int{}}
	e.doc.Asset = gltfAsset{"2.0", "Seamwright"}
	e.doc.Scenes = []gltfScene{{}}
	for i := range s.rooms {
		r := &s.rooms[i]
		e.root(e.node(r.id+" floor", &r.mesh, func(*raster.Face) bool { return true }))
	}
	for _, q := range s.parts {
		parent := gltfNode{Name: q.id}
		for tag, ref := range q.panels {
			p := &q.surface.Zones[ref.zone].Panels[ref.panel]
			name := p.ID
			if p.Sheet != "" {
				name += " of " + p.Sheet
			}
			if n := e.node(name, &q.solid, func(f *raster.Face) bool { return f.Tag == int32(tag) }); n >= 0 {
				parent.Children = append(parent.Children, n)
			}
		}
		if n := e.node(q.id+" behind", &q.solid, func(f *raster.Face) bool { return f.Tag < 0 }); n >= 0 {
			parent.Children = append(parent.Children, n)
		}
		if len(parent.Children) > 0 {
			e.doc.Nodes = append(e.doc.Nodes, parent)
			e.root(len(e.doc.Nodes) - 1)
		}
	}
	return e.write(out)
}

// exporter gathers the document and its buffer.
type exporter struct {
	doc  gltf
	bin  bytes.Buffer
	used map[uint16]int // the document's number of a material
}

func (e *exporter) root(node int) {
	if node >= 0 {
		e.doc.Scenes[0].Nodes = append(e.doc.Scenes[0].Nodes, node)
	}
}

// node adds the faces of a mesh that are wanted, one primitive for each material; -1 where there are none.
func (e *exporter) node(name string, m *raster.Mesh, wanted func(*raster.Face) bool) int {
	var order []uint16
	faces := map[uint16][]*raster.Face{}
	for i := range m.Faces {
		if f := &m.Faces[i]; wanted(f) {
			if faces[f.Material] == nil {
				order = append(order, f.Material)
			}
			faces[f.Material] = append(faces[f.Material], f)
		}
	}
	mesh := gltfMesh{Name: name}
	for _, material := range order {
		var at, normals []mgl32.Vec3
		for _, f := range faces[material] {
			n := m.Planes[f.Plane].Normal.Normalize()
			v := f.V
			// Corners run counter-clockwise seen from the front, also on a ceiling laid flat by the room's axes.
			if v[1].Sub(v[0]).Cross(v[2].Sub(v[0])).Dot(n) < 0 {
				last := f.N - 1
				v[1], v[last] = v[last], v[1]
			}
			for k := 2; k < int(f.N); k++ {
				for _, p := range [3]mgl32.Vec3{v[0], v[k-1], v[k]} {
					at, normals = append(at, yUp(p)), append(normals, yUp(n))
				}
			}
		}
		mesh.Primitives = append(mesh.Primitives, gltfPrimitive{
			Attributes: map[string]int{"POSITION": e.accessor(at, true), "NORMAL": e.accessor(normals, false)},
			Material:   e.material(material),
		})
	}
	if len(mesh.Primitives) == 0 {
		return -1
	}
	e.doc.Meshes = append(e.doc.Meshes, mesh)
	number := len(e.doc.Meshes) - 1
	e.doc.Nodes = append(e.doc.Nodes, gltfNode{Name: name, Mesh: &number})
	return len(e.doc.Nodes) - 1
}

// yUp turns z up into the format's y up.
func yUp(p mgl32.Vec3) mgl32.Vec3 { return mgl32.Vec3{p[0], p[2], -p[1]} }

// accessor appends vectors to the buffer.
func (e *exporter) accessor(v []mgl32.Vec3, box bool) int {
	a := gltfAccessor{View: len(e.doc.BufferViews), Component: gltfFloat, Count: len(v), Type: "VEC3"}
	start := e.bin.Len()
	lo, hi := v[0], v[0]
	var word [4]byte
	for _, p := range v {
		for i, c := range p {
			lo[i], hi[i] = min(lo[i], c), max(hi[i], c)
			binary.LittleEndian.PutUint32(word[:], math.Float32bits(c))
			e.bin.Write(word[:])
		}
	}
	if box {
		a.Min, a.Max = &lo, &hi
	}
	e.doc.BufferViews = append(e.doc.BufferViews, gltfBufferView{0, start, e.bin.Len() - start, gltfArrayBuffer})
	e.doc.Accessors = append(e.doc.Accessors, a)
	return len(e.doc.Accessors) - 1
}

// material gives a material's number in the document, adding it when first used: its mean colour on paper.
func (e *exporter) material(m uint16) int {
	if n, ok := e.used[m]; ok {
		return n
	}
	ramp := palettes()[Paper].ramps[m][plainTint]
	r, g, b := ramp[patterns()[m].Levels[raster.PatternBits][0]].Channels()
	e.doc.Materials = append(e.doc.Materials, gltfMaterial{materialNames[m], gltfPBR{[4]float64{linear(r), linear(g), linear(b), 1}, 0, 0.9}})
	e.used[m] = len(e.doc.Materials) - 1
	return e.used[m]
}

// linear undoes the sRGB curve (IEC 61966-2-1), as the format holds colours linear.
func linear(c uint8) float64 {
	v := float64(c) / 255
	if v <= 0.04045 {
		return v / 12.92
	}
	return math.Pow((v+0.055)/1.055, 2.4)
}

// write puts header, document and buffer together, each chunk filled up to four bytes.
func (e *exporter) write(out io.Writer) error {
	e.doc.Buffers = []gltfBuffer{{e.bin.Len()}}
	text, err := json.Marshal(&e.doc)
	if err != nil {
		return err
	}
	for len(text)%4 != 0 {
		text = append(text, ' ')
	}
	var head []byte
	put := func(v int) { head = binary.LittleEndian.AppendUint32(head, uint32(v)) }
	put(glbMagic)
	put(2)
	put(12 + 8 + len(text) + 8 + e.bin.Len())
	put(len(text))
	put(glbJSON)
	head = append(head, text...)
	put(e.bin.Len())
	put(glbBinary)
	if _, err := out.Write(head); err != nil {
		return err
	}
	_, err = out.Write(e.bin.Bytes())
	return err
}
