package finish_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/assets/words"
	"seamwright/calc/finish"
	"seamwright/calc/job"
	"seamwright/calc/plan"
)

// Boxes in a room are found with their whole build-up.
func TestBoxesOfARoom(t *testing.T) {
	j, b, p := room(t, 4)
	south := b.Surfaces[0]
	south.Wall.Boxes = []job.Box{{At: 5 * foot, Up: 16 * inch, Width: 2 * inch, Height: 4 * inch}, {At: 9 * foot, Up: 16 * inch, Width: 2 * inch, Height: 4 * inch, SetOut: inch / 2}}
	boxes := finish.Boxes(j, b)
	require.Len(t, boxes, 2)
	require.Equal(t, inch/4, boxes[0].Extension)
	require.Zero(t, boxes[1].Extension)
	south.Zones[0].Product, south.Zones[0].Depth = j.Product("ply-18"), 5*inch/8
	require.Equal(t, 27*inch/32, finish.Boxes(j, b)[1].Extension)
	rows := map[string]string{}
	for _, r := range finish.Finish(j, b, p, nil, finish.Thorough) {
		rows[r.Record] = r.Supply
	}
	require.Equal(t, "box-extender", rows[`box extender 27/32"`], "the extender of 1 in reaches")
	require.Contains(t, rows, "box extender", "1 11/32 in is farther than any that is for sale")
}

// Penetrations: a box of 2 in by 4 in has 12 in of joint, a round one of 4 in 12.57 in. A triangular bead of 3/16 in takes
// (3/16)²/2 in² of it; a tube holds 18.3 in³. Only surfaces that keep fire or weather out ask for it.
func TestPenetrations(t *testing.T) {
	j, b, p := room(t, 4)
	wall := b.Surfaces[0].Wall
	wall.Boxes = []job.Box{{At: 5 * foot, Up: 16 * inch, Width: 2 * inch, Height: 4 * inch}, {At: 9 * foot, Up: 16 * inch, Diameter: 4 * inch}}
	for _, r := range finish.Finish(j, b, p, nil, finish.Thorough) {
		require.NotEqual(t, "caulk", r.Supply, "an inner wall")
	}
	wall.Duty = []job.Duty{job.Separation}
	seal := find(t, finish.Finish(j, b, p, nil, finish.Thorough), "sealant round boxes")
	require.InDelta(t, (12+4*math.Pi)*0.1875*0.1875/2/18.3, seal.Need, 1e-6)
	require.Contains(t, said(seal.Basis), "2 boxes")
}

// said is a fact in English, in feet and inches.
func said(f plan.Fact) string { return words.In(words.English, words.Units{Imperial: true}).Fact(f) }
