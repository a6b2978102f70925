package cli_test

import (
	"encoding/json"
	"os"
	"runtime"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/booking"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/store"
)

// cutShort books the demo's first pattern in a home as far as the note of it: as a
// process does that is killed then. It gives the stem.
func cutShort(t *testing.T, s stage) string {
	t.Helper()
	demo, err := store.ReadDemo()
	if err != nil {
		t.Fatal(err)
	}
	h := store.OpenHome(s.home)
	first := demo.Patterns[0]
	rackVersion, err := h.SaveRack(demo.Rack, store.Absent)
	if err != nil {
		t.Fatal(err)
	}
	version, err := h.SavePattern(first.Stem, first.Pattern, store.Absent)
	if err != nil {
		t.Fatal(err)
	}
	job := cutting.Job{Rack: demo.Rack, Shop: demo.Shop, Patterns: []cutting.Demand{{Stem: first.Stem, Pattern: first.Pattern, Copies: 1}}}
	plan, err := solve.Plan(t.Context(), job, solve.Options{})
	if err != nil {
		t.Fatal(err)
	}
	next, booked, err := booking.Book(job, plan, pattern.Date{Year: 2026, Month: 11, Day: 2}, func(string) string { return "ZZ" })
	if err != nil {
		t.Fatal(err)
	}
	var note struct {
		Format string         `json:"format"`
		Files  []store.Change `json:"files"`
	}
	note.Format = "oddments/together 1"
	change, err := store.RackChange(next, rackVersion)
	if err != nil {
		t.Fatal(err)
	}
	note.Files = append(note.Files, change)
	if change, err = store.PatternChange(first.Stem, booked[0].Pattern, version); err != nil {
		t.Fatal(err)
	}
	note.Files = append(note.Files, change)
	data, err := json.Marshal(note)
	if err != nil {
		t.Fatal(err)
	}
	s.write(t, "together.note", string(data))
	if err := h.Close(); err != nil {
		t.Fatal(err)
	}
	return first.Stem
}

// A booking that was cut short is finished by whatever command comes next, which says so.
func TestFinishedBookingIsToldOf(t *testing.T) {
	s := stage{home: t.TempDir()}
	stem := cutShort(t, s)
	_, messages, exit := s.run(t, "rack", "list")
	if exit != 0 || !strings.Contains(messages, "finished now: a booking, or its undo, that was cut short; see rack.toml and patterns/"+stem+".toml") {
		t.Errorf("exit %d, stderr %q", exit, messages)
	}
	if _, messages, _ = s.run(t, "rack", "list"); messages != "" {
		t.Errorf("and once more: %q", messages)
	}
}

// Whoever repeats a booking that was cut short has it made once.
func TestRepeatedBookingIsBookedOnce(t *testing.T) {
	s := stage{home: t.TempDir()}
	stem := cutShort(t, s)
	stdout, messages, exit := s.run(t, "plan", stem, "--book", "--time", "2")
	if exit != 0 || stdout != "" || !strings.Contains(messages, "not booked again") {
		t.Errorf("exit %d, stdout %q, stderr %q", exit, stdout, messages)
	}
	saved, err := store.OpenHome(s.home).Pattern(stem, nil)
	if err != nil || len(saved.Pattern.Made) != 1 {
		t.Errorf("made %v, %v; want one batch", saved.Pattern.Made, err)
	}
}

// A lock that another user made, as root does by one sudo too many, keeps the maker from
// saving: the doctor and whoever saves say what to do.
func TestLockOfSomebodyElse(t *testing.T) {
	if os.Geteuid() == 0 || runtime.GOOS == "windows" {
		t.Skip("skipped: permission bits do not stop root, nor anybody on Windows")
	}
	s := stage{home: t.TempDir()}
	if err := os.Chmod(s.write(t, ".lock", ""), 0); err != nil {
		t.Fatal(err)
	}
	out, _, exit := s.run(t, "doctor")
	if exit != 3 || !strings.Contains(out, ".lock: permission denied (another user made it, and it is empty: remove it") {
		t.Errorf("exit %d, %s", exit, out)
	}
	if _, messages, exit := s.run(t, "rack", "add", "pear 500 60 40"); exit != 3 || !strings.Contains(messages, "take it away") {
		t.Errorf("exit %d, %s", exit, messages)
	}
}
