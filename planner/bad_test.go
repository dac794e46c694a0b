package planner

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// sound is a small project; a bad input replaces one piece of it.
const sound = `seamwright: 1
name: Shed
units: imperial
site: {humidity: 50 %, start: 2027-03-01, workdays: [mon, tue]}
rooms:
  - id: shed
    height: 8'
    corners: [[0, 0], [12', 0], [12', 10'], [0, 10']]
    ceiling: {shape: {ridge: {along: x, at: 5', height: 10'}}}
    walls:
      - side: 1
        id: south
        lining: [{product: ply-18, to: 48"}, {product: gyp-12, courses: [24", 24"]}]
        openings: [{id: d1, kind: door, at: 2', width: 36", height: 80"}]
        boxes: [{at: 8', up: 16", width: 2", height: 4"}]
        pins: [{zone: 2, layer: 1, course: 1, seam: 8'}]
      - {side: 2, id: east}
stock: [{product: gyp-12, size: [48", 24"], count: 1}]
alternatives: [{name: ply, set: [{walls: [shed/south], lining: [{product: ply-18}]}]}]
`

// TestAnyCharacter: whatever character stands in a text, it is read as it is, or refused where it stands.
func TestAnyCharacter(t *testing.T) {
	for r := rune(0); r <= 0x10ffff; r++ {
		switch {
		case r == '\r' || r == '\n': // line ends have tests of their own
			continue
		case r < 0x800, r >= 0x2000 && r < 0x2100, r >= 0xfdc0 && r < 0x10010, r&0xffff > 0xfffc, r >= 0xe0000 && r < 0xe0080, r%4093 == 0:
		default:
			continue
		}
		src := "seamwright: 1\nname: a" + string(r) + "b\n" + sound[strings.Index(sound, "units"):]
		d, err := Parse("f", []byte(src))
		if err == nil {
			require.Equal(t, "a"+string(r)+"b", d.Job().Name, "%U", r)
			continue
		}
		first := err.(Errors)[0]
		require.Equal(t, 2, first.Line, "%U: %v", r, err)
		require.Contains(t, []int{7, 8}, first.Col, "%U: %v", r, err) // where the value begins, or the character itself
		require.NotEmpty(t, first.Remedy, "%U: %v", r, err)
	}
}

