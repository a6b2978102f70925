package pileview_test

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/pile/sets"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screen/screentest"
	"example.com/oddments/tui/screens/pileview"
)

// onPile is the screen over the demo, its market's wants read, in an empty home.
func onPile(t *testing.T) *screentest.Driver {
	t.Helper()
	ctx := screentest.Demo(t, pileview.Screen{}.Keys()...)
	ctx.RackDemo = true
	ctx.Beside.Files = store.OpenHome(t.TempDir())
	t.Cleanup(func() { _ = ctx.Beside.Files.Close() })
	ctx.Beside.Solve.Set = func(ctx context.Context, r sets.Request, opt sets.Options) (sets.Set, error) {
		opt.Rounds = 2
		return sets.Find(ctx, r, opt)
	}
	d := screentest.Drive(t, pileview.Screen{}, ctx)
	d.Work()
	return d
}

// own is the screen over the demo's rack as the maker's own.
func own(t *testing.T) *screentest.Driver {
	t.Helper()
	d := onPile(t)
	d.Ctx.RackDemo = false
	d.Screen = pileview.Screen{}
	d.Tell(screen.Enter{})
	d.Work()
	return d
}

// last returns the last request that the driver does not meet itself.
func last[R screen.Request](t *testing.T, d *screentest.Driver) R {
	t.Helper()
	for i := len(d.Asked) - 1; i >= 0; i-- {
		if r, ok := d.Asked[i].(R); ok {
			return r
		}
	}
	t.Fatalf("not asked for: %v", d.Asked)
	panic("unreachable")
}

// The demo shows its market's wants at once; a search shows the panels, what they are worth and
// what of the rack is used; undo and redo go through it.
func TestSearch(t *testing.T) {
	d := onPile(t)
	d.Shows("the demo's market", "> cake", "coaster", "No panels yet", "g searches")
	d.Do("g")
	if busy := d.Screen.(screen.Busy).Busy(); !strings.Contains(busy, "searching the pile") {
		t.Errorf("busy: %q", busy)
	}
	d.Do("g")
	if !strings.Contains(d.Said, "still running") {
		t.Errorf("a second search: %q", d.Said)
	}
	d.Work()
	d.Shows("cake-1", "> cake", "made", "worth", "no set is worth more than", "filled: used", "dm3 left")
	d.Tell(screen.Undone{})
	d.Shows("> cake     up to 3", "No panels yet")
	d.Tell(screen.Undone{Redo: true})
	d.Shows("cake-1")
	d.Do("w")
	for _, want := range []string{"what stays on the rack", " dm3 (", "): ", "All other pieces are cut"} {
		if !strings.Contains(strings.Join(strings.Fields(d.Over()), " "), want) {
			t.Errorf("what stays: no %q in\n%s", want, d.Over())
		}
	}
}

// A search asked for while the wants are still being read begins once they are.
func TestSearchBeforeTheWantsAreRead(t *testing.T) {
	d := onPile(t)
	d.Screen = pileview.Screen{}
	d.Tell(screen.Enter{})
	d.Do("g")
	d.Work()
	d.Shows("cake-1", "worth")
}

// A held panel stays in the next search, a dropped one is gone, and each is one undo step.
func TestHoldAndDrop(t *testing.T) {
	d := onPile(t)
	d.Do("g")
	d.Work()
	d.Do("right", "h")
	d.Shows("held")
	d.Do("g")
	d.Work()
	d.Shows("held")
	d.Do("x")
	frame := d.Draw(80, 22)
	d.Tell(screen.Undone{})
	if d.Draw(80, 22) == frame {
		t.Error("a dropped panel is not brought back")
	}
	d.Shows("held")
	d.Ctx.Stamp.Rack++
	d.Shows("the rack has changed")
	if d.Do("t"); !strings.Contains(d.Refuse, "the rack has changed") {
		t.Errorf("taken from another rack: %q", d.Refuse)
	}
	d.Do("g")
	if !strings.Contains(d.Said, "no longer held") {
		t.Errorf("held on another rack: %q", d.Said)
	}
	d.Work()
}

