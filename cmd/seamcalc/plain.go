package main

import (
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// plainly passes text on with every character that is an order to a terminal, or that turns the order of the text around
// it, written out: names in a file come from anywhere, and what is printed must not act. Line ends and tabs pass.
type plainly struct {
	to   io.Writer
	rest []byte // of a character that the last write ended in
}

func (p *plainly) Write(b []byte) (int, error) {
	text := append(p.rest, b...)
	n := len(text)
	for k := 1; k < utf8.UTFMax && k <= len(text); k++ {
		if c := text[len(text)-k]; utf8.RuneStart(c) {
			if !utf8.FullRune(text[len(text)-k:]) {
				n -= k
			}
			break
		}
	}
	if _, err := io.WriteString(p.to, shown(string(text[:n]))); err != nil {
		return 0, err
	}
	p.rest = append([]byte(nil), text[n:]...)
	return len(b), nil
}

// acts tells of characters that do something where they are shown.
func acts(c rune) bool {
	return unicode.IsControl(c) && c != '\n' && c != '\t' || unicode.Is(unicode.Bidi_Control, c)
}

// shown is a text with what acts, and what is no character, written out.
func shown(text string) string {
	if utf8.ValidString(text) && !strings.ContainsFunc(text, acts) {
		return text
	}
	var b strings.Builder
	for i := 0; i < len(text); {
		c, size := utf8.DecodeRuneInString(text[i:])
		switch {
		case c == utf8.RuneError && size == 1:
			fmt.Fprintf(&b, `\x%02x`, text[i])
		case acts(c):
			quoted := strconv.QuoteToASCII(string(c))
			b.WriteString(quoted[1 : len(quoted)-1])
		default:
			b.WriteRune(c)
		}
		i += size
	}
	return b.String()
}

// oneLine is a cell of a table for people: what breaks lines becomes a blank.
func oneLine(cell string) string {
	return shown(strings.NewReplacer("\r\n", " ", "\n", " ", "\r", " ", "\t", " ").Replace(cell))
}
