package journal

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"sync/atomic"
	"syscall"
	"testing"
	"time"

	"io/fs"

	"github.com/stretchr/testify/require"

	"seamwright/planner/disk"
	"seamwright/planner/disk/faulty"
)

// at is a clock that stands still.
func at() time.Time { return time.UnixMilli(1_800_000_000_000) }

// typist writes letters one by one at the end of a text and remembers every state.
type typist struct {
	j      *Journal
	states [][]byte
}

func newTypist(j *Journal, text string) *typist { return &typist{j, [][]byte{[]byte(text)}} }

func (w *typist) text() []byte { return w.states[len(w.states)-1] }

func (w *typist) write(words string) {
	before := w.text()
	after := append(bytes.Clone(before), words...)
	w.states = append(w.states, after)
	w.j.Edit(len(before), 0, []byte(words), after)
}

func store(t *testing.T, sys disk.FS) *Store {
	return &Store{Dir: filepath.Join(t.TempDir(), "unsaved"), Sys: sys, Now: at}
}

// one is the only copy in a store.
func one(t *testing.T, s *Store) Copy {
	t.Helper()
	copies, skipped := (&Store{Dir: s.Dir, Sys: disk.OS{}, Now: at}).List()
	require.Empty(t, skipped)
	require.Len(t, copies, 1)
	return copies[0]
}

// TestTornAnywhere: whatever is missing from the end of a journal, the edits before it are read, and the copy is gone on
// with from there; a flipped bit ends it there too.
func TestTornAnywhere(t *testing.T) {
	s := store(t, disk.OS{})
	w := newTypist(s.New(Origin{Path: "/a", Sum: "s", Text: []byte("start ")}), "start ")
	for i := range 5 {
		w.write(fmt.Sprint("edit ", i, " "))
	}
	require.NoError(t, w.j.Leave())
	path := w.j.path
	whole, err := os.ReadFile(path)
	require.NoError(t, err)
	first := 0
	for cut := len(whole); cut > 0; cut-- {
		st, err := read(whole[:cut])
		if err != nil {
			first = cut
			break
		}
		require.Equal(t, w.states[st.edits], st.text)
	}
	require.Greater(t, first, len(magic))
	require.Less(t, first, len(magic)+80, "the first record only")
	for i := range whole {
		bad := bytes.Clone(whole)
		bad[i] ^= 0x10
		if st, err := read(bad); err == nil {
			require.Equal(t, w.states[st.edits], st.text, "byte %d", i)
		}
	}

	require.NoError(t, os.WriteFile(path, whole[:len(whole)-3], 0o600))
	now, j, err := one(t, s).Take()
	require.NoError(t, err)
	require.Equal(t, w.states[4], now.Text)
	w.j, w.states = j, w.states[:5]
	w.write("gone on")
	require.NoError(t, j.Leave())
	c := one(t, s)
	require.Equal(t, w.text(), c.Text)
	require.Equal(t, 5, c.Edits)
	require.Equal(t, 1, c.Opened)
	require.Equal(t, at(), c.Last)
}

// TestEveryCallFails: whatever call fails while edits are kept, the next edit that reports no fault has all of them, and a
// kill at any call loses only the edit that was being kept.
func TestEveryCallFails(t *testing.T) {
	for _, dead := range []bool{false, true} {
		for n := 1; ; n++ {
			sys := faulty.New(map[string]bool{})
			sys.At, sys.Err, sys.Short, sys.Dead = n, syscall.ENOSPC, true, dead
			s := store(t, sys)
			w := newTypist(s.New(Origin{Text: []byte("start ")}), "start ")
			safe := 0
			for i := range 6 {
				w.write(fmt.Sprint("edit ", i, " "))
				w.j.Answered()
				if w.j.Fault() == nil {
					safe = len(w.states) - 1
				}
			}
			calls := sys.Calls()
			require.True(t, dead || safe == 6, "call %d: one fault is got over by the next edit", n)
			_ = w.j.Leave()
			if safe > 0 {
				require.GreaterOrEqual(t, len(one(t, s).Text), len(w.states[safe]), "call %d", n)
				require.True(t, bytes.HasPrefix(w.text(), one(t, s).Text), "call %d", n)
			}
			if calls < n {
				t.Logf("%d calls, each failed in turn", n-1)
				break
			}
		}
	}
}

