package head_test

import (
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/tui/head"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screen/screentest"
)

// The rows say what lies on the bench, how wide it is and which glue line asks most; where
// room is short the name keeps its mark of unsaved work.
func TestRows(t *testing.T) {
	ctx := screentest.Demo(t)
	ctx.Dirty, ctx.Demo, ctx.Season = true, true, screen.Humid
	ctx.State.Pattern.Panel.Width = 300 * length.Millimetre
	for _, c := range []struct {
		w    int
		want []string
	}{
		{160, []string{"Rookery square *", "(45 short)", "19 mm (23 sawn", "11 strips, 255 mm long", "moisture 2.2 points apart, too much", "laying out", "demo   humid season"}},
		{60, []string{" *", "(45 short)", "9|10: too much"}},
	} {
		s := screentest.Drawn(c.w, 2, func(cv *paint.Canvas, r paint.Rect) {
			head.Title(cv, r.Row(0), ctx)
			head.Status(cv, r.Row(1), ctx, "laying out, 3 found")
		})
		for _, want := range c.want {
			if !strings.Contains(s, want) {
				t.Errorf("at %d no %q in\n%s", c.w, want, s)
			}
		}
	}
}

// A product that does not fit its panel is told of on every screen, ahead of the worst
// glue line.
func TestMisfitStandsInTheHeader(t *testing.T) {
	ctx := screentest.Demo(t)
	ctx.State.Pattern.Products = []pattern.Product{{Shape: outline.Round, Diameter: 900 * length.Millimetre, Count: 2}}
	ctx.Report = check.Of(ctx.Physics, ctx.State.Pattern, ctx.Unit)
	s := screentest.Drawn(80, 2, func(c *paint.Canvas, r paint.Rect) { head.Status(c, r.Row(1), ctx, "") })
	at := strings.Index(s, "does not fit: 1 product")
	if at < 0 || at > strings.Index(s, "worst ") {
		t.Errorf("the header says\n%s", s)
	}
}

// A long notice goes over the rows beneath, four of them at most.
func TestNotice(t *testing.T) {
	for text, rows := range map[string]int{"done": 1, strings.Repeat("word ", 30): 4, strings.Repeat("word ", 200): 4} {
		s := screentest.Drawn(40, 8, func(c *paint.Canvas, r paint.Rect) {
			head.Notice(c, r, screen.Notice{Text: text, Role: paint.RoleError})
		})
		got := 0
		for line := range strings.SplitSeq(s, "\n") {
			if strings.TrimSpace(line) != "" {
				got++
			}
		}
		if got != rows {
			t.Errorf("%d letters take %d rows, want %d:\n%s", len(text), got, rows, s)
		}
	}
}
