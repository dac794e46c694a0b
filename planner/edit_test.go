package planner

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/money"
	"seamwright/calc/shape"
)

const foot = length.Foot

// edited applies edits to a text and gives the lines that changed, as -old and +new.
func edited(t *testing.T, src string, edits ...Edit) (*Document, string) {
	t.Helper()
	d, err := Parse("f", []byte(src))
	require.NoError(t, err)
	for _, e := range edits {
		require.NoError(t, d.Apply(e))
	}
	before, after := strings.Split(src, "\n"), strings.Split(string(d.Source()), "\n")
	head, tail := 0, 0
	least := min(len(before), len(after))
	for head < least && before[head] == after[head] {
		head++
	}
	for tail < least-head && before[len(before)-1-tail] == after[len(after)-1-tail] {
		tail++
	}
	var out []string
	for _, l := range before[head : len(before)-tail] {
		out = append(out, "-"+l)
	}
	for _, l := range after[head : len(after)-tail] {
		out = append(out, "+"+l)
	}
	return d, strings.Join(out, "\n")
}

func gypsum() []job.Zone {
	return []job.Zone{{Layers: []string{"gyp-12"}, Runs: []job.Run{job.RunAuto}, Pattern: job.Staggered, Finish: 4}}
}

// TestEditsTouchOnlyTheirLines: what an edit writes stands in place, formatted like its neighbours; the rest of
// the text, comments and alignment included, stays.
func TestEditsTouchOnlyTheirLines(t *testing.T) {
	for name, c := range map[string]struct {
		edit Edit
		want string
	}{
		"a value": {SetRoomHeight{"shed", 8*foot + length.Inch/2},
			"-    height: 8'\n+    height: 8' 1/2\""},
		"one corner": {MoveCorner{"shed", 3, shape.Point{X: 12 * foot, Y: 11 * foot}},
			"-    corners: [[0, 0], [12', 0], [12', 10'], [0, 10']]\n+    corners: [[0, 0], [12', 0], [12', 11'], [0, 10']]"},
		"a side that is not listed, behind the others": {SetLining{[]string{"shed/west"}, gypsum()},
			"+      - {side: 4, id: west, lining: [{product: gyp-12}]}"},
		"a key in a flow mapping, in its place": {SetWall{"shed/east", job.Wall{ID: "east", Trim: 3 * length.Inch,
			Framing: usualFraming(job.Imperial), Insulation: job.KraftBatt}},
			"-      - {side: 2, id: east}\n+      - {side: 2, id: east, insulation: kraft-batt, trim: 3\"}"},
		"a key in a block mapping, in its place": {SetWall{"shed/south", job.Wall{ID: "south", Duty: []job.Duty{job.Wet, job.Bracing},
			Framing: usualFraming(job.Imperial), Insulation: job.NoInsulation}},
			"+        duty: [wet, bracing]"},
		"one zone of two": {SetLining{[]string{"shed/south"}, []job.Zone{
			{To: 4 * foot, Layers: []string{"ply-18"}, Runs: []job.Run{job.RunAuto}, Pattern: job.Staggered, Finish: 4},
			{Layers: []string{"gyp-16x", "gyp-12"}, Runs: []job.Run{job.RunAlong, job.RunAcross}, Pattern: job.Staggered, Finish: 4}}},
			"-        lining: [{product: ply-18, to: 48\"}, {product: gyp-12, courses: [24\", 24\"]}]\n" +
				"+        lining: [{product: ply-18, to: 48\"}, {product: [gyp-16x, gyp-12], run: [along, across]}]"},
		"an item of a list": {AddBox{"shed/south", job.Box{At: 10 * foot, Up: 4 * foot, Diameter: 4 * length.Inch, Kind: "light"}},
			"-        boxes: [{at: 8', up: 16\", width: 2\", height: 4\"}]\n" +
				"+        boxes: [{at: 8', up: 16\", width: 2\", height: 4\"}, {at: 10', up: 4', diameter: 4\", kind: light}]"},
		"the last item of a list": {RemoveBox{"shed/south", 0}, "-        boxes: [{at: 8', up: 16\", width: 2\", height: 4\"}]"},
		"a new section in its place": {SetRules{func() job.Rules { r := defaultRules(); r.Stagger = 24 * length.Inch; return r }()},
			"+rules:\n+  stagger: 2'"},
		"a new room": {AddRoom{Corners: square(10 * foot), Height: 8 * foot},
			"+  - id: room-1\n+    height: 8'\n+    corners: [[0, 0], [10', 0], [10', 10'], [0, 10']]"},
		"a ceiling's shape": {SetCeiling{"shed", &job.Ceiling{Shape: job.Slope, From: "south", To: "north", High: 10 * foot, Framing: usualFraming(job.Imperial)}},
			"-    ceiling: {shape: {ridge: {along: x, at: 5', height: 10'}}}\n+    ceiling: {shape: {slope: {from: south, to: north, height: 10'}}}"},
		"a shipped price": {SetPrice{"ply-6", 8 * foot, 48 * length.Inch, 3100},
			"+catalog:\n+  - id: ply-6\n+    sizes:\n+      - {size: [8', 4'], price: 31}"},
		"a shipped pack": {SetPackPrice{"tape", "500 ft roll", 799},
			"+supplies:\n+  - id: tape\n+    packs: [{name: 500 ft roll, price: 7.99}]"},
		"stock, written like its neighbour": {AddStock{job.Stock{Product: "ply-18", Length: 4 * foot, Width: foot, Count: 2, Note: "shelf: old"}},
			"-stock: [{product: gyp-12, size: [48\", 24\"], count: 1}]\n" +
				"+stock: [{product: gyp-12, size: [48\", 24\"], count: 1}, {product: ply-18, size: [4', 1'], count: 2, note: \"shelf: old\"}]"},
		"nothing where nothing changes":              {SetAim{job.AimCost}, ""},
		"no text where the value is the same length": {SetRoomHeight{"shed", 96 * length.Inch}, ""},
		"a task": {TickTask{"tape", true, job.Date{Year: 2027, Month: 3, Day: 9}, 4.5},
			"+progress:\n+  - {task: tape, on: 2027-03-09, hours: 4.5}"},
	} {
		t.Run(name, func(t *testing.T) {
			_, got := edited(t, sound, c.edit)
			require.Equal(t, c.want, got)
		})
	}
}

