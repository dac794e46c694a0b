package ui

import (
	"fmt"

	"seamwright/calc"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/scene/draft"

	"fyne.io/fyne/v2"
)

// A seam in the hand clicks from one lawful place to the next, and the rest is planned anew at each. Where the hand
// asks for a place that breaks a rule, the label says which, and the seam stays at the nearest lawful one.

// seamHold is a seam in the hand: as it was when it was taken, since the plan moves on under it.
type seamHold struct {
	seam   draft.Target
	job    *job.Job
	zone   *plan.Zone
	joint  *plan.Joint
	places *plan.SeamPlaces
	was    length.Length
	at     length.Length
}

// hold takes a seam: where it may go, and why it may not be moved at all where that is so.
func (w *Window) hold(t draft.Target) (*seamHold, error) {
	m := w.model
	zone, joint := m.joint(t)
	if joint == nil {
		return nil, fmt.Errorf("the seam has moved: take it again")
	}
	places, err := calc.SeamPlaces(alone(m.Doc.Job()), m.Plan, t.Surface, t.Zone, t.Layer, t.Index)
	if err != nil {
		return nil, err
	}
	h := &seamHold{seam: t, job: m.Doc.Job(), zone: zone, joint: joint, places: places, was: joint.From.X}
	if places.Axis == string(job.AxisY) {
		h.was = joint.From.Y
	}
	h.at = h.was
	return h, nil
}

// on is a place of the seam's axis as a point of the surface.
func (h *seamHold) on(at length.Length) shape.Point {
	if h.places.Axis == string(job.AxisY) {
		return shape.Point{X: h.joint.From.X, Y: at}
	}
	return shape.Point{X: at, Y: h.joint.From.Y}
}

// ticks are the lawful places, and those that a rule bars.
func (h *seamHold) ticks() (lawful, barred []shape.Point) {
	for i := range h.places.Places {
		p := &h.places.Places[i]
		if p.Lawful() {
			lawful = append(lawful, h.on(p.At))
		} else if p.Member > 0 {
			barred = append(barred, h.on(p.At))
		}
	}
	return lawful, barred
}

// place is what is known of where the seam stands now, nil where it is no listed place.
func (h *seamHold) place() *plan.SeamPlace {
	for i := range h.places.Places {
		if h.places.Places[i].At == h.at {
			return &h.places.Places[i]
		}
	}
	return nil
}

// beyond is the next lawful place to one side.
func (h *seamHold) beyond(up bool) (length.Length, bool) {
	best, found := length.Length(0), false
	for i := range h.places.Places {
		p := &h.places.Places[i]
		if p.Lawful() && (up && p.At > h.at && (!found || p.At < best) || !up && p.At < h.at && (!found || p.At > best)) {
			best, found = p.At, true
		}
	}
	return best, found
}

// barredReach is how near to a barred place the hand must be for its reason to be told.
const barredReach = 4 * length.Inch

// words say on what the seam lies, why it does not go where the hand wants it, and where it could go next.
func (h *seamHold) words(w *Window, want length.Length) []string {
	first := "Seam " + w.length(h.at)
	p := h.place()
	if p != nil {
		first += lies(p)
	}
	lines := []string{first}
	if d := (want - h.at).Abs(); d > length.Inch {
		if why := h.places.Why(want, barredReach); !why.None() {
			lines = append(lines, "not at "+w.length(want)+": "+w.voice().Fact(why))
		}
	}
	if next, ok := h.beyond(want >= h.at); ok {
		lines = append(lines, "next lawful: "+w.length(next))
	} else {
		end := h.places.Ends[1]
		if want < h.at {
			end = h.places.Ends[0]
		}
		lines = append(lines, "no further: "+w.voice().Fact(end))
	}
	if p != nil && !p.Gives.None() && h.at != h.was {
		lines = append(lines, w.voice().Fact(p.Gives)+" gives way")
	}
	return lines
}

// lies says what carries a seam at a place.
func lies(p *plan.SeamPlace) string {
	if p.Member > 0 {
		return fmt.Sprintf(" on member %d", p.Member)
	}
	if p.Support != "" && p.Support != plan.Unsupported {
		return " on " + supportWord(string(p.Support))
	}
	return ""
}

// joint is the joint that a target names, nil where the plan has moved on.
func (m *Model) joint(t draft.Target) (*plan.Zone, *plan.Joint) {
	s := m.Surface(t.Surface)
	if s == nil {
		return nil, nil
	}
	for i := range s.Zones {
		z := &s.Zones[i]
		if z.Zone == t.Zone && z.Layer == t.Layer && t.Index >= 0 && t.Index < len(z.Joints) {
			return z, &z.Joints[t.Index]
		}
	}
	return nil, nil
}

// takeSeam picks the seam up: its lawful places stand as ticks.
func (v *stripView) takeSeam() {
	v.w.model.Pick(v.held)
	h, err := v.w.hold(v.held)
	if err != nil {
		v.pulling, v.held = false, draft.Target{}
		v.pic.pressed = false // what the hand still does until it lets go means nothing
		v.w.say("It cannot be moved. " + sentence(err))
		return
	}
	v.hold = h
	lawful, barred := h.ticks()
	v.seam = &draft.SeamDrag{Seam: v.held, At: h.on(h.at), From: h.joint.From, To: h.joint.To, Ticks: lawful, Barred: barred}
	v.w.model.Begin("move seam")
}

// pullSeam lets the seam click to the lawful place nearest to the hand; the rest is planned anew at once.
func (v *stripView) pullSeam(p shape.Point) {
	h := v.hold
	if h == nil {
		return
	}
	want := h.was + p.X - v.heldAt.X
	if h.places.Axis == string(job.AxisY) {
		want = h.was + p.Y - v.heldAt.Y
	}
	if best := h.places.Nearest(want); best >= 0 && h.places.Places[best].At != h.at {
		h.at = h.places.Places[best].At
		if err := v.w.model.Instead("move seam", v.w.seamEdits(h)...); err != nil {
			v.w.say(sentence(err))
		}
	}
	v.seam.At = h.on(h.at)
	v.seam.Lines = h.words(v.w, want)
	v.pic.redraw()
}

// dropSeam leaves the seam where it was let go.
func (v *stripView) dropSeam() {
	h := v.hold
	v.seam, v.hold = nil, nil
	v.w.model.End()
	v.w.pickSurface(h.seam.Surface)
	if h.at != h.was {
		v.w.sayFixed(h)
	}
	v.pic.redraw()
}

// stepSeam moves the picked seam to the next lawful place: with the arrow keys across it.
func (v *stripView) stepSeam(key fyne.KeyName) bool {
	up := key == fyne.KeyRight || key == fyne.KeyUp
	if !up && key != fyne.KeyLeft && key != fyne.KeyDown {
		return false
	}
	w := v.w
	h, err := w.hold(w.model.Selected)
	if err != nil {
		w.say("It cannot be moved. " + sentence(err))
		return true
	}
	if level := h.places.Axis == string(job.AxisY); level != (key == fyne.KeyUp || key == fyne.KeyDown) {
		return false
	}
	next, ok := h.beyond(up)
	if !ok {
		end := h.places.Ends[0]
		if up {
			end = h.places.Ends[1]
		}
		w.say("No further: " + w.voice().Fact(end) + ".")
		return true
	}
	h.at = next
	w.fix(h)
	return true
}