// One panel or all go to the bench unsaved; undo asks for what lay there.
func TestTake(t *testing.T) {
	d := onPile(t)
	d.Do("enter")
	if !strings.Contains(d.Said, "no panels yet") {
		t.Errorf("nothing to look at: %q", d.Said)
	}
	d.Do("g")
	d.Work()
	d.Do("right", "enter")
	if got := last[screen.Open](t, d); got.To != "bench" || len(got.With) > 0 || got.Saved.Stem == "" || len(got.Saved.Pattern.Strips) == 0 {
		t.Errorf("looked at: %+v", got)
	}
	d.Do("t")
	if got := last[screen.Open](t, d); got.To != "plan" || len(got.With) < 2 {
		t.Errorf("taken: to %s, with %d", got.To, len(got.With))
	}
	d.Tell(screen.Undone{})
	d.Tell(screen.Undone{})
	if got := last[screen.Open](t, d); !got.Back {
		t.Errorf("undone: %+v", got)
	}
}

// Wants are typed, changed, asked for more or fewer, removed; the maker's own are saved at once.
func TestWants(t *testing.T) {
	d := own(t)
	d.Shows("Nothing yet", "round 290 x 25 thick")
	if d.Do("g"); !strings.Contains(d.Said, "nothing is wanted yet") {
		t.Errorf("said %q", d.Said)
	}
	d.Do("a")
	d.Type("round 290 x 25 thick, up to 6, 38 each, mirror")
	d.Work()
	d.Shows("> round", "up to 6", "38 each", "mirror")
	d.Do("e")
	d.Type("round 200 x 20 thick, up to 2, 30 each, called dish")
	d.Do("+", "+", "-", "a")
	d.Type("rectangle 300 x 180 x 18 thick, 29 each")
	d.Do("+")
	d.Work()
	d.Shows("dish", "up to 3", "> rectangle", "1 or more")
	file := filepath.Join(d.Ctx.Beside.Files.Dir(), "orders.toml")
	if text, err := os.ReadFile(file); err != nil || !strings.Contains(string(text), `"dish"`) || !strings.Contains(string(text), "least = 1") {
		t.Errorf("saved: %v\n%s", err, text)
	}
	d.Do("r")
	d.Tell(screen.Undone{})
	d.Work()
	d.Shows("rectangle")
	if text, _ := os.ReadFile(file); !strings.Contains(string(text), `"rectangle"`) {
		t.Errorf("saved after undo:\n%s", text)
	}
}

// What contradicts the other wants or the rack is not taken, and the field says why.
func TestWantsRefused(t *testing.T) {
	for typed, says := range map[string]string{
		"round 290 x 25 thick":                         "what one is worth",
		"round 290 x 25 thick 38 each called cake":     "called cake already",
		"round 290 x 250 thick 38 each":                "thicker",
		"round 290 x 25 thick 38 each called Big_Cake": "Big_Cake",
	} {
		d := onPile(t)
		d.Do("a")
		if d.Type(typed); !strings.Contains(strings.Join(strings.Fields(d.Over()), " "), says) {
			t.Errorf("%s: not %q:\n%s", typed, says, d.Over())
		}
	}
	d := onPile(t)
	d.Do("+")
	if !strings.Contains(d.Said, "up to 4") {
		t.Errorf("more: %q", d.Said)
	}
	d.Ctx.Rack = rack.Rack{}
	if d.Do("g"); !strings.Contains(d.Refuse, "the rack is empty") {
		t.Errorf("an empty rack: %q", d.Refuse)
	}
}

// Where nothing was found the screen says how to go on, and why every piece stays.
func TestNothingFound(t *testing.T) {
	d := own(t)
	d.Do("a")
	d.Type("round 290 x 25 thick, with wenge")
	d.Do("g")
	d.Work()
	d.Shows("0 made", "No panel was found", "w shows why each piece stays", "w stays")
	if d.Do("w"); !strings.Contains(d.Over(), "round is not made: the rack has no wenge") {
		t.Errorf("why:\n%s", d.Over())
	}
}

