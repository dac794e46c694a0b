// Package journal keeps every edit of an open document where the next start of the program finds it.
//
// A journal is one file in the state folder. It holds the path of the project, the hash of what stood in that file when
// the edits began, the whole text they began with, and then one record for each edit: the bytes replaced, appended as
// the edit happens. Appending reaches the system at once, so a killed program has lost nothing; it is synced at once for
// the first edit and at most a second later for the rest, so a power cut takes one second of work. Every record has a
// length and a checksum; a torn one at the end is what was being written, and is left out.
//
// Its owner holds a lock beside it for as long as it lives, so a second window passes it by. It is removed when the
// document is saved or given up, and made again by the next edit; when the user puts the matter off it stays. A copy
// that is opened again is gone on with in place, behind a mark that it was opened. Once the calculation has answered
// for a text the journal notes that too: a copy whose last mark says opened and not answered has ended the program, and is
// offered as text, beside the last text that was answered, in place of being worked out again.
package journal

import (
	"bytes"
	"crypto/rand"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sync"
	"time"

	"seamwright/calc/guard"
	"seamwright/planner/disk"
)

// SyncWithin is the longest that an edit waits to be safe from a power cut.
const SyncWithin = time.Second

// slack is how much longer than four times the document a journal may grow before it is written anew.
const slack = 4 << 20

// Store is the folder of all journals.
type Store struct {
	Dir string
	Sys disk.FS
	Now func() time.Time
}

// Origin is what edits began from.
type Origin struct {
	Path string // absolute; "" for a document never saved
	Sum  string // hash of what stood in that file, "" for none
	Text []byte
}

// Journal is the journal of one open document. Its methods may be called from any goroutine.
type Journal struct {
	store *Store
	path  string

	mu       sync.Mutex
	origin   Origin
	text     []byte    // as it is now
	good     []byte    // the last text that the calculation has answered for, nil for none
	edits    int       // since the origin
	last     time.Time // of the last edit
	lock     disk.Lock // nil while there is no file
	file     disk.File // nil while there is none, or where it failed
	size     int64
	answered bool // the calculation has answered for the text as it is
	fault    error
	unsynced bool
	waiting  bool // a sync is on its way
	synced   time.Time
}

// New is a journal without a file: the first edit makes it.
func (s *Store) New(from Origin) *Journal {
	return &Journal{store: s, path: filepath.Join(s.Dir, rand.Text()[:16]+ending), origin: from, text: from.Text}
}

// Edit appends one edit: at a place, so many bytes were replaced by others, which made the text that is given whole. The
// text is not to be changed afterwards. A fault is kept for Fault; the next edit then writes the journal anew.
func (j *Journal) Edit(at, removed int, inserted, text []byte) {
	j.mu.Lock()
	defer j.mu.Unlock()
	j.text, j.last = text, j.store.Now()
	j.edits++
	j.answered = false
	if j.file == nil || j.size > slack+4*int64(max(len(text), len(j.origin.Text))) {
		j.fault = j.rewrite()
	} else if j.fault = j.append(editRecord(at, removed, inserted, j.last)); j.fault != nil {
		j.fault = j.rewrite()
	}
	j.syncSoon()
}

// Answered notes that the calculation has come to an end with the text as it is.
func (j *Journal) Answered() {
	j.mu.Lock()
	defer j.mu.Unlock()
	if j.file == nil || j.answered {
		return
	}
	if j.append(record(answeredKind, nil)) == nil {
		j.answered, j.good = true, j.text
	}
}

// Fault is why edits are not being kept at present, nil where they are.
func (j *Journal) Fault() error {
	j.mu.Lock()
	defer j.mu.Unlock()
	return j.fault
}

// Saved starts anew from a text that stands in a file now; what was kept before is no longer needed.
func (j *Journal) Saved(from Origin) error {
	j.mu.Lock()
	defer j.mu.Unlock()
	j.origin, j.text, j.good, j.edits = from, from.Text, nil, 0
	return j.drop()
}

// Drop removes what was kept: the user has given the changes up. The journal may be used again.
func (j *Journal) Drop() error {
	j.mu.Lock()
	defer j.mu.Unlock()
	return j.drop()
}

// Leave syncs what was kept and lets go of it: the next start offers it.
func (j *Journal) Leave() error {
	err := j.Sync()
	j.mu.Lock()
	defer j.mu.Unlock()
	j.release()
	return err
}

// Sync makes all edits so far safe from a power cut.
func (j *Journal) Sync() error {
	j.mu.Lock()
	file, pending := j.file, j.unsynced
	j.unsynced = false
	j.mu.Unlock()
	if file == nil || !pending {
		return nil
	}
	err := file.Sync() // without the lock: an edit does not wait for the disk
	j.mu.Lock()
	defer j.mu.Unlock()
	if err == nil || j.file != file { // it may have been closed meanwhile: saved, or written anew
		return nil
	}
	j.giveUp() // what a failed sync has left on the disk is not known
	j.fault = j.cannot("written", err)
	return j.fault
}

