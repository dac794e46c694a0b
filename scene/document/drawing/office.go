package drawing

import (
	"context"
	"fmt"
	"io"
	"strings"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/scene/document/ask"
)

// The layers of a DXF file, by kind; their names are the same in every language, since offices map them once.
var (
	layerRooms    = layer{"ROOMS", 8, "Continuous"}
	layerWalls    = layer{"WALLS", 7, "Continuous"}
	layerMembers  = layer{"MEMBERS", 8, "Continuous"}
	layerLining   = layer{"LINING", 4, "Continuous"}
	layerOpenings = layer{"OPENINGS", 3, "Continuous"}
	layerDoors    = layer{"DOORS", 3, "Continuous"}
	layerSwings   = layer{"DOOR-SWINGS", 3, "DASHED"}
	layerOverhead = layer{"OVERHEAD", 8, "DASHED"}
	layerOutline  = layer{"OUTLINE", 7, "Continuous"}
	layerSheets   = layer{"SHEETS", 4, "Continuous"}
	layerBehind   = layer{"SHEETS-BEHIND", 8, "DASHED"}
	layerBoxes    = layer{"BOXES", 6, "Continuous"}
	layerScrews   = layer{"SCREWS", 9, "Continuous"}
	layerLevels   = layer{"LEVEL-LINES", 1, "DASHDOT"}
	layerSizes    = layer{"DIMENSIONS", 2, "Continuous"}
	layerWords    = layer{"WORDS", 7, "Continuous"}
)

// jointLayers are those of joints, by how they are finished.
var jointLayers = map[plan.JointKind]layer{
	plan.Tapered: {"JOINTS-TAPERED", 5, "Continuous"}, plan.Butt: {"JOINTS-BUTT", 1, "Continuous"}, plan.Mixed: {"JOINTS-MIXED", 1, "DASHED"},
	plan.PanelGap: {"JOINTS-PANEL", 5, "DASHED"}, plan.Control: {"JOINTS-CONTROL", 1, "DASHDOT"}, plan.InsideCorner: {"CORNERS-INSIDE", 8, "Continuous"},
	plan.OutsideCorner: {"CORNERS-OUTSIDE", 8, "Continuous"}, plan.Trim: {"EDGES-TRIM", 8, "Continuous"}, plan.Perimeter: {"EDGES-PERIMETER", 8, "Continuous"},
}

// office draws a project for the drawing office, in inches or in millimetres as the project has it.
type office struct {
	d  *dxf
	r  *ask.Request
	at shape.Point // where the origin of what is being drawn stands
}

// How far apart drawings stand in the file, and how high letters are: 3/32 in or 2.5 mm on paper at a quarter inch to the
// foot or 1:50, the usual size of notes on drawings (common practice, no source).
const (
	apart      = 1500 * length.Millimetre
	letterInch = 4.5
	letterMM   = 125.0
)

// DXF writes the wanted parts into one drawing, the plan in its own place and below it the surfaces, in rows by room. A
// surface alone stands at its own origin. Nothing wanted is everything.
func DXF(ctx context.Context, w io.Writer, asked *ask.Request) error {
	r := new(ask.Request)
	*r = *asked
	r.Parts = single(asked)
	o := &office{d: newDXF(r.Job.Units != job.Metric), r: r}
	for _, id := range r.Parts {
		if id != Plan && surface(r.Plan, id) == nil {
			return fmt.Errorf("there is nothing called %q to draw: say plan, elevations, or a wall or ceiling like studio/south", id)
		}
	}
	var down length.Length
	if r.Wants(Plan) {
		o.plan()
		down = o.lowest() - apart
	}
	for i := range r.Job.Rooms {
		if err := ctx.Err(); err != nil {
			return err
		}
		down = o.row(r.Job.Rooms[i].ID, down)
	}
	return o.d.writeTo(w)
}

// lowest is how far down the plan reaches, its dimensions included.
func (o *office) lowest() length.Length {
	var low length.Length
	for i := range o.r.Job.Rooms {
		for _, p := range o.r.Job.Rooms[i].Corners {
			low = min(low, p.Y)
		}
	}
	return low - apart
}

// row draws the wanted surfaces of a room side by side, below a line, and gives the next one.
func (o *office) row(room string, down length.Length) length.Length {
	var list []*plan.Surface
	var high length.Length
	for i := range o.r.Plan.Surfaces {
		if s := &o.r.Plan.Surfaces[i]; s.Room == room && o.r.Wants(s.ID) {
			list = append(list, s)
			high = max(high, s.Outline.Bounds().H)
		}
	}
	if len(o.r.Parts) == 1 && len(list) == 1 {
		o.at = shape.Point{}
		o.elevation(list[0])
		return down
	}
	var along length.Length
	for _, s := range list {
		b := s.Outline.Bounds()
		o.at = shape.Point{X: along - b.X, Y: down - high - b.Y}
		o.elevation(s)
		along += b.W + 2*apart
	}
	if len(list) > 0 {
		down -= high + 2*apart
	}
	return down
}

// value is a length in the file's unit.
func (o *office) value(l length.Length) float64 {
	if o.d.inches {
		return l.In()
	}
	return l.MM()
}

// place is a point of what is being drawn.
func (o *office) place(p shape.Point) xy { return xy{o.value(p.X + o.at.X), o.value(p.Y + o.at.Y)} }

func (o *office) ring(poly shape.Polygon) []xy {
	ring := make([]xy, len(poly))
	for i, p := range poly {
		ring[i] = o.place(p)
	}
	return ring
}

func (o *office) letter() float64 {
	if o.d.inches {
		return letterInch
	}
	return letterMM
}

// figure is a length as drawings write it.
func (o *office) figure(l length.Length) string {
	return strings.TrimSuffix(o.r.Voice.Length(l), " mm")
}

// size draws a dimension: a line, its ends ticked, the figure over it.
func (o *office) size(from, to xy, words string) {
	way := to.sub(from)
	if way.long() == 0 {
		return
	}
	unit := way.mul(1 / way.long())
	tick := xy{unit.x - unit.y, unit.x + unit.y}.mul(o.letter() / 3)
	o.d.line(layerSizes, from, to)
	o.d.line(layerSizes, from.sub(tick), from.add(tick))
	o.d.line(layerSizes, to.sub(tick), to.add(tick))
	if unit.x < -1e-9 || unit.x < 1e-9 && unit.y < 0 { // read from below and from the right
		unit = unit.mul(-1)
	}
	o.d.text(layerSizes, from.mid(to).add(xy{-unit.y, unit.x}.mul(o.letter())), o.letter(), unit.degrees(), words)
}
