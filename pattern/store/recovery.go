package store

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"example.com/oddments/pattern"
	"example.com/oddments/species"
)

// Untitled is the stem for the recovery copy of a pattern that has none yet.
const Untitled = "untitled"

// recoveryMark starts the first line of a recovery copy; the version that the work
// stands on follows. It is a comment, so the copy reads as a pattern.
const recoveryMark = "# oddments recovery copy, made from "

// recoveryOf starts the second line, which says whose work it is where the copy goes by
// another name: one of that name was there already.
const recoveryOf = "# of "

const (
	fromNothing = "a pattern not saved before"
	trayEnding  = ".tray" + tomlEnding
)

// A Recovery is work that was not saved when oddments ended.
type Recovery struct {
	Copy    string // what the copy goes by; empty of what was never kept
	Stem    string // of the pattern, or Untitled
	Pattern pattern.Pattern
	Tray    []pattern.Strip // strips lying beside the panel
	Base    Version         // of the saved pattern that the work began with
	At      time.Time       // when it was last written
	Err     error           // why it could not be read
}

// Keep keeps unsaved work beside the saved patterns, which it leaves alone, and gives
// what its copy goes by, also where it failed: empty where there is none. Work that has no
// copy yet gets one of its own: that of another work, which somebody may still want back,
// is never written over. Where nothing changed since, nothing is written.
func (h *Home) Keep(r Recovery) (string, error) {
	return h.keep(r, h.hold)
}

// KeepBeside keeps unsaved work as Keep does, in a new copy of its own also where r has
// one, and needs no lock: work is not to be lost at the end of a program for another one
// that is the writer of the home.
func (h *Home) KeepBeside(r Recovery) (string, error) {
	r.Copy = ""
	return h.keep(r, func() error { return nil })
}

// keep checks r, and keeps it once may says that it may be written.
func (h *Home) keep(r Recovery, may func() error) (string, error) {
	for _, stem := range []string{r.Stem, cmp.Or(r.Copy, r.Stem)} {
		if err := CheckStem(stem); err != nil {
			return r.Copy, &Error{File: stem, Doing: "keep a recovery copy of", Err: err}
		}
	}
	h.mu.Lock()
	defer h.mu.Unlock()
	if err := may(); err != nil {
		return r.Copy, err
	}
	return h.keepCopy(r)
}

// keepCopy writes a recovery copy whatever lies there: it is the writer's own. The folder
// is held from the choice of a name until the copy has it, so that no two choose the same.
func (h *Home) keepCopy(r Recovery) (string, error) {
	folder := h.path(recoveryFolder)
	held := h.disk.holding()
	defer held.leave()
	if err := held.enter(folder); err != nil {
		return r.Copy, err
	}
	to := r.Copy
	if to == "" {
		taken, err := stemsIn(folder)
		if err != nil {
			return "", err
		}
		to = numbered(r.Stem, func(stem string) bool { return slices.Contains(taken, stem) })
	}
	file, trayFile := h.recoveryPaths(to)
	data, err := recoveryBytes(file, to, r)
	if err != nil {
		return r.Copy, err
	}
	// In the tray's file the panel only makes a pattern of it.
	trayData, err := patternBytes(trayFile, pattern.Pattern{Name: r.Pattern.Name, Panel: r.Pattern.Panel, Strips: r.Tray})
	if err != nil {
		return r.Copy, err
	}
	// The tray goes first: a strip that was laid aside is then in one of the two at
	// least, whenever the power fails.
	if len(r.Tray) > 0 {
		if err := held.putNew(trayFile, trayData); err != nil {
			return r.Copy, err
		}
	}
	if err := held.putNew(file, data); err != nil {
		if _, now, no := held.read(file); no == nil && now == versionOf(data) {
			r.Copy = to // it failed late, and the next is not to take another name
		}
		return r.Copy, err
	}
	if len(r.Tray) == 0 {
		err = h.disk.takeAway(trayFile)
	}
	return to, err
}

// putNew is put where that changes anything.
func (d disk) putNew(path string, data []byte) error {
	if _, now, err := d.read(path); err == nil && now == versionOf(data) {
		return nil
	}
	return d.put(path, data)
}

