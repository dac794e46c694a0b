package planner

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/schedule"
	"seamwright/calc/shape"
)

func (e AddRoom) apply(p *patch) error {
	enc := p.encoder()
	id := e.ID
	for n := 1; id == ""; n++ {
		if name := fmt.Sprintf("room-%d", n); p.roomNode(name) == nil {
			id = name
		}
	}
	v := mapOf(need("id", text(id)), need("height", enc.len(e.Height)), need("corners", enc.points(e.Corners)))
	v.block = true
	p.append("rooms", v)
	return nil
}

func (e RemoveRoom) apply(p *patch) error {
	if _, _, err := p.room(e.Room); err != nil {
		return err
	}
	i := slices.IndexFunc(p.read.job.Rooms, func(r job.Room) bool { return r.ID == e.Room })
	p.forget(func(surface string) bool { return roomOf(surface) == e.Room }, e.Room)
	return p.drop("rooms", i)
}

// forget takes surfaces out of alternatives and backs; except names a room that is going anyway.
func (p *patch) forget(gone func(surface string) bool, except string) {
	for i, a := range p.read.job.Alternatives {
		var set []job.LiningChange
		changed := false
		for _, c := range a.Set {
			kept := slices.DeleteFunc(slices.Clone(c.Surfaces), gone)
			changed = changed || len(kept) < len(c.Surfaces)
			if len(kept) > 0 {
				set = append(set, job.LiningChange{Surfaces: kept, Lining: c.Lining})
			}
		}
		if n, err := p.item("alternatives", i); err == nil && changed {
			p.setFields(n, mapOf(need("set", p.encoder().changes(set))))
		}
	}
	for i := range p.read.job.Rooms {
		r := &p.read.job.Rooms[i]
		for k := range r.Walls {
			if w := &r.Walls[k]; r.ID != except && w.Back != "" && gone(w.Back) {
				if entry := wallEntry(p.roomNode(r.ID), w.Side); entry != nil {
					p.setFields(entry, mapOf(when(false, "back", value{})))
				}
			}
		}
	}
}

func (e RenameRoom) apply(p *patch) error {
	n, _, err := p.room(e.Room)
	if err != nil {
		return err
	}
	p.set(n.get("id"), text(e.To))
	p.eachReference(func(n *node) {
		if room, wall, _ := strings.Cut(n.text, "/"); room == e.Room {
			p.set(n, text(e.To+"/"+wall))
		}
	})
	p.renameTasks(schedule.RenamedRoom, e.Room, e.To)
	return nil
}

// cornerAt checks a corner's number (from 1).
func cornerAt(r *job.Room, corner int) error {
	if corner < 1 || corner > len(r.Corners) {
		return fmt.Errorf("%s has no corner %d", r.ID, corner)
	}
	return nil
}

// setCorners writes the corners of a room. A wall that something refers to by a name it has only from its
// direction keeps that name in writing where the direction changes.
func (p *patch) setCorners(r *job.Room, corners []shape.Point) error {
	enc := p.encoder()
	list := p.roomNode(r.ID).get("corners")
	p.setItems(list, each(corners, enc.point))
	if len(corners) != len(r.Corners) {
		return nil
	}
	explicit := make([]string, len(corners))
	for i, w := range r.Walls {
		if entry := wallEntry(p.roomNode(r.ID), w.Side); entry.get("id") != nil {
			explicit[i] = w.ID
		}
	}
	after := slices.Clone(explicit)
	nameSides(corners, after)
	for i, w := range r.Walls {
		if id := r.ID + "/" + w.ID; after[i] != w.ID && p.refersTo(id) {
			if err := p.nameWall(id); err != nil {
				return err
			}
		}
	}
	return nil
}

// refersTo says whether a back or an alternative names a surface.
func (p *patch) refersTo(id string) bool {
	found := false
	p.eachReference(func(n *node) { found = found || n.text == id })
	return found
}

func (e MoveCorner) apply(p *patch) error {
	_, r, err := p.room(e.Room)
	if err != nil {
		return err
	}
	if err := cornerAt(r, e.Corner); err != nil {
		return err
	}
	corners := slices.Clone(r.Corners)
	corners[e.Corner-1] = e.To
	return p.setCorners(r, corners)
}

func (e MoveSide) apply(p *patch) error {
	_, r, err := p.room(e.Room)
	if err != nil {
		return err
	}
	if err := cornerAt(r, e.Side); err != nil {
		return err
	}
	k := len(r.Corners)
	i, j := e.Side-1, e.Side%k
	a, b := r.Corners[i], r.Corners[j]
	corners := slices.Clone(r.Corners)
	corners[i] = p.slide(a, r.Corners[(i+k-1)%k], a, b, e.Through)
	corners[j] = p.slide(b, r.Corners[(j+1)%k], a, b, e.Through)
	return p.setCorners(r, corners)
}

