package page

import (
	"bytes"
	"compress/flate"
	"crypto/sha256"
	"encoding/base64"
	"encoding/json"
	"math"
	"strconv"

	"github.com/go-gl/mathgl/mgl32"
	"github.com/go-gl/mathgl/mgl64"

	"seamwright/calc/job"
	"seamwright/scene"
	"seamwright/scene/light"
	"seamwright/scene/raster"
)

// packed is the room as the page's script reads it: every body once, however many alternatives have it, and the looks
// that they are drawn in.
type packed struct {
	Bodies   columns    `json:"bodies"`
	Variants [][]int    `json:"variants"` // the bodies of each
	Views    []view     `json:"views"`
	Looks    []look     `json:"looks"`  // by day, and where the reader's screen is dark
	Layers   []int      `json:"layers"` // the pattern of each material
	Side     int        `json:"side"`   // of a pattern, tones
	Paint    int        `json:"paint"`  // the material of coats
	Edge     int        `json:"edge"`   // the pen that coats keep
	Pens     int        `json:"pens"`
	Fade     [2]float64 `json:"fade"`  // pixels between lines, where they vanish and where they show whole
	Gloss    [2]float64 `json:"gloss"` // the coats' lobe: strength, exponent
	Step     number     `json:"step"`  // metres between points of a relief
}

// columns is all bodies, like beside like: so they pack a quarter smaller than one after the other.
type columns struct {
	Heads  []head         `json:"heads"`
	Planes [][][16]number `json:"planes"`
	Lights [][]lightMap   `json:"lights"`
	Faces  [][][]int      `json:"faces"`
	Lines  [][][9]int     `json:"lines"`
	Ghost  [][][9]int     `json:"ghost"`
	Seen   [][][9]int     `json:"seen"`
	Coats  [][]coat       `json:"coats"`
}

func (c *columns) add(b *body) {
	c.Heads, c.Planes, c.Lights, c.Faces = append(c.Heads, b.head), append(c.Planes, b.Planes), append(c.Lights, b.Lights), append(c.Faces, b.Faces)
	c.Lines, c.Ghost, c.Seen, c.Coats = append(c.Lines, b.Lines), append(c.Ghost, b.Ghost), append(c.Seen, b.Seen), append(c.Coats, b.Coats)
}

// view is a place to look from.
type view struct {
	Name   string `json:"name"`
	Inside bool   `json:"inside"` // it stands in a room, else the picture frames the whole building
	Camera camera `json:"camera"`
}

type camera struct {
	Eye   [3]number `json:"eye"`
	Yaw   number    `json:"yaw"`
	Pitch number    `json:"pitch"`
	FOV   number    `json:"fov"`
	Reach number    `json:"reach"`
}

func cameraOf(c scene.Camera) camera {
	return camera{[3]number(numbers(c.Eye[:])), number(c.Yaw), number(c.Pitch), number(c.FOV), number(c.Reach)}
}

// look is the colours and pens of one scheme; pens with the joints drawn and plain ones without.
type look struct {
	Top       int         `json:"top"`
	Bottom    int         `json:"bottom"`
	Materials [][2]int    `json:"materials"` // darkest and lightest colour
	Pens      [][8]number `json:"pens"`      // width, colour, opacity, four lengths of dashes, twofold
	Plain     [][8]number `json:"plain"`
}

// body is a scene.Body in tenths of a millimetre: places on a plane for faces, in the building for lines.
type body struct {
	head
	Planes [][16]number // origin, x, y, normal; brightness, light map or -1, what it keeps under lamps and what they throw on it
	Lights []lightMap
	Faces  [][]int  // plane, material, turned, shift of the pattern, corners
	Lines  [][9]int // plane, pen, millimetres to the next such line, two ends
	Ghost  [][9]int
	Seen   [][9]int
	Coats  []coat
}

type head struct {
	Kind    string     `json:"kind"`
	Frame   [12]number `json:"frame"` // origin, x, y, normal
	Top     number     `json:"top"`
	Corners [][]number `json:"corners"`
	Lamp    [6]number  `json:"lamp"` // direction to it, its power, of its mirror image, of light from all sides
}

// lightMap holds brightness in 1/255, each as its step from the one before.
type lightMap struct {
	X   number `json:"x"`
	Y   number `json:"y"`
	Per number `json:"per"`
	W   int    `json:"w"`
	H   int    `json:"h"`
	V   []int  `json:"v"`
}

