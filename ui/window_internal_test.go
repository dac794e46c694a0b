package ui

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/planner"
	"seamwright/scene/draft"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"
)

func TestDrawARoomByClicksAndTypedLengths(t *testing.T) {
	b := newBench(t, "")
	v := b.studio.plan
	b.press(fyne.KeyR)
	require.NotNil(t, v.outline)
	b.click(v.pic, draft.Pt{X: 120, Y: 260})
	v.pic.MouseMoved(mouse(draft.Pt{X: 250, Y: 263}, 0))
	b.typeIn("20")
	b.press(fyne.KeyReturn)
	v.pic.MouseMoved(mouse(draft.Pt{X: 345, Y: 100}, 0))
	b.typeIn(`14' 6"`)
	b.press(fyne.KeyReturn)
	v.pic.MouseMoved(mouse(draft.Pt{X: 100, Y: 101}, 0))
	b.typeIn("20")
	b.press(fyne.KeyReturn, fyne.KeyReturn)
	require.Nil(t, v.outline, "the second Enter closes the room")
	require.Len(t, b.model.Doc.Job().Rooms, 1)
	r := b.room()
	require.Equal(t, 20*length.Foot, sideLength(&r, 1))
	require.Equal(t, 14*length.Foot+6*length.Inch, sideLength(&r, 2))
	require.Equal(t, 20*length.Foot, sideLength(&r, 3))
	require.Equal(t, 8*length.Foot, r.Height)
	require.Equal(t, draft.OnRoom, b.model.Selected.Kind)
	label, ok := b.model.Doc.CanUndo()
	require.True(t, ok)
	require.Equal(t, "Undo "+label, b.command("undo").label())
	b.do("undo")
	require.Empty(t, b.model.Doc.Job().Rooms)
	b.do("redo")
	require.Len(t, b.model.Doc.Job().Rooms, 1)
}

func TestEscStepsBackOneLevel(t *testing.T) {
	b := newBench(t, oneRoom)
	v := b.studio.plan
	b.rack.take(0)
	require.NotNil(t, b.model.Finish)
	b.press(fyne.KeyEscape)
	require.Nil(t, b.model.Finish)
	b.do("draw")
	b.click(v.pic, draft.Pt{X: 20, Y: 250})
	b.typeIn("9")
	b.press(fyne.KeyEscape)
	require.Empty(t, v.outline.typed)
	b.press(fyne.KeyEscape)
	require.Empty(t, v.outline.set)
	b.press(fyne.KeyEscape)
	require.Nil(t, v.outline)
}

func TestTouchAWallWithAFinish(t *testing.T) {
	b := newBench(t, oneRoom)
	before := b.model.Plan.Summary.SheetsBought
	require.Positive(t, before)
	b.pickFinish(t, "ply-18")
	v := b.studio.plan
	r := b.room()
	wall := v.view.Place(shapeMiddle(r.Corners[1], r.Corners[2])) // side 2, which is open
	v.pic.MouseMoved(mouse(wall, 0))
	b.settle()
	require.NotNil(t, b.model.Preview)
	require.True(t, b.model.Preview.Ready)
	promised := *b.model.Preview
	require.Positive(t, promised.Sheets)
	b.click(v.pic, wall)
	b.settle()
	require.Equal(t, []string{"ply-18"}, b.room().Walls[1].Lining[0].Layers)
	require.Equal(t, before+promised.Sheets, b.model.Plan.Summary.SheetsBought, "what was promised is what came")
	require.Equal(t, promised.Cost, b.model.Plan.Cost.Total-b.model.Before.Cost.Total)
	require.True(t, hasText(b.ledger.box, change(promised.Sheets)), "the ledger shows what the change did")
	require.True(t, hasText(b.ledger.box, amount(b.model.Plan.Cost.Total, "USD")))
	b.do("undo")
	b.settle()
	require.Equal(t, before, b.model.Plan.Summary.SheetsBought)
}

func (b *bench) pickFinish(t *testing.T, id string) {
	t.Helper()
	for i, s := range b.rack.sheets {
		if len(s.layers) == 1 && s.layers[0] == id {
			b.rack.take(i)
			return
		}
	}
	require.Failf(t, "not on the rack", "%s", id)
}

