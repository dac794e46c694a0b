// Package cmd holds the two programs, and this test of the house rules: which folder may import which.
package cmd

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// mayImport lists, for each folder, the folders of this module that its code may import; a folder reaches its own
// sub-packages only where it says so. It is the table in DEVELOPERS.md.
var mayImport = map[string][]string{
	"calc/length":    {},
	"calc/money":     {},
	"calc/shape":     {"calc/length"},
	"calc/memo":      {},
	"calc/guard":     {},
	"calc/job":       {"calc/length", "calc/money", "calc/shape"},
	"calc/plan":      {"calc/length", "calc/money", "calc/shape"},
	"calc/span":      {"calc/length", "calc/job", "calc/plan"},
	"calc/survey":    {"calc/memo", "calc/length", "calc/shape", "calc/job", "calc/plan", "calc/span"},
	"calc/nest":      {"calc/length", "calc/internal/simplex"},
	"calc/layout":    {"calc/length", "calc/money", "calc/shape", "calc/job", "calc/plan", "calc/survey"},
	"calc/policy":    {"calc/memo", "calc/length", "calc/job", "calc/plan", "calc/survey", "calc/layout"},
	"calc/board":     {"calc/guard", "calc/memo", "calc/length", "calc/money", "calc/shape", "calc/job", "calc/plan", "calc/survey", "calc/layout", "calc/nest", "calc/cut", "calc/worth", "calc/internal/simplex"},
	"calc/worth":     {"calc/length", "calc/job", "calc/plan", "calc/finish", "calc/price", "calc/schedule"},
	"calc/cut":       {"calc/length", "calc/shape", "calc/job", "calc/plan", "calc/nest"},
	"calc/fasten":    {"calc/memo", "calc/length", "calc/money", "calc/shape", "calc/job", "calc/plan", "calc/survey", "calc/span"},
	"calc/reveal":    {"calc/length", "calc/money", "calc/shape", "calc/job", "calc/plan", "calc/survey", "calc/nest", "calc/cut"},
	"calc/finish":    {"calc/memo", "calc/length", "calc/money", "calc/shape", "calc/job", "calc/plan", "calc/survey", "calc/nest", "calc/fasten", "calc/reveal"},
	"calc/price":     {"calc/length", "calc/money", "calc/shape", "calc/job", "calc/plan", "calc/policy", "calc/nest", "calc/fasten", "calc/finish"},
	"calc/schedule":  {"calc/guard", "calc/memo", "calc/length", "calc/money", "calc/shape", "calc/job", "calc/plan", "calc/survey", "calc/fasten", "calc/finish", "calc/price"},
	"calc/check":     {"calc/memo", "calc/length", "calc/money", "calc/shape", "calc/job", "calc/plan", "calc/survey", "calc/span", "calc/fasten", "calc/finish", "calc/price", "calc/schedule"},
	"calc":           {"calc/..."},
	"assets":         {},
	"assets/words":   {"calc/length", "calc/money", "calc/plan"},
	"planner":        {"calc/...", "assets"},
	"scene":          {"calc/...", "assets"},
	"ui":             {"calc/...", "planner", "scene/...", "assets"},
	"cmd/seamcalc":   {"calc/...", "planner", "scene/...", "assets"},
	"cmd/seamwright": {"calc/...", "planner", "scene/...", "assets", "ui"},
}

// onlyIn names libraries that one folder alone may know.
var onlyIn = map[string][]string{
	"gopkg.in/yaml.v3":                 {"planner", "assets/words"},
	"github.com/nicksnyder/go-i18n/v2": {"assets/words"},
	"codeberg.org/go-pdf/fpdf":         {"scene/document/book"},
	"fyne.io/fyne/v2":                  {"ui", "cmd/seamwright"},
}

func TestImportsRunOneWay(t *testing.T) {
	read := 0
	err := filepath.WalkDir("..", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		read++
		folder := filepath.ToSlash(strings.TrimPrefix(filepath.Dir(path), "../"))
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ImportsOnly)
		require.NoError(t, err)
		for _, spec := range file.Imports {
			name, _ := strconv.Unquote(spec.Path.Value)
			if own, ok := strings.CutPrefix(name, "seamwright/"); ok {
				require.True(t, allowed(folder, own), "%s imports %s", path, own)
			}
			for library, folders := range onlyIn {
				if name == library || strings.HasPrefix(name, library+"/") {
					require.True(t, within(folder, folders), "%s imports %s", path, name)
				}
			}
		}
		return nil
	})
	require.NoError(t, err)
	require.Greater(t, read, 50, "the walk found the program")
}

// allowed follows the longest entry of the table that holds the folder: a sub-package obeys its parent's line and
// may import its own parent and siblings.
func allowed(folder, imported string) bool {
	for at := folder; at != "."; at = filepath.ToSlash(filepath.Dir(at)) {
		if list, ok := mayImport[at]; ok {
			ownFamily := at != "calc" && (imported == at || strings.HasPrefix(imported, at+"/"))
			return ownFamily || within(imported, list)
		}
	}
	return false
}

func within(folder string, list []string) bool {
	for _, l := range list {
		if tree, ok := strings.CutSuffix(l, "/..."); ok && (folder == tree || strings.HasPrefix(folder, tree+"/")) || folder == l || !ok && strings.HasPrefix(folder, l+"/") {
			return true
		}
	}
	return false
}
