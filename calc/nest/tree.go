package nest

// Kind is the direction of a cut.
type Kind uint8

// A cross cut runs across the length of the sheet (x is constant along it), a rip along it (y is constant).
const (
	Cross Kind = iota
	Rip
)

func (k Kind) String() string {
	if k == Rip {
		return "rip"
	}
	return "cross"
}

// Tree is how a piece is cut: a leaf is a part; else parallel cuts divide it, and every kid is cut on the other way.
// What is left over at the end of a row of kids, or beside a smaller kid, is an offcut and stands nowhere in the tree.
type Tree struct {
	Item   int  // leaf: index of the item; -1: the piece is cut into kids
	Turned bool // leaf: turned a quarter
	Cut    Kind // direction of the cuts between the kids
	Kids   []*Tree
	W, H   int64 // least size that holds it all
	need   int8  // edges of it that must lie on tapered edges of the sheet
}

// Bin is a sheet and how it is cut; parts, cuts and offcuts are read from the tree.
type Bin struct {
	Sheet int // index into Problem.Sheets
	Tree  *Tree
	p     *Problem
}

// Rect is a rectangle on a sheet; x runs along W, y along H.
type Rect struct{ X, Y, W, H int64 }

// Part is an item in its place; W and H are as it lies.
type Part struct {
	Item int
	Rect
	Turned bool
}

// Cut is one cut, right across the piece it is made in. The line lies on the near side of the blade, which takes the
// kerf beyond it.
type Cut struct {
	Kind           Kind
	X1, Y1, X2, Y2 int64
	Setting        int64 // how far the cut is measured from the edge of the piece; equal settings in a row are one set-up
	FromFar        bool  // measured from the far edge (greater x or y)
}

// Parts, in the order in which the tree holds them.
func (b Bin) Parts() []Part {
	r := b.read()
	return r.parts
}

// Cuts in the order of work: equal settings stand together as far as the pieces allow.
func (b Bin) Cuts() []Cut {
	r := b.read()
	return r.ordered()
}

// Offcuts are the rectangles left over; none is narrower than one unit.
func (b Bin) Offcuts() []Rect {
	r := b.read()
	return r.offcuts
}

// reader walks a tree and notes what it means on the sheet.
type reader struct {
	p       *Problem
	kerf    int64
	parts   []Part
	offcuts []Rect
	cuts    []Cut
	after   []int // index of the cut that must come before, -1 none
	last    int   // cut that made the piece at hand
}

func (b Bin) read() *reader {
	s := b.p.Sheets[b.Sheet]
	r := &reader{p: b.p, kerf: b.p.Kerf, last: -1}
	r.place(b.Tree, Rect{0, 0, s.W, s.H}, s.Tapered)
	return r
}

// cut notes a cut in the piece at hand and makes it the one that later cuts wait for.
func (r *reader) cut(c Cut) {
	r.cuts = append(r.cuts, c)
	r.after = append(r.after, r.last)
	r.last = len(r.cuts) - 1
}

// offcut notes a rest, if there is one.
func (r *reader) offcut(q Rect) {
	if q.W > 0 && q.H > 0 {
		r.offcuts = append(r.offcuts, q)
	}
}

// place cuts the tree out of the piece q. held tells which of the edges of q along x are tapered.
func (r *reader) place(t *Tree, q Rect, held [2]bool) {
	came := r.last
	defer func() { r.last = came }()
	if t.Item >= 0 {
		q = r.trim(t, Cross, q, held)
		q = r.trim(t, Rip, q, held)
		r.parts = append(r.parts, Part{t.Item, q, t.Turned})
		return
	}
	if t.Cut == Cross {
		for _, k := range t.Kids {
			var mine Rect
			mine, q = r.split(Cross, q, k.W)
			r.place(k, mine, held)
		}
		r.offcut(q)
		return
	}
	// The one kid that must touch the top is cut off first, from the far edge.
	kids := append([]*Tree(nil), t.Kids...)
	var low, high *Tree
	for _, k := range kids {
		switch {
		case k.need == 0:
		case low == nil && held[0]:
			low = k
		default:
			high = k
		}
	}
	if high != nil {
		mine := Rect{q.X, q.Y + q.H - high.H, q.W, high.H}
		if line := mine.Y - r.kerf; q.H > high.H {
			r.cut(Cut{Rip, q.X, line, q.X + q.W, line, high.H, true})
			q.H = max(line-q.Y, 0)
		} else {
			q.H = 0
		}
		r.place(high, mine, [2]bool{false, held[1]})
	}
	if low != nil {
		var mine Rect
		mine, q = r.split(Rip, q, low.H)
		r.place(low, mine, [2]bool{held[0], false})
	}
	for _, k := range kids {
		if k != low && k != high {
			var mine Rect
			mine, q = r.split(Rip, q, k.H)
			r.place(k, mine, [2]bool{})
		}
	}
	r.offcut(q)
}

// split cuts a piece of the given size off q from its near edge, and gives it and the rest.
func (r *reader) split(k Kind, q Rect, size int64) (mine, rest Rect) {
	mine, rest = q, q
	if k == Cross {
		mine.W = size
		rest.X += size + r.kerf
		rest.W -= size + r.kerf
		if q.W > size {
			r.cut(Cut{Cross, q.X + size, q.Y, q.X + size, q.Y + q.H, size, false})
		}
	} else {
		mine.H = size
		rest.Y += size + r.kerf
		rest.H -= size + r.kerf
		if q.H > size {
			r.cut(Cut{Rip, q.X, q.Y + size, q.X + q.W, q.Y + size, size, false})
		}
	}
	return mine, rest
}

// trim takes what is too much off the piece around a part, at the far side or, where the part must keep the far edge,
// at the near one.
func (r *reader) trim(t *Tree, k Kind, q Rect, held [2]bool) Rect {
	if k == Cross {
		mine, rest := r.split(Cross, q, t.W)
		r.offcut(rest)
		return mine
	}
	if t.need == 0 || held[0] || q.H == t.H {
		mine, rest := r.split(Rip, q, t.H)
		r.offcut(rest)
		return mine
	}
	mine := Rect{q.X, q.Y + q.H - t.H, q.W, t.H}
	line := mine.Y - r.kerf
	r.cut(Cut{Rip, q.X, line, q.X + q.W, line, t.H, true})
	r.offcut(Rect{q.X, q.Y, q.W, line - q.Y})
	return mine
}
