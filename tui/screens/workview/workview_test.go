package workview_test

import (
	"testing"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/work"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen/screentest"
	"example.com/oddments/tui/screens/workview"
)

// Every line can be gone to, a step at a time comes to the last one, and a press chooses
// the line that stands there.
func TestGoingThroughTheWork(t *testing.T) {
	ctx := screentest.Demo(t, workview.Screen{}.Keys()...)
	job := screentest.Job(t, ctx)
	shown := workview.Shown{Job: job, Lines: work.Report(ctx.Physics, job, work.Of(ctx.Physics, job), length.InMM)}
	r := paint.Rect{W: 80, H: 22}
	draw := func(v workview.View) string {
		return screentest.Drawn(r.W, r.H, func(c *paint.Canvas, r paint.Rect) { v.Draw(c, r, shown, ctx) })
	}
	var v workview.View
	seen := map[workview.View]bool{}
	for range shown.Lines {
		seen[v] = true
		v = v.Go(1, shown)
	}
	if len(seen) != len(shown.Lines) {
		t.Errorf("%d of %d lines are gone to", len(seen), len(shown.Lines))
	}
	steps := workview.View{}
	for range shown.Lines {
		steps = steps.Step(1, shown)
	}
	if steps != v {
		t.Error("the steps do not end at the last line")
	}
	pressed := workview.View{}.At(screentest.RowOf(t, draw(workview.View{}), "clamps by force"), r, shown)
	if screentest.RowOf(t, draw(pressed), ">clamps by force") < 0 {
		t.Error("a press does not choose its line")
	}
}
