package history_test

import (
	"testing"

	"example.com/oddments/pattern/history"
)

// A count is undone by what it was short of.
type count int

func (c count) Alike(o count) bool   { return c == o }
func (c count) SavedAs(o count) bool { return c == o }
func (c count) Step(next count) (undo, redo func(count) count) {
	by := next - c
	return func(n count) count { return n - by }, func(n count) count { return n + by }
}

// Steps are taken back and done again, an older history stays as it was, and what is
// saved is told by its value.
func TestHistory(t *testing.T) {
	var h history.Of[count]
	start := h
	h = h.Do("two", 2).Do("same", 2).Do("five", 5)
	if h.Now() != 5 || !h.Dirty() || h.Revision() != 2 || start.Now() != 0 || start.Dirty() {
		t.Errorf("%+v, of %+v", h, start)
	}
	h, label, ok := h.Undo()
	if h.Now() != 2 || label != "five" || !ok {
		t.Errorf("undone %q to %d", label, h.Now())
	}
	if next, ok := h.NextRedo(); next != "five" || !ok {
		t.Errorf("redo is %q", next)
	}
	if h = h.MarkSaved(2); h.Dirty() {
		t.Error("2 is not what was saved as 2")
	}
	h, label, ok = h.Redo()
	if h.Now() != 5 || label != "five" || !ok || !h.Dirty() {
		t.Errorf("done again %q to %d", label, h.Now())
	}
	if _, _, ok := h.Redo(); ok {
		t.Error("something is left to redo")
	}
	h, _, _ = h.Undo()
	h = h.Do("one", 1) // forgets the five
	if _, ok := h.NextRedo(); ok || h.Now() != 1 {
		t.Errorf("%d, and something is left to redo", h.Now())
	}
	if next, ok := h.NextUndo(); next != "one" || !ok {
		t.Errorf("undo is %q", next)
	}
	if fresh := history.New(count(3)); fresh.Dirty() || fresh.Now() != 3 {
		t.Errorf("%+v", fresh)
	}
}
