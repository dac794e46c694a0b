package board

import (
	"fmt"

	"seamwright/calc/job"
	"seamwright/calc/layout"
	"seamwright/calc/length"
	"seamwright/calc/memo"
	"seamwright/calc/plan"
	"seamwright/calc/survey"
)

// hung is a room as it hangs: its zones with panels and joints, all but the sheets that the panels are cut from, which
// change with every other room. It is never changed.
type hung struct {
	zones                []plan.Zone
	checks               []plan.Check
	butt, mixed, tapered length.Length
}

// hangAll hangs every room, or takes from the memo how it hangs, and writes sheets and panels to each other.
func (s *Draft) hangAll(a *Answer, spots [][]spot, panels int) {
	all := make([]plan.Panel, 0, panels)
	letters := initials(s.building)
	groupOf, offset := make([]memo.Key, len(s.zones)), make([]int, len(s.zones))
	for g, group := range s.byGroup {
		k := s.keyOf(g)
		for n, i := range group {
			groupOf[i], offset[i] = k, n
		}
	}
	var w writer
	from := 0
	for r := range s.building.Rooms {
		room := &s.building.Rooms[r]
		to := from
		for _, sf := range room.Surfaces {
			to += len(sf.Zones)
		}
		w.Text("hung")
		w.Add(room.Key)
		if from < to { // a room left open stands in no group
			w.Add(groupOf[from])
			w.Int(int64(offset[from]))
		}
		for _, sf := range room.Surfaces {
			w.Text(letters[sf])
		}
		for i := from; i < to; i++ {
			for k := range spots[i] {
				for _, e := range spots[i][k].made {
					w.Text(string(e))
				}
			}
		}
		k := w.Key()
		h := memo.Do(s.memo.Results, k, func() *hung { return s.hang(room, from, letters, spots[from:to]) })
		a.Hung = append(a.Hung, k)
		a.Butt, a.Mixed, a.Tapered = a.Butt+h.butt, a.Mixed+h.mixed, a.Tapered+h.tapered
		a.Checks = append(a.Checks, h.checks...)
		for n, z := range h.zones {
			first := len(all)
			all = append(all, z.Panels...)
			z.Panels = all[first:len(all):len(all)]
			for k := range z.Panels {
				at := spots[from+n][k]
				z.Panels[k].Sheet = a.Sheets[at.sheet].ID
				if part := &a.Sheets[at.sheet].Parts[at.part]; at.far {
					part.Pair.Panel = z.Panels[k].ID
				} else {
					part.Panel = z.Panels[k].ID
				}
			}
			a.Zones = append(a.Zones, z)
		}
		from = to
	}
}

// hang hangs a room whose zones stand from the first on. Panels are numbered surface by surface.
func (s *Draft) hang(room *survey.Room, first int, letters map[*survey.Surface]string, spots [][]spot) *hung {
	h := &hung{}
	order, lined := map[string]int{}, map[string]bool{}
	for i, sf := range room.Surfaces {
		order[sf.ID] = i
		for _, z := range sf.Zones {
			lined[sf.ID] = lined[sf.ID] || z.Product != nil
		}
	}
	i := first
	for _, sf := range room.Surfaces {
		number := 0
		for _, z := range sf.Zones {
			st := &s.settled[i]
			if st.scheme == nil {
				h.zones = append(h.zones, openZone(z))
				i++
				continue
			}
			names, made := make([]string, len(st.panels)), make([]layout.Made, len(st.panels))
			for k := range names {
				number++
				names[k], made[k] = fmt.Sprintf("%s-%02d", letters[sf], number), spots[i-first][k].made
			}
			pz := h.zone(z, st, s.bounds[i], names, made)
			pz.Joints = append(pz.Joints, perimeter(z, order, lined, pz.Panels)...)
			h.zones = append(h.zones, pz)
			h.checks = append(h.checks, s.report(i)...)
			i++
		}
	}
	return h
}

// zone fills in one zone of the plan.
func (h *hung) zone(z *survey.Zone, st *settled, bound int, names []string, made []layout.Made) plan.Zone {
	pz := plan.Zone{Zone: z.Index, Layer: z.Layer, Product: z.Product.ID, Run: string(st.scheme.Run), Pattern: string(z.Pattern), Finish: z.Finish,
		Depth: z.Depth, Outline: z.Outline, Panels: []plan.Panel{}, Joints: []plan.Joint{}}
	pz.Bound = bound
	for k := range st.panels {
		outline, holes := st.scheme.Outline(&st.panels[k])
		outline, holes = boxed(outline, holes, z.Surface.Boxes)
		pz.Panels = append(pz.Panels, plan.Panel{ID: names[k], Outline: outline, Holes: holes, Course: st.panels[k].Band + 1,
			Edges: st.scheme.Edges(made[k])})
	}
	for _, jt := range st.scheme.Joints(st.panels, made) {
		l := (jt.To.X - jt.From.X).Abs() + (jt.To.Y - jt.From.Y).Abs()
		switch jt.Kind {
		case plan.Butt:
			h.butt += l
		case plan.Mixed:
			h.mixed += l
		case plan.Tapered:
			h.tapered += l
		}
		pz.Joints = append(pz.Joints, plan.Joint{Kind: jt.Kind, From: jt.From, To: jt.To, Panels: []string{names[jt.A], names[jt.B]}, Support: jt.Support})
	}
	return pz
}

// report turns what a zone breaks into checks.
func (s *Draft) report(i int) (checks []plan.Check) {
	st := &s.settled[i]
	add := func(b layout.Break) {
		if b.Pin != nil {
			b.Says = pinned(b)
		}
		checks = append(checks, plan.Check{Rule: b.Rule, Level: plan.Error, Where: s.zones[i].Surface.ID, At: b.At, Says: b.Says, Source: layout.Source(b.Rule)})
	}
	for _, b := range st.scheme.Breaks {
		add(b)
	}
	for r := range st.scheme.Rows {
		for _, b := range st.scheme.Rows[r].Breaks {
			add(b)
		}
	}
	for _, b := range st.clashes {
		add(b)
	}
	if s.job.Rules.Cutouts == job.RectOnly {
		for _, h := range s.zones[i].Holes {
			checks = append(checks, plan.Check{Rule: layout.RuleOpening, Level: plan.Caution, Where: s.zones[i].Surface.ID, At: h.Outline[0],
				Says: plan.Tell("layout.jamb-joints", "opening", h.Opening.ID), Source: layout.Source(layout.RuleOpening)})
		}
	}
	return checks
}

// pinned tells where a joint fixed by hand could stand instead of where it breaks a rule.
func pinned(b layout.Break) plan.Fact {
	where := plan.Tell("layout.joint-in-course", "course", b.Pin.Course, "at", b.Pin.Seam)
	if b.Pin.Edge {
		where = plan.Tell("layout.joint-of-courses", "at", b.Pin.Seam)
	}
	instead := plan.Tell("layout.no-lawful-place")
	if b.Pin.Found {
		instead = plan.Tell("layout.nearest-place", "at", b.Pin.Nearest)
	}
	return plan.Tell("layout.fixed-joint", "where", where, "why", b.Says, "instead", instead)
}
