package store

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// SaveExport writes a picture or a sheet to a file that the maker named, whole or not
// at all. What lay there before is kept as .bak and replaced says so; the folder must
// be there. A link is followed, so that it stays one.
func SaveExport(file string, data []byte) (replaced bool, err error) {
	failed := func(err error, hint string) (bool, error) {
		return false, &Error{File: file, Doing: "write", Hint: hint, Err: plainCause(err)}
	}
	target, err := followLinks(file)
	if err != nil {
		return failed(err, "")
	}
	folder := filepath.Dir(target)
	if info, err := os.Stat(folder); err != nil {
		return failed(err, "the folder "+folder+" must be there")
	} else if !info.IsDir() {
		return failed(errors.New("lies in no folder"), "")
	}
	info, err := os.Stat(target)
	switch {
	case errors.Is(err, fs.ErrNotExist):
	case err != nil:
		return failed(err, "")
	case info.IsDir():
		return failed(errFolder, "")
	case !info.Mode().IsRegular():
		return failed(errors.New("is no plain file"), "-o - writes to the standard output")
	default:
		if err := keepBefore(target); err != nil {
			return failed(fmt.Errorf("keep the file before it as .bak: %w", plainCause(err)), "the file is as it was")
		}
		replaced = true
	}
	if err := writeWhole(target, bytes.NewReader(data)); err != nil {
		return failed(err, "")
	}
	if err := syncFolder(folder); err != nil {
		return failed(err, "it is written, but may be lost if the power fails now")
	}
	if !replaced {
		// The file was made for its owner alone; a picture is to be given away.
		if err := os.Chmod(target, 0o644); err != nil {
			return failed(err, "it is written, but for you alone")
		}
	}
	return replaced, nil
}

// keepBefore copies a file to its .bak, however long it is.
func keepBefore(file string) error {
	f, err := os.Open(file)
	if err != nil {
		return err
	}
	return errors.Join(writeWhole(file+".bak", f), f.Close())
}
