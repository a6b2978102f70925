package store

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"github.com/gofrs/flock"
	"golang.org/x/sys/windows"
)

// syncFolder does nothing: the move that ends a save writes through on Windows.
func syncFolder(string) error { return nil }

// replaceFile gives a file another name, in the place of what has it, and writes it
// through to the disk, which os.Rename does not.
func replaceFile(from, to string) error {
	source, err := windows.UTF16PtrFromString(from)
	if err != nil {
		return err
	}
	target, err := windows.UTF16PtrFromString(to)
	if err != nil {
		return err
	}
	return windows.MoveFileEx(source, target, windows.MOVEFILE_REPLACE_EXISTING|windows.MOVEFILE_WRITE_THROUGH)
}

// lockFolder keeps others from saving in a folder, and waits for one that does. A folder
// cannot be locked on Windows, so a file of the user's own stands for it.
func lockFolder(dir string, patience time.Duration) (*flock.Flock, error) {
	whole, err := filepath.Abs(dir)
	if err != nil {
		return nil, err
	}
	name := fmt.Sprintf("oddments-%.16s.lock", versionOf([]byte(whole)))
	return tryLock(flock.New(filepath.Join(os.TempDir(), name)), patience)
}

// giveTo does nothing: a file on Windows has the permissions of its folder.
func giveTo(*os.File, fs.FileInfo, bool) error { return nil }
