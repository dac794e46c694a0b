package planner

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamwright/calc/job"
	"seamwright/calc/length"
)

// saved is a sound project on disk, opened and changed.
func saved(t *testing.T) (*Document, string) {
	t.Helper()
	t.Setenv("XDG_STATE_HOME", t.TempDir())
	path := filepath.Join(t.TempDir(), "shed.seam.yaml")
	require.NoError(t, os.WriteFile(path, []byte(sound), 0o640))
	d, err := Load(path)
	require.NoError(t, err)
	require.False(t, d.Dirty())
	require.Equal(t, "shed", d.Title())
	require.NoError(t, d.Apply(SetName{"Barn"}))
	require.True(t, d.Dirty())
	require.Equal(t, "shed *", d.Title())
	return d, path
}

func content(t *testing.T, path string) string {
	t.Helper()
	b, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(b)
}

func TestSaveKeepsModeAndOneBackup(t *testing.T) {
	d, path := saved(t)
	require.NoError(t, d.Save())
	require.False(t, d.Dirty())
	require.Equal(t, strings.Replace(sound, "name: Shed", "name: Barn", 1), content(t, path))
	require.Equal(t, sound, content(t, path+".bak"))
	info, err := os.Stat(path)
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o640), info.Mode().Perm())

	require.NoError(t, d.Apply(SetName{"Byre"}))
	require.NoError(t, d.Save())
	require.Contains(t, content(t, path+".bak"), "name: Barn")
	require.True(t, d.Undo(), "saving must not end the history")
	require.True(t, d.Dirty())
	requireNoLitter(t, path, 2)
}

// requireNoLitter: no temporary file is left beside the project.
func requireNoLitter(t *testing.T, path string, files int) {
	t.Helper()
	entries, err := os.ReadDir(filepath.Dir(path))
	require.NoError(t, err)
	require.Len(t, entries, files)
}

func TestSaveFollowsLinks(t *testing.T) {
	d, path := saved(t)
	link := filepath.Join(filepath.Dir(path), "link.seam.yaml")
	require.NoError(t, os.Symlink(path, link))
	require.NoError(t, d.SaveAs(link), "it is the same file")
	info, err := os.Lstat(link)
	require.NoError(t, err)
	require.NotZero(t, info.Mode()&os.ModeSymlink, "the link itself must stay")
	require.Contains(t, content(t, path), "name: Barn")
}

func TestChangedOnDisk(t *testing.T) {
	d, path := saved(t)
	require.False(t, d.ChangedOnDisk())
	later := time.Now().Add(time.Hour)
	require.NoError(t, os.Chtimes(path, later, later))
	require.False(t, d.ChangedOnDisk(), "the same text with another date is no change")

	require.NoError(t, os.WriteFile(path, []byte(strings.Replace(sound, "Shed", "Hut!", 1)), 0o600))
	require.True(t, d.ChangedOnDisk())
	var changed *ChangedError
	require.ErrorAs(t, d.Save(), &changed)
	require.False(t, changed.Gone)
	require.Contains(t, content(t, path), "Hut!")

	require.NoError(t, d.Reload())
	require.Equal(t, "Hut!", d.Name())
	require.False(t, d.Dirty())
	require.True(t, d.Undo())
	require.Equal(t, "Barn", d.Name())

	require.NoError(t, os.Remove(path))
	require.ErrorAs(t, d.Save(), &changed)
	require.True(t, changed.Gone)
	require.NoError(t, d.Save(OverChange))
	require.Contains(t, content(t, path), "name: Barn")
	require.NoError(t, d.Save())
}

func TestNoPermission(t *testing.T) {
	if os.Geteuid() == 0 {
		t.Skip("root may write anywhere")
	}
	d, path := saved(t)
	require.NoError(t, os.Chmod(filepath.Dir(path), 0o500))
	defer os.Chmod(filepath.Dir(path), 0o700)
	require.ErrorContains(t, d.Save(), "you do not have permission")
	require.Equal(t, sound, content(t, path))
}

func TestSaveAsRefusesFolders(t *testing.T) {
	d := New(job.Imperial)
	require.ErrorIs(t, d.Save(), ErrNoPath)
	require.ErrorContains(t, d.SaveAs(t.TempDir()), "is a folder; choose a file name")
	require.ErrorContains(t, d.SaveAs(filepath.Join(t.TempDir(), "none", "x.seam.yaml")), "could not be saved")
	require.Equal(t, "Not saved yet", d.Title())
}

func TestRecent(t *testing.T) {
	t.Setenv("XDG_STATE_HOME", t.TempDir())
	require.Empty(t, Recent())
	dir := t.TempDir()
	for _, name := range []string{"a", "b", "c", "a"} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), nil, 0o600))
		require.NoError(t, Remember(filepath.Join(dir, name)))
	}
	require.NoError(t, os.Remove(filepath.Join(dir, "b")))
	require.Equal(t, []RecentFile{{Path: filepath.Join(dir, "a")}, {Path: filepath.Join(dir, "c")}, {Path: filepath.Join(dir, "b"), Missing: true}}, Recent())
	for i := range 20 {
		require.NoError(t, Remember(filepath.Join(dir, strings.Repeat("x", i+1))))
	}
	require.Len(t, Recent(), mostRecent)
	require.NoError(t, ForgetRecent())
	require.Empty(t, Recent())
}

// TestRoundTrip: load, save and load again give the same text and the same job.
func TestRoundTrip(t *testing.T) {
	for _, src := range starts() {
		d, err := Parse("a", []byte(src))
		require.NoError(t, err)
		path := filepath.Join(t.TempDir(), "a.seam.yaml")
		t.Setenv("XDG_STATE_HOME", t.TempDir())
		require.NoError(t, d.SaveAs(path))
		again, err := Load(path)
		require.NoError(t, err)
		require.Equal(t, src, string(again.Source()))
		require.Equal(t, d.Job(), again.Job())
	}
}

func TestGesturesAreOneStep(t *testing.T) {
	d := New(job.Imperial)
	require.NoError(t, d.Apply(AddRoom{ID: "a", Corners: square(10 * length.Foot), Height: 8 * length.Foot}))
	before := string(d.Source())

	d.BeginGroup("move corner")
	for i := range 5 {
		to := square(length.Length(11+i) * length.Foot)[2]
		require.NoError(t, d.Apply(MoveCorner{"a", 3, to}))
	}
	require.Error(t, d.Apply(MoveCorner{"a", 3, square(10 * length.Foot)[1]}), "an outline that closes up is refused")
	d.EndGroup()
	label, ok := d.CanUndo()
	require.True(t, ok)
	require.Equal(t, "move corner", label)
	require.True(t, d.Undo())
	require.Equal(t, before, string(d.Source()))
	label, ok = d.CanRedo()
	require.True(t, ok)
	require.Equal(t, "move corner", label)

	d.BeginGroup("move corner")
	require.NoError(t, d.Apply(MoveCorner{"a", 3, square(20 * length.Foot)[2]}))
	d.CancelGroup()
	require.Equal(t, before, string(d.Source()))

	for _, h := range []length.Length{9, 10, 11} {
		require.NoError(t, d.ApplyMerged("height", SetRoomHeight{"a", h * length.Foot}))
	}
	require.True(t, d.Undo())
	require.Equal(t, before, string(d.Source()))
	require.True(t, d.Redo())
	require.Equal(t, 11*length.Foot, d.Job().Rooms[0].Height)
	require.Error(t, d.Activate("none"))
}
