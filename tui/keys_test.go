package tui

import (
	"regexp"
	"strings"
	"testing"

	"example.com/oddments/pattern/edit"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/manual"
)

// Every action has a key, a name and a sentence; no key does two things in one place;
// none needs a key that terminals cannot tell apart, nor alt with a letter.
func TestEveryActionIsBoundAndShown(t *testing.T) {
	type place struct {
		where keymap.Place
		key   string
	}
	taken := map[place]keymap.ID{}
	seen := map[keymap.ID]bool{}
	for _, a := range Keys().Actions() {
		if seen[a.ID] {
			t.Errorf("%s stands twice", a.ID)
		}
		seen[a.ID] = true
		if len(a.Keys) == 0 || a.Name == "" || a.Does == "" || strings.HasSuffix(a.Does, ".") {
			t.Errorf("%s: keys %v, name %q, does %q", a.ID, a.Keys, a.Name, a.Does)
		}
		for _, k := range a.Keys {
			p := place{a.Place(), k}
			if other, ok := taken[p]; ok {
				t.Errorf("key %q is %s and %s", k, other, a.ID)
			}
			taken[p] = a.ID
			if everywhere, ok := taken[place{keymap.Everywhere, k}]; ok && a.Place() != keymap.Everywhere && a.Place() != keymap.InLists {
				t.Errorf("key %q is %s everywhere and %s", k, everywhere, a.ID)
			}
			switch k {
			case "ctrl+i", "ctrl+m", "ctrl+[", "shift+enter", "ctrl+enter":
				t.Errorf("%s: a terminal cannot tell %s apart", a.ID, k)
			}
			if strings.HasPrefix(k, "alt+") {
				t.Errorf("%s: %s", a.ID, k)
			}
		}
		if a.Group.Heading == "" || a.Group.At == "" {
			t.Errorf("%s: group %+v has no heading or no place", a.ID, a.Group)
		}
	}
}

// Every hand move has a key of its own.
func TestEveryHandMoveIsBound(t *testing.T) {
	m := Keys()
	for _, move := range edit.Moves() {
		if _, ok := m.ByID(keymap.ID(move.ID)); !ok {
			t.Errorf("hand move %s is bound to no key", move.ID)
		}
	}
}

func TestMapFindsEveryKey(t *testing.T) {
	m := Keys()
	for _, a := range Keys().Actions() {
		for _, k := range a.Keys {
			if got, ok := m.On(a.Place(), k); !ok || got.ID != a.ID {
				t.Errorf("key %q finds %v, %v; want %s", k, got.ID, ok, a.ID)
			}
		}
		if m.KeyOf(a.ID) == "" {
			t.Errorf("%s has no shown key", a.ID)
		}
	}
	if _, ok := m.Bench("f12"); ok {
		t.Error("a key that is none finds an action")
	}
}

func TestFooterHasNoGap(t *testing.T) {
	places := map[keymap.Place]bool{}
	for _, a := range Keys().Actions() {
		places[a.Place()] = a.Place() != keymap.Everywhere && a.Place() != keymap.InLists
	}
	for p, isScreen := range places {
		if !isScreen {
			continue
		}
		last := map[keymap.Place]int{}
		for _, a := range Keys().Footer(p) {
			if last[a.Place()]++; a.Foot != last[a.Place()] {
				t.Errorf("place %d of the footer holds %s, which says %d", last[a.Place()], a.ID, a.Foot)
			}
		}
		if last[p] == 0 {
			t.Errorf("no footer on %v", p)
		}
	}
}

// The manual names its keys by their actions, and each of them is in the table.
func TestManualNamesKnownActions(t *testing.T) {
	named := regexp.MustCompile(`\{[a-z-]+\}`)
	for _, c := range manual.Chapters(Keys()) {
		for _, line := range c.Lines {
			if name := named.FindString(line); name != "" {
				t.Errorf("%s: there is no action %s", c.Name, name)
			}
		}
	}
}