type coat struct {
	Plane  int         `json:"plane"`
	Lo     [2]number   `json:"lo"`
	Hi     [2]number   `json:"hi"`
	Joints [][6]number `json:"joints"` // from, to, height and half-width of the section
	Spots  [][2]int    `json:"spots"`  // millimetres
	Spot   [2]number   `json:"spot"`
	Bow    [4]number   `json:"bow"` // counted upward 0 or 1, first member, spacing, height
}

// number is written with six decimals at most: micrometres, or a millionth of a radian.
type number float64

func (n number) MarshalJSON() ([]byte, error) {
	v := math.Round(float64(n)*1e6) / 1e6
	return strconv.AppendFloat(nil, v+0, 'f', -1, 64), nil // + 0: no minus before nothing
}

func numbers[F ~float32 | ~float64](v []F) []number {
	out := make([]number, len(v))
	for i, x := range v {
		out[i] = number(x)
	}
	return out
}

// tenths counts metres in tenths of a millimetre.
func tenths(metres float64) int { return int(math.Round(metres * 1e4)) }

func millimetres(metres float64) int { return int(math.Round(metres * 1e3)) }

// pack gives every body of the variants once, and the numbers of each variant's own.
func pack(variants []variant) (bodies columns, numbers [][]int, err error) {
	known := map[[sha256.Size]byte]int{}
	for _, v := range variants {
		var own []int
		for i := range v.bodies {
			packed := bodyOf(&v.bodies[i])
			text, err := json.Marshal(packed)
			if err != nil {
				return bodies, nil, err
			}
			sum := sha256.Sum256(text)
			at, ok := known[sum]
			if !ok {
				at = len(bodies.Heads)
				known[sum] = at
				bodies.add(packed)
			}
			own = append(own, at)
		}
		numbers = append(numbers, own)
	}
	return bodies, numbers, nil
}

func bodyOf(b *scene.Body) *body {
	// A list without anything in it is written as one, not as nothing.
	out := &body{head: head{Kind: string(b.Kind), Top: number(b.Top), Corners: [][]number{}}, Lights: []lightMap{}, Ghost: [][9]int{}, Coats: []coat{}}
	copy(out.Frame[:], numbers(b.Origin[:]))
	copy(out.Frame[3:], numbers(b.X[:]))
	copy(out.Frame[6:], numbers(b.Y[:]))
	copy(out.Frame[9:], numbers(b.Normal[:]))
	for _, c := range b.Corners {
		out.Corners = append(out.Corners, numbers(c[:]))
	}
	maps := map[*raster.LightMap]int{}
	for i := range b.Mesh.Planes {
		out.Planes = append(out.Planes, out.plane(&b.Mesh.Planes[i], b.Lit[i], maps))
	}
	for i := range b.Mesh.Faces {
		f := &b.Mesh.Faces[i]
		out.Faces = append(out.Faces, faceOf(f, &b.Mesh.Planes[f.Plane]))
	}
	out.Lines = linesOf(b.Mesh.Lines)
	if b.Ghost != nil {
		out.Ghost = linesOf(b.Ghost.Lines)
	}
	out.Seen = linesOf(b.Seen)
	for i := range b.Coats {
		out.Coats = append(out.Coats, coatOf(&b.Coats[i]))
	}
	out.Lamp[5] = number(b.Even)
	for _, l := range b.Lamps { // raking light is one far lamp
		copy(out.Lamp[:], numbers(l.Place[:]))
		out.Lamp[3], out.Lamp[4] = number(l.Power), number(l.Shine)
	}
	return out
}

func (b *body) plane(p *raster.Plane, lit scene.Lit, maps map[*raster.LightMap]int) (out [16]number) {
	for i, v := range []mgl32.Vec3{p.Origin, p.X, p.Y, p.Normal} {
		copy(out[3*i:], numbers(v[:]))
	}
	out[12], out[13] = number(p.Shade), -1
	if p.Light != nil {
		at, known := maps[p.Light]
		if !known {
			at = len(b.Lights)
			maps[p.Light] = at
			b.Lights = append(b.Lights, lightMapOf(p.Light))
		}
		out[13] = number(at)
	}
	out[14], out[15] = number(lit.Keeps), number(lit.Falling)
	return out
}

func lightMapOf(l *raster.LightMap) lightMap {
	out := lightMap{X: number(l.X0), Y: number(l.Y0), Per: number(l.PerStep), W: l.W, H: l.H}
	before := 0
	for _, v := range l.V {
		now := int(math.Round(float64(max(0, min(1, v))) * 255))
		out.V = append(out.V, now-before)
		before = now
	}
	return out
}

