package planner

import (
	"context"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/assets"
	saying "seamwright/assets/words"
	"seamwright/calc"
	"seamwright/calc/job"
	"seamwright/calc/plan"
)

// jobs are whole projects: the samples and two written by hand, a garage against a house with every sort of trim and a metric
// workroom of two rooms.
func jobs(t *testing.T) map[string]*Document {
	t.Helper()
	all := map[string]*Document{}
	files, err := filepath.Glob("testdata/sequence/*.seam.yaml")
	require.NoError(t, err)
	require.Len(t, files, 2)
	for _, f := range files {
		d, err := Load(f)
		require.NoError(t, err)
		all[filepath.Base(f)] = d
	}
	for name, src := range map[string][]byte{"studio": assets.KilnYardStudio, "lane": assets.LaneWorkshop} {
		d, err := Parse(name, src)
		require.NoError(t, err)
		all[name] = d
	}
	return all
}

// Every bought thing has a task that uses it up, every piece a task that hangs it, and where rooms share air nothing is
// dusted off or painted before the last of them is sanded.
func TestEveryBoughtThingHasATask(t *testing.T) {
	for name, d := range jobs(t) {
		p, err := calc.Prompt(context.Background(), d.Job(), nil)
		require.NoError(t, err, name)
		steps, up, lastDust, firstClean := map[plan.Step]bool{}, map[string]bool{}, "", "9"
		for _, k := range p.Schedule {
			steps[k.Step] = true
			for _, id := range k.Pieces {
				require.False(t, up[id], "%s: %s hangs twice", name, id)
				up[id] = true
			}
			switch k.Step {
			case plan.SandStep, plan.SmoothStep:
				lastDust = max(lastDust, k.Finish)
			case plan.DustStep, plan.PrimeStep, plan.PaintStep:
				firstClean = min(firstClean, k.Start)
			}
		}
		for _, row := range p.Takeoff {
			if row.Buy == 0 || row.Kind == plan.ChargeKind {
				continue
			}
			used := false
			for _, s := range plan.UsedBy(row.Kind) {
				used = used || steps[s]
			}
			require.True(t, used, "%s: no task uses %s (%s)", name, row.Item, row.Kind)
		}
		for _, s := range p.Surfaces {
			for _, z := range s.Zones {
				for _, q := range z.Panels {
					require.True(t, up[q.ID], "%s: no task hangs %s", name, q.ID)
				}
			}
		}
		require.LessOrEqual(t, lastDust, firstClean, "%s: the rooms of each of these share air", name)
		for _, s := range p.Cost.BySurface {
			if s.Area == 0 {
				require.Zero(t, s.Cost, "%s: %s is left open and costs nothing", name, s.Surface)
			}
		}
	}
}

// Level 2 with paint asked for says why it is not painted.
func TestLowLevelsSayWhyTheyAreNotPainted(t *testing.T) {
	says := func(text string) bool {
		d, err := Parse("garage", []byte(text))
		require.NoError(t, err)
		p, err := calc.Prompt(context.Background(), d.Job(), nil)
		require.NoError(t, err)
		for _, k := range p.Schedule {
			require.NotEqual(t, plan.PaintStep, k.Step)
		}
		for _, c := range p.Checks {
			if c.Rule == "paint-level" {
				return strings.Contains(said(c.Says), "level 2")
			}
		}
		return false
	}
	const garage = "seamwright: 1\nrooms:\n  - {id: g, height: 8', corners: [[0, 0], [12', 0], [12', 10'], [0, 10']]}\ndefaults: {lining: [{product: gyp-12}], finish: 2, paint: {primer: 1, coats: 2}}\n"
	require.True(t, says(garage))
	require.False(t, says(strings.Replace(garage, "primer: 1, coats: 2", "primer: 0, coats: 0", 1)), "no paint was asked for")
}

// Renaming a room, a wall or a product carries along what names it: progress, used quantities, backs, alternatives and stock.
// The plan says the same under the other names, and one undo gives back the old text.
func TestRenamingCarriesTheRecord(t *testing.T) {
	d, err := Load("testdata/sequence/garage.seam.yaml")
	require.NoError(t, err)
	before := string(d.Source())
	done := func() map[string]bool {
		p, err := calc.Prompt(context.Background(), d.Job(), nil)
		require.NoError(t, err)
		ticked := map[string]bool{}
		for _, k := range p.Schedule {
			if k.Done {
				ticked[k.ID] = true
			}
		}
		for _, c := range p.Checks {
			require.NotEqual(t, "tick-lost", c.Rule, said(c.Says))
		}
		return ticked
	}
	first := done()
	require.NotEmpty(t, first["look-garage"])
	require.Len(t, first, len(d.Job().Progress))
	require.NoError(t, d.Apply(RenameRoom{"garage", "bay"}))
	require.Len(t, done(), len(first))
	require.Contains(t, done(), "look-bay")
	w := wallOf(t, d, "bay/house")
	w.ID = "dwelling-side"
	require.NoError(t, d.Apply(SetWall{"bay/house", w}))
	require.Len(t, done(), len(first))
	require.NoError(t, d.Apply(RenameProduct{"tough-16", "house-16"}))
	require.Len(t, done(), len(first))
	require.Nil(t, d.Job().Product("tough-16"))
	require.NotNil(t, d.Job().Product("house-16"))
	require.NotContains(t, string(d.Source()), "tough-16")
	require.Contains(t, string(d.Source()), "{item: house-16, quantity: 3}")
	require.Contains(t, string(d.Source()), "# the yard keeps three of these")
	require.Error(t, d.Apply(RenameProduct{"gyp-12", "other"}), "a shipped product has its name from the catalog")
	for d.Undo() {
	}
	require.Equal(t, before, string(d.Source()))
}

// A tick may be given its day afterwards.
func TestTickIsGivenItsDay(t *testing.T) {
	d, err := Load("testdata/sequence/garage.seam.yaml")
	require.NoError(t, err)
	require.NoError(t, d.Apply(TickTask{Task: "look-garage", Done: true, On: job.Date{Year: 2027, Month: 6, Day: 2}, Hours: 2}))
	require.Equal(t, job.Date{Year: 2027, Month: 6, Day: 2}, d.Job().Progress[0].On)
}

// Who knows a board by its inches is told its id, not that of a metric one.
func TestInchesFindTheirBoard(t *testing.T) {
	products := New(job.Imperial).Job().Products
	for name, want := range map[string]string{"gyp-58x": "gyp-16x", "gyp-38": "gyp-10", "ply-2332": "ply-18", "osb-716": "osb-11", "gyp-58m": "gyp-16m"} {
		require.Contains(t, suggestProduct(name, products, job.Imperial), want+" is", name)
	}
	require.Contains(t, suggestProduct("gyp-17x", products, job.Imperial), "gyp-16x")
	require.Contains(t, suggestProduct("gyp-14x", products, job.Metric), "gyp-15x")
}

// said is a fact in English, in feet and inches.
func said(f plan.Fact) string { return saying.In(saying.English, saying.Units{Imperial: true}).Fact(f) }
