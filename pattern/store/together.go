package store

import (
	"bytes"
	"encoding/json"
	"errors"
	"path/filepath"
	"slices"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/tell"
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
	data, err := checkedBytes(rackFile, rackFile, r, WriteRack, knowing(nil, ReadRack))
	return Change{Name: rackFile, Base: base, Data: data}, err
}

// PatternChange prepares p, which stands on the version base, for SaveTogether.
func PatternChange(stem string, p pattern.Pattern, base Version) (Change, error) {
	if err := CheckStem(stem); err != nil {
		return Change{}, &Error{File: stem, Doing: "save", Err: err}
	}
	name := PatternName(stem)
	data, err := patternBytes(name, p)
	return Change{Name: name, Base: base, Data: data}, err
}

// PatternName returns the name of a saved pattern's file in a Change.
func PatternName(stem string) string { return patternsFolder + "/" + stem + tomlEnding }

// astray reports whether a change names no file that is saved together.
func (c Change) astray() bool {
	stem, ok := strings.CutSuffix(strings.TrimPrefix(c.Name, patternsFolder+"/"), tomlEnding)
	return c.Name != rackFile && (!ok || !strings.HasPrefix(c.Name, patternsFolder+"/") || CheckStem(stem) != nil)
}

// SaveTogether saves several files so that, whenever the program is ended, either all
// of them are as before or all are new, once Mend has run. It is ErrChanged, and
// nothing is written, where one of them is not what its change stands on. Where it
// fails all are as before, or the error is ErrBegun: then the next start finishes the
// set. It gives the versions that lie there now, in the order of the changes.
func (h *Home) SaveTogether(changes ...Change) ([]Version, error) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if err := h.ready(); err != nil {
		return nil, err
	}
	held := h.disk.holding()
	defer held.leave()
	set, err := h.stageAll(held, changes)
	if err != nil {
		return nil, withHint(err, asBefore(err, changes))
	}
	// Nothing has changed up to here. From the note's being there on the set is done,
	// unless all of it is taken back and the note goes again.
	if err = h.writeNote(held, changes); err == nil {
		err = h.disk.commit(set...)
	}
	if err != nil {
		return nil, h.takeBackAll(set, changes, err)
	}
	// A note that stays says what is so already; the next start takes it away.
	if h.disk.remove(h.path(togetherFile)) == nil {
		_ = h.disk.sync(h.dir)
	}
	versions := make([]Version, len(changes))
	for i, c := range changes {
		versions[i] = versionOf(c.Data)
	}
	return versions, nil
}

// stageAll prepares every change, so that what is left to do takes no room. Changes of
// files that hold what they are to already are left out.
func (h *Home) stageAll(held *holding, changes []Change) ([]*staged, error) {
	var set []*staged
	failed := func(err error) ([]*staged, error) {
		for _, s := range set {
			h.disk.unstage(s)
		}
		return nil, err
	}
	for _, c := range changes {
		target, before, now, err := held.look(h.path(filepath.FromSlash(c.Name)), c.Base)
		if err == nil && now != c.Base {
			err = &Error{File: target, Doing: "save", Err: ErrChanged}
		}
		if err != nil {
			return failed(err)
		}
		if now == versionOf(c.Data) {
			continue
		}
		s, err := h.disk.stage(target, reader(before, now), bytes.NewReader(c.Data))
		if err != nil {
			return failed(err)
		}
		set = append(set, s)
	}
	return set, nil
}

func (h *Home) writeNote(held *holding, changes []Change) error {
	data, err := json.Marshal(note{togetherFormat, changes})
	if err == nil {
		err = held.enter(h.dir)
	}
	if err == nil {
		err = h.disk.put(h.path(togetherFile), data)
	}
	if e, ok := errors.AsType[*Error](err); ok { // a maker knows the folder, and nothing of a note
		return &Error{File: h.dir, Doing: "save in", Err: e.Err}
	}
	return err
}

