package tables

import (
	"context"
	"encoding/csv"
	"errors"
	"io"
	"strconv"
	"strings"
	"time"

	"seamwright/calc/length"
	"seamwright/calc/money"
	"seamwright/scene/document/ask"
)

// CSV writes one table as comma-separated values (RFC 4180, in UTF-8): numbers with a point, in the unit that the head
// names, dates as ISO 8601 writes them, totals as figures. Nothing wanted is the shopping list.
func CSV(_ context.Context, w io.Writer, r *ask.Request) error {
	one := *r
	switch len(r.Parts) {
	case 0:
		one.Parts = []string{Takeoff}
	case 1:
	default:
		return errors.New("a file of comma-separated values holds one table: name one")
	}
	list := Build(&one)
	if len(list) != 1 {
		return unknown(r)
	}
	return list[0].CSV(w)
}

// CSV writes the table.
func (t *Table) CSV(w io.Writer) error {
	out := csv.NewWriter(w)
	head := make([]string, len(t.Columns))
	for i, c := range t.Columns {
		head[i] = Harmless(c.Head)
	}
	if err := out.Write(head); err != nil {
		return err
	}
	for _, r := range t.Rows {
		line := make([]string, len(t.Columns))
		for i, c := range r.Cells {
			line[i] = t.plain(c, t.Columns[i].Form)
		}
		if err := out.Write(line); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// plain is a cell for programs.
func (t *Table) plain(c Cell, form Form) string {
	switch v := c.Value.(type) {
	case nil:
		return ""
	case string:
		return Harmless(v)
	case int:
		return strconv.Itoa(v)
	case float64:
		return strconv.FormatFloat(v, 'f', -1, 64)
	case money.Money:
		return v.String()
	case length.Length:
		return strconv.FormatFloat(t.size(v), 'f', -1, 64)
	case time.Time:
		if form == Day {
			return v.Format("2006-01-02")
		}
		return v.Format("2006-01-02 15:04")
	}
	return ""
}

// Harmless is a text that no spreadsheet takes for a formula: one that begins like a formula gets an apostrophe in front, as
// a person would write it there (OWASP Application Security Verification Standard 5.0, 1.2.10; MITRE CWE-1236). A number
// stays what it is.
func Harmless(text string) string {
	if text == "" || !strings.ContainsRune("=+-@\t\r\x00", rune(text[0])) && !strings.HasPrefix(text, "＝") && !strings.HasPrefix(text, "＋") &&
		!strings.HasPrefix(text, "－") && !strings.HasPrefix(text, "＠") {
		return text
	}
	if _, err := strconv.ParseFloat(text, 64); err == nil && !strings.ContainsAny(text, "xXpP_nNiI") {
		return text
	}
	return "'" + text
}
