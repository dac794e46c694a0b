package tables_test

import (
	"archive/zip"
	"bytes"
	"context"
	"encoding/csv"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamwright/assets"
	"seamwright/assets/words"
	"seamwright/calc"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/money"
	"seamwright/planner"
	"seamwright/scene/document/ask"
	"seamwright/scene/document/internal/reader"
	"seamwright/scene/document/tables"
)

// request plans a shipped sample; a change makes what the sample has none of.
func request(t *testing.T, sample []byte, language words.Language, change func(*job.Job)) *ask.Request {
	d, err := planner.Parse("sample", sample)
	require.NoError(t, err)
	j := d.Job()
	if change != nil {
		change(j)
	}
	p, err := calc.Prompt(context.Background(), j, nil)
	require.NoError(t, err)
	return &ask.Request{Job: j, Plan: p, Voice: words.In(language, words.Units{Imperial: j.Units != job.Metric, Currency: j.Currency}),
		Made: time.Date(2027, 2, 20, 9, 30, 0, 0, time.UTC), Paper: ask.PaperOf(j.Units)}
}

func workbook(t *testing.T, r *ask.Request) []byte {
	var b bytes.Buffer
	require.NoError(t, tables.Workbook(context.Background(), &b, r))
	return b.Bytes()
}

// forgotten is the workbook without the values that stand with its formulas, so that who shows some has worked them out.
func forgotten(t *testing.T, file []byte) []byte {
	in, err := zip.NewReader(bytes.NewReader(file), int64(len(file)))
	require.NoError(t, err)
	var b bytes.Buffer
	out := zip.NewWriter(&b)
	cached, dropped := regexp.MustCompile(`(</f>)<v>[^<]*</v>`), 0
	for _, f := range in.File {
		from, err := f.Open()
		require.NoError(t, err)
		text, err := io.ReadAll(from)
		require.NoError(t, err)
		dropped += len(cached.FindAll(text, -1))
		to, err := out.Create(f.Name)
		require.NoError(t, err)
		_, err = to.Write(cached.ReplaceAll(text, []byte("$1")))
		require.NoError(t, err)
	}
	require.NoError(t, out.Close())
	require.Greater(t, dropped, 20, "the workbook has formulas with values")
	return b.Bytes()
}

// calculated is what LibreOffice shows of a workbook, by the name of the sheet.
func calculated(t *testing.T, file []byte) map[string][][]string {
	dir := t.TempDir()
	name := filepath.Join(dir, "book.xlsx")
	require.NoError(t, os.WriteFile(name, file, 0o644))
	// separator, quote, UTF-8, from line 1, cells as they are, all sheets
	reader.Run(t, nil, "soffice", "-env:UserInstallation=file://"+dir+"/office", "--headless", "--convert-to",
		"csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,true,false,false,false,-1", "--outdir", dir, name)
	found, err := filepath.Glob(filepath.Join(dir, "book-*.csv"))
	require.NoError(t, err)
	sheets := map[string][][]string{}
	for _, f := range found {
		text, err := os.ReadFile(f)
		require.NoError(t, err)
		rows, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
		require.NoError(t, err)
		sheets[strings.TrimSuffix(strings.TrimPrefix(filepath.Base(f), "book-"), ".csv")] = rows
	}
	return sheets
}

// Every formula of the workbook, worked out anew by LibreOffice from the cells around it, comes to the plan's own figure: to
// the cent, the hundredth of an hour and the piece. Tax, an own rate, a delivery that is not taxed and both languages.
func TestTotalsAreWorkedOutByAnother(t *testing.T) {
	for _, k := range []struct {
		sample   []byte
		language words.Language
		change   func(*job.Job)
	}{
		{assets.KilnYardStudio, words.English, func(j *job.Job) { j.Figures = map[string]float64{"delivery": 85, "tool-hire": 40.5} }},
		{assets.LaneWorkshop, words.Spanish, nil},
	} {
		r := request(t, k.sample, k.language, k.change)
		sheets := calculated(t, forgotten(t, workbook(t, r)))
		checked := 0
		for _, table := range tables.Build(r) {
			shown := sheets[table.Name]
			require.Len(t, shown, len(table.Rows)+1, table.Name)
			for i, row := range table.Rows {
				for c, cell := range row.Cells {
					got := shown[i+1][c]
					switch v := cell.Value.(type) {
					case money.Money:
						require.InDelta(t, v.Float(), number(t, got), 1e-6, "%s row %d column %d: %s", table.Name, i+2, c+1, cell.Formula)
					case float64:
						if strings.HasSuffix(got, "%") {
							require.InDelta(t, v*100, number(t, strings.TrimSuffix(got, "%")), 0.005)
							continue
						}
						require.InDelta(t, v, number(t, got), 0.00501, "%s row %d column %d: %s", table.Name, i+2, c+1, cell.Formula)
					case int:
						require.Equal(t, strconv.Itoa(v), got)
					case string:
						require.Equal(t, strings.Fields(v), strings.Fields(got))
					case time.Time:
						require.Contains(t, []string{v.Format("2006-01-02"), v.Format("2006-01-02 15:04:05")}, got)
					case length.Length:
						require.NotEmpty(t, got)
					}
					if cell.Formula != "" {
						checked++
					}
				}
			}
		}
		require.Greater(t, checked, 30)
	}
}

