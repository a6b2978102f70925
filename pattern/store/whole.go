package store

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/natefinch/atomic"
)

// writeWhole writes a file whole or not at all: to a new one beside it, which takes its
// place and its permissions once it is on the disk. It differs from the library's own
// function in that the cause of an error stays one, and its words those of the system.
func writeWhole(path string, from io.Reader) (err error) {
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		return errFolder
	}
	f, err := os.CreateTemp(filepath.Dir(path), filepath.Base(path))
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			_ = os.Remove(f.Name()) // the error that is told of is the first
		}
	}()
	_, err = io.Copy(f, from)
	if err == nil {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close()); err != nil {
		return err
	}
	switch info, err := os.Stat(path); {
	case errors.Is(err, fs.ErrNotExist):
	case err != nil:
		return err
	default:
		if err := os.Chmod(f.Name(), info.Mode()); err != nil {
			return err
		}
	}
	return atomic.ReplaceFile(f.Name(), path)
}
