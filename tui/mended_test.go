package tui

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/paint"
	startup "example.com/oddments/tui/setup"
)

// A booking that was cut short is finished at the start, and the screen says so.
func TestFinishedBookingIsToldOf(t *testing.T) {
	demo, err := store.ReadDemo()
	if err != nil {
		t.Fatal(err)
	}
	change, err := store.RackChange(demo.Rack, store.Absent)
	if err != nil {
		t.Fatal(err)
	}
	note, err := json.Marshal(map[string]any{"format": "oddments/together 1", "files": []store.Change{change}})
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "together.note"), note, 0o644); err != nil {
		t.Fatal(err)
	}
	home := store.OpenHome(dir)
	t.Cleanup(func() { _ = home.Close() })
	setup, err := startup.Load(Options{Home: home, Profile: paint.None})
	if err != nil {
		t.Fatal(err)
	}
	start(t, setup, 80, 24).shows("finished now: a booking, or its undo, that was cut short")
}
