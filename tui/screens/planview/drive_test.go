package planview_test

import (
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screen/screentest"
	"example.com/oddments/tui/screens/planview"
)

// planned is the screen over the demo's first pattern, which was planned.
func planned(t *testing.T, change func(*screen.Context)) *screentest.Driver {
	t.Helper()
	ctx := screentest.Demo(t, planview.Screen{}.Keys()...)
	ctx.Beside.Solve = screen.Searching()
	ctx.Stamp.Stem = "square"
	if change != nil {
		change(&ctx)
	}
	d := screentest.Drive(t, planview.Screen{}, ctx)
	d.Work()
	return d
}

func seen[R screen.Request](d *screentest.Driver) (last R, n int) {
	for _, r := range d.Asked {
		if r, ok := r.(R); ok {
			last, n = r, n+1
		}
	}
	return last, n
}

// Entering plans; more copies and fewer plan again, and never fewer than one.
func TestCopies(t *testing.T) {
	d := planned(t, nil)
	if !d.Ctx.Planned() || d.Ctx.Plan.Plan.Short != 0 || !strings.HasPrefix(d.Said, "planned ") {
		t.Fatalf("planned: %t, %q, %q", d.Ctx.Planned(), d.Said, d.Refuse)
	}
	one := len(d.Ctx.Plan.Plan.Cuts) + len(d.Ctx.Plan.Plan.Ready)
	d.Do("+", "+")
	if d.Ctx.Planned() {
		t.Error("the plan of one copy counts for three")
	}
	d.Work()
	if three := len(d.Ctx.Plan.Plan.Cuts) + len(d.Ctx.Plan.Plan.Ready); d.Ctx.Batch.Made() != 3 || three <= one || !d.Ctx.Planned() {
		t.Errorf("%d copies take %d entries, one takes %d", d.Ctx.Batch.Made(), three, one)
	}
	d.Do("-", "-", "-")
	d.Work()
	if d.Ctx.Batch.Made() != 1 || d.Said == "" {
		t.Errorf("%d copies, said %q", d.Ctx.Batch.Made(), d.Said)
	}
}

// A plan is gone through by keys and presses, and its steps are ticked.
func TestGoingThroughThePlan(t *testing.T) {
	d := planned(t, nil)
	cuts := len(d.Ctx.Plan.Plan.Cuts)
	drawn := map[string]bool{}
	for range cuts {
		drawn[d.Draw(80, 22)] = true
		d.Do("down")
	}
	if len(drawn) != cuts {
		t.Errorf("%d pictures of %d pieces", len(drawn), cuts)
	}
	last := d.Draw(80, 22)
	if d.Do("up"); d.Draw(80, 22) == last {
		t.Error("the piece above is not gone to")
	}
	d.Do("s")
	steps, n := seen[screen.StepsDone](d)
	if n != 1 {
		t.Fatalf("asked for %v", d.Asked)
	}
	d.Tell(steps.Then([]int{0}))
	if over := d.Over(); !strings.Contains(over, "order of work") {
		t.Fatalf("the steps:\n%s", over)
	}
	d.Press(tea.KeyMsg{Type: tea.KeySpace, Runes: []rune{' '}}) // the first step that is open
	if tick, n := seen[screen.Tick](d); n != 1 || tick.Plan != steps.Plan || len(tick.Done) == 1 {
		t.Errorf("%d ticks kept: %+v", n, tick)
	}
}

// Only a whole plan of the present state is booked, and its pieces taken over.
func TestBookingAndRealPieces(t *testing.T) {
	d := planned(t, nil)
	d.Do("d")
	if _, n := seen[screen.Book](d); n != 1 {
		t.Errorf("a whole plan is booked %d times; %q", n, d.Refuse)
	}
	d.Do("r")
	if d.Edits() != 1 && d.Said == "" {
		t.Errorf("real pieces: %d changes, %q", d.Edits(), d.Said)
	}
	d.Ctx.Stamp.Pattern++
	for _, key := range []string{"r", "d"} {
		if d.Do(key); !strings.Contains(d.Said, "out of date") {
			t.Errorf("%s on an older plan: %q", key, d.Said)
		}
	}
	none := planned(t, nil)
	none.Ctx.Plan = screen.Plan{}
	for _, key := range []string{"r", "d", "s"} {
		if none.Do(key); none.Said == "" || none.Edits() != 0 {
			t.Errorf("%s without a plan: %q", key, none.Said)
		}
	}
}