// TestCommentsSurvive: comments inside a value that is rewritten key by key stay where they are.
func TestCommentsSurvive(t *testing.T) {
	src := `seamwright: 1
rooms:
  # The shed stands in the yard.
  - id: shed   # old name: hut

    height: 8'    # measured twice
    corners:
      - [0, 0]       # by the gate
      - [12', 0]
      - [12', 10']   # under the elm
      - [0, 10']

    walls:
      - side: 2
        lining:
          # up to the bench
          - product: ply-18   # from the stack
            to: 48"
          - {product: gyp-12} # above
# the end
`
	zones := []job.Zone{
		{To: 3 * foot, Layers: []string{"ply-18"}, Runs: []job.Run{job.RunAuto}, Pattern: job.Staggered, Finish: 4},
		{Layers: []string{"gyp-16x"}, Runs: []job.Run{job.RunAuto}, Pattern: job.Staggered, Finish: 4}}
	d, diff := edited(t, src,
		SetLining{[]string{"shed/east"}, zones},
		MoveCorner{"shed", 3, shape.Point{X: 13 * foot, Y: 10 * foot}})
	require.Equal(t, strings.Count(src, "#"), strings.Count(string(d.Source()), "#"))
	for _, line := range []string{"      - [13', 10']   # under the elm", "            to: 3'", "          - {product: gyp-16x} # above"} {
		require.Contains(t, diff, "+"+line)
	}
	require.True(t, d.Undo())
	require.True(t, d.Undo())
	require.Equal(t, src, string(d.Source()))
}

