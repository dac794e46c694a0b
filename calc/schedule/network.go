package schedule

import (
	"cmp"
	"slices"
)

// kind of a node in the network of tasks.
type kind string

const (
	work    kind = "work"    // takes the crew
	wait    kind = "wait"    // runs through nights and days off, without the crew
	inspect kind = "inspect" // waits in workdays for somebody from outside
)

// node is one task before and after it has been given its time. Indices in after point to earlier nodes.
type node struct {
	kind     kind
	minutes  minute // at least 1; of the whole crew for work, of the clock for wait, of working time for inspect
	after    []int
	done     bool
	doneAt   minute // when done: the end of the day it was ticked off
	notFrom  minute // not before this minute
	unknown  bool   // a wait whose end nobody can promise
	film     film   // what dries in a wait
	start    minute
	finish   minute
	latest   minute // the latest start that does not move the end of the job
	promised bool   // start and finish are known
}

// solve gives every node its time. One crew does one task after another: at each moment the task that can start
// soonest, and among those the one with the longest way still to go behind it (list scheduling by longest tail;
// Graham 1969 for the rule, from memory). A wait starts the moment it can, so other work fills the drying. The
// order of the slice is the order of the trade and breaks ties.
func solve(c calendar, nodes []node, start minute) (end minute) {
	tails := tail(c, nodes)
	next, missing := successors(nodes)
	var open []int // work that could start, its predecessors placed
	var place func(i int, at minute)
	place = func(i int, at minute) {
		n := &nodes[i]
		n.place(c, at, promisedBefore(nodes, i))
		end = max(end, n.finish)
		for _, s := range next[i] {
			if missing[s]--; missing[s] > 0 || nodes[s].done {
				continue
			}
			if nodes[s].kind == work {
				open = append(open, s)
			} else {
				place(s, ready(nodes, s, start))
			}
		}
	}
	for i := range nodes { // what is done stands; what hangs on nothing is open
		switch n := &nodes[i]; {
		case n.done:
			place(i, n.doneAt)
		case len(n.after) > 0:
		case n.kind == work:
			open = append(open, i)
		default:
			place(i, ready(nodes, i, start))
		}
	}
	free := start
	var crew []int // work in the order in which it is done
	for len(open) > 0 {
		best, bestStart := -1, minute(0)
		for k, i := range open {
			at := c.next(max(ready(nodes, i, start), free))
			if best < 0 || at < bestStart || at == bestStart && before(tails, i, open[best]) {
				best, bestStart = k, at
			}
		}
		i := open[best]
		open = append(open[:best], open[best+1:]...)
		place(i, bestStart)
		if nodes[i].promised {
			free = nodes[i].finish
			crew = append(crew, i)
		}
	}
	end = 0
	for i := range nodes {
		if nodes[i].promised {
			end = max(end, nodes[i].finish)
		}
	}
	backward(c, nodes, crew, end)
	return end
}

// before prefers the longer way to go, then the order of the trade.
func before(tails []minute, a, b int) bool {
	return tails[a] > tails[b] || tails[a] == tails[b] && a < b
}

// successors turns the network round, and counts what each node still waits for.
func successors(nodes []node) (next [][]int, missing []int) {
	next, missing = make([][]int, len(nodes)), make([]int, len(nodes))
	for i := range nodes {
		missing[i] = len(nodes[i].after)
		for _, a := range nodes[i].after {
			next[a] = append(next[a], i)
		}
	}
	return next, missing
}

// ready is when everything before a node is over.
func ready(nodes []node, i int, start minute) minute {
	at := max(start, nodes[i].notFrom)
	for _, a := range nodes[i].after {
		at = max(at, nodes[a].finish)
	}
	return at
}

func promisedBefore(nodes []node, i int) bool {
	for _, a := range nodes[i].after {
		if !nodes[a].promised {
			return false
		}
	}
	return true
}

func (n *node) place(c calendar, at minute, promised bool) {
	n.promised = n.done || promised && !n.unknown
	n.start = at
	switch {
	case n.done:
		n.finish = at
	case n.kind == work:
		n.start = c.next(at)
		n.finish = c.add(n.start, n.minutes)
	case n.kind == inspect:
		n.finish = c.add(at, n.minutes)
	default:
		n.finish = at + n.minutes
	}
}

// tail is the length of the longest way from each node to the end, in minutes of the clock: work is stretched by
// the share of the week that is worked.
func tail(c calendar, nodes []node) []minute {
	week := minute(0)
	for _, w := range c.workdays {
		if w {
			week += c.day
		}
	}
	tails := make([]minute, len(nodes))
	for i := len(nodes) - 1; i >= 0; i-- {
		own := nodes[i].minutes
		if nodes[i].kind != wait {
			own = own * 7 * minutesPerDay / week
		}
		tails[i] += own
		for _, a := range nodes[i].after {
			tails[a] = max(tails[a], tails[i])
		}
	}
	return tails
}

// backward finds how late each node may start without moving the end, the crew's order kept.
func backward(c calendar, nodes []node, crew []int, end minute) {
	nextOfCrew := make(map[int]int, len(crew))
	for k := 1; k < len(crew); k++ {
		nextOfCrew[crew[k-1]] = crew[k]
	}
	limit := make([]minute, len(nodes))
	for i := range limit {
		limit[i] = end
	}
	order := byStart(nodes)
	for k := len(order) - 1; k >= 0; k-- {
		i := order[k]
		n := &nodes[i]
		if next, ok := nextOfCrew[i]; ok {
			limit[i] = min(limit[i], nodes[next].latest)
		}
		switch n.kind {
		case wait:
			n.latest = limit[i] - n.minutes
		default:
			n.latest = c.sub(limit[i], n.minutes)
		}
		n.latest = max(n.latest, n.start)
		for _, a := range n.after {
			limit[a] = min(limit[a], n.latest)
		}
	}
}

// byStart orders nodes so that everything stands after what it depends on: by start, then by place in the slice.
func byStart(nodes []node) []int {
	order := make([]int, len(nodes))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(nodes[a].start, nodes[b].start) })
	return order
}

// slack is how far a task can slip, in hours: of work for work and inspections, of the clock for waits.
func (n *node) slack(c calendar) float64 {
	if n.done || !n.promised {
		return 0
	}
	if n.kind == wait {
		return float64(n.latest-n.start) / 60
	}
	return float64(c.between(n.start, n.latest)) / 60
}
