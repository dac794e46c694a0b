package planner

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"

	"seamwright/assets"
)

// TestPlaces: the text between a node's places reads as that node again, in every style of YAML.
func TestPlaces(t *testing.T) {
	for _, src := range append(starts(), string(assets.Catalog), awkward) {
		requirePlaces(t, []byte(src))
	}
}

// awkward has one of everything that makes finding ends hard.
const awkward = `# head
a: plain text   # comment
"b": 'it''s' # it''s
c: "say \"x\" # no comment"
d: two
  lines of
  plain text
e: {x: 1, y: [1, 2 , 3,], z: {}, q: "}", r: ']' }   # ] }
f: [
  {a: 1},  # one
  # between
  [b, "c, d"],
]
g:
  - - nested
    - list
  -
    key: v
  - |
    block
    text

  - >-
    folded
      deeper
h:   # nothing here
i: ~
j: [a: 1, {b}, c]
größe: 12′ 6″
k: http://x.y/#z
l: 16"
m: {a: , b: 2}
`

// requirePlaces parses each node's text alone and compares.
func requirePlaces(t require.TestingT, src []byte) {
	root, errs := growTree("f", src)
	require.Nil(t, errs)
	var walk func(*node)
	walk = func(n *node) {
		require.LessOrEqual(t, 0, n.start)
		require.LessOrEqual(t, n.start, n.end)
		require.LessOrEqual(t, n.end, len(src))
		text := string(src[n.start:n.end])
		switch {
		case n.kind == scalar && !n.null && !strings.ContainsAny(text, "\n\r"):
			var doc yaml.Node
			require.NoError(t, yaml.Unmarshal([]byte("key: "+text), &doc), text)
			require.Len(t, doc.Content[0].Content, 2, text)
			require.Equal(t, n.text, doc.Content[0].Content[1].Value)
		case n.flow && !n.bare:
			require.Contains(t, "[{", text[:1])
			require.Contains(t, "]}", text[len(text)-1:])
			var doc yaml.Node
			require.NoError(t, yaml.Unmarshal([]byte(text), &doc), text)
			require.Equal(t, len(n.items)+2*len(n.pairs), len(doc.Content[0].Content), text)
		}
		for _, c := range n.items {
			require.LessOrEqual(t, n.start, c.start)
			require.LessOrEqual(t, c.end, n.end)
			walk(c)
		}
		for _, p := range n.pairs {
			require.LessOrEqual(t, p.key.end, p.value.start)
			require.LessOrEqual(t, p.value.end, n.end)
			walk(p.key)
			walk(p.value)
		}
	}
	walk(root)
}

// FuzzParse: no input makes the reader panic; what it takes stays the same through an edit and its undo.
func FuzzParse(f *testing.F) {
	for _, s := range starts() {
		f.Add([]byte(s))
	}
	f.Add([]byte(sound))
	f.Add([]byte(awkward))
	f.Add([]byte("0: {<<: { [0],0},0}"))
	f.Add([]byte("seamwright: 1\nrooms: [{id: a, height: 2,4 m, corners: []}]"))
	f.Fuzz(func(t *testing.T, src []byte) {
		d, err := Parse("f", src)
		if err != nil {
			require.NotEmpty(t, err.Error())
			return
		}
		d.Job()
		for _, e := range []Edit{
			SetName{"fuzz # name"},
			AddRoom{Corners: square(3_000_000_000), Height: 2_400_000_000},
			RemoveStock{0}, RemoveRoom{firstRoom(d)}, RenameRoom{firstRoom(d), "renamed"}, TickTask{Task: "a", Done: true},
		} {
			before := string(d.Source())
			if d.Apply(e) == nil && before != string(d.Source()) {
				require.True(t, d.Undo())
			}
			require.Equal(t, before, string(d.Source()))
		}
	})
}

func firstRoom(d *Document) string {
	if r := d.Job().Rooms; len(r) > 0 {
		return r[0].ID
	}
	return ""
}

// FuzzPlaces: every node of any YAML that is let through lies where it says it lies.
func FuzzPlaces(f *testing.F) {
	f.Add([]byte(awkward))
	f.Add([]byte(sound))
	f.Fuzz(func(t *testing.T, src []byte) {
		if _, errs := growTree("f", src); errs != nil {
			return
		}
		root, _ := growTree("f", src)
		var walk func(*node, int, int)
		walk = func(n *node, from, to int) {
			if n.start < from || n.end > to || n.end < n.start {
				t.Fatalf("node at %d:%d lies at %d to %d, outside %d to %d", n.line, n.col, n.start, n.end, from, to)
			}
			for _, c := range n.items {
				walk(c, n.start, n.end)
			}
			for _, p := range n.pairs {
				walk(p.key, n.start, n.end)
				walk(p.value, p.key.end, n.end)
			}
		}
		walk(root, 0, len(src))
	})
}

// TestCorpus writes nothing; it holds that the committed corpus is there for the fuzz targets to start from.
func TestCorpus(t *testing.T) {
	for _, target := range []string{"FuzzParse", "FuzzPlaces"} {
		entries, err := os.ReadDir(filepath.Join("testdata", "fuzz", target))
		require.NoError(t, err)
		require.NotEmpty(t, entries)
	}
}