// TestBadInput: each fault is reported where it stands, in words that say what is wrong and how to mend it. The mark
// ¦ stands where the first fault is to be reported; where that lies outside the changed piece, the place is written out.
func TestBadInput(t *testing.T) {
	_, err := Parse("sound", []byte(sound))
	require.NoError(t, err)
	for _, c := range []struct{ replace, with, want string }{
		// The version and the shape of the file.
		{"seamwright: 1\n", "¦", `the format version is missing: begin the file with`},
		{"seamwright: 1", "seamwright: ¦2", `the file has format version 2; this program reads version 1: open it with a newer version`},
		{"seamwright: 1", "seamwright: ¦one", `"one" is not a format version: write`},
		{"name: Shed", "¦naem: Shed", `the project has no key "naem": did you mean "name"?`},
		{"name: Shed", "name: Shed\n¦name: Barn", `"name" stands twice in the project: keep one of them; the other is on line 2`},
		{"name: Shed", "name: ¦&x Shed", `anchors (&) are not part`},
		{"name: Shed", "name: ¦!!str Shed", `tags (!) are not part`},
		{"name: Shed", "¦<<: {name: x}", `merge keys (<<) are not part`},
		{"name: Shed", "name: ¦[Shed", `a [ is not closed`},
		{"name: Shed", "name: Shed\n¦\tunits: x", `a tab`},
		{"name: Shed", "¦name: a: b", `a second`},
		{"units: imperial", "units: ¦imperal", `units cannot be "imperal": did you mean "imperial"?`},
		{"units: imperial", "units:\n  ¦- imperial", `units is a single value`},
		{"units: imperial", "currency: ¦dollars", `"dollars" is not a currency`},
		// Units, numbers, dates.
		{"height: 8'", "height: ¦8", `height: "8" has no unit: write 8 mm, 8 in or 8 ft`},
		{"height: 8'", "height: ¦8 yards", `height: "8 yards" has the unknown unit "yards"`},
		{"height: 8'", "height: ¦-8'", `height must be more than 0, but is -8'`},
		{"height: 8'", "height: ¦0", `height must be more than 0`},
		{"height: 8'", "height: ¦.nan", `height: ".nan" is not a length`},
		{"height: 8'", "height: ¦8 km", `height: "8 km" has the unknown unit "km"`},
		{"height: 8'", "height: ¦900'", `height is 900'; the most is`},
		{"[12', 0]", "[¦3,6 m, 0]", `3,6 m was split at its comma: quote it, "3,6 m", or write 3.6 m`},
		{"[12', 0]", "[¦0,6 m, 0]", `0,6 m was split at its comma`},
		{"count: 1", "note: ¦left over, dry", `note: the text was split at its comma: quote it: note: "left over, dry"`},
		{"count: 1", "note: left over, ¦dry: yes", `a stock piece has no key "dry"`},
		{"[12', 0]", "¦[12', 0, 0]", `a corner is 2 lengths in [ ], but has 3`},
		{"50 %", "¦50", `humidity is a percentage, not "50": write it like 55 %`},
		{"50 %", "¦150 %", `humidity is 150 %, but must lie between 0 % and 100 %`},
		{"50 %", "¦.nan %", `humidity is a percentage`},
		{"2027-03-01", "¦2027-02-30", `start: "2027-02-30" is not a day of the calendar`},
		{"2027-03-01", "¦1 March", `start: "1 March" is not a day`},
		{"[mon, tue]", "[mon, ¦thur]", `a workday cannot be "thur": did you mean "thu"?`},
		{"[mon, tue]", "[mon, ¦mon]", `mon stands twice`},
		{"[mon, tue]", "¦[]", `no day is a workday`},
		{"workdays: [mon, tue]", "people: ¦1.5", `people is a whole number, not "1.5"`},
		{"workdays: [mon, tue]", "people: ¦0", `people is 0, but must lie between 1 and 100`},
		{"workdays: [mon, tue]", "crew: {¦heavest: 90 lb}", `crew has no key "heavest": did you mean "heaviest"?`},
		{"workdays: [mon, tue]", "crew: {heaviest: ¦90}", `heaviest: "90" is not a weight: write it like 90 lb or 40 kg`},
		{"workdays: [mon, tue]", "crew: {heaviest: ¦2 lb}", `heaviest is 2 lb; a sheet weighs between 5 and 500 kg`},
		{"name: Shed", "name: Shed\nyard: {¦gyp-21: [4x8]}", `there is no product "gyp-21" in the catalog`},
		{"name: Shed", "name: Shed\nyard: {gyp-10: [4x8, ¦4x9]}", `gyp-10 is not sold in "4x9": it is sold in 4x8, 4x10, 4x12`},
		{"name: Shed", "name: Shed\nyard: {gyp-10: [4x8, ¦4x8]}", `4x8 stands twice: keep one`},
		{"name: Shed", "name: Shed\nyard: {gyp-10: ¦[]}", `the yard has no size of gyp-10: list at least one`},
		{"workdays: [mon, tue]", "hours: ¦.inf", `hours is a number, not ".inf"`},
		{"workdays: [mon, tue]", "temperature: ¦68", `temperature is a temperature, not "68": write it like 68 F or 20 C`},
		{"workdays: [mon, tue]", "quote: ¦$5400", `quote: "$5400" is not an amount of money`},
		{"workdays: [mon, tue]", "rate: ¦-5", `rate cannot be negative`},
		// Outlines.
		{"[12', 10'], [0, 10']", "[0, 10'], [12', 10']", `8:23: side 2, which begins here, crosses or touches side 4`},
		{"[12', 10'], [0, 10']", "¦[12', 0], [0, 10']", `corner 3 is the same point as corner 2`},
		{"[12', 10'], [0, 10']", "[6', 0]", `8:15: side 1, which begins here, crosses or touches side 2`},
		{", [12', 10'], [0, 10']", "", `8:14: a room has at least 3 corners, not 2`},
		{"- id: shed", "- id: ¦the shed", `"the shed" cannot be the id of a room`},
		{"id: shed\n", "¦name: shed\n", `a room has no key "name"`},
		// Ceilings.
		{"at: 5'", "at: ¦11'", `the ridge at 11' does not lie over the room, which reaches from 0" to 10' 0"`},
		{"height: 10'}}}", "height: ¦8'}}}", `the high side at 8' is not above the room's height`},
		{"ridge: {along: x, at: 5', height: 10'}", "slope: {from: south, to: ¦east, height: 10'}", `a slope that rises from south cannot rise to east: write`},
		{"{ridge: {along: x, at: 5', height: 10'}}", "¦dome", `a ceiling's shape without further keys cannot be "dome"`},
		{"{ridge: {along: x, at: 5', height: 10'}}", "¦{}", `a ceiling has one shape`},
		// Walls.
		{"side: 2", "side: ¦5", `side is 5, but must lie between 1 and 4`},
		{"side: 2", "side: ¦1", `side 1 stands twice: keep one entry; the other is on line 11`},
		{"{side: 2, id: east}", "¦{id: east}", `a wall lacks "side"`},
		{"id: east", "id: ¦south", `two walls of this room are called "south"`},
		{"id: east", "back: ¦shop/west", `there is no surface "shop/west"`},
		{"id: east", "back: ¦shed/south", `the two faces of a partition lie in different rooms`},
		{"id: east", "duty: [¦seperation]", `duty cannot be "seperation": did you mean "separation"?`},
		{"id: east", "insulation: ¦wool", `insulation cannot be "wool": known are none`},
		{"id: east", "base: ¦11'", `base is 11'; the most is`},
		{"id: east", "framing: {spacing: ¦16}", `spacing: "16" has no unit`},
		{"id: east", `framing: {spacing: ¦1"}`, `spacing is 1"; the least is`},
		{"id: east", "framing: {also: [¦20']}", `the member at 20' is not on the wall, which is 10' 0" long`},
		{"id: east", "top: ¦[[0, 8'], [9', 8']]", `top does not run from one end of the wall to the other: begin at x = 0 and end at x = 10'`},
		{"id: east", "bottom: ¦[[0, 0], [10', 11']]", `at 10' 0" from the left end the top is not above the bottom`},
		{"id: east", "backing: {product: ¦osb-12}", `there is no product "osb-12" in the catalog: did you mean "osb-11"?`},
		// Linings.
		{"{product: gyp-12, c", "{product: ¦gyp12, c", `there is no product "gyp12" in the catalog: did you mean "gyp-12"?`},
		{`ply-18, to: 48"`, `ply-18`, `13:18: zone 1 has no`},
		{`courses: [24", 24"]`, `to: ¦96"`, `the last zone has a`},
		{`to: 48"`, "to: ¦12'", `zone 1 ends at 12', but the wall is only 8' 0" high`},
		{`[24", 24"]`, `¦[24", 30"]`, `the courses sum to 4' 6", but the zone is 4' 0" high`},
		{`[24", 24"]`, "¦[5', 5']", `the courses sum to 10' 0"`},
		{`courses: [24", 24"]`, "run: ¦[along, across]", `run has 2 entries for 1 layers`},
		{`courses: [24", 24"]`, "finish: ¦6", `finish is 6, but must lie between 0 and 5`},
		{`product: gyp-12, courses: [24", 24"]`, "product: [gyp-12, ¦open]", `"open" cannot be a layer among others`},
		{`zone: 2,`, "zone: ¦3,", `the pin is in zone 3, but the surface has 2`},
		{`layer: 1,`, "layer: ¦2,", `the pin is in layer 2, but zone 2 has 1`},
		{`course: 1,`, "course: ¦3,", `the pin is in course 3, but zone 2 has 2`},
		{`seam: 8'}`, "seam: ¦13'}", `the pinned seam does not lie on the surface`},
		{`course: 1, seam: 8'}`, "edge: ¦13'}", `the pinned seam does not lie on the surface`},
		{`{zone: 2, layer: 1, course: 1, seam: 8'}`, "¦{zone: 2, layer: 1, course: 1, edge: 8'}", `the pin has an edge beside a course or a seam`},
		{`{zone: 2, layer: 1, course: 1, seam: 8'}`, "¦{zone: 2, layer: 1, course: 1}", `a pin lacks "seam"`},
		// Openings and boxes.
		{`at: 2', width: 36"`, `at: 10', width: 36"`, `14:20: d1 ends 13' 0" from the left end of the wall, which is only 12' 0" long`},
		{`height: 80"`, `height: 97"`, `14:20: d1 reaches 8' 1" above the floor, but the wall is only 8' 0" high there`},
		{`height: 80"}`, `height: 80"}, ¦{id: w1, kind: window, at: 3', width: 2', height: 2', sill: 3'}`, `w1 overlaps d1`},
		{`height: 80"}`, `height: 80"}, {id: ¦d1, kind: window, at: 6', width: 1', height: 2', sill: 3'}`, `two openings here are called "d1"`},
		{`kind: door`, "kind: ¦dor", `kind cannot be "dor": did you mean "door"?`},
		{`width: 36"`, `width: ¦-36"`, `width must be more than 0, but is -36"`},
		{`at: 8', up`, `at: 11' 11 1/2", up`, `15:17: the box leaves the wall, which is 12' 0" long`},
		{`up: 16"`, `up: 1"`, `15:17: the box leaves the wall above or below`},
		{`at: 8', up`, `at: 3', up`, `15:17: the box stands in the opening d1`},
		{`height: 4"}`, `diameter: 4"}`, `15:17: a box has width and height or a diameter, not both`},
		// Stock, catalog, alternatives.
		{`size: [48", 24"]`, `size: ¦[17', 24"]`, `the piece is larger than any sheet of gyp-12, which is sold up to 16' 0" by 4' 6"`},
		{`size: [48", 24"]`, `size: [48", ¦0]`, `size (with the paper or grain, across it) must be more than 0`},
		{`count: 1`, "count: ¦-1", `count is -1, but must lie between 1 and 10000`},
		{`product: gyp-12, size`, "product: ply-18, edges: ¦tapered, size", `ply-18 has square edges`},
		{`[shed/south]`, "[¦shed/suoth]", `there is no surface "shed/suoth": did you mean "shed/south"?`},
		{`[shed/south]`, "[¦south]", `there is no surface "south": write room and wall`},
		{`alternatives: [`, `alternatives: [{name: ply}, `, `19:36: two alternatives are called "ply"`},
		{"stock: ", "figures: {¦tape-wast: 1}\nstock: ", `there is no adjustable figure "tape-wast": did you mean "tape-waste"?`},
		{"stock: ", "figures: {tape-waste: ¦much}\nstock: ", `tape-waste is a number, not "much"`},
		{"stock: ", "catalog: [¦{id: own}]\nstock: ", `a product lacks "kind"`},
		{"stock: ", "catalog: [{id: gyp-12, weight: ¦1.6}]\nstock: ", `weight: "1.6" is not a weight by area`},
		{"stock: ", "catalog: [{id: gyp-12, sizes: ¦[]}]\nstock: ", `no size is for sale`},
		{"stock: ", "supplies: [{id: tape, packs: [¦{name: roll}]}]\nstock: ", `a pack lacks "holds"`},
		{"stock: ", "rules: {stagger: 16\", screws: ¦1\"}\nstock: ", `screws is 1"; the least is`},
		{"stock: ", "rules: {cutouts: ¦rectangle}\nstock: ", `cutouts cannot be "rectangle"`},
		{"stock: ", "progress: [{task: a}, {task: ¦a}]\nstock: ", `the task "a" stands twice in progress`},
	} {
		t.Run(c.with, func(t *testing.T) {
			require.Contains(t, sound, c.replace)
			src, want := strings.Replace(sound, c.replace, c.with, 1), c.want
			if before, after, marked := strings.Cut(src, "¦"); marked {
				line := before[strings.LastIndex(before, "\n")+1:]
				want = fmt.Sprintf("f:%d:%d: %s", 1+strings.Count(before, "\n"), 1+utf8.RuneCountInString(line), c.want)
				src = before + after
			}
			_, err := Parse("f", []byte(src))
			require.Error(t, err)
			require.IsType(t, Errors{}, err)
			require.Contains(t, err.Error(), want)
			require.True(t, strings.HasPrefix(err.Error(), "f:"), err.Error())
		})
	}
}

