package tables

import (
	"archive/zip"
	"bytes"
	"context"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"

	"github.com/xuri/excelize/v2"

	"seamwright/calc/length"
	"seamwright/calc/money"
	"seamwright/scene/document/ask"
)

// Workbook writes the wanted tables as an Office Open XML workbook, a sheet each: the head stays in sight and on every
// printed page, and columns are as wide as what they hold. Text is written as text, whatever it begins with; no cell but
// ours is a formula. Values worked out by us stand with the formulas, for programs that do not calculate.
func Workbook(ctx context.Context, w io.Writer, r *ask.Request) error {
	list := Build(r)
	if len(list) == 0 {
		return unknown(r)
	}
	f := excelize.NewFile()
	defer f.Close() // of a file in memory: nothing is left to fail
	b := &book{f: f, r: r, styles: map[style]int{}}
	for i, t := range list {
		if err := ctx.Err(); err != nil {
			return err
		}
		if err := b.sheet(t, i == 0); err != nil {
			return fmt.Errorf("%s: %w", t.Name, err)
		}
		r.Tell(i+1, len(list))
	}
	stamp := r.Made.UTC().Format(time.RFC3339)
	if err := f.SetDocProps(&excelize.DocProperties{Title: plain(r.Plan.Name), Creator: "Seamwright", LastModifiedBy: "Seamwright",
		Created: stamp, Modified: stamp, Language: string(r.Voice.Language())}); err != nil {
		return err
	}
	file, err := f.WriteToBuffer()
	if err != nil {
		return err
	}
	return ordered(w, file.Bytes())
}

// ordered writes the parts of a package in one order, the list of their types first: the library writes the sheets in that
// of a map.
func ordered(w io.Writer, file []byte) error {
	in, err := zip.NewReader(bytes.NewReader(file), int64(len(file)))
	if err != nil {
		return err
	}
	slices.SortFunc(in.File, func(a, b *zip.File) int { return strings.Compare(a.Name, b.Name) })
	out := zip.NewWriter(w)
	for _, f := range in.File { // [Content_Types].xml sorts before all others
		if err := out.Copy(f); err != nil {
			return err
		}
	}
	return out.Close()
}

// book is a workbook under way.
type book struct {
	f      *excelize.File
	r      *ask.Request
	styles map[style]int
}

// style is how a cell looks. Parts is the part of an inch that a size is a whole number of.
type style struct {
	form        Form
	parts       int
	head, total bool
}

// format is a style's number format.
func (k style) format() string {
	switch k.form {
	case Count:
		return "0"
	case Quantity, Hours, Amount:
		return "#,##0.00"
	case Size:
		switch k.parts {
		case 0: // millimetres
			return "0.0"
		case 1:
			return "0"
		}
		return fmt.Sprintf("# %s/%d", strings.Repeat("?", len(strconv.Itoa(k.parts))), k.parts)
	case Day:
		return "yyyy-mm-dd"
	case Moment:
		return "yyyy-mm-dd hh:mm"
	case Percent:
		return "0.00%"
	case Text, Long:
	}
	return "@"
}

// numeric tells which forms are set to the right.
func (f Form) numeric() bool { return f != Text && f != Long && f != Day && f != Moment }

// fraction is the coarsest part of an inch that a size, to its nearest sixteenth, is a whole number of: 1, 2, 4, 8 or 16.
func fraction(l length.Length) int {
	sixteenth := length.Inch / 16
	n, parts := (l+sixteenth/2)/sixteenth, 16
	for parts > 1 && n%2 == 0 {
		n, parts = n/2, parts/2
	}
	return parts
}

// style gives the number of a style, made once.
func (b *book) style(k style) (int, error) {
	if id, ok := b.styles[k]; ok {
		return id, nil
	}
	number := k.format()
	s := &excelize.Style{CustomNumFmt: &number, Font: &excelize.Font{Size: 10, Family: "Calibri"},
		Alignment: &excelize.Alignment{Vertical: "top", WrapText: k.form == Long || k.head}}
	if k.form.numeric() {
		s.Alignment.Horizontal = "right"
	} else {
		s.Alignment.Horizontal, s.Alignment.Indent = "left", 1 // clear of a number before it
	}
	if k.head {
		s.Font.Bold = true
		s.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"E8E6DF"}}
		s.Border = []excelize.Border{{Type: "bottom", Style: 2, Color: "22262B"}}
		s.Alignment.Vertical = "center"
	}
	if k.total {
		s.Font.Bold = true
		s.Border = []excelize.Border{{Type: "top", Style: 1, Color: "22262B"}}
	}
	id, err := b.f.NewStyle(s)
	b.styles[k] = id
	return id, err
}

