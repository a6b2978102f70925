package edit_test

import (
	"fmt"
	"runtime"
	"slices"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
)

// do makes moves on h, each one step.
func do(t testing.TB, h edit.History, label string, m move) edit.History {
	t.Helper()
	next, err := m(h.Now())
	if err != nil {
		t.Fatal(err)
	}
	return h.Do(label, next)
}

func undo(t testing.TB, h edit.History, want string) edit.History {
	t.Helper()
	h, label, ok := h.Undo()
	if !ok || label != want {
		t.Fatalf("undid %q, %v, want %q", label, ok, want)
	}
	return h
}

func redo(t testing.TB, h edit.History, want string) edit.History {
	t.Helper()
	h, label, ok := h.Redo()
	if !ok || label != want {
		t.Fatalf("redid %q, %v, want %q", label, ok, want)
	}
	return h
}

func TestHistory(t *testing.T) {
	var zero edit.History
	if _, _, ok := zero.Undo(); ok || zero.Dirty() || zero.Revision() != 0 {
		t.Error("the zero history is no clean draft")
	}
	h := edit.NewHistory(four())
	if _, _, ok := h.Undo(); ok {
		t.Error("nothing was done, but undone")
	}
	if _, _, ok := h.Redo(); ok {
		t.Error("nothing was undone, but redone")
	}
	start := h
	h = do(t, h, "wider", with(edit.Widen, 1*mm))
	h = do(t, h, "choose", edit.SelectLast)
	h = do(t, h, "carry", edit.CarryLeft)
	if got := row(h.Now()); got != "walnut 25 maple 31 >oak 15 cherry 20 |" {
		t.Fatalf("done: %s", got)
	}
	if label, ok := h.NextUndo(); !ok || label != "carry" {
		t.Errorf("next to undo %q, %v", label, ok)
	}
	if _, ok := h.NextRedo(); ok {
		t.Error("there is something to redo")
	}
	h = do(t, h, "choose", edit.SelectFirst)
	h = undo(t, h, "carry")
	if got := row(h.Now()); got != "walnut 25 maple 31 cherry 20 >oak 15 |" {
		t.Errorf("undone: %s", got)
	}
	h = undo(t, h, "wider")
	if !same(h.Now(), start.Now()) {
		t.Errorf("all undone: %s", row(h.Now()))
	}
	if label, ok := h.NextRedo(); !ok || label != "wider" {
		t.Errorf("next to redo %q, %v", label, ok)
	}
	h = redo(t, h, "wider")
	h = redo(t, h, "carry")
	if got := row(h.Now()); got != "walnut 25 maple 31 >oak 15 cherry 20 |" {
		t.Errorf("redone: %s", got)
	}
	h = do(t, undo(t, h, "carry"), "twin", edit.Twin)
	if _, _, ok := h.Redo(); ok {
		t.Error("what was undone before another step came back")
	}
}

func TestDoWithoutChangeIsNoStep(t *testing.T) {
	h := undo(t, do(t, edit.NewHistory(four()), "wider", with(edit.Widen, 1*mm)), "wider")
	before := h.Revision()
	h = do(t, h, "choose", edit.SelectLast)
	h = do(t, h, "width", with(edit.SetWidth, 15*mm)) // as wide as it is
	if h.Now().Selected != 3 || h.Revision() != before {
		t.Errorf("strip %d chosen, revision %d, was %d", h.Now().Selected+1, h.Revision(), before)
	}
	if _, ok := h.NextUndo(); ok {
		t.Error("there is a step to undo")
	}
	if label, _ := h.NextRedo(); label != "wider" {
		t.Error("choosing a strip forgot what was undone")
	}
}

