package tui

import (
	"strings"
	"testing"

	"example.com/oddments/tui/keymap"
)

// What the chosen action of the search does is said in whole.
func TestSearchSaysWhatActionsDoInWhole(t *testing.T) {
	d := onDemo(t, 80, 24)
	for _, a := range Keys().Actions() {
		if a.Place() == keymap.InLists || d.app.hidden(a.Place()) {
			continue
		}
		s := d.keys("/").text(a.Does).keys("down").screen()
		if !strings.Contains(strings.Join(strings.Fields(s), " "), a.Name+": "+a.Does+" ") {
			t.Errorf("%s: the search cuts %q off", a.ID, a.Does)
		}
		d.keys("esc")
	}
}