func TestDragsAreOneUndoStep(t *testing.T) {
	b := newBench(t, oneRoom)
	v := b.studio.plan
	source := string(b.model.Doc.Source())
	r := b.room()
	from := v.view.Place(r.Corners[2])
	var path []draft.Pt
	for i := 1; i <= 12; i++ {
		path = append(path, from.Add(draft.Pt{X: float64(i) * 3, Y: -float64(i)}))
	}
	b.drag(v.pic, from, path...)
	b.settle()
	require.NotEqual(t, r.Corners[2], b.room().Corners[2])
	b.do("undo")
	require.Equal(t, source, string(b.model.Doc.Source()), "one step takes the whole drag back, to the byte")
	require.False(t, b.command("undo").enabled())

	wall := v.view.Place(shapeMiddle(r.Corners[2], r.Corners[3]))
	b.drag(v.pic, wall, wall.Add(draft.Pt{Y: -10}), wall.Add(draft.Pt{Y: -30}))
	moved := b.room()
	require.Equal(t, r.Corners[2].X, moved.Corners[2].X, "a wall moves parallel to itself")
	require.Greater(t, moved.Corners[2].Y, r.Corners[2].Y)
	require.Equal(t, moved.Corners[2].Y, moved.Corners[3].Y)
	b.do("undo")
	require.Equal(t, source, string(b.model.Doc.Source()))
}

func TestOpeningsGetAFreePlaceAndAreEditedInPlace(t *testing.T) {
	b := newBench(t, oneRoom)
	b.pickSurface("shed/south")
	b.press(fyne.KeyW)
	south := b.room().Walls[0]
	require.Len(t, south.Openings, 2)
	o := south.Openings[1]
	require.Equal(t, job.Window, o.Kind)
	require.GreaterOrEqual(t, o.At, south.Openings[0].At+south.Openings[0].Width, "beside the door, not over it")
	require.Equal(t, draft.OnOpening, b.model.Selected.Kind)
	require.NotEmpty(t, b.studio.inspector.fields)
	b.draw()
	width := b.studio.inspector.fields[1].(*entry)
	b.win.Canvas().Focus(width)
	width.SetText("3'")
	b.press(fyne.KeyReturn)
	require.Equal(t, 3*length.Foot, b.room().Walls[0].Openings[1].Width)
	width.SetText("90'")
	b.win.Canvas().Focus(width)
	b.press(fyne.KeyReturn)
	require.Equal(t, 3*length.Foot, b.room().Walls[0].Openings[1].Width, "wider than the wall is refused")
	require.NotEmpty(t, b.note, "and the reason is said")
	b.do("remove")
	require.Len(t, b.room().Walls[0].Openings, 1)
}

func TestAlternativesKeepTheProjectAsDrawn(t *testing.T) {
	b := newBench(t, oneRoom)
	b.do("alternative")
	require.Equal(t, "alternative 1", b.model.Doc.Active())
	b.pickFinish(t, "ply-12")
	require.NoError(t, b.model.Touch("shed/north", 0))
	b.settle()
	require.Equal(t, []string{"ply-12"}, b.room().Walls[2].Lining[0].Layers)
	b.activate("")
	b.settle()
	require.Equal(t, []string{"gyp-12"}, b.room().Walls[2].Lining[0].Layers)
	require.Len(t, b.model.Plan.Alternatives, 1, "its numbers stand beside the project's")
	require.NotEqual(t, b.model.Plan.Cost.Material, b.model.Plan.Alternatives[0].Cost)
	b.do("nextalternative")
	require.Equal(t, "alternative 1", b.model.Doc.Active())
	b.removeAlternative()
	require.Empty(t, b.model.Doc.Job().Alternatives)
}

func TestSaveReopenAndGuard(t *testing.T) {
	b := newBench(t, oneRoom)
	path := filepath.Join(t.TempDir(), "shed.seam.yaml")
	b.pickSurface("shed/east")
	b.do("divide") // an open wall divided in two zones
	b.newProject()
	require.NotEmpty(t, b.question, "work that is not saved is asked about")
	b.choose("Cancel")
	require.Equal(t, "Shed", b.model.Doc.Name())

	b.saveTo(strings.TrimSuffix(path, planner.Extension), 0, nil)
	require.FileExists(t, path, "the ending is added")
	require.Equal(t, "all changes saved", b.savedState())
	source := string(b.model.Doc.Source())
	b.newProject()
	require.Empty(t, b.question, "saved work needs no question")
	require.Empty(t, b.model.Doc.Job().Rooms)
	b.openPath(path)
	b.settle()
	require.Equal(t, source, string(b.model.Doc.Source()))

	require.NoError(t, os.WriteFile(path, []byte(strings.Replace(source, "Shed", "Barn", 1)), 0o644))
	b.pickSurface("shed/north")
	b.do("divide")
	b.do("save")
	require.NotEmpty(t, b.question, "another program has written the file")
	b.choose("Take the file's version")
	require.Equal(t, "Barn", b.model.Doc.Name())
	b.do("undo")
	require.Equal(t, "Shed", b.model.Doc.Name(), "and one's own version is an undo away")
}

