package disk_test

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamwright/planner/disk"
	"seamwright/planner/disk/faulty"
)

func put(t require.TestingT, path, text string) {
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
}

func text(t require.TestingT, path string) string {
	b, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(b)
}

func names(t require.TestingT, dir string) (list []string) {
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	for _, e := range entries {
		list = append(list, e.Name())
	}
	return list
}

func save(sys disk.FS, path, content string) ([]string, error) {
	return disk.Bytes(sys, path, []byte(content), disk.Options{})
}

// TestEveryCallFails lets each call of a save fail in turn, in four ways: the file is the old one or the new one, whole;
// an error leaves the old one; and the next save leaves nothing lying about.
func TestEveryCallFails(t *testing.T) {
	const before, after = "the old text\n", "the new text, which is longer than the old one\n"
	sites := map[string]bool{}
	for _, how := range []struct {
		name        string
		err         error
		short, dead bool
		every       string
	}{
		{"EIO", syscall.EIO, false, false, ""},
		{"full disk", syscall.ENOSPC, true, false, ""},
		{"refused", syscall.EACCES, false, false, ""},
		{"killed", syscall.EIO, true, true, ""},
		{"renaming is refused besides", syscall.EIO, false, false, "Rename"},
	} {
		t.Run(how.name, func(t *testing.T) {
			for n := 1; ; n++ {
				dir := t.TempDir()
				path, real := filepath.Join(dir, "link.yaml"), filepath.Join(dir, "real.yaml")
				put(t, real, before)
				require.NoError(t, os.Symlink("real.yaml", path))
				put(t, filepath.Join(dir, ".seamwright-LEFTBEHIND.tmp"), "left by a killed save")
				require.NoError(t, os.Lchown(real, otherUser(), groupOfOurs(t)))
				sys := faulty.New(sites)
				sys.At, sys.Err, sys.Short, sys.Dead, sys.Every = n, how.err, how.short, how.dead, how.every
				seen := ""
				_, err := disk.Bytes(sys, path, []byte(after), disk.Options{Before: func(target string, is fs.FileInfo) error {
					old, _, err := disk.Read(sys, target, is.Size())
					seen = string(old)
					return err
				}})
				if sys.Calls() < n {
					require.Equal(t, how.every == "", err == nil)
					require.Equal(t, before, seen)
					t.Logf("%d calls, each failed in turn", n-1)
					return
				}
				got := text(t, real)
				require.Contains(t, []string{before, after}, got, "call %d", n)
				if err != nil && !sys.Dead {
					require.Equal(t, before, got, "call %d: %v", n, err)
				}
				if err == nil {
					require.Equal(t, after, got, "call %d", n)
				}
				_, err = save(disk.OS{}, path, "again")
				require.NoError(t, err)
				left := names(t, dir)
				if sys.Dead { // an empty one is young enough to be another's
					left = withoutEmpty(t, dir, left)
				}
				require.Equal(t, []string{"link.yaml", "real.yaml"}, left, "call %d", n)
			}
		})
	}
	for _, name := range []string{"there.pdf", "new.pdf"} {
		requireAsked(t, sites, name)
	}
	requireEverySite(t, sites)
}

// requireAsked lets each call of asking beforehand fail in turn: the answer is that nothing can be written there.
func requireAsked(t *testing.T, sites map[string]bool, name string) {
	dir := t.TempDir()
	put(t, filepath.Join(dir, "there.pdf"), "written before")
	for n := 1; ; n++ {
		sys := faulty.New(sites)
		sys.At, sys.Err = n, syscall.EIO
		err := disk.MayWrite(sys, filepath.Join(dir, name), disk.Options{})
		if sys.Calls() < n {
			require.NoError(t, err)
			return
		}
		require.Error(t, err, "call %d", n)
	}
}

func withoutEmpty(t *testing.T, dir string, list []string) (rest []string) {
	for _, name := range list {
		info, err := os.Stat(filepath.Join(dir, name))
		require.NoError(t, err)
		if info.Size() > 0 {
			rest = append(rest, name)
		}
	}
	return rest
}

// groupOfOurs is a group other than the usual one, so that handing the file over is tried; the usual one where there is no
// other.
func groupOfOurs(t *testing.T) int {
	if os.Geteuid() == 0 {
		return 60 // "games" on many systems; any number will do for root
	}
	groups, err := os.Getgroups()
	require.NoError(t, err)
	for _, g := range groups {
		if g != os.Getgid() {
			return g
		}
	}
	return os.Getgid()
}

// otherUser is whom root hands a file to; anybody else has only themselves.
func otherUser() int {
	if os.Geteuid() == 0 {
		return 5
	}
	return os.Getuid()
}

