package ui

import (
	"testing"

	"seamwright/calc/length"
	"seamwright/calc/shape"
	"seamwright/scene/draft"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// paper puts 50 pixels to a metre and the origin at (100, 400).
var paper = draft.View{Scale: 50, X: 100, Y: 400}

func at(x, y length.Length) shape.Point { return shape.Point{X: x, Y: y} }

func TestTypedLengthFollowsThePointer(t *testing.T) {
	o := &outline{imperial: true, set: []shape.Point{at(0, 0)}}
	for _, c := range []struct {
		typed   string
		pointer draft.Pt
		want    shape.Point
	}{
		{`12' 6 1/2"`, draft.Pt{X: 300, Y: 400}, at(12*length.Foot+13*length.Inch/2, 0)},
		{"20", draft.Pt{X: 300, Y: 402}, at(20*length.Foot, 0)}, // a bare number is feet; nearly level is level
		{"2.4 m", draft.Pt{X: 100, Y: 200}, at(0, 2400*length.Millimetre)},
		{"8", draft.Pt{X: 40, Y: 400}, at(-8*length.Foot, 0)},
	} {
		o.typed = c.typed
		o.move(paper, c.pointer, nil)
		got, err := o.target()
		require.NoError(t, err, c.typed)
		require.InDelta(t, c.want.X.MM(), got.X.MM(), 6, "%s x", c.typed) // the pointer itself snaps to the grid
		require.InDelta(t, c.want.Y.MM(), got.Y.MM(), 6, "%s y", c.typed)
	}
	o.typed, o.to = "5 m", at(30*length.Inch, 40*length.Inch) // 3-4-5
	got, err := o.target()
	require.NoError(t, err)
	require.Equal(t, at(3*length.Metre, 4*length.Metre), got)
	o.typed = "0"
	_, err = o.target()
	require.Error(t, err)
	o.typed = "twelve"
	_, err = o.target()
	require.Error(t, err)
}

func TestOutlineClosesAndRefusesCrossing(t *testing.T) {
	o := &outline{imperial: true}
	for _, p := range []shape.Point{at(0, 0), at(20*length.Foot, 0), at(20*length.Foot, 10*length.Foot), at(0, 10*length.Foot)} {
		o.to = p
		done, err := o.put()
		require.NoError(t, err)
		require.False(t, done)
	}
	o.to = at(10*length.Foot, -2*length.Foot) // back through the first wall
	_, err := o.put()
	require.ErrorIs(t, err, errCrosses)
	require.Len(t, o.set, 4, "a refused corner changes nothing")
	o.move(paper, paper.Place(at(0, 0)).Add(draft.Pt{X: 7, Y: -6}), nil)
	require.True(t, o.closing(), "within reach of the first corner")
	done, err := o.put()
	require.NoError(t, err)
	require.True(t, done)

	few := &outline{set: []shape.Point{at(0, 0), at(length.Foot, 0)}}
	_, err = few.close()
	require.ErrorIs(t, err, errFew)
}

func TestEscTakesBackOneThingAtATime(t *testing.T) {
	o := &outline{set: []shape.Point{at(0, 0), at(length.Foot, 0)}, typed: "12"}
	require.False(t, o.back())
	require.Empty(t, o.typed)
	require.False(t, o.back())
	require.Len(t, o.set, 1)
	require.False(t, o.back())
	require.True(t, o.back(), "nothing is left")
}

// Two segments cross where, by exact integers, each parts the ends of the other.
func TestSegmentsCrossAgainstIntegers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.Int64Range(-20, 20)
		p := func(name string) [2]int64 { return [2]int64{n.Draw(t, name+"x"), n.Draw(t, name+"y")} }
		a, b, c, d := p("a"), p("b"), p("c"), p("d")
		side := func(p, q, r [2]int64) int64 {
			v := (q[0]-p[0])*(r[1]-p[1]) - (q[1]-p[1])*(r[0]-p[0])
			return map[bool]int64{true: 1}[v > 0] - map[bool]int64{true: 1}[v < 0]
		}
		s := []int64{side(a, b, c), side(a, b, d), side(c, d, a), side(c, d, b)}
		for _, v := range s {
			if v == 0 {
				t.Skip("touching and overlapping segments have tests of their own")
			}
		}
		feet := func(p [2]int64) shape.Point {
			return at(length.Length(p[0])*length.Foot, length.Length(p[1])*length.Foot)
		}
		require.Equal(t, s[0] != s[1] && s[2] != s[3], segmentsCross(feet(a), feet(b), feet(c), feet(d)))
	})
}

func TestSnapStepGrowsWithDistance(t *testing.T) {
	require.Equal(t, length.Inch/4, snapStep(true, draft.View{Scale: 1000}, snapGrid))
	require.Equal(t, length.Length(length.Foot), snapStep(true, draft.View{Scale: 30}, snapGrid))
	require.Equal(t, 100*length.Millimetre, snapStep(false, draft.View{Scale: 70}, snapGrid))
	require.Equal(t, -6*length.Inch, nearest(-5*length.Inch, 3*length.Inch))
}
