package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/plan"
)

// Three findings of one rule that differ in figures and places are one, with every place listed; lines keep to the
// width, and the source stands by itself.
func TestFindingsAreGathered(t *testing.T) {
	long := "the seam at 5' 4\" lies 3\" from a seam in the backing, which is nearer than the " + strings.Repeat("carefully considered ", 6) + "2\" that are asked"
	checks := []plan.Check{
		{Rule: "backing-seam", Level: plan.Error, Where: "room/south", Message: long, Source: "common practice, no source"},
		{Rule: "backing-seam", Level: plan.Error, Where: "room/north", Message: strings.Replace(long, "5' 4\"", "6' 8\"", 1), Source: "common practice, no source"},
		{Rule: "backing-seam", Level: plan.Error, Where: "room/south", Message: strings.Replace(long, "5' 4\"", "8' 0\"", 1), Source: "common practice, no source"},
		{Rule: "dust", Level: plan.Note, Message: "wear a mask", Source: "16 CFR"},
	}
	var b strings.Builder
	require.NoError(t, writeFindings(&b, checks))
	text := b.String()
	for _, line := range strings.Split(text, "\n") {
		require.LessOrEqual(t, len([]rune(line)), lineWidth)
	}
	require.Equal(t, 1, strings.Count(text, "error: backing-seam"))
	require.Contains(t, text, "3 in all: room/south (2 times), room/north\n")
	require.Contains(t, text, "\n  source: common practice, no source\n")
	require.Contains(t, text, "the whole job")
	require.Equal(t, strings.Fields(long), strings.Fields(text)[2:2+len(strings.Fields(long))], "no word is lost")
}
