package schedule

import (
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/plan"
	"seamwright/calc/survey"
)

// sharedAir groups the rooms of a job, by their numbers, that share air: those that a door joins, or a partition that neither
// face of is lined. Dust that is sanded off in one settles on wet paint in the others. Groups and rooms stand in the order of
// the job.
func sharedAir(j *job.Job, b *survey.Building) [][]int {
	number, group := map[string]int{}, make([]int, len(j.Rooms))
	for i := range j.Rooms {
		number[j.Rooms[i].ID], group[i] = i, i
	}
	var first func(i int) int
	first = func(i int) int {
		if group[i] != i {
			group[i] = first(group[i])
		}
		return group[i]
	}
	for _, s := range b.Surfaces {
		for _, o := range s.Backs {
			if passes(s, o) {
				x, y := first(number[s.Room]), first(number[o.Room])
				group[max(x, y)] = min(x, y)
			}
		}
	}
	var groups [][]int
	at := map[int]int{}
	for i := range j.Rooms {
		g, known := at[first(i)]
		if !known {
			g = len(groups)
			at[first(i)] = g
			groups = append(groups, nil)
		}
		groups[g] = append(groups[g], i)
	}
	return groups
}

// passes says whether air goes through a partition.
func passes(a, b *survey.Surface) bool {
	door := func(s *survey.Surface) bool {
		return s.Wall != nil && slices.ContainsFunc(s.Wall.Openings, func(o job.Opening) bool { return o.Kind == job.Door })
	}
	return door(a) && door(b) || len(a.Zones) == 0 && len(b.Zones) == 0
}

// group adds the tasks of rooms that share air: of each what makes dust, and then, of each, what must not meet any. Dusting
// off for the first paint anywhere among them follows the last sanding everywhere.
func (s *sequence) group(rooms []Room, members []int) {
	at := make([][]int, len(members)) // by member, where its tasks stand
	var sanded links
	for k, i := range members {
		r := &rooms[i]
		at[k] = s.put(r, nil, 0, r.split, nil)
		for _, a := range r.sanded {
			sanded = append(sanded, at[k][a])
		}
	}
	for k, i := range members {
		s.put(&rooms[i], at[k], rooms[i].split, len(rooms[i].tasks), sanded)
	}
}

// put adds the tasks of a room from one place up to another; at is where its earlier ones stand, and is given back with the
// new ones. What must meet no more dust follows what is sanded, too. Ids that are taken already change, and what follows them with them.
func (s *sequence) put(r *Room, at []int, from, to int, sanded links) []int {
	sum := 0
	for _, n := range r.nodes[from:to] {
		sum += len(n.after)
	}
	slab := make(links, 0, sum)
	for i := from; i < to; i++ {
		t, n := r.tasks[i], r.nodes[i]
		first, renamed := len(slab), false
		for k, a := range n.after {
			slab = append(slab, at[a])
			renamed = renamed || s.tasks[at[a]].ID != t.After[k]
		}
		after := slab[first:len(slab):len(slab)]
		if i == r.clean {
			after = merge([]links{after, sanded})
			renamed = renamed || len(after) > len(n.after)
		}
		if renamed {
			t.After = s.names(after)
		}
		n.after, t.ID = after, s.unique(t.ID)
		at = append(at, len(s.tasks))
		s.index[t.ID] = len(s.tasks)
		s.tasks, s.nodes = append(s.tasks, t), append(s.nodes, n)
	}
	return at
}

// pace is hours as recorded against hours as estimated, in hundredths, of the tasks of one trade.
type pace struct{ actual, estimated int64 }

// goAtPace stretches the work to come to the pace so far of its own trade: who took twice as long to hang will take twice
// as long to hang the rest, and tapes as estimated until that is recorded too.
func (s *sequence) goAtPace() map[plan.Trade]pace {
	byTrade := map[plan.Trade]pace{}
	for i := range s.tasks {
		if t := &s.tasks[i]; s.nodes[i].done && s.nodes[i].kind == work && t.Actual > 0 && t.Hours > 0 {
			p := byTrade[t.Trade]
			byTrade[t.Trade] = pace{p.actual + hundredths(t.Actual), p.estimated + hundredths(t.Hours)}
		}
	}
	for i := range s.nodes {
		n := &s.nodes[i]
		if p, known := byTrade[s.tasks[i].Trade]; known && n.kind == work && !n.done {
			n.minutes = max(minute((int64(n.minutes)*p.actual+p.estimated-1)/p.estimated), 1)
		}
	}
	return byTrade
}
