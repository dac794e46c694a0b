package planner

import (
	"fmt"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/shape"
)

func (e AddCorner) apply(p *patch) error {
	n, r, err := p.room(e.Room)
	if err != nil {
		return err
	}
	if err := cornerAt(r, e.Side); err != nil {
		return err
	}
	i := e.Side - 1
	left, right := r.Corners[i], r.Corners[(i+1)%len(r.Corners)]
	turns := shape.Polygon(r.Corners).CounterClockwise() // then side i's left end is corner i+1
	if turns {
		left, right = right, left
	}
	wall := r.Walls[i]
	a, b, err := divide(wall, distance(left, e.At), distance(left, right))
	if err != nil {
		return err
	}
	first, second := a, b // side i stays first in the outline
	if turns {
		first, second = b, a
	}
	p.renumber(n, func(side int) int {
		if side > e.Side {
			return side + 1
		}
		return side
	})
	p.insertItems(n.get("corners"), i+1, p.encoder().point(e.At))
	entry := wallEntry(n, e.Side)
	id := r.ID + "/" + wall.ID
	if entry == nil && !p.refersTo(id) {
		return nil
	}
	second.ID = freeID(r, wall.ID)
	p.alsoNamed(id, r.ID+"/"+second.ID)
	enc := p.encoder()
	whole := func(w job.Wall) []field {
		lining := unless(entry.get("lining") == nil, "lining", enc.lining(w.Lining))
		return append(append(enc.wall(w), lining), enc.contents(w)...)
	}
	named := []field{need("id", text(wall.ID))}
	if entry == nil {
		if err := p.addWall(r.ID, e.Side, append([]field{need("side", count(e.Side))}, named...)); err != nil {
			return err
		}
	} else {
		p.setFields(entry, value{kind: mapping, order: wallKeys, fields: append(whole(first), named...)})
	}
	if err := p.flush(); err != nil {
		return err
	}
	return p.addWall(r.ID, e.Side+1, append([]field{need("side", count(e.Side+1)), need("id", text(second.ID))}, whole(second)...))
}

// freeID is the first of south-2, south-3, … that no wall of the room has.
func freeID(r *job.Room, id string) string {
	for n := 2; ; n++ {
		name := fmt.Sprintf("%s-%d", id, n)
		if !slices.ContainsFunc(r.Walls, func(w job.Wall) bool { return w.ID == name }) {
			return name
		}
	}
}

// alsoNamed puts a second surface behind a first one wherever an alternative names it.
func (p *patch) alsoNamed(first, second string) {
	for i, a := range p.read.job.Alternatives {
		set, changed := slices.Clone(a.Set), false
		for k, c := range set {
			if at := slices.Index(c.Surfaces, first); at >= 0 {
				set[k].Surfaces = slices.Insert(slices.Clone(c.Surfaces), at+1, second)
				changed = true
			}
		}
		if n, err := p.item("alternatives", i); err == nil && changed {
			p.setFields(n, mapOf(need("set", p.encoder().changes(set))))
		}
	}
}

// renumber gives the listed sides of a room other numbers.
func (p *patch) renumber(room *node, to func(int) int) {
	walls := room.get("walls")
	if walls == nil {
		return
	}
	for _, w := range walls.items {
		if s := w.get("side"); s != nil {
			p.set(s, count(to(atoi(s.text))))
		}
	}
}

// divide parts a wall at a distance from its left end. Openings and boxes go to the part they stand in; one that
// stands across the place refuses it. Lines along the wall are cut there; pinned seams go with their part where
// they are places along the wall, which those of a wall laid along its members are not.
func divide(w job.Wall, at, width length.Length) (left, right job.Wall, err error) {
	left, right = w, w
	left.Openings, right.Openings = nil, nil
	for _, o := range w.Openings {
		switch {
		case o.At+o.Width <= at:
			left.Openings = append(left.Openings, o)
		case o.At >= at:
			o.At -= at
			right.Openings = append(right.Openings, o)
		default:
			return left, right, fmt.Errorf("%s stands across the new corner; move it first", o.ID)
		}
	}
	left.Boxes, right.Boxes = nil, nil
	for _, b := range w.Boxes {
		q := b.Rect()
		switch {
		case q.MaxX() <= at:
			left.Boxes = append(left.Boxes, b)
		case q.X >= at:
			b.At -= at
			right.Boxes = append(right.Boxes, b)
		default:
			return left, right, fmt.Errorf("a box stands across the new corner; move it first")
		}
	}
	if len(w.Pins) > 0 {
		return left, right, fmt.Errorf("unpin the seams of this wall first: their places change")
	}
	left.Top, right.Top = cutLine(w.Top, at, width)
	left.Bottom, right.Bottom = cutLine(w.Bottom, at, width)
	left.Floor, right.Floor = cutLevels(w.Floor, at)
	left.Framing.Also, right.Framing.Also = cutPlaces(w.Framing.Also, at)
	left.Framing.Without, right.Framing.Without = cutPlaces(w.Framing.Without, at)
	right.Framing.First = cutFirst(w.Framing, at)
	if w.Backing != nil {
		l, r := *w.Backing, *w.Backing
		l.Seams, r.Seams = cutSeams(w.Backing.Seams, at)
		left.Backing, right.Backing = &l, &r
	}
	return left, right, nil
}