// slide is where a corner comes to stand when the side ab moves parallel to itself through a point: on the line to
// the corner's other neighbour, or straight across where that line runs with the side. A place that is not exact
// is rounded to a mark that people measure.
func (p *patch) slide(corner, neighbour, a, b, through shape.Point) shape.Point {
	ux, uy := big.NewInt(int64(b.X-a.X)), big.NewInt(int64(b.Y-a.Y))
	vx, vy := big.NewInt(int64(neighbour.X-corner.X)), big.NewInt(int64(neighbour.Y-corner.Y))
	cross := func(ax, ay, bx, by *big.Int) *big.Int {
		l := new(big.Int).Mul(ax, by)
		return l.Sub(l, new(big.Int).Mul(ay, bx))
	}
	if cross(ux, uy, vx, vy).Sign() == 0 { // it runs with the side: go square to it
		vx, vy = new(big.Int).Neg(uy), ux
	}
	wx, wy := big.NewInt(int64(through.X-corner.X)), big.NewInt(int64(through.Y-corner.Y))
	t := new(big.Rat).SetFrac(cross(ux, uy, wx, wy), cross(ux, uy, vx, vy))
	return shape.Point{X: corner.X + p.step(t, vx), Y: corner.Y + p.step(t, vy)}
}

// step is t·d: exact where it is a whole number of nanometres, else rounded to 1/16 in or 1 mm.
func (p *patch) step(t *big.Rat, d *big.Int) length.Length {
	grid := int64(length.Millimetre)
	if p.encoder().imperial {
		grid = int64(length.Inch / 16)
	}
	x := new(big.Rat).Mul(t, new(big.Rat).SetInt(d))
	if x.IsInt() {
		return length.Length(x.Num().Int64())
	}
	x.Quo(x, new(big.Rat).SetInt64(grid))
	num := new(big.Int).Lsh(x.Num(), 1)
	num.Add(num, x.Denom()).Div(num, new(big.Int).Lsh(x.Denom(), 1))
	return length.Length(num.Int64() * grid)
}

func (e MoveRoom) apply(p *patch) error {
	n, r, err := p.room(e.Room)
	if err != nil {
		return err
	}
	enc := p.encoder()
	moved := func(q shape.Point) shape.Point { return shape.Point{X: q.X + e.By.X, Y: q.Y + e.By.Y} }
	p.setItems(n.get("corners"), each(r.Corners, func(q shape.Point) value { return enc.point(moved(q)) }))
	if c := r.Ceiling; c != nil {
		if len(c.Pins) > 0 {
			return fmt.Errorf("unpin the seams of %s/ceiling first: they are pinned to places on the floor plan", e.Room)
		}
		entry := n.get("ceiling")
		if c.Shape == job.Ridge {
			to := *c
			if to.At += e.By.Y; c.Along == job.AxisY {
				to.At += e.By.X - e.By.Y
			}
			p.setFields(entry, mapOf(need("shape", enc.ceilingShape(&to))))
		}
		for i, o := range c.Openings {
			o.At, o.Sill = o.At+e.By.X, o.Sill+e.By.Y
			p.set(entry.get("openings").items[i], enc.hatch(o))
		}
		for i, b := range c.Boxes {
			b.At, b.Up = b.At+e.By.X, b.Up+e.By.Y
			p.set(entry.get("boxes").items[i], enc.box(b))
		}
	}
	for i, s := range r.Solids {
		p.setFields(n.get("solids").items[i], mapOf(need("at", enc.point(moved(s.At)))))
	}
	return nil
}

func (e SetRoomHeight) apply(p *patch) error {
	n, _, err := p.room(e.Room)
	if err != nil {
		return err
	}
	p.set(n.get("height"), p.encoder().len(e.Height))
	return nil
}

func (e SetCeiling) apply(p *patch) error {
	n, r, err := p.room(e.Room)
	if err != nil {
		return err
	}
	if e.Ceiling == nil {
		p.forget(func(surface string) bool { return surface == e.Room+"/ceiling" }, "")
		p.setFields(n, mapOf(when(false, "ceiling", value{})))
		return nil
	}
	enc, c := p.encoder(), e.Ceiling
	usual := usualAlong(*c, shape.Polygon(r.Corners).Bounds())
	along := c.Framing
	if along.Along == "" {
		along.Along = usual
	}
	insulation := c.Insulation
	if insulation == "" {
		insulation = job.NoInsulation
	}
	fields := []field{
		unless(c.Shape == job.Flat || c.Shape == "", "shape", enc.ceilingShape(c)),
		part("framing", enc.framing(along, enc.defaults.framing, true, usual)),
		unless(insulation == enc.defaults.insulation, "insulation", word(string(insulation))),
		when(len(c.Duty) > 0, "duty", words(c.Duty)),
	}
	if r.Ceiling != nil {
		p.setFields(n, mapOf(need("ceiling", value{kind: mapping, fields: fields, order: ceilingKeys})))
		return nil
	}
	lining := c.Lining
	if len(lining) == 0 {
		lining = enc.defaults.uppermost()
	}
	fields = append(fields,
		need("lining", enc.lining(lining)),
		when(len(c.Openings) > 0, "openings", listOf(each(c.Openings, enc.hatch)...)),
		when(len(c.Boxes) > 0, "boxes", listOf(each(c.Boxes, enc.box)...)),
		when(len(c.Pins) > 0, "pins", listOf(each(c.Pins, enc.pin)...)))
	v := value{kind: mapping, fields: fields, order: ceilingKeys, block: true}
	p.setFields(n, value{kind: mapping, order: roomKeys, fields: []field{need("ceiling", v)}})
	return nil
}
