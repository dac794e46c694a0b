package planner

import (
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamwright/calc/job"
)

// die stands for a kill: the journal stays as it is, its lock is free.
func die(t require.TestingT, docs ...*Document) {
	for _, d := range docs {
		require.NoError(t, d.journal.Leave())
	}
}

// left are the copies that a start would offer.
func left(t require.TestingT) []Recovery {
	found, skipped := Recoverable()
	require.Empty(t, skipped)
	return found
}

// TestRecovery: every edit is kept as it happens; each copy is offered with its file, time and edits; one that is opened
// and saved is not offered again; one that is put off is.
func TestRecovery(t *testing.T) {
	d, path := saved(t)
	require.NoError(t, d.Keep())
	require.NoError(t, d.Apply(SetName{"Byre"}))
	require.NoError(t, d.Apply(SetAim{job.AimJoints}))
	fresh := New(job.Metric)
	require.NoError(t, fresh.Keep())
	require.NoError(t, fresh.Apply(SetName{"Unsaved"}))
	require.Empty(t, left(t), "both are being worked on")
	die(t, d, fresh)

	found := left(t)
	require.Len(t, found, 2)
	require.Len(t, left(t), 2, "looking takes nothing away")
	byName := map[string]Recovery{}
	for _, r := range found {
		byName[r.Name] = r
	}
	require.Equal(t, path, byName["Byre"].Path)
	require.Equal(t, 2, byName["Byre"].Edits)
	require.Equal(t, FileSame, byName["Byre"].File)
	require.False(t, byName["Byre"].Last.IsZero())
	require.Equal(t, NeverSaved, byName["Unsaved"].File)

	again, err := byName["Byre"].Open()
	require.NoError(t, err)
	require.Equal(t, d.Source(), again.Source())
	require.True(t, again.Dirty())
	require.Len(t, left(t), 1, "it is being worked on again")
	require.True(t, again.Undo())
	require.Equal(t, sound, string(again.Source()))
	require.False(t, again.Dirty())
	require.True(t, again.Redo())
	require.NoError(t, again.Save())
	require.Contains(t, content(t, path), "Byre")
	die(t, again)
	require.Len(t, left(t), 1)

	lost, err := byName["Unsaved"].Open()
	require.NoError(t, err)
	require.True(t, lost.Dirty())
	require.ErrorIs(t, lost.Save(), ErrNoPath)
	require.NoError(t, lost.SaveAs(filepath.Join(t.TempDir(), "new.seam.yaml")))
	die(t, lost)
	require.Empty(t, left(t), "a project that was never saved is not offered for ever")
}

// TestTwoWindowsOneCopy: a copy that another window works on is neither offered nor opened nor thrown away.
func TestTwoWindowsOneCopy(t *testing.T) {
	d, _ := saved(t)
	require.NoError(t, d.Keep())
	require.NoError(t, d.Apply(SetName{"Byre"}))
	die(t, d)
	stale := left(t)[0]
	first, err := left(t)[0].Open()
	require.NoError(t, err)
	_, err = stale.Open()
	require.ErrorContains(t, err, "another window")
	require.ErrorContains(t, stale.Drop(), "another window")
	require.NoError(t, first.Apply(SetName{"Loft"}))
	die(t, first)
	require.ErrorContains(t, stale.Drop(), "another window", "it has been gone on with since it was listed")
	require.Equal(t, "Loft", left(t)[0].Name)
}

// TestOpenedCopyDoesNotOverwrite: where the file was changed after the edits began, saving the copy asks.
func TestOpenedCopyDoesNotOverwrite(t *testing.T) {
	d, path := saved(t)
	require.NoError(t, d.Keep())
	require.NoError(t, d.Apply(SetName{"Byre"}))
	die(t, d)
	newer := strings.Replace(sound, "Shed", "Newer", 1)
	require.NoError(t, os.WriteFile(path, []byte(newer), 0o600))
	require.Equal(t, FileChanged, left(t)[0].File)
	again, err := left(t)[0].Open()
	require.NoError(t, err)
	var changed *ChangedError
	require.ErrorAs(t, again.Save(), &changed)
	require.Equal(t, newer, content(t, path))
	require.NoError(t, again.Apply(SetName{"Loft"}))
	die(t, again)
	require.Equal(t, FileChanged, left(t)[0].File, "also after it was opened once")
	require.NoError(t, os.Remove(path))
	require.Equal(t, FileGone, left(t)[0].File)
	again, err = left(t)[0].Open()
	require.NoError(t, err)
	require.ErrorAs(t, again.Save(), &changed)
	require.True(t, changed.Gone)
}

