package draft_test

import (
	"image"
	"image/draw"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/assets/words"
	"seamwright/calc/cut"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/scene/draft"
)

// cutUp is a plywood sheet cut into three parts, one of them notched, with one offcut kept and one strip of waste.
func cutUp() (*plan.Sheet, *plan.Plan, *job.Job) {
	j := studio()
	p := answer(j)
	k := 1 * in / 8
	notched := &p.Surfaces[0].Zones[0].Panels[5]
	notched.Outline = shape.Polygon{{X: 12 * ft, Y: 4 * ft}, {X: 15 * ft, Y: 4 * ft}, {X: 15 * ft, Y: 82 * in}, {X: 12*ft + 54*in, Y: 82 * in}, {X: 12*ft + 54*in, Y: 8 * ft}, {X: 12 * ft, Y: 8 * ft}}
	p.Sheets = []plan.Sheet{{ID: "S004", Product: "ply-18", Size: [2]length.Length{8 * ft, 4 * ft}, Kerf: k, Source: plan.Buy,
		Parts: []plan.Part{{Panel: notched.ID, Rect: shape.Rect{W: 54 * in, H: 4 * ft}},
			{Panel: "S-08", Rect: shape.Rect{X: 54*in + k, W: 96*in - 54*in - k, H: 18 * in}},
			{Panel: "N-01", Rect: shape.Rect{X: 54*in + k, Y: 18*in + k, W: 24 * in, H: 48*in - 18*in - k}, Turned: true}},
		Offcuts: []shape.Rect{{X: 78*in + 2*k, Y: 18*in + k, W: 18*in - 2*k, H: 24 * in}},
		Cuts: []plan.Cut{{Order: 1, Kind: "cross", From: shape.Point{X: 54 * in}, To: shape.Point{X: 54 * in, Y: 4 * ft}},
			{Order: 2, Kind: "rip", From: shape.Point{X: 54*in + k, Y: 18 * in}, To: shape.Point{X: 8 * ft, Y: 18 * in}},
			{Order: 3, Kind: "cross", From: shape.Point{X: 78*in + k, Y: 18*in + k}, To: shape.Point{X: 78*in + k, Y: 4 * ft}},
			{Order: 4, Kind: "rip", From: shape.Point{X: 78*in + 2*k, Y: 42*in + k}, To: shape.Point{X: 8 * ft, Y: 42*in + k}}}}}
	cut.Sheets(j, p)
	return &p.Sheets[0], p, j
}

func TestCutSheetPictures(t *testing.T) {
	sh, p, j := cutUp()
	for _, th := range []*draft.Theme{draft.Paper(), draft.Dark()} {
		for _, scale := range []float64{1, 2} {
			look(t, "cut-"+th.Name+map[float64]string{1: "-1x", 2: "-2x"}[scale], drawn(820, 380, scale, func(c draft.Canvas) {
				w, h := c.Size()
				c.Fill(draft.Rect{W: w, H: h}.Path(), th.Pane)
				draft.DrawCutSheet(c, th, sh, p, j, draft.Rect{X: 12, Y: 12, W: w - 24, H: h - 24}, draft.CutState{Step: int(scale) - 1, Panel: "S-08"})
			}))
		}
	}
}

