package main

import (
	"bytes"
	"fmt"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

const renderSample = "../../assets/samples/lane-workshop.seam.yaml"

func TestRenderWritesAPicture(t *testing.T) {
	name := filepath.Join(t.TempDir(), "room.png")
	var out, errs bytes.Buffer
	code := runRender([]string{renderSample, "-o", name, "--from", "NE", "--size", "160x90", "--light", "raking"}, nil, &out, &errs)
	require.Equal(t, exitFine, code, errs.String())
	f, err := os.Open(name)
	require.NoError(t, err)
	defer f.Close()
	img, err := png.Decode(f)
	require.NoError(t, err)
	require.Equal(t, 160, img.Bounds().Dx())
	require.Equal(t, 90, img.Bounds().Dy())
	require.NotEqual(t, img.At(1, 1), img.At(80, 60), "the room stands before the ground")
}

// Lit low, a joint of the sample would be seen, and what is said to mend it does: at level 5 and flat it shows less.
func TestRenderTellsWhatShows(t *testing.T) {
	tell := func(args ...string) string {
		var out, errs bytes.Buffer
		name := filepath.Join(t.TempDir(), "room.png")
		code := runRender(append([]string{renderSample, "-o", name, "--size", "64x40"}, args...), nil, &out, &errs)
		require.Equal(t, exitFine, code, errs.String())
		return out.String()
	}
	require.Empty(t, tell())
	low := tell("--light", "flood", "--angle", "6", "--sheen", "gloss", "--level", "3")
	require.Contains(t, low, "finish to level 5: ")
	require.Contains(t, low, "paint flat: ")
	seen := func(text string) (n int) {
		for _, line := range strings.Split(text, "\n") {
			var of int
			if _, after, ok := strings.Cut(line, ": "); ok {
				var k int
				if _, err := fmt.Sscanf(after, "%d of %d", &k, &of); err == nil {
					n += k
				}
			}
		}
		return n
	}
	high := tell("--light", "flood", "--angle", "60", "--sheen", "flat", "--level", "5")
	require.Greater(t, seen(low), seen(high))
}

func TestRenderToStandardOutput(t *testing.T) {
	var out, errs bytes.Buffer
	code := runRender([]string{"-o", "-", "--size", "32x20", renderSample}, nil, &out, &errs)
	require.Equal(t, exitFine, code, errs.String())
	_, err := png.Decode(&out)
	require.NoError(t, err)
}

func TestRenderRefusesInOneClearLine(t *testing.T) {
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{renderSample}, "-o room.png"},
		{[]string{renderSample, "-o", "x.png", "--size", "0x90"}, "1920x1080"},
		{[]string{renderSample, "-o", "x.png", "--size", "9000x90"}, "8192"},
		{[]string{renderSample, "-o", "x.png", "--from", "UP"}, "NE"},
		{[]string{renderSample, "-o", "x.png", "--light", "candle"}, "raking"},
		{[]string{renderSample, "-o", "x.png", "--light", "flood,sun"}, "daylight"},
		{[]string{renderSample, "-o", "x.png", "--sheen", "wet"}, "satin"},
		{[]string{renderSample, "-o", "x.png", "--reach", "near"}, "--reach near"},
		{[]string{renderSample, "-o", "x.png", "--angle", "NaN"}, "--angle NaN: write degrees"},
		{[]string{renderSample, "-o", "x.png", "--angle", "+Inf"}, "--angle +Inf: write degrees"},
		{[]string{renderSample, "-o", "x.png", "--angle", "0"}, "more than 0"},
		{[]string{renderSample, "-o", "x.png", "--seams", "NaN"}, "--seams NaN"},
		{[]string{renderSample, "-o", "x.png", "--level", "7"}, "3, 4 or 5"},
		{[]string{renderSample, "-o", "x.png", "--theme", "pink"}, "paper"},
		{[]string{renderSample, "-o", "no/such/folder/x.png", "--size", "8x8"}, "no/such/folder"},
		{[]string{"-o", "x.png"}, "project file"},
	} {
		var out, errs bytes.Buffer
		require.Equal(t, exitUsage, runRender(c.args, nil, &out, &errs), c.args)
		require.Contains(t, errs.String(), c.says)
		require.Equal(t, 1, strings.Count(errs.String(), "\n"), errs.String())
		require.Empty(t, out.String())
	}
}
