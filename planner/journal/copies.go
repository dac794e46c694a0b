package journal

import (
	"cmp"
	"errors"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"seamwright/planner/disk"
)

// What stands against opening or dropping a copy.
var (
	ErrLive = errors.New("another window is working on this copy, or has since it was listed")
	ErrGone = errors.New("this copy is not there any more: another window has saved it or given it up")
)

// largest is more than any journal of this program: slack and four times the largest document.
const largest = 256 << 20

// Copy is what a journal holds that nobody works on.
type Copy struct {
	Origin Origin
	Text   []byte    // as it was last
	Good   []byte    // the last text that the calculation has answered for, nil for none
	Edits  int       // since the origin
	Last   time.Time // of the last edit
	// Opened is how often a start of the program has opened the copy and ended before the calculation answered.
	Opened int

	store *Store
	path  string
}

// Skipped is something in the folder that is no copy.
type Skipped struct {
	Path string
	Why  string
}

// List gives the copies that nobody works on, the newest first, and names what is not one.
func (s *Store) List() (copies []Copy, skipped []Skipped) {
	entries, err := s.Sys.ReadDir(s.Dir)
	if err != nil {
		return nil, nil
	}
	for _, e := range entries {
		path := filepath.Join(s.Dir, e.Name())
		switch {
		case strings.HasSuffix(path, ending+lockEnding):
			s.sweepLock(path)
			continue
		case strings.HasPrefix(e.Name(), "."): // the writer's own
			continue
		case !strings.HasSuffix(path, ending):
			skipped = append(skipped, Skipped{path, "is not a recovery copy"})
			continue
		}
		c, err := s.look(path)
		switch {
		case errors.Is(err, ErrLive):
		case err != nil:
			skipped = append(skipped, Skipped{path, strings.TrimPrefix(err.Error(), path+" ")})
		case c != nil:
			copies = append(copies, *c)
		}
	}
	slices.SortStableFunc(copies, func(a, b Copy) int {
		return cmp.Or(b.Last.Compare(a.Last), strings.Compare(a.path, b.path))
	})
	return copies, skipped
}

// look reads one journal, nil where there is nothing in it: its program was killed before the first edit was written.
func (s *Store) look(path string) (*Copy, error) {
	if info, err := s.Sys.Stat(path); err == nil && disk.Refused(info) != "" {
		return nil, errors.New(disk.Refused(info))
	}
	j := &Journal{store: s, path: path}
	if err := j.take(); err != nil {
		return nil, err
	}
	defer j.release()
	return s.load(path)
}

// load reads a journal that is locked.
func (s *Store) load(path string) (*Copy, error) {
	data, _, err := disk.Read(s.Sys, path, largest)
	if err != nil {
		return nil, disk.Cause(err)
	}
	if len(data) == 0 {
		_ = s.Sys.Remove(path)
		return nil, nil
	}
	st, err := read(data)
	if err != nil {
		return nil, err
	}
	return &Copy{Origin: st.origin, Text: st.text, Good: st.good, Edits: st.edits, Last: st.last, Opened: st.opened, store: s, path: path}, nil
}

// sweepLock removes a lock that belongs to no journal: its program was killed between the two.
func (s *Store) sweepLock(path string) {
	if _, err := s.Sys.Stat(strings.TrimSuffix(path, lockEnding)); !errors.Is(err, fs.ErrNotExist) {
		return
	}
	if lock, ok, err := s.Sys.TryLock(path, false); ok && err == nil {
		_ = s.Sys.Remove(path)
		_ = lock.Unlock()
	}
}

// Take goes on with a copy: its journal is the caller's from here, behind a synced mark that it was opened. The copy comes
// back as it is now.
func (c Copy) Take() (Copy, *Journal, error) {
	j, now, err := c.claim()
	if err != nil {
		return Copy{}, nil, err
	}
	j.origin, j.text, j.good, j.edits, j.last = now.Origin, now.Text, now.Good, now.Edits, now.Last
	// A torn record at the end would hide what follows: the sound part is written anew.
	err = j.rewrite()
	for range now.Opened + 1 {
		if err == nil {
			err = j.append(record(openedKind, nil))
		}
	}
	if err == nil {
		j.unsynced = true
		err = j.Sync()
	}
	if err != nil {
		j.release()
		return Copy{}, nil, err
	}
	return *now, j, nil
}

// Drop removes the copy, unless it is not the one that was listed any more.
func (c Copy) Drop() error {
	j, now, err := c.claim()
	switch {
	case errors.Is(err, ErrGone):
		return nil
	case err != nil:
		return err
	case now.Edits != c.Edits || !now.Last.Equal(c.Last):
		j.release()
		return ErrLive
	}
	return j.drop()
}

// claim locks a copy and reads it again: another window may have gone on with it since it was listed.
func (c Copy) claim() (*Journal, *Copy, error) {
	j := &Journal{store: c.store, path: c.path}
	if err := j.take(); err != nil {
		return nil, nil, err
	}
	now, err := c.store.load(c.path)
	if err == nil && now == nil || errors.Is(err, fs.ErrNotExist) {
		err = ErrGone
		_ = c.store.Sys.Remove(c.path + lockEnding)
	}
	if err != nil {
		j.release()
		return nil, nil, err
	}
	return j, now, nil
}