// Recoveries reads the recovery copies, sorted by stem. One that is broken is listed
// with its error.
func (h *Home) Recoveries(known *species.Table) ([]Recovery, error) {
	stems, err := stemsIn(h.path(recoveryFolder))
	slices.Sort(stems) // untitled before untitled-2, which their endings turn round
	var all []Recovery
	for _, stem := range stems {
		if CheckStem(stem) != nil {
			continue // a tray, or none of ours
		}
		r, err := h.recovery(stem, known)
		r.Err = err
		all = append(all, r)
	}
	return all, err
}

func (h *Home) recovery(stem string, known *species.Table) (Recovery, error) {
	r := Recovery{Copy: stem, Stem: stem}
	file, trayFile := h.recoveryPaths(stem)
	data, _, err := readHomeFile(file)
	if err != nil {
		return r, err
	}
	r.At = writtenAt(file)
	base, of := recoveryOrigin(data)
	r.Base, r.Stem = base, cmp.Or(of, stem)
	if r.Pattern, err = ReadPattern(bytes.NewReader(data), file, known); err != nil {
		return r, err
	}
	if r.Pattern.Name == r.Copy { // it has none, and reads as named by its file
		r.Pattern.Name = r.Stem
		if r.Stem == Untitled {
			r.Pattern.Name = ""
		}
	}
	trayData, version, err := readHomeFile(trayFile)
	if err != nil || version == Absent {
		return r, err
	}
	tray, err := ReadPattern(bytes.NewReader(trayData), trayFile, known)
	r.Tray = tray.Strips
	return r, err
}

// recoveryOrigin reads of what version and whose work a recovery copy is; an empty stem:
// that of its name.
func recoveryOrigin(data []byte) (base Version, stem string) {
	first, rest, _ := strings.Cut(string(data[:min(len(data), 400)]), "\n")
	second, _, _ := strings.Cut(rest, "\n")
	from, ok := strings.CutPrefix(strings.TrimSpace(first), recoveryMark)
	if !ok {
		return Absent, ""
	}
	if from != fromNothing {
		base = Version(from)
	}
	if stem, ok = strings.CutPrefix(strings.TrimSpace(second), recoveryOf); !ok || CheckStem(stem) != nil {
		stem = ""
	}
	return base, stem
}

// recoveryBytes returns the recovery copy of r that goes by a name.
func recoveryBytes(file, name string, r Recovery) ([]byte, error) {
	data, err := patternBytes(file, r.Pattern)
	from := string(r.Base)
	if r.Base == Absent {
		from = fromNothing
	}
	head := recoveryMark + from + "\n"
	if name != r.Stem {
		head += recoveryOf + r.Stem + "\n"
	}
	return append([]byte(head), data...), err
}

// DropRecovery takes the recovery copy that goes by stem away, once the work is saved or given up.
// Where there is none it does nothing.
func (h *Home) DropRecovery(stem string) error {
	if err := CheckStem(stem); err != nil {
		return &Error{File: stem, Doing: "drop the recovery copy of", Err: err}
	}
	h.mu.Lock()
	defer h.mu.Unlock()
	file, trayFile := h.recoveryPaths(stem)
	return errors.Join(h.remove(file), h.remove(trayFile))
}

// GiveUp leaves a recovery copy that is not wanted any more as .bak, which is never
// offered.
func (h *Home) GiveUp(stem string) error {
	if err := CheckStem(stem); err != nil {
		return &Error{File: stem, Doing: "give up the recovery copy of", Err: err}
	}
	h.mu.Lock()
	defer h.mu.Unlock()
	if err := h.hold(); err != nil {
		return err
	}
	file, trayFile := h.recoveryPaths(stem)
	for _, path := range []string{file, trayFile} {
		if err := h.disk.rename(path, path+".bak"); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return newError(path, "give up", err, "")
		}
	}
	return nil
}

// remove is takeAway by the writer of the home.
func (h *Home) remove(path string) error {
	if _, err := os.Lstat(path); errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err := h.hold(); err != nil {
		return err
	}
	return h.disk.takeAway(path)
}

// takeAway removes a file, where there is one.
func (d disk) takeAway(path string) error {
	if _, err := os.Lstat(path); errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err := d.remove(path); err != nil {
		return newError(path, "take away", err, "")
	}
	return nil
}

func (h *Home) recoveryPaths(stem string) (file, trayFile string) {
	base := filepath.Join(h.dir, recoveryFolder, stem)
	return base + tomlEnding, base + trayEnding
}

// String returns the stem and when the copy was written.
func (r Recovery) String() string {
	return fmt.Sprintf("%s, %s", r.Stem, r.At.Format(time.DateTime))
}
