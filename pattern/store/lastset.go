package store

import (
	"path/filepath"
	"slices"
	"strings"
)

// The patterns that were saved as one set last are listed beside the recovery copies, a stem a line.
const (
	setHead = "oddments/set 1\n"
	setFile = "last.set"
)

func (h *Home) lastSetPath() string { return filepath.Join(h.dir, recoveryFolder, setFile) }

// SaveSet saves new patterns together, all or none, and keeps which they are for LastSet. It gives
// their versions in their order; where one of them is there already it is ErrChanged.
func (h *Home) SaveSet(all []Saved) ([]Version, error) {
	var changes []Change
	list := setHead
	for _, s := range all {
		c, err := PatternChange(s.Stem, s.Pattern, Absent)
		if err != nil {
			return nil, err
		}
		changes = append(changes, c)
		list += s.Stem + "\n"
	}
	versions, err := h.SaveTogether(changes...)
	if err == nil {
		_ = h.keepNote(h.lastSetPath(), []byte(list)) // the patterns are saved, and can be named one by one
	}
	return versions, err
}

// LastSet returns the stems of the patterns that were saved as one set last. What cannot be read as
// that counts as none.
func (h *Home) LastSet() ([]string, error) {
	data, version, err := readHomeFile(h.lastSetPath())
	if err != nil || version == Absent {
		return nil, err
	}
	list, ok := strings.CutPrefix(string(data), setHead)
	stems := strings.Fields(list)
	if !ok || slices.ContainsFunc(stems, func(s string) bool { return CheckStem(s) != nil }) {
		return nil, nil
	}
	return stems, nil
}
