package ui

import (
	"fmt"
	"slices"
	"sort"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/planner"
	"seamwright/scene/draft"

	"fyne.io/fyne/v2"
)

// A seam in the hand moves from one bearing to the next; where it is let go it is pinned and the rest is planned anew.
// A pin that breaks a rule is kept, and the checks say which one and what would be lawful.

// bearing is a place where an upright seam may land, and on what it then lies.
type bearing struct {
	at   length.Length
	what string
}

// bearings are the members of a surface in order; a horizontal seam has none and follows the grid.
func bearings(s *plan.Surface, axis job.Axis) []bearing {
	if s.Members.Axis != string(axis) {
		return nil
	}
	at := append([]length.Length(nil), s.Members.At...)
	sort.Slice(at, func(i, j int) bool { return at[i] < at[j] })
	low, high := bounds(s.Outline)
	from, to := low.X, high.X
	if axis == job.AxisY {
		from, to = low.Y, high.Y
	}
	var list []bearing
	for i, x := range at {
		if x-from > s.Members.Width && to-x > s.Members.Width {
			list = append(list, bearing{x, fmt.Sprintf("stud %d", i+1)})
		}
	}
	return list
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
	s := v.w.model.Surface(v.held.Surface)
	if s == nil {
		return
	}
	v.bearing = bearings(s, v.held.Drag)
	v.seam = &draft.SeamDrag{Seam: v.held, At: v.held.At}
	for _, b := range v.bearing {
		p := shape.Point{X: b.at, Y: v.held.At.Y}
		if v.held.Drag == job.AxisY {
			p = shape.Point{X: v.held.At.X, Y: b.at}
		}
		v.seam.Ticks = append(v.seam.Ticks, p)
	}
}

// pullSeam lets the seam click from one bearing to the next.
func (v *stripView) pullSeam(p shape.Point) {
	if v.seam == nil {
		return
	}
	want := v.was + p.X - v.heldAt.X
	if v.held.Drag == job.AxisY {
		want = v.was + p.Y - v.heldAt.Y
	}
	at, what, next := v.land(want)
	if v.held.Drag == job.AxisY {
		v.seam.At.Y = at
	} else {
		v.seam.At.X = at
	}
	v.seam.Lines = []string{"Seam " + v.w.length(at) + what, next}
	v.pic.redraw()
}

// land is the lawful place nearest to where the hand wants the seam, what it lies on, and where it could go next.
func (v *stripView) land(want length.Length) (at length.Length, what, next string) {
	if len(v.bearing) == 0 {
		return nearest(want, snapStep(v.w.imperial(), v.view, snapGrid)), "", "let go to fix it here"
	}
	best := 0
	for i, b := range v.bearing {
		if (b.at - want).Abs() < (v.bearing[best].at - want).Abs() {
			best = i
		}
	}
	b := v.bearing[best]
	switch {
	case want > b.at && best == len(v.bearing)-1, want < b.at && best == 0:
		next = "no further: beyond it stands only the corner"
	case want > b.at:
		next = "next bearing: " + v.w.length(v.bearing[best+1].at)
	case best > 0:
		next = "next bearing: " + v.w.length(v.bearing[best-1].at)
	}
	return b.at, " on " + b.what, next
}

// dropSeam pins the seam where it was let go.
func (v *stripView) dropSeam() {
	drag := v.seam
	v.seam, v.bearing = nil, nil
	at := drag.At.X
	if drag.Seam.Drag == job.AxisY {
		at = drag.At.Y
	}
	if at != v.was {
		v.w.pin(drag.Seam, v.was, at)
	}
	v.pic.redraw()
}

// stepSeam moves the picked seam stud by stud.
func (v *stripView) stepSeam(key fyne.KeyName) bool {
	t := v.w.model.Selected
	_, joint := v.w.model.joint(t)
	s := v.w.model.Surface(t.Surface)
	if joint == nil || s == nil || key != fyne.KeyLeft && key != fyne.KeyRight {
		return false
	}
	was, list := joint.From.X, bearings(s, job.AxisX)
	for i := range list {
		k := i
		if key == fyne.KeyLeft {
			k = len(list) - 1 - i
		}
		if key == fyne.KeyRight && list[k].at > was || key == fyne.KeyLeft && list[k].at < was {
			v.w.pin(t, was, list[k].at)
			return true
		}
	}
	v.w.say("No further: beyond it stands only the corner.")
	return true
}

