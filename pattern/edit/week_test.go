package edit_test

import (
	"bytes"
	"slices"
	"testing"

	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/store"
)

// TestWeekOfUse makes 20,000 hand moves at random, undoes all of them, makes them all
// again, and writes and reads what came of it: at every step the bench is to the last
// nanometre what it was. The tray is cleared when it is full, as between two evenings,
// or each of the states kept for comparing would hold thousands of strips.
func TestWeekOfUse(t *testing.T) {
	const fullTray = 40
	moves := 20_000
	if testing.Short() {
		moves = 3000
		t.Logf("-short: %d moves instead of 20,000", moves)
	}
	u := bySeed(41, 42)
	history := edit.NewHistory(u.state(9))
	first := history.Now()
	all, arbitrary := edit.Moves(), u.arbitrary()
	made := map[string]int{}
	var steps []edit.State
	for range moves {
		m := all[u(len(all))]
		if n := len(history.Now().Pattern.Strips); n > 30 {
			m.ID = "lay-aside"
		} else if n < 3 {
			m.ID = "put-in"
		}
		next, err := arbitrary[m.ID](history.Now())
		if len(history.Now().Tray) >= fullTray {
			m.ID, next, err = "tray cleared", history.Now(), nil
			next.Tray = nil
		}
		if err != nil || len(next.Pattern.Strips) > 60 { // so many repeats
			continue
		}
		before := history.Revision()
		history = history.Do(m.ID, next)
		if !history.Now().Alike(next) {
			t.Fatalf("%s is done, and the bench differs", m.ID)
		}
		if history.Revision() != before {
			made[m.ID]++
			steps = append(steps, deep(next))
		}
	}
	for _, m := range all {
		if m.Step && made[m.ID] < moves/3000 {
			t.Errorf("%s was made %d times only", m.ID, made[m.ID])
		}
	}
	last := history
	for i, step := range slices.Backward(steps) {
		if !history.Now().Alike(step) {
			t.Fatalf("undone down to step %d of %d the bench differs", i+1, len(steps))
		}
		history, _, _ = history.Undo()
	}
	if _, _, more := history.Undo(); more || !history.Now().Alike(first) {
		t.Error("all undone, the bench is not as at the start")
	}
	for i, step := range steps {
		history, _, _ = history.Redo()
		if !history.Now().Alike(step) {
			t.Fatalf("made again up to step %d of %d the bench differs", i+1, len(steps))
		}
		if i%100 == 0 || i == len(steps)-1 {
			readsBack(t, history.Now())
		}
	}
	if _, _, more := history.Redo(); more || !history.Now().Alike(last.Now()) {
		t.Error("all made again, the bench is not as at the end")
	}
}

// readsBack writes the pattern and reads it.
func readsBack(t *testing.T, s edit.State) {
	t.Helper()
	var file bytes.Buffer
	if err := store.WritePattern(&file, s.Pattern); err != nil {
		t.Fatal(err)
	}
	p, err := store.ReadPattern(bytes.NewReader(file.Bytes()), "week.toml", nil)
	if err != nil {
		t.Fatal(err)
	}
	if again := (edit.State{Pattern: p, Tray: s.Tray}); !again.Alike(s) {
		t.Errorf("written and read the pattern differs:\n%s\n%s", row(again), row(s))
	}
}
