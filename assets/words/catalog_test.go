package words

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"text/template/parse"

	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"
)

// readCatalog reads all files of a language: the forms of every phrase, "" being that of one that has no plural.
func readCatalog(t *testing.T, l Language) map[string]map[string]string {
	all := map[string]map[string]string{}
	files, err := fs.Glob(catalogs, string(l)+"/*.yaml")
	require.NoError(t, err)
	for _, name := range files {
		text, err := catalogs.ReadFile(name)
		require.NoError(t, err)
		var entries map[string]any
		require.NoError(t, yaml.Unmarshal(text, &entries), name)
		for key, entry := range entries {
			require.NotContains(t, all, key, "%s: a phrase stands in one file", name)
			forms := map[string]string{}
			switch e := entry.(type) {
			case string:
				forms[""] = e
			case map[string]any:
				for form, text := range e {
					require.IsType(t, "", text, "%s %s", key, form)
					forms[form] = text.(string)
				}
			default:
				t.Fatalf("%s: %s is no text: quote it", name, key)
			}
			all[key] = forms
		}
	}
	return all
}

// valuesOf are the names that a text has places for.
func valuesOf(t *testing.T, key, text string) []string {
	tmpl, err := parseText(text)
	require.NoError(t, err, key)
	names := map[string]bool{}
	var walk func(parse.Node)
	walk = func(n parse.Node) {
		switch n := n.(type) {
		case *parse.ListNode:
			for _, x := range n.Nodes {
				walk(x)
			}
		case *parse.ActionNode:
			for _, c := range n.Pipe.Cmds {
				for _, a := range c.Args {
					walk(a)
				}
			}
		case *parse.FieldNode:
			names[n.Ident[0]] = true
		case *parse.IfNode, *parse.RangeNode, *parse.WithNode:
			t.Fatalf("%s: a phrase does not decide: %s", key, n)
		}
	}
	walk(tmpl.Root)
	return slices.Sorted(maps.Keys(names))
}

func TestEveryPhraseStandsInBothLanguages(t *testing.T) {
	english, spanish := readCatalog(t, English), readCatalog(t, Spanish)
	require.Greater(t, len(english), 20)
	require.Equal(t, slices.Sorted(maps.Keys(english)), slices.Sorted(maps.Keys(spanish)))
	for key, forms := range english {
		require.Equal(t, slices.Sorted(maps.Keys(forms)), slices.Sorted(maps.Keys(spanish[key])), "%s: the same forms", key)
		if _, plain := forms[""]; !plain {
			require.Equal(t, []string{"one", "other"}, slices.Sorted(maps.Keys(forms)), "%s: the forms of a phrase that counts", key)
		}
		asked := map[string]bool{}
		for _, text := range forms {
			for _, name := range valuesOf(t, key, text) {
				asked[name] = true
			}
		}
		for form, text := range spanish[key] {
			own := valuesOf(t, key, text)
			if form != "one" { // "one" may say its number in a word
				require.Equal(t, slices.Sorted(maps.Keys(asked)), own, "%s: the same values in both languages", key)
			}
		}
	}
}

// The program's own source is walked for every phrase that it asks for: each is in the catalog, gets just the values that its
// text has places for, and no phrase stands there that nothing asks for.
func TestSourceAndCatalogAgree(t *testing.T) {
	catalog := readCatalog(t, English)
	used := map[string]bool{}
	for _, c := range sourceCalls(t) {
		if c.names == nil { // a key by itself: its values are given elsewhere
			used[c.key] = used[c.key] || catalog[c.key] != nil
			continue
		}
		forms, known := catalog[c.key]
		require.True(t, known, "%s: no phrase %s in the catalog", c.place, c.key)
		used[c.key] = true
		asked := map[string]bool{}
		for _, text := range forms {
			for _, name := range valuesOf(t, c.key, text) {
				asked[name] = true
			}
		}
		if _, plain := forms[""]; !plain {
			asked["count"] = true
		}
		if c.whole {
			require.ElementsMatch(t, slices.Collect(maps.Keys(asked)), c.names, "%s: the values of %s", c.place, c.key)
		}
	}
	for key := range catalog {
		if named, about := strings.CutSuffix(key, "-about"); about && used[named] {
			continue // what a document is for is asked for by its name
		}
		if !used[key] && !inFamily(key) && !slices.ContainsFunc(numbered, func(family string) bool { return strings.HasPrefix(key, family) }) {
			t.Errorf("nothing asks for %s", key)
		}
	}
}

