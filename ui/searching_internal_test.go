package ui

import (
	"encoding/json"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"

	"seamwright/assets"
	"seamwright/calc"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/planner"
)

// arrive takes in one result of the calculation and gives the answer that then stands.
func (b *bench) arrive() *plan.Plan {
	b.t.Helper()
	b.model.Wait()
	b.mu.Lock()
	post := b.posts[0]
	b.posts = b.posts[1:]
	b.mu.Unlock()
	post()
	return b.model.Plan
}

func (b *bench) moveCorner(feet int64) {
	b.t.Helper()
	require.NoError(b.t, b.model.Do(planner.MoveCorner{Room: "shed", Corner: 2, To: shape.Point{X: length.Length(feet) * length.Foot}}))
}

// An edit is answered twice: at once, marked as searching, and then by what calc.Plan gives, byte for byte.
func TestAFirstAnswerThenTheFullOne(t *testing.T) {
	b := newBench(t, oneRoom)
	full := b.model.Plan
	require.False(t, full.Summary.Searching)
	b.moveCorner(17)

	first := b.arrive()
	require.True(t, first.Summary.Searching)
	require.Equal(t, "searching, Esc stops", b.noteLine.right.Text)
	require.True(t, b.model.Before.Summary.Searching, "compared with an answer of its own effort")
	saved := 0
	b.model.WhenFound(func() { saved++ })
	require.Zero(t, saved, "documents wait for the answer to keep")

	second := b.arrive()
	require.False(t, second.Summary.Searching)
	require.Empty(t, b.noteLine.right.Text)
	require.Same(t, full, b.model.Before)
	require.Equal(t, 1, saved)
	want, err := calc.Plan(t.Context(), b.model.Doc.Job(), nil)
	require.NoError(t, err)
	wanted, err := json.Marshal(want)
	require.NoError(t, err)
	got, err := json.Marshal(second)
	require.NoError(t, err)
	require.Equal(t, string(wanted), string(got))
	b.model.WhenFound(func() { saved++ })
	require.Equal(t, 2, saved, "what is found is not waited for")
}

// While the hand moves only prompt answers come; the full one follows when it rests.
func TestADragShowsPromptAnswers(t *testing.T) {
	b := newBench(t, oneRoom)
	before := b.model.Plan
	b.model.Begin("move corner")
	for feet := int64(17); feet < 20; feet++ {
		b.moveCorner(feet)
		require.True(t, b.arrive().Summary.Searching)
		b.model.Wait()
		require.Empty(t, b.posts)
		require.True(t, b.model.Before.Summary.Searching)
	}
	b.model.End()
	require.False(t, b.arrive().Summary.Searching)
	require.Same(t, before, b.model.Before)
	b.model.Wait()
	require.Empty(t, b.posts)
}

// A search that takes too long is stopped by Esc: the first answer stays, and the note line says so, until the next change or
// until the user wants it searched after all.
func TestASearchIsStopped(t *testing.T) {
	b := newBench(t, string(assets.KilnYardStudio))
	room := b.room()
	require.NoError(b.t, b.model.Do(planner.MoveCorner{Room: room.ID, Corner: 1, To: shape.Point{X: room.Corners[0].X - length.Foot, Y: room.Corners[0].Y}}))
	for b.model.Plan == nil || b.model.Stale {
		b.arriveSoon()
	}
	first := b.model.Plan
	require.True(t, first.Summary.Searching)
	saved := false
	b.model.WhenFound(func() { saved = true })

	begun := time.Now()
	b.press(fyne.KeyEscape)
	b.model.Wait()
	t.Logf("the calculation was still %v after Esc", time.Since(begun))
	b.settle()
	require.Same(t, first, b.model.Plan)
	require.False(t, saved, "no document is written of it")
	require.Equal(t, "first answer, not searched further", b.noteLine.right.Text)
	require.Contains(t, b.note, "The first answer stands")
	require.False(t, b.command("stop").enabled())

	b.do("searchon")
	b.settle()
	require.False(t, b.model.Plan.Summary.Searching)
	require.Empty(t, b.noteLine.right.Text)
	require.False(t, b.command("searchon").enabled())
}

// arriveSoon takes in what has been posted so far, without waiting for what is still being worked out.
func (b *bench) arriveSoon() {
	b.mu.Lock()
	posts := b.posts
	b.posts = nil
	b.mu.Unlock()
	for _, post := range posts {
		post()
	}
	if len(posts) == 0 {
		time.Sleep(time.Millisecond)
	}
}