func TestRevision(t *testing.T) {
	h := edit.NewHistory(four())
	seen := map[int]bool{h.Revision(): true}
	wider := func(h edit.History) edit.History { return do(t, h, "wider", with(edit.Widen, 1*mm)) }
	for i, step := range []func(edit.History) edit.History{
		wider, wider,
		func(h edit.History) edit.History { return undo(t, h, "wider") },
		func(h edit.History) edit.History { return redo(t, h, "wider") },
		func(h edit.History) edit.History { return undo(t, h, "wider") },
		wider,
	} {
		h = step(h)
		if seen[h.Revision()] {
			t.Errorf("step %d: revision %d was there before", i+1, h.Revision())
		}
		seen[h.Revision()] = true
	}
}

func TestDirty(t *testing.T) {
	h := edit.NewHistory(four())
	check := func(when string, want bool) {
		t.Helper()
		if h.Dirty() != want {
			t.Errorf("%s: dirty %v", when, h.Dirty())
		}
	}
	check("opened", false)
	h = do(t, h, "choose", edit.SelectLast)
	check("another strip chosen", false)
	h = do(t, h, "wider", with(edit.Widen, 1*mm))
	check("wider", true)
	h = undo(t, h, "wider")
	check("undone to the saved one", false)
	h = redo(t, h, "wider")
	h = h.MarkSaved(h.Now())
	check("saved", false)
	h = undo(t, h, "wider")
	check("undone beyond the saved one", true)
	h = do(t, h, "wider", with(edit.Widen, 1*mm))
	check("done again by hand", false)
	written := h.Now()
	h = do(t, h, "name", with(edit.SetName, "Quay board"))
	h = h.MarkSaved(written)
	check("a move was made while the file was written", true)
	h = undo(t, h, "name")
	check("undone to what was written", false)
	h.MarkSaved(edit.State{})
	check("another history marked", false)
}

// TestHistoriesBranch: a history that was copied is not written to by what is done
// on the copy, whichever of them goes on first.
func TestHistoriesBranch(t *testing.T) {
	h := edit.NewHistory(four())
	for range 5 {
		h = do(t, h, "wider", with(edit.Widen, 1*mm))
	}
	h = undo(t, undo(t, h, "wider"), "wider")
	trunk := row(h.Now())
	a := do(t, h, "twin", edit.Twin)
	b := do(t, h, "aside", edit.LayAside)
	c := redo(t, h, "wider")
	a2, b2 := do(t, a, "twin", edit.Twin), do(t, b, "aside", edit.LayAside)
	for name, got := range map[string][2]string{
		"trunk": {row(h.Now()), trunk},
		"a":     {row(undo(t, a, "twin").Now()), trunk},
		"a2":    {row(undo(t, undo(t, a2, "twin"), "twin").Now()), trunk},
		"b":     {row(undo(t, b, "aside").Now()), trunk},
		"b2":    {row(undo(t, undo(t, b2, "aside"), "aside").Now()), trunk},
		"c":     {row(undo(t, c, "wider").Now()), trunk},
		"redo":  {row(redo(t, redo(t, h, "wider"), "wider").Now()), "walnut 25 >maple 35 cherry 20 oak 15 |"},
		"b2 is": {row(b2.Now()), ">cherry 20 oak 15 | maple 33 walnut 25"},
	} {
		if got[0] != got[1] {
			t.Errorf("%s: got %s, want %s", name, got[0], got[1])
		}
	}
}

// TestAppendingCannotReachAState: rows have no spare room, so two appends to one
// State's strips do not meet.
func TestAppendingCannotReachAState(t *testing.T) {
	s := must(t, four(), edit.Twin, edit.LayAside, edit.Twin, edit.LayAside)
	if cap(s.Pattern.Strips) != len(s.Pattern.Strips) || cap(s.Tray) != len(s.Tray) {
		t.Errorf("strips have room for %d more, the tray for %d",
			cap(s.Pattern.Strips)-len(s.Pattern.Strips), cap(s.Tray)-len(s.Tray))
	}
}

