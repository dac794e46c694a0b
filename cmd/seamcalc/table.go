package main

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"
)

// table is one part of a plan as rows, for people and for programs.
type table struct {
	head  []string
	right []bool // columns set to the right
	rows  [][]string
	value any // what --format json writes
}

func (t *table) add(cells ...string) { t.rows = append(t.rows, cells) }

// write puts the table out as text, csv or json.
func (t *table) write(w io.Writer, format string) error {
	switch format {
	case "json":
		return writeJSON(w, t.value)
	case "csv":
		out := csv.NewWriter(w)
		if err := out.Write(t.head); err != nil {
			return err
		}
		if err := out.WriteAll(t.rows); err != nil {
			return err
		}
		return out.Error()
	case "text":
		return t.text(w)
	}
	return fmt.Errorf("unknown format %q: text, csv or json", format)
}

func writeJSON(w io.Writer, v any) error {
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", " ")
	return enc.Encode(v)
}

// text sets the columns under each other; the last one is never padded.
func (t *table) text(w io.Writer) error {
	width := make([]int, len(t.head))
	for _, row := range append([][]string{t.head}, t.rows...) {
		for i, cell := range row {
			width[i] = max(width[i], utf8.RuneCountInString(cell))
		}
	}
	rule := make([]string, len(t.head))
	for i, n := range width {
		rule[i] = strings.Repeat("-", n)
	}
	for _, row := range append([][]string{t.head, rule}, t.rows...) {
		var line strings.Builder
		for i, cell := range row {
			pad := strings.Repeat(" ", width[i]-utf8.RuneCountInString(cell))
			if i > 0 {
				line.WriteString("  ")
			}
			if i < len(t.right) && t.right[i] {
				line.WriteString(pad + cell)
			} else {
				line.WriteString(cell + pad)
			}
		}
		if _, err := fmt.Fprintln(w, strings.TrimRight(line.String(), " ")); err != nil {
			return err
		}
	}
	return nil
}
