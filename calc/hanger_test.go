package calc_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/assets/words"
	"seamwright/calc"
	"seamwright/calc/length"
	"seamwright/calc/plan"
)

// What a good hanger does without being asked. Common practice, no source, unless one is named.

// hung plans a project of one lined wall and gives its panels, by course and from the left.
func hung(t *testing.T, text string) (*plan.Plan, []plan.Panel) {
	t.Helper()
	p, err := calc.Plan(t.Context(), loaded(t, []byte(text)).Job(), nil)
	require.NoError(t, err)
	for _, s := range p.Surfaces {
		if len(s.Zones) > 0 && len(s.Zones[0].Panels) > 0 {
			return p, s.Zones[0].Panels
		}
	}
	t.Fatal("nothing hangs")
	return nil, nil
}

// Framing 97 in under a 5/8 in ceiling board leaves 96 3/8 in: two 48 in courses stand 3/8 in off the floor, more than the
// 1/4 in that GA-216 s. 4.6.11 asks for. No strip of 1/8 in is ripped off 12 ft of board to make it 1/2 in.
func TestNoStripIsRippedForTheFloorGap(t *testing.T) {
	p, panels := hung(t, `
seamwright: 1
site: {people: 2, rate: 25}
rooms:
  - id: r
    height: 8' 1"
    corners: [[0, 0], [12', 0], [12', 12'], [0, 12']]
    ceiling: {framing: {spacing: 16", along: x}, lining: [{product: gyp-16x, run: across}]}
    walls: [{side: 1, id: south, lining: [{product: gyp-12, run: across}]}]
defaults: {lining: [{product: open}], trim: 3 1/2"}
`)
	require.Len(t, panels, 2)
	require.Equal(t, 3*length.Inch/8, panels[0].Outline.Bounds().Y)
	for _, s := range p.Sheets {
		require.Empty(t, s.Cuts, s.ID)
	}
}

// One person hangs a wall of 9 ft 6 in from the floor up: the ripped course goes to the floor, where base trim hides its cut
// edge, and not under the open ceiling; unless the user says which course begins.
func TestRipGoesToTheFloor(t *testing.T) {
	const wall = `
seamwright: 1
site: {people: 1, rate: 25}
rooms:
  - id: r
    height: 9' 6"
    corners: [[0, 0], [12', 0], [12', 12'], [0, 12']]
    walls: [{side: 1, id: south, lining: [{product: gyp-12, run: across START}]}]
defaults: {lining: [{product: open}], trim: 3 1/2"}
`
	p, panels := hung(t, strings.Replace(wall, " START", "", 1))
	require.Equal(t, []string{"the course at the floor is ripped to 1' 5 1/2\": its cut edge goes to the floor, where it is seen least, and factory edges meet above it and at the ceiling"}, notes(p, "ripped-course"))
	top := panels[len(panels)-1]
	require.Equal(t, plan.EdgeTapered, top.Edges[2], "a factory edge at the head")
	require.Equal(t, plan.EdgeCut, panels[0].Edges[0])
	p, panels = hung(t, strings.Replace(wall, " START", ", start: floor", 1))
	require.Len(t, notes(p, "ripped-course"), 1)
	level, _ := hung(t, strings.NewReplacer("9' 6\"", "8'", " START", "").Replace(wall))
	require.Empty(t, notes(level, "ripped-course"), "two whole courses less the gap at the floor")
	require.Contains(t, notes(p, "ripped-course")[0], "the course at the ceiling is ripped to 1' 5 1/2\", since the file has sheets begin at the floor")
	require.Equal(t, plan.EdgeTapered, panels[0].Edges[0], "as asked, whole sheets stand on the floor")
}

// A 12 ft wall between two walls takes a 12 ft sheet only when something comes off it: board is made to the nominal length,
// and 1/8 in is left at either end. The cut sheet says so; of a sheet that ends on a stud nothing is trimmed.
func TestSheetAsLongAsItsBayIsTrimmed(t *testing.T) {
	const wall = `
seamwright: 1
site: {people: 2, rate: 25}
rooms:
  - id: r
    height: 8' 1"
    corners: [[0, 0], [12', 0], [12', 10'], [0, 10']]
defaults: {lining: [{product: gyp-12, run: across}], trim: 3 1/2"}
catalog: [{id: gyp-12, sizes: [{size: [12', 48"], price: 23.80}]}]
`
	p, _ := hung(t, wall)
	trimmed := 0
	for _, s := range p.Sheets {
		for _, q := range s.Parts {
			if q.Surface == "r/south" && q.Rect.W == 12*length.Foot {
				require.Equal(t, length.Inch/4, q.Ease, q.Panel)
				trimmed++
			}
		}
	}
	require.NotZero(t, trimmed)
	p, _ = hung(t, strings.Replace(wall, "[12', 0], [12', 10']", "[20', 0], [20', 10']", 1))
	for _, s := range p.Sheets {
		for _, q := range s.Parts {
			if q.Surface == "r/south" {
				require.Zero(t, q.Ease, q.Panel)
			}
		}
	}
}

// A wainscot of 48 in above a gap of 1/2 in takes 47 1/2 in of a 48 in sheet; 48 1/2 in takes the whole.
func TestWainscotThatSavesARipIsPointedOut(t *testing.T) {
	const wall = `
seamwright: 1
site: {people: 2, rate: 25}
rooms:
  - id: r
    height: 8'
    corners: [[0, 0], [16', 0], [16', 10'], [0, 10']]
    walls: [{side: 1, id: south, lining: [{product: ply-18, to: HEIGHT, run: across}, {product: gyp-12, run: across}]}]
defaults: {lining: [{product: open}], trim: 3 1/2"}
`
	pointed := func(height string) []string {
		p, _ := hung(t, strings.Replace(wall, "HEIGHT", height, 1))
		return notes(p, "wainscot-height")
	}
	got := pointed(`48"`)
	require.Len(t, got, 1)
	require.Contains(t, got[0], "a zone 4' 1/2\" high would save that")
	require.Empty(t, pointed(`48 1/2"`))
	require.Empty(t, pointed(`36"`))
}

// notes are what a rule finds in a plan.
func notes(p *plan.Plan, rule string) (messages []string) {
	for _, c := range p.Checks {
		if c.Rule == rule {
			messages = append(messages, said(c.Says))
		}
	}
	return messages
}

// said is a fact in English, in feet and inches.
func said(f plan.Fact) string { return words.In(words.English, words.Units{Imperial: true}).Fact(f) }
