package survey

import (
	"math"

	"seamwright/calc/length"
)

// bend is the corner of two surfaces, seen in a section square to it. u and v are the directions from the corner
// along either framing face, φ the angle between them on the room's side. A board lies on its framing at depths d
// to d+t and its end is cut square; its setback s is how far the end stays from the corner, negative where the
// board runs past it. A point at depth x of that end stands, in the other surface's terms,
//
//	s·sin φ - x·cos φ  in front of the other framing, and
//	s·cos φ + x·sin φ  along it from the corner.
//
// Boards hung before are in the way (inside corner) or have ends to be covered (outside corner). All setbacks
// below follow from these two lines; they are rounded once.
type bend struct {
	kind     bendKind
	cos, sin float64 // of φ
	square   bool    // φ is exactly 90° or 270°
}

type bendKind int

const (
	straightOn bendKind = iota
	inside              // φ < 180°
	outside             // φ > 180°
)

// bendOf makes a corner from the cosine and sine of φ; the sine's sign parts inside from outside.
func bendOf(cos, sin float64) bend {
	b := bend{kind: inside, cos: cos, sin: sin, square: cos == 0}
	if sin < 0 {
		b.kind = outside
	}
	if math.Abs(sin) < flatBend && cos < 0 {
		b.kind = straightOn
	}
	return b
}

// flatBend is the sine below which two walls count as one straight line: a millimetre in ten metres.
const flatBend = 1e-4

// stack is the lining of one surface at one height beside the corner: the thickness of each layer.
type stack []length.Length

// depth is the distance from the framing to the back of layer k (0-based); k = len gives the whole.
func (s stack) depth(k int) (d length.Length) {
	for _, t := range s[:k] {
		d += t
	}
	return d
}

// meeting is two linings that meet at a corner; first says which of the two is hung first within a layer.
// Linings are hung layer by layer: all first layers, then all second ones.
type meeting struct {
	bend
	stacks [2]stack
	first  int
}

// before counts the layers of the other surface that hang when layer k of surface w is hung.
func (m meeting) before(w, k int) int {
	n := k
	if m.first != w {
		n++
	}
	return min(n, len(m.stacks[1-w]))
}

// setback is how far layer k (0-based) of surface w stays from the corner.
func (m meeting) setback(w, k int) length.Length {
	own, other := m.stacks[w], m.stacks[1-w]
	if len(other) == 0 && (m.kind != inside || m.square) || m.kind == straightOn {
		return 0
	}
	hung := m.before(w, k)
	t := other.depth(hung)
	switch {
	case m.square && m.kind == inside:
		return t
	case m.square:
		return -t
	case m.kind == inside && m.cos > 0:
		// sharp: the front edge of the end is what reaches the other lining's face first
		return round((float64(t) + float64(float64(own.depth(k+1))*m.cos)) / m.sin)
	case m.kind == inside:
		return m.wide(w, k, hung)
	case m.cos > 0:
		// a sharp arris: the back edge comes level with the other lining's face and the end covers it
		return round((float64(t) + float64(float64(own.depth(k))*m.cos)) / m.sin)
	}
	return m.blunt(w, k, t)
}

// wide is the setback at an inside corner of more than 90°. The back edge of the end meets the framing; of a
// board that hangs there already the square end leaves a wedge open, so the end goes on until it touches that
// board's front edge: at a depth where it has come alongside it (position at least e, the setback of that board)
// it must stand in front of its face f.
func (m meeting) wide(w, k, hung int) length.Length {
	own, other := m.stacks[w], m.stacks[1-w]
	back, front := float64(own.depth(k)), float64(own.depth(k+1))
	s := back * m.cos / m.sin
	for j := range hung {
		e, f := float64(m.setback(1-w, j)), float64(other.depth(j+1))
		touch := float64(f*m.sin) + float64(e*m.cos)                   // the end's face touches the front edge
		if depth := (e - float64(touch*m.cos)) / m.sin; depth < back { // the board is thinner there than where our back lies
			touch = (f + float64(back*m.cos)) / m.sin
		}
		free := (e - float64(front*m.sin)) / m.cos // beyond this our whole end lies in the wedge
		s = math.Max(s, math.Min(touch, free))
	}
	return round(s)
}

// blunt is the setback at an outside corner of less than 270°: the board hung later brings its front edge to the
// arris where both faces meet, and the board before it stops at the back of that one.
func (m meeting) blunt(w, k int, t length.Length) length.Length {
	own, other := m.stacks[w], m.stacks[1-w]
	s := 0.0
	if k > 0 || t > 0 {
		s = (float64(float64(own.depth(k+1))*-m.cos) - float64(t)) / -m.sin
	}
	if m.first == w && k < len(other) { // layer k of the other surface follows
		later := -float64(m.setback(1-w, k))
		behind := float64(later*-m.cos) - float64(float64(other.depth(k))*-m.sin)
		if t == 0 && k == 0 {
			behind = math.Max(0, behind)
		}
		s = math.Max(s, behind)
	}
	return round(s)
}