// A search that fails is told, and the screen goes on.
func TestSearchFails(t *testing.T) {
	d := onPile(t)
	d.Ctx.Beside.Solve.Set = func(context.Context, sets.Request, sets.Options) (sets.Set, error) {
		return sets.Set{}, errors.New("no luck today")
	}
	d.Do("g")
	d.Work()
	if d.Refuse != "no luck today" {
		t.Errorf("told %q", d.Refuse)
	}
	d.Do("s")
	if d.Said != "no search is running" {
		t.Errorf("stopped: %q", d.Said)
	}
}

// Stop ends a search with the best so far, which better sets have shown before.
func TestStop(t *testing.T) {
	d := onPile(t)
	find := d.Ctx.Beside.Solve.Set
	d.Ctx.Beside.Solve.Set = func(ctx context.Context, r sets.Request, opt sets.Options) (sets.Set, error) {
		best, err := find(context.WithoutCancel(ctx), r, opt)
		opt.Tell(best)
		<-ctx.Done()
		return best, err
	}
	d.Do("g", "s")
	if d.Said != "stopped with the best so far" {
		t.Errorf("said %q", d.Said)
	}
	d.Work()
	d.Shows("cake-1", "the search ended early")
}

// What is changed while it is searched is undone by itself, and the search goes on; its set is that
// of every step since it began. Undoing the search stops it.
func TestUndoWhileSearching(t *testing.T) {
	d := onPile(t)
	find := d.Ctx.Beside.Solve.Set
	d.Ctx.Beside.Solve.Set = func(ctx context.Context, r sets.Request, opt sets.Options) (sets.Set, error) {
		best, err := find(context.WithoutCancel(ctx), r, opt)
		<-ctx.Done()
		return best, err
	}
	d.Do("g", "+", "+")
	d.Tell(screen.Undone{})
	if !strings.Contains(d.Screen.(screen.Busy).Busy(), "searching") {
		t.Fatal("undoing a change of a want stops the search")
	}
	d.Do("s")
	d.Work()
	d.Shows("cake-1", "the wants have changed", "up to 4")
	d.Tell(screen.Undone{})
	d.Shows("cake-1", "up to 3")
	d.Tell(screen.Undone{Redo: true})
	d.Tell(screen.Undone{Redo: true})
	d.Shows("cake-1", "up to 5")
	d.Do("g")
	d.Tell(screen.Undone{})
	if busy := d.Screen.(screen.Busy).Busy(); busy != "" {
		t.Errorf("the search that was undone goes on: %s", busy)
	}
	d.Work()
	d.Shows("cake-1", "up to 5")
}

// A press chooses the want or the panel that stands there.
func TestPress(t *testing.T) {
	d := onPile(t)
	d.Do("g")
	d.Work()
	for _, w := range []int{80, 200} {
		frame := d.Draw(w, 56)
		d.Tell(screen.Press{X: 5, Y: screentest.RowOf(t, frame, "coaster  ")})
		if !strings.Contains(d.Draw(w, 56), "> coaster ") {
			t.Errorf("the want is not chosen:\n%s", d.Draw(w, 56))
		}
		row := screentest.RowOf(t, frame, "cake-2")
		x := strings.Index(strings.Split(frame, "\n")[row], "cake-2")
		d.Tell(screen.Press{X: len([]rune(strings.Split(frame, "\n")[row][:x])), Y: row})
		if !strings.Contains(d.Draw(w, 56), "> cake-2") {
			t.Errorf("the panel is not chosen:\n%s", d.Draw(w, 56))
		}
		d.Do("left")
	}
}

