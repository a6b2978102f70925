package workview

import (
	"testing"

	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screen/screentest"
)

// Every line can be gone to, a step at a time comes to the last one, and a press chooses
// the line that stands there.
func TestGoingThroughTheWork(t *testing.T) {
	ctx := screentest.Demo(t, Screen{}.Keys()...)
	next, _ := Screen{}.Update(ctx, screen.Enter{})
	first := next.(Screen)
	r := paint.Rect{W: 80, H: 22}
	draw := func(s Screen) string {
		return screentest.Drawn(r.W, r.H, func(c *paint.Canvas, r paint.Rect) { s.Draw(c, r, ctx) })
	}
	lines := len(first.shown.Lines)
	s := first
	seen := map[int]bool{}
	for range lines {
		seen[s.at] = true
		s = s.Go(1, ctx)
	}
	if len(seen) != lines || lines == 0 {
		t.Errorf("%d of %d lines are gone to", len(seen), lines)
	}
	steps := first
	for range lines {
		steps = steps.Step(1, ctx)
	}
	if steps.at != s.at {
		t.Error("the steps do not end at the last line")
	}
	pressed := first.At(screentest.RowOf(t, draw(first), "clamps by force"), r)
	if screentest.RowOf(t, draw(pressed), ">clamps by force") < 0 {
		t.Error("a press does not choose its line")
	}
}
