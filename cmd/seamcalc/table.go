package main

import (
	"bufio"
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"seamwright/assets/words"
	"seamwright/calc/plan"
	"seamwright/scene/document/tables"
)

// table is one part of a plan as rows, for people and for programs. Programs get every cell; for people, what repeats
// and what says nothing is left out, and what explains a row stands beneath it where it is asked for.
type table struct {
	say   *words.Voice // of what --format json tells
	head  []string
	right []bool // columns set to the right
	rows  []row
	value any // what --format json writes

	repeats  int      // so many leading cells are left blank where the row above says the same
	explains int      // the last so many columns explain their row
	quiet    []string // columns that have nothing to say yet
	explain  bool
}

// row is one line of cells.
type row struct {
	cells []string
	head  bool  // heads the rows behind it: for people only
	blank []int // columns that its head says for it: left out for people
}

func (t *table) add(cells ...string) { t.rows = append(t.rows, row{cells: cells}) }

// heading adds a row that heads those behind it.
func (t *table) heading(cells ...string) { t.rows = append(t.rows, row{cells: cells, head: true}) }

// within leaves columns of the last row to its head.
func (t *table) within(columns ...string) {
	last := &t.rows[len(t.rows)-1]
	for _, c := range columns {
		last.blank = append(last.blank, slices.Index(t.head, c))
	}
}

// write puts the table out as text, csv or json.
func (t *table) write(w io.Writer, format string) error {
	switch format {
	case "json":
		return plan.Write(w, t.value, t.say.Fact)
	case "csv":
		out := csv.NewWriter(w)
		for _, r := range append([]row{{cells: t.head}}, t.rows...) {
			if r.head {
				continue
			}
			if err := out.Write(mapped(r.cells, tables.Harmless)); err != nil {
				return err
			}
		}
		out.Flush()
		return out.Error()
	case "text":
		return t.text(w)
	}
	return fmt.Errorf("unknown format %q: text, csv or json", format)
}

// mapped is a row with every cell turned into another.
func mapped(row []string, turn func(string) string) []string {
	cells := make([]string, len(row))
	for i, c := range row {
		cells[i] = turn(c)
	}
	return cells
}

// text sets the columns under each other.
func (t *table) text(w io.Writer) error {
	shown := t.shown()
	rows := make([][]string, len(t.rows))
	for i, r := range t.rows {
		rows[i] = mapped(r.cells, oneLine)
	}
	width := make([]int, len(t.head))
	for _, row := range append([][]string{t.head}, rows...) {
		for _, i := range shown {
			width[i] = max(width[i], utf8.RuneCountInString(row[i]))
		}
	}
	rule := make([]string, len(t.head))
	for i, n := range width {
		rule[i] = strings.Repeat("-", n)
	}
	out := bufio.NewWriter(w)
	t.line(out, shown, width, t.head)
	t.line(out, shown, width, rule)
	var above []string
	for n, row := range rows {
		t.line(out, shown, width, t.rows[n].without(t.blanked(row, above)))
		above = row
		if !t.explain {
			continue
		}
		for i := len(t.head) - t.explains; i < len(t.head); i++ {
			if row[i] != "" {
				wrap(out, "      "+strings.ToLower(t.head[i])+": ", "        ", row[i])
			}
		}
	}
	return out.Flush()
}

// shown are the columns for people: those that say something in any row and do not explain.
func (t *table) shown() []int {
	var shown []int
	for i := range len(t.head) - t.explains {
		if !slices.Contains(t.quiet, t.head[i]) && slices.ContainsFunc(t.rows, func(r row) bool { return r.cells[i] != "" }) {
			shown = append(shown, i)
		}
	}
	return shown
}

// blanked is a row without the leading cells that repeat the row above.
func (t *table) blanked(row, above []string) []string {
	row = slices.Clone(row)
	for i := 0; i < t.repeats && above != nil && row[i] == above[i]; i++ {
		row[i] = ""
	}
	return row
}

// without is the cells of a row less those that its head says for it.
func (r row) without(cells []string) []string {
	for _, i := range r.blank {
		cells[i] = ""
	}
	return cells
}

// line writes one line of cells without blanks at its end.
func (t *table) line(w io.Writer, shown, width []int, row []string) {
	var line strings.Builder
	for n, i := range shown {
		pad := strings.Repeat(" ", width[i]-utf8.RuneCountInString(row[i]))
		if n > 0 {
			line.WriteString("  ")
		}
		if i < len(t.right) && t.right[i] {
			line.WriteString(pad + row[i])
		} else {
			line.WriteString(row[i] + pad)
		}
	}
	fmt.Fprintln(w, strings.TrimRight(line.String(), " "))
}
