package store

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/gofrs/flock"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/store/tomlread"
	"example.com/oddments/species"
)

const maxBytes = tomlread.MaxBytes

// A Version is what a file held when it was read: a digest of its bytes. The zero
// value is Absent.
type Version string

const (
	Absent   Version = ""         // there was no file
	Whatever Version = "whatever" // of a save: write over what is there, whatever it is
)

func versionOf(data []byte) Version {
	sum := sha256.Sum256(data)
	return Version(hex.EncodeToString(sum[:]))
}

// Hold makes this process the writer of the home until Close. The first save does so
// by itself; a session that is going to save does it at its start, to say at once
// that somebody else is at it. It is ErrBusy where another oddments is the writer.
// Of a home that does not exist Hold makes nothing, and leaves it to the first save.
func (h *Home) Hold() error {
	h.mu.Lock()
	defer h.mu.Unlock()
	if _, err := os.Stat(h.dir); errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	return h.hold()
}

// hold is Hold, and makes the folder.
func (h *Home) hold() error {
	if h.lock != nil {
		return nil
	}
	if err := makeFolder(h.dir); err != nil {
		return err
	}
	lock := flock.New(h.path(lockFile))
	ok, err := lock.TryLock()
	switch {
	case err != nil:
		return &Error{File: h.dir, Doing: "write to", Err: plainCause(err), Hint: "reading works; name another folder with --home to save"}
	case !ok:
		return &Error{File: h.dir, Doing: "write to", Err: ErrBusy,
			Hint: "close the other one, or name another folder with --home; reading works all the same"}
	}
	h.lock = lock
	return nil
}

// Close lets another process write to the home. The home can go on being read, and
// saved to again.
func (h *Home) Close() error {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.lock == nil {
		return nil
	}
	lock := h.lock
	h.lock = nil
	return lock.Close()
}

// SavePattern saves p under a stem, over the version base, and gives the version
// that lies there now. With base Absent it makes a new file.
func (h *Home) SavePattern(stem string, p pattern.Pattern, base Version) (Version, error) {
	if err := CheckStem(stem); err != nil {
		return base, &Error{File: stem, Doing: "save", Err: err}
	}
	data, err := patternBytes(h.patternPath(stem), p)
	if err != nil {
		return base, err
	}
	return h.save(h.patternPath(stem), data, base)
}

// SavePatternFile saves p to a file outside of any home, as SavePattern does.
func SavePatternFile(file string, p pattern.Pattern, base Version) (Version, error) {
	data, err := patternBytes(file, p)
	if err != nil {
		return base, err
	}
	return saveOver(file, data, base)
}

// SaveRack saves r over the version base.
func (h *Home) SaveRack(r rack.Rack, base Version) (Version, error) {
	return h.saveChecked(rackFile, base,
		func(w io.Writer) error { return WriteRack(w, r) },
		func(r io.Reader) error { _, err := ReadRack(r, rackFile, nil); return err })
}

// SaveShop saves s over the version base.
func (h *Home) SaveShop(s shop.Shop, base Version) (Version, error) {
	return h.saveChecked(shopFile, base,
		func(w io.Writer) error { return WriteShop(w, s) },
		func(r io.Reader) error { _, err := ReadShop(r, shopFile); return err })
}

// SaveTimbers saves the maker's own timbers over the version base.
func (h *Home) SaveTimbers(list []species.Species, base Version) (Version, error) {
	return h.saveChecked(speciesFile, base,
		func(w io.Writer) error { return WriteSpecies(w, list) },
		func(r io.Reader) error { _, err := ReadSpecies(r, speciesFile); return err })
}

func (h *Home) saveChecked(name string, base Version, write func(io.Writer) error, read func(io.Reader) error) (Version, error) {
	data, err := checkedBytes(h.path(name), write, read)
	if err != nil {
		return base, err
	}
	return h.save(h.path(name), data, base)
}

func patternBytes(file string, p pattern.Pattern) ([]byte, error) {
	return checkedBytes(file,
		func(w io.Writer) error { return WritePattern(w, p) },
		func(r io.Reader) error { _, err := ReadPattern(r, file, nil); return err })
}

// checkedBytes writes a file in memory and reads it back: what could not be read
// again must not take the place of what can.
func checkedBytes(file string, write func(io.Writer) error, read func(io.Reader) error) ([]byte, error) {
	var buf bytes.Buffer
	err := write(&buf)
	if err == nil {
		err = read(bytes.NewReader(buf.Bytes()))
	}
	if err != nil {
		return nil, &Error{File: file, Doing: "save", Err: fmt.Errorf("it could not be read again: %w", err)}
	}
	return buf.Bytes(), nil
}

// save is saveOver by the writer of the home.
func (h *Home) save(path string, data []byte, base Version) (Version, error) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if err := h.hold(); err != nil {
		return base, err
	}
	return saveOver(path, data, base)
}

// saveOver writes data to path, and what lay there to its .bak, where it still is
// the version base. A file that was taken away may be written again: nothing is lost
// by that. A link is followed, so that it stays one.
func saveOver(path string, data []byte, base Version) (Version, error) {
	failed := func(err error, hint string) (Version, error) {
		return base, &Error{File: path, Doing: "save", Hint: hint, Err: plainCause(err)}
	}
	target, err := followLinks(path)
	if err != nil {
		return failed(err, "")
	}
	before, now, err := readHomeFile(target)
	if err != nil {
		return base, err
	}
	after := versionOf(data)
	switch {
	case now == after:
		return after, nil
	case now != Absent && base != Whatever && now != base:
		return failed(ErrChanged, "save it under another name, or read the file again")
	}
	if now != Absent {
		if err := writeWhole(target+".bak", bytes.NewReader(before)); err != nil {
			return failed(fmt.Errorf("keep the file before it as .bak: %w", plainCause(err)), "the file is as it was")
		}
	}
	return after, replace(target, data)
}

// replace writes a file whole or not at all, and its folder where that is missing.
func replace(path string, data []byte) error {
	if _, now, err := readHomeFile(path); err == nil && now == versionOf(data) {
		return nil
	}
	if err := makeFolder(filepath.Dir(path)); err != nil {
		return err
	}
	if err := writeWhole(path, bytes.NewReader(data)); err != nil {
		return &Error{File: path, Doing: "save", Err: plainCause(err), Hint: "the file is as it was"}
	}
	if err := syncFolder(filepath.Dir(path)); err != nil {
		return &Error{File: path, Doing: "save", Err: plainCause(err), Hint: "it is written, but may be lost if the power fails now"}
	}
	return nil
}

// followLinks gives the file that path stands for, which need not exist.
func followLinks(path string) (string, error) {
	const most = 40 // as Linux has it
	for range most {
		info, err := os.Lstat(path)
		if errors.Is(err, fs.ErrNotExist) || err == nil && info.Mode()&fs.ModeSymlink == 0 {
			return path, nil
		}
		if err != nil {
			return "", err
		}
		to, err := os.Readlink(path)
		if err != nil {
			return "", err
		}
		if !filepath.IsAbs(to) {
			to = filepath.Join(filepath.Dir(path), to)
		}
		path = to
	}
	return "", errors.New("links that lead in a circle")
}

// makeFolder makes a folder and those it lies in, where they are missing.
func makeFolder(dir string) error {
	if info, err := os.Stat(dir); err == nil && info.IsDir() {
		return nil
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return &Error{File: dir, Doing: "make the folder", Err: plainCause(err)}
	}
	if err := syncFolder(filepath.Dir(dir)); err != nil {
		return &Error{File: dir, Doing: "make the folder", Err: plainCause(err)}
	}
	return nil
}
