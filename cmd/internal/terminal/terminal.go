// Package terminal says what is known of a terminal without asking it, and what to do about
// it.
package terminal

import (
	"fmt"
	"runtime"
	"strings"

	"example.com/oddments/tui/paint"
)

// What the bench needs of a terminal, in cells.
const (
	fullColumns, fullRows   = 80, 24
	LeastColumns, leastRows = 60, 18
)

// Colours advises on the colours of a profile; said: it was asked for by name.
func Colours(profile paint.Profile, said bool) string {
	switch {
	case said:
		return ""
	case profile == paint.TrueColour:
		return "; if they look wrong, try --color 256"
	case profile == paint.None:
		return "; wood is drawn by letters and textures; --color says otherwise"
	default:
		return "; set COLORTERM=truecolor if your terminal shows 24-bit colour"
	}
}

// Size says what a terminal of so many cells is good for; 0: its size is not known.
func Size(columns, rows int) string {
	switch {
	case columns == 0 || rows == 0:
		return fmt.Sprintf("not known; %dx%d is needed for full use, %dx%d at least", fullColumns, fullRows, LeastColumns, leastRows)
	case columns < LeastColumns || rows < leastRows:
		return fmt.Sprintf("%dx%d, too small: make it %dx%d, or %dx%d at least", columns, rows, fullColumns, fullRows, LeastColumns, leastRows)
	case columns < fullColumns || rows < fullRows:
		return fmt.Sprintf("%dx%d, enough to work; %dx%d is needed for full use", columns, rows, fullColumns, fullRows)
	default:
		return fmt.Sprintf("%dx%d, enough for full use", columns, rows)
	}
}

// Mouse says what is known of the mouse without asking the terminal.
func Mouse(getenv func(string) string) string {
	switch {
	case getenv("TERM") == "linux":
		return "the console has none; every job has a key"
	case getenv("TMUX") != "":
		return "the bench asks for it; tmux passes it on once \"set -g mouse on\" is set; hold Shift to mark text for copying"
	default:
		return "the bench asks for it; every job has a key too; hold Shift to mark text for copying"
	}
}

// Locale says whether signs beyond ASCII (± × ° and lines) will come out right.
func Locale(getenv func(string) string) string {
	for _, name := range []string{"LC_ALL", "LC_CTYPE", "LANG"} {
		value := getenv(name)
		if value == "" {
			continue
		}
		folded := strings.ReplaceAll(strings.ToLower(value), "-", "")
		if strings.Contains(folded, "utf8") {
			return fmt.Sprintf("UTF-8, since %s is %s", name, value)
		}
		return fmt.Sprintf("%s is %s, which is not UTF-8: lines and ± may come out wrong; set LANG to one that ends in UTF-8", name, value)
	}
	if runtime.GOOS == "windows" {
		return "UTF-8"
	}
	return "neither LC_ALL, LC_CTYPE nor LANG is set: lines and ± may come out wrong; set LANG to one that ends in UTF-8"
}
