package planner

import (
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/planner/disk"
	"seamwright/planner/disk/faulty"
)

// on has the package work on another file system for the length of a test.
func on(t *testing.T, sys disk.FS) {
	t.Helper()
	system = sys
	t.Cleanup(func() { system = disk.OS{} })
}

// TestSaveWhereEveryCallFails: whatever call of a save fails, backup and notes about it among them, the file is the old
// text or the new one, what is kept of the edits stays until the save has succeeded, and a user's own file beside it is
// never touched.
func TestSaveWhereEveryCallFails(t *testing.T) {
	for _, dead := range []bool{false, true} {
		for n := 1; ; n++ {
			d, path := saved(t)
			own := path + ".1.bak"
			require.NoError(t, os.WriteFile(own, []byte("mine"), 0o600))
			require.NoError(t, d.Keep())
			require.NoError(t, d.Apply(SetName{"Byre"}))
			want := string(d.Source())
			sys := faulty.New(map[string]bool{})
			sys.At, sys.Err, sys.Short, sys.Dead = n, syscall.ENOSPC, true, dead
			on(t, sys)
			err := d.Save()
			system = disk.OS{}
			if sys.Calls() < n {
				require.NoError(t, err)
				require.Greater(t, n, 40)
				t.Logf("%d calls, each failed in turn", n-1)
				break
			}
			got := content(t, path)
			if err != nil {
				require.True(t, d.Dirty())
				require.Equal(t, sound, got, "call %d: %v", n, err)
				require.NoError(t, d.Leave())
				found, _ := Recoverable()
				require.Len(t, found, 1, "call %d", n)
				require.Equal(t, want, string(found[0].Text()))
			} else {
				require.Equal(t, want, got, "call %d", n)
			}
			require.Equal(t, "mine", content(t, own))
			require.NoError(t, d.Discard())
		}
	}
}

func TestSaveAsKeepsTheGuards(t *testing.T) {
	d, path := saved(t)
	theirs := strings.Replace(sound, "Shed", "Hut!", 1)

	// Its own name, also through a link, after a foreign change of the same length and date.
	info, err := os.Stat(path)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(path, []byte(theirs), 0o600))
	require.NoError(t, os.Chtimes(path, info.ModTime(), info.ModTime()))
	require.True(t, d.ChangedOnDisk())
	link := filepath.Join(t.TempDir(), "link.seam.yaml")
	require.NoError(t, os.Symlink(path, link))
	for _, name := range []string{path, link} {
		var changed *ChangedError
		require.ErrorAs(t, d.SaveAs(name, OverFile), &changed)
		require.Equal(t, theirs, content(t, path))
	}

	// Another file that is there.
	other := filepath.Join(t.TempDir(), "other.seam.yaml")
	require.NoError(t, os.WriteFile(other, []byte("kept"), 0o600))
	var exists *ExistsError
	require.ErrorAs(t, d.SaveAs(other), &exists)
	require.Equal(t, "kept", content(t, other))
	require.NoError(t, d.SaveAs(other, OverFile))
	require.Equal(t, other, d.Path())
	require.Equal(t, "kept", content(t, other+".bak"))

	// A file with two names.
	second := filepath.Join(filepath.Dir(other), "second")
	require.NoError(t, os.Link(other, second))
	require.NoError(t, d.Apply(SetName{"Byre"}))
	var linked *LinkedError
	require.ErrorAs(t, d.Save(), &linked)
	require.NoError(t, d.Save(PartLinks))
	require.NotContains(t, content(t, second), "Byre")
	require.Contains(t, content(t, other), "Byre")
}

// TestPipeDoesNotHoldUpASave: nor is a pipe replaced by a file.
func TestPipeDoesNotHoldUpASave(t *testing.T) {
	d, path := saved(t)
	pipe := filepath.Join(filepath.Dir(path), "pipe.seam.yaml")
	require.NoError(t, syscall.Mkfifo(pipe, 0o600))
	require.ErrorContains(t, d.SaveAs(pipe, OverFile), "pipe.seam.yaml is a pipe; choose a file name")
	_, err := Load(pipe)
	require.ErrorContains(t, err, "is a pipe, not a project file")
	require.Equal(t, path, d.Path())
}

// TestBackupIsOurs: a user's own file of the backup's name stays, also one that was ours and was changed since; a backup
// is not written again where nothing has changed.
func TestBackupIsOurs(t *testing.T) {
	d, path := saved(t)
	require.NoError(t, os.WriteFile(path+".bak", []byte("the user's own"), 0o644))
	require.NoError(t, d.Save())
	require.Equal(t, "the user's own", content(t, path+".bak"))
	require.Equal(t, sound, content(t, path+".1.bak"))
	require.Len(t, d.SaveNotes(), 1)
	require.Contains(t, d.SaveNotes()[0], "the text before is in shed.seam.yaml.1.bak, since shed.seam.yaml.bak is a file of your own")

	require.NoError(t, d.Save())
	require.NoError(t, d.Save())
	require.Equal(t, sound, content(t, path+".1.bak"), "saving without a change keeps the text before")
	require.Empty(t, d.SaveNotes())

	require.NoError(t, d.Apply(SetName{"Byre"}))
	require.NoError(t, d.Save())
	require.Contains(t, content(t, path+".1.bak"), "name: Barn", "ours is written on")

	require.NoError(t, os.WriteFile(path+".1.bak", []byte("edited by hand"), 0o644))
	require.NoError(t, d.Apply(SetName{"Loft"}))
	require.NoError(t, d.Save())
	require.Equal(t, "edited by hand", content(t, path+".1.bak"))
	require.Contains(t, content(t, path+".2.bak"), "name: Byre")
	info, err := os.Stat(path + ".2.bak")
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o640), info.Mode().Perm(), "a backup is as private as its file")
}

// TestLongNamesAreSavedTwice: 255 bytes is NAME_MAX of most systems (limits.h).
func TestLongNamesAreSavedTwice(t *testing.T) {
	d, path := saved(t)
	long := filepath.Join(filepath.Dir(path), strings.Repeat("ü", 122)+".seam.yaml")
	require.NoError(t, d.SaveAs(long))
	require.NoError(t, d.Apply(SetName{"Byre"}))
	require.NoError(t, d.Save())
	require.Contains(t, content(t, long), "Byre")
	backup := backupName(long, 0)
	require.LessOrEqual(t, len(filepath.Base(backup)), longestBackup)
	require.Contains(t, content(t, backup), "Barn")
}
