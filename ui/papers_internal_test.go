package ui

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"seamwright/scene/document"
	"seamwright/scene/document/ask"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"
)

// openedPapers is a bench with the view of the documents open on a kind.
func openedPapers(t *testing.T, kind string) (*bench, *papers) {
	b := newBench(t, oneRoom)
	b.invoke(b.command("papers"))
	require.NotNil(t, b.papers, "the view is open")
	b.papers.choose(kind)
	b.settleWork()
	return b, b.papers
}

// settleWork waits for what was started elsewhere.
func (b *bench) settleWork() {
	b.t.Helper()
	require.Eventually(b.t, func() bool {
		b.settle()
		k, v := b.paperWork, b.papers
		return (k == nil || k.over) && (v == nil || !v.preview.busy)
	}, 2*time.Minute, time.Millisecond)
}

func TestEveryDocumentIsWrittenFromTheWindow(t *testing.T) {
	for _, k := range document.Kinds() {
		t.Run(k.ID, func(t *testing.T) {
			b, v := openedPapers(t, k.ID)
			path := filepath.Join(t.TempDir(), "out"+k.Ending)
			v.asked.markup = 1000 // a client's price that was the builder's own cost would be refused
			r := v.request()
			v.w.writePaper(path, k, r, nil)
			b.settleWork()
			require.True(t, b.paperWork.written, b.paperWork.told)
			text, err := os.ReadFile(path)
			require.NoError(t, err)
			require.NotEmpty(t, text)
			require.Contains(t, v.told.Text, "out"+k.Ending)
			require.True(t, v.folder.Visible(), "its folder can be opened")
		})
	}
}

func TestAFolderThatCannotBeWrittenLeavesWhatIsThere(t *testing.T) {
	b, v := openedPapers(t, "calendar")
	k := v.kind()
	path := filepath.Join(t.TempDir(), "no such folder", "out"+k.Ending)
	b.writePaper(path, k, v.request(), nil)
	b.settleWork()
	require.False(t, b.paperWork.written)
	require.Contains(t, b.paperWork.told, "Not written")
	require.False(t, v.folder.Visible())
}

func TestCancelledDocumentIsNotThere(t *testing.T) {
	b, v := openedPapers(t, "workbook")
	path := filepath.Join(t.TempDir(), "out.xlsx")
	require.NoError(t, os.WriteFile(path, []byte("older"), 0o600))
	b.writePaper(path, v.kind(), v.request(), nil)
	b.paperWork.stop()
	b.settleWork()
	if !b.paperWork.written { // it may have been whole by then
		text, err := os.ReadFile(path)
		require.NoError(t, err)
		require.Equal(t, "older", string(text))
		require.Contains(t, b.paperWork.told, "cancelled")
	}
}

func TestWhatIsAskedReachesTheDocument(t *testing.T) {
	b, v := openedPapers(t, "workbook")
	require.Equal(t, ask.Letter, v.request().Paper, "feet and inches go with Letter")
	v.asked.paper, v.asked.prices = ask.A4, ask.NoPrices
	v.refresh()
	r := v.request()
	require.Equal(t, ask.A4, r.Paper)
	require.Equal(t, ask.NoPrices, r.Prices)
	all := len(r.Parts)
	require.Greater(t, all, 1)
	var box *button
	for _, o := range v.options.Objects {
		if p, ok := o.(*button); ok && p.style == tickItem && box == nil {
			box = p
		}
	}
	require.True(t, box.on)
	box.Tapped(nil)
	require.Len(t, v.request().Parts, all-1, "a part that is not ticked is left out")
	b.stepBack()
	require.Nil(t, b.papers)
	b.invoke(b.command("papers"))
	require.Len(t, b.papers.request().Parts, all-1, "what was asked for is remembered")
}

func TestPrintOpensTheJobBook(t *testing.T) {
	b := newBench(t, oneRoom)
	require.Equal(t, keys{fyne.KeyP, ctrl}, b.command("book").key)
	require.NotEqual(t, keys{fyne.KeyP, ctrl}, b.command("picture").key)
}

func TestDocumentsAreNamedAndKeptWhereTheLastOneWas(t *testing.T) {
	b, v := openedPapers(t, "calendar")
	folder := t.TempDir()
	v.save()
	name, ok := b.win.Canvas().Focused().(*entry)
	require.True(t, ok, "a name is asked for")
	require.Equal(t, "shed-calendar.ics", name.Text)
	b.typeName(filepath.Join(folder, "shed"), fyne.KeyReturn)
	b.settleWork()
	require.FileExists(t, filepath.Join(folder, "shed.ics"))
	require.NotNil(t, b.papers, "the view is there again")

	b.papers.save()
	b.typeName("shed", fyne.KeyReturn) // in the same folder
	require.NotEmpty(t, b.question, "a file that is there is asked about")
	b.choose("Cancel")
	require.NotNil(t, b.papers, "and then nothing has happened")
	b.papers.save()
	b.press(fyne.KeyEscape)
	require.NotNil(t, b.papers)
}
