package store

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"example.com/oddments/pattern"
)

// Untitled is the stem for the recovery copy of a pattern that has none yet.
const Untitled = "untitled"

// recoveryMark starts the first line of a recovery copy; the version that the work
// stands on follows. It is a comment, so the copy reads as a pattern.
const recoveryMark = "# oddments recovery copy, made from "

const (
	fromNothing = "a pattern not saved before"
	trayEnding  = ".tray" + tomlEnding
)

// A Recovery is work that was not saved when oddments ended.
type Recovery struct {
	Stem    string
	Pattern pattern.Pattern
	Tray    []pattern.Strip // strips lying beside the panel
	Base    Version         // of the saved pattern that the work began with
	At      time.Time       // when it was last written
	Err     error           // why it could not be read
}

// SaveRecovery keeps unsaved work beside the saved patterns, which it leaves alone.
// The stem is the pattern's, or Untitled; base is the version the work began with.
// Where nothing changed since, nothing is written.
func (h *Home) SaveRecovery(stem string, p pattern.Pattern, tray []pattern.Strip, base Version) error {
	if err := CheckStem(stem); err != nil {
		return &Error{File: stem, Doing: "keep a recovery copy of", Err: err}
	}
	file, trayFile := h.recoveryPaths(stem)
	data, err := recoveryBytes(file, p, base)
	if err != nil {
		return err
	}
	// In the tray's file the panel only makes a pattern of it.
	trayData, err := patternBytes(trayFile, pattern.Pattern{Name: p.Name, Panel: p.Panel, Strips: tray})
	if err != nil {
		return err
	}
	// The tray goes first: a strip that was laid aside is then in one of the two at
	// least, whenever the power fails.
	if len(tray) > 0 {
		if err := h.keep(trayFile, trayData); err != nil {
			return err
		}
	}
	if err := h.keep(file, data); err != nil {
		return err
	}
	if len(tray) == 0 {
		return h.remove(trayFile)
	}
	return nil
}

// keep saves without a .bak and whatever lies there: recovery copies are the
// writer's own.
func (h *Home) keep(path string, data []byte) error {
	h.mu.Lock()
	defer h.mu.Unlock()
	if err := h.hold(); err != nil {
		return err
	}
	return replace(path, data)
}

// Recoveries reads the recovery copies, sorted by stem. One that is broken is listed
// with its error.
func (h *Home) Recoveries(known func(string) bool) ([]Recovery, error) {
	names, err := tomlFiles(h.path(recoveryFolder))
	if err != nil {
		return nil, err
	}
	var all []Recovery
	for _, name := range names {
		stem := strings.TrimSuffix(name, tomlEnding)
		if CheckStem(stem) != nil {
			continue // a tray, or none of ours
		}
		r, err := h.recovery(stem, known)
		r.Err = err
		all = append(all, r)
	}
	return all, nil
}

func (h *Home) recovery(stem string, known func(string) bool) (Recovery, error) {
	r := Recovery{Stem: stem}
	file, trayFile := h.recoveryPaths(stem)
	data, _, err := readHomeFile(file)
	if err != nil {
		return r, err
	}
	if info, err := os.Stat(file); err == nil {
		r.At = info.ModTime()
	}
	r.Base = recoveryBase(data)
	if r.Pattern, err = ReadPattern(bytes.NewReader(data), file, known); err != nil {
		return r, err
	}
	trayData, version, err := readHomeFile(trayFile)
	if err != nil || version == Absent {
		return r, err
	}
	tray, err := ReadPattern(bytes.NewReader(trayData), trayFile, known)
	r.Tray = tray.Strips
	return r, err
}

// recoveryBase reads the version that a recovery copy was made from.
func recoveryBase(data []byte) Version {
	first, _, _ := strings.Cut(string(data[:min(len(data), 200)]), "\n")
	if from, ok := strings.CutPrefix(strings.TrimSpace(first), recoveryMark); ok && from != fromNothing {
		return Version(from)
	}
	return Absent
}

// recoveryBytes gives the recovery copy of p.
func recoveryBytes(file string, p pattern.Pattern, base Version) ([]byte, error) {
	data, err := patternBytes(file, p)
	from := string(base)
	if base == Absent {
		from = fromNothing
	}
	return append([]byte(recoveryMark+from+"\n"), data...), err
}

// DropRecovery takes a recovery copy away, once the work is saved or given up.
// Where there is none it does nothing.
func (h *Home) DropRecovery(stem string) error {
	if err := CheckStem(stem); err != nil {
		return &Error{File: stem, Doing: "drop the recovery copy of", Err: err}
	}
	file, trayFile := h.recoveryPaths(stem)
	return errors.Join(h.remove(file), h.remove(trayFile))
}

func (h *Home) remove(path string) error {
	h.mu.Lock()
	defer h.mu.Unlock()
	if _, err := os.Lstat(path); errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err := h.hold(); err != nil {
		return err
	}
	if err := os.Remove(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return &Error{File: path, Doing: "take away", Err: plainCause(err)}
	}
	return nil
}

func (h *Home) recoveryPaths(stem string) (file, trayFile string) {
	base := filepath.Join(h.dir, recoveryFolder, stem)
	return base + tomlEnding, base + trayEnding
}

// String gives the stem and when the copy was written.
func (r Recovery) String() string {
	return fmt.Sprintf("%s, %s", r.Stem, r.At.Format(time.DateTime))
}