// Where strips are short nothing is booked, and ways out are found and shown.
func TestShort(t *testing.T) {
	d := planned(t, func(ctx *screen.Context) {
		ctx.Rack.Pieces = ctx.Rack.Pieces[:3]
		ctx.Rack.Strips = nil
	})
	if d.Ctx.Plan.Plan.Short == 0 {
		t.Fatal("nothing is short")
	}
	d.Do("d")
	if _, n := seen[screen.Book](d); n != 0 || d.Refuse == "" {
		t.Errorf("a plan that is short is booked %d times: %q", n, d.Refuse)
	}
	d.Do("w")
	if _, ways := d.Screen.(planview.Screen).Works(); !ways {
		t.Error("no ways out are looked for")
	}
	d.Work()
	if _, have := d.Screen.(planview.Screen).WaysOut(); !have {
		t.Errorf("no ways out: %q, %q", d.Said, d.Refuse)
	}
	d.Do("R")
	if d.Work(); !d.Ctx.Batch.AnyRings || d.Ctx.Plan.Job.Patterns[0].Pattern.Strips[0].Rings.Known() {
		t.Errorf("with any rings: %+v", d.Ctx.Batch)
	}
}

// Another pattern is planned together with the bench's, again for one copy more, and alone again.
func TestTogether(t *testing.T) {
	d := planned(t, nil)
	demo, _ := screentest.Read(t)
	d.Do("a")
	saved, n := seen[screen.Saved](d)
	if n != 1 {
		t.Fatalf("asked for %v", d.Asked)
	}
	others := []store.Saved{demo.Patterns[1]}
	for copies := 1; copies <= 2; copies++ {
		d.Tell(saved.Then(others))
		d.Press(tea.KeyMsg{Type: tea.KeyEnter})
		d.Work()
		if with := d.Ctx.Batch.With; len(with) != 1 || with[0].Copies != copies || len(d.Ctx.Plan.Job.Patterns) != 2 {
			t.Fatalf("together with %+v", with)
		}
	}
	if d.Do("x"); len(d.Ctx.Batch.With) != 0 {
		t.Errorf("alone with %+v", d.Ctx.Batch.With)
	}
}

// A sheet waits for the plan, and is written once there is one of the present state.
func TestSheetWaits(t *testing.T) {
	d := planned(t, nil)
	d.Tell(screen.WantSheet{File: "a.html"})
	if w, n := seen[screen.WriteSheet](d); n != 1 || w.File != "a.html" {
		t.Errorf("with a plan: %d sheets", n)
	}
	d.Ctx.Stamp.Pattern++
	d.Tell(screen.WantSheet{File: "b.html"})
	if _, n := seen[screen.WriteSheet](d); n != 1 || d.Screen.(planview.Screen).Awaits() != "b.html" {
		t.Errorf("%d sheets are written before the plan", n)
	}
	d.Work()
	if w, n := seen[screen.WriteSheet](d); n != 2 || w.File != "b.html" || d.Screen.(planview.Screen).Awaits() != "" {
		t.Errorf("%d sheets after the plan, the last %q", n, w.File)
	}
}

// A batch that is made again brings its copies and its words.
func TestMadeAgain(t *testing.T) {
	d := planned(t, nil)
	d.Tell(screen.MadeAgain{Copies: 2, Words: "made again as in May"})
	if g, n := seen[screen.Go](d); n != 1 || g.To != planview.Place || d.Ctx.Batch.Copies != 2 {
		t.Errorf("%d screens gone to, %d copies", n, d.Ctx.Batch.Copies)
	}
	d.Tell(screen.Enter{})
	if d.Work(); !strings.Contains(d.Said, "made again as in May") {
		t.Errorf("said %q", d.Said)
	}
}

// A plan that is being worked on is stopped by the same key, and one of nothing says so.
func TestStopping(t *testing.T) {
	ctx := screentest.Demo(t, planview.Screen{}.Keys()...)
	ctx.Beside.Solve = screen.Searching()
	d := screentest.Drive(t, planview.Screen{}, ctx)
	if works, _ := d.Screen.(planview.Screen).Works(); !works || !d.Works() {
		t.Fatal("nothing is worked on")
	}
	if d.Do("p"); d.Said != "stopped, the best so far is kept" {
		t.Errorf("said %q", d.Said)
	}
	d.Work()
	if works, _ := d.Screen.(planview.Screen).Works(); works {
		t.Error("it is still worked on")
	}
	empty := planned(t, func(ctx *screen.Context) { ctx.Rack = rack.Rack{} })
	if empty.Ctx.Plan.Plan.Short != len(empty.Ctx.State.Pattern.Strips) {
		t.Errorf("from nothing %d strips are short", empty.Ctx.Plan.Plan.Short)
	}
}
