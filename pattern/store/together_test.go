package store

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
)

// generation n of a rack and two patterns says n in each of the three files.
func generation(t testing.TB, n int, rackBase, oneBase, twoBase Version) []Change {
	t.Helper()
	r := rack.Rack{Pieces: []rack.Piece{{ID: "A1", Species: "pear", Length: length.Metre, Width: 90 * length.Millimetre,
		Thickness: 30 * length.Millimetre, Quantity: n}}}
	p := pattern.Pattern{Name: fmt.Sprint(n), Panel: pattern.Panel{Length: length.Metre, Thickness: 20 * length.Millimetre}}
	a, err1 := RackChange(r, rackBase)
	b, err2 := PatternChange("one", p, oneBase)
	c, err3 := PatternChange("two", p, twoBase)
	if err := errors.Join(err1, err2, err3); err != nil {
		t.Fatal(err)
	}
	return []Change{a, b, c}
}

// generations reads what each of the three files says, 0 where it is missing.
func generations(t *testing.T, h *Home) [3]int {
	t.Helper()
	var out [3]int
	r, _, err := h.Rack(nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Pieces) > 0 {
		out[0] = r.Pieces[0].Quantity
	}
	for i, stem := range []string{"one", "two"} {
		saved, err := h.Pattern(stem, nil)
		if errors.Is(err, ErrNotFound) {
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		if _, err := fmt.Sscan(saved.Pattern.Name, &out[1+i]); err != nil {
			t.Fatal(err)
		}
	}
	return out
}

func TestSaveTogether(t *testing.T) {
	h := OpenHome(t.TempDir())
	defer h.Close()
	v, err := h.SaveTogether(generation(t, 1, Absent, Absent, Absent)...)
	if err != nil {
		t.Fatal(err)
	}
	if got := generations(t, h); got != [3]int{1, 1, 1} {
		t.Errorf("saved %v", got)
	}
	if _, err := h.SaveTogether(generation(t, 2, v[0], Absent, v[2])...); !errors.Is(err, ErrChanged) {
		t.Errorf("one that stands on nothing: %v, want ErrChanged", err)
	}
	if got := generations(t, h); got != [3]int{1, 1, 1} {
		t.Errorf("a refused set wrote %v", got)
	}
	if _, err := h.SaveTogether(generation(t, 2, v[0], v[1], v[2])...); err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(h.path(togetherFile)); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("the note stays: %v", err)
	}
}

// A set stopped after any of its files is finished by the next start.
func TestMendFinishes(t *testing.T) {
	for written := range 4 {
		dir := t.TempDir()
		h := OpenHome(dir)
		v, err := h.SaveTogether(generation(t, 1, Absent, Absent, Absent)...)
		if err != nil {
			t.Fatal(err)
		}
		next := generation(t, 2, v[0], v[1], v[2])
		writeNote(t, h, next)
		for _, c := range next[:written] {
			if err := h.disk.put(h.path(filepath.FromSlash(c.Name)), c.Data); err != nil {
				t.Fatal(err)
			}
		}
		h.Close()
		again := OpenHome(dir)
		if _, err := again.Mend(); err != nil {
			t.Fatal(err)
		}
		if got := generations(t, again); got != [3]int{2, 2, 2} {
			t.Errorf("stopped after %d files it is mended to %v", written, got)
		}
		again.Close()
	}
}

func writeNote(t *testing.T, h *Home, changes []Change) {
	t.Helper()
	if err := os.WriteFile(h.path(togetherFile), noteBytes(t, changes), 0o644); err != nil {
		t.Fatal(err)
	}
}

// What somebody changed after the stop is left alone, and what was to be saved is
// not lost.
func TestMendLeavesOthersChangesAlone(t *testing.T) {
	dir := t.TempDir()
	h := OpenHome(dir)
	defer h.Close()
	v, err := h.SaveTogether(generation(t, 1, Absent, Absent, Absent)...)
	if err != nil {
		t.Fatal(err)
	}
	writeNote(t, h, generation(t, 2, v[0], v[1], v[2]))
	theirs := generation(t, 7, Absent, Absent, Absent)[1].Data
	if err := os.WriteFile(h.patternPath("one"), theirs, 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := h.Mend(); err != nil {
		t.Fatal(err)
	}
	if got := generations(t, h); got != [3]int{2, 7, 2} {
		t.Errorf("mended to %v, want 2 7 2", got)
	}
	if _, err := os.Stat(h.patternPath("one") + asideEnding); err != nil {
		t.Errorf("what was to be saved is lost: %v", err)
	}
}

func TestMendRefusesAStrangeNote(t *testing.T) {
	for _, text := range []string{"", "{", `{"format":"oddments/together 2","files":[]}`,
		`{"format":"oddments/together 1","files":[{"name":"../away.toml","base":"","data":""}]}`,
		`{"format":"oddments/together 1","files":[{"name":"patterns/../../x.toml","base":"","data":""}]}`} {
		h := OpenHome(t.TempDir())
		if err := os.WriteFile(h.path(togetherFile), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		if _, err := h.Mend(); err == nil {
			t.Errorf("%q is taken for a note", text)
		}
		h.Close()
	}
}

func noteBytes(t *testing.T, changes []Change) []byte {
	t.Helper()
	data, err := json.Marshal(note{togetherFormat, changes})
	if err != nil {
		t.Fatal(err)
	}
	return data
}
