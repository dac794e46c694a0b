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

// slot is room for a part beside a node, by a cut of the kind.
type slot struct {
	w, h int64
	at   int32
	cut  Kind
}

// bin is one sheet in the making.
type bin struct {
	sheet int32
	root  int32
	nodes []node
	slots []slot  // those that hold any part at all
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

// clone copies a bin.
func (b *bin) clone() bin {
	c := *b
	c.nodes, c.slots = slices.Clone(b.nodes), slices.Clone(b.slots)
	return c
}

// The ways that a part may lie.
const (
	straight = 1 << iota
	turned
)

// best finds the best place for a part of type t in the bin; ok is false where there is none.
func (s *search) best(b *bin, t int) (best place, ok bool) { return s.bestLying(b, t, s.ways) }

// bestLying finds the best place for a part that may lie in some ways only.
func (s *search) bestLying(b *bin, t, ways int) (best place, ok bool) {
	ty := &s.types[t]
	if !ty.turn {
		ways = straight
	}
	if b.root == none {
		sh := &s.sheets[b.sheet]
		for way := range 2 {
			if ty.need > sh.tapers || ways&(1<<way) == 0 {
				continue
			}
			w, h := ty.w, ty.h
			if way == 1 {
				w, h = h, w
			}
			if w <= sh.w && h <= sh.h && (ty.need < 2 || h == sh.h) {
				sc := float64(min(sh.w-w, sh.h-h))
				if !ok || sc < best.score {
					best, ok = place{none, Cross, way == 1, sc}, true
				}
			}
		}
		return best, ok
	}
	s.work += int64(len(b.nodes))
	if len(b.slots) == 0 {
		return best, false
	}
	sh, r := &s.sheets[b.sheet], &b.nodes[b.root]
	v := view{spareW: sh.w - r.w, spareH: sh.h - r.h, w: float64(r.w), h: float64(r.h), box: float64(r.w) * float64(r.h)}
	for way := range 2 {
		w, h := ty.w, ty.h
		if ways&(1<<way) == 0 {
			continue
		}
		if way == 1 {
			w, h = h, w
		}
		if ty.need == 2 && h != sh.h {
			continue
		}
		for i := range b.slots {
			o := &b.slots[i]
			if w > o.w || h > o.h {
				continue
			}
			x := &b.nodes[o.at]
			if (ty.need > 0 || x.need > 0) && !s.edges(b, o.at, o.cut, ty.need) {
				continue
			}
			if sc := v.waste(x, o.cut, w, h) + float64(s.stripWeight*strip(x, o.cut, w, h)); !ok || sc < best.score {
				best, ok = place{o.at, o.cut, way == 1, sc}, true
			}
		}
	}
	return best, ok
}

// view is a sheet as it is seen while places are weighed.
type view struct {
	spareW, spareH int64 // what the sheet is larger than the box of all parts
	w, h, box      float64
}

// waste is what the box of all parts grows by an insertion, less the part. The box grows by as much as the node exceeds
// the room that it has inside the box, which is the room that it has in the sheet less what the sheet is larger.
func (v *view) waste(x *node, k Kind, w, h int64) float64 {
	nw, nh := x.w+w, max(x.h, h)
	if k == Rip {
		nw, nh = max(x.w, w), x.h+h
	}
	dw, dh := max(0, nw-(x.aw-v.spareW)), max(0, nh-(x.ah-v.spareH))
	if dw == 0 && dh == 0 {
		return -float64(w) * float64(h)
	}
	return float64((v.w+float64(dw))*(v.h+float64(dh))) - v.box - float64(float64(w)*float64(h))
}

// strip is the area beside the shorter of two neighbours.
func strip(x *node, k Kind, w, h int64) float64 {
	switch {
	case k == Cross && h > x.h:
		return float64(x.w) * float64(h-x.h)
	case k == Cross:
		return float64(w) * float64(x.h-h)
	case w > x.w:
		return float64(x.h) * float64(w-x.w)
	}
	return float64(h) * float64(x.w-w)
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
	b.slots = b.slots[:0]
	s.room(b, b.root, sh.w, sh.h, true, true)
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

// room notes how far a node may grow, and the slots beside it; those beside a join of the same direction are the join's.
func (s *search) room(b *bin, i int32, aw, ah int64, cross, rip bool) {
	n := &b.nodes[i]
	n.aw, n.ah = aw, ah
	if w := aw - n.w; cross && w >= s.leastW && ah >= s.leastH {
		b.slots = append(b.slots, slot{w, ah, i, Cross})
	}
	if h := ah - n.h; rip && h >= s.leastH && aw >= s.leastW {
		b.slots = append(b.slots, slot{aw, h, i, Rip})
	}
	for k := n.kid; k != none; k = b.nodes[k].sib {
		c := &b.nodes[k]
		if n.cut == Cross {
			s.room(b, k, c.w+aw-n.w, ah, false, true)
		} else {
			s.room(b, k, aw, c.h+ah-n.h, true, false)
		}
	}
}

// without gives the bin without the marked nodes and all below them, in the memory of an old one, and appends the types
// of their parts to out.
func (s *search) without(b *bin, marked []int32, old bin, out []int) (bin, []int) {
	p := pruner{s: s, from: b, to: bin{sheet: b.sheet, root: none, nodes: old.nodes[:0], slots: old.slots[:0]}, out: out}
	if b.root == none {
		return p.to, out
	}
	s.live = append(s.live[:0], make([]bool, len(b.nodes))...)
	for _, i := range marked {
		s.live[i] = true // for the time being: marked
	}
	p.count(b.root, false)
	p.keep(b.root, none)
	s.settle(&p.to)
	return p.to, p.out
}

// pruner copies a bin but for some of its nodes.
type pruner struct {
	s    *search
	from *bin
	to   bin
	out  []int
}

// count turns marks into what stays: parts under no mark, and joins of such.
func (p *pruner) count(i int32, gone bool) bool {
	gone = gone || p.s.live[i]
	n := &p.from.nodes[i]
	stays := n.item != none && !gone
	if n.item != none && gone {
		p.out = append(p.out, int(n.item))
	}
	for k := n.kid; k != none; k = p.from.nodes[k].sib {
		stays = p.count(k, gone) || stays
	}
	p.s.live[i] = stays
	return stays
}

// keep copies what stays of node i as a kid of the join up. A join with one kid left is that kid, and a join that comes
// to lie in one of its own direction dissolves in it.
func (p *pruner) keep(i, up int32) {
	n := &p.from.nodes[i]
	for n.item == none {
		first, more := int32(none), false
		for k := n.kid; k != none && !more; k = p.from.nodes[k].sib {
			if p.s.live[k] {
				more = first != none
				if !more {
					first = k
				}
			}
		}
		if first == none {
			return
		}
		if more {
			break
		}
		i, n = first, &p.from.nodes[first]
	}
	if !p.s.live[i] {
		return
	}
	into := up
	if n.item != none || up == none || p.to.nodes[up].cut != n.cut {
		into = int32(len(p.to.nodes))
		c := node{w: n.w, h: n.h, item: n.item, cut: n.cut, need: n.need, turned: n.turned, up: up, kid: none, sib: none}
		if up == none {
			p.to.root = into
		} else {
			c.sib = p.to.nodes[up].kid
			p.to.nodes[up].kid = into
		}
		p.to.nodes = append(p.to.nodes, c)
	}
	if n.item != none {
		p.to.area += p.s.types[n.item].area
		p.to.parts++
		return
	}
	for k := n.kid; k != none; k = p.from.nodes[k].sib {
		if p.s.live[k] {
			p.keep(k, into)
		}
	}
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
