package ui

import (
	"strings"
	"testing"

	"seamwright/calc/job"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/scene/draft"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/require"
)

func TestNamedAnswersAreOneClickAndOneUndoApart(t *testing.T) {
	b := newBench(t, strings.Replace(oneRoom, "quote: 3000", "quote: 3000, rate: 30", 1))
	require.Len(t, b.model.Plan.Answers, 3)
	require.True(t, b.studio.strip.answers.shown())
	for i, a := range []job.Aim{job.AimSheets, job.AimJoints, job.AimCost} {
		b.do([]string{"aim-sheets", "aim-joints", "aim-cost"}[i])
		b.settle()
		require.Equal(t, a, b.model.Doc.Job().Aim)
		for _, n := range b.model.Plan.Answers {
			if aimOf(n.Aim) == a {
				require.Equal(t, n.Sheets, b.model.Plan.Summary.SheetsBought, "the card says what choosing it gave")
			}
		}
	}
	require.True(t, b.model.Undo())
	require.Equal(t, job.AimJoints, b.model.Doc.Job().Aim)
}

func TestADraggedSeamClicksBetweenLawfulPlaces(t *testing.T) {
	b := newBench(t, strings.NewReplacer("{product: gyp-12}", "{product: gyp-12, run: across}", "[16',", "[20',").Replace(oneRoom))
	v := b.studio.strip
	seam, ok := endJoint(b)
	require.True(t, ok)
	source := string(b.model.Doc.Source())
	h, err := b.hold(seam)
	require.NoError(t, err)
	view, ok := draft.SurfaceView(b.model.Plan, b.model.Doc.Job(), v.room, seam.Surface, v.view)
	require.True(t, ok)
	middle := shape.Point{X: h.joint.From.X, Y: (h.joint.From.Y + h.joint.To.Y) / 2}
	from := view.Place(middle)
	v.pic.MouseMoved(mouse(from, 0))
	v.pic.MouseDown(mouse(from, desktop.MouseButtonPrimary))
	require.Equal(t, draft.OnSeam, v.held.Kind)
	pull := func(by float64) {
		v.pic.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(float32(from.X+by), float32(from.Y))}, Dragged: fyne.NewDelta(float32(by), 0)})
	}
	moved := false
	for by := 6.0; by < 120; by += 7 {
		pull(by)
		require.NotNil(t, v.hold)
		p := v.hold.place()
		require.True(t, v.hold.at == v.hold.was || p != nil && p.Lawful(), "it stands only where it may")
		require.NotEmpty(t, v.seam.Lines)
		if v.hold.at != v.hold.was && !moved {
			moved = true
			b.settle()
			require.Len(t, pinsOf(findSurface(b.model.Doc.Job(), seam.Surface)), 1, "planned anew while the hand still holds it")
		}
	}
	require.True(t, moved)
	v.pic.MouseUp(mouse(from, desktop.MouseButtonPrimary))
	v.pic.DragEnd()
	b.settle()
	require.Len(t, pinsOf(findSurface(b.model.Doc.Job(), seam.Surface)), 1)
	require.True(t, b.model.Undo())
	require.Equal(t, source, string(b.model.Doc.Source()), "one drag is one step")
}

func TestTheAnswersStandThereInEveryColour(t *testing.T) {
	b := newBench(t, oneRoom)
	for _, p := range Palettes() {
		b.colours(p)
		b.draw()
		b.studio.strip.pic.redraw()
		require.True(t, b.studio.strip.answers.box.Visible(), p.Name)
		require.NotEmpty(t, b.studio.strip.answers.cards.Objects, p.Name)
	}
}

// A joint between upright sheets is dragged from stud to stud like any other seam: each place is a pin of its own.
func TestAJointOfUprightSheetsIsDragged(t *testing.T) {
	b := newBench(t, strings.NewReplacer("{product: gyp-12}", "{product: gyp-12, run: along}", "[16',", "[20',").Replace(oneRoom))
	v := b.studio.strip
	seam, ok := uprightJoint(b)
	require.True(t, ok)
	source := string(b.model.Doc.Source())
	b.model.Pick(seam)
	h, err := b.hold(seam)
	require.NoError(t, err)
	require.True(t, h.places.Upright)
	require.True(t, v.stepSeam(fyne.KeyRight))
	b.settle()
	pins := pinsOf(findSurface(b.model.Doc.Job(), seam.Surface))
	require.Len(t, pins, 1)
	require.True(t, pins[0].Edge)
	require.Greater(t, pins[0].Seam, h.was)
	moved, at := draft.Target{}, pins[0].Seam
	zone, _ := b.model.joint(seam)
	for i := range zone.Joints {
		if j := &zone.Joints[i]; len(j.Panels) == 2 && j.From.X == at && j.To.X == at {
			moved = seam
			moved.Index = i
		}
	}
	require.Equal(t, draft.OnSeam, moved.Kind, "the plan has the joint where it was put")
	b.model.Pick(moved)
	require.True(t, v.stepSeam(fyne.KeyLeft))
	b.settle()
	pins = pinsOf(findSurface(b.model.Doc.Job(), seam.Surface))
	require.Len(t, pins, 1, "the pin moves, and none is left behind")
	require.Less(t, pins[0].Seam, at)
	require.True(t, b.model.Undo())
	require.True(t, b.model.Undo())
	require.Equal(t, source, string(b.model.Doc.Source()))
}

// uprightJoint finds a joint between two upright courses of a wall without openings.
func uprightJoint(b *bench) (draft.Target, bool) {
	for _, s := range b.model.Plan.Surfaces {
		for k := range s.Zones {
			z := &s.Zones[k]
			for i := range z.Joints {
				j := &z.Joints[i]
				if s.Kind == plan.Wall && len(s.Holes) == 0 && len(j.Panels) == 2 && j.From.X == j.To.X && courseOf(z, j, 0) != courseOf(z, j, 1) {
					return draft.Target{Kind: draft.OnSeam, Room: s.Room, Surface: s.ID, Zone: z.Zone, Layer: z.Layer, Index: i, Drag: job.AxisX}, true
				}
			}
		}
	}
	return draft.Target{}, false
}
