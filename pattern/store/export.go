package store

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// SaveExport writes a picture or a sheet to a file that the maker named, whole or not
// at all. What lay there before is kept as .bak and replaced says so; the folder must
// be there. A link is followed, so that it stays one.
func SaveExport(file string, data []byte) (replaced bool, err error) {
	return disk{}.export(file, data)
}

func (d disk) export(file string, data []byte) (replaced bool, err error) {
	target, err := followLinks(file)
	if err != nil {
		return false, ofLink(file, "write", err)
	}
	held := d.holding()
	defer held.leave()
	if err := held.enterGiven(file, filepath.Dir(target)); err != nil {
		return false, err
	}
	var before io.Reader
	info, err := d.stat(target)
	switch {
	case errors.Is(err, fs.ErrNotExist):
	case err != nil:
		return false, newError(file, "write", err, "")
	case info.IsDir():
		return false, newError(file, "write", errFolder, "")
	case !info.Mode().IsRegular():
		return false, newError(file, "write", errNoFile, "-o - writes to the standard output")
	default:
		f, err := os.Open(target)
		if err != nil {
			return false, newError(file, "write", err, "")
		}
		defer f.Close()
		before, replaced = f, true
	}
	return replaced, d.saveStaged(target, before, data)
}

// enterGiven enters the folder of a file that the maker named, which must be there.
func (h *holding) enterGiven(file, folder string) error {
	info, err := os.Stat(folder)
	if err == nil && !info.IsDir() {
		err = errNoFolder
	}
	if err != nil {
		return newError(file, "write", err, "the folder "+folder+" must be there")
	}
	return h.enter(folder)
}

// SaveNew writes a file that is not there yet, whole or not at all. It is fs.ErrExist
// where there is one of that name, which is left alone.
func SaveNew(file string, data []byte) error { return disk{}.saveNew(file, data) }

func (d disk) saveNew(file string, data []byte) error {
	folder := filepath.Dir(file)
	held := d.holding()
	defer held.leave()
	if err := held.enterGiven(file, folder); err != nil {
		return err
	}
	if _, err := os.Lstat(file); err == nil {
		return newError(file, "write", fs.ErrExist, "")
	}
	part, err := d.writePart(folder, bytes.NewReader(data), nil)
	if err != nil {
		return newError(file, "write", err, "")
	}
	defer func() { _ = d.remove(part) }() // its second name stays
	err = d.call("link", file, func() error { return os.Link(part, file) })
	if err != nil && !sameFile(part, file) {
		// A disk without such links, like most sticks. Nobody else saves here now.
		if err := d.renameNew(part, file); err != nil {
			return newError(file, "write", err, "")
		}
	}
	if err := d.sync(folder); err != nil {
		if gone := d.remove(file); gone == nil {
			return newError(file, "write", err, "nothing is left of it")
		}
		return newError(file, "write", fmt.Errorf("%w; %w", plainCause(err), ErrUnsure), "look at the file before you go on")
	}
	return nil
}

// renameNew gives a part its name unless another file has that.
func (d disk) renameNew(part, file string) error {
	if _, err := os.Lstat(file); err == nil {
		return fs.ErrExist
	}
	return d.rename(part, file)
}

func sameFile(a, b string) bool {
	one, err := os.Stat(a)
	if err != nil {
		return false
	}
	two, err := os.Lstat(b)
	return err == nil && os.SameFile(one, two)
}
