package screen

import (
	"os"
	"path/filepath"
	"strings"
)

// WholePath returns the file that a maker typed, ~ for the home folder, from the root on.
func WholePath(file string) string {
	if rest, ok := strings.CutPrefix(file, "~/"); ok {
		if home, err := os.UserHomeDir(); err == nil {
			file = filepath.Join(home, rest)
		}
	}
	if whole, err := filepath.Abs(file); err == nil {
		return whole
	}
	return file
}
