package book

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Every word of a note stands on one line, and on one only.
func TestNotesAreWrappedWordForWord(t *testing.T) {
	for _, text := range []string{
		"", "open", "216 of 1 1/4\", 12\" apart along the framing.", "center 12' 2\" from the left, 1' 4\" up.",
		"19 members; the figures above are their centers from the left end.", "SO-05 2' 5 7/8\" × 1' 5 7/16\"; SO-06 2' 6\" × 1' 5 7/16\"",
	} {
		for width := 60.0; width < 500; width += 7 {
			var all []string
			for _, l := range noteLines([]note{{"Screws", text}}, width) {
				all = append(all, l.text)
			}
			together := strings.ReplaceAll(strings.Join(all, " "), fixed, " ")
			require.Equal(t, strings.Fields(text), strings.Fields(together), "%g points wide", width)
		}
	}
}
