package store

import (
	"errors"
	"os"
	"slices"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// The set that was saved last is read as it was saved; one that is not saved leaves it as it was.
func TestLastSet(t *testing.T) {
	h := OpenHome(t.TempDir())
	defer h.Close()
	last := func(want ...string) {
		t.Helper()
		if got, err := h.LastSet(); err != nil || !slices.Equal(got, want) {
			t.Errorf("the last set is %v, %v, want %v", got, err, want)
		}
	}
	last()
	save := func(stems ...string) error {
		var all []Saved
		for _, stem := range stems {
			all = append(all, Saved{Stem: stem, Pattern: pattern.Pattern{Panel: pattern.Panel{Length: 300 * length.Millimetre, Thickness: 20 * length.Millimetre}}})
		}
		_, err := h.SaveSet(all)
		return err
	}
	if err := save("tray-1", "tray-2"); err != nil {
		t.Fatal(err)
	}
	last("tray-1", "tray-2")
	if err := save("tray-3", "tray-2"); !errors.Is(err, ErrChanged) {
		t.Errorf("over one that is there: %v", err)
	}
	last("tray-1", "tray-2")
	if _, now, err := readHomeFile(h.patternPath("tray-3")); err != nil || now != Absent {
		t.Errorf("a part of the set was saved: %v, %v", now, err)
	}
	if err := save("tray-3"); err != nil {
		t.Fatal(err)
	}
	last("tray-3")
	for _, text := range []string{"", "oddments/set 2\ntray-1\n", "oddments/set 1\n../tray\n"} {
		if err := os.WriteFile(h.lastSetPath(), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		last()
	}
}