// TestNewLinesOfTheFile: a file with Windows line ends keeps them, and so does one of an old Macintosh.
func TestNewLinesOfTheFile(t *testing.T) {
	for _, ends := range []string{"\n", "\r\n", "\r"} {
		d, err := Parse("f", []byte(strings.ReplaceAll(sound, "\n", ends)))
		require.NoError(t, err)
		require.NoError(t, d.Apply(AddRoom{Corners: square(10 * foot), Height: 8 * foot}))
		require.NoError(t, d.Apply(SetLining{[]string{"shed/west"}, gypsum()}))
		require.False(t, strings.ContainsAny(strings.ReplaceAll(string(d.Source()), ends, ""), "\r\n"), "%q", ends)
	}
}

func wallOf(t *testing.T, d *Document, id string) job.Wall {
	t.Helper()
	for _, r := range d.Job().Rooms {
		for _, w := range r.Walls {
			if r.ID+"/"+w.ID == id {
				return w
			}
		}
	}
	require.Fail(t, "no wall "+id)
	return job.Wall{}
}

// TestAddCorner: the openings and boxes of a divided wall stay where they stand in the room. South is side 1 of an
// outline that runs counter-clockwise, so its left end, seen from inside, is corner 2 at x = 12'.
func TestAddCorner(t *testing.T) {
	src := strings.Replace(sound, "        pins: [{zone: 2, layer: 1, course: 1, seam: 8'}]\n", "", 1)
	d, _ := edited(t, src, AddCorner{"shed", 1, shape.Point{X: 6 * foot}})
	first, second := wallOf(t, d, "shed/south"), wallOf(t, d, "shed/south-2")
	require.Equal(t, 1, first.Side)
	require.Equal(t, 2, second.Side)
	// The door at 2' from the left end lies between x = 7' and 10', in the part from 6' to 12'.
	require.Empty(t, first.Openings)
	require.Equal(t, 2*foot, second.Openings[0].At)
	// The box at 8' lies at x = 4', that is 2' from the left end (x = 6') of the part from 0 to 6'.
	require.Equal(t, 2*foot, first.Boxes[0].At)
	require.Empty(t, second.Boxes)
	require.Equal(t, first.Lining, second.Lining)
	require.Equal(t, 3, wallOf(t, d, "shed/east").Side)
	require.Equal(t, []string{"shed/south", "shed/south-2"}, d.Job().Alternatives[0].Set[0].Surfaces)
	// Studs stood at 16" spacing from x = 12': at 5' 4" and 6' 8" from there. The part from 0 to 6' begins at 6'
	// from it, so its first stud stands 8" in.
	require.Equal(t, 8*length.Inch, first.Framing.First)

	across := New(job.Imperial)
	require.NoError(t, across.Apply(AddRoom{ID: "a", Corners: square(10 * foot), Height: 8 * foot}))
	require.NoError(t, across.Apply(AddOpening{"a/south", job.Opening{Kind: job.Door, At: 4 * foot, Width: 3 * foot, Height: 80 * length.Inch}}))
	require.ErrorContains(t, across.Apply(AddCorner{"a", 1, shape.Point{X: 5 * foot}}), "d1 stands across the new corner")
}

func TestRemoveCorner(t *testing.T) {
	d, _ := edited(t, sound, AddCorner{"shed", 3, shape.Point{X: 6 * foot, Y: 10 * foot}}, RemoveCorner{"shed", 4})
	require.Equal(t, 4, len(d.Job().Rooms[0].Corners))
	require.Equal(t, 2, wallOf(t, d, "shed/east").Side)

	d, _ = edited(t, sound, RemoveCorner{"shed", 1})
	require.Len(t, d.Job().Rooms[0].Walls, 3)
	require.Equal(t, 1, wallOf(t, d, "shed/east").Side)
	require.Empty(t, d.Job().Alternatives[0].Set, "the wall that went is named nowhere")
}

