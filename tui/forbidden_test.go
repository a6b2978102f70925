package tui

import (
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/store"
)

// pastes pastes text into the field.
func (d *hand) pastes(text string) *hand {
	d.t.Helper()
	return d.send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(text), Paste: true})
}

// What a paste carries unseen and no file may hold is left out of a name and of notes, and
// said; what the bench takes can be saved and brought back.
func TestPasteLeavesOutWhatNoFileHolds(t *testing.T) {
	for _, r := range "\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\u2028\u2029\u0085\u009b\u007f" {
		d := onDemo(t, 80, 24)
		for _, field := range []string{"N", "O"} {
			d.keys(field).pastes("tri" + string(r) + "vet\tof\nash").shows("left out U+").keys("enter")
		}
		if p := d.app.state().Pattern; p.Name != "Rookery squaretrivet of ash" || p.Notes[len(p.Notes)-13:] != "trivet of ash" {
			t.Fatalf("%U: the name is %q, the notes are %q", r, p.Name, p.Notes)
		}
		d.aSecond()
		kept, err := d.app.files.Recoveries(nil)
		if err != nil || len(kept) != 1 || kept[0].Err != nil || !sameWork(kept[0], d.app) {
			t.Errorf("%U: kept %v, %v", r, kept, err)
		}
		d.keys("S").shows("saved as rookery-square")
	}
}

// sameWork reports whether a recovery copy holds what is on the bench.
func sameWork(r store.Recovery, a App) bool {
	now := a.state()
	now.Selected = 0
	then := now
	then.Pattern, then.Tray = r.Pattern, r.Tray
	return now.Alike(then)
}
