package planner

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"seamwright/planner/disk"
)

// Beside a project stands one backup: the text before the last save, under the project's name and backupSuffix. A file
// of that name which this program has not written, or which was changed since, is the user's own and stays; the backup
// then gets a number. What this program wrote last is remembered in the state folder, by content.
const (
	backupSuffix  = ".bak"
	backupsFolder = "backups"
	// longestBackup is up to how many bytes the usual name is used: encrypting file systems allow 143 (eCryptfs, where a
	// name is stored in base 64), so a longer one is shortened.
	longestBackup = 143
	// mostBackups is how many names of the user's own are passed by.
	mostBackups = 9
)

// keepBackup copies what stands in a file to its backup, itself written whole or not at all. A note tells of a name that
// is not the usual one.
func keepBackup(target string, old []byte, like fs.FileInfo) (note string, err error) {
	for n := range mostBackups {
		path := backupName(target, n)
		there, _, err := disk.Read(system, path, largestFile+1)
		switch {
		case err == nil && bytes.Equal(there, old):
			return "", nil // kept already
		case err == nil && !isOurs(path, there), err != nil && !errors.Is(err, fs.ErrNotExist):
			continue // a user's own file, or none that can be read
		}
		if err := claim(path, there, old); err != nil {
			return "the text before was not kept: " + err.Error(), nil // else every save would make another file
		}
		if n > 0 {
			note = fmt.Sprintf("the text before is in %s, since %s is a file of your own", filepath.Base(path), filepath.Base(backupName(target, 0)))
		}
		_, err = disk.Bytes(system, path, old, disk.Options{Part: true, Like: like})
		return note, err
	}
	return "the text before was not kept: all names for it are files of your own", nil
}

// backupName is the name of the nth backup file of a project.
func backupName(target string, n int) string {
	dir, base := filepath.Split(target)
	end := backupSuffix
	if n > 0 {
		end = "." + strconv.Itoa(n) + backupSuffix
	}
	if len(base)+len(end) > longestBackup {
		cut := longestBackup - len(end) - 9
		for cut > 0 && base[cut]&0xC0 == 0x80 { // not within a letter
			cut--
		}
		base = base[:cut] + "-" + hash([]byte(base))[:8]
	}
	return filepath.Join(dir, base+end)
}

// isOurs says whether a backup is what this program wrote there last.
func isOurs(path string, content []byte) bool {
	dir, err := stateFolder()
	if err != nil {
		return false
	}
	notes, _, err := disk.Read(system, filepath.Join(dir, claimName(path)), 4*sha256.Size+2)
	return err == nil && slices.Contains(strings.Fields(string(notes)), hash(content))
}

// claim remembers what stands in a backup and what is about to: a kill between the two leaves either.
func claim(path string, there, next []byte) error {
	return keep(claimName(path), []byte(hash(there)+"\n"+hash(next)+"\n"))
}

// claimName is where the state folder remembers a backup.
func claimName(path string) string {
	if abs, err := filepath.Abs(path); err == nil {
		path = abs
	}
	return filepath.Join(backupsFolder, hash([]byte(path))[:16])
}

func hash(content []byte) string {
	sum := sha256.Sum256(content)
	return hex.EncodeToString(sum[:])
}
