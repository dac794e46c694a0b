package planner

import (
	"cmp"
	"errors"
	"slices"
	"strings"

	"seamwright/calc/job"
)

// Placed gives a refusal of the calculation its place in the file, so that it reads like any fault of the file: Errors
// with file, line, column, cause and remedy. Any other error stays as it is.
func (d *Document) Placed(err error) error {
	var r *job.Refusal
	if !errors.As(err, &r) {
		return err
	}
	n := d.placeOf(r)
	e := Error{File: d.name, Line: n.line, Col: n.col, Message: r.Problem, Remedy: r.Remedy}
	if r.Where != "" {
		e.Message = r.Where + ": " + r.Problem
	}
	if r.Alternative != "" {
		e.Message = "with " + r.Alternative + ": " + e.Message
	}
	return Errors{e}
}

// placeOf is the narrowest value of the file that a refusal is about.
func (d *Document) placeOf(r *job.Refusal) *node {
	if n := d.variantOf(r); n != nil {
		return n
	}
	room, name, _ := strings.Cut(r.Where, "/")
	n := newPatch(d.src, d.read).roomNode(room)
	switch {
	case n == nil:
		if rooms := d.read.root.get("rooms"); rooms != nil {
			return rooms
		}
		return d.read.root
	case strings.HasPrefix(name, "ceiling"): // its planes are ceiling-south and the like
		return narrowed(cmp.Or(n.get("ceiling"), n), r)
	case name == "":
		return narrowed(n, r)
	}
	for _, of := range d.read.job.Rooms {
		if of.ID != room {
			continue
		}
		i := slices.IndexFunc(of.Walls, func(w job.Wall) bool { return w.ID == name })
		if i < 0 {
			return n
		}
		if wall := wallEntry(n, of.Walls[i].Side); wall != nil {
			return narrowed(wall, r)
		}
		if c := n.get("corners"); c != nil && i < len(c.items) { // the side is not listed: where it begins
			return c.items[i]
		}
	}
	return n
}

// variantOf is where an alternative lines the surface that a refusal is about, nil where none is at fault. The one that is
// shown counts too, since the job that was asked has its linings.
func (d *Document) variantOf(r *job.Refusal) *node {
	list, name := d.read.root.get("alternatives"), cmp.Or(r.Alternative, d.active)
	if list == nil || name == "" || r.Key != "lining" && r.Alternative == "" {
		return nil
	}
	i := slices.IndexFunc(d.read.job.Alternatives, func(a job.Alternative) bool { return a.Name == name })
	if i < 0 || i >= len(list.items) {
		return nil
	}
	if sets := list.items[i].get("set"); sets != nil {
		for _, set := range sets.items {
			walls := set.get("walls")
			if walls == nil {
				continue
			}
			for _, w := range walls.items {
				if w.text == r.Where || strings.HasSuffix(w.text, "/ceiling") && strings.HasPrefix(r.Where, w.text) {
					return cmp.Or(set.get("lining"), w)
				}
			}
		}
	}
	if r.Alternative == "" {
		return nil
	}
	return list.items[i]
}

// narrowed goes from a room or a surface to the key, and to the entry, that a refusal names, as far as they are written.
func narrowed(n *node, r *job.Refusal) *node {
	v := n.get(r.Key)
	switch {
	case v == nil:
		return n
	case r.Item >= 1 && r.Item <= len(v.items):
		return v.items[r.Item-1]
	}
	return v
}