// All panels are saved as patterns, all or none, and are opened as what was saved.
func TestSaveAll(t *testing.T) {
	d := onPile(t)
	d.Do("g")
	d.Work()
	d.Do("k")
	d.Work()
	saved, err := d.Ctx.Beside.Files.Patterns(d.Ctx.Physics.Table())
	if err != nil || len(saved) < 2 || !strings.Contains(d.Said, "saved ") {
		t.Errorf("%d saved, said %q: %v", len(saved), d.Said, err)
	}
	d.Do("enter")
	if got := last[screen.Open](t, d); got.Saved.Version == store.Absent {
		t.Errorf("opened as not saved: %s", got.Saved.Stem)
	}
	d.Do("k")
	d.Work()
	if !strings.Contains(d.Refuse, "already") {
		t.Errorf("saved twice: %q", d.Refuse)
	}
}

// The sheet of all panels is asked for as they are, saved or not; of a set that lacks a panel, or is
// not of this rack, it is not.
func TestSheetOfTheSet(t *testing.T) {
	d := onPile(t)
	d.Do("b")
	if !strings.Contains(d.Said, "no panels yet") {
		t.Errorf("before a search: %q", d.Said)
	}
	d.Do("g")
	d.Work()
	d.Do("b")
	r := last[screen.ExportSet](t, d)
	if len(r.Job.Patterns) < 2 || r.Job.Patterns[0].Stem != "cake-1" || len(r.Plan.Cuts) == 0 || r.Plan.Short > 0 || len(r.Wants) == 0 {
		t.Errorf("%d panels, %d pieces cut, %d wants", len(r.Job.Patterns), len(r.Plan.Cuts), len(r.Wants))
	}
	n := len(d.Asked)
	d.Tell(screen.Undone{})
	d.Ctx.Stamp.Rack++
	d.Do("b")
	for _, asked := range d.Asked[n:] {
		if _, ok := asked.(screen.ExportSet); ok {
			t.Error("the sheet of an old set is written")
		}
	}
}

// Of a set with a panel dropped the rest is planned for the sheet, and for what stays on the rack;
// what was undone before stays as it was.
func TestSheetOfTheRest(t *testing.T) {
	d := onPile(t)
	d.Do("g")
	d.Work()
	d.Do("x", "x")
	d.Tell(screen.Undone{}) // the second is undone, and may be dropped again
	d.Do("b")
	if !strings.Contains(d.Said, "planning the ") {
		t.Errorf("said %q", d.Said)
	}
	d.Shows(", planning")
	d.Do("x", "t")
	if !strings.Contains(d.Said, "still running") {
		t.Errorf("while it is planned: %q", d.Said)
	}
	d.Work()
	r := last[screen.ExportSet](t, d)
	if err := cutting.Verify(r.Job, r.Plan); err != nil || r.Plan.Short > 0 || len(r.Job.Patterns) < 2 {
		t.Fatalf("%d panels, %d short: %v", len(r.Job.Patterns), r.Plan.Short, err)
	}
	d.Shows("filled: used")
	d.Do("w")
	if !strings.Contains(d.Over(), "what stays on the rack") {
		t.Errorf("what stays is not told: %s", d.Over())
	}
	d.Do("esc")
	d.Tell(screen.Undone{Redo: true})
	d.Do("w")
	d.Work()
	if d.Do("esc", "b"); len(last[screen.ExportSet](t, d).Job.Patterns) != len(r.Job.Patterns)-1 {
		t.Errorf("dropped again: %d panels of %d", len(last[screen.ExportSet](t, d).Job.Patterns), len(r.Job.Patterns))
	}
	d.Tell(screen.Undone{})
	d.Tell(screen.Undone{})
	d.Do("b")
	if n := len(last[screen.ExportSet](t, d).Job.Patterns); n != len(r.Job.Patterns)+1 {
		t.Errorf("all back: %d panels, %d without the dropped", n, len(r.Job.Patterns))
	}
	d.Tell(screen.Undone{Redo: true})
	d.Tell(screen.Undone{Redo: true})
	d.Tell(screen.Undone{})
}