// TestAllFaultsInOneGo: faults are reported together, in the order of the text, and a long list is cut.
func TestAllFaultsInOneGo(t *testing.T) {
	src := strings.NewReplacer("50 %", "50", "gyp-12, courses", "gyp-13, courses", "shed/south", "shed/s").Replace(sound)
	_, err := Parse("f", []byte(src))
	var errs Errors
	require.ErrorAs(t, err, &errs)
	require.Len(t, errs, 3)
	require.Equal(t, []int{4, 13, 19}, []int{errs[0].Line, errs[1].Line, errs[2].Line})

	_, err = Parse("f", []byte("seamwright: 1\n"+strings.Repeat("x: 1\n", 30)))
	require.Contains(t, err.Error(), "and 10 more")
	require.Len(t, strings.Split(err.Error(), "\n"), shownErrors+1)
}

// TestManyFaults: of a file full of faults the first ones are listed, and how many more there are.
func TestManyFaults(t *testing.T) {
	for name, src := range map[string]string{
		"unknown keys": "seamwright: 1\n" + manyLines(20_001, "k%d: 1\n"),
		"anchors":      "seamwright: 1\n" + manyLines(20_001, "k%d: &a 1\n"),
	} {
		_, err := Parse("f", []byte(src))
		var errs Errors
		require.ErrorAs(t, err, &errs, name)
		require.Len(t, errs, mostFaults+1, name)
		last := errs[mostFaults]
		require.Equal(t, "19001 more faults are not listed", last.Message, name)
		require.Positive(t, last.Line)
	}
}

