package made_test

import (
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen/screentest"
	"example.com/oddments/tui/screens/made"
)

// The zero value stands at the last batch, also of one that comes later.
func TestTheLastBatchIsChosen(t *testing.T) {
	ctx := screentest.Demo(t, made.Screen{}.Keys()...)
	p := &ctx.State.Pattern
	p.Made = nil
	if _, ok := (made.Screen{}).Index(*p); ok {
		t.Error("a batch is chosen where nothing was made")
	}
	for day := 1; day <= 3; day++ {
		p.Made = append(p.Made, pattern.Made{Date: pattern.Date{Year: 2026, Month: 11, Day: day}, Copies: day})
		if i, ok := (made.Screen{}).Index(*p); !ok || i != day-1 {
			t.Errorf("of %d batches number %d is chosen", day, i+1)
		}
	}
	if i, _ := (made.Screen{}).Go(-1, ctx).Index(*p); i != 1 {
		t.Errorf("one up is batch %d", i+1)
	}
	if i, _ := (made.Screen{}).Go(-9, ctx).Index(*p); i != 0 {
		t.Errorf("far up is batch %d", i+1)
	}
	r := paint.Rect{W: 80, H: 22}
	s := screentest.Drawn(r.W, r.H, func(c *paint.Canvas, r paint.Rect) { made.Screen{}.Draw(c, r, ctx) })
	if i, _ := (made.Screen{}).At(screentest.RowOf(t, s, "2026-11-01"), r, *p).Index(*p); i != 0 {
		t.Errorf("a press on the first chooses batch %d", i+1)
	}
}
