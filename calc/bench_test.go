package calc_test

import (
	"context"
	"encoding/json"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc"
	"seamwright/calc/length"
	"seamwright/calc/shape"
	"seamwright/planner"
)

func loaded(b testing.TB, src []byte) *planner.Document {
	d, err := planner.Parse("village", src)
	require.NoError(b, err)
	return d
}

// sizes of the growth table, in walls.
var sizes = []int{10, 30, 75, 150, 300, 600}

func BenchmarkCold(b *testing.B) {
	for _, walls := range sizes {
		b.Run(fmt.Sprint(walls), func(b *testing.B) {
			j := loaded(b, village(walls/5)).Job()
			b.ReportAllocs()
			for b.Loop() {
				_, err := calc.Plan(context.Background(), j, nil)
				require.NoError(b, err)
			}
		})
	}
}

// moved drags the second corner of a room out in steps of 5/64 in, so that no two edits of a run give one room.
func moved(d *planner.Document, room, i int) error {
	r := d.Job().Rooms[room]
	at := shape.Point{X: r.Corners[0].X + length.Inches(190) + length.Sixtyfourths(int64(i*5%3072)), Y: r.Corners[0].Y}
	return d.Apply(planner.MoveCorner{Room: r.ID, Corner: 2, To: at})
}

// BenchmarkEdit is one corner moved in the middle of the building, the plan of the one before in the memo.
func BenchmarkEdit(b *testing.B) {
	for _, walls := range append([]int{5}, sizes...) {
		b.Run(fmt.Sprint(walls), func(b *testing.B) {
			d := loaded(b, village(walls/5))
			memo := calc.NewMemo()
			_, err := calc.Plan(context.Background(), d.Job(), memo)
			require.NoError(b, err)
			b.ReportAllocs()
			for i := 0; b.Loop(); i++ {
				b.StopTimer()
				require.NoError(b, moved(d, walls/10, i))
				j := d.Job()
				b.StartTimer()
				_, err := calc.Plan(context.Background(), j, memo)
				require.NoError(b, err)
			}
		})
	}
}

// BenchmarkDocumentEdit is the change of the text alone, with its fresh reading.
func BenchmarkDocumentEdit(b *testing.B) {
	for _, walls := range append([]int{5}, sizes...) {
		b.Run(fmt.Sprint(walls), func(b *testing.B) {
			d := loaded(b, village(walls/5))
			b.ReportAllocs()
			for i := 0; b.Loop(); i++ {
				require.NoError(b, moved(d, walls/10, i))
				d.Job()
			}
		})
	}
}

func BenchmarkJSON(b *testing.B) {
	j := loaded(b, village(120)).Job()
	p, err := calc.Plan(context.Background(), j, nil)
	require.NoError(b, err)
	b.ReportAllocs()
	for b.Loop() {
		_, err := json.Marshal(p)
		require.NoError(b, err)
	}
}
