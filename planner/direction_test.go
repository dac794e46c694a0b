package planner

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc"
)

// openRoom leaves every direction of the sheets open; RUN is that of the ceiling.
const openRoom = `seamwright: 1
name: open
units: metric
aim: sheets
rooms:
  - id: r
    height: 2.5 m
    corners: [[0, 0], [5.1 m, 0], [5.1 m, 3.7 m], [0, 3.7 m]]
    ceiling: {shape: flat, lining: [{product: gyp-12.5, run: RUN}]}
    walls:
      - side: 1
        lining: [{product: ply-18-metric, to: 1200 mm, pattern: centred}, {product: gyp-12.5}]
        openings: [{id: d, kind: door, at: 2 m, width: 900 mm, height: 2100 mm}]
      - {side: 3, openings: [{id: w, kind: window, at: 2 m, width: 1200 mm, height: 1000 mm, sill: 900 mm}]}
      - {side: 4, openings: [{id: w, kind: window, at: 1 m, width: 1200 mm, height: 1000 mm, sill: 900 mm}]}
defaults:
  lining: [{product: gyp-12.5}]
stock:
  - {product: gyp-12.5, size: [1200 mm, 600 mm], edges: cut, count: 2}
`

// Every layout of a fixed direction is one of an open direction too, so leaving it open never takes more sheets. In this
// room it pays to turn the ceiling's sheets only when walls are cut otherwise as well.
func TestOpenDirectionsTakeNoMoreSheetsThanFixedOnes(t *testing.T) {
	sheets := func(run string) int {
		d, err := Parse("open", []byte(strings.Replace(openRoom, "RUN", run, 1)))
		require.NoError(t, err)
		p, err := calc.Plan(context.Background(), d.Job(), nil)
		require.NoError(t, err)
		require.GreaterOrEqual(t, p.Summary.SheetsBought, p.Summary.SheetsBound)
		return p.Summary.SheetsBought
	}
	open := sheets("auto")
	for _, run := range []string{"along", "across"} {
		require.LessOrEqual(t, open, sheets(run), run)
	}
}
