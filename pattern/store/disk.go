package store

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"github.com/gofrs/flock"
)

// A disk makes the calls by which files are saved. Its zero value makes them as they
// are; tests put watch before each of them, to have it fail or to end the work there.
type disk struct {
	watch    func(name, path string, do func() error) error
	patience time.Duration // how long a folder that another one saves to is waited for; 0: usualPatience
}

// usualPatience is far longer than any save takes.
const usualPatience = 2 * time.Second

func (d disk) call(name, path string, do func() error) error {
	if d.watch == nil {
		return do()
	}
	return d.watch(name, path, do)
}

func (d disk) stat(path string) (info fs.FileInfo, err error) {
	err = d.call("stat", path, func() error { info, err = os.Stat(path); return err })
	return info, err
}

// read reads a file as readHomeFile does.
func (d disk) read(path string) (data []byte, version Version, err error) {
	failed := d.call("read", path, func() error { data, version, err = readHomeFile(path); return nil })
	if failed != nil {
		return nil, Absent, newError(path, "read", failed, "")
	}
	return data, version, err
}

// rename gives a file another name, in the place of what has it, and sees on Windows to
// its being on the disk.
func (d disk) rename(from, to string) error {
	return d.call("rename", to, func() error { return replaceFile(from, to) })
}

// remove takes a file away, where there is one.
func (d disk) remove(path string) error {
	err := d.call("remove", path, func() error { return os.Remove(path) })
	if _, still := os.Lstat(path); errors.Is(still, fs.ErrNotExist) {
		return nil
	}
	return err
}

// sync sees to it that the names in a folder outlast a power cut.
func (d disk) sync(folder string) error {
	return d.call("sync folder", folder, func() error { return syncFolder(folder) })
}

// partPrefix and partEnding are of the files that a save writes beside those that it
// changes. They are told by their names, so that the next save clears away what one
// that was killed has left.
const (
	partPrefix = ".oddments-"
	partEnding = ".part"
)

// writePart writes a file of its own into a folder and sees to its being on the disk. It
// gets the owner and the permissions of like; without one those that a new file in that
// folder gets.
func (d disk) writePart(folder string, from io.Reader, like fs.FileInfo) (part string, err error) {
	var f *os.File
	for n := 1; f == nil; n++ {
		part = filepath.Join(folder, fmt.Sprintf("%s%d-%d%s", partPrefix, os.Getpid(), n, partEnding))
		err := d.call("create", part, func() (err error) {
			f, err = os.OpenFile(part, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
			return err
		})
		if err != nil && (!errors.Is(err, fs.ErrExist) || n > 1000) {
			if f != nil {
				err = errors.Join(err, f.Close(), os.Remove(part))
			}
			return "", err
		}
	}
	err = d.call("write", part, func() error { _, err := io.Copy(f, from); return err })
	if err == nil {
		err = d.call("own", part, func() error { return ownLike(f, folder, like) })
	}
	if err == nil {
		err = d.call("sync", part, f.Sync)
	}
	closed := d.call("close", part, f.Close)
	if err = errors.Join(err, closed); err != nil {
		_ = f.Close()      // where the call above was refused
		_ = d.remove(part) // the error that is told of is the first
		return "", err
	}
	return part, nil
}

// ownLike gives f the owner and the permissions of like, and without one the owner of
// the folder: what root saves in a maker's home is to be the maker's.
func ownLike(f *os.File, folder string, like fs.FileInfo) error {
	owner := like
	if owner == nil {
		var err error
		if owner, err = os.Stat(folder); err != nil {
			return err
		}
	}
	if err := giveTo(f, owner, like != nil); err != nil || like == nil {
		return err
	}
	return f.Chmod(like.Mode().Perm())
}

// A holding is the folders that a save is at work in. Whoever else saves there waits.
type holding struct {
	disk
	locks map[string]*flock.Flock
}

func (d disk) holding() *holding { return &holding{d, map[string]*flock.Flock{}} }

// enter makes a folder where it is missing and keeps others from saving in it. It finds
// out whether the folder can be synced in the end, and clears it of what saves that were
// killed have left.
func (h *holding) enter(folder string) error {
	if err := h.makeFolder(folder); err != nil {
		return err
	}
	if _, ok := h.locks[folder]; ok {
		return nil
	}
	var lock *flock.Flock
	err := h.call("lock", folder, func() (err error) {
		patience := h.patience
		if patience == 0 {
			patience = usualPatience
		}
		lock, err = lockFolder(folder, patience)
		return err
	})
	if err != nil {
		return newError(folder, "save in", err, "nothing was written")
	}
	h.locks[folder] = lock
	if lock != nil {
		for _, part := range partsIn(folder) {
			_ = h.remove(part) // it is in nobody's way
		}
	}
	return nil
}

// tryLock takes a lock as soon as it is free. It is nil where there can be none.
func tryLock(lock *flock.Flock, patience time.Duration) (*flock.Flock, error) {
	ok, err := lock.TryLock()
	if !ok && err == nil {
		ctx, stop := context.WithTimeout(context.Background(), patience)
		defer stop()
		ok, err = lock.TryLockContext(ctx, 5*time.Millisecond)
	}
	switch {
	case ok:
		return lock, nil
	case errors.Is(err, context.DeadlineExceeded):
		return nil, ErrFolderBusy
	default:
		return nil, nil
	}
}

// leave lets others save again.
func (h *holding) leave() {
	for folder, lock := range h.locks {
		if lock != nil {
			_ = lock.Close() // the end of the process does it too
		}
		delete(h.locks, folder)
	}
}

// partsIn lists the files that saves which were killed have left in a folder. Nothing
// in them is wanted: the next save there takes them away.
func partsIn(folder string) []string {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return nil
	}
	var all []string
	for _, e := range entries {
		var pid, n int
		if _, err := fmt.Sscanf(e.Name(), partPrefix+"%d-%d"+partEnding, &pid, &n); err == nil &&
			e.Name() == fmt.Sprintf("%s%d-%d%s", partPrefix, pid, n, partEnding) {
			all = append(all, filepath.Join(folder, e.Name()))
		}
	}
	return all
}

// makeFolder makes a folder and those it lies in, where they are missing.
func (d disk) makeFolder(dir string) error {
	failed := func(err error) error { return newError(dir, "make the folder", err, "") }
	switch info, err := d.stat(dir); {
	case err == nil && info.IsDir():
		return nil
	case err == nil:
		return failed(errNoFolder)
	case !errors.Is(err, fs.ErrNotExist):
		return failed(err)
	}
	if err := leadsNowhere(dir); err != nil {
		return err
	}
	up := filepath.Dir(dir)
	if up != dir {
		if err := d.makeFolder(up); err != nil {
			return err
		}
	}
	err := d.call("make folder", dir, func() error { return os.Mkdir(dir, 0o777) })
	if errors.Is(err, fs.ErrExist) {
		err = nil
	}
	if err == nil {
		err = d.call("own", dir, func() error { return ownFile(dir, up) })
	}
	if err == nil {
		err = d.sync(up)
	}
	if err != nil {
		return failed(err)
	}
	return nil
}

// ownFile gives a new file or folder the owner of the folder that it lies in.
func ownFile(path, folder string) error {
	owner, err := os.Stat(folder)
	if err != nil {
		return err
	}
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	return errors.Join(giveTo(f, owner, false), f.Close())
}
