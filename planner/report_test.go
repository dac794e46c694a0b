package planner_test

import (
	"crypto/sha256"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/guard"
	"seamwright/planner"
)

func fail(at int) *guard.Fault {
	err := guard.Do(func() error {
		_ = make([]int, 3)[at]
		return nil
	})
	return err.(*guard.Fault)
}

// The report holds what somebody needs who wants to mend the fault, and of the project nothing but its hash.
func failElsewhere() *guard.Fault {
	return guard.Do(func() error { panic("elsewhere") }).(*guard.Fault)
}

func TestReportOfAFault(t *testing.T) {
	state := t.TempDir()
	t.Setenv("XDG_STATE_HOME", state)
	source := []byte("seamwright: 1\nname: Secret shed\n")
	path, err := planner.Report(fail(3), source)
	require.NoError(t, err)
	require.Equal(t, filepath.Join(state, "seamwright", "faults"), filepath.Dir(path))
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	for _, want := range []string{"index out of range [3]", "planner_test.fail", "go1.", fmt.Sprintf("%x", sha256.Sum256(source)), "Please send this file"} {
		require.Contains(t, string(text), want)
	}
	require.NotContains(t, string(text), "Secret shed")

	again, err := planner.Report(fail(4), source)
	require.NoError(t, err)
	require.Equal(t, path, again, "one place of the code, one file")
	other, err := planner.Report(failElsewhere(), source)
	require.NoError(t, err)
	require.NotEqual(t, path, other)
}
