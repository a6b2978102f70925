package tui

import (
	"context"
	"slices"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/search"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screens/layouts"
)

// Budget: a frame of the gallery with ten layouts of 60 strips at 200x60 within 4 ms.
func BenchmarkViewLayouts60Strips(b *testing.B) {
	for _, profile := range paint.Profiles() {
		b.Run(profile.String(), func(b *testing.B) {
			a := sixtyLaid(b, profile)
			for b.Loop() {
				_ = a.View()
			}
		})
	}
}

// Budget: one key within 2 ms on ten layouts of 60 strips.
func BenchmarkKeyLayouts60Strips(b *testing.B) {
	a := sixtyLaid(b, paint.TrueColour)
	down, up, right := key("down"), key("up"), key("right")
	for b.Loop() {
		model, _ := a.Update(down)
		model, _ = model.Update(right)
		model, _ = model.Update(up)
		a = model.(App)
	}
}

// sixtyLaid is the gallery with ten layouts of the 60 strips of sixty, each with some
// of them changed about.
func sixtyLaid(tb testing.TB, profile paint.Profile) App {
	tb.Helper()
	a := sixty(tb, profile)
	a, _ = a.act(keymap.LayOut)
	of[layouts.Screen](a).Stop()
	q, wrong := of[layouts.Screen](a).Question(a.context())
	if wrong != "" {
		tb.Fatal(wrong)
	}
	q.Ask.Width = 60 * 12 * length.Millimetre
	var all []suggest.Layout
	for n := range 10 {
		var l suggest.Layout
		for i := range a.state().Pattern.Strips {
			s := a.state().Pattern.Strips[(i*(1+2*n))%60]
			l.Strips = append(l.Strips, suggest.Placed{Species: s.Species, Width: s.Width, Rings: s.Rings, Moisture: s.Moisture, Source: s.Species})
			l.Width += s.Width
		}
		all = append(all, l)
	}
	found := layouts.Look{Physics: a.physics, Bench: a.state()}.Answer(q, suggest.Result{Layouts: all, Status: suggest.Optimal, Aim: suggest.UseUp}, false)
	a.screens = slices.Clone(a.screens)
	a.screens[a.at].Screen = of[layouts.Screen](a).With(found)
	for range 4 {
		a, _ = a.act("lay-right")
	}
	return a
}

// Budget: what is computed of a layout of 60 strips, beside the screen, within 1 ms.
func BenchmarkLookAtALayout(b *testing.B) {
	a := sixtyLaid(b, paint.None)
	q, _ := of[layouts.Screen](a).Question(a.context())
	all := []suggest.Layout{of[layouts.Screen](a).Shown().Laid[3].Layout}
	look := layouts.Look{Physics: a.physics, Bench: a.state()}
	for b.Loop() {
		_ = look.Layouts(q.Ask, all)
	}
}

// A search that is ended gives what it has within a tenth of a second, also from a pile
// that it would work on for long.
func TestSearchEndsAtOnce(t *testing.T) {
	a, _ := New(demoSetup(t)).act(keymap.LayOut)
	of[layouts.Screen](a).Stop()
	q, _ := of[layouts.Screen](a).Question(a.context())
	ctx, stop := context.WithCancel(context.Background())
	stop()
	answer, err := search.Solve(ctx, a.physics, q.Ask, suggest.Options{})
	if err != nil || answer.Status == suggest.Infeasible || answer.Status == suggest.Optimal {
		t.Errorf("%v, %v", answer.Status, err)
	}
	if q.Ask.Level != pattern.TakeCare {
		t.Errorf("level %v", q.Ask.Level)
	}
}
