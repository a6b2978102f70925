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

// A staged file is about to change. What it will hold and what it holds lie beside it on
// the disk, so that all that is left to do is to give them their names, which takes no
// room.
//
// A file with several names is parted from the others: they go on naming what was before.
// Writing over what all of them name would not be whole or not at all, and to somebody
// whose other name is a backup the parting is what is wanted.
type staged struct {
	path  string      // links followed
	info  fs.FileInfo // of what lies there; nil: nothing
	new   string      // what it will hold; empty once it has its name
	old   string      // what it holds, to become .bak; empty where there is nothing
	bak   []byte      // what .bak held, where that is a file that we may have written
	kept  bool        // .bak is, or may be, what the file held
	begun bool        // the file holds, or may hold, what it is to
}

// errReadOnly is told of a file that its owner has closed against writing.
var errReadOnly = errors.New("is read-only")

// stage prepares the change of one file to data. before reads what lies there now, nil:
// nothing.
func (d disk) stage(path string, before io.Reader, data io.Reader) (*staged, error) {
	s := &staged{path: path}
	folder := filepath.Dir(path)
	failed := func(err error, hint string) (*staged, error) {
		d.unstage(s)
		return nil, newError(path, "save", err, hint)
	}
	if before != nil {
		info, err := d.stat(path)
		if err != nil {
			return failed(err, untouched)
		}
		if info.Mode().Perm()&0o222 == 0 {
			return failed(errReadOnly, "the file is as it was; make it writable first, or save under another name")
		}
		s.info = info
		if err := s.lookAtBak(); err != nil {
			return failed(keepingBak(err), untouched)
		}
		if s.old, err = d.writePart(folder, before, info); err != nil {
			return failed(keepingBak(plainCause(err)), untouched)
		}
	}
	var err error
	if s.new, err = d.writePart(folder, data, s.info); err != nil {
		return failed(err, untouched)
	}
	return s, nil
}

const untouched = "the file is as it was"

func keepingBak(err error) error { return fmt.Errorf("keep the file before it as .bak: %w", err) }

func (s *staged) bakPath() string { return s.path + ".bak" }

// lookAtBak keeps in mind what .bak holds, and refuses what is no file there.
func (s *staged) lookAtBak() error {
	info, err := os.Lstat(s.bakPath())
	switch {
	case err != nil:
		return nil // nothing there, or nothing that could be put back
	case info.IsDir():
		return errFolder
	case info.Mode().IsRegular() && info.Size() <= maxBytes:
		s.bak, _ = os.ReadFile(s.bakPath()) // to be put back where the change is taken back
	}
	return nil
}

// unstage takes away what was prepared.
func (d disk) unstage(s *staged) {
	for _, part := range []string{s.new, s.old} {
		if part != "" {
			_ = d.remove(part) // the next save there does it else
		}
	}
	s.new, s.old = "", ""
}

// commit gives staged files their names, and what was there that of .bak, and sees to it
// that the folder of each is on the disk.
func (d disk) commit(set ...*staged) error {
	for _, s := range set {
		err := d.exchange(s)
		if err == nil {
			err = plainCause(d.sync(filepath.Dir(s.path)))
		}
		if err != nil {
			return &Error{File: s.path, Doing: "save", Err: err}
		}
	}
	return nil
}

func (d disk) exchange(s *staged) error {
	if s.info != nil {
		s.kept = true
		if err := d.rename(s.old, s.bakPath()); err != nil {
			return keepingBak(plainCause(err))
		}
		s.old = ""
	}
	s.begun = true
	if err := d.rename(s.new, s.path); err != nil {
		return plainCause(err)
	}
	s.new = ""
	return nil
}

// takeBack makes a file what it was before commit, by giving .bak its name: that takes
// no room. An error says that the file may hold what it was to. What .bak held before is
// put back too where there is room for it.
func (d disk) takeBack(s *staged) error {
	if s.begun {
		var err error
		if s.info == nil {
			err = d.remove(s.path)
		} else {
			err = d.rename(s.bakPath(), s.path)
		}
		if err != nil {
			return newError(s.path, "take back", err, "")
		}
	}
	d.unstage(s)
	if s.kept {
		d.putBak(s)
	}
	_ = d.sync(filepath.Dir(s.path)) // it failed before, or the power holds
	return nil
}

// putBak gives .bak what it held before. Where there is no room it stays away, or what
// the file holds: either way nothing in it is wrong.
func (d disk) putBak(s *staged) {
	if s.bak == nil {
		if !s.begun {
			_ = d.remove(s.bakPath())
		}
		return
	}
	part, err := d.writePart(filepath.Dir(s.path), bytes.NewReader(s.bak), s.info)
	if err == nil && d.rename(part, s.bakPath()) != nil {
		_ = d.remove(part)
	}
}

// put writes a file whole or not at all without a .bak, into a folder that is held.
func (d disk) put(path string, data []byte) error {
	info, err := d.stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		info, err = nil, nil
	case err == nil && info.IsDir():
		err = errFolder
	}
	part := ""
	if err == nil {
		part, err = d.writePart(filepath.Dir(path), bytes.NewReader(data), info)
	}
	if err == nil {
		if err = d.rename(part, path); err != nil {
			_ = d.remove(part)
		}
	}
	if err != nil {
		return newError(path, "save", err, untouched)
	}
	if err := d.sync(filepath.Dir(path)); err != nil {
		return newError(path, "save", err, "it is written, but may be lost if the power fails now")
	}
	return nil
}
