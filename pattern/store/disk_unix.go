//go:build !windows

package store

import (
	"errors"
	"io/fs"
	"os"
	"syscall"
	"time"

	"github.com/gofrs/flock"
)

// syncFolder makes sure that a file's new name outlasts a power cut. A file system
// that cannot do it for a folder says EINVAL or ENOTSUP, and is left alone.
func syncFolder(dir string) error {
	f, err := os.Open(dir)
	if err != nil {
		return err
	}
	err = f.Sync()
	if errors.Is(err, syscall.EINVAL) || errors.Is(err, syscall.ENOTSUP) {
		err = nil
	}
	return errors.Join(err, f.Close())
}

// replaceFile gives a file another name, in the place of what has it.
func replaceFile(from, to string) error { return os.Rename(from, to) }

// lockFolder keeps others from saving in a folder, and waits for one that does. The
// lock is on the folder itself, since that on a file would go with the file when another
// takes its place. Where the file system has no such locks it gives none.
func lockFolder(dir string, patience time.Duration) (*flock.Flock, error) {
	f, err := os.Open(dir) // an error here is one of the folder, behind it one of the lock
	if err != nil {
		return nil, err
	}
	if err := f.Close(); err != nil {
		return nil, err
	}
	return tryLock(flock.New(dir, flock.SetFlag(os.O_RDONLY)), patience)
}

// giveTo gives f the owner of another file, and where group says so its group. Only root
// can give a file away; anybody else keeps what the system made it.
func giveTo(f *os.File, like fs.FileInfo, group bool) error {
	to, ok := like.Sys().(*syscall.Stat_t)
	if !ok {
		return nil
	}
	if os.Geteuid() == 0 {
		if info, err := f.Stat(); err != nil || sameOwner(info, to) {
			return err
		}
		return f.Chown(int(to.Uid), int(to.Gid))
	}
	if group {
		_ = f.Chown(-1, int(to.Gid)) // one that the maker does not belong to is refused
	}
	return nil
}

func sameOwner(info fs.FileInfo, to *syscall.Stat_t) bool {
	of, ok := info.Sys().(*syscall.Stat_t)
	return ok && of.Uid == to.Uid && of.Gid == to.Gid
}
