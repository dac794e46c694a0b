package ui

import (
	"testing"

	"seamwright/scene/draft"

	"github.com/stretchr/testify/require"
)

// The sequence shows what is done next in groups; a group opens to its steps, and its square ticks all of them in one step to
// undo. Chart and list have the same rows.
func TestSequenceShowsGroups(t *testing.T) {
	b := newBench(t, oneRoom)
	b.do("tab-Sequence")
	v := b.views[3].(*sequenceView)
	closed := v.rows()
	require.Less(t, len(closed), len(b.model.Plan.Schedule))
	require.Len(t, v.table.rows, len(closed))
	at := -1
	for i, r := range closed {
		if r.Step() == nil && r.Pieces() > 0 {
			at = i
			break
		}
	}
	require.GreaterOrEqual(t, at, 0, "sheets are hung in several steps on one day")
	group := closed[at]
	require.Regexp(t, `^\+ Shed, hang: \d+ steps, \d+ pieces$`, v.table.rows[at].cells[0].text)
	require.NotContains(t, v.table.rows[at].cells[1].text, ":", "no start to the minute")

	v.table.choose(at)
	require.Len(t, v.table.rows, len(closed)+len(group.Steps))
	require.True(t, v.table.rows[at+1].within)
	v.table.choose(at)
	require.Len(t, v.table.rows, len(closed))

	before := string(b.model.Doc.Source())
	v.table.rows[at].tick()
	b.settle()
	require.Len(t, b.model.Doc.Job().Progress, len(group.Steps))
	require.True(t, v.rows()[draft.RowOf(v.rows(), group.Steps[0].ID)].Done)
	b.do("undo")
	b.settle()
	require.Equal(t, before, string(b.model.Doc.Source()))

	v.unfold()
	require.Greater(t, len(v.table.rows), len(b.model.Plan.Schedule))
	v.unfold()
	require.Len(t, v.table.rows, len(closed))
	high := 44 + 26*(float64(at)+0.5)
	v.click(draft.Pt{X: 20, Y: high}, 0, 0)
	require.True(t, v.open[group.ID], "a click on a group's bar opens it too")
}

// What to buy is said as at the counter, with the exact need beside it.
func TestShoppingIsSaidAsAtTheCounter(t *testing.T) {
	b := newBench(t, oneRoom)
	b.do("tab-Shopping")
	v := b.views[2].(*shoppingView)
	asked := map[string]string{}
	for _, r := range v.table.rows {
		if len(r.cells) == 5 {
			asked[r.cells[2].text] = r.cells[1].text
		}
	}
	for _, i := range b.model.Plan.Takeoff {
		need, said := asked[b.voice().Fact(i.Ask())]
		require.True(t, said, "%s: %s", i.Item, b.voice().Fact(i.Ask()))
		require.NotEmpty(t, need)
	}
	require.Contains(t, asked, "2 boxes of 200", "%v", asked)
}
