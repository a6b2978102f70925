package keymap_test

import (
	"testing"

	"example.com/oddments/tui/keymap"
)

func TestShown(t *testing.T) {
	for key, want := range map[string]string{"shift+left": "Shift-Left", "ctrl+s": "Ctrl-s", "pgdown": "PgDn", "a": "a", "S": "S", "?": "?"} {
		if got := keymap.Shown(key); got != want {
			t.Errorf("%s is shown as %s, want %s", key, got, want)
		}
	}
}

// A table begins with its first screen's actions and ends with those of lists; a group of
// which some actions hold everywhere is one group, and footers have those last.
func TestOneTable(t *testing.T) {
	look, other := keymap.Group{Heading: "look", At: keymap.Bench}, keymap.Group{Heading: "on another", At: "another"}
	m := keymap.NewMap([]keymap.Action{look.Bind("see", "see", "look at it", 1, "s", "f2")}, []keymap.Action{other.Bind("go", "go", "go on", 1, "g")})
	all := m.Actions()
	if all[0].ID != "see" || all[len(all)-1].Place() != keymap.InLists {
		t.Errorf("the table is %v", all)
	}
	looks := 0
	for _, g := range m.Groups() {
		if g.Heading == "look" {
			looks++
		}
	}
	if looks != 1 {
		t.Errorf("%d groups are called look", looks)
	}
	foot := m.Footer("another")
	if foot[0].ID != "go" || foot[1].Place() != keymap.Everywhere || foot[len(foot)-1].Place() != keymap.Everywhere {
		t.Errorf("the footer is %v", foot)
	}
	if a, ok := m.On("another", "s"); ok {
		t.Errorf("a key of the bench is %s elsewhere", a.ID)
	}
	if a, ok := m.On(keymap.Bench, "f2"); !ok || a.Key() != "s" || m.KeyOf("go") != "g" {
		t.Errorf("f2 is %+v", a)
	}
}
