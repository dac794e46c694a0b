package ui

import (
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/planner"
	"seamwright/scene/draft"
)

// A seam that is fixed by hand stays where it is put, also where that breaks a rule: the checks then say which one.

// pinSeam fixes the picked seam where it lies, or frees it.
func (w *Window) pinSeam() {
	t := w.model.Selected
	if t.Kind == draft.OnPin {
		w.remove()
		return
	}
	if _, joint := w.model.joint(t); t.Kind != draft.OnSeam || joint == nil {
		w.say("Click a seam in the strip first.")
		return
	}
	h, err := w.hold(t)
	if err != nil {
		w.say("It cannot be fixed. " + sentence(err))
		return
	}
	w.fix(h)
}

// fix puts a seam where the hand has it, as one step.
func (w *Window) fix(h *seamHold) {
	w.model.Begin("fix seam")
	err := w.model.Instead("fix seam", w.seamEdits(h)...)
	w.model.End()
	w.pickSurface(h.seam.Surface)
	if err != nil {
		w.say(sentence(err))
		return
	}
	w.sayFixed(h)
}

func (w *Window) sayFixed(h *seamHold) {
	if h.places.Long && !h.places.Upright {
		w.say("Courses fixed, with the joint at " + w.length(h.at) + ". Choosing the finish again frees them.")
		return
	}
	words := "Seam fixed at " + w.length(h.at) + ". Click its pin to free it."
	if p := h.place(); p != nil && !p.Lawful() {
		words = "Seam fixed at " + w.length(h.at) + ", though it is " + w.voice().Fact(p.Why) + ". Click its pin to free it."
	}
	w.say(words)
}

// seamEdits put a seam in a place. An end joint is pinned in its course, a joint between upright courses by itself, and
// the pin that fixed it before goes; a joint between level courses is where their heights put it, so those are fixed.
func (w *Window) seamEdits(h *seamHold) []planner.Edit {
	t, surface := h.seam, surfaceName(h.seam.Surface)
	if h.places.Long && !h.places.Upright {
		zones := w.fixedCourses(h)
		if zones == nil {
			return nil
		}
		return []planner.Edit{w.model.Doc.Lining([]string{surface}, zones)}
	}
	var edits []planner.Edit
	pin := job.Pin{Zone: t.Zone, Layer: t.Layer, Course: h.places.Course, Seam: h.was}
	if h.places.Upright {
		pin.Course, pin.Edge = 0, true
	}
	if i := slices.Index(pinsOf(findSurface(h.job, surface)), pin); i >= 0 {
		edits = append(edits, planner.RemovePin{Surface: surface, Index: i})
	}
	pin.Seam = h.at
	return append(edits, planner.AddPin{Surface: surface, Pin: pin})
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

// fixedCourses moves the line between a course (from 1) and the next, and fixes all courses as they stand otherwise.
func (w *Window) fixedCourses(h *seamHold) []job.Zone {
	t, zone, below := h.seam, h.zone, h.places.Course
	across := func(p shape.Point) length.Length { // the coordinate that counts courses
		if h.places.Axis == string(job.AxisX) {
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
		return nil
	}
	lines[below] = h.at
	var courses []length.Length
	for i := 1; i < len(lines); i++ {
		courses = append(courses, lines[i]-lines[i-1])
	}
	zones := slices.Clone(liningOf(findSurface(h.job, t.Surface)))
	if t.Zone < 1 || t.Zone > len(zones) {
		return nil
	}
	z := &zones[t.Zone-1]
	z.Courses = courses
	z.Runs = slices.Clone(z.Runs)
	if t.Layer >= 1 && t.Layer <= len(z.Runs) {
		z.Runs[t.Layer-1] = job.Run(zone.Run)
	}
	return zones
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
