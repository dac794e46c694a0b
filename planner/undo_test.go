package planner

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamwright/assets"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/money"
	"seamwright/calc/shape"
)

// starts are the texts that random edits begin from.
func starts() []string {
	blockStyle := `seamwright: 1
rooms:
- id: a   # no indent before the dash
  height: 8'
  corners:
    - [0, 0]
    # the far end
    - [12', 0]
    - [12', 10']   # north east

    - [0, 10']
  walls:
  - side: 2
    lining:
    - product:
      - gyp-12   # first layer
      - gyp-12
      finish: 3
    openings:
      - id: d1
        kind: door
        at: 2'
        width: 36"
        height: 80"
  - {side: 4, id: left, boxes: [
      {at: 2', up: 16", width: 2", height: 3"},   # by the door
      {at: 4', up: 16", width: 2", height: 3"},
    ]}
`
	return []string{
		"seamwright: 1\n", "seamwright: 1\nname: x", "{seamwright: 1, rooms: []}",
		"seamwright: 1\r\nunits: metric\r\nrooms: []\r\n# end\r\n",
		string(New(job.Imperial).Source()), blockStyle,
		string(assets.Example), string(assets.KilnYardStudio), string(assets.LaneWorkshop),
	}
}

// editor draws edits that suit the document as it stands, most of them sound.
type editor struct{ t *rapid.T }

func (e editor) n(label string, least, most int) int {
	return rapid.IntRange(least, most).Draw(e.t, label)
}

func (e editor) inches(label string, least, most int) length.Length {
	l := length.Inches(int64(e.n(label, least, most)))
	switch e.n(label+" fraction", 0, 3) {
	case 0:
		return l + length.Sixtyfourths(int64(e.n(label+"/64", 0, 63)))
	case 1:
		return length.Length(e.n(label+" mm", least*25, most*25)) * length.Millimetre
	}
	return l
}

func (e editor) point(label string) shape.Point {
	return shape.Point{X: e.inches(label+" x", -40, 300), Y: e.inches(label+" y", -40, 300)}
}

func (e editor) name(label string) string {
	return rapid.SampledFrom([]string{"shed", "room-1", "Ofen: heiß", "a, b", `"quoted"`, "null", "plain name", "#x", "x # y", "{}", "12", "ü/ö"}).Draw(e.t, label)
}

func (e editor) room(j *job.Job) string {
	ids := []string{"nowhere"}
	for _, r := range j.Rooms {
		ids = append(ids, r.ID, r.ID)
	}
	return rapid.SampledFrom(ids).Draw(e.t, "room")
}

func surfacesOf(j *job.Job) []string {
	var ids []string
	for _, r := range j.Rooms {
		for _, w := range r.Walls {
			ids = append(ids, r.ID+"/"+w.ID)
		}
		if r.Ceiling != nil {
			ids = append(ids, r.ID+"/ceiling")
		}
	}
	return ids
}

func (e editor) surface(j *job.Job) string {
	return rapid.SampledFrom(append(surfacesOf(j), "no/where")).Draw(e.t, "surface")
}

func (e editor) surfaces(j *job.Job) []string {
	return rapid.SliceOfNDistinct(rapid.SampledFrom(append(surfacesOf(j), "no/where")), 1, 3, rapid.ID[string]).Draw(e.t, "surfaces")
}

func (e editor) zones() []job.Zone {
	products := rapid.SampledFrom([]string{"gyp-12", "gyp-16x", "ply-18", job.Open})
	var zones []job.Zone
	for i, k := 0, e.n("zones", 1, 2); i < k; i++ {
		z := job.Zone{Layers: []string{products.Draw(e.t, "product")}, Pattern: job.Staggered, Finish: e.n("finish", 3, 5)}
		if z.Layers[0] != job.Open && e.n("layers", 0, 3) == 0 {
			z.Layers = append(z.Layers, "gyp-12")
		}
		for range z.Layers {
			z.Runs = append(z.Runs, rapid.SampledFrom([]job.Run{job.RunAuto, job.RunAcross, job.RunAlong}).Draw(e.t, "run"))
		}
		if i < k-1 {
			z.To = length.Inches(48)
		}
		zones = append(zones, z)
	}
	return zones
}

