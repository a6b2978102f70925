package layouts

import (
	"strings"
	"testing"

	"example.com/oddments/pattern/suggest"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screen/screentest"
)

// Layouts go by letters, no two alike.
func TestNames(t *testing.T) {
	seen := map[string]bool{}
	for i := range 60 {
		if name := Name(i); name == "" || seen[name] {
			t.Errorf("layout %d is called %q, as another is", i+1, name)
		} else {
			seen[name] = true
		}
	}
	if Name(0) != "a" {
		t.Errorf("the first is %q", Name(0))
	}
}

// Where ready strips alone are asked for and none serves, it is said why.
func TestWhyThereIsNoLayout(t *testing.T) {
	ctx := screentest.Demo(t, Screen{}.Keys()...)
	at := scene{Context: ctx, s: Screen{shown: Shown{Have: true, Status: suggest.Infeasible}}}
	at.q.Ask = suggest.New(300_000_000, 19_000_000, 450_000_000)
	at.q.Ask.Rack = ctx.Rack
	s := screentest.Drawn(100, 30, func(c *paint.Canvas, r paint.Rect) { draw(c, r, at) })
	for _, want := range []string{"proved", "no ready strip on the rack is at least 470 mm long and 21 mm"} {
		if !strings.Contains(strings.Join(strings.Fields(s), " "), want) {
			t.Errorf("no %q on\n%s", want, s)
		}
	}
}

// That nothing will do is said as soon as it is known, before what to loosen is: while the
// search goes on.
func TestImpossibleIsSaidAtOnce(t *testing.T) {
	ctx := screentest.Demo(t, Screen{}.Keys()...)
	ctx.State.Pattern.Panel.Width = 300_000_000
	next, asked := Screen{}.Update(ctx, screen.LayOut{})
	s := next.(Screen)
	defer s.Stop()
	if len(asked) != 2 || !s.Works() {
		t.Fatalf("asked for %v", asked)
	}
	next, asked = s.Update(ctx, s.running.Reports(progress{at: suggest.Progress{Wanted: 5, None: true}}))
	if len(asked) != 1 || !next.(Screen).Works() {
		t.Errorf("the search is not waited for: %v", asked)
	}
	text := screentest.Drawn(100, 30, func(c *paint.Canvas, r paint.Rect) { next.Draw(c, r, ctx) })
	if want := "no layout can meet all of this (proved); finding out which change helps"; !strings.Contains(text, want) {
		t.Errorf("no %q on\n%s", want, text)
	}
}

// A search that the time ended says so, and one that gave up does not blame the time.
func TestWhyNothingWasFound(t *testing.T) {
	ctx := screentest.Demo(t, Screen{}.Keys()...)
	for _, stopped := range []bool{true, false} {
		shown := Look{Physics: ctx.Physics, Bench: ctx.State}.Answer(Question{}, suggest.Result{Status: suggest.Open, Stopped: stopped}, false)
		at := scene{Context: ctx, s: Screen{shown: shown}}
		s := screentest.Drawn(100, 30, func(c *paint.Canvas, r paint.Rect) { draw(c, r, at) })
		if short := strings.Contains(s, "The time was too short to tell."); short != stopped {
			t.Errorf("stopped %v:\n%s", stopped, s)
		}
		if text := (scene{s: Screen{shown: Shown{Laid: make([]Candidate, 2), stopped: stopped}}}).sure(200); strings.Contains(text, "2 found, 0 proved, stopped") != stopped {
			t.Errorf("stopped %v: %q", stopped, text)
		}
	}
}
