package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/assets/words"
	"seamwright/calc/length"
	"seamwright/calc/plan"
)

// Three findings of one rule that differ in figures and places are one, with every place listed; lines keep to the
// width, and the source stands by itself.
func TestFindingsAreGathered(t *testing.T) {
	near := func(at length.Length) plan.Fact {
		return plan.Tell("check.backing-joint", "at", at, "apart", 3*length.Inch, "required", 2*length.Inch)
	}
	yard := words.In(words.English, words.Units{Imperial: true})
	checks := []plan.Check{
		{Rule: "backing-seam", Level: plan.Error, Where: "room/south", Says: near(64 * length.Inch), Source: plan.Practice()},
		{Rule: "backing-seam", Level: plan.Error, Where: "room/north", Says: near(80 * length.Inch), Source: plan.Practice()},
		{Rule: "backing-seam", Level: plan.Error, Where: "room/south", Says: near(96 * length.Inch), Source: plan.Practice()},
		{Rule: "dust", Level: plan.Note, Says: plan.Verbatim("wear a mask" + strings.Repeat(" and another", 12)), Source: plan.Cite("16 CFR")},
	}
	long := yard.Fact(checks[0].Says)
	var b strings.Builder
	require.NoError(t, writeFindings(&b, yard, checks))
	text := b.String()
	for _, line := range strings.Split(text, "\n") {
		require.LessOrEqual(t, len([]rune(line)), lineWidth)
	}
	require.Equal(t, 1, strings.Count(text, "error: backing-seam"))
	require.Contains(t, text, "3 in all: room/south (2 times), room/north\n")
	require.Contains(t, text, "\n  source: common practice, no source\n")
	require.Contains(t, text, "whole job")
	require.Equal(t, strings.Fields(long), strings.Fields(text)[2:2+len(strings.Fields(long))], "no word is lost")
}
