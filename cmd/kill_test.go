package cmd

import (
	"bufio"
	"crypto/sha256"
	"encoding/hex"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamwright/assets"
	"seamwright/planner"
)

// The real window under a virtual display, killed while random keys and clicks edit a project. What it noted of every
// change is held against what the next start would offer.
var (
	windowProgram = flag.String("window", "", "the built window, to be killed")
	windowKills   = flag.Int("kills", 10, "how often the window is killed")
	windowDisplay = flag.Int("display", 55, "the number of the virtual display")
)

// killed is what came of all kills.
type killed struct {
	kills, edits, saves int
	lost                int           // edits that were noted and are in no copy and no file
	worst               time.Duration // of work lost
	ahead               int           // copies that hold an edit that was not noted yet
	idle                int           // kills before any edit
}

func TestWindowSurvivesKills(t *testing.T) {
	if *windowProgram == "" {
		t.Skip("no window is named: see kill.sh")
	}
	display := startDisplay(t)
	var sum killed
	for i := range *windowKills {
		killOnce(t, display, i, &sum)
	}
	t.Logf("%d kills of the window during %d edits and %d saves: %d edits lost, at most %v of work; %d copies held an edit more than was noted, %d kills came before any edit",
		sum.kills, sum.edits, sum.saves, sum.lost, sum.worst, sum.ahead, sum.idle)
	require.LessOrEqual(t, sum.worst, time.Second, "of work lost")
	require.Less(t, sum.idle, sum.kills, "the window was edited")
}

// startDisplay starts a virtual display with a window manager for the length of the test.
func startDisplay(t *testing.T) string {
	home := t.TempDir()
	require.NoError(t, os.MkdirAll(filepath.Join(home, "openbox"), 0o700))
	require.NoError(t, os.WriteFile(filepath.Join(home, "openbox", "rc.xml"), []byte(`<openbox_config xmlns="http://openbox.org/3.4/rc"><applications>
<application class="*"><decor>no</decor><position force="yes"><x>0</x><y>0</y></position></application></applications></openbox_config>`), 0o600))
	display := ":" + strconv.Itoa(*windowDisplay)
	for _, c := range [][]string{{"Xvfb", display, "-screen", "0", "1280x800x24"}, {"openbox"}} {
		run := exec.Command(c[0], c[1:]...)
		run.Env = append(os.Environ(), "DISPLAY="+display, "XDG_CONFIG_HOME="+home, "LANG=C.UTF-8")
		require.NoError(t, run.Start())
		t.Cleanup(func() { _ = run.Process.Kill(); _ = run.Wait() })
		time.Sleep(time.Second)
	}
	return display
}

// killOnce opens the window on a file, edits at random, kills it and counts what is left.
func killOnce(t *testing.T, display string, round int, sum *killed) {
	home := t.TempDir()
	path, notes := filepath.Join(home, "shed.seam.yaml"), filepath.Join(home, "edits")
	require.NoError(t, os.WriteFile(path, assets.KilnYardStudio, 0o600))
	t.Setenv("XDG_STATE_HOME", filepath.Join(home, "state"))
	window := exec.Command(*windowProgram, path)
	window.Env = append(os.Environ(), "DISPLAY="+display, "HOME="+home, "XDG_CONFIG_HOME="+filepath.Join(home, "config"), "SEAMWRIGHT_EDITS="+notes, "LANG=C.UTF-8")
	require.NoError(t, window.Start())
	dead := false
	defer func() {
		if !dead {
			_ = window.Process.Kill()
			_ = window.Wait()
		}
	}()
	x := &hands{t: t, display: display}
	x.do("search", "--sync", "--onlyvisible", "--name", "Seamwright")
	time.Sleep(time.Second)
	for range 6 + rand.IntN(20) {
		if x.edit() {
			sum.saves++
		}
	}
	time.Sleep(time.Duration(rand.IntN(300)) * time.Millisecond)
	at := time.Now()
	require.NoError(t, window.Process.Kill())
	_ = window.Wait()
	dead = true
	sum.count(t, path, notes, at)
}

