package reveal_test

import (
	"context"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamwright/calc/internal/sample"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/reveal"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

const (
	inch = length.Inch
	foot = length.Foot
)

// wall is one wall of 1/2 in board with one opening.
func wall(j *job.Job, o job.Opening) *survey.Building {
	b, _ := sample.Build(j, sample.Face{ID: "r/south", Kind: plan.Wall, Room: "r", W: 30 * foot, H: 10 * foot, Spacing: 16 * inch, Product: "gyp-12", Long: 8 * foot, Wide: 4 * foot, Finish: 4})
	b.Surfaces[0].Zones[0].Holes = []survey.Hole{{Opening: o, Outline: o.Rect().Polygon()}}
	return b
}

func letters(string) string { return "SO" }

// A window of 4 ft by 3 ft, 4 in deep, in 1/2 in board: head and sill run through, the sides stand between them (arithmetic).
func TestStripsOfAWindow(t *testing.T) {
	j := sample.Job()
	o := job.Opening{ID: "w1", Kind: job.Window, Width: 4 * foot, Height: 3 * foot, Sill: 3 * foot, Reveal: 4 * inch, Return: job.ReturnBoard}
	want := map[string]length.Length{"head": 48 * inch, "sill": 48 * inch, "left": 35 * inch, "right": 35 * inch}
	pieces := reveal.Pieces(j, wall(j, o), letters)
	require.Len(t, pieces, 4)
	for _, r := range pieces {
		require.Equal(t, [2]length.Length{want[r.Side], 4 * inch}, r.Size, r.Side)
		require.Equal(t, "SO-w1-"+r.Side, r.ID)
	}
	outside, inside := reveal.Corners(pieces, "r/south")
	require.Equal(t, (2*48+2*35)*inch, outside)
	require.Equal(t, 4*4*inch, inside, "two under the head, two over the sill")

	j.Figures = map[string]float64{"board-sill": 0}
	pieces = reveal.Pieces(j, wall(j, o), letters)
	require.Len(t, pieces, 3)
	_, inside = reveal.Corners(pieces, "r/south")
	require.Equal(t, 2*4*inch, inside)

	for name, change := range map[string]func(*job.Opening){
		"a jamb of wood": func(o *job.Opening) { o.Return = job.ReturnJamb },
		"no reveal":      func(o *job.Opening) { o.Reveal = 0 },
		"nothing said":   func(o *job.Opening) { o.Return = job.ReturnNone },
	} {
		bare := o
		change(&bare)
		require.Empty(t, reveal.Pieces(j, wall(j, bare), letters), name)
	}
	j.Products[0].Kind = job.WoodPanel
	require.Empty(t, reveal.Pieces(j, wall(j, o), letters), "a wall of wood is trimmed with a jamb")
}

// A side longer than the longest sheet for sale, 12 ft here, is made of equal strips.
func TestLongHead(t *testing.T) {
	j := sample.Job()
	pieces := reveal.Pieces(j, wall(j, job.Opening{ID: "d", Kind: job.Door, Width: 25 * foot, Height: 8 * foot, Reveal: 6 * inch, Return: job.ReturnBoard}), letters)
	sum, n := length.Length(0), 0
	for _, r := range pieces {
		if r.Side == "head" {
			sum, n = sum+r.Size[0], n+1
			require.LessOrEqual(t, r.Size[0], 12*foot)
		}
	}
	require.Equal(t, 25*foot, sum)
	require.Equal(t, 3, n)
}

// sheet is a bought sheet of which one rectangle is left.
func sheet(id string, left shape.Rect, kerf length.Length) plan.Sheet {
	return plan.Sheet{ID: id, Product: "gyp-12", Size: [2]length.Length{8 * foot, 4 * foot}, Kerf: kerf, Source: plan.Buy, Price: 1550,
		Parts: []plan.Part{{Panel: "SO-01", Rect: shape.Rect{W: 8*foot - left.W, H: 4 * foot}}}, Offcuts: []shape.Rect{left}, Cuts: []plan.Cut{}}
}

func strip(id string, long, wide length.Length) plan.Return {
	return plan.Return{ID: id, Surface: "r/south", Opening: "w", Product: "gyp-12", Size: [2]length.Length{long, wide}}
}

// The smallest offcut that holds a strip gives it; the cut that leaves the larger piece comes first, and what came in
// stays as it was.
func TestStripsComeFromOffcuts(t *testing.T) {
	large, small := sheet("S001", shape.Rect{X: 2 * foot, W: 6 * foot, H: 4 * foot}, 0), sheet("S002", shape.Rect{X: 88 * inch, W: 8 * inch, H: 4 * foot}, inch/8)
	given := []plan.Sheet{large, small}
	sheets, pieces, err := reveal.Cut(context.Background(), sample.Job(), given, []plan.Return{strip("a", 40*inch, 4*inch)})
	require.NoError(t, err)
	require.Equal(t, []plan.Sheet{large, small}, given)
	require.Equal(t, "S002", pieces[0].Sheet)
	require.Len(t, sheets, 2)
	got := sheets[1]
	require.Equal(t, plan.Part{Panel: "a", Rect: shape.Rect{X: 88 * inch, W: 4 * inch, H: 40 * inch}, Turned: true}, got.Parts[1])
	require.Equal(t, []shape.Rect{{X: 92*inch + inch/8, W: 4*inch - inch/8, H: 4 * foot}, {X: 88 * inch, Y: 40*inch + inch/8, W: 4 * inch, H: 8*inch - inch/8}}, got.Offcuts)
	require.Equal(t, []string{"cross", "rip"}, []string{got.Cuts[0].Kind, got.Cuts[1].Kind})
}

// What fits no offcut is nested onto stock that is left or sheets from the yard, whatever costs less; what no sheet
// holds keeps none.
func TestStripsFromSheetsOfTheirOwn(t *testing.T) {
	j := sample.Job()
	j.Stock = []job.Stock{{Product: "gyp-12", Length: 4 * foot, Width: 2 * foot, Count: 2}}
	used := plan.Sheet{ID: "S001", Product: "gyp-12", Size: [2]length.Length{4 * foot, 2 * foot}, Source: plan.Stock}
	short := []plan.Return{strip("a", 4*foot, 12*inch), strip("b", 4*foot, 12*inch)}
	sheets, pieces, err := reveal.Cut(context.Background(), j, []plan.Sheet{used}, short)
	require.NoError(t, err)
	require.Equal(t, []string{"S002", "S002"}, []string{pieces[0].Sheet, pieces[1].Sheet})
	require.Equal(t, plan.Stock, sheets[1].Source, "the second piece in stock takes both")
	sheets, pieces, err = reveal.Cut(context.Background(), j, []plan.Sheet{used}, append(short, strip("c", 10*foot, 6*inch), strip("d", 9*foot, 5*foot)))
	require.NoError(t, err)
	require.Equal(t, "", pieces[3].Sheet)
	require.Equal(t, []any{plan.Buy, 12 * foot, j.Products[0].Sizes[1].Price}, []any{sheets[1].Source, sheets[1].Size[0], sheets[1].Price})
}

// Whatever is left over and asked for: parts, offcuts and blades keep apart and within the sheet, and no area is lost.
func TestCutKeepsPiecesApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kerf := length.Length(rapid.IntRange(0, 2).Draw(t, "kerf")) * inch / 8
		var given []plan.Sheet
		for i := range rapid.IntRange(1, 4).Draw(t, "sheets") {
			wide := length.Length(rapid.IntRange(2, 90).Draw(t, "left")) * inch
			given = append(given, sheet(fmt.Sprintf("S%03d", i+1), shape.Rect{X: 8*foot - wide, W: wide, H: 4 * foot}, kerf))
		}
		var asked []plan.Return
		for i := range rapid.IntRange(1, 12).Draw(t, "strips") {
			asked = append(asked, strip(fmt.Sprint(i), length.Length(rapid.IntRange(4, 96).Draw(t, "long"))*inch, length.Length(rapid.IntRange(1, 12).Draw(t, "wide"))*inch))
		}
		j := sample.Job()
		j.Products[0].Kerf = kerf
		sheets, pieces, err := reveal.Cut(context.Background(), j, given, asked)
		require.NoError(t, err)
		found := map[string]string{}
		for _, s := range sheets {
			var all []shape.Rect
			for _, q := range s.Parts {
				all = append(all, q.Rect)
				found[q.Panel] = s.ID
			}
			all = append(all, s.Offcuts...)
			for i, a := range all {
				require.True(t, a.X >= 0 && a.Y >= 0 && a.W > 0 && a.H > 0 && a.MaxX() <= s.Size[0] && a.MaxY() <= s.Size[1])
				for _, b := range all[:i] {
					require.False(t, a.X < b.MaxX() && b.X < a.MaxX() && a.Y < b.MaxY() && b.Y < a.MaxY(), "%v and %v overlap", a, b)
				}
			}
			for i, c := range s.Cuts {
				require.Equal(t, i+1, c.Order)
			}
		}
		for i, r := range pieces {
			require.Equal(t, asked[i].ID, r.ID)
			require.NotEmpty(t, r.Sheet)
			require.Equal(t, r.Sheet, found[r.ID])
		}
	})
}