func number(t *testing.T, s string) float64 {
	v, err := strconv.ParseFloat(strings.ReplaceAll(s, ",", ""), 64)
	require.NoError(t, err, s)
	return v
}

// What begins like a formula is text in both forms, whoever reads it.
func TestNoTextIsAFormula(t *testing.T) {
	r := request(t, assets.KilnYardStudio, words.English, nil)
	wicked := []string{"=1+1", "+1+1", "-1+1", "@SUM(1)", "\t=1+1", "\r=1+1", "=HYPERLINK(\"http://example.com\",\"x\")", "＝1+1", "<b>&\"'</b>"}
	for i, s := range wicked {
		r.Plan.Schedule[i].Room = s
	}
	var b bytes.Buffer
	r.Parts = []string{tables.Sequence}
	require.NoError(t, tables.CSV(context.Background(), &b, r))
	rows, err := csv.NewReader(bytes.NewReader(b.Bytes())).ReadAll()
	require.NoError(t, err)
	found := 0
	for _, row := range rows {
		for _, cell := range row {
			if cell != "" && strings.ContainsRune("=+-@\t\r", rune(cell[0])) {
				_, err := strconv.ParseFloat(cell, 64)
				require.NoError(t, err, "%q would be a formula", cell)
			}
			for _, s := range wicked[:8] {
				if cell == "'"+s {
					found++
				}
			}
		}
	}
	require.Equal(t, 8, found)
	shown := calculated(t, workbook(t, r))["Sequence"]
	got := map[string]bool{}
	for _, row := range shown {
		got[row[8]] = true
	}
	for _, s := range wicked {
		require.True(t, got[strings.Map(func(c rune) rune {
			if c < ' ' {
				return ' '
			}
			return c
		}, s)], "%q is shown as it is, in %v", s, got)
	}
}

// The same request gives the same bytes; without prices no table tells money.
func TestWorkbookIsTheSameAgain(t *testing.T) {
	r := request(t, assets.LaneWorkshop, words.Spanish, nil)
	first := workbook(t, r)
	for range 5 {
		require.True(t, bytes.Equal(first, workbook(t, r)))
	}
	r.Prices = ask.NoPrices
	require.Len(t, tables.Parts(r), 3)
	for _, table := range tables.Build(r) {
		for _, row := range table.Rows {
			for _, cell := range row.Cells {
				_, tells := cell.Value.(money.Money)
				require.False(t, tells, table.Name)
			}
		}
	}
}

// In CSV numbers have a point and dates are ISO 8601, in every language.
func TestCSVIsForPrograms(t *testing.T) {
	r := request(t, assets.LaneWorkshop, words.Spanish, nil)
	for _, part := range tables.Parts(r) {
		r.Parts = []string{part.ID}
		var b bytes.Buffer
		require.NoError(t, tables.CSV(context.Background(), &b, r))
		rows, err := csv.NewReader(&b).ReadAll()
		require.NoError(t, err)
		table := tables.Build(r)[0]
		require.Len(t, rows, len(table.Rows)+1)
		for i, row := range table.Rows {
			for c, cell := range row.Cells {
				got := rows[i+1][c]
				switch v := cell.Value.(type) {
				case length.Length:
					require.InDelta(t, v.MM(), number(t, got), 1e-9)
				case float64:
					require.InDelta(t, v, number(t, got), 1e-12)
				case time.Time:
					require.Regexp(t, `^2027-\d\d-\d\d( \d\d:\d\d)?$`, got)
				}
			}
		}
	}
	r.Parts = []string{tables.Takeoff, tables.CutList}
	require.ErrorContains(t, tables.CSV(context.Background(), &bytes.Buffer{}, r), "holds one table")
	r.Parts = []string{"paint"}
	require.ErrorContains(t, tables.CSV(context.Background(), &bytes.Buffer{}, r), "there are takeoff, cutlist, schedule, price, walls")
	require.ErrorContains(t, tables.Workbook(context.Background(), &bytes.Buffer{}, r), "no table called paint")
}

// Formulas are known by their first character: OWASP, "CSV Injection", and its verification standard 5.0, 1.2.10.
func TestCellsAreNoFormulas(t *testing.T) {
	for cell, want := range map[string]string{
		`=HYPERLINK("x")`: `'=HYPERLINK("x")`, "+1+2": "'+1+2", "-2+3": "'-2+3", "@SUM(A1)": "'@SUM(A1)", "\t=1": "'\t=1", "\r=1": "'\r=1",
		"＝1+1": "'＝1+1", "-Inf": "'-Inf", "-0x1p3": "'-0x1p3", "+nan": "'+nan",
		"-12.5": "-12.5", "+3": "+3", "": "", "gyp-12": "gyp-12", `12' 6"`: `12' 6"`, "-": "'-",
	} {
		require.Equal(t, want, tables.Harmless(cell))
	}
}
