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
	visit    minute // an inspection: it is not over before this minute, since nobody has ticked it off
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
// order of the slice is the order of the trade and breaks ties. order is the nodes by their start.
func solve(c calendar, nodes []node, start minute) (end minute, order []int) {
	end, crew := followersOf(nodes).forward(c, nodes, start)
	order = byStart(nodes)
	backward(c, nodes, crew, order, end)
	return end, order
}

// followers is who follows whom: the successors of node i are next[first[i]:first[i+1]].
type followers struct{ first, next []int }

func followersOf(nodes []node) followers {
	w := followers{first: make([]int, len(nodes)+1)}
	n := 0
	for i := range nodes {
		for _, a := range nodes[i].after {
			w.first[a+1]++
			n++
		}
	}
	for i := range nodes {
		w.first[i+1] += w.first[i]
	}
	w.next = make([]int, n)
	filled := make([]int, len(nodes))
	for i := range nodes {
		for _, a := range nodes[i].after {
			w.next[w.first[a]+filled[a]] = i
			filled[a]++
		}
	}
	return w
}

// forward places the nodes, and gives the end of the job and the work in the order in which it is done. Work that could
// start waits in two queues: what the crew could begin at once, by the way to go, and what is not ready yet, by time.
func (w followers) forward(c calendar, nodes []node, start minute) (end minute, crew []int) {
	tails := tail(c, nodes)
	missing := make([]int, len(nodes))
	for i := range nodes {
		missing[i] = len(nodes[i].after)
	}
	var now, later queue
	open := func(i int) { later.push(turn{at: c.next(ready(nodes, i, start)), tail: tails[i], i: i}) }
	var place func(i int, at minute)
	place = func(i int, at minute) {
		n := &nodes[i]
		n.place(c, at, promisedBefore(nodes, i))
		for _, s := range w.next[w.first[i]:w.first[i+1]] {
			if missing[s]--; missing[s] > 0 || nodes[s].done {
				continue
			}
			if nodes[s].kind == work {
				open(s)
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
			open(i)
		default:
			place(i, ready(nodes, i, start))
		}
	}
	for free := c.next(start); len(now)+len(later) > 0; {
		for len(later) > 0 && later[0].at <= free {
			t := later.pop()
			t.at = 0 // all alike: the way to go decides
			now.push(t)
		}
		from, at := &now, free
		if len(now) == 0 {
			from, at = &later, later[0].at
		}
		t := from.pop()
		place(t.i, at)
		if nodes[t.i].promised {
			free = c.next(nodes[t.i].finish)
			crew = append(crew, t.i)
		}
	}
	for i := range nodes {
		if nodes[i].promised {
			end = max(end, nodes[i].finish)
		}
	}
	return end, crew
}

// turn is work that waits for its turn.
type turn struct {
	at, tail minute
	i        int
}

// before prefers what can start sooner, then the longer way to go, then the order of the trade.
func (t turn) before(o turn) bool {
	switch {
	case t.at != o.at:
		return t.at < o.at
	case t.tail != o.tail:
		return t.tail > o.tail
	}
	return t.i < o.i
}

// queue is a binary heap: its first is before all others.
type queue []turn

func (q *queue) push(t turn) {
	h := append(*q, t)
	for i := len(h) - 1; i > 0; {
		up := (i - 1) / 2
		if !h[i].before(h[up]) {
			break
		}
		h[i], h[up] = h[up], h[i]
		i = up
	}
	*q = h
}

func (q *queue) pop() turn {
	h := *q
	top, last := h[0], len(h)-1
	h[0], h = h[last], h[:last]
	for i := 0; ; {
		down := 2*i + 1
		if down >= last {
			break
		}
		if down+1 < last && h[down+1].before(h[down]) {
			down++
		}
		if !h[down].before(h[i]) {
			break
		}
		h[i], h[down] = h[down], h[i]
		i = down
	}
	*q = h
	return top
}

// ready is when everything before a node is over. Work goes on from start, the day after the last tick. A wait began when
// what it waits for was done, whatever else has been ticked since.
func ready(nodes []node, i int, start minute) minute {
	at := nodes[i].notFrom
	if nodes[i].kind == work || len(nodes[i].after) == 0 {
		at = max(at, start)
	}
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
		n.finish = max(c.add(at, n.minutes), n.visit)
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
func backward(c calendar, nodes []node, crew, order []int, end minute) {
	nextOfCrew := make([]int, len(nodes)) // and one; 0 for none
	for k := 1; k < len(crew); k++ {
		nextOfCrew[crew[k-1]] = crew[k] + 1
	}
	limit := make([]minute, len(nodes))
	for i := range limit {
		limit[i] = end
	}
	for k := len(order) - 1; k >= 0; k-- {
		i := order[k]
		n := &nodes[i]
		if next := nextOfCrew[i]; next > 0 {
			limit[i] = min(limit[i], nodes[next-1].latest)
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
	slices.SortFunc(order, func(a, b int) int { return cmp.Or(cmp.Compare(nodes[a].start, nodes[b].start), cmp.Compare(a, b)) })
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
