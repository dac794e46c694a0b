// Package tables writes what a plan comes to as tables: the shopping list, the cut list, the sequence and the price, as CSV
// for programs and as a workbook for people. Numbers are numbers and dates are dates in both; totals of the workbook are
// formulas that any spreadsheet program works out anew, and that come to the plan's own figures.
package tables

import (
	"fmt"
	"strings"
	"time"

	"seamwright/assets/words"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/scene/document/ask"
)

// The ids of the tables.
const (
	Takeoff  = "takeoff"
	CutList  = "cutlist"
	Sequence = "schedule"
	Price    = "price"
	Walls    = "walls"
)

// Table is one part of a plan. Row 1 of a sheet is its head, so row i here is row i+2 there.
type Table struct {
	ID      string
	Name    string // in the request's voice
	Inches  bool   // sizes are in inches, else in millimetres
	Columns []Column
	Rows    []Row
}

// Column says what its cells are.
type Column struct {
	Head  string
	Form  Form
	Wide  float64 // in letters
	Aside bool    // for the screen: it stands behind the others and is not printed
}

// Form is how a cell shows its value.
type Form uint8

// The forms. A size is a length in inches to the sixteenth, or in millimetres.
const (
	Text Form = iota
	Long      // text that goes on in further lines
	Count
	Quantity
	Amount
	Size
	Hours
	Day
	Moment
	Percent
)

// Row is one line. A total stands out from the lines that it sums up.
type Row struct {
	Cells []Cell
	Total bool
}

// Cell is a value: nil, string, int, float64, money.Money, length.Length or time.Time. A formula, in the notation of
// workbooks, is worked out to the value. Form is another one than the column's, where it is not Text.
type Cell struct {
	Value   any
	Formula string
	Form    Form
}

// Parts lists the tables, in the order in which they stand in the workbook.
func Parts(r *ask.Request) (parts []ask.Part) {
	for _, k := range kinds {
		if !k.money || priced(r) {
			parts = append(parts, ask.Part{ID: k.id, Name: r.Voice.Text(k.name)})
		}
	}
	return parts
}

// kinds are all tables and what makes them; money is told to builders alone.
var kinds = [...]struct {
	id, name string
	money    bool
	build    func(*maker)
}{
	{Takeoff, "tables.takeoff", false, takeoff},
	{CutList, "tables.cutlist", false, cutList},
	{Sequence, "tables.sequence", false, sequence},
	{Price, "tables.price", true, price},
	{Walls, "tables.walls", true, walls},
}

// priced tells whether the tables may tell money: their figures are the builder's own.
func priced(r *ask.Request) bool { return r.Prices == "" || r.Prices == ask.ForBuilder }

// Build makes the wanted tables.
func Build(r *ask.Request) (list []*Table) {
	for _, k := range kinds {
		if r.Wants(k.id) && (!k.money || priced(r)) {
			m := &maker{r: r, say: r.Voice, t: &Table{ID: k.id, Name: r.Voice.Text(k.name), Inches: r.Job.Units != job.Metric}, made: list}
			k.build(m)
			list = append(list, m.t)
		}
	}
	return list
}

// unknown says which tables there are.
func unknown(r *ask.Request) error {
	var ids []string
	for _, p := range Parts(r) {
		ids = append(ids, p.ID)
	}
	return fmt.Errorf("there is no table called %s; there are %s", strings.Join(r.Parts, ", "), strings.Join(ids, ", "))
}

// maker makes one table.
type maker struct {
	r    *ask.Request
	say  *words.Voice
	t    *Table
	made []*Table // those before it
}

// column adds a column under a phrase of the catalog and gives its letter.
func (m *maker) column(key string, form Form, wide float64) string {
	m.t.Columns = append(m.t.Columns, Column{Head: m.say.Text(key), Form: form, Wide: wide})
	return letters(len(m.t.Columns))
}

// aside adds a column that is not printed.
func (m *maker) aside(key string, form Form, wide float64) {
	m.column(key, form, wide)
	m.t.Columns[len(m.t.Columns)-1].Aside = true
}

// size adds a column of lengths, which says their unit.
func (m *maker) size(key string) {
	unit := "mm"
	if m.t.Inches {
		unit = "in"
	}
	m.t.Columns = append(m.t.Columns, Column{Head: m.say.Text(key) + " (" + unit + ")", Form: Size, Wide: 12})
}

// letters is the name of the n-th column of a sheet.
func letters(n int) (name string) {
	for ; n > 0; n = (n - 1) / 26 {
		name = string(rune('A'+(n-1)%26)) + name
	}
	return name
}

// next is the number in its sheet of the row that is added next.
func (m *maker) next() int { return len(m.t.Rows) + 2 }

// add adds a row of values.
func (m *maker) add(values ...any) { m.t.Rows = append(m.t.Rows, Row{Cells: m.cells(values)}) }

// total adds a row that sums up.
func (m *maker) total(values ...any) {
	m.t.Rows = append(m.t.Rows, Row{Cells: m.cells(values), Total: true})
}

// cells takes values, facts of the plan and ready cells.
func (m *maker) cells(values []any) []Cell {
	list := make([]Cell, len(values))
	for i, v := range values {
		switch v := v.(type) {
		case Cell:
			list[i] = v
		case plan.Fact:
			list[i] = Cell{Value: m.say.Fact(v)}
		default:
			list[i] = Cell{Value: v}
		}
	}
	return list
}

// moment reads a time of the sequence, nil where none is promised.
func moment(layout, stamp string) any {
	t, err := time.Parse(layout, stamp)
	if err != nil {
		return nil
	}
	return t
}

// size is a length in the unit of the table.
func (t *Table) size(l length.Length) float64 {
	if t.Inches {
		return l.In()
	}
	return l.MM()
}