func manyLines(n int, form string) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, form, i)
	}
	return b.String()
}

// TestYAMLDirective: a file may say which YAML it is written in, and keeps saying so.
func TestYAMLDirective(t *testing.T) {
	for _, head := range []string{"%YAML 1.2\n---\n", "%YAML 1.1\r\n---\r\n", "\ufeff%YAML 1.2 \n---\n"} {
		d, err := Parse("f", []byte(head+sound))
		require.NoError(t, err, head)
		require.NoError(t, d.Apply(SetName{"Other"}))
		require.True(t, strings.HasPrefix(string(d.Source()), head))
		require.Equal(t, "Other", d.Name())
		require.NoError(t, d.Apply(AddRoom{Corners: square(10 * foot), Height: 8 * foot}))
	}
	_, err := Parse("f", []byte("%YAML 2.0\n---\n"+sound))
	require.ErrorContains(t, err, "f:1:1: the file asks for another YAML than 1.2: delete the line")
}

// TestTextsArePlain: what a terminal or a reader of the line would take for an order is no part of a name.
func TestTextsArePlain(t *testing.T) {
	for _, name := range []string{`"a\e[31mb"`, `"a\x7f"`, `"a\u009b"`, `"a\u202eb"`, `"a\u2066b"`, `"a\0"`} {
		_, err := Parse("f", []byte("seamwright: 1\nname: "+name+"\n"))
		require.ErrorContains(t, err, "f:2:7: the project's name holds a character that cannot be shown", name)
	}
	d, err := Parse("f", []byte("seamwright: 1\nname: \"Größe – 工房 \\n two\"\n"))
	require.NoError(t, err)
	require.Equal(t, "Größe – 工房 \n two", d.Name())
}