func (e editor) wall(j *job.Job, id string) job.Wall {
	var w job.Wall
	for _, r := range j.Rooms {
		for _, x := range r.Walls {
			if r.ID+"/"+x.ID == id {
				w = x
			}
		}
	}
	switch e.n("wall change", 0, 8) {
	case 0:
		w.Framing.Spacing = length.Inches(24)
		w.Framing.Also = []length.Length{e.inches("also", 0, 100)}
	case 1:
		w.Insulation = job.KraftBatt
	case 2:
		w.Duty = []job.Duty{job.Separation, job.Wet}
	case 3:
		w.Duty, w.Insulation, w.Base = nil, job.NoInsulation, 0
	case 4:
		w.Base = e.inches("base", 0, 12)
	case 5:
		w.ID = rapid.SampledFrom([]string{"south", "bench", "gable"}).Draw(e.t, "id")
	case 6:
		w.Backing = &job.Backing{Product: "osb-11", Seams: [][2]shape.Point{{{X: 0, Y: length.Foot}, {X: length.Foot, Y: length.Foot}}}}
	case 7:
		w.Backing, w.Back = nil, ""
	case 8:
		w.Trim = e.inches("trim", 0, 6)
		w.Floor = []shape.Point{{}, {X: length.Foot, Y: length.Inch / 4}}
	}
	return w
}

func (e editor) box() job.Box {
	b := job.Box{At: e.inches("at", 0, 200), Up: e.inches("up", 0, 90), Width: 2 * length.Inch, Height: 3 * length.Inch}
	if e.n("round", 0, 2) == 0 {
		b.Width, b.Height, b.Diameter = 0, 0, 4*length.Inch
	}
	return b
}

func (e editor) opening(kind job.OpeningKind) job.Opening {
	return job.Opening{Kind: kind, At: e.inches("at", 0, 200), Width: e.inches("width", 10, 60), Height: e.inches("height", 10, 84), Sill: e.inches("sill", 0, 40)}
}

func (e editor) ceiling() *job.Ceiling {
	c := &job.Ceiling{Shape: job.Flat, Framing: job.Framing{Material: job.Wood, Spacing: 16 * length.Inch, Member: 3 * length.Inch / 2, Depth: 7 * length.Inch / 2}}
	switch e.n("shape", 0, 3) {
	case 0:
		return nil
	case 1:
		c.Shape, c.Along, c.At, c.High = job.Ridge, job.AxisX, e.inches("ridge", 10, 100), e.inches("high", 100, 200)
	case 2:
		c.Shape, c.From, c.To, c.High = job.Slope, "south", "north", e.inches("high", 100, 200)
	}
	return c
}

func (e editor) alternative(j *job.Job) string {
	names := []string{"no such"}
	for _, a := range j.Alternatives {
		names = append(names, a.Name, a.Name)
	}
	return rapid.SampledFrom(names).Draw(e.t, "alternative")
}