// randomStep makes one random move that changes something; it keeps the panel at
// some 60 strips. It gives the move's ID.
func randomStep(u upTo, moves map[string]move, ids []string, s edit.State) (edit.State, string) {
	for {
		id := ids[u(len(ids))]
		n := len(s.Pattern.Strips)
		if n > 65 && (id == "put-in" || id == "put-in-row" || id == "twin" || id == "split" || id == "bring-back") || n < 55 && (id == "lay-aside" || id == "join") {
			continue
		}
		next, err := moves[id](s)
		if len(next.Pattern.Strips) > 80 {
			continue // so many repeats
		}
		if err == nil && !next.Alike(s) {
			return next, id
		}
		if err == nil {
			s.Selected = next.Selected
		}
	}
}

// TestLongAfternoon makes 20 000 random moves on some 60 strips. Each is undone and
// redone at once; then all are undone and redone, and every tenth state compared.
func TestLongAfternoon(t *testing.T) {
	const steps, every = 20_000, 10
	u := bySeed(3, 4)
	moves := u.arbitrary()
	var ids []string
	for _, m := range edit.Moves() {
		ids = append(ids, m.ID)
	}
	h := edit.NewHistory(u.state(60))
	states, labels := []edit.State{deep(h.Now())}, []string{}
	for i := range steps {
		next, label := randomStep(u, moves, ids, h.Now())
		if err := inRange(next); err != nil {
			t.Fatalf("step %d, %s: %v", i+1, label, err)
		}
		done := h.Do(label, next)
		if back := undo(t, done, label); !same(back.Now(), h.Now()) {
			t.Fatalf("step %d, %s undone is not as before", i+1, label)
		} else if again := redo(t, back, label); !same(again.Now(), next) {
			t.Fatalf("step %d, %s redone is not as after", i+1, label)
		}
		h = done
		labels = append(labels, label)
		if (i+1)%every == 0 {
			states = append(states, deep(next))
		}
	}
	for i := steps; i > 0; i-- {
		if i%every == 0 && !same(h.Now(), states[i/every]) {
			t.Fatalf("undone to step %d: another state", i)
		}
		h = undo(t, h, labels[i-1])
	}
	if _, _, ok := h.Undo(); ok || !same(h.Now(), states[0]) || h.Dirty() {
		t.Fatal("all undone is not the beginning")
	}
	for i := range steps {
		h = redo(t, h, labels[i])
		if (i+1)%every == 0 && !same(h.Now(), states[(i+1)/every]) {
			t.Fatalf("redone to step %d: another state", i+1)
		}
	}
	if _, _, ok := h.Redo(); ok {
		t.Fatal("there is more to redo than was done")
	}
}

// TestHistoryIsSmall: 20 000 width steps on 60 strips, and 500 on the widest
// panel there is, stay below 32 MB; whole copies would be some 96 and 400 MB.
func TestHistoryIsSmall(t *testing.T) {
	for _, tt := range []struct{ strips, steps int }{{60, 20_000}, {pattern.MaxStrips, 500}} {
		t.Run(fmt.Sprintf("%d strips", tt.strips), func(t *testing.T) {
			h := edit.NewHistory(bench(tt.strips/2, slices.Repeat([]pattern.Strip{strip("oak", 20*mm)}, tt.strips)...))
			before := heap()
			for i := range tt.steps {
				step := edit.Widen
				if i%2 == 1 {
					step = edit.Narrow
				}
				h = do(t, h, "width", with(step, 1*mm))
			}
			used := int64(heap()) - int64(before)
			t.Logf("%d steps hold %.1f MB", tt.steps, float64(used)/1e6)
			if used > 32e6 {
				t.Errorf("%d steps hold %d bytes", tt.steps, used)
			}
			runtime.KeepAlive(h)
		})
	}
}

func heap() uint64 {
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.HeapAlloc
}

func TestLabelsOfMoves(t *testing.T) {
	for _, m := range edit.Moves() {
		if m.Does == "" || strings.HasSuffix(m.Does, ".") || strings.ToLower(m.Does[:1]) != m.Does[:1] {
			t.Errorf("%s: %q is no plain sentence without a full stop", m.ID, m.Does)
		}
	}
}
