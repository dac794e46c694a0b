package cmd

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// inWords are words of a language in a row; what people read has them, what only programs read has none.
var inWords = regexp.MustCompile(`[a-z]{2,} [a-z]{2,}`)

// unsaid are the places in calc where words may stand in a row although they do not come from the catalog, and why: a call
// that takes them, a field or a type that holds them, a file, or the words themselves where they are a code.
var unsaid = map[string]string{
	"Errorf": "errors, which planner places in the file", "New": "errors", "Sprintf": "parts of errors", "Why": "errors of the cutting engine",
	"Refuse": "refusals, which planner places in the file", "refuse": "refusals", "refused": "refusals",
	"length/parse.go": "errors of lengths, which planner places in the file", "cases/cases.go": "errors of nest cases",

	"Source": "notes on the sources of figures",
	"Rule":   "what a rule asks, for whoever reads the code",

	"thing": "names by which quantities are recorded in projects, the same in every language", "cut": "such names", "screw": "such names", " from stock": "such names",
	"from memory": "a status, as catalogs write it", "common practice, no source": "a status", "as entered": "a status",
	"way in": "a limit of sheet sizes", "south north": "sides", "west east": "sides", "north south": "sides", "east west": "sides",
}

// What the calculation tells people are facts; their words stand in the catalogs of assets/words, in every language.
func TestCalcHoldsNoSentences(t *testing.T) {
	used := map[string]bool{}
	require.NoError(t, filepath.WalkDir("../calc", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") || strings.Contains(path, "/internal/") {
			return err
		}
		set := token.NewFileSet()
		file, err := parser.ParseFile(set, path, nil, 0)
		if err != nil {
			return err
		}
		var above []ast.Node
		ast.Inspect(file, func(n ast.Node) bool {
			if n == nil {
				above = above[:len(above)-1]
				return true
			}
			if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == token.STRING {
				if s, _ := strconv.Unquote(lit.Value); inWords.MatchString(s) {
					names := []string{s, holder(above), filepath.ToSlash(filepath.Join(filepath.Base(filepath.Dir(path)), filepath.Base(path)))}
					i := slices.IndexFunc(names, func(name string) bool { return unsaid[name] != "" })
					if i >= 0 {
						used[names[i]] = true
					} else {
						t.Errorf("%s: %q is to be told by a fact", set.Position(lit.Pos()), s)
					}
				}
			}
			above = append(above, n)
			return true
		})
		return nil
	}))
	for where := range unsaid {
		if !used[where] {
			t.Errorf("%s holds no words any more: take it off the list", where)
		}
	}
}

// holder names what holds a node: the innermost call, field of a value or type of a literal around it.
func holder(above []ast.Node) string {
	for i := len(above) - 1; i >= 0; i-- {
		switch n := above[i].(type) {
		case *ast.CallExpr:
			return nameOf(n.Fun)
		case *ast.KeyValueExpr:
			if key, ok := n.Key.(*ast.Ident); ok {
				return key.Name
			}
		case *ast.CompositeLit:
			if n.Type != nil {
				return nameOf(n.Type)
			}
		case *ast.FuncDecl:
			return n.Name.Name
		}
	}
	return ""
}

func nameOf(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.Ident:
		return e.Name
	case *ast.SelectorExpr:
		return e.Sel.Name
	case *ast.ArrayType:
		return nameOf(e.Elt)
	}
	return ""
}