// cutLine parts the line of a top or bottom, which runs from end to end.
func cutLine(line []shape.Point, at, width length.Length) (left, right []shape.Point) {
	if len(line) == 0 || at <= 0 || at >= width {
		return nil, nil
	}
	y := yAt(line, at, true)
	for _, q := range line {
		if q.X < at {
			left = append(left, q)
		}
		if q.X > at {
			right = append(right, shape.Point{X: q.X - at, Y: q.Y})
		}
	}
	return append(left, shape.Point{X: at, Y: y}), append([]shape.Point{{Y: y}}, right...)
}

// cutLevels parts measured floor levels; the level at the new corner stands in both parts where it lies between
// two that were measured.
func cutLevels(line []shape.Point, at length.Length) (left, right []shape.Point) {
	if len(line) > 0 && line[0].X < at && line[len(line)-1].X > at {
		return cutLine(line, at, line[len(line)-1].X)
	}
	for _, q := range line {
		if q.X <= at {
			left = append(left, q)
		} else {
			right = append(right, shape.Point{X: q.X - at, Y: q.Y})
		}
	}
	return left, right
}

func cutPlaces(places []length.Length, at length.Length) (left, right []length.Length) {
	for _, x := range places {
		if x < at {
			left = append(left, x)
		} else if x > at {
			right = append(right, x-at)
		}
	}
	return left, right
}

// cutFirst is where the first member of the right part stands, so that the members of both stay where they are.
func cutFirst(f job.Framing, at length.Length) length.Length {
	first := f.First
	if first == 0 {
		first = f.Spacing
	}
	if f.Spacing <= 0 {
		return f.First
	}
	for first <= at {
		first += f.Spacing
	}
	if first -= at; first == f.Spacing {
		return 0
	}
	return first
}

func cutSeams(seams [][2]shape.Point, at length.Length) (left, right [][2]shape.Point) {
	for _, s := range seams {
		a, b := s[0], s[1]
		if a.X > b.X {
			a, b = b, a
		}
		l, r := [2]shape.Point{a, b}, [2]shape.Point{{X: a.X - at, Y: a.Y}, {X: b.X - at, Y: b.Y}}
		if a.X < at && b.X > at {
			y := a.Y + scaled(b.Y-a.Y, at-a.X, b.X-a.X)
			l[1], r[0] = shape.Point{X: at, Y: y}, shape.Point{Y: y}
		}
		if a.X < at {
			left = append(left, l)
		}
		if b.X > at {
			right = append(right, r)
		}
	}
	return left, right
}

func (e RemoveCorner) apply(p *patch) error {
	n, r, err := p.room(e.Room)
	if err != nil {
		return err
	}
	if err := cornerAt(r, e.Corner); err != nil {
		return err
	}
	if len(r.Corners) == 3 {
		return fmt.Errorf("a room has at least 3 corners")
	}
	gone := r.ID + "/" + r.Walls[e.Corner-1].ID
	p.forget(func(surface string) bool { return surface == gone }, "")
	p.removeItems(n.get("corners"), e.Corner-1, e.Corner)
	if walls := n.get("walls"); walls != nil {
		for i, w := range walls.items {
			if s := w.get("side"); s != nil && atoi(s.text) == e.Corner {
				p.removeItems(walls, i, i+1)
			}
		}
		for _, w := range walls.items {
			if s := w.get("side"); s != nil && atoi(s.text) > e.Corner {
				p.set(s, count(atoi(s.text)-1))
			}
		}
	}
	return nil
}
