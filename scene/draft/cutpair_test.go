package draft_test

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/cut"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/scene/draft"
)

// A rectangle of 8 ft by 47 in parted from 7 in at its left end to 40 in at its right: the cut stands in the list with both
// measures and on the sheet at both ends, and each half answers for itself, beside the cut and beyond it.
func TestASlantedCutIsDrawn(t *testing.T) {
	j := studio()
	p := answer(j)
	panels := p.Surfaces[0].Zones[0].Panels
	near, far := &panels[0], &panels[1]
	near.ID, far.ID = "R-1", "R-2"
	near.Outline = shape.Polygon{{}, {X: 8 * ft}, {X: 8 * ft, Y: 40 * in}, {Y: 7 * in}}
	far.Outline = near.Outline
	p.Sheets = []plan.Sheet{{ID: "S001", Product: "ply-18", Size: [2]length.Length{8 * ft, 4 * ft}, Source: plan.Buy,
		Parts: []plan.Part{{Panel: near.ID, Rect: shape.Rect{W: 8 * ft, H: 47 * in}, Pair: &plan.Pair{Panel: far.ID, HalfRound: [2]bool{false, true},
			From: shape.Point{Y: 7 * in}, To: shape.Point{X: 8 * ft, Y: 40 * in}, Measures: [2]length.Length{7 * in, 40 * in}}}},
		Offcuts: []shape.Rect{{Y: 47 * in, W: 8 * ft, H: in}},
		Cuts:    []plan.Cut{{Order: 1, Kind: "rip", From: shape.Point{Y: 47 * in}, To: shape.Point{X: 8 * ft, Y: 47 * in}}}}}
	cut.Sheets(j, p)
	sh := &p.Sheets[0]
	require.Equal(t, 2, sh.Parts[0].Pair.Order)
	require.Equal(t, 2, sh.Setups)
	into := draft.Rect{W: 900, H: 400}
	svg := draft.NewSVG(into.W, into.H)
	draft.DrawCutSheet(svg, draft.Paper(), sh, p, j, into, draft.CutState{})
	var out bytes.Buffer
	_, err := svg.WriteTo(&out)
	require.NoError(t, err)
	for words, n := range map[string]int{">slant<": 1, ">7&#34; to 3&#39; 4&#34;<": 1, ">7&#34;<": 1, ">3&#39; 4&#34;<": 1, ">" + near.ID + "<": 1, ">" + far.ID + "<": 1, ">8&#39; 0&#34; × 3&#39; 4&#34;<": 2} {
		require.Equal(t, n, bytes.Count(out.Bytes(), []byte(words)), "%s in %s", words, out.String())
	}
	hits := map[string]int{}
	for x := 50.0; x < 640; x += 10 {
		for y := 45.0; y < 340; y += 10 {
			hits[draft.CutSheetHit(sh, j, into, draft.Pt{X: x, Y: y})]++
		}
	}
	require.InEpsilon(t, hits[near.ID], hits[far.ID], 0.05, "both halves are of one size")
	require.Equal(t, near.ID, draft.CutSheetHit(sh, j, into, draft.Pt{X: 600, Y: 300}))
	require.Equal(t, far.ID, draft.CutSheetHit(sh, j, into, draft.Pt{X: 100, Y: 100}))
}
