package drawing

import (
	"context"
	"fmt"
	"image/color"
	"io"
	"slices"

	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/scene/document/ask"
	"seamwright/scene/draft"
)

// The frame of a drawing on its paper, in logical pixels.
const (
	margin = 0.5 * draft.PixelsPerInch // most printers reach so far
	title  = 34.0                      // the line below the drawing that says what it is
	legend = 30.0                      // signs of the joints above that line
)

// SVG writes the wanted parts, one below the other, each on a page of the request's paper laid wide. Nothing wanted is the
// plan.
func SVG(ctx context.Context, w io.Writer, r *ask.Request) error {
	ids := single(r)
	if len(ids) == 0 {
		ids = []string{Plan}
	}
	wide, high := paper(r.Paper)
	file := draft.NewSVG(wide, high*float64(len(ids)))
	file.Paper = true
	file.Title = r.Plan.Name
	for i, id := range ids {
		if err := ctx.Err(); err != nil {
			return err
		}
		s := &page{r: r, c: part{file, draft.Rect{Y: float64(i) * high, W: wide, H: high}.Inset(margin)}, th: theme()}
		if err := s.draw(id); err != nil {
			return err
		}
		r.Tell(i+1, len(ids))
	}
	_, err := file.WriteTo(w)
	return err
}

// paper is a sheet of it laid wide, in logical pixels.
func paper(p ask.Paper) (w, h float64) {
	if p == ask.A4 {
		return 297 / 25.4 * draft.PixelsPerInch, 210 / 25.4 * draft.PixelsPerInch
	}
	return 11 * draft.PixelsPerInch, 8.5 * draft.PixelsPerInch
}

// page is one drawing on its paper.
type page struct {
	r  *ask.Request
	c  draft.Canvas // within the margins
	th *draft.Theme
}

// draw draws a part and says below it what it is and to what scale.
func (s *page) draw(id string) error {
	w, h := s.c.Size()
	room := draft.Rect{W: w, H: h - title}
	q, sh := surface(s.r.Plan, id), sheet(s.r.Plan, id)
	switch {
	case id == Plan:
		s.plan(room)
	case q != nil:
		s.elevation(q, room)
	case sh != nil:
		draft.DrawCutSheet(s.c, s.th, sh, s.r.Plan, s.r.Job, room, draft.CutState{Inch: draft.PixelsPerInch, Say: s.r.Voice})
		s.words(s.r.Voice.Text("drawing.cut-sheet", "sheet", sh.ID), draft.CutSheetScale(sh, s.r.Job, room, draft.PixelsPerInch))
	default:
		return fmt.Errorf("there is nothing called %q to draw: say plan, elevations, cutsheets, a wall or ceiling like %s, or a sheet like S001", id, s.example())
	}
	return nil
}

// example is the id of a surface, for who asks for one that is not there.
func (s *page) example() string {
	if len(s.r.Plan.Surfaces) == 0 {
		return "studio/south"
	}
	return s.r.Plan.Surfaces[0].ID
}

func (s *page) plan(room draft.Rect) {
	v := draft.FitPlan(s.r.Job, room)
	scale := draft.ScaleFor(s.r.Job, v.Scale, draft.PixelsPerInch)
	draft.DrawPlan(part{s.c, room}, s.th, s.r.Plan, s.r.Job, v.ToScale(scale, draft.PixelsPerInch, room), draft.PlanState{NoGrid: true, Say: s.r.Voice})
	s.words(s.r.Voice.Text("drawing.plan"), scale)
}

