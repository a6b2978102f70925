package findings_test

import (
	"strings"
	"testing"

	"example.com/oddments/pattern/check"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screen/screentest"
	"example.com/oddments/tui/screens/findings"
)

// Going and pressing choose a finding and name the strip it is about; its remedy is its
// first, and none where it has none.
func TestChoosing(t *testing.T) {
	ctx := screentest.Demo(t, findings.List{}.Keys()...)
	all := ctx.Report.Groups
	var l findings.List
	for i, f := range all {
		var strip int
		if i > 0 {
			l, strip = l.Go(1, ctx)
			if strip != max(f.Where.Strip, f.Where.Line) {
				t.Errorf("finding %d goes to strip %d", i+1, strip)
			}
		}
		remedy, ok := l.Remedy(ctx)
		if ok != (len(f.Remedies()) > 0) || ok && remedy.Text != f.Remedies()[0].Text {
			t.Errorf("finding %d: remedy %q, %v", i+1, remedy.Text, ok)
		}
	}
	if last, _ := l.Go(99, ctx); last != l {
		t.Error("it goes on beyond the last")
	}
	r := paint.Rect{W: 100, H: 40}
	s := screentest.Drawn(r.W, r.H, func(c *paint.Canvas, r paint.Rect) { findings.List{}.Draw(c, r, ctx) })
	if at, ok := (findings.List{}).At(screentest.RowOf(t, s, screen.Sentence(all[1])[:20]), r, ctx); !ok || at == (findings.List{}) {
		t.Error("a press on a finding below chooses none")
	}
	if _, ok := (findings.List{}).At(r.H-1, r, ctx); ok {
		t.Error("a press on the last row chooses a finding")
	}
}

func TestNothingFound(t *testing.T) {
	ctx := screentest.Demo(t, findings.List{}.Keys()...)
	ctx.Report = check.Report{}
	s := screentest.Drawn(60, 18, func(c *paint.Canvas, r paint.Rect) { findings.List{}.Draw(c, r, ctx) })
	if strings.TrimSpace(s) == "" {
		t.Error("it says nothing")
	}
	if l, strip := (findings.List{}).Go(1, ctx); strip != 0 || l != (findings.List{}) {
		t.Errorf("it goes to strip %d", strip)
	}
}
