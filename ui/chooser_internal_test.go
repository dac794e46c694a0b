package ui

import (
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"
)

// typeName puts a name into the open chooser's field and presses a key there.
func (b *bench) typeName(name string, key fyne.KeyName) {
	e, ok := b.win.Canvas().Focused().(*entry)
	require.True(b.t, ok, "the name has the keys")
	e.SetText(name)
	e.TypedKey(&fyne.KeyEvent{Name: key})
}

func TestProjectIsSavedAndOpenedByName(t *testing.T) {
	b := newBench(t, oneRoom)
	home, err := os.UserHomeDir()
	require.NoError(t, err)
	require.NoError(t, os.Mkdir(filepath.Join(home, "jobs"), 0o755))

	b.saveAs(nil)
	b.typeName("shed", fyne.KeyEscape)
	require.Nil(t, b.over, "Esc leaves everything as it was")
	require.Nil(t, b.win.Canvas().Focused())
	require.Empty(t, b.model.Doc.Path())

	b.saveAs(nil)
	b.typeName("jobs", fyne.KeyReturn) // goes to the folder
	require.NotNil(t, b.over)
	b.typeName("shed", fyne.KeyReturn)
	path := filepath.Join(home, "jobs", "shed.seam.yaml")
	require.Equal(t, path, b.model.Doc.Path())
	require.FileExists(t, path)
	require.Nil(t, b.over)

	// Another file of that name is not written over unasked.
	other := filepath.Join(home, "jobs", "other.seam.yaml")
	require.NoError(t, os.WriteFile(other, []byte("kept"), 0o600))
	b.saveAs(nil)
	b.typeName("other", fyne.KeyReturn)
	require.Equal(t, "Choose another name", b.question[0].words)
	text, err := os.ReadFile(other)
	require.NoError(t, err)
	require.Equal(t, "kept", string(text))
	b.stepBack()

	b.newProject()
	b.open()
	b.typeName("no such file", fyne.KeyReturn)
	require.NotNil(t, b.over, "the field stays open for another name")
	b.typeName(path, fyne.KeyReturn)
	require.Equal(t, path, b.model.Doc.Path())
}