func (s *page) elevation(q *plan.Surface, room draft.Rect) {
	notes := s.notes(q)
	state := draft.ElevationState{Say: s.r.Voice, Sizes: draft.CutSizes(s.r.Plan, s.r.Voice)}
	area, scale, view := s.lay(q, room, len(notes))
	if pieces := draft.Unsized(s.r.Plan, s.r.Job, q.ID, view, state); len(pieces) > 0 {
		for i, id := range pieces {
			pieces[i] = id + " " + state.Sizes[id]
		}
		notes = append(notes, rows(pieces, room.W)...)
		area, scale, view = s.lay(q, room, len(notes))
	}
	draft.DrawElevation(part{s.c, area}, s.th, s.r.Plan, s.r.Job, q.ID, view, state)
	s.c.Begin("notes")
	y := area.Y + area.H
	for _, n := range notes {
		y += noteRow
		s.c.Text(draft.Pt{X: room.X, Y: y - 4}, draft.Shorten(n, draft.Small, draft.Regular, room.W), draft.Type{Size: draft.Small, Color: s.th.Ink})
	}
	s.c.End()
	if kinds := jointsOn(q); len(kinds) > 0 {
		draft.DrawLegend(s.c, s.th, s.r.Voice, draft.Pt{X: room.X, Y: y + legend - 10}, room.W, kinds...)
	}
	s.words(draft.SurfaceName(q.ID), scale)
}

// rows sets words beside each other in as many lines as a width asks for.
func rows(list []string, wide float64) (lines []string) {
	for _, w := range list {
		if n := len(lines); n > 0 {
			if more := lines[n-1] + " · " + w; draft.Measure(more, draft.Small, draft.Regular) <= wide {
				lines[n-1] = more
				continue
			}
		}
		lines = append(lines, w)
	}
	return lines
}

// lay places a surface to the largest usual scale that leaves room for so many notes below.
func (s *page) lay(q *plan.Surface, room draft.Rect, notes int) (area draft.Rect, scale draft.Scale, v draft.View) {
	room.H -= legend + noteRow*float64(notes)
	scale = draft.ScaleFor(s.r.Job, draft.FitElevation(s.r.Plan, q.ID, room).Scale, draft.PixelsPerInch)
	return room, scale, draft.ElevationToScale(s.r.Plan, q.ID, scale, draft.PixelsPerInch, room)
}

// noteRow is the height of a line of notes, mostNotes how many of them leave room for the drawing.
const (
	noteRow   = 16.0
	mostNotes = 6
)

// notes says what the numbers on an elevation stand for: the checks of its surface that have a place there.
func (s *page) notes(q *plan.Surface) (list []string) {
	for i, k := range s.r.Plan.Checks {
		if k.Where == q.ID && (k.Level == plan.Error || k.Level == plan.Caution && k.At != (shape.Point{})) && len(list) < mostNotes {
			list = append(list, fmt.Sprintf("%d  %s", i+1, draft.Plainly(s.r.Job, s.r.Voice.Fact(k.Says))))
		}
	}
	return list
}

// jointsOn are the kinds of joints that a surface has, each once.
func jointsOn(q *plan.Surface) (kinds []plan.JointKind) {
	for i := range q.Zones {
		for _, k := range q.Zones[i].Joints {
			if !slices.Contains(kinds, k.Kind) {
				kinds = append(kinds, k.Kind)
			}
		}
	}
	return kinds
}

// words says below the drawing what it shows, of which project, when and to what scale.
func (s *page) words(what string, scale draft.Scale) {
	s.c.Begin("title")
	defer s.c.End()
	w, h := s.c.Size()
	foot := h - 6
	s.c.Stroke([]draft.Pt{{Y: foot - 22}, {X: w, Y: foot - 22}}, false, draft.Pen{Width: 1, Color: s.th.Ink})
	s.c.Text(draft.Pt{Y: foot}, what, draft.Type{Size: draft.Heading, Weight: draft.Semibold, Color: s.th.Ink})
	more := s.r.Voice.Text("drawing.foot", "project", s.r.Plan.Name, "date", s.r.Made, "scale", scale.Text(s.r.Job))
	s.c.Text(draft.Pt{X: w, Y: foot}, more, draft.Type{Size: draft.Body, Anchor: draft.End, Color: s.th.Ink})
}

// sheet finds a part's sheet in the plan, nil where the part is something else.
func sheet(p *plan.Plan, id string) *plan.Sheet {
	for i := range p.Sheets {
		if p.Sheets[i].ID == id {
			return &p.Sheets[i]
		}
	}
	return nil
}

// theme is the one of paper on a white ground, as printers have it.
func theme() *draft.Theme {
	th := *draft.Paper()
	th.Pane = color.NRGBA{255, 255, 255, 255}
	return &th
}
