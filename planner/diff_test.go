package planner

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestDiff(t *testing.T) {
	before := "1\n2\n3\n4\n5\n6\n7\n8\n9\n"
	after := strings.Replace(strings.Replace(before, "5\n", "five\n", 1), "9\n", "9\n10\n", 1)
	var got []string
	for _, l := range Diff([]byte(before), []byte(after)) {
		got = append(got, string(l.Sign)+l.Text)
	}
	require.Equal(t, []string{"…", " 2", " 3", " 4", "-5", "+five", " 6", " 7", " 8", " 9", "+10", " "}, got)
	require.Equal(t, []DiffLine{{Sign: '…'}}, Diff([]byte(before), []byte(before)))
}

// TestDiffHoldsBoth: what is not marked is common to both texts, and each text is what is left without the other's lines.
func TestDiffHoldsBoth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		letters := rapid.SliceOfN(rapid.SampledFrom([]string{"a", "b", "c"}), 0, 12)
		a, b := letters.Draw(t, "a"), letters.Draw(t, "b")
		var first, second []string
		for _, l := range changes(a, b) {
			if l.Sign != '+' {
				first = append(first, l.Text)
			}
			if l.Sign != '-' {
				second = append(second, l.Text)
			}
		}
		require.Equal(t, strings.Join(a, ""), strings.Join(first, ""))
		require.Equal(t, strings.Join(b, ""), strings.Join(second, ""))
	})
}