// faceOf is a face with its corners counter-clockwise seen from its front, also where the plane's axes are left-handed.
func faceOf(f *raster.Face, p *raster.Plane) []int {
	turned := 0
	if f.Turn {
		turned = 1
	}
	out := []int{int(f.Plane), int(f.Material), turned, tenths(float64(f.Shift[0])), tenths(float64(f.Shift[1]))}
	v := f.V
	if v[1].Sub(v[0]).Cross(v[2].Sub(v[0])).Dot(p.Normal) < 0 {
		last := f.N - 1
		v[1], v[last] = v[last], v[1]
	}
	for _, c := range v[:f.N] {
		d := wide(c).Sub(wide(p.Origin))
		out = append(out, tenths(d.Dot(wide(p.X))), tenths(d.Dot(wide(p.Y))))
	}
	return out
}

func wide(v mgl32.Vec3) mgl64.Vec3 { return mgl64.Vec3{float64(v[0]), float64(v[1]), float64(v[2])} }

// linesOf leaves the sheets' letters out: the client is told of no sheet by its number.
func linesOf(lines []raster.Line) [][9]int {
	out := [][9]int{}
	for _, l := range lines {
		if l.Pen == scene.LetterPen {
			continue
		}
		row := [9]int{int(l.Plane), int(l.Pen), millimetres(float64(l.Size))}
		for i := range 3 {
			row[3+i], row[6+i] = tenths(float64(l.A[i])), tenths(float64(l.B[i]))
		}
		out = append(out, row)
	}
	return out
}

func coatOf(c *scene.Coat) coat {
	section := func(j light.Joint) [2]number { return [2]number{number(j.Height), number(j.Half)} }
	out := coat{
		Joints: [][6]number{}, Spots: [][2]int{},
		Plane: int(c.Plane), Lo: [2]number(numbers(c.Lo[:])), Hi: [2]number(numbers(c.Hi[:])), Spot: section(c.Spot),
		Bow: [4]number{0, number(c.Bow.First), number(c.Bow.Spacing), number(c.Bow.Height)},
	}
	if c.Bow.Upward {
		out.Bow[0] = 1
	}
	for _, j := range c.Joints {
		s := section(j.Joint)
		out.Joints = append(out.Joints, [6]number{number(j.A[0]), number(j.A[1]), number(j.B[0]), number(j.B[1]), s[0], s[1]})
	}
	for _, s := range c.Spots {
		out.Spots = append(out.Spots, [2]int{millimetres(s[0]), millimetres(s[1])})
	}
	return out
}

// lookOf is a theme's look, with the joints' lines and without them.
func lookOf(theme scene.Theme) look {
	st := style(theme)
	l := scene.LookOf(st)
	out := look{Top: hex(l.Top), Bottom: hex(l.Bottom), Pens: pensOf(l.Pens)}
	for _, m := range l.Materials {
		out.Materials = append(out.Materials, [2]int{hex(m.Dark), hex(m.Light)})
	}
	st.Seams = 0
	plain := scene.LookOf(st)
	for _, pen := range scene.JointPens {
		plain.Pens[pen].Width = 0
	}
	out.Plain = pensOf(plain.Pens)
	return out
}

func pensOf(pens []raster.Pen) [][8]number {
	var out [][8]number
	for _, p := range pens {
		row := [8]number{number(p.Width), number(hex(p.Colour)), number(p.Alpha)}
		copy(row[3:], numbers(p.Dash[:]))
		if p.Double {
			row[7] = 1
		}
		out = append(out, row)
	}
	return out
}

// hex is a colour as one number, red first.
func hex(c raster.Colour) int {
	r, g, b := c.Channels()
	return int(r)<<16 | int(g)<<8 | int(b)
}

// sheen is the project's paint as the coats' lobe.
func sheen(j *job.Job) (scene.Sheen, [2]float64) {
	s, _ := scene.SheenNamed(j.Paint.Sheen)
	p := s.Paint()
	return s, [2]float64{p.Lobe, p.Exponent}
}

// deflated is a value as JSON, packed and in letters that a page may hold.
func deflated(value any) (string, error) {
	text, err := json.Marshal(value)
	if err != nil {
		return "", err
	}
	var small bytes.Buffer
	w, err := flate.NewWriter(&small, flate.BestCompression)
	if err != nil {
		return "", err
	}
	if _, err := w.Write(text); err != nil {
		return "", err
	}
	if err := w.Close(); err != nil {
		return "", err
	}
	return base64.StdEncoding.EncodeToString(small.Bytes()), nil
}
