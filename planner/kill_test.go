package planner

import (
	"bufio"
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
)

// kills is how often each loop kills its child: few in everyday tests, more in cmd/kill.sh.
var kills = flag.Int("kills", 5, "how often a writing child is killed")

// The child of a kill loop is this test program again, told by the environment what to do until it is killed.
const (
	childDoes = "SEAMWRIGHT_CHILD"
	childFile = "SEAMWRIGHT_CHILD_FILE"
)

func TestMain(m *testing.M) {
	if does := os.Getenv(childDoes); does != "" {
		writeUntilKilled(does, os.Getenv(childFile))
	}
	os.Exit(m.Run())
}

// writeUntilKilled edits a project as fast as it can, saving after each edit or only having it kept, and tells the number
// of each edit once it is done.
func writeUntilKilled(does, path string) {
	d, err := Load(path)
	if err == nil {
		err = d.Keep()
	}
	for n := 1; err == nil; n++ {
		if err = d.Apply(SetName{fmt.Sprintf("edit %d %s", n, strings.Repeat("x", n*37%380))}); err == nil && does == "save" {
			err = d.Save()
		}
		if err == nil {
			fmt.Println(n)
		}
	}
	fmt.Fprintln(os.Stderr, err)
	os.Exit(1)
}

// killedWhile runs a child until a random moment and gives the last edit that it told of.
func killedWhile(t *testing.T, does, path string) (told int) {
	child := exec.Command(os.Args[0])
	child.Env = append(os.Environ(), childDoes+"="+does, childFile+"="+path)
	child.Stderr = os.Stderr
	out, err := child.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, child.Start())
	lines := bufio.NewScanner(out)
	for lines.Scan() {
		if told == 0 { // it is at work: its time is running
			time.AfterFunc(time.Duration(rand.IntN(120_000))*time.Microsecond, func() { _ = child.Process.Kill() })
		}
		told, err = strconv.Atoi(lines.Text())
		require.NoError(t, err)
	}
	require.ErrorContains(t, child.Wait(), "killed")
	require.Positive(t, told)
	return told
}

// edition is the number of the edit that a text stands at, 0 before the first.
func edition(t *testing.T, src []byte) int {
	d, err := Parse("killed", src)
	require.NoError(t, err, "whole, or not at all")
	if n, _, ok := strings.Cut(strings.TrimPrefix(d.Name(), "edit "), " "); ok {
		number, err := strconv.Atoi(n)
		require.NoError(t, err)
		return number
	}
	return 0
}

// TestKilledWhileSaving: the file is whole and holds the last save that was told of, or the one under way; its backup is
// whole; what is lying about goes with the next save.
func TestKilledWhileSaving(t *testing.T) {
	t.Setenv("XDG_STATE_HOME", t.TempDir())
	path := filepath.Join(t.TempDir(), "shed.seam.yaml")
	saves, lost, litter := 0, 0, 0
	for range *kills {
		require.NoError(t, os.WriteFile(path, []byte(sound), 0o600))
		told := killedWhile(t, "save", path)
		saves += told
		got := edition(t, []byte(content(t, path)))
		require.LessOrEqual(t, got, told+1)
		lost += max(0, told-got)
		if backup, err := os.ReadFile(path + ".bak"); err == nil {
			edition(t, backup)
		}
		temporary, err := filepath.Glob(filepath.Join(filepath.Dir(path), ".seamwright-*"))
		require.NoError(t, err)
		litter += len(temporary)
		for _, r := range left(t) { // the edit that was being saved
			require.GreaterOrEqual(t, edition(t, r.Text()), told)
			require.NoError(t, r.Drop())
		}
	}
	t.Logf("%d kills during %d saves: %d saves lost, %d temporary files left at the moment of a kill", *kills, saves, lost, litter)
	require.Zero(t, lost)
	d, err := Load(path)
	require.NoError(t, err)
	require.NoError(t, d.Apply(SetName{"last"}))
	require.NoError(t, d.Save())
	entries, err := filepath.Glob(filepath.Join(filepath.Dir(path), ".seamwright-*"))
	require.NoError(t, err)
	for _, e := range entries { // young empty ones may be another's
		info, err := os.Stat(e)
		require.NoError(t, err)
		require.Zero(t, info.Size())
	}
}

// TestKilledWhileEditing: every edit that was told of is in the copy that the next start offers.
func TestKilledWhileEditing(t *testing.T) {
	t.Setenv("XDG_STATE_HOME", t.TempDir())
	path := filepath.Join(t.TempDir(), "shed.seam.yaml")
	require.NoError(t, os.WriteFile(path, []byte(sound), 0o600))
	edits, lost := 0, 0
	for range *kills {
		told := killedWhile(t, "edit", path)
		edits += told
		found := left(t)
		require.Len(t, found, 1)
		got := edition(t, found[0].Text())
		require.LessOrEqual(t, got, told+1)
		require.Equal(t, got, found[0].Edits)
		lost += max(0, told-got)
		require.NoError(t, found[0].Drop())
	}
	t.Logf("%d kills during %d edits: %d edits lost", *kills, edits, lost)
	require.Zero(t, lost)
}