// numbered are the families of keys that the source puts together from parts, and the counted things that lie ready.
var numbered = []string{"date.month-", "date.weekday-", "count."}

// sourceCall is a phrase that the source asks for.
type sourceCall struct {
	place, key string
	names      []string // of its values; nil where the key stands by itself
	whole      bool     // all names are known
}

var keyForm = regexp.MustCompile(`^[a-z][a-z0-9-]*(\.[A-Za-z0-9-]+)+$`)

// sourceCalls finds keys in the whole program, tests left out.
func sourceCalls(t *testing.T) (calls []sourceCall) {
	root := filepath.Join("..", "..")
	require.NoError(t, filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		if strings.HasSuffix(path, ".html") {
			calls = append(calls, templateCalls(t, path)...)
		}
		if !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return nil
		}
		set := token.NewFileSet()
		file, err := parser.ParseFile(set, path, nil, 0)
		if err != nil {
			return err
		}
		ast.Inspect(file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.CallExpr:
				calls = append(calls, columnCall(n)...)
				if c, ok := tellCall(n); ok {
					c.place = set.Position(n.Pos()).String()
					calls = append(calls, c)
				}
			case *ast.BasicLit:
				if s, err := strconv.Unquote(n.Value); n.Kind == token.STRING && err == nil && keyForm.MatchString(s) {
					calls = append(calls, sourceCall{key: s})
				}
			}
			return true
		})
		return nil
	}))
	return calls
}

var quotedKey = regexp.MustCompile(`"([a-z][a-z0-9]*(?:\.[a-z0-9-]+)+)"`)

// templateCalls finds keys in a template.
func templateCalls(t *testing.T, path string) (calls []sourceCall) {
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	for _, q := range quotedKey.FindAllStringSubmatch(string(text), -1) {
		calls = append(calls, sourceCall{place: path, key: q[1]})
	}
	return calls
}

// tellCall reads a call of plan.Tell or of a voice's Text with a key that is written out.
func tellCall(n *ast.CallExpr) (c sourceCall, ok bool) {
	name := ""
	switch f := n.Fun.(type) {
	case *ast.SelectorExpr:
		name = f.Sel.Name
	case *ast.Ident:
		name = f.Name
	}
	if name != "Tell" && name != "Text" || len(n.Args) == 0 {
		return c, false
	}
	key, ok := literal(n.Args[0])
	if !ok || !keyForm.MatchString(key) {
		return c, false
	}
	c = sourceCall{key: key, names: []string{}, whole: !n.Ellipsis.IsValid()}
	for i := 1; i < len(n.Args); i += 2 {
		value, known := literal(n.Args[i])
		c.whole = c.whole && known
		c.names = append(c.names, value)
	}
	return c, true
}

func literal(e ast.Expr) (string, bool) {
	lit, ok := e.(*ast.BasicLit)
	if !ok || lit.Kind != token.STRING {
		return "", false
	}
	s, err := strconv.Unquote(lit.Value)
	return s, err == nil
}

// columnCall reads the heads of columns, which a table names by their keys: columns("item", ">need").
func columnCall(n *ast.CallExpr) (calls []sourceCall) {
	if f, ok := n.Fun.(*ast.Ident); !ok || f.Name != "columns" {
		return nil
	}
	for _, a := range n.Args {
		if key, ok := literal(a); ok {
			calls = append(calls, sourceCall{key: "column." + strings.TrimPrefix(key, ">"), names: []string{}, whole: true})
		}
	}
	return calls
}
