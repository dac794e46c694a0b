package planner

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamwright/calc"
	"seamwright/calc/layout"
	"seamwright/calc/plan"
)

// stripCase is one wall of the strip model in given courses, with the sheets and the end joint that two exact solvers
// proved to be the least; inches.
type stripCase struct {
	Name  string
	Walls []struct {
		W, H     float64
		Rows     []float64
		Openings []struct {
			Mode           string
			X0, X1, Y0, Y1 float64
		}
	}
	Sheet              struct{ L, W float64 }
	Seams              struct{ Mode string }
	Stock              []struct{ L, W, N float64 }
	Stagger, Min_piece float64
	Optimal            struct {
		New_sheets              int
		Butt_joint_in           float64
		Area_lower_bound_sheets int
	}
}

// stripNames are the cases of one wall whose files are written here.
var stripNames = []string{"01a", "01b", "01c", "01d", "02", "04", "05", "08", "08b"}

// project writes the case as a project file: the wall as side 1 of a room whose other surfaces are left bare.
func (c *stripCase) project() string {
	w := &c.Walls[0]
	inch := func(v float64) string { return fmt.Sprintf("%g in", v) }
	list := func(vs []float64) string {
		var all []string
		for _, v := range vs {
			all = append(all, inch(v))
		}
		return "[" + strings.Join(all, ", ") + "]"
	}
	var b strings.Builder
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	line("seamwright: 1\nname: strip %s\nunits: imperial\ncurrency: USD\naim: sheets", c.Name)
	cutouts := "notch"
	if len(w.Openings) > 0 && w.Openings[0].Mode == "rect" {
		cutouts = "rect"
	}
	line("rules: {stagger: %s, least_piece: %s, floor_gap: 0 in, fit: 0 in, cutouts: %s}", inch(c.Stagger), inch(c.Min_piece), cutouts)
	line("catalog:\n  - {id: gyp-12, edges: square, sizes: [{size: [%s, %s], price: 15}]}", inch(c.Sheet.L), inch(c.Sheet.W))
	line("rooms:\n  - id: room\n    height: %s\n    corners: [[0, 0], [%s, 0], [%s, 120 in], [0, 120 in]]\n    walls:", inch(w.H), inch(w.W), inch(w.W))
	line("      - side: 1\n        id: wall\n        framing: {spacing: 16 in}")
	if c.Seams.Mode == "solid" {
		line("        backing: {product: osb-11}")
	}
	line("        lining: [{product: gyp-12, run: across, courses: %s}]", list(w.Rows))
	if len(w.Openings) > 0 {
		line("        openings:")
	}
	for i, o := range w.Openings {
		kind, sill := "door", ""
		if o.Y0 > 0 {
			kind, sill = "window", ", sill: "+inch(o.Y0)
		}
		line("          - {id: o%d, kind: %s, at: %s, width: %s, height: %s%s}", i, kind, inch(o.X0), inch(o.X1-o.X0), inch(o.Y1-o.Y0), sill)
	}
	line("defaults:\n  framing: {spacing: 16 in}\n  lining: [{product: open}]")
	if len(c.Stock) > 0 {
		line("stock:")
	}
	for _, s := range c.Stock {
		line("  - {product: gyp-12, size: [%s, %s], edges: cut, count: %g}", inch(s.L), inch(s.W), s.N)
	}
	return b.String()
}

// From the text of a project file to the sheets and the end joint: the optima were proven by CBC and by GLPK.
func TestStripCasesAsProjectFiles(t *testing.T) {
	dir := os.Getenv("SEAMWRIGHT_NEST_DATA")
	if dir == "" {
		t.Skip("SEAMWRIGHT_NEST_DATA is not set: the strip cases stay where they are and are not read")
	}
	text, err := os.ReadFile(filepath.Join(dir, "strip-cases.json"))
	require.NoError(t, err)
	var file struct{ Cases []json.RawMessage }
	require.NoError(t, json.Unmarshal(text, &file))
	met := 0
	for _, raw := range file.Cases {
		var c stripCase
		if json.Unmarshal(raw, &c) != nil || !slices.Contains(stripNames, strings.Split(c.Name, "-")[0]) {
			continue
		}
		met++
		t.Run(c.Name, func(t *testing.T) {
			d, err := Parse(c.Name, []byte(c.project()))
			require.NoError(t, err, c.project())
			start := time.Now()
			p, err := calc.Plan(context.Background(), d.Job(), nil)
			require.NoError(t, err)
			t.Logf("%d sheets, bound %d, %.0f in of end joint, %v", p.Summary.SheetsBought, p.Summary.SheetsBound, p.Summary.ButtJoint.In(), time.Since(start))
			require.Equal(t, c.Optimal.New_sheets, p.Summary.SheetsBought, "sheets")
			require.InDelta(t, c.Optimal.Butt_joint_in, p.Summary.ButtJoint.In(), 1e-6, "end joint, in")
			require.LessOrEqual(t, p.Summary.SheetsBound, c.Optimal.New_sheets, "the bound is above the optimum")
			if c.Optimal.Area_lower_bound_sheets == c.Optimal.New_sheets {
				require.Equal(t, c.Optimal.New_sheets, p.Summary.SheetsBound, "the bound where area proves the case")
			}
			for _, k := range p.Checks {
				if k.Rule != layout.RuleFloorGap { // none is what the case asks for
					require.NotEqual(t, plan.Error, k.Level, said(k.Says))
				}
			}
		})
	}
	require.Equal(t, len(stripNames), met, "cases found")
}