// takeBackAll makes every file what it was, and takes the note away. Where one of that
// fails the note stays, and the next start finishes the set. It gives cause with what
// came of it.
func (h *Home) takeBackAll(set []*staged, changes []Change, cause error) error {
	var failed error
	for _, s := range set {
		failed = errors.Join(failed, h.disk.takeBack(s))
	}
	if failed == nil {
		failed = h.disk.remove(h.path(togetherFile))
	}
	if failed == nil {
		_ = h.disk.sync(h.dir) // the power holds, or the next start finishes what nobody wanted
		return withHint(cause, asBefore(cause, changes))
	}
	return andSo(cause, ErrBegun, "do not repeat it: the next start makes "+names(changes)+" what they are to be")
}

// asBefore returns the hint to a set of which nothing was written.
func asBefore(err error, changes []Change) string {
	hint := names(changes) + " are as they were"
	if errors.Is(err, ErrChanged) {
		return "read it again first; " + hint
	}
	return hint
}

// names lists the files of a set.
func names(changes []Change) string {
	all := make([]string, len(changes))
	for i, c := range changes {
		all[i] = c.Name
	}
	return tell.List(all, "and")
}

// Mended is what Mend found to do. The zero value is that there was nothing.
type Mended struct {
	Files []string // of the set, as its changes name them
	Aside []string // those of them that another program had changed: what was to be saved lies beside, in .unsaved
	wrote bool     // a file changed
}

// None reports whether there was nothing to mend.
func (m Mended) None() bool { return len(m.Files) == 0 }

// String says what was finished, to the maker.
func (m Mended) String() string {
	if m.None() {
		return "nothing was left to finish"
	}
	text := "finished now: a booking, or its undo, that was cut short; see " + tell.List(m.Files, "and")
	if !m.wrote && len(m.Aside) == 0 {
		text = "done already: a booking, or its undo, that was cut short at its very end; see " + tell.List(m.Files, "and")
	}
	if len(m.Aside) > 0 {
		text += "; another program had changed " + tell.List(m.Aside, "and") + ", so what was to be saved is next to it, in a file that ends in " + asideEnding
	}
	return text
}

// Mend finishes files that were being saved together when the program was ended, and
// says which. It touches nothing where there are none, or where another oddments is at
// it.
func (h *Home) Mend() (Mended, error) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if _, now, err := h.disk.read(h.path(togetherFile)); err != nil || now == Absent {
		return Mended{}, err
	}
	if err := h.hold(); err != nil {
		if errors.Is(err, ErrBusy) {
			return Mended{}, nil
		}
		return Mended{}, err
	}
	return h.mend()
}

func (h *Home) mend() (Mended, error) {
	path := h.path(togetherFile)
	data, now, err := h.disk.read(path)
	if err != nil || now == Absent {
		return Mended{}, err
	}
	n, ok := readNote(data)
	if !ok {
		return Mended{}, &Error{File: path, Doing: "finish the save noted in", Err: errors.New("it cannot be read"), Hint: "move it away; the files next to it are whole"}
	}
	var done Mended
	var failed error
	for _, c := range n.Files {
		done.Files = append(done.Files, c.Name)
		failed = errors.Join(failed, h.finish(c, &done))
	}
	if failed != nil {
		return Mended{}, withHint(failed, "a booking, or its undo, was cut short before; "+names(n.Files)+" wait to be finished, which each start tries again")
	}
	if err := h.disk.remove(path); err != nil {
		return Mended{}, newError(path, "take away", err, "")
	}
	_ = h.disk.sync(h.dir) // what it says is so already
	return done, nil
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
func (h *Home) finish(c Change, done *Mended) error {
	path := h.path(filepath.FromSlash(c.Name))
	_, now, err := h.disk.read(path)
	switch {
	case err != nil:
		return err
	case now == versionOf(c.Data):
		return nil
	case now == c.Base:
		_, err = h.disk.saveOver(path, c.Data, c.Base)
		done.wrote = true
		return err
	}
	held := h.disk.holding()
	defer held.leave()
	if err := held.enter(filepath.Dir(path)); err != nil {
		return err
	}
	done.Aside = append(done.Aside, c.Name)
	return h.disk.put(path+asideEnding, c.Data)
}

// asideEnding is what a file of a set is called when another program changed the one
// whose place it was to take.
const asideEnding = ".unsaved"
