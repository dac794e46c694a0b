package planner

import (
	"fmt"
	"slices"
	"strings"

	"seamwright/calc/job"
)

// encoder writes values as this document does.
func (p *patch) encoder() encoder {
	return encoder{imperial: p.read.job.Units != job.Metric, defaults: p.read.defaults}
}

// room finds a room by its id, in the text and as it was read before the edit.
func (p *patch) room(id string) (*node, *job.Room, error) {
	for i := range p.read.job.Rooms {
		if p.read.job.Rooms[i].ID == id {
			return p.roomNode(id), &p.read.job.Rooms[i], nil
		}
	}
	return nil, nil, fmt.Errorf("there is no room %q", id)
}

func (p *patch) roomNode(id string) *node {
	rooms := p.root.get("rooms")
	if rooms == nil {
		return nil
	}
	for _, n := range rooms.items {
		if name := n.get("id"); name != nil && name.text == id {
			return n
		}
	}
	return nil
}

// place is a surface: where it is written, and what it was read as.
type place struct {
	id      string
	room    *node
	of      *job.Room
	entry   *node // the wall's or ceiling's mapping; nil for a side that is not listed
	wall    *job.Wall
	ceiling *job.Ceiling
}

// surface finds a wall or ceiling.
func (p *patch) surface(id string) (place, error) {
	roomID, name, _ := strings.Cut(id, "/")
	n, r, err := p.room(roomID)
	if err != nil {
		return place{}, fmt.Errorf("there is no surface %q", id)
	}
	s := place{id: id, room: n, of: r}
	if name == "ceiling" {
		if r.Ceiling == nil {
			return s, fmt.Errorf("%s has no ceiling", roomID)
		}
		s.ceiling, s.entry = r.Ceiling, n.get("ceiling")
		return s, nil
	}
	for i := range r.Walls {
		if r.Walls[i].ID == name {
			s.wall = &r.Walls[i]
			s.entry = wallEntry(n, r.Walls[i].Side)
			return s, nil
		}
	}
	return s, fmt.Errorf("there is no surface %q", id)
}

// wallEntry is the mapping of a side in a room's list of walls, nil where it is not listed.
func wallEntry(room *node, side int) *node {
	walls := room.get("walls")
	if walls == nil {
		return nil
	}
	for _, n := range walls.items {
		if s := n.get("side"); s != nil && s.text == fmt.Sprint(side) {
			return n
		}
	}
	return nil
}

// setOn writes fields of a surface. A side that is not listed yet gets an entry of its own, with its id, in its
// place among the others and written like them.
func (p *patch) setOn(s place, fields ...field) error {
	if s.ceiling != nil {
		if s.entry == nil || s.entry.kind != mapping {
			return fmt.Errorf("%s has no ceiling", s.of.ID)
		}
		p.setFields(s.entry, value{kind: mapping, fields: fields, order: ceilingKeys})
		return nil
	}
	if s.entry != nil {
		p.setFields(s.entry, value{kind: mapping, fields: fields, order: wallKeys})
		return nil
	}
	return p.addWall(s.of.ID, s.wall.Side, append([]field{need("side", count(s.wall.Side)), need("id", text(s.wall.ID))}, fields...))
}

// addWall writes the entry of a side that is not listed.
func (p *patch) addWall(room string, side int, fields []field) error {
	v := value{kind: mapping, fields: inOrder(fields, wallKeys), block: true}
	if len(v.written()) == 0 {
		return nil
	}
	n := p.roomNode(room)
	walls := n.get("walls")
	switch {
	case walls == nil:
		p.setFields(n, value{kind: mapping, order: roomKeys, fields: []field{need("walls", value{kind: list, items: []value{v}, block: true})}})
		return p.flush()
	case len(walls.items) == 0:
		p.insertItems(walls, 0, v)
		return p.flush()
	}
	before := 0
	for i, w := range walls.items {
		if s := w.get("side"); s != nil && atoi(s.text) < side {
			before = i + 1
		}
	}
	p.insertItems(walls, before, v)
	return nil
}

func atoi(s string) int {
	var n int
	fmt.Sscan(s, &n)
	return n
}

// inOrder sorts fields by the order of keys in which new ones are written.
func inOrder(fields []field, order []string) []field {
	sorted := slices.Clone(fields)
	slices.SortStableFunc(sorted, func(a, b field) int { return slices.Index(order, a.key) - slices.Index(order, b.key) })
	return sorted
}

// addTo puts a value at the end of a list on a surface, and begins the list where there is none.
func (p *patch) addTo(s place, key string, v value) error {
	if n := s.entry.get(key); n != nil && n.kind == list && len(n.items) > 0 {
		p.insertItems(n, len(n.items), v)
		return nil
	}
	return p.setOn(s, need(key, listOf(v)))
}

// takeFrom takes an item (from 0) out of a list on a surface, and the list with its last item.
func (p *patch) takeFrom(s place, key string, i int) error {
	n := s.entry.get(key)
	switch {
	case n == nil || i < 0 || i >= len(n.items):
		return fmt.Errorf("%s has no such entry in %s", s.id, key)
	case len(n.items) == 1:
		return p.setOn(s, when(false, key, value{}))
	}
	p.removeItems(n, i, i+1)
	return nil
}

// project writes fields of the project itself.
func (p *patch) project(fields ...field) {
	p.setFields(p.root, value{kind: mapping, fields: fields, order: projectKeys})
}

// append puts a value at the end of a list of the project, and begins the list where there is none.
func (p *patch) append(key string, v value) {
	if n := p.root.get(key); n != nil && n.kind == list {
		p.insertItems(n, len(n.items), v)
		return
	}
	p.project(need(key, value{kind: list, items: []value{v}, block: true}))
}

// item finds an entry of a list of the project.
func (p *patch) item(key string, i int) (*node, error) {
	n := p.root.get(key)
	if n == nil || i < 0 || i >= len(n.items) {
		return nil, fmt.Errorf("there is no such entry in %s", key)
	}
	return n.items[i], nil
}

// drop takes an entry out of a list of the project.
func (p *patch) drop(key string, i int) error {
	if _, err := p.item(key, i); err != nil {
		return err
	}
	p.removeItems(p.root.get(key), i, i+1)
	return nil
}