// TestMoveSide: a side moves parallel and its neighbours keep their directions.
func TestMoveSide(t *testing.T) {
	d, _ := edited(t, sound, MoveSide{"shed", 2, shape.Point{X: 15 * foot, Y: foot}})
	require.Equal(t, []shape.Point{{}, {X: 15 * foot}, {X: 15 * foot, Y: 10 * foot}, {Y: 10 * foot}}, d.Job().Rooms[0].Corners)

	// A neighbour at a slope of 3 in 4 from (12', 0) to (16', 3'): the moved side meets it on that line.
	slanted := "seamwright: 1\nrooms: [{id: a, height: 8', corners: [[0, 0], [12', 0], [16', 3'], [16', 10'], [0, 10']]}]\n"
	d, _ = edited(t, slanted, MoveSide{"a", 1, shape.Point{Y: -3 * foot}})
	require.Equal(t, shape.Point{X: 8 * foot, Y: -3 * foot}, d.Job().Rooms[0].Corners[1])
}

// TestReferencesFollow: whatever names a surface follows when room or wall get another name, or keeps the name in
// writing when the wall turns away from its point of the compass.
func TestReferencesFollow(t *testing.T) {
	d, _ := edited(t, sound, RenameRoom{"shed", "barn"}, SetWall{"barn/south", func() job.Wall {
		w := job.Wall{ID: "front", Framing: usualFraming(job.Imperial), Insulation: job.NoInsulation}
		return w
	}()})
	require.Equal(t, []string{"barn/front"}, d.Job().Alternatives[0].Set[0].Surfaces)

	plain := "seamwright: 1\nrooms: [{id: a, height: 8', corners: [[0, 0], [12', 0], [12', 10'], [0, 10']]}]\n" +
		"alternatives: [{name: x, set: [{walls: [a/south], lining: [{product: ply-18}]}]}]\n"
	d, _ = edited(t, plain, MoveCorner{"a", 1, shape.Point{Y: -foot}})
	require.Contains(t, string(d.Source()), "walls: [{side: 1, id: south}]")

	back := "seamwright: 1\nrooms:\n  - {id: a, height: 8', corners: [[0, 0], [5', 0], [5', 5'], [0, 5']], walls: [{side: 2, back: b/west}]}\n" +
		"  - {id: b, height: 8', corners: [[6', 0], [9', 0], [9', 5'], [6', 5']]}\n"
	d, _ = edited(t, back, RenameRoom{"b", "c"})
	require.Equal(t, "c/west", wallOf(t, d, "a/east").Back)
	d, _ = edited(t, back, RemoveRoom{"b"})
	require.Empty(t, wallOf(t, d, "a/east").Back)
}

// TestAlternatives: linings of an alternative are its own; surfaces with the same lining share an entry.
func TestAlternatives(t *testing.T) {
	d, _ := edited(t, sound, AddAlternative{"board", ""}, SetAlternativeLining{"board", []string{"shed/east", "shed/north"}, gypsum()})
	require.Contains(t, string(d.Source()), "{walls: [shed/east, shed/north], lining: [{product: gyp-12}]}")
	require.NoError(t, d.Apply(SetAlternativeLining{"board", []string{"shed/south"}, gypsum()}))
	require.Contains(t, string(d.Source()), "walls: [shed/east, shed/north, shed/south]")
	require.NoError(t, d.Activate("board"))
	require.Equal(t, gypsum(), wallOf(t, d, "shed/south").Lining)
	require.IsType(t, SetAlternativeLining{}, d.Lining([]string{"shed/south"}, gypsum()))
	require.NoError(t, d.Activate(""))
	require.Len(t, wallOf(t, d, "shed/south").Lining, 2)
	require.IsType(t, SetLining{}, d.Lining([]string{"shed/south"}, gypsum()))

	require.NoError(t, d.Activate("board"))
	require.NoError(t, d.Apply(SetAlternativeLining{"board", []string{"shed/east"}, nil}))
	require.NoError(t, d.Apply(RemoveAlternative{"board"}))
	require.Empty(t, d.Active(), "an alternative that is gone is not shown")
	require.ErrorContains(t, d.Activate("board"), "there is no alternative")
	require.ErrorContains(t, d.Apply(AddAlternative{"ply", ""}), "already")
	require.NoError(t, d.Apply(AddAlternative{"copy", "ply"}))
	require.Equal(t, d.Job().Alternatives[0].Set, d.Job().Alternatives[1].Set)
}

