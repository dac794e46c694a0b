package main

import (
	"bufio"
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"seamwright/calc/plan"
	"seamwright/scene/document/tables"
)

// table is one part of a plan as rows, for people and for programs. Programs get every cell; for people, what repeats
// and what says nothing is left out, and what explains a row stands beneath it where it is asked for.
type table struct {
	teller
	columns []column
	rows    []row
	value   any // what --format json writes

	repeats  int // so many leading cells are left blank where the row above says the same
	explains int // the last so many columns explain their row
	explain  bool
}

// column is one column: the key of its head in the catalog of words, and how it is set for people.
type column struct {
	key   string
	right bool // set to the right
	quiet bool // left out: it has nothing to say yet, or another column says it
}

// columns makes columns of keys; those with a > before them are set to the right.
func columns(keys ...string) []column {
	all := make([]column, len(keys))
	for i, k := range keys {
		key, right := strings.CutPrefix(k, ">")
		all[i] = column{key: key, right: right}
	}
	return all
}

// hush leaves columns out for people.
func (t *table) hush(keys ...string) {
	for i := range t.columns {
		if slices.Contains(keys, t.columns[i].key) {
			t.columns[i].quiet = true
		}
	}
}

// head is the head of every column.
func (t *table) head() []string {
	head := make([]string, len(t.columns))
	for i, c := range t.columns {
		head[i] = t.say.Text("column." + c.key)
	}
	return head
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
func (t *table) within(keys ...string) {
	last := &t.rows[len(t.rows)-1]
	for i, c := range t.columns {
		if slices.Contains(keys, c.key) {
			last.blank = append(last.blank, i)
		}
	}
}

// write puts the table out as text, csv or json.
func (t *table) write(w io.Writer, format string) error {
	switch format {
	case "json":
		return plan.Write(w, t.value, t.say.Fact)
	case "csv":
		out := csv.NewWriter(w)
		for _, r := range append([]row{{cells: t.head()}}, t.rows...) {
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
		return t.people(w)
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

// people sets the columns under each other.
func (t *table) people(w io.Writer) error {
	shown, head := t.shown(), t.head()
	rows := make([][]string, len(t.rows))
	for i, r := range t.rows {
		rows[i] = mapped(r.cells, oneLine)
	}
	width := make([]int, len(head))
	for _, row := range append([][]string{head}, rows...) {
		for _, i := range shown {
			width[i] = max(width[i], utf8.RuneCountInString(row[i]))
		}
	}
	rule := make([]string, len(head))
	for i, n := range width {
		rule[i] = strings.Repeat("-", n)
	}
	out := bufio.NewWriter(w)
	t.line(out, shown, width, head)
	t.line(out, shown, width, rule)
	var above []string
	for n, row := range rows {
		t.line(out, shown, width, t.rows[n].without(t.blanked(row, above)))
		above = row
		if !t.explain {
			continue
		}
		for i := len(head) - t.explains; i < len(head); i++ {
			if row[i] != "" {
				wrap(out, "      "+strings.ToLower(head[i])+": ", "        ", row[i])
			}
		}
	}
	return out.Flush()
}

// shown are the columns for people: those that say something in any row and do not explain.
func (t *table) shown() []int {
	var shown []int
	for i := range len(t.columns) - t.explains {
		if !t.columns[i].quiet && slices.ContainsFunc(t.rows, func(r row) bool { return r.cells[i] != "" }) {
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
		if t.columns[i].right {
			line.WriteString(pad + row[i])
		} else {
			line.WriteString(row[i] + pad)
		}
	}
	fmt.Fprintln(w, strings.TrimRight(line.String(), " "))
}