// edit draws one edit.
func (e editor) edit(d *Document) Edit {
	j := d.Job()
	surface := func() string { return e.surface(j) }
	date := job.Date{Year: 2027, Month: 3, Day: e.n("day", 1, 28)}
	switch e.n("edit", 0, 42) {
	case 0, 1, 2:
		at, w, h := e.point("at"), e.inches("w", 60, 300), e.inches("h", 60, 200)
		return AddRoom{Corners: shape.Rect{X: at.X, Y: at.Y, W: w, H: h}.Polygon(), Height: e.inches("height", 84, 144)}
	case 3:
		return RemoveRoom{e.room(j)}
	case 4:
		return RenameRoom{e.room(j), rapid.SampledFrom([]string{"a", "b", "studio", "läden"}).Draw(e.t, "to")}
	case 5, 6:
		room, corner, to := e.room(j), e.n("corner", 1, 4), e.point("to")
		for _, r := range j.Rooms {
			if r.ID == room && corner <= len(r.Corners) && e.n("near by", 0, 3) > 0 {
				c := r.Corners[corner-1]
				to = shape.Point{X: c.X + e.inches("dx", -10, 10), Y: c.Y + e.inches("dy", -10, 10)}
			}
		}
		return MoveCorner{room, corner, to}
	case 7:
		return MoveSide{e.room(j), e.n("side", 1, 6), e.point("through")}
	case 8:
		return MoveRoom{e.room(j), e.point("by")}
	case 9:
		room, side, at := e.room(j), e.n("side", 1, 5), e.point("at")
		for _, r := range j.Rooms {
			if r.ID == room && side <= len(r.Corners) && e.n("on the side", 0, 3) > 0 {
				a, b := r.Corners[side-1], r.Corners[side%len(r.Corners)]
				at = shape.Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2}
			}
		}
		return AddCorner{room, side, at}
	case 10:
		return RemoveCorner{e.room(j), e.n("corner", 1, 6)}
	case 11:
		return SetRoomHeight{e.room(j), e.inches("height", 80, 200)}
	case 12, 13:
		return SetCeiling{e.room(j), e.ceiling()}
	case 14, 15, 16:
		s := surface()
		return SetWall{s, e.wall(j, s)}
	case 17, 18, 19:
		return SetLining{e.surfaces(j), e.zones()}
	case 20, 21:
		return AddOpening{surface(), e.opening(rapid.SampledFrom([]job.OpeningKind{job.Door, job.Window, job.Hatch}).Draw(e.t, "kind"))}
	case 22:
		return ChangeOpening{surface(), rapid.SampledFrom([]string{"d1", "w1", "h1"}).Draw(e.t, "id"), e.opening(job.Window)}
	case 23:
		return RemoveOpening{surface(), rapid.SampledFrom([]string{"d1", "w1", "h1"}).Draw(e.t, "id")}
	case 24:
		return AddBox{surface(), e.box()}
	case 25:
		return ChangeBox{surface(), e.n("box", 0, 2), e.box()}
	case 26:
		return RemoveBox{surface(), e.n("box", 0, 2)}
	case 27:
		if e.n("edge", 0, 2) == 0 {
			return AddPin{surface(), job.Pin{Zone: 1, Layer: 1, Edge: true, Seam: e.inches("seam", 10, 90)}}
		}
		return AddPin{surface(), job.Pin{Zone: 1, Layer: 1, Course: e.n("course", 1, 3), Seam: e.inches("seam", 10, 90)}}
	case 28:
		return RemovePin{surface(), e.n("pin", 0, 1)}
	case 29:
		return AddStock{job.Stock{Product: "gyp-12", Length: e.inches("l", 10, 90), Width: e.inches("w", 10, 48), Tapered: e.n("t", 0, 1) == 0, Count: e.n("c", 1, 9), Note: e.name("note")}}
	case 30:
		return RemoveStock{e.n("stock", 0, 2)}
	case 31:
		return SetPrice{"gyp-12", 8 * length.Foot, 48 * length.Inch, money.Money(e.n("price", 100, 9999))}
	case 32:
		return SetPackPrice{"screw-w-32", "box of 1000", money.Money(e.n("price", 100, 9999))}
	case 33:
		s := j.Site
		s.Celsius, s.People, s.TaxRate = float64(e.n("celsius", 10, 30)), e.n("people", 1, 4), roundShare(float64(e.n("tax", 0, 25)))
		s.Start = date
		s.Crew.Known = e.n("crew", 0, 1) > 0
		s.Crew.Lift, s.Crew.Heaviest = e.n("lift", 0, 1) > 0, float64(e.n("heaviest", 0, 1)*50)
		s.Crew.Longest = length.Length(e.n("longest", 0, 2)) * 6 * length.Foot
		if !s.Crew.Known {
			s.Crew = job.Crew{}
		}
		return SetSite{s}
	case 34:
		u := j.Rules
		u.Stagger, u.BackBlocking = e.inches("stagger", 8, 32), e.n("blocking", 0, 1) == 1
		u.Rakes = []job.Rakes{job.RakesApart, job.RakesPaired}[e.n("rakes", 0, 1)]
		return SetRules{u}
	case 35:
		return rapid.SampledFrom([]Edit{SetAim{job.AimJoints}, SetAim{job.AimCost}, SetUnits{job.Metric}, SetUnits{job.Imperial}, SetLanguage{job.Spanish}, SetLanguage{},
			SetPaint{job.Paint{Primer: 1, Coats: 3}}, SetCurrency{"EUR"}, SetCurrency{"not one"}}).Draw(e.t, "setting")
	case 36:
		return SetName{e.name("name")}
	case 37:
		return AddAlternative{e.name("alternative"), ""}
	case 38, 39:
		return SetAlternativeLining{e.alternative(j), e.surfaces(j), e.zones()}
	case 40:
		return RemoveAlternative{e.alternative(j)}
	case 41:
		return TickTask{rapid.SampledFrom([]string{"hang-a", "tape"}).Draw(e.t, "task"), e.n("done", 0, 2) > 0, date, float64(e.n("hours", 0, 9))}
	default:
		if e.n("figure", 0, 1) == 0 {
			return SetFigure{"tape-waste", float64(e.n("value", 0, 50)) / 100}
		}
		return RecordUse{"tape", "compound", float64(e.n("quantity", 0, 5))}
	}
}