// requireEverySite: every line of this package that calls the system was made to fail.
func requireEverySite(t *testing.T, sites map[string]bool) {
	call := regexp.MustCompile(`\b(?:sys|t\.sys|f|t\.file)\.(OpenFile|Stat|Lstat|Readlink|ReadDir|Rename|Remove|TryLock|Chmod|Chown|Sync|Close)\(`)
	found := 0
	for _, file := range []string{"write.go", "temporary.go"} {
		for i, line := range strings.Split(text(t, file), "\n") {
			if strings.Contains(line, "defer ") || strings.Contains(line, "elsewhere than on Unix") {
				continue // runs where its function returns; not on the system that tests run on
			}
			for _, m := range call.FindAllStringSubmatch(line, -1) {
				found++
				if strings.Contains(line, "Chown(user") && os.Geteuid() != 0 {
					continue // only root comes here
				}
				place := file + ":" + strconv.Itoa(i+1) + " "
				require.True(t, sites[place+m[1]] || sites[place+"File."+m[1]], "%s%s never failed", place, m[1])
			}
		}
	}
	require.Greater(t, found, 15)
	t.Logf("%d call sites, each was hit", found)
}

// TestOwnerGroupAndModeStay: what the file was to others it stays. As root any owner can be kept.
func TestOwnerGroupAndModeStay(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.yaml")
	put(t, path, "old")
	require.NoError(t, os.Chown(path, os.Getuid(), groupOfOurs(t)))
	require.NoError(t, os.Chmod(path, 0o660))
	was, err := os.Stat(path)
	require.NoError(t, err)
	notes, err := save(disk.OS{}, path, "new")
	require.NoError(t, err)
	require.Empty(t, notes)
	is, err := os.Stat(path)
	require.NoError(t, err)
	require.Equal(t, was.Mode(), is.Mode())
	require.Equal(t, was.Sys().(*syscall.Stat_t).Gid, is.Sys().(*syscall.Stat_t).Gid)
	require.Equal(t, was.Sys().(*syscall.Stat_t).Uid, is.Sys().(*syscall.Stat_t).Uid)
}

// TestGroupThatCannotBeKept is told, and the file is not opened to another group instead.
func TestGroupThatCannotBeKept(t *testing.T) {
	if os.Getgid() == groupOfOurs(t) {
		t.Skip("this user has one group only")
	}
	path := filepath.Join(t.TempDir(), "a.yaml")
	put(t, path, "old")
	require.NoError(t, os.Chown(path, os.Getuid(), groupOfOurs(t)))
	require.NoError(t, os.Chmod(path, 0o664))
	notes, err := disk.Bytes(noGroup{}, path, []byte("new"), disk.Options{})
	require.NoError(t, err)
	require.Len(t, notes, 1)
	require.Contains(t, notes[0], "its group could not be kept")
	is, err := os.Stat(path)
	require.NoError(t, err)
	require.Equal(t, fs.FileMode(0o644), is.Mode().Perm(), "the group gets no more than everybody")
}

// noGroup is a system that refuses to hand files over.
type noGroup struct{ disk.OS }

func (noGroup) OpenFile(name string, flag int, mode fs.FileMode) (disk.File, error) {
	f, err := disk.OS{}.OpenFile(name, flag, mode)
	return noChown{f}, err
}

type noChown struct{ disk.File }

func (noChown) Chown(int, int) error { return fs.ErrPermission }

func TestHardLinksArePartedOnlyWithConsent(t *testing.T) {
	dir := t.TempDir()
	a, b := filepath.Join(dir, "a"), filepath.Join(dir, "b")
	put(t, a, "old")
	require.NoError(t, os.Link(a, b))
	_, err := save(disk.OS{}, a, "new")
	var linked *disk.LinkedError
	require.ErrorAs(t, err, &linked)
	require.Equal(t, uint64(2), linked.Names)
	require.Equal(t, "old", text(t, a))
	_, err = disk.Bytes(disk.OS{}, a, []byte("new"), disk.Options{Part: true})
	require.NoError(t, err)
	require.Equal(t, "new", text(t, a))
	require.Equal(t, "old", text(t, b))
}

// TestWhatIsNoFileIsRefused: in one clear line, and without waiting for the other end of a pipe.
func TestWhatIsNoFileIsRefused(t *testing.T) {
	dir := t.TempDir()
	pipe, link := filepath.Join(dir, "pipe"), filepath.Join(dir, "link")
	require.NoError(t, syscall.Mkfifo(pipe, 0o600))
	require.NoError(t, os.Symlink(pipe, link))
	for path, why := range map[string]string{pipe: "is a pipe", link: "is a pipe", dir: "is a folder", "/dev/null": "is a device"} {
		done := make(chan error, 1)
		go func() { _, err := save(disk.OS{}, path, "x"); done <- err }()
		select {
		case err := <-done:
			require.ErrorContains(t, err, path+" "+why+"; choose a file name")
		case <-time.After(10 * time.Second):
			t.Fatalf("%s holds the save up", path)
		}
		_, _, err := disk.Read(disk.OS{}, path, 10)
		require.ErrorContains(t, err, why)
	}
	info, err := os.Lstat(pipe)
	require.NoError(t, err)
	require.NotZero(t, info.Mode()&fs.ModeNamedPipe)
}

