package layout

import (
	"cmp"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
)

// graph holds every lawful piece of a row: its nodes are the row's start, its places and its end.
type graph struct {
	at    []length.Length
	butt  []length.Length // length of the end joint at a node
	shun  []length.Length // what an end joint counts more when choices are listed
	steps [][]Step        // from every node
	paths []int64         // ways from a node to the end, at most pathLimit
}

// slabOfSizes is how many sizes of a graph are made room for at a time.
const slabOfSizes = 128

// pathLimit is where counting of ways stops.
const pathLimit = 1 << 40

// noWay is the graph of a row that nothing covers.
func noWay(from, to length.Length) *graph {
	return &graph{at: []length.Length{from, to}, butt: make([]length.Length, 2), shun: make([]length.Length, 2), steps: make([][]Step, 2), paths: []int64{0, 1}}
}

// newGraph finds the lawful pieces of a row.
func (s *Scheme) newGraph(r *Row) *graph {
	n := len(r.Places) + 2
	lengths := make([]length.Length, 3*n)
	g := &graph{at: lengths[:n:n], butt: lengths[n : 2*n : 2*n], shun: lengths[2*n:], steps: make([][]Step, n), paths: make([]int64, n)}
	g.at[0], g.at[n-1] = r.U0, r.U1
	pinned := make([]bool, n)
	for i, p := range r.Places {
		g.at[i+1] = p.U
		pinned[i+1] = p.pinned
		for k := range r.Spans {
			if sp := &r.Spans[k]; p.U > sp.U0 && p.U < sp.U1 {
				for _, iv := range sp.seam(p.U) {
					g.butt[i+1] += iv.hi - iv.lo
				}
			}
		}
	}
	for i, p := range r.Places {
		if s.Blocked && p.Support == plan.OnMember && s.Run == job.RunAcross {
			g.shun[i+1] = g.butt[i+1] // between members it lies flat
		}
	}
	g.paths[n-1] = 1
	var pieces []Piece
	var steps []Step
	var sizes []Size // of many steps, in one piece of memory
	for i := n - 2; i >= 0; i-- {
		steps = steps[:0]
		for j := i + 1; j < n; j++ {
			all, ok, longer := s.cutOnto(pieces[:0], r, g.at[i], g.at[j])
			if ok && g.paths[j] > 0 {
				if cap(sizes)-len(sizes) < len(all) {
					sizes = make([]Size, 0, max(len(all), min(slabOfSizes, n*(n-1)/2)))
				}
				first := len(sizes)
				for k := range all {
					sizes = append(sizes, all[k].Size)
				}
				steps = append(steps, Step{To: j, Sizes: sizes[first:len(sizes):len(sizes)], Butt: g.butt[j]})
				g.paths[i] = min(pathLimit, g.paths[i]+g.paths[j])
			}
			if longer || pinned[j] {
				break
			}
			pieces = all
		}
		g.steps[i] = slices.Clone(steps)
	}
	return g
}

// path is a way through a graph: the steps taken.
type path struct {
	cost  int64
	nodes []int // inner nodes
	steps []int // index of the step taken at the start and at every inner node
}

// cheapest finds the k cheapest ways through the graph: labels kept from the end backwards. The labels of a node are in
// order, so those of the node before it are merged from them step by step.
func (g *graph) cheapest(prices Prices, k int) []path {
	type label struct {
		cost int64
		step int
		next int // label of the step's far node
	}
	type head struct {
		cost int64 // of the step's first label not yet taken
		next int
	}
	n := len(g.at)
	labels := make([][]label, n)
	labels[n-1] = []label{{step: -1}}
	var heads []head
	var costs []int64
	for i := n - 2; i >= 0; i-- {
		steps := g.steps[i]
		heads, costs = heads[:0], costs[:0]
		ways := 0
		for a := range steps {
			st := &steps[a]
			cost := st.price(prices)
			if st.To < n-1 {
				cost += prices.Butt(st.Butt + g.shun[st.To])
			}
			costs, heads = append(costs, cost), append(heads, head{cost: cost + labels[st.To][0].cost})
			ways += len(labels[st.To])
		}
		labels[i] = make([]label, 0, min(k, ways))
		for range min(k, ways) {
			best := -1
			for a := range heads {
				if heads[a].next >= 0 && (best < 0 || heads[a].cost < heads[best].cost) {
					best = a
				}
			}
			h := &heads[best]
			labels[i] = append(labels[i], label{h.cost, best, h.next})
			if far := labels[steps[best].To]; h.next+1 < len(far) {
				h.next++
				h.cost = costs[best] + far[h.next].cost
			} else {
				h.next = -1
			}
		}
	}
	var paths []path
	for l := range labels[0] {
		p := path{cost: labels[0][l].cost}
		for i, at := 0, l; i < n-1; {
			lab := labels[i][at]
			p.steps = append(p.steps, lab.step)
			i, at = g.steps[i][lab.step].To, lab.next
			if i < n-1 {
				p.nodes = append(p.nodes, i)
			}
		}
		paths = append(paths, p)
	}
	return paths
}

// centred keeps the ways whose first and last pieces are equally long, and of these the ones whose other seams mirror
// each other too; where there is none, the most even ones.
func (g *graph) centred(paths []path) []path {
	low, high := g.at[0], g.at[len(g.at)-1]
	uneven := func(p path) (ends, all length.Length) {
		for i, k := 0, len(p.nodes)-1; i <= k; i, k = i+1, k-1 {
			d := ((g.at[p.nodes[i]] - low) - (high - g.at[p.nodes[k]])).Abs()
			if i == 0 {
				ends = d
			}
			all += d
		}
		return ends, all
	}
	order := func(a, b path) int {
		aEnds, aAll := uneven(a)
		bEnds, bAll := uneven(b)
		return cmp.Or(cmp.Compare(aEnds, bEnds), cmp.Compare(aAll, bAll))
	}
	paths = slices.Clone(paths)
	slices.SortStableFunc(paths, order)
	n := 0
	for n < len(paths) && order(paths[n], paths[0]) == 0 {
		n++
	}
	return paths[:n]
}
