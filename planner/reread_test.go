package planner

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// places lists every node with all that is known of it, so that two trees can be compared.
func places(n *node, depth int) []any {
	own := *n
	own.items, own.pairs = nil, nil
	list := []any{depth, own}
	for _, c := range n.items {
		list = append(list, places(c, depth+1)...)
	}
	for _, p := range n.pairs {
		list = append(append(list, places(p.key, depth+1)...), places(p.value, depth+1)...)
	}
	return list
}

// A text of which only the changed room is read again reads as it does whole: every place in it, and the job.
func TestOneRoomReadAgainIsTheWholeReadAgain(t *testing.T) {
	partly := 0
	rapid.Check(t, func(t *rapid.T) {
		texts := append(starts(), string(largeProject(4)))
		d, err := Parse("f", []byte(rapid.SampledFrom(texts).Draw(t, "start")))
		require.NoError(t, err)
		for range rapid.IntRange(1, 6).Draw(t, "edits") {
			before := d.Source()
			e := editor{t}
			if edit := e.edit(d); edit == nil || d.Apply(edit) != nil {
				continue
			}
			if rapid.Bool().Draw(t, "undo") {
				before = d.Source()
				d.Undo()
			}
			old, err := readSource("f", before)
			require.NoError(t, err)
			whole, err := readSource("f", d.Source())
			require.NoError(t, err)
			if part := old.withRoomChanged("f", before, d.Source()); part != nil {
				require.Equal(t, places(whole.root, 0), places(part.root, 0))
				require.Equal(t, whole.job, part.job)
				require.Equal(t, whole.defaults, part.defaults)
				require.Len(t, part.rooms, len(whole.rooms))
				partly++
			}
		}
	})
	require.Positive(t, partly)
}

// What is no change within one sound room is left to the whole reading.
func TestOtherChangesAreReadWhole(t *testing.T) {
	const head = "seamwright: 1\nrooms:\n"
	room := func(id string) string {
		return "  - id: " + id + "\n    height: 8'\n    corners: [[0, 0], [12', 0], [12', 10'], [0, 10']]\n"
	}
	before := head + room("a") + room("b") + "name: x\n"
	for after, why := range map[string]string{
		head + room("a") + room("b") + "name: y\n":                                      "another key",
		head + room("a") + room("b") + room("c") + "name: x\n":                          "another room",
		head + room("b") + "name: x\n":                                                  "a room less",
		head + room("a") + room("a") + "name: x\n":                                      "one id twice",
		head + room("a") + "...\n" + room("b") + "name: x\n":                            "the end of the document within",
		head + room("a") + "    walls: [{side: 1,\n" + room("b") + "name: x\n":          "a bracket that stays open",
		head + room("a")[:len(room("a"))-1] + room("b") + "name: x\n":                   "two lines run together",
		head + room("a") + "    wall: []\n" + room("b") + "name: x\n":                   "an unknown key",
		head + "  - id: a\n    height: 8'\n    corners: []\n" + room("b") + "name: x\n": "no room",
	} {
		old, err := readSource("f", []byte(before))
		require.NoError(t, err)
		require.Nil(t, old.withRoomChanged("f", []byte(before), []byte(after)), why)
	}
	old, err := readSource("f", []byte(before))
	require.NoError(t, err)
	after := head + strings.Replace(room("a"), "height: 8'", "height: 9'   # a note", 1) + room("b") + "name: x\n"
	require.NotNil(t, old.withRoomChanged("f", []byte(before), []byte(after)), "a change within the room")
}
