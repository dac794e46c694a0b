package proof

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestJobsByHand plans real kinds of job that were written by hand, and the shipped samples, and holds every plan against
// its file: a garage with an overhead door, an office under a cathedral ceiling, a music room of two layers, a garage below
// a bedroom with leftovers, a shop 11 ft high, a barn of forty walls.
func TestJobsByHand(t *testing.T) {
	files, err := filepath.Glob("../../testdata/jobs/*.seam.yaml")
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(files), 6)
	shipped, err := filepath.Glob("../../assets/samples/*.seam.yaml")
	require.NoError(t, err)
	for _, f := range append(files, shipped...) {
		t.Run(filepath.Base(f), func(t *testing.T) {
			src, err := os.ReadFile(f)
			require.NoError(t, err)
			p, err := planned(string(src))
			require.NoError(t, err)
			for _, fault := range faults(src, p) {
				t.Error(fault)
			}
		})
	}
}