// count holds what is left against what was noted.
func (k *killed) count(t *testing.T, path, notes string, at time.Time) {
	k.kills++
	hashes, times := readNotes(t, notes)
	k.edits += len(hashes) - 1
	found, skipped := planner.Recoverable()
	require.Empty(t, skipped)
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	_, err = planner.Parse("file", text)
	require.NoError(t, err, "the file is whole")
	if len(found) > 0 {
		require.Len(t, found, 1)
		text = found[0].Text()
	}
	sum := sha256.Sum256(text)
	is := hex.EncodeToString(sum[:])
	last := -1
	for i, h := range hashes {
		if h == is {
			last = i
		}
	}
	end := len(hashes) - 1
	switch {
	case end < 1:
		k.idle++
	case last == end:
	case len(found) > 0 && !found[0].Last.Before(times[end]): // newer than all that was noted: an undo, say, to a text of before
		k.ahead++
	case last < 0:
		_, err := planner.Parse("copy", text)
		require.NoError(t, err)
		k.ahead++
	default:
		k.lost += end - last
		k.worst = max(k.worst, at.Sub(times[last+1]))
		t.Logf("kill %d: left is text %d of %d, %d copies; noted at %v, killed at %v", k.kills, last, end, len(found), times, at)
		for _, r := range found {
			t.Logf("kill %d: a copy of %d edits, the last at %v; %s", k.kills, r.Edits, r.Last, r.File)
		}
	}
}

// readNotes reads what the window noted, a time and a hash a line, behind what it was opened with; a line that was torn is
// left out.
func readNotes(t *testing.T, path string) (hashes []string, times []time.Time) {
	f, err := os.Open(path)
	require.NoError(t, err)
	defer f.Close()
	began := sha256.Sum256(assets.KilnYardStudio)
	hashes, times = []string{hex.EncodeToString(began[:])}, []time.Time{{}}
	for lines := bufio.NewScanner(f); lines.Scan(); {
		when, hash, _ := strings.Cut(lines.Text(), " ")
		ms, err := strconv.ParseInt(when, 10, 64)
		if err != nil || len(hash) != 2*sha256.Size {
			continue
		}
		if hashes[len(hashes)-1] != hash { // a save announces the same text again
			hashes, times = append(hashes, hash), append(times, time.UnixMilli(ms))
		}
	}
	return hashes, times
}

// hands are mouse and keys.
type hands struct {
	t       *testing.T
	display string
}

func (x *hands) do(words ...string) {
	c := exec.Command("xdotool", words...)
	c.Env = append(os.Environ(), "DISPLAY="+x.display)
	out, err := c.CombinedOutput()
	require.NoError(x.t, err, "%s", out)
}

// edit does one random thing, most often one that changes the project; it says whether it saved.
func (x *hands) edit() (saved bool) {
	at := func(left, right, top, bottom int) []string {
		return []string{"mousemove", fmt.Sprint(left + rand.IntN(right-left)), fmt.Sprint(top + rand.IntN(bottom-top))}
	}
	click := []string{"sleep", "0.02", "click", "1", "sleep", "0.05"}
	switch n := rand.IntN(20); {
	case n < 6: // a finish from the rack onto whatever lies there in the plan
		x.do(append(append(at(40, 70, 140, 640), click...), append(at(130, 480, 140, 460), click...)...)...)
	case n < 9: // a corner or a wall is dragged
		x.do(append(append([]string{"key", "Escape"}, at(150, 450, 160, 440)...), append([]string{"mousedown", "1", "sleep", "0.05"}, append(at(130, 480, 140, 460), "sleep", "0.05", "mouseup", "1")...)...)...)
	case n < 13:
		x.do("key", "ctrl+shift+"+strconv.Itoa(1+rand.IntN(3)))
	case n < 15:
		x.do("key", "ctrl+shift+a")
	case n < 17:
		x.do("key", "ctrl+z")
	case n < 18:
		x.do("key", "ctrl+y")
	case n < 19:
		x.do(append(at(130, 480, 140, 460), append(click, "key", []string{"d", "w"}[rand.IntN(2)])...)...)
	default:
		x.do("key", "ctrl+s")
		return true
	}
	return false
}