// TestCrashLoop: a copy that ended the program when it was opened is told apart, and what was answered last is beside it.
func TestCrashLoop(t *testing.T) {
	d, _ := saved(t)
	require.NoError(t, d.Keep())
	require.NoError(t, d.Apply(SetName{"Good"}))
	d.Answered()
	require.NoError(t, d.Apply(SetName{"Deadly"}))
	die(t, d)
	require.False(t, left(t)[0].Ended)
	for range 2 {
		again, err := left(t)[0].Open()
		require.NoError(t, err)
		die(t, again)
		r := left(t)[0]
		require.True(t, r.Ended)
		require.Contains(t, string(r.Text()), "Deadly")
		require.Contains(t, string(r.Good()), "Good")
	}
	good, err := left(t)[0].OpenGood()
	require.NoError(t, err)
	require.Equal(t, "Good", good.Name())
	require.NoError(t, good.Keep())
	require.NoError(t, good.Apply(SetName{"Better"}))
	good.Answered()
	require.Len(t, left(t), 1, "the deadly text is still there")
	die(t, good)
	require.Len(t, left(t), 2)

	again, err := left(t)[1].Open()
	require.NoError(t, err)
	again.Answered()
	die(t, again)
	require.False(t, left(t)[1].Ended, "it was answered after all")
	require.Equal(t, 2, left(t)[1].Edits, "what is written anew counts no more edits")
	for _, want := range []bool{false, true} {
		again, err = left(t)[1].Open()
		require.NoError(t, err)
		die(t, again)
		require.Equal(t, want, left(t)[1].Ended, "a text that worked once is suspected the second time")
	}
	require.Equal(t, sound, string(left(t)[1].Good()))
}

// TestWhatIsNoCopyIsNamed and holds nothing up.
func TestWhatIsNoCopyIsNamed(t *testing.T) {
	d, _ := saved(t)
	require.NoError(t, d.Keep())
	require.NoError(t, d.Apply(SetName{"Byre"}))
	die(t, d)
	store, err := journals()
	require.NoError(t, err)
	at := func(name string) string { return filepath.Join(store.Dir, name) }
	require.NoError(t, syscall.Mkfifo(at("a.journal"), 0o600))
	require.NoError(t, os.Mkdir(at("b.journal"), 0o700))
	require.NoError(t, os.WriteFile(at("c.journal"), []byte("garbage"), 0o600))
	require.NoError(t, os.WriteFile(at("d.json"), []byte("{}"), 0o600))
	require.NoError(t, os.WriteFile(at("e.journal"), nil, 0o600))
	require.NoError(t, os.WriteFile(at("f.journal.lock"), nil, 0o600))
	require.NoError(t, os.Symlink("nowhere", at("g.journal")))
	found, skipped := Recoverable()
	require.Len(t, found, 1)
	why := map[string]string{}
	for _, s := range skipped {
		why[filepath.Base(s.Path)] = s.Why
	}
	require.Len(t, skipped, 5)
	require.Equal(t, "is a pipe", why["a.journal"])
	require.Equal(t, "is a folder", why["b.journal"])
	require.Equal(t, "is not a recovery copy", why["c.journal"])
	require.Equal(t, "is not a recovery copy", why["d.json"])
	require.NoFileExists(t, at("e.journal"), "a kill before the first edit was written leaves nothing")
	require.NoFileExists(t, at("f.journal.lock"))
}

// TestKeptIsShown: after any edits, undos, gestures, saves and reloads a kill leaves exactly what was shown, or nothing
// where the file holds it.
func TestKeptIsShown(t *testing.T) {
	t.Setenv("XDG_STATE_HOME", t.TempDir())
	rapid.Check(t, func(t *rapid.T) {
		dir, err := os.MkdirTemp("", "kept")
		require.NoError(t, err)
		defer os.RemoveAll(dir)
		start := rapid.SampledFrom(starts()).Draw(t, "start")
		d, err := Parse("start", []byte(start))
		require.NoError(t, err)
		require.NoError(t, d.Keep())
		e := editor{t}
		for i, k := 0, e.n("steps", 1, 15); i < k; i++ {
			switch e.n("action", 0, 14) {
			case 0:
				d.Undo()
			case 1:
				d.Redo()
			case 2:
				d.BeginGroup("gesture")
			case 3:
				d.CancelGroup()
			case 4:
				require.NoError(t, d.SaveAs(filepath.Join(dir, e.n2("file")), OverFile|OverChange))
			case 5:
				d.Answered()
			case 6:
				if d.Path() != "" {
					require.NoError(t, d.Reload())
				}
			case 7:
				die(t, d)
				found := left(t)
				if len(found) == 0 {
					return // as on disk
				}
				if d, err = found[0].Open(); err != nil {
					require.NoError(t, err)
				}
			default:
				_ = d.Apply(e.edit(d))
			}
		}
		die(t, d)
		found := left(t)
		switch {
		case len(found) == 1:
			require.Equal(t, string(d.Source()), string(found[0].Text()))
			require.NoError(t, found[0].Drop())
		case d.Path() != "":
			require.Empty(t, found)
			require.False(t, d.Dirty())
		default:
			require.Equal(t, start, string(d.Source()), "nothing was changed")
		}
	})
}

// n2 draws one of two file names.
func (e editor) n2(label string) string {
	return rapid.SampledFrom([]string{"a.seam.yaml", "b.seam.yaml"}).Draw(e.t, label)
}
