package ui

import (
	"fmt"
	"math"
	"strings"

	"seamwright/scene"
	"seamwright/scene/light"

	"fyne.io/fyne/v2"
)

// lights are the switches of the finished wall's view, what stands at the head of it, and the verdict: how plainly the
// worst joint shows, and what would mend it.
type lights struct {
	v   *roomView
	box *fyne.Container // the verdict

	flood, ceiling, day *button
	from                *button
	sheen, level, marks *button
	angle               *slider
	lines               []string
}

func newLights(v *roomView) *lights {
	l := &lights{v: v}
	inner := container0()
	l.box = laidOut(arrange{fyne.NewSize(10, 10), func(fyne.Size) { l.write(inner) }}, inner)
	toggle := func(lamp scene.Lamps) func() {
		return func() {
			r := &v.style.Raking
			on := l.lit() ^ lamp
			if on == 0 {
				v.w.say("One light must stay on.")
				return
			}
			r.Lamps = on
			l.judge()
		}
	}
	l.flood = v.chip("Flood lamp", toggle(scene.Flood))
	l.ceiling = v.chip("Ceiling lamps", toggle(scene.CeilingLamps))
	l.day = v.chip("Daylight", toggle(scene.Daylight))
	l.from = v.chip("from", func() { v.style.Raking.From = math.Mod(v.style.Raking.From+math.Pi/2, 2*math.Pi); l.judge() })
	l.sheen = v.chip("flat", func() { v.style.Raking.Sheen = (v.style.Raking.Sheen + 1) % (scene.Gloss + 1); l.judge() })
	l.level = v.chip("level", func() {
		r := &v.style.Raking
		r.Level = map[int]int{0: 3, 3: 4, 4: 5, 5: 0}[r.Level]
		l.judge()
	})
	l.marks = v.chip("Mark what shows", func() { v.style.Raking.Marks = !v.style.Raking.Marks })
	const degree = math.Pi / 180
	l.angle = newSlider(v.w, lowestLamp, highestLamp, func() float64 { return v.style.Raking.Angle / degree },
		func(x float64) { v.style.Raking.Angle = x * degree; v.label(); l.judge(); v.pic.redraw() })
	return l
}

func (l *lights) chips() []fyne.CanvasObject {
	return []fyne.CanvasObject{l.angle, l.flood, l.from, l.ceiling, l.day, l.sheen, l.level, l.marks}
}

// lampSides are where the flood lamp can stand, as one looks at the wall.
var lampSides = [...]string{"the left", "above", "the right", "below"}

// next lights the next of the three lights alone.
func (l *lights) next() {
	r := &l.v.style.Raking
	r.On = true
	r.Lamps = map[scene.Lamps]scene.Lamps{scene.Flood: scene.CeilingLamps, scene.CeilingLamps: scene.Daylight}[l.lit()]
	l.v.label()
	l.v.pic.redraw()
}

// lit is the lights that are on; none named means the flood lamp.
func (l *lights) lit() scene.Lamps {
	if on := l.v.style.Raking.Lamps; on != 0 {
		return on
	}
	return scene.Flood
}

// label shows the switches as they stand, and only while the light is on.
func (l *lights) label() {
	r := &l.v.style.Raking
	on := l.lit()
	l.flood.set("Flood lamp", on&scene.Flood != 0)
	l.ceiling.set("Ceiling lamps", on&scene.CeilingLamps != 0)
	l.day.set("Daylight", on&scene.Daylight != 0)
	l.from.set("from "+lampSides[int(math.Round(r.From/(math.Pi/2)))%len(lampSides)], false)
	l.sheen.set("Paint: "+r.Sheen.String(), false)
	level := "Level planned"
	if r.Level > 0 {
		level = fmt.Sprintf("Level %d", r.Level)
	}
	l.level.set(level, false)
	l.marks.set("Mark what shows", r.Marks)
	for _, c := range l.chips() {
		shownIf(c, r.On && !l.v.w.presenting)
	}
	for _, c := range []fyne.CanvasObject{l.angle, l.from} {
		shownIf(c, r.On && on&scene.Flood != 0 && !l.v.w.presenting)
	}
	l.angle.Refresh()
	l.judge()
}

// surfaces are what is judged: the wall that is picked, else every one.
func (l *lights) surfaces() []string {
	if t := l.v.w.model.Selected; t.Surface != "" {
		return []string{t.Surface}
	}
	var all []string
	for i := range l.v.of.Surfaces {
		all = append(all, l.v.of.Surfaces[i].ID)
	}
	return all
}

// judge works out the verdict on the worst joint in this light.
func (l *lights) judge() {
	l.lines = nil
	if v := l.v; v.style.Raking.On && v.w.model.Plan != nil {
		v.build()
		var worst light.Verdict
		where := ""
		for _, id := range l.surfaces() {
			if j, ok := v.scene.Judge(id, v.style.Raking); ok && (where == "" || j.Times() > worst.Times()) {
				worst, where = j, id
			}
		}
		l.lines = verdictLines(where, worst)
	}
	if len(l.box.Objects) > 0 {
		l.write(l.box.Objects[0].(*fyne.Container))
	}
}

// verdictMends is how many ways to mend are told.
const verdictMends = 3

func verdictLines(where string, v light.Verdict) []string {
	if where == "" {
		return []string{"No joint here is finished smooth: nothing to judge."}
	}
	seen := "not seen"
	if v.Times() > 1 {
		seen = "seen"
	}
	kind := map[light.Kind]string{light.Tapered: "tapered", light.Butt: "butt"}[v.Kind]
	lines := []string{fmt.Sprintf("%s: its worst joint (%s) is %s. Contrast %s, the eye asks for %s: %s times.",
		capital(shortName(where)), kind, seen, percent(v.Contrast), percent(v.Threshold), oneDecimal(v.Times()))}
	if v.Times() <= 1 {
		return lines
	}
	var mends []string
	for _, m := range v.Mends {
		if len(mends) < verdictMends {
			words := m.What
			if m.Times > 0 {
				words += " (" + oneDecimal(m.Times) + ")"
			}
			mends = append(mends, words)
		}
	}
	return append(lines, "What mends it: "+strings.Join(mends, "; ")+".")
}

// write sets the verdict on patches of paper, so that it reads over any picture.
func (l *lights) write(box *fyne.Container) {
	box.RemoveAll()
	p, width := l.v.w.pal, l.box.Size().Width
	if width < 40 || len(l.lines) == 0 {
		box.Refresh()
		return
	}
	y := float32(0)
	for _, long := range l.lines {
		for _, words := range wrap(long, sizeSmall, false, width-14) {
			t := p.text(words, sizeSmall, false, p.Ink)
			ground := newPatch(p)
			put(ground, 0, y, t.MinSize().Width+12, 17)
			put(t, 6, y+1, t.MinSize().Width, t.MinSize().Height)
			box.Add(ground)
			box.Add(t)
			y += 17
		}
	}
	box.Refresh()
}
