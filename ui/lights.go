package ui

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/scene"
	"seamwright/scene/draft"
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
	reach, view         *button
	angle               *slider
	lines               []string

	asked *plan.Joint // the joint that was clicked, nil: the plainest
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
	l.reach = v.chip("far off", func() { r := &v.style.Raking; r.Reach, r.Shift = after(r.Reach, reaches), [2]float64{} })
	l.view = v.chip("seen from", func() { r := &v.style.Raking; r.View = after(l.distance(), views) })
	const degree = math.Pi / 180
	l.angle = newSlider(v.w, lowestLamp, highestLamp, func() float64 { return v.style.Raking.Angle / degree },
		func(x float64) { v.style.Raking.Angle = x * degree; v.label(); l.judge(); v.pic.redraw() })
	return l
}

// roomForAll is the width from which all switches of the lights stand in the view; below it the rarer ones have only
// their keys and their places in the menu, so that the room stays in sight.
const roomForAll float32 = 600

func (l *lights) chips() []fyne.CanvasObject {
	return []fyne.CanvasObject{l.angle, l.flood, l.from, l.reach, l.ceiling, l.day, l.sheen, l.level, l.view, l.marks}
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
	level := "Level as planned"
	if r.Level > 0 {
		level = fmt.Sprintf("Level %d", r.Level)
	}
	l.level.set(level, false)
	l.marks.set("Mark what shows", r.Marks)
	for _, c := range l.chips() {
		shownIf(c, r.On && !l.v.w.presenting && !l.v.bare)
	}
	reach := "Lamp far off"
	if r.Reach > 0 {
		reach = "Lamp " + l.v.w.away(r.Reach) + " off"
	}
	l.reach.set(reach, false)
	l.view.set("Seen from "+l.v.w.away(l.distance()), false)
	for _, c := range []fyne.CanvasObject{l.angle, l.from, l.reach} {
		shownIf(c, r.On && on&scene.Flood != 0 && !l.v.w.presenting && !l.v.bare)
	}
	if l.v.pic.Size().Width < roomForAll {
		for _, c := range []fyne.CanvasObject{l.reach, l.level, l.view, l.marks} {
			c.Hide()
		}
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

// judge works out the verdict on the joint that was clicked, or on the plainest in this light, and marks it.
func (l *lights) judge() {
	l.lines = nil
	v := l.v
	k := &v.style.Raking
	k.Joint = nil
	if k.On && !v.empty() {
		v.build()
		judged := l.plainest()
		l.lines = []string{"No joint here is finished smooth: nothing to judge."}
		if judged.Joint != nil {
			k.Joint = judged.Joint
			l.lines = l.verdict(judged)
		}
	}
	if len(l.box.Objects) > 0 {
		l.write(l.box.Objects[0].(*fyne.Container))
	}
}

// plainest is the joint that was clicked if the answer still has it, else the one that shows most; none where no joint
// is finished.
func (l *lights) plainest() (most scene.Seen) {
	v := l.v
	if l.asked != nil {
		for i := range v.of.Surfaces {
			for _, s := range v.scene.Seen(v.of.Surfaces[i].ID, v.style.Raking) {
				if s.Joint == l.asked {
					return s
				}
			}
		}
		l.asked = nil
	}
	for _, id := range l.surfaces() {
		if all := v.scene.Seen(id, v.style.Raking); len(all) > 0 && (most.Joint == nil || all[0].Times() > most.Times()) {
			most = all[0]
		}
	}
	return most
}

// ask judges the joint under the pointer; away from joints the plainest again.
func (l *lights) ask(h scene.Hit) {
	l.asked = h.Joint
	l.judge()
	l.v.pic.redraw()
}

// distance is how far off the viewer stands, in metres.
func (l *lights) distance() float64 {
	if d := l.v.style.Raking.View; d > 0 {
		return d
	}
	return views[1]
}

// What lamp and viewer can be set to, in metres; the lamp's 0 is far off.
var (
	reaches = []float64{0, 0.5, 1, 2}
	views   = []float64{1, 2, 3, 5}
)

// after is the number that follows in a list, the first after the last.
func after(x float64, list []float64) float64 {
	return list[(slices.Index(list, x)+1)%len(list)]
}

// away writes a distance that need not be exact.
func (w *Window) away(metres float64) string {
	if w.imperial() {
		return oneDecimal(metres/0.3048) + " ft"
	}
	return oneDecimal(metres) + " m"
}

// verdictMends is how many ways to mend are told.
const verdictMends = 3

// verdict says where the joint is, whether it shows, and what would mend it.
func (l *lights) verdict(s scene.Seen) []string {
	w, kind := l.v.w, map[light.Kind]string{light.Tapered: "tapered", light.Butt: "butt"}[s.Kind]
	what := "The plainest joint"
	if l.asked != nil {
		what = "This joint"
	}
	lines := []string{fmt.Sprintf("%s: %s, %s %s; it %s. Contrast %s; from %s the eye sees %s.", what, draft.SurfaceName(s.Surface), kind, l.place(s),
		timesSeen(s.Verdict), percent(s.Contrast), w.away(l.distance()), percent(s.Threshold))}
	if s.Times() <= 1 {
		return lines
	}
	var mends []string
	for _, m := range s.Mends {
		if len(mends) < verdictMends {
			words := m.What
			if m.Times > 0 {
				words += " (then " + oneDecimal(m.Times) + " times)"
			}
			mends = append(mends, words)
		}
	}
	return append(lines, "What mends it: "+strings.Join(mends, "; ")+".")
}

// timesSeen says whether a joint shows and how plainly, against what an eye just sees.
func timesSeen(v light.Verdict) string {
	if v.Times() > 1 {
		return "shows: " + oneDecimal(v.Times()) + " times what is just seen"
	}
	return "does not show: " + oneDecimal(v.Times()) + " of what is just seen"
}

// place says where on its surface a joint runs.
func (l *lights) place(s scene.Seen) string {
	w, j := l.v.w, s.Joint
	var left, foot length.Length
	for i := range l.v.of.Surfaces {
		if f := &l.v.of.Surfaces[i]; f.ID == s.Surface {
			for k, p := range f.Outline {
				if k == 0 || p.X < left {
					left = p.X
				}
				if k == 0 || p.Y < foot {
					foot = p.Y
				}
			}
		}
	}
	switch {
	case j.From.X == j.To.X:
		return w.length(j.From.X-left) + " from the left"
	case j.From.Y == j.To.Y:
		return w.length(j.From.Y-foot) + " from the foot"
	}
	return "aslant"
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
