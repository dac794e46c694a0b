package ui

import (
	"slices"
	"strings"

	"seamwright/calc/job"
	"seamwright/calc/money"
)

// The job is plain data; these find the part of it that an id names.

func findRoom(j *job.Job, id string) *job.Room {
	for i := range j.Rooms {
		if j.Rooms[i].ID == id {
			return &j.Rooms[i]
		}
	}
	return nil
}

// findSurface finds a wall or ceiling by surface id; both are nil where there is none such. A ceiling of several
// planes answers to each of their ids.
func findSurface(j *job.Job, id string) (*job.Wall, *job.Ceiling) {
	room, name, ok := strings.Cut(id, "/")
	r := findRoom(j, room)
	if !ok || r == nil {
		return nil, nil
	}
	for i := range r.Walls {
		if r.Walls[i].ID == name {
			return &r.Walls[i], nil
		}
	}
	if isCeiling(name) {
		return nil, r.Ceiling
	}
	return nil, nil
}

// ceilingName is what a project file calls a room's ceiling; its planes add a dash and a side or number.
const ceilingName = "ceiling"

func isCeiling(name string) bool {
	return name == ceilingName || strings.HasPrefix(name, ceilingName+"-") || strings.HasPrefix(name, ceilingName+":")
}

// surfaceName is the id that edits use: all planes of a ceiling share their lining.
func surfaceName(id string) string {
	room, name, _ := strings.Cut(id, "/")
	if isCeiling(name) {
		return room + "/" + ceilingName
	}
	return id
}

func roomOf(id string) string {
	room, _, _ := strings.Cut(id, "/")
	return room
}

func openingsOf(w *job.Wall, c *job.Ceiling) []job.Opening {
	switch {
	case w != nil:
		return w.Openings
	case c != nil:
		return c.Openings
	}
	return nil
}

func boxesOf(w *job.Wall, c *job.Ceiling) []job.Box {
	switch {
	case w != nil:
		return w.Boxes
	case c != nil:
		return c.Boxes
	}
	return nil
}

func liningOf(w *job.Wall, c *job.Ceiling) []job.Zone {
	switch {
	case w != nil:
		return w.Lining
	case c != nil:
		return c.Lining
	}
	return nil
}

func pinsOf(w *job.Wall, c *job.Ceiling) []job.Pin {
	switch {
	case w != nil:
		return w.Pins
	case c != nil:
		return c.Pins
	}
	return nil
}

// zoneOf is a zone from floor to head with these layers and every choice left to the search.
func zoneOf(layers []string) job.Zone {
	z := job.Zone{Layers: slices.Clone(layers), Pattern: job.Staggered, Finish: 4}
	for range layers {
		z.Runs = append(z.Runs, job.RunAuto)
	}
	return z
}

// withLayers is the zone with other layers; courses that were fixed by hand go, since they were meant for the others.
func withLayers(z job.Zone, layers []string) job.Zone {
	z.Layers, z.Courses, z.Runs = slices.Clone(layers), nil, nil
	for range layers {
		z.Runs = append(z.Runs, job.RunAuto)
	}
	return z
}

// withLining is the job with another lining on one surface, and without alternatives; the job itself stays as it is.
func withLining(j *job.Job, surface string, zones []job.Zone) *job.Job {
	trial := j.With(job.Alternative{Set: []job.LiningChange{{Surfaces: []string{surfaceName(surface)}, Lining: zones}}})
	trial.Alternatives = nil
	return trial
}

// priceOf is the price of a product's k-th size as it is now.
func (w *Window) priceOf(product string, k int) money.Money {
	if p := w.model.Doc.Job().Product(product); p != nil && k < len(p.Sizes) {
		return p.Sizes[k].Price
	}
	return 0
}

// packPrice is the price of a supply's pack as it is now.
func (w *Window) packPrice(supply, pack string) money.Money {
	for _, s := range w.model.Doc.Job().Supplies {
		if s.ID != supply {
			continue
		}
		for _, p := range s.Packs {
			if p.Name == pack {
				return p.Price
			}
		}
	}
	return 0
}
