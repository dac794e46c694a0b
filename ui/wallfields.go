package ui

import (
	"cmp"
	"slices"
	"strings"

	"seamwright/calc/guard"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/shape"
	"seamwright/planner"
	"seamwright/scene/draft"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// The fields of walls and ceilings: framing in the first line, zones by height in the second.

var (
	insulations = []string{"none", "unfaced-batt", "kraft-batt", "mineral-wool", "foam-plastic"}
	duties      = []job.Duty{job.Separation, job.Rated, job.Wet, job.Bracing, job.Exterior}
)

func (i *inspector) wall(l [2]*line, t draft.Target) {
	w := i.w
	get := func() job.Wall {
		if wall, _ := findSurface(w.model.Doc.Job(), t.Surface); wall != nil {
			return *wall
		}
		return job.Wall{}
	}
	set := func(change func(*job.Wall)) error {
		n := get()
		change(&n)
		return w.model.Do(planner.SetWall{Surface: surfaceName(t.Surface), Wall: n})
	}
	l[0].field("Wall", 84, func() string { return get().ID }, func(s string) error {
		s = strings.TrimSpace(s)
		if err := set(func(n *job.Wall) { n.ID = s }); err != nil {
			return err
		}
		w.pickSurface(t.Room + "/" + s)
		return nil
	})
	l[0].lengthField("length", 88, func() length.Length {
		if r := findRoom(w.model.Doc.Job(), t.Room); r != nil {
			return sideLength(r, get().Side)
		}
		return 0
	}, func(v length.Length) error { return w.setSideLength(t.Room, get().Side, v) })
	l[0].lengthField("studs every", 66, func() length.Length { return get().Framing.Spacing }, func(v length.Length) error { return set(func(n *job.Wall) { n.Framing.Spacing = v }) })
	l[0].lengthField("first", 60, func() length.Length { return cmp.Or(get().Framing.First, get().Framing.Spacing) }, func(v length.Length) error { return set(func(n *job.Wall) { n.Framing.First = v }) })
	l[0].choice("in the bays", 118, insulations, func() string { return string(get().Insulation) }, func(s string) {
		w.report(set(func(n *job.Wall) { n.Insulation = job.Insulation(s) }))
	})
	i.duty(l[0], get, set)
	i.zones(l[1], t, func() []job.Zone { return get().Lining })
	l[1].lengthField("curb", 60, func() length.Length { return get().Base }, func(v length.Length) error { return set(func(n *job.Wall) { n.Base = v }) })
	l[1].lengthField("base trim", 66, func() length.Length { return get().Trim }, func(v length.Length) error { return set(func(n *job.Wall) { n.Trim = v }) })
	l[1].field("floor levels", 190, func() string { return w.levelsWords(get().Floor) }, func(s string) error {
		floor, err := w.parseLevels(s)
		if err != nil {
			return err
		}
		return set(func(n *job.Wall) { n.Floor = floor })
	})
}

// duty is what a wall must do besides closing the room: a button that opens the list to tick.
func (i *inspector) duty(l *line, get func() job.Wall, set func(func(*job.Wall)) error) {
	w := i.w
	words := func() string {
		if d := get().Duty; len(d) > 0 {
			var names []string
			for _, x := range d {
				names = append(names, string(x))
			}
			return strings.Join(names, ", ")
		}
		return "Duty: none"
	}
	b := newButton(w.pal, pill, words(), nil)
	b.tapped = func() {
		menu := fyne.NewMenu("")
		for _, d := range duties {
			item := fyne.NewMenuItem(string(d), func() {
				defer guard.Catch(w.faulted)
				w.report(set(func(n *job.Wall) {
					if k := slices.Index(n.Duty, d); k >= 0 {
						n.Duty = slices.Delete(slices.Clone(n.Duty), k, k+1)
					} else {
						n.Duty = append(slices.Clone(n.Duty), d)
					}
				}))
				i.shows = ""
				i.refresh(SelectionChanged)
			})
			item.Checked = slices.Contains(get().Duty, d)
			menu.Items = append(menu.Items, item)
		}
		at := w.app.Driver().AbsolutePositionForObject(b)
		pop := widget.NewPopUpMenu(menu, w.win.Canvas())
		pop.ShowAtPosition(at.AddXY(0, -pop.MinSize().Height))
	}
	b.small, b.keys = true, w.typedKey
	m := b.MinSize()
	l.room(m.Width)
	put(b, l.x, 2+(rowHeight-2-m.Height)/2, m.Width, m.Height)
	l.add(b)
	l.x += m.Width + 6
}

func (i *inspector) ceiling(l [2]*line, t draft.Target) {
	l[0].words("Ceiling of "+t.Room, true)
	i.ceilingShape(l[0], t.Room)
	defer i.overhead(l[1], t.Room)
	i.zones(l[1], t, func() []job.Zone {
		if _, c := findSurface(i.w.model.Doc.Job(), t.Surface); c != nil {
			return c.Lining
		}
		return nil
	})
}

// finishLevels are the finish levels of gypsum board, 0 to 5 (GA-214).
var finishLevels = []string{"0", "1", "2", "3", "4", "5"}

// zones shows the finishes of a surface from the floor up. Each is chosen by name; a wall can be divided at a height.
func (i *inspector) zones(l *line, t draft.Target, get func() []job.Zone) {
	w := i.w
	j := w.model.Doc.Job()
	all := finishes(j)
	names := make([]string, len(all))
	for k, layers := range all {
		names[k] = layersName(j, layers)
	}
	set := func(change func([]job.Zone) []job.Zone) error {
		return w.model.Do(w.model.Doc.Lining([]string{surfaceName(t.Surface)}, change(slices.Clone(get()))))
	}
	zones := get()
	for k := range zones {
		at := func() job.Zone {
			if z := get(); k < len(z) {
				return z[k]
			}
			return job.Zone{}
		}
		if k < len(zones)-1 {
			l.lengthField("up to", 72, func() length.Length { return at().To }, func(v length.Length) error {
				return set(func(z []job.Zone) []job.Zone { z[k].To = v; return z })
			})
		} else if len(zones) > 1 {
			l.quiet("above")
		}
		l.choice("", 190, names, func() string { return layersName(w.model.Doc.Job(), at().Layers) }, func(s string) {
			if n := slices.Index(names, s); n >= 0 {
				w.report(set(func(z []job.Zone) []job.Zone { z[k] = withLayers(z[k], all[n]); return z }))
			}
		})
		if len(zones) == 1 || k == len(zones)-1 {
			i.howLaid(l, at, func(change func(*job.Zone)) {
				w.report(set(func(z []job.Zone) []job.Zone { change(&z[k]); return z }))
			})
		}
		if len(zones) > 1 {
			l.button("−", func() {
				w.report(set(func(z []job.Zone) []job.Zone {
					z = slices.Delete(z, k, k+1)
					z[len(z)-1].To = 0
					return z
				}))
			})
		}
	}
}

// howLaid is run, pattern and finish level of a zone.
func (i *inspector) howLaid(l *line, at func() job.Zone, set func(func(*job.Zone))) {
	if z := at(); len(z.Layers) == 0 || z.Layers[0] == job.Open {
		return
	}
	l.choice("laid", 84, []string{"auto", "across", "along"}, func() string {
		if r := at().Runs; len(r) > 0 {
			return string(r[len(r)-1])
		}
		return "auto"
	}, func(s string) {
		set(func(z *job.Zone) {
			z.Runs, z.Courses = nil, nil
			for range z.Layers {
				z.Runs = append(z.Runs, job.Run(s))
			}
		})
	})
	l.choice("", 106, []string{"staggered", "stacked", "centred"}, func() string { return string(at().Pattern) },
		func(s string) { set(func(z *job.Zone) { z.Pattern = job.Pattern(s) }) })
	if p := i.w.model.Doc.Job().Product(at().Layers[len(at().Layers)-1]); p != nil && p.Kind == job.Gypsum {
		l.choice("finish level", 56, finishLevels, func() string { return finishLevels[max(0, min(at().Finish, 5))] },
			func(s string) { set(func(z *job.Zone) { z.Finish = int(s[0] - '0') }) })
	}
}

// divide splits the picked wall's upper zone at 4 ft, or 1.2 m, above its lower edge; the field sets the height.
func (w *Window) divide() {
	t := w.model.Selected
	wall, _ := findSurface(w.model.Doc.Job(), t.Surface)
	if wall == nil || len(wall.Lining) == 0 {
		w.say("Click a wall first.")
		return
	}
	zones := slices.Clone(wall.Lining)
	last := zones[len(zones)-1]
	from := length.Length(0)
	if len(zones) > 1 {
		from = zones[len(zones)-2].To
	}
	to := from + 4*length.Foot
	if !w.imperial() {
		to = from + 1200*length.Millimetre
	}
	lower := withLayers(last, last.Layers)
	lower.To = to
	if w.try(w.model.Doc.Lining([]string{surfaceName(t.Surface)}, append(zones[:len(zones)-1], lower, withLayers(last, last.Layers)))) {
		w.say("Divided at " + w.length(to) + ". Set the height and each part's finish below.")
	}
}

// addCorner divides the picked wall in the middle; the new corner can be pulled.
func (w *Window) addCorner() {
	t := w.model.Selected
	j := w.model.Doc.Job()
	wall, _ := findSurface(j, t.Surface)
	r := findRoom(j, t.Room)
	if wall == nil || r == nil {
		w.say("Click a wall first.")
		return
	}
	a, b := r.Corners[wall.Side-1], r.Corners[wall.Side%len(r.Corners)]
	middle := shape.Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2}
	side := wall.Side
	if w.try(planner.AddCorner{Room: t.Room, Side: side, At: middle}) {
		w.model.Pick(draft.Target{Kind: draft.OnCorner, Room: t.Room, Corner: side})
	}
}

// setSideLength moves the far end of a side along its own line. Where the next side stands square to it, that side
// moves with it, so that a rectangle stays one.
func (w *Window) setSideLength(room string, side int, l length.Length) error {
	r := findRoom(w.model.Doc.Job(), room)
	if r == nil || side < 1 {
		return nil
	}
	n := len(r.Corners)
	a, b, c := r.Corners[side-1], r.Corners[side%n], r.Corners[(side+1)%n]
	o := &outline{set: []shape.Point{a}, to: b, imperial: w.imperial(), typed: string(l.AppendMM(nil)) + " mm"}
	to, err := o.target()
	if err != nil {
		return err
	}
	if square := (b.X-a.X == 0 && c.Y-b.Y == 0) || (b.Y-a.Y == 0 && c.X-b.X == 0); square {
		return w.model.Do(planner.MoveSide{Room: room, Side: side%n + 1, Through: to})
	}
	return w.model.Do(planner.MoveCorner{Room: room, Corner: side%n + 1, To: to})
}