// TestTypographicQuotes: marks that word processors write are read.
func TestTypographicQuotes(t *testing.T) {
	d, err := Parse("f", []byte(strings.Replace(sound, "[12', 10'], [0, 10']", "[12’, 10′], [\"0\", 9’ 12/24”]", 1)))
	require.NoError(t, err)
	require.EqualValues(t, (9*12*25_400_000)+12_700_000, d.Job().Rooms[0].Corners[3].Y)
}

// TestUnreadableFiles: what is no project file gives one clear line.
func TestUnreadableFiles(t *testing.T) {
	dir := t.TempDir()
	file := func(name string, data []byte) string {
		path := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(path, data, 0o600))
		return path
	}
	locked := file("locked.yaml", []byte(sound))
	require.NoError(t, os.Chmod(locked, 0))
	deep := "seamwright: 1\nx: " + strings.Repeat("[", 5000) + strings.Repeat("]", 5000)
	for path, want := range map[string]string{
		filepath.Join(dir, "none.yaml"):        "there is no file",
		dir:                                    "is a folder, not a project file",
		file("empty.yaml", nil):                "the file is empty",
		file("blank.yaml", []byte("\n\n  \n")): "the file is empty",
		file("comment.yaml", []byte("# nothing\n")):                         "the file holds no project",
		file("binary.yaml", []byte{0x89, 'P', 'N', 'G', 0, 1}):              "1:1: the file is not UTF-8 text",
		file("utf16.yaml", []byte("\xff\xfes\x00e\x00")):                    "1:1: the file is not UTF-8 text",
		file("list.yaml", []byte("- a\n- b\n")):                             "this is not a project",
		file("two.yaml", []byte("seamwright: 1\n---\nseamwright: 1\n")):     "a second document begins here",
		file("huge.yaml", []byte("#"+strings.Repeat("x", 50<<20))):          "larger than 16 MiB",
		file("many.yaml", []byte("x: ["+strings.Repeat("1,", 3_000_000))):   "more entries than any project needs",
		file("deep.yaml", []byte(deep)):                                     "nested too deep",
		file("bomb.yaml", []byte("seamwright: 1\na: &a [x]\nb: [*a,*a]\n")): "anchors (&)",
		file("panic.yaml", []byte("0: {<<: { [0],0},0}")):                   "",
	} {
		_, err := Load(path)
		require.Error(t, err, path)
		require.Contains(t, err.Error(), want)
		require.NotContains(t, err.Error(), "goroutine")
	}
	if os.Geteuid() != 0 {
		_, err := Load(locked)
		require.ErrorContains(t, err, "you do not have permission")
	}
}

