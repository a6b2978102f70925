package store

import (
	"os"
	"path/filepath"
	"slices"
	"testing"

	"example.com/oddments/species"
)

// Ticks are read as they were kept, are no recovery copy, and are away where none is left.
func TestTicks(t *testing.T) {
	h := OpenHome(t.TempDir())
	defer h.Close()
	if got, err := h.Ticks("tray"); err != nil || len(got.Done) > 0 {
		t.Errorf("before any: %+v, %v", got, err)
	}
	for _, want := range [][]int{{2, 5, 11}, {2, 5}, nil} {
		if err := h.KeepTicks("tray", Ticks{Plan: "abc", Done: want}); err != nil {
			t.Fatal(err)
		}
		got, err := h.Ticks("tray")
		if err != nil || !slices.Equal(got.Done, want) || (got.Plan == "abc") != (want != nil) {
			t.Errorf("%v came back as %+v, %v", want, got, err)
		}
		if kept, err := h.Recoveries(species.Builtin()); err != nil || len(kept) > 0 {
			t.Errorf("ticks are offered as work: %v, %v", kept, err)
		}
	}
	if left, err := os.ReadDir(filepath.Join(h.dir, recoveryFolder)); err != nil || len(left) > 0 {
		t.Errorf("left behind: %v, %v", left, err)
	}
	if err := h.KeepTicks("../tray", Ticks{}); err == nil {
		t.Error("a file outside of the home was written")
	}
}

// What is no list of ticks counts as none.
func TestStrangeTicks(t *testing.T) {
	h := OpenHome(t.TempDir())
	defer h.Close()
	if err := os.MkdirAll(filepath.Join(h.dir, recoveryFolder), 0o755); err != nil {
		t.Fatal(err)
	}
	for text, want := range map[string][]int{"": nil, "oddments/steps 2 abc\n1\n": nil, "oddments/steps 1 abc\n7 x -3 0 2\n": {2, 7}} {
		if err := os.WriteFile(h.ticksPath("tray"), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		if got, err := h.Ticks("tray"); err != nil || !slices.Equal(got.Done, want) {
			t.Errorf("%q: %+v, %v", text, got, err)
		}
	}
}
