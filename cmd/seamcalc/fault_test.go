package main

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/guard"
)

// A fault of the program ends in a report and in words on what to send, never in a trace; one on another goroutine too. The
// trace is printed only where the report cannot be written.
func TestFaultsOfTheProgram(t *testing.T) {
	state := t.TempDir()
	t.Setenv("XDG_STATE_HOME", state)
	for name, fault := range map[string]func() int{
		"here":                 func() int { panic("a slip") },
		"on another goroutine": func() int { guard.Each(4, func(int) { panic("a slip") }); return exitFine },
	} {
		t.Run(name, func(t *testing.T) {
			var errw bytes.Buffer
			require.Equal(t, exitFault, guarded(&errw, fault))
			require.NotContains(t, errw.String(), "goroutine")
			reports, err := filepath.Glob(filepath.Join(state, "seamwright", "faults", "*.txt"))
			require.NoError(t, err)
			require.NotEmpty(t, reports)
			found := false
			for _, r := range reports {
				if bytes.Contains(errw.Bytes(), []byte(r)) {
					text, err := os.ReadFile(r)
					require.NoError(t, err)
					found = bytes.Contains(text, []byte("What     a slip")) && bytes.Contains(text, []byte("fault_test.go:"))
				}
			}
			require.True(t, found, errw.String())
		})
	}
	require.NoError(t, os.WriteFile(filepath.Join(state, "file"), nil, 0o600))
	t.Setenv("XDG_STATE_HOME", filepath.Join(state, "file"))
	var errw bytes.Buffer
	require.Equal(t, exitFault, guarded(&errw, func() int { panic("a slip") }))
	require.Contains(t, errw.String(), "No report could be written")
	require.Contains(t, errw.String(), "fault_test.go:")
	require.Equal(t, exitBroken, guarded(&errw, func() int { return exitBroken }))
}
