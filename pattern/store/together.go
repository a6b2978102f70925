package store

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/rack"
)

// togetherFile is the note that says, before the first of several files is written,
// what all of them will hold. While it lies there the set is to be finished.
const togetherFile = "together.note"

// togetherFormat is the note's first value. A note outlives only the program that
// was ended in the midst of a save, so there is one version of it.
const togetherFormat = "oddments/together 1"

// A Change is one file of several that are saved together.
type Change struct {
	Name string  `json:"name"` // under the home's folder, with slashes
	Base Version `json:"base"` // what it stands on
	Data []byte  `json:"data"`
}

type note struct {
	Format string   `json:"format"`
	Files  []Change `json:"files"`
}

// RackChange prepares r, which stands on the version base, for SaveTogether.
func RackChange(r rack.Rack, base Version) (Change, error) {
	data, err := checkedBytes(rackFile,
		func(w io.Writer) error { return WriteRack(w, r) },
		func(in io.Reader) error { _, err := ReadRack(in, rackFile, nil); return err })
	return Change{Name: rackFile, Base: base, Data: data}, err
}

// PatternChange prepares p, which stands on the version base, for SaveTogether.
func PatternChange(stem string, p pattern.Pattern, base Version) (Change, error) {
	if err := CheckStem(stem); err != nil {
		return Change{}, &Error{File: stem, Doing: "save", Err: err}
	}
	name := patternsFolder + "/" + stem + tomlEnding
	data, err := patternBytes(name, p)
	return Change{Name: name, Base: base, Data: data}, err
}

// astray reports whether a change names no file that is saved together.
func (c Change) astray() bool {
	stem, ok := strings.CutSuffix(strings.TrimPrefix(c.Name, patternsFolder+"/"), tomlEnding)
	return c.Name != rackFile && (!ok || !strings.HasPrefix(c.Name, patternsFolder+"/") || CheckStem(stem) != nil)
}

// SaveTogether saves several files so that, whenever the program is ended, either all
// of them are as before or all are new, once Mend has run. It is ErrChanged, and
// nothing is written, where one of them is not what its change stands on. It gives
// the versions that lie there now, in the order of the changes.
func (h *Home) SaveTogether(changes ...Change) ([]Version, error) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if err := h.hold(); err != nil {
		return nil, err
	}
	if err := h.mend(); err != nil {
		return nil, err
	}
	before := make([][]byte, len(changes))
	for i, c := range changes {
		data, now, err := readHomeFile(h.path(filepath.FromSlash(c.Name)))
		if err != nil {
			return nil, err
		}
		if now != c.Base {
			return nil, &Error{File: h.path(filepath.FromSlash(c.Name)), Doing: "save", Err: ErrChanged, Hint: "read it again first; nothing was written"}
		}
		before[i] = data
	}
	data, err := json.Marshal(note{togetherFormat, changes})
	if err != nil {
		return nil, err
	}
	if err := replace(h.path(togetherFile), data); err != nil {
		return nil, err
	}
	versions := make([]Version, len(changes))
	for i, c := range changes {
		if versions[i], err = saveOver(h.path(filepath.FromSlash(c.Name)), c.Data, Whatever); err != nil {
			return nil, errors.Join(err, h.takeBack(changes[:i], before))
		}
	}
	return versions, h.removeHeld(h.path(togetherFile))
}

// takeBack puts the files that were written already back to what they were. Where
// that fails too the note stays, and the next start finishes the set.
func (h *Home) takeBack(written []Change, before [][]byte) error {
	for i, c := range written {
		path := h.path(filepath.FromSlash(c.Name))
		var err error
		if c.Base == Absent {
			err = h.removeHeld(path)
		} else {
			err = replace(path, before[i])
		}
		if err != nil {
			return err
		}
	}
	return h.removeHeld(h.path(togetherFile))
}

// Mend finishes files that were being saved together when the program was ended. It
// touches nothing where there are none, or where another oddments is at it.
func (h *Home) Mend() error {
	h.mu.Lock()
	defer h.mu.Unlock()
	if _, now, err := readHomeFile(h.path(togetherFile)); err != nil || now == Absent {
		return err
	}
	if err := h.hold(); err != nil {
		if errors.Is(err, ErrBusy) {
			return nil
		}
		return err
	}
	return h.mend()
}

func (h *Home) mend() error {
	path := h.path(togetherFile)
	data, now, err := readHomeFile(path)
	if err != nil || now == Absent {
		return err
	}
	n, ok := readNote(data)
	if !ok {
		return &Error{File: path, Doing: "finish the save noted in", Err: errors.New("it cannot be read"), Hint: "move it away; the files beside it are whole"}
	}
	var failed error
	for _, c := range n.Files {
		failed = errors.Join(failed, h.finish(c))
	}
	if failed != nil {
		return failed
	}
	return h.removeHeld(path)
}

// readNote reads a note, and takes none whose files lie elsewhere.
func readNote(data []byte) (n note, ok bool) {
	decoder := json.NewDecoder(bytes.NewReader(data))
	decoder.DisallowUnknownFields()
	err := decoder.Decode(&n)
	return n, err == nil && n.Format == togetherFormat && !slices.ContainsFunc(n.Files, Change.astray)
}

// finish writes one file of a set, unless it is written already. What somebody
// changed meanwhile is left alone, and what was to be saved lies beside it.
func (h *Home) finish(c Change) error {
	path := h.path(filepath.FromSlash(c.Name))
	_, now, err := readHomeFile(path)
	switch {
	case err != nil:
		return err
	case now == versionOf(c.Data):
		return nil
	case now == c.Base:
		_, err = saveOver(path, c.Data, Whatever)
		return err
	default:
		return replace(path+asideEnding, c.Data)
	}
}

// asideEnding is what a file of a set is called when another program changed the one
// whose place it was to take.
const asideEnding = ".unsaved"

// removeHeld takes a file away, as the writer of the home.
func (h *Home) removeHeld(path string) error {
	if err := os.Remove(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return &Error{File: path, Doing: "take away", Err: plainCause(err)}
	}
	if err := syncFolder(filepath.Dir(path)); err != nil {
		return &Error{File: path, Doing: "take away", Err: plainCause(err)}
	}
	return nil
}
