package document_test

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/scene/document"
	"seamwright/scene/document/internal/reader"
)

// The validator of those who keep the format finds nothing wrong with the model of a sample.
func TestModelReadByTheValidator(t *testing.T) {
	r := request(t)
	k, ok := document.Find("model")
	require.True(t, ok)
	var b bytes.Buffer
	require.NoError(t, k.Write(context.Background(), &b, r))
	file := filepath.Join(t.TempDir(), "model.glb")
	require.NoError(t, os.WriteFile(file, b.Bytes(), 0o644))
	var found struct {
		Issues struct{ NumErrors, NumWarnings int }
		Info   struct {
			Version            string
			TotalTriangleCount int
		}
	}
	require.NoError(t, json.Unmarshal([]byte(reader.Node(t, nil, "testdata/validate.js", file)), &found))
	require.Zero(t, found.Issues.NumErrors)
	require.Zero(t, found.Issues.NumWarnings)
	require.Equal(t, "2.0", found.Info.Version)
	require.Greater(t, found.Info.TotalTriangleCount, 1000)
}