func TestLinkToNothingIsFollowed(t *testing.T) {
	dir := t.TempDir()
	link := filepath.Join(dir, "link")
	require.NoError(t, os.Symlink("later", link))
	_, err := save(disk.OS{}, link, "new")
	require.NoError(t, err)
	require.Equal(t, "new", text(t, filepath.Join(dir, "later")))
	info, err := os.Lstat(link)
	require.NoError(t, err)
	require.NotZero(t, info.Mode()&fs.ModeSymlink)
	round := filepath.Join(dir, "round")
	require.NoError(t, os.Symlink("round", round))
	_, err = save(disk.OS{}, round, "new")
	require.ErrorContains(t, err, "could not be saved")
}

// TestLongestName: 255 bytes is what most systems allow (NAME_MAX, limits.h).
func TestLongestName(t *testing.T) {
	path := filepath.Join(t.TempDir(), strings.Repeat("n", 250)+".yaml")
	for _, s := range []string{"one", "two"} {
		_, err := save(disk.OS{}, path, s)
		require.NoError(t, err)
		require.Equal(t, s, text(t, path))
	}
}

// TestSweepSparesTheLiving: a temporary file that is being written stays; one whose writer is dead goes.
func TestSweepSparesTheLiving(t *testing.T) {
	dir := t.TempDir()
	_, err := disk.Write(disk.OS{}, filepath.Join(dir, "outer"), disk.Options{}, func(w io.Writer) error {
		_, err := w.Write([]byte("half"))
		require.NoError(t, err)
		put(t, filepath.Join(dir, ".seamwright-DEAD.tmp"), "left")
		put(t, filepath.Join(dir, ".seamwright-YOUNG.tmp"), "")
		put(t, filepath.Join(dir, ".other.tmp"), "a user's own")
		_, err = save(disk.OS{}, filepath.Join(dir, "inner"), "x")
		require.NoError(t, err)
		_, err = w.Write([]byte(" whole"))
		return err
	})
	require.NoError(t, err)
	require.Equal(t, "half whole", text(t, filepath.Join(dir, "outer")))
	require.Equal(t, []string{".other.tmp", ".seamwright-YOUNG.tmp", "inner", "outer"}, names(t, dir))
}

// TestWrittenMeanwhile: what another program writes while a save is under way is not written over.
func TestWrittenMeanwhile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a")
	put(t, path, "old")
	_, err := disk.Bytes(disk.OS{}, path, []byte("mine"), disk.Options{Before: func(string, fs.FileInfo) error {
		put(t, path, "theirs")
		return nil
	}})
	require.ErrorIs(t, err, disk.ErrMoved)
	require.Equal(t, "theirs", text(t, path))
	refused := errors.New("no")
	_, err = disk.Bytes(disk.OS{}, path, []byte("mine"), disk.Options{Before: func(string, fs.FileInfo) error { return refused }})
	require.ErrorIs(t, err, refused)
	require.Len(t, names(t, filepath.Dir(path)), 1)
}

// TestRandomFaults: whatever single call fails in a run of saves, every file is at every moment a text that was saved
// whole, and the last save that reported success stands.
func TestRandomFaults(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		dir, err := os.MkdirTemp("", "faults")
		require.NoError(rt, err)
		defer os.RemoveAll(dir)
		path, stands := filepath.Join(dir, "a"), ""
		for i := range rapid.IntRange(1, 8).Draw(rt, "saves") {
			sys := faulty.New(map[string]bool{})
			sys.At = rapid.IntRange(0, 25).Draw(rt, "at")
			sys.Err = rapid.SampledFrom([]error{syscall.EIO, syscall.ENOSPC, syscall.EACCES}).Draw(rt, "error")
			sys.Short, sys.Dead = rapid.Bool().Draw(rt, "short"), rapid.Bool().Draw(rt, "dead")
			next := strings.Repeat(strconv.Itoa(i), rapid.IntRange(1, 100_000).Draw(rt, "size"))
			_, err := save(sys, path, next)
			got, reading := os.ReadFile(path)
			if err == nil {
				require.Equal(rt, next, string(got))
			} else if reading == nil {
				require.Contains(rt, []string{stands, next}, string(got))
			} else {
				require.Empty(rt, stands)
			}
			stands = string(got)
		}
	})
}
