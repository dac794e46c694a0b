package cmd

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Work on other goroutines is started by package guard alone: a panic on one that nobody guards ends the program. Tests
// may start their own. A timer's function runs on a goroutine, too: the window's do nothing there but post, which is guarded.
func TestOnlyGuardStartsGoroutines(t *testing.T) {
	var found []string
	guarded := 0
	err := filepath.WalkDir("..", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		inGuard := filepath.ToSlash(filepath.Dir(path)) == "../calc/guard"
		files := token.NewFileSet()
		file, err := parser.ParseFile(files, path, nil, 0)
		require.NoError(t, err)
		ast.Inspect(file, func(n ast.Node) bool {
			switch started := startsGoroutine(n); {
			case started && inGuard:
				guarded++
			case started:
				found = append(found, files.Position(n.Pos()).String())
			}
			return true
		})
		return nil
	})
	require.NoError(t, err)
	require.NotZero(t, guarded, "the walk found package guard")
	require.Empty(t, found, "started past package guard")
}

// startsGoroutine says whether a node is a go statement, or a call of a method Go as wait groups have it.
func startsGoroutine(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.GoStmt:
		return true
	case *ast.CallExpr:
		called, ok := n.Fun.(*ast.SelectorExpr)
		if !ok || called.Sel.Name != "Go" {
			return false
		}
		from, ok := called.X.(*ast.Ident)
		return !ok || from.Name != "guard"
	}
	return false
}
