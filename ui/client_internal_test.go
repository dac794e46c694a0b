package ui

import (
	"image"
	"math"
	"testing"

	"seamwright/calc/job"
	"seamwright/calc/plan"
	"seamwright/scene"
	"seamwright/scene/light"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"github.com/stretchr/testify/require"
)

func TestAClientSeesRoomLegendAndPriceOnly(t *testing.T) {
	b := newBench(t, oneRoom)
	b.press(fyne.KeyF11)
	require.True(t, b.presenting)
	for _, o := range []fyne.CanvasObject{b.bar.box, b.rack.box, b.ledger.box, b.noteLine.box, b.tabs.box, b.studio.inspector.box,
		b.studio.panes["plan"].box, b.studio.panes["strip"].box, b.studio.panes["room"].caption, b.studio.room.raking} {
		require.False(t, o.Visible())
	}
	require.Equal(t, b.win.Canvas().Size(), b.studio.room.pic.Size().AddWidthHeight(2, 2), "the room fills the window but for the pane's line")
	require.NotEmpty(t, b.studio.client.inner.Objects)
	b.press(fyne.KeyEscape)
	require.False(t, b.presenting)
	require.True(t, b.bar.box.Visible())
	require.True(t, b.studio.panes["strip"].box.Visible())
	require.True(t, b.studio.room.seams.Visible())
}

// Joints throw no shadow beyond themselves in the picture: no lamp can be held so low that they would.
func TestNoLampShinesLowerThanAJointIsSteep(t *testing.T) {
	for level := light.Level(3); level <= 5; level++ {
		for _, kind := range []light.Kind{light.Tapered, light.Butt} {
			require.Less(t, light.Usual(kind, level).Slope(), math.Tan(lowestLamp*math.Pi/180)/2)
		}
	}
}

func TestTheVerdictFollowsTheLight(t *testing.T) {
	b := newBench(t, oneRoom)
	l := b.studio.room.lights
	require.False(t, l.flood.Visible(), "no lights for a wall that is not finished")
	b.do("raking")
	b.draw()
	require.True(t, l.flood.Visible())
	require.NotEmpty(t, l.lines)
	r := &b.studio.room.style.Raking
	worst := func() float64 {
		most := 0.0
		for _, id := range l.surfaces() {
			if v, ok := b.studio.room.scene.Judge(id, *r); ok {
				most = max(most, v.Times())
			}
		}
		return most
	}
	r.From = math.Pi / 2 // from above, across the level joints
	b.studio.room.lower(100)
	grazing := worst()
	b.studio.room.lower(-100)
	require.Less(t, worst(), grazing, "a lamp farther from the wall shows less")
	b.do("lamps")
	require.Equal(t, scene.CeilingLamps, r.Lamps)
	l.ceiling.Tapped(nil)
	require.Equal(t, scene.CeilingLamps, r.Lamps, "one light stays on")
}

func TestAStepNotesHoursAndMaterial(t *testing.T) {
	b := newBench(t, oneRoom)
	b.do("tab-Sequence")
	v := b.views[3].(*sequenceView)
	task := b.model.Plan.Schedule[0]
	v.pick(task.ID)
	b.tick(task, true)
	b.settle()
	require.NoError(t, v.record.fields[1].(*entry).commit("2.5 h"))
	var sheet plan.Item
	for _, i := range b.model.Plan.Takeoff {
		if i.Group == "sheets" {
			sheet = i
		}
	}
	v.record.item = sheet.Record
	v.record.show(task.ID)
	require.NoError(t, v.record.fields[3].(*entry).commit("2"))
	b.settle()
	done := b.model.Doc.Job().Progress
	require.Equal(t, []job.Done{{Task: task.ID, On: job.Date{Year: 2027, Month: 3, Day: 2}, Hours: 2.5, Used: []job.Used{{Item: sheet.Record, Quantity: 2}}}}, done)
	require.EqualValues(t, 2.5, b.model.Plan.Progress.Actual)
	b.do("tab-Shopping")
	s := b.views[2].(*shoppingView)
	s.remaining()
	found := false
	for _, r := range s.table.rows {
		found = found || len(r.cells) == 6 && r.cells[2].text == "2 sheets"
	}
	require.True(t, found, "what was used stands beside what was reckoned")
}

func TestMeasuredLevelsRoundTrip(t *testing.T) {
	b := newBench(t, oneRoom)
	floor, err := b.parseLevels(levelExample)
	require.NoError(t, err)
	require.Len(t, floor, 3)
	again, err := b.parseLevels(b.levelsWords(floor))
	require.NoError(t, err)
	require.Equal(t, floor, again)
	for _, bad := range []string{"4", "0: 0", "a: b"} {
		_, err := b.parseLevels(bad)
		require.Error(t, err, bad)
	}
}

// The legend stands in raking light too: what is marked then, in the marks' colour.
func TestTheLegendUnderRakingLight(t *testing.T) {
	b := newBench(t, oneRoom)
	b.press(fyne.KeyF11)
	words := func() (list []string) {
		for _, o := range b.studio.client.inner.Objects {
			if c, ok := o.(*canvas.Text); ok {
				list = append(list, c.Text)
			}
		}
		return
	}
	require.Contains(t, words(), "tapered joint")
	b.do("raking")
	require.NotContains(t, words(), "tapered joint", "a finished joint has no line")
	require.Contains(t, words(), "joint that is judged")
	require.NotContains(t, words(), "joint that shows")
	b.studio.room.lights.marks.tapped()
	require.Contains(t, words(), "joint that shows")
}

// Where no room is drawn there is nothing to switch; the view says how one comes to stand in it.
func TestARoomViewWithoutARoom(t *testing.T) {
	b := laid(t)
	v := b.studio.room
	require.True(t, v.seams.Visible())
	whole := b.model.Plan
	b.model.Plan = &plan.Plan{}
	b.refresh(PlanChanged)
	for _, o := range []fyne.CanvasObject{v.seams, v.studs, v.walls, v.raking, v.emphasis} {
		require.False(t, o.Visible())
	}
	require.Equal(t, "Room", v.caption())
	b.do("raking")
	require.Empty(t, v.lights.lines, "nothing is judged")
	b.do("raking")
	img := v.pic.shown.Image.(*image.RGBA)
	inked := 0
	for i := 0; i < len(img.Pix); i += 4 {
		if img.Pix[i] != b.pal.Pane.R {
			inked++
		}
	}
	require.Greater(t, inked, 1000, "squares and words")
	b.model.Plan = whole
	b.refresh(PlanChanged)
	require.True(t, v.seams.Visible())
}
