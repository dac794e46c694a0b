package shape

import (
	"cmp"
	"maps"
	"slices"

	"seamwright/calc/length"
)

// arrow is a directed edge with the interior on its left.
type arrow struct{ from, to Point }

// merged joins loops along shared edges: on every upright and level line opposite stretches cancel, split where
// either side has a corner; slanted edges cancel when they are exactly opposite. What is left is traced again.
func merged(loops []Polygon) []Polygon {
	upright := map[length.Length][]arrow{}
	level := map[length.Length][]arrow{}
	slanted := map[arrow]int{}
	for _, l := range loops {
		for i, a := range l {
			b := l.at(i + 1)
			switch {
			case a == b:
			case a.X == b.X:
				upright[a.X] = append(upright[a.X], arrow{a, b})
			case a.Y == b.Y:
				level[a.Y] = append(level[a.Y], arrow{Point{a.Y, a.X}, Point{b.Y, b.X}})
			default:
				if back := (arrow{b, a}); slanted[back] > 0 {
					slanted[back]--
				} else {
					slanted[arrow{a, b}]++
				}
			}
		}
	}
	var left []arrow
	for _, x := range slices.Sorted(maps.Keys(upright)) {
		left = append(left, cancelled(x, upright[x])...)
	}
	for _, y := range slices.Sorted(maps.Keys(level)) {
		for _, e := range cancelled(y, level[y]) {
			left = append(left, arrow{Point{e.from.Y, e.from.X}, Point{e.to.Y, e.to.X}})
		}
	}
	for e, n := range slanted {
		for range n {
			left = append(left, e)
		}
	}
	return traced(left)
}

// cancelled adds up the directed stretches on the upright line x and returns what does not cancel.
func cancelled(x length.Length, on []arrow) []arrow {
	change := map[length.Length]int{} // how the count of upward less downward stretches changes there
	for _, e := range on {
		if e.from.Y < e.to.Y {
			change[e.from.Y]++
			change[e.to.Y]--
		} else {
			change[e.to.Y]--
			change[e.from.Y]++
		}
	}
	ys := slices.Sorted(maps.Keys(change))
	var left []arrow
	count := 0
	for i := range len(ys) - 1 {
		count += change[ys[i]]
		a, b := Point{x, ys[i]}, Point{x, ys[i+1]}
		for range count {
			left = append(left, arrow{a, b})
		}
		for range -count {
			left = append(left, arrow{b, a})
		}
	}
	return left
}

// traced walks directed edges into loops. Where several edges leave a point the walk takes the one that bounds
// the same wedge of the interior, the sharpest turn to the left; a loop that comes back to a point it has passed
// is parted there, so every loop is simple.
func traced(edges []arrow) []Polygon {
	slices.SortFunc(edges, func(a, b arrow) int {
		return cmp.Or(comparePoints(a.from, b.from), comparePoints(a.to, b.to))
	})
	leaving := map[Point][]int{}
	for i, e := range edges {
		leaving[e.from] = append(leaving[e.from], i)
	}
	used := make([]bool, len(edges))
	var loops []Polygon
	for i := range edges {
		var path Polygon
		for e := i; e >= 0 && !used[e]; e = next(edges, leaving, used, e) {
			used[e] = true
			path = append(path, edges[e].from)
		}
		loops = append(loops, path.parted()...)
	}
	return loops
}

// parted splits a loop that comes back to a point it has passed into loops that do not.
func (p Polygon) parted() (loops []Polygon) {
	path := make(Polygon, 0, len(p))
	for i, q := range p {
		if i > 0 && q == p[i-1] {
			continue
		}
		if k := slices.Index(path, q); k >= 0 {
			loops = append(loops, slices.Clone(path[k:]))
			path = path[:k]
		}
		path = append(path, q)
	}
	if len(path) >= 3 {
		loops = append(loops, path)
	}
	return loops
}

func comparePoints(a, b Point) int { return cmp.Or(cmp.Compare(a.Y, b.Y), cmp.Compare(a.X, b.X)) }

// next is the unused edge with the sharpest left turn at the end of edge e, or -1.
func next(edges []arrow, leaving map[Point][]int, used []bool, e int) int {
	best := -1
	for _, n := range leaving[edges[e].to] {
		if !used[n] && (best < 0 || sharper(edges[e], edges[n].to, edges[best].to)) {
			best = n
		}
	}
	return best
}

// sharper reports whether the turn from in to p is further to the left than that to q.
func sharper(in arrow, p, q Point) bool {
	sideP, sideQ := Turn(in.from, in.to, p), Turn(in.from, in.to, q)
	if sideP != sideQ {
		return sideP > sideQ
	}
	return Turn(in.to, q, p) > 0
}
