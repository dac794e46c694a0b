package main

import (
	"bytes"
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/assets"
)

// Render and export write as the window does: never over their input, not into a pipe, and into nothing by halves.
func TestDocumentsAreNotWrittenOverTheirInput(t *testing.T) {
	dir := t.TempDir()
	project := filepath.Join(dir, "studio.seam.yaml")
	require.NoError(t, os.WriteFile(project, assets.KilnYardStudio, 0o600))
	broken := filepath.Join(dir, "broken.seam.yaml")
	require.NoError(t, os.WriteFile(broken, []byte("seamwright: 2\n"), 0o600))
	picture, model, pipe := filepath.Join(dir, "link.png"), filepath.Join(dir, "link.glb"), filepath.Join(dir, "pipe.png")
	require.NoError(t, os.Symlink(project, picture))
	require.NoError(t, os.Link(project, model))
	require.NoError(t, syscall.Mkfifo(pipe, 0o600))
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"render", project, "-o", picture}, "is the project that is read, and is not written over"},
		{[]string{"export", project, "-o", model}, "is the project that is read, and is not written over"},
		{[]string{"render", broken, "-o", pipe}, "is a pipe; choose a file name"}, // said before the project is looked at
		{[]string{"render", broken, "-o", dir + ".png/room.png"}, "cannot be written: the folder is not there"},
		{[]string{"plan", pipe}, "is a pipe, not a project file"},
	} {
		var out, errw bytes.Buffer
		require.Equal(t, exitUsage, run(c.args, nil, &out, &errw), c.args)
		require.Contains(t, errw.String(), c.says)
	}
	text, err := os.ReadFile(project)
	require.NoError(t, err)
	require.Equal(t, assets.KilnYardStudio, text)
}
