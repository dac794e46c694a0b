package main

import (
	"bytes"
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
