package planner

import (
	"fmt"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/schedule"
)

func (e SetWall) apply(p *patch) error {
	s, err := p.surface(e.Surface)
	if err != nil {
		return err
	}
	if s.wall == nil {
		return fmt.Errorf("%s is not a wall", e.Surface)
	}
	fields := p.encoder().wall(e.Wall)
	if e.Wall.ID != "" && e.Wall.ID != s.wall.ID {
		fields = append(fields, need("id", text(e.Wall.ID)))
		p.renameSurface(e.Surface, s.of.ID+"/"+e.Wall.ID)
	}
	if s.entry == nil && len((value{fields: fields}).written()) == 0 {
		return nil
	}
	if s.entry == nil && e.Wall.ID != "" && e.Wall.ID != s.wall.ID {
		return p.addWall(s.of.ID, s.wall.Side, append([]field{need("side", count(s.wall.Side))}, fields...))
	}
	return p.setOn(s, fields...)
}

// renameSurface changes every place that names a surface: backs of walls, alternatives, and the tasks that hung it.
func (p *patch) renameSurface(from, to string) {
	p.renameTasks(schedule.RenamedSurface, from, to)
	p.eachReference(func(n *node) {
		if n.text == from {
			p.set(n, text(to))
		}
	})
}

// eachReference calls f for every scalar that names a surface.
func (p *patch) eachReference(f func(*node)) {
	if rooms := p.root.get("rooms"); rooms != nil {
		for _, room := range rooms.items {
			if walls := room.get("walls"); walls != nil {
				for _, w := range walls.items {
					if back := w.get("back"); back != nil {
						f(back)
					}
				}
			}
		}
	}
	if alternatives := p.root.get("alternatives"); alternatives != nil {
		for _, a := range alternatives.items {
			if set := a.get("set"); set != nil {
				for _, c := range set.items {
					if walls := c.get("walls"); walls != nil {
						for _, w := range walls.items {
							f(w)
						}
					}
				}
			}
		}
	}
}

func (e SetLining) apply(p *patch) error {
	if len(e.Zones) == 0 {
		return fmt.Errorf("a lining has at least one zone; product open leaves a surface bare")
	}
	v := p.encoder().lining(e.Zones)
	for _, id := range e.Surfaces {
		s, err := p.surface(id)
		if err != nil {
			return err
		}
		if err := p.setOn(s, need("lining", v)); err != nil {
			return err
		}
	}
	return nil
}

// openingsOf is the openings of a surface.
func (s place) openings() []job.Opening {
	if s.ceiling != nil {
		return s.ceiling.Openings
	}
	return s.wall.Openings
}

func (s place) boxes() []job.Box {
	if s.ceiling != nil {
		return s.ceiling.Boxes
	}
	return s.wall.Boxes
}

// openingValue writes an opening as its surface does.
func (p *patch) openingValue(s place, o job.Opening) value {
	if s.ceiling != nil {
		return p.encoder().hatch(o)
	}
	return p.encoder().opening(o)
}

var openingLetters = map[job.OpeningKind]string{job.Door: "d", job.Window: "w", job.Hatch: "h", job.KeepOut: "k"}

func (e AddOpening) apply(p *patch) error {
	s, err := p.surface(e.Surface)
	if err != nil {
		return err
	}
	o := e.Opening
	for n := 1; o.ID == ""; n++ {
		id := fmt.Sprintf("%s%d", openingLetters[o.Kind], n)
		if !slices.ContainsFunc(s.openings(), func(x job.Opening) bool { return x.ID == id }) {
			o.ID = id
		}
	}
	return p.addTo(s, "openings", p.openingValue(s, o))
}

// openingAt finds an opening by its id.
func (s place) openingAt(id string) (int, error) {
	i := slices.IndexFunc(s.openings(), func(o job.Opening) bool { return o.ID == id })
	if i < 0 {
		return 0, fmt.Errorf("there is no opening %q on %s", id, s.id)
	}
	return i, nil
}

func (e ChangeOpening) apply(p *patch) error {
	s, err := p.surface(e.Surface)
	if err != nil {
		return err
	}
	i, err := s.openingAt(e.ID)
	if err != nil {
		return err
	}
	o := e.Opening
	if o.ID == "" {
		o.ID = e.ID
	}
	p.set(s.entry.get("openings").items[i], p.openingValue(s, o))
	return nil
}

func (e RemoveOpening) apply(p *patch) error {
	s, err := p.surface(e.Surface)
	if err != nil {
		return err
	}
	i, err := s.openingAt(e.ID)
	if err != nil {
		return err
	}
	return p.takeFrom(s, "openings", i)
}

func (e AddBox) apply(p *patch) error {
	s, err := p.surface(e.Surface)
	if err != nil {
		return err
	}
	return p.addTo(s, "boxes", p.encoder().box(e.Box))
}

func (e ChangeBox) apply(p *patch) error {
	s, err := p.surface(e.Surface)
	if err != nil {
		return err
	}
	if e.Index < 0 || e.Index >= len(s.boxes()) {
		return fmt.Errorf("%s has no such box", e.Surface)
	}
	p.set(s.entry.get("boxes").items[e.Index], p.encoder().box(e.Box))
	return nil
}

func (e RemoveBox) apply(p *patch) error {
	s, err := p.surface(e.Surface)
	if err != nil {
		return err
	}
	return p.takeFrom(s, "boxes", e.Index)
}

func (e AddPin) apply(p *patch) error {
	s, err := p.surface(e.Surface)
	if err != nil {
		return err
	}
	return p.addTo(s, "pins", p.encoder().pin(e.Pin))
}

func (e RemovePin) apply(p *patch) error {
	s, err := p.surface(e.Surface)
	if err != nil {
		return err
	}
	return p.takeFrom(s, "pins", e.Index)
}
