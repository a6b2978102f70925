package store

import "path/filepath"

// Owns reports whether s lies in the home's folder of patterns, or would when saved,
// and not in a file elsewhere that the maker named.
func (h *Home) Owns(s Saved) bool {
	if s.File == "" {
		return true
	}
	given, err := filepath.Abs(s.File)
	if err != nil {
		return false
	}
	own, err := filepath.Abs(h.patternPath(s.Stem))
	return err == nil && given == own
}