// pinSeam fixes the picked seam where it lies, or frees it.
func (w *Window) pinSeam() {
	t := w.model.Selected
	if t.Kind == draft.OnPin {
		w.remove()
		return
	}
	_, joint := w.model.joint(t)
	if t.Kind != draft.OnSeam || joint == nil {
		w.say("Click a seam in the strip first.")
		return
	}
	at := joint.From.X
	if joint.From.Y == joint.To.Y {
		at = joint.From.Y
	}
	w.pin(t, at, at)
}

// pin fixes a seam at a place. An end joint is pinned in its course, and the pin that fixed it before goes; a joint
// between two courses is where the heights of the courses put it, so those are fixed.
func (w *Window) pin(t draft.Target, was, at length.Length) {
	zone, joint := w.model.joint(t)
	if joint == nil {
		return
	}
	upper, lower := courseOf(zone, joint, 0), courseOf(zone, joint, 1)
	if upper != lower && upper > 0 && lower > 0 {
		w.fixCourses(t, zone, min(upper, lower), at)
		return
	}
	surface := surfaceName(t.Surface)
	w.model.Begin("fix seam")
	for i, p := range pinsOf(findSurface(w.model.Doc.Job(), surface)) {
		if p.Zone == t.Zone && p.Layer == t.Layer && p.Course == upper && p.Seam == was {
			w.try(planner.RemovePin{Surface: surface, Index: i})
			break
		}
	}
	done := w.try(planner.AddPin{Surface: surface, Pin: job.Pin{Zone: t.Zone, Layer: t.Layer, Course: upper, Seam: at}})
	w.model.End()
	w.pickSurface(t.Surface)
	if done {
		w.say("Seam fixed at " + w.length(at) + ". Click its pin to free it.")
	}
}

// courseOf is the course of the panel on one side of a joint, 0 where there is none.
func courseOf(zone *plan.Zone, joint *plan.Joint, side int) int {
	if side >= len(joint.Panels) {
		return 0
	}
	for _, p := range zone.Panels {
		if p.ID == joint.Panels[side] {
			return p.Course
		}
	}
	return 0
}

// fixCourses moves the line between a course (from 1) and the next, and fixes all courses as they stand otherwise.
func (w *Window) fixCourses(t draft.Target, zone *plan.Zone, below int, at length.Length) {
	across := func(p shape.Point) length.Length { // the coordinate that counts courses
		if zone.Run == string(job.RunAlong) {
			return p.X
		}
		return p.Y
	}
	low, high := bounds(zone.Outline)
	lines := []length.Length{across(low)}
	for c := 1; ; c++ {
		line, ok := courseLine(zone, c, across)
		if !ok {
			break
		}
		lines = append(lines, line)
	}
	lines = append(lines, across(high))
	if below >= len(lines)-1 {
		return
	}
	lines[below] = at
	var courses []length.Length
	for i := 1; i < len(lines); i++ {
		courses = append(courses, lines[i]-lines[i-1])
	}
	zones := slices.Clone(liningOf(findSurface(w.model.Doc.Job(), t.Surface)))
	if t.Zone < 1 || t.Zone > len(zones) {
		return
	}
	z := &zones[t.Zone-1]
	z.Courses = courses
	z.Runs = slices.Clone(z.Runs)
	if t.Layer >= 1 && t.Layer <= len(z.Runs) {
		z.Runs[t.Layer-1] = job.Run(zone.Run)
	}
	if w.try(w.model.Doc.Lining([]string{surfaceName(t.Surface)}, zones)) {
		w.pickSurface(t.Surface)
		w.say("Courses fixed, with the joint at " + w.length(at) + ". Choosing the finish again frees them.")
	}
}

// courseLine is where the joint between a course and the next lies.
func courseLine(zone *plan.Zone, course int, across func(shape.Point) length.Length) (length.Length, bool) {
	for i := range zone.Joints {
		j := &zone.Joints[i]
		a, b := courseOf(zone, j, 0), courseOf(zone, j, 1)
		if min(a, b) == course && max(a, b) == course+1 && across(j.From) == across(j.To) {
			return across(j.From), true
		}
	}
	return 0, false
}
