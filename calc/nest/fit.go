package nest

import "slices"

// The search keeps every sheet as a tree of least bounding boxes, not of rectangles in place: a join is as large as its
// kids need, and the room that is left over floats. A piece may then be put beside any node whose box can still grow, and
// one insertion can push a whole column wider. All sizes here are one kerf larger than real (see areaBound).

// none marks an absent node.
const none = -1

// node is a part or a join in a sheet.
type node struct {
	w, h         int64 // least box
	aw, ah       int64 // how large the box may grow, all else staying as it is
	up, kid, sib int32
	item         int32 // type of the part; none: a join
	cut          Kind  // join: direction of the cuts between the kids
	need         int8  // tapered edges that the node must touch
	turned       bool
}

// bin is one sheet in the making.
type bin struct {
	sheet int32
	root  int32
	nodes []node
	area  float64 // of the parts, enlarged
	parts int
}

// place is where and how a part may be put: beside node at, by a cut of the kind.
type place struct {
	at     int32
	cut    Kind
	turned bool
	score  float64
}

// empty prepares a sheet without parts.
func (s *search) empty(sheet int) bin { return bin{sheet: int32(sheet), root: none} }

// clone copies a bin, with room for a few more nodes.
func (b *bin) clone() bin {
	c := *b
	c.nodes = make([]node, len(b.nodes), len(b.nodes)+4)
	copy(c.nodes, b.nodes)
	return c
}

// best finds the best place for a part of type t in the bin; ok is false where there is none.
func (s *search) best(b *bin, t int) (best place, ok bool) {
	ty := &s.types[t]
	if b.root == none {
		sh := &s.sheets[b.sheet]
		for turned := range 2 {
			if ty.need > sh.tapers || turned == 1 && !ty.turn {
				continue
			}
			w, h := ty.w, ty.h
			if turned == 1 {
				w, h = h, w
			}
			if w <= sh.w && h <= sh.h && (ty.need < 2 || h == sh.h) {
				sc := float64(min(sh.w-w, sh.h-h))
				if !ok || sc < best.score {
					best, ok = place{none, Cross, turned == 1, sc}, true
				}
			}
		}
		return best, ok
	}
	s.work += int64(len(b.nodes))
	for i := range b.nodes {
		x := &b.nodes[i]
		if x.aw < ty.least && x.ah < ty.least {
			continue
		}
		if x.up == none || b.nodes[x.up].cut == Rip {
			s.try(b, int32(i), Cross, t, &best, &ok)
		}
		if x.up == none || b.nodes[x.up].cut == Cross {
			s.try(b, int32(i), Rip, t, &best, &ok)
		}
	}
	return best, ok
}

// try weighs putting type t beside node at by a cut of the kind.
func (s *search) try(b *bin, at int32, k Kind, t int, best *place, ok *bool) {
	ty := &s.types[t]
	x := &b.nodes[at]
	for turned := range 2 {
		w, h := ty.w, ty.h
		if turned == 1 {
			if !ty.turn {
				return
			}
			w, h = h, w
		}
		nw, nh := x.w+w, max(x.h, h)
		if k == Rip {
			nw, nh = max(x.w, w), x.h+h
		}
		if nw > x.aw || nh > x.ah || ty.need == 2 && h != s.sheets[b.sheet].h {
			continue
		}
		if (ty.need > 0 || x.need > 0) && !s.edges(b, at, k, ty.need) {
			continue
		}
		sc := s.score(b, at, k, w, h, nw, nh)
		if !*ok || sc < best.score {
			*best, *ok = place{at, k, turned == 1, sc}, true
		}
	}
}

// edges tells whether the tapered edges still suffice when a part of the given need is joined to node at.
func (s *search) edges(b *bin, at int32, k Kind, need int8) bool {
	x := &b.nodes[at]
	var was, now = x.need, max(x.need, need)
	if k == Rip {
		if need > 1 || x.need > 1 && (x.item != none || x.cut == Cross) {
			return false
		}
		now = x.need + need
	}
	for u := x.up; u != none; u = b.nodes[u].up {
		n := &b.nodes[u]
		if n.cut == Cross {
			was, now = n.need, max(n.need, now)
			continue
		}
		if now > 1 {
			return false
		}
		was, now = n.need, n.need+now-was
	}
	return now <= s.sheets[b.sheet].tapers
}

