package cutout_test

import (
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/tui/panel"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screen/screentest"
	"example.com/oddments/tui/screens/cutout"
)

// The cursor begins at the middle of the copy that is chosen, moves along and across, and
// stands on a knot within its radius.
func TestCursor(t *testing.T) {
	ctx := screentest.Demo(t, cutout.Screen{}.Keys()...)
	const mm = length.Millimetre
	ctx.State.Pattern.Avoids = []pattern.Avoid{{Along: 5 * mm, Across: 5 * mm, Radius: 4 * mm}}
	next, _ := cutout.Screen{}.Update(ctx, screen.Enter{})
	v := next.(cutout.Screen)
	at, ok := v.Copy()
	if !ok || v.Point(ctx.State.Pattern) != (panel.Point{Along: at.Along, Across: at.Across}) {
		t.Fatalf("the cursor begins at %+v, the copy lies at %+v", v.Point(ctx.State.Pattern), at)
	}
	moved := v.Move(10*mm, -5*mm, ctx).Point(ctx.State.Pattern)
	if moved != (panel.Point{Along: at.Along + 10*mm, Across: at.Across - 5*mm}) {
		t.Errorf("10 along and 5 back across it stands at %+v", moved)
	}
	if _, ok := v.Knot(ctx.State.Pattern); ok {
		t.Error("in the middle of the panel it stands on a knot")
	}
	on := v.To(panel.Point{Along: 6 * mm, Across: 6 * mm}, ctx)
	if i, ok := on.Knot(ctx.State.Pattern); !ok || i != 0 {
		t.Errorf("beside the knot's middle: %d, %v", i, ok)
	}
	if p := v.Move(-99_999*mm, 0, ctx).Point(ctx.State.Pattern); p.Along < 0 {
		t.Errorf("it leaves the panel: %+v", p)
	}
}
