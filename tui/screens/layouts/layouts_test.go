package layouts_test

import (
	"strings"
	"testing"

	"example.com/oddments/pattern/suggest"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen/screentest"
	"example.com/oddments/tui/screens/layouts"
)

// Layouts go by letters, no two alike.
func TestNames(t *testing.T) {
	seen := map[string]bool{}
	for i := range 60 {
		if name := layouts.Name(i); name == "" || seen[name] {
			t.Errorf("layout %d is called %q, as another is", i+1, name)
		} else {
			seen[name] = true
		}
	}
	if layouts.Name(0) != "a" {
		t.Errorf("the first is %q", layouts.Name(0))
	}
}

// Where ready strips alone are asked for and none serves, it is said why.
func TestWhyThereIsNoLayout(t *testing.T) {
	ctx := screentest.Demo(t, layouts.Keys()...)
	ctx.Laying.Have, ctx.Laying.Status = true, suggest.Infeasible
	ctx.Laying.Ask = suggest.New(300_000_000, 19_000_000, 450_000_000)
	ctx.Laying.Ask.Rack = ctx.Rack
	s := screentest.Drawn(100, 30, func(c *paint.Canvas, r paint.Rect) { layouts.Draw(c, r, ctx) })
	for _, want := range []string{"proved", "no ready strip of the rack is at least 470 mm long and 21 mm"} {
		if !strings.Contains(strings.Join(strings.Fields(s), " "), want) {
			t.Errorf("no %q on\n%s", want, s)
		}
	}
}
