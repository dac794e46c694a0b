package main

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestHelp(t *testing.T) {
	var out, messages bytes.Buffer
	require.Equal(t, 0, run([]string{"--help"}, &out, &messages))
	require.Contains(t, out.String(), "usage: seamwright [FILE]")
	require.Contains(t, out.String(), "seamcalc plan FILE")
	require.Empty(t, messages.String())
}

func TestWithoutADisplayItNamesTheHeadlessCommand(t *testing.T) {
	t.Setenv("DISPLAY", "")
	t.Setenv("WAYLAND_DISPLAY", "")
	if hasDisplay() {
		t.Skip("this system shows windows without either variable")
	}
	var out, messages bytes.Buffer
	require.Equal(t, 2, run([]string{"shed.seam.yaml"}, &out, &messages))
	require.Contains(t, messages.String(), "seamcalc plan shed.seam.yaml")
	require.Equal(t, 1, bytes.Count(messages.Bytes(), []byte("\n")), "one line")
	require.Empty(t, out.String())
}

func TestUsageErrors(t *testing.T) {
	for _, args := range [][]string{{"a.yaml", "b.yaml"}, {"--fly"}} {
		var out, messages bytes.Buffer
		require.Equal(t, 2, run(args, &out, &messages), args)
		require.NotEmpty(t, messages.String())
		require.Empty(t, out.String())
	}
}

// A file that is not there does not keep the window from opening: it says so over an unsaved copy of the sample.
func TestAMissingFileOpensTheSampleAndSaysSo(t *testing.T) {
	path := filepath.Join(t.TempDir(), "gone.seam.yaml")
	doc, fault := document(path)
	require.ErrorContains(t, fault, "there is no file "+path)
	require.NotNil(t, doc)
	require.Empty(t, doc.Path(), "the sample is not saved over anything")

	require.NoError(t, os.WriteFile(path, []byte("seamwright: 1\nname: Shed\n"), 0o644))
	doc, fault = document(path)
	require.NoError(t, fault)
	require.Equal(t, "Shed", doc.Name())
}
