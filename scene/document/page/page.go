// Package page writes the plan for the client: one HTML file to open on any screen, with nothing fetched from elsewhere.
// The room is turned in it by finger, mouse or keys, with each alternative's linings, with its joints' lines or without,
// and painted in light along its walls; figures, dates and cautions stand beneath. It tells a price only where the sender
// asks for it, and of the builder's cost nothing.
//
// A graphics card draws the room by the same planes, lines, patterns and reliefs as our renderer, in 3D through three.js
// (MIT licence, assets/page). Where there is none, or no script runs, stills of our renderer stand in its place. The page
// forbids itself everything that it does not bring along (Content Security Policy Level 3, W3C): scripts and styles are
// named by their hashes.
package page

import (
	"context"
	"embed"
	"errors"
	"fmt"
	"html/template"
	"io"
	"math"
	"strings"

	"seamwright/assets"
	"seamwright/calc/job"
	"seamwright/calc/plan"
	"seamwright/scene"
	"seamwright/scene/document/ask"
)

//go:embed page.html page.css client/*.js
var files embed.FS

// Largest is the most bytes that a page may have: mail servers and telephones take so much without complaint.
const Largest = 3_000_000

// ErrTooLarge says that a building, with its alternatives, does not fit a page.
var ErrTooLarge = errors.New("the page would be larger than 3 MB: leave alternatives out, or write a page for a part of the building")

// scripts are the page's own, in the order in which they stand.
var scripts = [...]string{"camera", "unpack", "relief", "shaders", "room", "hands", "page"}

// lampAngle is how high above the walls the light along them stands: the angle that the room view begins with.
var lampAngle = scene.DefaultStyle().Raking.Angle

// variant is the project as drawn, or one of its alternatives.
type variant struct {
	Name   string
	job    *job.Job
	plan   *plan.Plan
	scene  *scene.Scene
	bodies []scene.Body // as they look in light along the walls, too
}

// content is what the template is filled with.
type content struct {
	Say      func(key string, values ...any) string
	Language string
	Title    string
	Policy   string
	Style    template.CSS
	Library  template.JS
	Script   template.JS
	Packed   template.HTML // of the room, in letters that mean nothing in HTML
	Patterns template.HTML

	Lead     string
	Made     string
	Variants []told
	Places   []string
	Figures  []figure
	Price    string // what the price means, where one is told
	Notes    []string
	Cautions []string
	Legend   []sign
	Licences []licence
}

// told is what the page tells of one variant alone.
type told struct {
	Name   string
	Still  template.URL
	Alt    string
	Joints string // how plainly they show in light along the walls
	Walls  []wall
	Stages []stage
	Ready  string
	Drying bool
}

type licence struct{ Name, Text string }

// Write writes the page that a request asks for.
func Write(ctx context.Context, w io.Writer, r *ask.Request) error {
	variants, err := variantsOf(r)
	if err != nil {
		return err
	}
	c := content{
		Say: r.Voice.Text, Language: string(r.Voice.Language()), Title: r.Plan.Name,
		Licences: []licence{{"three.js", assets.PageLibraryLicence}, {"Lato", assets.FontLicence}},
	}
	if err := c.tell(ctx, r, variants); err != nil {
		return err
	}
	if err := c.draw(r, variants); err != nil {
		return err
	}
	if err := c.close(); err != nil {
		return err
	}
	page, err := template.ParseFS(files, "page.html")
	if err != nil {
		return err
	}
	var out strings.Builder
	if err := page.Execute(&out, &c); err != nil {
		return err
	}
	if out.Len() > Largest {
		return fmt.Errorf("%w (%.1f MB)", ErrTooLarge, float64(out.Len())/1e6)
	}
	_, err = io.WriteString(w, out.String())
	return err
}

// variantsOf are the project as drawn and its alternatives.
func variantsOf(r *ask.Request) ([]variant, error) {
	if r.Prices == ask.ForBuilder {
		return nil, errors.New("a client's page tells no cost of the builder: ask for the client's price, or for none")
	}
	out := []variant{{Name: r.Voice.Text("page.as-drawn"), job: r.Job, plan: r.Plan}}
	for _, o := range r.Others {
		out = append(out, variant{Name: capital(o.Name), job: o.Job, plan: o.Plan})
	}
	for i := range out {
		out[i].scene = scene.Build(out[i].plan, out[i].job, scene.Options{})
		out[i].bodies = out[i].scene.Bodies(lamp(r.Job))
	}
	return out, nil
}

// style is how the room is drawn before anybody touches the page.
func style(theme scene.Theme) scene.Style {
	st := scene.DefaultStyle()
	st.Theme, st.Sharp = theme, true
	return st
}

// lamp is the light along the walls.
func lamp(j *job.Job) scene.Raking {
	s, _ := sheen(j)
	return scene.Raking{On: true, Angle: lampAngle, Sheen: s}
}

// draw packs the room, and the places to look at it from.
func (c *content) draw(r *ask.Request, variants []variant) error {
	_, gloss := sheen(r.Job)
	p := packed{
		Looks: []look{lookOf(scene.Paper), lookOf(scene.Ink)}, Side: patternSide, Fade: [2]float64{fadeFrom, fadeTo},
		Edge: scene.EdgePen, Gloss: gloss,
	}
	of := scene.LookOf(style(scene.Paper))
	p.Paint, p.Pens = of.Paint, len(of.Pens)
	for _, v := range variants {
		p.Step = max(p.Step, number(v.scene.ReliefStep()))
	}
	var err error
	if p.Bodies, p.Variants, err = pack(variants); err != nil {
		return err
	}
	p.Views = viewsOf(r, variants[0].scene)
	for _, v := range p.Views {
		c.Places = append(c.Places, v.Name)
	}
	layers, picture, err := patternsOf(of, variants)
	if err != nil {
		return err
	}
	p.Layers, c.Patterns = layers, template.HTML(picture)
	text, err := deflated(p)
	c.Packed = template.HTML(text)
	return err
}

// mostPlaces is how many rooms a page offers to stand in: more would fill a telephone with names.
const mostPlaces = 8

// viewsOf are the whole building from outside and from above, and each room from within.
func viewsOf(r *ask.Request, s *scene.Scene) []view {
	side, _ := s.Camera("SE", 4, 3) // the page itself frames the building in the picture's shape
	above, _ := s.Camera("above", 4, 3)
	out := []view{
		{Name: r.Voice.Text("page.view-whole"), Camera: cameraOf(side)},
		{Name: r.Voice.Text("page.view-above"), Camera: cameraOf(above)},
	}
	for i := range r.Job.Rooms {
		if c, ok := s.Stand(r.Job.Rooms[i].ID); ok && i < mostPlaces {
			out = append(out, view{Name: roomName(r.Job.Rooms[i].ID), Inside: true, Camera: cameraOf(c)})
		}
	}
	return out
}

// degrees of the light above the walls, for words.
func degrees(radians float64) int { return int(math.Round(radians * 180 / math.Pi)) }
