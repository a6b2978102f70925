package bench_test

import (
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screen/screentest"
	"example.com/oddments/tui/screens/bench"
)

// The sides that go with the rings are each chosen by a digit, and stand then on the head of
// the strip.
func TestBarkByDigit(t *testing.T) {
	ctx := screentest.Demo(t, bench.Screen{}.Keys()...)
	ask := func() []screen.Request {
		_, asked := bench.Screen{}.Update(ctx, screen.Do{ID: "set-bark"})
		return asked
	}
	for _, c := range []struct {
		rings pattern.Rings
		key   rune
		list  string
		head  string
	}{
		{pattern.RingsFlat(), '2', "1 ▔ up|2 ▁ down|3 ? not checked, as it is now", "=▁"},
		{pattern.RingsQuarter(), '1', "1 ▏ left|2 ▕ right|3 ? not checked, as it is now", "|▏"},
		{pattern.RingsRift(), '1', "1 ╭ up left|2 ╮ up right|3 ╰ down left|4 ╯ down right|5 ? not checked, as it is now", "/╭"},
	} {
		next, err := edit.SetRings(ctx.State, c.rings)
		if err != nil {
			t.Fatal(err)
		}
		ctx.State = next
		show := ask()[0].(screen.Show)
		s := screentest.Drawn(80, 22, func(canvas *paint.Canvas, r paint.Rect) { show.Overlay.Draw(canvas, r, ctx) })
		for want := range strings.SplitSeq(c.list, "|") {
			if !strings.Contains(s, " "+want+" ") {
				t.Errorf("no %q in\n%s", want, s)
			}
		}
		_, out := show.Overlay.Key(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{c.key}}, ctx)
		ctx.State, err = show.Then(out.Value).(screen.Edit).Make(ctx.State)
		if err != nil {
			t.Fatal(err)
		}
		s = screentest.Drawn(80, 22, func(canvas *paint.Canvas, r paint.Rect) { bench.Screen{}.Draw(canvas, r, ctx) })
		strip, _ := ctx.State.Strip()
		if !strings.Contains(s, c.head) || !strings.Contains(s, "bark "+strip.Bark.String()) {
			t.Errorf("no %q and bark %s on\n%s", c.head, strip.Bark, s)
		}
	}
	ctx.State, _ = edit.SetRings(ctx.State, pattern.Rings{})
	if refused, ok := ask()[0].(screen.Refuse); !ok || !strings.Contains(string(refused), "set the rings of strip") {
		t.Errorf("rings that nobody has looked at: %v", refused)
	}
}
