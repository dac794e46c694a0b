package main

import (
	"bytes"
	"encoding/csv"
	"strconv"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"seamwright/assets/words"

	"github.com/stretchr/testify/require"
)

func TestNothingPrintedActs(t *testing.T) {
	var b bytes.Buffer
	w := &plainly{to: &b}
	for _, part := range []string{"a\x1b[31m", "ü\u202eb\x7f\n", "\xc3", "\xbc\u009b\xff\tc"} { // ü comes in two halves
		_, err := w.Write([]byte(part))
		require.NoError(t, err)
	}
	require.Equal(t, "a\\x1b[31mü\\u202eb\\x7f\nü\\u009b\\xff\tc", b.String())
}

// FuzzCells: whatever the names, a table for people has one line a row and nothing in it acts; a table for programs reads
// back cell by cell, and none of its cells is a formula.
func FuzzCells(f *testing.F) {
	f.Add("a\x1b[31m", "=1+1")
	f.Add("two\nlines\r\n", "-5.25")
	f.Add("\u202e\u2066", "@x")
	f.Add("\xff\xfe", "\t=1")
	f.Fuzz(func(t *testing.T, a, b string) {
		tab := &table{teller: teller{say: words.In(words.English, words.Units{})}, columns: columns("item", ">value")}
		tab.add(a, b)
		tab.add("sound", "1")
		var text bytes.Buffer
		require.NoError(t, tab.write(&text, "text"))
		require.Equal(t, 4, strings.Count(text.String(), "\n"))
		require.True(t, utf8.ValidString(text.String()))
		for _, c := range text.String() {
			require.False(t, unicode.IsControl(c) && c != '\n' || unicode.Is(unicode.Bidi_Control, c), "%q", text.String())
		}
		var table bytes.Buffer
		require.NoError(t, tab.write(&table, "csv"))
		rows, err := csv.NewReader(&table).ReadAll()
		require.NoError(t, err)
		require.Len(t, rows, 3)
		for i, cell := range []string{a, b} {
			got, read := rows[1][i], strings.ReplaceAll(cell, "\r\n", "\n") // as CSV is read
			require.Contains(t, []string{read, "'" + read}, got)
			if got != "" && strings.ContainsRune("=+-@\t\r", rune(got[0])) {
				_, err := strconv.ParseFloat(got, 64)
				require.NoError(t, err, "%q", got)
			}
		}
	})
}
