package tui

import (
	"example.com/oddments/pattern/mistake"
	"example.com/oddments/tui/overlay/page"
)

// withdrawn tells that a claim is not made: at once in the line of messages, and in full
// as soon as nothing else lies over the screen.
func (a App) withdrawn(w *mistake.Withdrawn) App {
	if w == nil {
		return a
	}
	told := page.New("a check failed", []string{w.Error(), w.Where()})
	return a.refuse(w.Row()).askWhenFree(w.Report, func(App) bool { return true }, told, nil)
}
