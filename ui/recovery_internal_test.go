package ui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/planner"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

// leave makes copies as killed windows leave them: of a project with a file and of one never saved.
func (b *bench) leave() (path string) {
	b.t.Helper()
	path = write(b.t, "shed.seam.yaml", oneRoom)
	named, err := planner.Load(path)
	require.NoError(b.t, err)
	fresh, err := planner.Parse("fresh", []byte(strings.Replace(oneRoom, "name: Shed", "name: Loft", 1)))
	require.NoError(b.t, err)
	for _, d := range []*planner.Document{fresh, named} {
		require.NoError(b.t, d.Keep())
		require.NoError(b.t, d.Apply(planner.SetAim{Aim: "sheets"}))
		require.NoError(b.t, d.Leave())
	}
	return path
}

// tap presses the first button on top of the window that says so.
func (b *bench) tap(words string) {
	b.t.Helper()
	for _, o := range test.LaidOutObjects(b.win.Canvas().Overlays().Top()) {
		if btn, ok := o.(*button); ok && btn.label == words {
			btn.Tapped(&fyne.PointEvent{})
			return
		}
	}
	require.Failf(b.t, "no such button", "%q", words)
}

func TestEveryCopyIsListedAndDiscardedOnlyWhenAskedTwice(t *testing.T) {
	b := newBench(t, oneRoom)
	b.leave()
	b.offerRecovery()
	require.NotNil(t, b.over)
	b.tap("Later")
	found, _ := planner.Recoverable()
	require.Len(t, found, 2, "later takes nothing away")

	b.do("unsaved")
	b.tap("Compare")
	b.tap("Back")
	b.tap("Discard")
	require.Contains(t, b.question[0].words, "Cancel")
	found, _ = planner.Recoverable()
	require.Len(t, found, 2, "nothing goes before the second answer")
	b.choose("Discard")
	found, _ = planner.Recoverable()
	require.Len(t, found, 1)
	require.NotNil(t, b.over, "the rest is still listed")
	b.tap("Later")
}

func TestACopyIsOpenedAndSavedOverNothingNewer(t *testing.T) {
	b := newBench(t, oneRoom)
	path := b.leave()
	newer := strings.Replace(oneRoom, "name: Shed", "name: Newer", 1)
	require.NoError(t, os.WriteFile(path, []byte(newer), 0o600))
	b.offerRecovery()
	b.tap("Open") // the newest stands first
	b.settle()
	require.Equal(t, path, b.model.Doc.Path())
	found, _ := planner.Recoverable()
	require.Len(t, found, 1, "it is being worked on")
	b.do("save")
	require.NotEmpty(t, b.question, "the file was changed since")
	b.choose("Cancel")
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, newer, string(text))
}

// A copy that ended the program is not opened by the first button, and what worked before can be had without it.
func TestACopyThatEndedTheProgramIsTold(t *testing.T) {
	b := newBench(t, oneRoom)
	b.leave()
	found, _ := planner.Recoverable()
	deadly, err := found[0].Open()
	require.NoError(t, err)
	require.NoError(t, deadly.Leave())
	b.offerRecovery()
	b.tap("Open what worked")
	b.settle()
	require.NotContains(t, string(b.model.Doc.Source()), "aim:")
	found, _ = planner.Recoverable()
	require.Len(t, found, 2, "the copy stays")
	require.True(t, found[0].Ended)
}

// What lies over the window first, a file's faults, say, does not cost the offer.
func TestTheOfferWaitsForWhatLiesOverTheWindow(t *testing.T) {
	b := newBench(t, oneRoom)
	b.leave()
	b.openPath(filepath.Join(t.TempDir(), "none"))
	over := b.over
	require.NotNil(t, over)
	b.offerRecovery()
	require.Same(t, over, b.over)
	b.stepBack()
	b.settle()
	require.NotNil(t, b.over)
	b.tap("Later")
}

// A name with the ending in capitals is a name with an ending, and a file that comes to stand there is asked about.
func TestSaveAsAsksBeforeItWritesOverAFile(t *testing.T) {
	b := newBench(t, oneRoom)
	capitals := filepath.Join(t.TempDir(), "b.YML")
	b.saveTo(capitals, 0, nil)
	require.Equal(t, capitals, b.model.Doc.Path())
	other := write(t, "c.seam.yaml", "kept")
	b.saveTo(strings.TrimSuffix(other, planner.Extension), 0, nil)
	require.NotEmpty(t, b.question)
	text, err := os.ReadFile(other)
	require.NoError(t, err)
	require.Equal(t, "kept", string(text))
	b.choose("Write over it")
	require.Equal(t, other, b.model.Doc.Path())
}