func TestABadFileIsShownAndChangesNothing(t *testing.T) {
	b := newBench(t, oneRoom)
	bad := write(t, "bad.seam.yaml", strings.NewReplacer("height: 8'", "height: 8", "product: open", "prodct: open").Replace(oneRoom))
	b.openPath(bad)
	require.GreaterOrEqual(t, len(b.fault), 2, "every fault at once")
	for _, f := range b.fault {
		require.Positive(t, f.Line)
		require.Positive(t, f.Col)
		require.NotEmpty(t, f.Message+f.Remedy)
	}
	require.NotNil(t, b.over)
	require.Equal(t, "Shed", b.model.Doc.Name())
	b.stepBack()
	require.Nil(t, b.over)
	b.openPath(filepath.Dir(bad))
	require.Len(t, b.fault, 1, "a folder is one plain fault")
}

func TestFinderFindsActionsAndPlaces(t *testing.T) {
	b := newBench(t, oneRoom)
	b.find()
	f := b.win.Canvas().Focused().(*entry)
	f.SetText("nrth")
	b.press(fyne.KeyReturn)
	require.Equal(t, "shed/north", b.model.Selected.Surface)
	b.find()
	b.win.Canvas().Focused().(*entry).SetText("raking")
	b.press(fyne.KeyReturn)
	require.True(t, b.studio.room.style.Raking.On)
	b.find()
	b.win.Canvas().Focused().(*entry).SetText("zzzzqq")
	b.press(fyne.KeyReturn, fyne.KeyEscape)
	require.Empty(t, b.win.Canvas().Overlays().List())
}

// Every action has a place in a menu or on the rack, words, and a key of its own.
func TestCommandsAreComplete(t *testing.T) {
	b := newBench(t, oneRoom)
	seen := map[keys]string{}
	menus := map[string]bool{"": true}
	for _, m := range menuNames {
		menus[m] = true
	}
	for _, c := range b.commands {
		require.True(t, menus[c.menu], "%s is in a menu", c.id)
		require.NotEmpty(t, c.id)
		require.True(t, c.run != nil || c.children != nil, c.id)
		for _, k := range []keys{c.key, c.also} {
			if k.key == "" {
				continue
			}
			require.Empty(t, seen[k], "%s and %s share %s", c.id, seen[k], k)
			seen[k] = c.id
		}
	}
}

func TestTheViewsFollowOnePick(t *testing.T) {
	b := newBench(t, oneRoom)
	b.pickSurface("shed/north")
	require.Equal(t, "north", b.studio.inspector.fields[0].(*entry).Text)
	require.Equal(t, "shed/north", b.studio.room.selected()[0].Surface)
	found := false
	for _, p := range b.picked() {
		found = found || p.Surface == "shed/north"
	}
	require.True(t, found)
}

func TestUnitsAndLooksRebuildTheWindow(t *testing.T) {
	b := newBench(t, oneRoom)
	b.do("units")
	require.False(t, b.imperial())
	require.Equal(t, "4877 mm", b.length(16*length.Foot))
	for _, p := range Palettes() {
		b.colours(p)
		require.Equal(t, p.Name, b.pal.Name)
		img := b.win.Canvas().Capture()
		red, green, blue, _ := img.At(img.Bounds().Dx()-2, img.Bounds().Dy()-2).RGBA()
		require.Equal(t, [3]uint8{p.Ground.R, p.Ground.G, p.Ground.B}, [3]uint8{uint8(red >> 8), uint8(green >> 8), uint8(blue >> 8)}, "the desk at the lower right corner")
	}
}

func TestTicksReachTheProject(t *testing.T) {
	b := newBench(t, oneRoom)
	require.NotEmpty(t, b.model.Plan.Schedule)
	task := b.model.Plan.Schedule[0]
	b.tick(task, true)
	b.settle()
	require.True(t, b.model.Plan.Schedule[0].Done)
	require.Equal(t, job.Date{Year: 2027, Month: 3, Day: 2}, b.model.Doc.Job().Progress[0].On)
}

