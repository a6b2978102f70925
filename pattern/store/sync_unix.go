//go:build !windows

package store

import (
	"errors"
	"os"
	"syscall"
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
