// Package store reads and writes the files that a maker owns, and is the only
// package beside cmd that touches the disk.
//
// There are five kinds of file, all TOML: a pattern, a rack, a shop, a list of
// timbers, and orders. A rack may come and go as CSV too. The Read functions are strict: a file is taken whole or refused with
// everything that is wrong in it (Errors, each with line, column and field). The
// Write functions are stable: what they write reads back to the same values, and
// writes to the same bytes.
//
// A Home is the folder that holds them. Reading it creates nothing. What is read
// comes with a Version; a save names the version it stands on and is refused when
// the file is no longer that (ErrChanged), or when another oddments is the writer of
// the folder (ErrBusy). A save is whole or not at all and keeps the file before it
// as .bak.
//
// Lengths are exact and written as length.Exact gives them; moisture and humidity
// are percent, temperatures degrees Celsius.
package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"

	"example.com/oddments/pattern/store/tomlread"
)

// A FileError is one thing that is wrong in a file.
type FileError = tomlread.FileError

// Errors is all that is wrong in one file, sorted by line.
type Errors = tomlread.Errors

// What went wrong with a file as a whole, for errors.Is.
var (
	ErrBusy       = errors.New("another oddments is writing to this home")
	ErrFolderBusy = fmt.Errorf("another program is saving there and does not come to an end: %w", ErrBusy)
	ErrChanged    = errors.New("the file was changed by another program")
	ErrNotFound   = fmt.Errorf("there is no such pattern: %w", fs.ErrNotExist)
	ErrBegun      = errors.New("the change was begun, and is finished at the next start")
	ErrUnsure     = errors.New("it may be written all the same")
	ErrMended     = errors.New("a change that was begun before is finished now")
	ErrNoHome     = errors.New("your home folder is not known: HOME is not set")
	ErrStem       = errors.New("no name for a saved pattern")
)

// What lies where a file or a folder should be.
var (
	errFolder   = errors.New("is a folder, and must be a file")
	errNoFolder = errors.New("is a file, and must be a folder")
	errNoFile   = errors.New("is no plain file")
)

// An Error is a file or folder that could not be used as a whole.
type Error struct {
	File  string // or folder
	Doing string // what was being done: "save", "read"
	Hint  string // the next step; may be empty
	Err   error
}

// Error returns what was being done, with what, and what went wrong.
func (e *Error) Error() string { return e.Doing + " " + e.File + ": " + e.Err.Error() }

// Unwrap returns the cause.
func (e *Error) Unwrap() error { return e.Err }

// newError returns an Error with the plain cause of err. Where a file stands in the place of
// a folder on the way to file, it is of that one.
func newError(file, doing string, err error, hint string) *Error {
	if errors.Is(err, syscall.ENOTDIR) {
		for above := filepath.Dir(file); above != filepath.Dir(above); above = filepath.Dir(above) {
			if is, err := os.Stat(above); err == nil && !is.IsDir() {
				return &Error{File: above, Doing: doing, Hint: "name a folder, or move the file away", Err: errNoFolder}
			}
		}
	}
	return &Error{File: file, Doing: doing, Hint: hint, Err: plainCause(err)}
}

// plainCause takes the path and the call out of an error of the system: the Error
// around it names the file already.
func plainCause(err error) error {
	if path, ok := errors.AsType[*fs.PathError](err); ok {
		return path.Err
	}
	if link, ok := errors.AsType[*os.LinkError](err); ok {
		return link.Err
	}
	return err
}