// score is the waste that an insertion makes, the less the better: what the box of all parts grows, less the part,
// and, weighted less, the strip beside the shorter of the two neighbours.
func (s *search) score(b *bin, at int32, k Kind, w, h, nw, nh int64) float64 {
	x := &b.nodes[at]
	strip := float64(w) * float64(nh-h)
	if nh > x.h {
		strip = float64(x.w) * float64(nh-x.h)
	}
	if k == Rip {
		strip = float64(h) * float64(nw-w)
		if nw > x.w {
			strip = float64(x.h) * float64(nw-x.w)
		}
	}
	// The box grows only as far as no ancestor has the room already.
	dw, dh := nw-x.w, nh-x.h
	for u := x.up; u != none && (dw > 0 || dh > 0); u = b.nodes[u].up {
		n := &b.nodes[u]
		c := x
		if n.cut == Cross {
			dh = max(0, c.h+dh-n.h)
		} else {
			dw = max(0, c.w+dw-n.w)
		}
		x = n
	}
	r := &b.nodes[b.root]
	grown := float64(r.w+dw)*float64(r.h+dh) - float64(r.w)*float64(r.h)
	return grown - float64(w)*float64(h) + s.stripWeight*strip
}

// put carries out an insertion.
func (s *search) put(b *bin, t int, p place) {
	ty := &s.types[t]
	n := node{w: ty.w, h: ty.h, item: int32(t), need: ty.need, turned: p.turned, up: none, kid: none, sib: none}
	if p.turned {
		n.w, n.h = n.h, n.w
	}
	me := int32(len(b.nodes))
	b.nodes = append(b.nodes, n)
	b.area += ty.area
	b.parts++
	if p.at == none {
		b.root = me
		s.settle(b)
		return
	}
	x := &b.nodes[p.at]
	switch {
	case x.item == none && x.cut == p.cut: // one more kid
		b.nodes[me].up, b.nodes[me].sib = p.at, x.kid
		x.kid = me
	case x.up != none && b.nodes[x.up].cut == p.cut: // one more sibling
		b.nodes[me].up, b.nodes[me].sib = x.up, x.sib
		x.sib = me
	default:
		j := int32(len(b.nodes))
		b.nodes = append(b.nodes, node{item: none, cut: p.cut, up: b.nodes[p.at].up, kid: p.at, sib: none})
		if u := b.nodes[j].up; u == none {
			b.root = j
		} else {
			for link := &b.nodes[u].kid; ; link = &b.nodes[*link].sib {
				if *link == p.at {
					*link = j
					break
				}
			}
			b.nodes[j].sib = b.nodes[p.at].sib
		}
		b.nodes[p.at].up, b.nodes[p.at].sib = j, me
		b.nodes[me].up = j
	}
	s.settle(b)
}

// settle computes boxes from the parts up, then from the sheet down how far each may grow.
func (s *search) settle(b *bin) {
	if b.root == none {
		return
	}
	b.measure(b.root)
	sh := &s.sheets[b.sheet]
	b.room(b.root, sh.w, sh.h)
}

func (b *bin) measure(i int32) {
	n := &b.nodes[i]
	if n.item != none {
		return
	}
	n.w, n.h, n.need = 0, 0, 0
	for k := n.kid; k != none; k = b.nodes[k].sib {
		b.measure(k)
		c := &b.nodes[k]
		if n.cut == Cross {
			n.w, n.h, n.need = n.w+c.w, max(n.h, c.h), max(n.need, c.need)
		} else {
			n.w, n.h, n.need = max(n.w, c.w), n.h+c.h, n.need+c.need
		}
	}
}

