package bench_test

import (
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen/screentest"
	"example.com/oddments/tui/screens/bench"
)

// The advice for a strip is that of the worse of its glue lines' findings, and each key
// of the footer stands in its own cells.
func TestAdviceIsOfTheWorseFinding(t *testing.T) {
	ctx := screentest.Demo(t, bench.Screen{}.Keys()...)
	for i := range ctx.State.Pattern.Strips {
		ctx.State.Selected = i
		var worst pattern.Level
		want := ""
		for n := i; n <= i+1; n++ {
			for _, f := range ctx.Report.At(n) {
				if len(f.Remedies()) > 0 && (want == "" || f.Level > worst) {
					worst, want = f.Level, f.Remedies()[0].Text
				}
			}
		}
		if got, ok := (bench.Screen{}).Advise(ctx); want != "" && (!ok || got.Text != want) {
			t.Errorf("strip %d: %q, want %q", i+1, got.Text, want)
		}
	}
	ctx.State.Selected = 8
	s := screentest.Drawn(80, 22, func(c *paint.Canvas, r paint.Rect) { bench.Screen{}.Draw(c, r, ctx) })
	for _, want := range []string{">9<", "hornbeam", "rings?   9|10 EL moisture 2.2 apart, too much", "datum"} {
		if !strings.Contains(s, want) {
			t.Errorf("no %q on\n%s", want, s)
		}
	}
	if datum := screentest.RowOf(t, s, "datum"); datum <= screentest.RowOf(t, s, "275") {
		t.Error("the datum end is not nearest to the maker")
	}
}

func TestDraftOffersToPutIn(t *testing.T) {
	ctx := screentest.Demo(t, bench.Screen{}.Keys()...)
	ctx.State = edit.State{}
	for _, p := range bench.Footer(paint.Rect{W: 80, H: 22}, ctx) {
		if p.ID == "roll" || p.ID == "next-care" {
			t.Errorf("a draft is offered %s", p.ID)
		}
	}
}