// TestLimits: a project beyond the stated limits is refused in a sentence.
func TestLimits(t *testing.T) {
	room := "  - {id: r%, height: 8', corners: [[0, 0], [12', 0], [12', 10'], [0, 10']]}\n"
	var b strings.Builder
	b.WriteString("seamwright: 1\nrooms:\n")
	for i := range 1000 {
		b.WriteString(strings.Replace(room, "%", strings.Repeat("x", i%20)+string(rune('a'+i%26)), 1))
	}
	_, err := Parse("f", []byte(b.String()))
	require.ErrorContains(t, err, "f:3:3: rooms has 1000 entries; the most is 500: divide the project into several files")

	begin := time.Now()
	_, err = Parse("f", []byte("seamwright: 1\nrooms: ["+strings.Repeat("1,", 500_000)+"]"))
	require.ErrorContains(t, err, "rooms has 500000 entries")
	require.Less(t, time.Since(begin), 20*time.Second, "a long line must not take time by its square")

	round := "[0, 0]"
	for i := range 120 {
		round += ", [" + string(rune('1'+i/60)) + "00', 1']"
	}
	_, err = Parse("f", []byte("seamwright: 1\nrooms: [{id: r, height: 8', corners: ["+strings.Repeat(round+", ", 2)+"[0, 1']]}]"))
	require.ErrorContains(t, err, "corners has 243 entries; the most is 200")
}