func (b *bin) room(i int32, aw, ah int64) {
	n := &b.nodes[i]
	n.aw, n.ah = aw, ah
	if n.item != none {
		return
	}
	for k := n.kid; k != none; k = b.nodes[k].sib {
		c := &b.nodes[k]
		if n.cut == Cross {
			b.room(k, c.w+aw-n.w, ah)
		} else {
			b.room(k, aw, c.h+ah-n.h)
		}
	}
}

// without gives the bin without the marked nodes and all below them, and appends the types of their parts to out.
func (s *search) without(b *bin, marked func(i int32) bool, out []int) (bin, []int) {
	c := bin{sheet: b.sheet, root: none, nodes: make([]node, 0, len(b.nodes)+4)}
	var keep func(i int32) int32
	var drop func(i int32)
	drop = func(i int32) {
		if t := b.nodes[i].item; t != none {
			out = append(out, int(t))
			return
		}
		for k := b.nodes[i].kid; k != none; k = b.nodes[k].sib {
			drop(k)
		}
	}
	keep = func(i int32) int32 {
		if marked(i) {
			drop(i)
			return none
		}
		n := b.nodes[i]
		if n.item != none {
			c.area += s.types[n.item].area
			c.parts++
			n.up, n.sib = none, none
			c.nodes = append(c.nodes, n)
			return int32(len(c.nodes) - 1)
		}
		var kids []int32
		for k := n.kid; k != none; k = b.nodes[k].sib {
			if j := keep(k); j != none {
				if m := &c.nodes[j]; m.item == none && m.cut == n.cut { // a join that was left with one kid of our own direction
					for g := m.kid; g != none; g = c.nodes[g].sib {
						kids = append(kids, g)
					}
					m.kid = none
					m.w = -1 // dead
					continue
				}
				kids = append(kids, j)
			}
		}
		switch len(kids) {
		case 0:
			return none
		case 1:
			return kids[0]
		}
		me := int32(len(c.nodes))
		c.nodes = append(c.nodes, node{item: none, cut: n.cut, up: none, kid: kids[0], sib: none})
		for x, j := range kids {
			c.nodes[j].up, c.nodes[j].sib = me, none
			if x+1 < len(kids) {
				c.nodes[j].sib = kids[x+1]
			}
		}
		return me
	}
	if b.root != none {
		c.root = keep(b.root)
	}
	c.sweep()
	s.settle(&c)
	return c, out
}

// sweep closes the gaps that dead nodes left.
func (b *bin) sweep() {
	if !slices.ContainsFunc(b.nodes, func(n node) bool { return n.w < 0 }) {
		return
	}
	move := make([]int32, len(b.nodes))
	live := b.nodes[:0:0]
	for i, n := range b.nodes {
		move[i] = none
		if n.w >= 0 {
			move[i] = int32(len(live))
			live = append(live, n)
		}
	}
	at := func(i int32) int32 {
		if i == none {
			return none
		}
		return move[i]
	}
	for i := range live {
		n := &live[i]
		n.up, n.kid, n.sib = at(n.up), at(n.kid), at(n.sib)
	}
	b.root = at(b.root)
	b.nodes = live
}

// tree hands the bin out in real sizes.
func (s *search) tree(b *bin, i int32) *Tree {
	n := &b.nodes[i]
	t := &Tree{Item: -1, Cut: n.cut, W: n.w - s.kerf, H: n.h - s.kerf, need: n.need}
	if n.item != none {
		t.Item, t.Turned = s.types[n.item].item, n.turned
		return t
	}
	for k := n.kid; k != none; k = b.nodes[k].sib {
		t.Kids = append(t.Kids, s.tree(b, k))
	}
	// Equal sizes stand together, so that the saw stays set.
	slices.SortStableFunc(t.Kids, func(a, b *Tree) int {
		if t.Cut == Cross {
			return int(min(max(b.W-a.W, -1), 1))
		}
		return int(min(max(b.H-a.H, -1), 1))
	})
	return t
}
