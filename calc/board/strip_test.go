package board_test

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/money"
	"seamwright/calc/plan"
	"seamwright/calc/survey"
)

// stripCase is one case of the strip model: walls in given rows, boards never turned, with the optimum that two
// exact solvers proved.
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
	Sheet struct{ L, W float64 }
	Seams struct {
		Mode                    string
		Pitch, Grid, Stud_first float64
	}
	Stock              []struct{ L, W, N float64 }
	Stagger, Min_piece float64
	Kerf               float64
	Unit               string
	Optimal            struct {
		New_sheets              *int
		Butt_joint_in           float64
		Area_lower_bound_sheets int
	}
}

func inches(v float64) length.Length { return length.Length(v*64+0.5) * in / 64 }

func stripCases(t testing.TB) []stripCase {
	dir := os.Getenv("SEAMWRIGHT_NEST_DATA")
	if dir == "" {
		t.Skip("SEAMWRIGHT_NEST_DATA is not set: the strip cases stay where they are and are not read")
	}
	text, err := os.ReadFile(filepath.Join(dir, "strip-cases.json"))
	require.NoError(t, err)
	var file struct{ Cases []stripCase }
	require.NoError(t, json.Unmarshal(text, &file))
	return file.Cases
}

// asJob states a case in the program's own words: courses as given, no floor gap, no fit, a board with square edges.
func (c *stripCase) asJob() (*job.Job, []*survey.Surface) {
	p := job.Product{ID: "strip", Kind: job.Gypsum, Kerf: inches(c.Kerf),
		Sizes: []job.Size{{Length: inches(c.Sheet.L), Width: inches(c.Sheet.W), Price: money.Money(1500)}}}
	j := newJob(job.AimSheets, p)
	j.Rules.FloorGap, j.Rules.Fit = 0, 0
	j.Rules.Stagger, j.Rules.LeastPiece = inches(c.Stagger), inches(c.Min_piece)
	var walls []*survey.Surface
	for i, w := range c.Walls {
		first := c.Seams.Stud_first
		if first == 0 {
			first = c.Seams.Pitch
		}
		s := wall("room/"+string(rune('a'+i)), inches(w.W), inches(w.H), inches(c.Seams.Pitch), inches(first), &j.Products[0])
		s.Zones[0].FloorGap = 0
		if c.Seams.Mode == "solid" {
			s.Backing = &survey.Backing{}
		}
		for _, r := range w.Rows {
			s.Zones[0].Courses = append(s.Zones[0].Courses, inches(r))
		}
		for _, o := range w.Openings {
			if o.Mode == "rect" {
				j.Rules.Cutouts = job.RectOnly
			}
			opened(s, inches(o.X0), inches(o.Y0), inches(o.X1-o.X0), inches(o.Y1-o.Y0))
		}
		walls = append(walls, s)
	}
	for _, st := range c.Stock {
		j.Stock = append(j.Stock, job.Stock{Product: "strip", Length: inches(st.L), Width: inches(st.W), Count: int(st.N)})
	}
	return j, walls
}

// The optima were proven by CBC and by GLPK (strip model of the shared benchmark set).
func TestStripCasesReachTheProvenOptimum(t *testing.T) {
	for _, c := range stripCases(t) {
		t.Run(c.Name, func(t *testing.T) {
			if c.Optimal.New_sheets == nil || c.Unit != "" {
				t.Skip("infeasible, or not in inches")
			}
			j, walls := c.asJob()
			start := time.Now()
			a := solve(t, j, walls...)
			t.Logf("%d sheets (bound %d), butt %.0f in, %v", bought(a), a.Bound, a.Butt.In(), time.Since(start))
			require.Equal(t, *c.Optimal.New_sheets, bought(a), "sheets")
			require.InDelta(t, c.Optimal.Butt_joint_in, a.Butt.In(), 1e-6, "butt joint, in")
			require.LessOrEqual(t, a.Bound, *c.Optimal.New_sheets)
			if c.Optimal.Area_lower_bound_sheets == *c.Optimal.New_sheets {
				require.Equal(t, *c.Optimal.New_sheets, a.Bound, "bound where area proves the case")
			}
			for _, k := range a.Checks {
				require.NotEqual(t, plan.Error, k.Level, said(k.Says))
			}
		})
	}
}