// syncSoon has the journal synced: at once where that was not done for a second, else when the second is over.
func (j *Journal) syncSoon() {
	j.unsynced = true
	if j.waiting || j.file == nil {
		return
	}
	j.waiting = true
	time.AfterFunc(max(0, SyncWithin-time.Since(j.synced)), func() {
		j.mu.Lock()
		j.waiting, j.synced = false, time.Now()
		j.mu.Unlock()
		_ = guard.Do(j.Sync) // Fault tells
	})
}

// append writes a record behind the others. Where that fails the file is given up, since what follows a torn record
// would never be read.
func (j *Journal) append(rec []byte) error {
	n, err := j.file.Write(rec)
	j.size += int64(n)
	if err == nil {
		return nil
	}
	j.giveUp()
	return j.cannot("written", err)
}

// giveUp closes a file that cannot be relied on; the next edit writes it anew.
func (j *Journal) giveUp() {
	if j.file != nil {
		_ = j.file.Close()
		j.file = nil
	}
}

// cannot words what stands against keeping edits.
func (j *Journal) cannot(be string, err error) error {
	return fmt.Errorf("%s cannot be %s: %w", j.path, be, disk.Cause(err))
}

// rewrite makes the file, or replaces one that has grown long or failed: the origin, and what leads to the text in one
// edit, or in two over the text that was answered last.
func (j *Journal) rewrite() error {
	j.giveUp()
	if err := j.store.Sys.MkdirAll(j.store.Dir, 0o700); err != nil {
		return j.cannot("written", err)
	}
	if err := j.take(); err != nil {
		return err
	}
	whole := j.whole()
	_, err := j.store.Sys.Stat(j.path)
	if errors.Is(err, fs.ErrNotExist) {
		return j.create(whole)
	}
	// Over the old one, which may be the only copy there is: whole or not at all.
	if _, err := disk.Bytes(j.store.Sys, j.path, whole, disk.Options{}); err != nil {
		return err
	}
	file, err := j.store.Sys.OpenFile(j.path, os.O_WRONLY|os.O_APPEND, 0)
	if err != nil {
		return j.cannot("written", err)
	}
	j.file, j.size = file, int64(len(whole))
	return nil
}

// whole is what a journal written anew holds.
func (j *Journal) whole() []byte {
	from, edits := j.origin.Text, 0
	var steps [][]byte
	step := func(to []byte) {
		if !bytes.Equal(from, to) {
			at, removed, inserted := Difference(from, to)
			steps = append(steps, editRecord(at, removed, inserted, j.last))
			from = to
			edits++
		}
	}
	if j.good != nil {
		step(j.good)
		steps = append(steps, record(answeredKind, nil))
	}
	step(j.text)
	return bytes.Join(append([][]byte{[]byte(magic), headRecord(j.origin, j.edits-edits)}, steps...), nil)
}

// create makes the file where there is none: without waiting for the disk, since nothing is replaced.
func (j *Journal) create(whole []byte) error {
	file, err := j.store.Sys.OpenFile(j.path, os.O_WRONLY|os.O_CREATE|os.O_EXCL|os.O_APPEND, 0o600)
	if err == nil {
		if _, err = file.Write(whole); err == nil {
			j.file, j.size = file, int64(len(whole))
			return nil
		}
		_ = file.Close()
		_ = j.store.Sys.Remove(j.path)
	}
	return j.cannot("written", err)
}

// take takes the lock beside the file.
func (j *Journal) take() error {
	if j.lock != nil {
		return nil
	}
	lock, ok, err := j.store.Sys.TryLock(j.path+lockEnding, true)
	if err != nil {
		return j.cannot("locked", err)
	}
	if !ok {
		return ErrLive
	}
	j.lock = lock
	return nil
}

// drop removes the file and lets go of it. The lock's own file goes while it is held.
func (j *Journal) drop() error {
	var err error
	if j.lock != nil {
		j.giveUp()
		if err = j.store.Sys.Remove(j.path); errors.Is(err, fs.ErrNotExist) {
			err = nil
		}
		if err != nil {
			err = j.cannot("removed", err)
		} else {
			_ = j.store.Sys.Remove(j.path + lockEnding)
		}
	}
	j.fault, j.unsynced = nil, false
	j.release()
	return err
}

// release closes the file and gives the lock back.
func (j *Journal) release() {
	j.giveUp()
	if j.lock != nil {
		_ = j.lock.Unlock()
		j.lock = nil
	}
}