func TestEveryTabShowsThePlan(t *testing.T) {
	b := newBench(t, oneRoom)
	for i, v := range b.views {
		b.showTab(i)
		require.True(t, v.object().Visible(), v.name())
		for k, other := range b.views {
			require.Equal(t, k == i, other.object().Visible(), "%s while %s shows", other.name(), v.name())
		}
	}
	b.showTab(2)
	rows := b.views[2].(*shoppingView).table.rows
	require.Greater(t, len(rows), len(b.model.Plan.Takeoff), "every row of the takeoff and its headings")
	b.views[2].(*shoppingView).copy()
	require.Equal(t, len(b.model.Plan.Takeoff)+1, strings.Count(b.app.Clipboard().Content(), "\n"))
	b.showTab(1)
	require.Len(t, b.views[1].(*sheetsView).table.rows, len(b.model.Plan.Sheets))
	b.showTab(6)
	for part := range jobParts {
		b.views[6].(*jobView).parts[part].Tapped(nil)
		require.NotEmpty(t, b.views[6].(*jobView).content.Objects, jobParts[part])
	}
}

func TestZonesByHeight(t *testing.T) {
	b := newBench(t, oneRoom)
	b.pickSurface("shed/north")
	b.do("divide")
	require.Len(t, b.room().Walls[2].Lining, 2)
	require.Equal(t, 4*length.Foot, b.room().Walls[2].Lining[0].To)
	b.pickFinish(t, "ply-18")
	require.NoError(t, b.model.Touch("shed/north", 1))
	lining := b.room().Walls[2].Lining
	require.Equal(t, []string{"ply-18"}, lining[0].Layers, "only the zone that was touched")
	require.Equal(t, []string{"gyp-12"}, lining[1].Layers)
}

func TestEscTakesBackADrag(t *testing.T) {
	b := newBench(t, oneRoom)
	v, source := b.studio.plan, string(b.model.Doc.Source())
	r := b.room()
	from := v.view.Place(r.Corners[2])
	v.pic.MouseMoved(mouse(from, 0))
	v.pic.MouseDown(mouse(from, 1))
	pull := func(x float64) {
		v.pic.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(float32(from.X+x), float32(from.Y))}, Dragged: fyne.NewDelta(20, 0)})
	}
	pull(20)
	pull(40)
	require.NotEqual(t, source, string(b.model.Doc.Source()))
	sight := v.view
	b.press(fyne.KeyEscape)
	require.Equal(t, source, string(b.model.Doc.Source()))
	pull(60)
	v.pic.MouseUp(mouse(from, 1))
	v.pic.DragEnd()
	require.Equal(t, source, string(b.model.Doc.Source()), "what follows until the button is up does nothing")
	require.Equal(t, sight, v.view)
	require.False(t, b.command("undo").enabled())
}

func TestASeamIsPulledToAnotherStudPinnedAndFreed(t *testing.T) {
	b := newBench(t, strings.NewReplacer("{product: gyp-12}", "{product: gyp-12, run: across}", "[16',", "[20',").Replace(oneRoom))
	v := b.studio.strip
	seam, ok := endJoint(b)
	require.True(t, ok, "a wall of 20 ft laid across with sheets of 16 ft at most has end joints")
	b.model.Pick(seam)
	_, joint := b.model.joint(seam)
	was := joint.From.X
	require.True(t, v.stepSeam(fyne.KeyRight))
	b.settle()
	wall, _ := findSurface(b.model.Doc.Job(), seam.Surface)
	require.Len(t, wall.Pins, 1)
	require.Greater(t, wall.Pins[0].Seam, was)
	on := b.model.Surface(seam.Surface)
	require.Contains(t, append(slices.Clone(on.Members.At), on.Cripples...), wall.Pins[0].Seam, "it landed on a stud, or on one over the door")
	b.model.Pick(draft.Target{Kind: draft.OnPin, Room: "shed", Surface: seam.Surface})
	b.do("pin")
	wall, _ = findSurface(b.model.Doc.Job(), seam.Surface)
	require.Empty(t, wall.Pins)
}

// endJoint finds an upright joint between two panels of one course.
func endJoint(b *bench) (draft.Target, bool) {
	for _, s := range b.model.Plan.Surfaces {
		for k := range s.Zones {
			z := &s.Zones[k]
			for i := range z.Joints {
				j := &z.Joints[i]
				if len(j.Panels) == 2 && j.From.X == j.To.X && courseOf(z, j, 0) == courseOf(z, j, 1) {
					return draft.Target{Kind: draft.OnSeam, Room: s.Room, Surface: s.ID, Zone: z.Zone, Layer: z.Layer, Index: i, Drag: job.AxisX}, true
				}
			}
		}
	}
	return draft.Target{}, false
}