// sheet writes a table on a sheet of its own.
func (b *book) sheet(t *Table, first bool) error {
	var err error
	if first {
		err = b.f.SetSheetName("Sheet1", t.Name)
	} else {
		_, err = b.f.NewSheet(t.Name)
	}
	if err != nil {
		return err
	}
	if err := b.setUp(t); err != nil { // before the rows: a stream ends the sheet
		return err
	}
	return b.rows(t)
}

// rows streams the cells.
func (b *book) rows(t *Table) error {
	w, err := b.f.NewStreamWriter(t.Name)
	if err != nil {
		return err
	}
	for i, c := range t.Columns {
		if err := w.SetColWidth(i+1, i+1, c.Wide); err != nil {
			return err
		}
	}
	if err := w.SetPanes(&excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft"}); err != nil {
		return err
	}
	head := make([]any, len(t.Columns))
	for i, c := range t.Columns {
		id, err := b.style(style{form: c.Form, head: true})
		if err != nil {
			return err
		}
		head[i] = excelize.Cell{StyleID: id, Value: c.Head}
	}
	if err := w.SetRow("A1", head, excelize.RowOpts{Height: 30}); err != nil {
		return err
	}
	for i, r := range t.Rows {
		line := make([]any, len(r.Cells))
		for k, c := range r.Cells {
			if line[k], err = b.cell(t, c, t.Columns[k].Form, r.Total); err != nil {
				return err
			}
		}
		if err := w.SetRow(fmt.Sprintf("A%d", i+2), line); err != nil {
			return err
		}
	}
	return w.Flush()
}

// cell is a value with its formula and look.
func (b *book) cell(t *Table, c Cell, form Form, total bool) (excelize.Cell, error) {
	if c.Form != Text {
		form = c.Form
	}
	look, cell := style{form: form, total: total}, excelize.Cell{Formula: c.Formula}
	switch v := c.Value.(type) {
	case string:
		cell.Value = plain(v)
	case money.Money:
		cell.Value = v.Float()
	case length.Length:
		cell.Value = t.size(v)
		if t.Inches {
			look.parts = fraction(v)
		}
	default:
		cell.Value = v
	}
	var err error
	cell.StyleID, err = b.style(look)
	return cell, err
}

// plain is a text without control characters, which the file cannot hold; line ends stay.
func plain(s string) string {
	return strings.Map(func(c rune) rune {
		if unicode.IsControl(c) && c != '\n' {
			return ' '
		}
		return c
	}, s)
}

// setUp prepares a sheet for paper: as wide as one page, laid wide, the head on every page, project and page in its margin.
func (b *book) setUp(t *Table) error {
	size, wide, one, none := 1, "landscape", 1, 0
	if b.r.Paper == ask.A4 {
		size = 9
	}
	if err := b.f.SetPageLayout(t.Name, &excelize.PageLayoutOptions{Size: &size, Orientation: &wide, FitToWidth: &one, FitToHeight: &none}); err != nil {
		return err
	}
	project := strings.ReplaceAll(plain(b.r.Plan.Name), "&", "&&")
	if err := b.f.SetHeaderFooter(t.Name, &excelize.HeaderFooterOptions{OddHeader: "&L" + short(project) + "&R" + t.Name,
		OddFooter: "&L" + b.r.Voice.Date(b.r.Made) + "&R&P / &N"}); err != nil {
		return err
	}
	printed := len(t.Columns)
	for printed > 1 && t.Columns[printed-1].Aside {
		printed--
	}
	last := len(t.Rows) + 1
	if err := b.f.AutoFilter(t.Name, fmt.Sprintf("A1:%s%d", letters(len(t.Columns)), last), nil); err != nil {
		return err
	}
	fit := true // behind the filter, which sets the properties anew
	if err := b.f.SetSheetProps(t.Name, &excelize.SheetPropsOptions{FitToPage: &fit}); err != nil {
		return err
	}
	for _, k := range [2][2]string{{"_xlnm.Print_Area", fmt.Sprintf("$A$1:$%s$%d", letters(printed), last)}, {"_xlnm.Print_Titles", "$1:$1"}} {
		if err := b.f.SetDefinedName(&excelize.DefinedName{Name: k[0], RefersTo: "'" + t.Name + "'!" + k[1], Scope: t.Name}); err != nil {
			return err
		}
	}
	return nil
}

// short keeps a name within what a page's margin may hold (ECMA-376, 18.3.1.39: 255 characters with its codes).
func short(s string) string {
	if r := []rune(s); len(r) > 150 {
		return string(r[:149]) + "…"
	}
	return s
}