// TestRefusedEditsChangeNothing: an edit that would break the project gives an error with the reason.
func TestRefusedEditsChangeNothing(t *testing.T) {
	d, err := Parse("f", []byte(sound))
	require.NoError(t, err)
	for _, c := range []struct {
		edit Edit
		want string
	}{
		{MoveCorner{"shed", 3, shape.Point{X: -foot, Y: foot}}, "crosses or touches"},
		{MoveCorner{"shed", 9, shape.Point{}}, "shed has no corner 9"},
		{MoveCorner{"barn", 1, shape.Point{}}, `there is no room "barn"`},
		{SetRoomHeight{"shed", 6 * foot}, "d1 reaches 6' 8\" above the floor"},
		{SetLining{[]string{"shed/ceiling"}, append(gypsum(), gypsum()...)}, "zone 1 has no"},
		{SetLining{[]string{"shed/moon"}, gypsum()}, "there is no surface"},
		{RenameRoom{"shed", "a b"}, "cannot be the id of a room"},
		{AddStock{job.Stock{Product: "gyp-12", Length: 40 * foot, Width: foot, Count: 1}}, "larger than any sheet"},
		{SetPrice{"gyp-12", foot, foot, money.Money(1)}, "not sold in that size"},
		{RecordUse{"tape", "compound", 1}, "tick it first"},
		{RemoveStock{7}, "there is no such entry in stock"},
	} {
		require.ErrorContains(t, d.Apply(c.edit), c.want)
		require.Equal(t, sound, string(d.Source()))
	}
	_, ok := d.CanUndo()
	require.False(t, ok)
}

// TestQuote: every text that is written is read back.
func TestQuote(t *testing.T) {
	for _, s := range []string{"", "plain", "a b", " lead", "tail ", "null", "~", "yes", "a: b", "a #b", "#", "- x", "'", `"`, `\`, "[x]", "{", "a,b",
		"*a", "&a", "!a", "%a", "@a", "`a", "|", ">", "?", "ü", "12", "1e3", "tab\there", "line\nbreak", "\u2028", "\x00", "🙂", "a'b"} {
		root, errs := growTree("f", []byte("flow: ["+quote(s)+"]\nblock: "+quote(s)+"\n"))
		require.Nil(t, errs, s)
		require.Equal(t, s, root.get("flow").items[0].text)
		require.Equal(t, s, root.get("block").text)
		require.False(t, root.get("block").null)
	}
}

func TestDaysOffAreKeptInOrderAndTakenAway(t *testing.T) {
	src := "seamwright: 1\nname: a\nsite:\n  start: 2027-03-01\n"
	d, err := Parse("f", []byte(src))
	require.NoError(t, err)
	s := d.Job().Site
	s.Off = []job.Date{{Year: 2027, Month: 3, Day: 5}, {Year: 2027, Month: 3, Day: 26}}
	d, change := edited(t, src, SetSite{Site: s})
	require.Equal(t, "+  off: [2027-03-05, 2027-03-26]", change)
	require.Equal(t, s.Off, d.Job().Site.Off)
	s.Off = nil
	require.NoError(t, d.Apply(SetSite{Site: s}))
	require.NotContains(t, string(d.Source()), "off")
	_, err = Parse("f", []byte(src+"  off: [2027-03-05, 2027-03-05]\n"))
	require.ErrorContains(t, err, "stands twice in off")
}