// TestOpeningWhereEveryCallFails: a copy survives whatever fails when it is opened or put off.
func TestOpeningWhereEveryCallFails(t *testing.T) {
	for _, dead := range []bool{false, true} {
		for n := 1; ; n++ {
			s := store(t, disk.OS{})
			w := newTypist(s.New(Origin{Text: []byte("start ")}), "start ")
			w.write("work")
			w.j.Answered()
			w.write(" and more")
			require.NoError(t, w.j.Leave())
			sys := faulty.New(map[string]bool{})
			sys.At, sys.Err, sys.Short, sys.Dead = n, syscall.EIO, true, dead
			failing := &Store{Dir: s.Dir, Sys: sys, Now: at}
			copies, _ := failing.List()
			if len(copies) == 1 {
				if _, j, err := copies[0].Take(); err == nil {
					_ = j.Leave()
				}
			}
			c := one(t, s)
			require.Equal(t, "start work and more", string(c.Text), "call %d", n)
			require.Equal(t, "start work", string(c.Good), "call %d", n)
			require.Equal(t, 2, c.Edits, "call %d", n)
			if sys.Calls() < n {
				t.Logf("%d calls, each failed in turn", n-1)
				break
			}
		}
	}
}

// counted counts syncs.
type counted struct {
	disk.OS
	syncs *atomic.Int32
}

func (c counted) OpenFile(name string, flag int, mode fs.FileMode) (disk.File, error) {
	f, err := c.OS.OpenFile(name, flag, mode)
	return countedFile{f, c.syncs}, err
}

type countedFile struct {
	disk.File
	syncs *atomic.Int32
}

func (f countedFile) Sync() error { f.syncs.Add(1); return f.File.Sync() }

// TestSyncedWithoutBeingAsked: the first edit at once, many that follow quickly together.
func TestSyncedWithoutBeingAsked(t *testing.T) {
	var syncs atomic.Int32
	s := store(t, counted{syncs: &syncs})
	w := newTypist(s.New(Origin{Text: []byte("start ")}), "start ")
	for range 200 {
		w.write("x")
	}
	require.Eventually(t, func() bool {
		w.j.mu.Lock()
		defer w.j.mu.Unlock()
		return !w.j.unsynced && !w.j.waiting
	}, 20*time.Second, 5*time.Millisecond)
	require.Positive(t, syncs.Load())
	require.Less(t, syncs.Load(), int32(100))
	t.Logf("200 edits, %d syncs", syncs.Load())
	require.NoError(t, w.j.Drop())
}

// TestGrowthIsBounded: a journal that has grown long is written anew, and nothing of it is lost.
func TestGrowthIsBounded(t *testing.T) {
	s := store(t, disk.OS{})
	w := newTypist(s.New(Origin{Text: []byte("start ")}), "start ")
	big := bytes.Repeat([]byte("long "), 60_000)
	small := w.text()
	for range 30 { // a long text comes and goes
		long := append(bytes.Clone(small), big...)
		w.j.Edit(len(small), 0, big, long)
		w.j.Edit(len(small), len(big), nil, small)
	}
	w.write("end")
	require.NoError(t, w.j.Leave())
	info, err := os.Stat(w.j.path)
	require.NoError(t, err)
	require.Less(t, info.Size(), int64(slack+2*len(big)))
	c := one(t, s)
	require.Equal(t, "start end", string(c.Text))
	require.Equal(t, 61, c.Edits)
}

// FuzzRead: no bytes are read as more than they hold.
func FuzzRead(f *testing.F) {
	whole := bytes.Join([][]byte{[]byte(magic), headRecord(Origin{Path: "/a", Sum: "b", Text: []byte("text")}, 3),
		editRecord(1, 2, []byte("new"), at()), record(answeredKind, nil), record(openedKind, nil)}, nil)
	f.Add(whole)
	f.Add([]byte(magic))
	f.Fuzz(func(t *testing.T, data []byte) {
		st, err := read(data)
		if err == nil && len(st.text) > len(data) {
			t.Fatalf("%d bytes were read as %d", len(data), len(st.text))
		}
	})
}