func sequence() *plan.Plan {
	return &plan.Plan{Schedule: []plan.Task{
		{ID: "prep", Room: "studio", Day: "2027-03-04", Trade: plan.Prepare, Name: plan.Verbatim("Check framing, mark studs"), Kind: "work", Start: "2027-03-04T08:00", Finish: "2027-03-04T11:30", Hours: 3.5},
		{ID: "inspect", Room: "studio", Day: "2027-03-04", Trade: plan.Hang, Name: plan.Verbatim("Inspection before covering"), Kind: "inspect", After: []string{"prep"}, Start: "2027-03-04T13:00", Finish: "2027-03-04T13:00"},
		{ID: "hang", Room: "studio", Day: "2027-03-05", Trade: plan.Hang, Name: plan.Verbatim("Hang ceiling and walls"), Kind: "work", After: []string{"inspect"}, Start: "2027-03-05T08:00", Finish: "2027-03-08T12:00", Hours: 20.5},
		{ID: "ply", Room: "studio", Day: "2027-03-05", Trade: plan.Hang, Name: plan.Verbatim("Hang plywood on the south wall"), Kind: "work", After: []string{"inspect"}, Start: "2027-03-05T08:00", Finish: "2027-03-05T14:00", Hours: 6, Slack: 10, Done: true},
		{ID: "tape", Room: "studio", Day: "2027-03-08", Trade: plan.Finish, Name: plan.Verbatim("Tape and first coat"), Kind: "work", After: []string{"hang"}, Start: "2027-03-08T12:00", Finish: "2027-03-09T10:00", Hours: 4},
		{ID: "dry", Room: "studio", Day: "2027-03-09", Trade: plan.Finish, Name: plan.Verbatim("First coat dries at 68 °F"), Kind: "wait", After: []string{"tape"}, Start: "2027-03-09T10:00", Finish: "2027-03-10T10:00", Hours: 24},
		{ID: "bead", Room: "studio", Day: "2027-03-09", Trade: plan.Trims, Name: plan.Verbatim("Trim the window"), Kind: "work", After: []string{"hang"}, Start: "2027-03-09T08:00", Finish: "2027-03-09T12:00", Hours: 4, Slack: 6},
		{ID: "second", Room: "studio", Day: "2027-03-10", Trade: plan.Finish, Name: plan.Verbatim("Second coat"), Kind: "work", After: []string{"dry"}, Start: "2027-03-10T10:00", Finish: "2027-03-10T14:00", Hours: 4}}}
}

func TestSequencePictures(t *testing.T) {
	p := draft.SequenceRows(sequence(), nil)
	for _, th := range []*draft.Theme{draft.Paper(), draft.Dark()} {
		w, h := draft.SequenceSize(p)
		look(t, "sequence-"+th.Name, drawn(int(w), int(h), 1, func(c draft.Canvas) {
			draft.DrawSequence(c, th, p, nil, draft.Pt{}, draft.SequenceState{Selected: "second", Hover: "tape"})
		}))
	}
}

func TestRackPictures(t *testing.T) {
	j := studio()
	one := func(id string) []*job.Product { return []*job.Product{j.Product(id)} }
	rack := [][]*job.Product{one("gyp-12"), one("gyp-16x"), one("gyp-12m"), one("ply-18"), {j.Product("gyp-16x"), j.Product("gyp-16x")}, nil}
	img := image.NewRGBA(image.Rect(0, 0, 6*80*2, 3*60*2))
	for row, th := range []*draft.Theme{draft.Paper(), draft.Dark(), draft.HighContrast()} {
		for i, layers := range rack {
			s := draft.Swatch(th, layers, 70, 46, 2)
			draw.Draw(img, s.Rect.Add(image.Pt(i*160+10, row*120+10)), s, image.Point{}, draw.Src)
		}
	}
	look(t, "rack", img)
	look(t, "icon", drawn(400, 300, 1, func(c draft.Canvas) {
		c.Fill(draft.Rect{W: 400, H: 300}.Path(), draft.Paper().Ground)
		draft.DrawIcon(c, draft.Pt{X: 10, Y: 10}, 256)
		draft.DrawIcon(c, draft.Pt{X: 280, Y: 10}, 64)
		draft.DrawIcon(c, draft.Pt{X: 280, Y: 90}, 32)
		draft.DrawIcon(c, draft.Pt{X: 280, Y: 140}, 16)
	}))
}

func TestLegendExplainsEverySeam(t *testing.T) {
	for _, width := range []float64{150, 300, 900} {
		r := &record{w: width + 20, h: 120}
		high := draft.DrawLegend(r, draft.Paper(), words.In(words.English, words.Units{}), draft.Pt{X: 10, Y: 110}, width)
		r.judge(t)
		require.Len(t, r.texts, 5)
		require.LessOrEqual(t, high, 120.0)
	}
}