// TestEditsAndUndo: any edits and all undos give the same bytes, all redos give the edited bytes again, a refused
// edit changes nothing, and what is shown is always what a fresh reading of the text gives.
func TestEditsAndUndo(t *testing.T) {
	made := map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		start := rapid.SampledFrom(starts()).Draw(t, "start")
		d, err := Parse("start", []byte(start))
		require.NoError(t, err)
		texts := []string{start} // one for each undo step
		pending := false
		e := editor{t}
		for i, k := 0, e.n("steps", 1, 12); i < k; i++ {
			switch e.n("action", 0, 12) {
			case 0:
				if _, ok := d.CanUndo(); ok && !pending {
					require.True(t, d.Undo())
					texts = texts[:len(texts)-1]
				}
			case 1:
				if !pending {
					d.BeginGroup("gesture")
					pending = true
				}
			case 2:
				d.EndGroup()
				if pending && texts[len(texts)-1] != string(d.Source()) {
					texts = append(texts, string(d.Source()))
				}
				pending = false
			default:
				before := string(d.Source())
				edit := e.edit(d)
				name := fmt.Sprintf("%T", edit)
				if err := d.Apply(edit); err != nil {
					require.Equal(t, before, string(d.Source()), "%s was refused (%v), but changed the text", name, err)
					continue
				}
				made[name]++
				requireEffect(t, edit, d)
				if !pending && before != string(d.Source()) {
					texts = append(texts, string(d.Source()))
				}
				fresh, err := Parse("again", d.Source())
				require.NoError(t, err)
				require.Equal(t, fresh.Job(), d.Job())
				requireComments(t, start, before, string(d.Source()), edit)
			}
		}
		d.EndGroup()
		if pending && texts[len(texts)-1] != string(d.Source()) {
			texts = append(texts, string(d.Source()))
		}
		last := string(d.Source())
		for i := len(texts) - 2; i >= 0; i-- {
			require.True(t, d.Undo())
			require.Equal(t, texts[i], string(d.Source()))
		}
		require.False(t, d.Undo())
		require.Equal(t, start, string(d.Source()))
		require.False(t, d.Dirty())
		for range len(texts) - 1 {
			require.True(t, d.Redo())
		}
		require.True(t, bytes.Equal([]byte(last), d.Source()))
	})
	for _, want := range []string{"AddRoom", "MoveCorner", "SetCeiling", "SetWall", "SetLining"} {
		require.NotZero(t, made["planner."+want], "no %s was ever accepted", want)
	}
}

// requireComments: comments are lost only with the thing that they stand in.
func requireComments(t *rapid.T, start, before, after string, edit Edit) {
	switch edit.(type) {
	case RemoveRoom, AddCorner, RemoveCorner, RemoveAlternative, RemoveOpening, RemoveBox, RemovePin, RemoveStock, TickTask, SetCeiling, SetLining,
		SetAlternativeLining, SetWall, RecordUse, SetSite:
		return // these may take lines away
	}
	for _, line := range strings.Split(start, "\n") {
		if _, comment, ok := strings.Cut(line, " # "); ok && strings.Contains(before, comment) {
			require.Contains(t, after, comment, "%T lost a comment", edit)
		}
	}
}

// requireEffect: the document now says what the edit asked for.
func requireEffect(t *rapid.T, edit Edit, d *Document) {
	j := d.Job()
	room := func(id string) job.Room {
		for _, r := range j.Rooms {
			if r.ID == id {
				return r
			}
		}
		require.Fail(t, "room is gone", id)
		return job.Room{}
	}
	lining := func(j *job.Job, surface string) []job.Zone {
		for _, r := range j.Rooms {
			for _, w := range r.Walls {
				if r.ID+"/"+w.ID == surface {
					return w.Lining
				}
			}
			if r.ID+"/ceiling" == surface {
				return r.Ceiling.Lining
			}
		}
		require.Fail(t, "surface is gone", surface)
		return nil
	}
	switch e := edit.(type) {
	case MoveCorner:
		require.Equal(t, e.To, room(e.Room).Corners[e.Corner-1])
	case SetRoomHeight:
		require.Equal(t, e.Height, room(e.Room).Height)
	case SetCeiling:
		c := room(e.Room).Ceiling
		require.Equal(t, e.Ceiling == nil, c == nil)
		if c != nil {
			require.Equal(t, e.Ceiling.Shape, c.Shape)
			require.Equal(t, e.Ceiling.High, c.High)
			require.Equal(t, e.Ceiling.Framing.Depth, c.Framing.Depth)
		}
	case SetLining:
		for _, s := range e.Surfaces {
			require.Equal(t, e.Zones, lining(j, s))
		}
	case SetAlternativeLining:
		for _, s := range e.Surfaces {
			require.Equal(t, e.Zones, lining(d.JobFor(e.Alternative), s))
		}
	case SetWall:
		for _, w := range room(roomOf(e.Surface)).Walls {
			if w.ID == e.Wall.ID {
				want := e.Wall
				want.Lining, want.Openings, want.Boxes, want.Pins = w.Lining, w.Openings, w.Boxes, w.Pins
				require.Equal(t, asWritten(want), asWritten(w))
				return
			}
		}
		require.Fail(t, "wall is gone")
	case SetSite:
		want := e.Site
		require.InDelta(t, want.Celsius, j.Site.Celsius, 1e-6)
		want.Celsius = j.Site.Celsius
		require.Equal(t, want, j.Site)
	case SetRules:
		require.Equal(t, e.Rules, j.Rules)
	case SetName:
		require.Equal(t, e.Name, j.Name)
	case SetPaint:
		require.Equal(t, e.Paint, j.Paint)
	case SetPrice:
		for _, s := range j.Product(e.Product).Sizes {
			if s.Length == e.Length && s.Width == e.Width {
				require.Equal(t, e.Price, s.Price)
			}
		}
	case AddStock:
		require.Equal(t, e.Stock, j.Stock[len(j.Stock)-1])
	case RenameRoom:
		room(e.To)
	}
}

// asWritten makes empty and missing lists the same.
func asWritten(w job.Wall) job.Wall {
	if len(w.Framing.Also) == 0 {
		w.Framing.Also = nil
	}
	if len(w.Duty) == 0 {
		w.Duty = nil
	}
	return w
}
