package tui

import (
	"path/filepath"
	"strings"
	"testing"
	"time"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/store"
	"example.com/oddments/species"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screens/planview"
	startup "example.com/oddments/tui/setup"
)

// owned is a home that holds the demo's files as the maker's own.
func owned(t *testing.T) Setup {
	t.Helper()
	demo, err := store.ReadDemo()
	if err != nil {
		t.Fatal(err)
	}
	home := store.OpenHome(t.TempDir())
	t.Cleanup(func() { _ = home.Close() })
	if _, err := home.SaveShop(demo.Shop, store.Absent); err != nil {
		t.Fatal(err)
	}
	if _, err := home.SaveRack(demo.Rack, store.Absent); err != nil {
		t.Fatal(err)
	}
	for _, p := range demo.Patterns {
		if _, err := home.SavePattern(p.Stem, p.Pattern, store.Absent); err != nil {
			t.Fatal(err)
		}
	}
	setup, err := startup.Load(Options{Home: home, Pattern: "rookery-square", Profile: paint.None})
	if err != nil {
		t.Fatal(err)
	}
	setup.Now = func() time.Time { return time.Date(2026, 11, 25, 10, 0, 0, 0, time.UTC) }
	return setup
}

// The plan is made when its screen is gone to, shown with its proof, and checked here
// by the checker that shares no code with the solver.
func TestPlanScreen(t *testing.T) {
	d := start(t, owned(t), 100, 40).keys("4")
	d.shows("[PLAN]", "Rookery square, made once", "11 of 11 strips", "no better plan exists (proved)", "back: ", "end on", "along", "saw fence")
	if err := cutting.Verify(d.app.plan.Job, d.app.plan.Plan); err != nil {
		t.Error(err)
	}
	d.keys("+").shows("made 2 times", "22 of 22 strips")
	d.keys("-").shows("made once")
	d.keys("s").shows("the order of work").keys("esc")
	d.keys("a").text("candle").keys("enter").shows("Candle sill, made once")
	d.keys("x")
	if strings.Contains(d.screen(), "Candle") {
		t.Error("planned alone it is still together with another")
	}
}

// A plan out of date says so, and nothing is done with it.
func TestStalePlan(t *testing.T) {
	d := start(t, owned(t), 100, 40).keys("4 1 + 5")
	d.shows("[FINDINGS]").keys("1 + 4")
	if d.app.plan.Of != d.app.stamp() {
		t.Error("going to the plan's screen does not plan the new state")
	}
	d.app.plan.Of.Copies = 99
	d.shows("out of date").keys("d").shows("out of date")
}

// The strips get the readings and rings of the pieces they come from, as one step.
func TestRealPieces(t *testing.T) {
	d := start(t, owned(t), 100, 40).keys("4")
	before := d.app.state()
	d.keys("r")
	known := 0
	for i, s := range d.app.state().Pattern.Strips {
		if s.Rings.Known() && !before.Pattern.Strips[i].Rings.Known() {
			known++
		}
	}
	if known == 0 && d.app.doc.History.Revision() == 0 {
		d.shows("already")
	}
	d.keys("u")
	if !d.app.state().Alike(before) {
		t.Error("one undo does not take it back")
	}
}

// Booking changes rack and pattern together, and one undo takes both back.
func TestBooking(t *testing.T) {
	setup := owned(t)
	d := start(t, setup, 100, 40)
	rackBefore, patternBefore := saved(t, d, "rack.toml"), saved(t, d, "patterns/rookery-square.toml")
	d.keys("4 d").shows("booked")
	if saved(t, d, "rack.toml") == rackBefore {
		t.Error("the rack's file is as before")
	}
	if text := saved(t, d, "patterns/rookery-square.toml"); !strings.Contains(text, "2026-11-25") {
		t.Errorf("the pattern's file does not say when it was made:\n%s", text)
	}
	if _, _, err := setup.Home.Rack(species.Builtin()); err != nil {
		t.Errorf("the booked rack: %v", err)
	}
	if d.app.doc.History.Dirty() || d.app.rack.History.Dirty() {
		t.Error("something counts as unsaved")
	}
	d.keys("u").shows("undone: booking")
	if saved(t, d, "rack.toml") != rackBefore || saved(t, d, "patterns/rookery-square.toml") != patternBefore {
		t.Error("one undo does not bring both files back")
	}
	if d.app.doc.History.Dirty() || d.app.rack.History.Dirty() {
		t.Error("something counts as unsaved after undo")
	}
}

// Of two bookings each is taken back by one undo: the files are as before either.
func TestTwoBookings(t *testing.T) {
	d := start(t, owned(t), 100, 40)
	files := func() [2]string {
		return [2]string{saved(t, d, "rack.toml"), saved(t, d, "patterns/rookery-square.toml")}
	}
	none := files()
	d.keys("4 d").shows("booked")
	one := files()
	d.keys("p d").shows("booked")
	if files() == one {
		t.Fatal("the second booking changes nothing")
	}
	for i, want := range [][2]string{one, none} {
		d.keys("u").shows("undone: booking")
		if files() != want || d.app.doc.History.Dirty() || d.app.rack.History.Dirty() {
			t.Errorf("undo %d does not bring the files back", i+1)
		}
	}
}

// What is laid aside is kept beside the booked pattern, which the copy then stands on.
func TestBookingKeepsWhatIsLaidAside(t *testing.T) {
	d := start(t, owned(t), 100, 40).keys("x S").aSecond()
	d.keys("4 d").shows("booked").aSecond()
	kept, err := d.app.files.Recoveries(nil)
	if err != nil || len(kept) != 1 || !sameWork(kept[0], d.app) || kept[0].Base != d.app.doc.Base {
		t.Errorf("kept %v, %v", kept, err)
	}
}

// Booking a plan takes the ticks on its steps away, in the home too; undo brings them back.
func TestBookingClearsTicks(t *testing.T) {
	setup := owned(t)
	d := start(t, setup, 100, 40).keys("4 s space down space").shows("2 of ").keys("esc d").shows("booked")
	if left, err := filepath.Glob(filepath.Join(setup.Home.Dir(), "recovery", "*.steps")); err != nil || len(left) > 0 {
		t.Errorf("what is ticked is still kept: %v, %v", left, err)
	}
	d.keys("p s").shows("0 of ").keys("esc u").shows("undone: booking").keys("p s").shows("2 of ")
	start(t, setup, 100, 40).keys("4 s").shows("2 of ")
}

func TestBookingOfTheDemoIsRefused(t *testing.T) {
	onDemo(t, 100, 40).keys("4 d").shows("the demo rack cannot be booked")
}

// While a plan runs every key answers; the result of a job that was overtaken is
// dropped.
func TestOvertakenPlanIsDropped(t *testing.T) {
	d := start(t, owned(t), 100, 40)
	a, first := d.app.act("plan-run")
	a, second := a.act("plan-more")
	d.app = a
	d.run(first)
	if d.app.plan.Have {
		t.Error("the overtaken job's plan was taken")
	}
	d.run(second)
	if !d.app.plan.Have || planning(d.app) {
		t.Error("the last job's plan was not taken")
	}
}

// planning reports whether a plan is being worked on.
func planning(a App) bool {
	plan, _ := of[planview.Screen](a).Works()
	return plan
}

// A tick on a step stays: on the page, when the program is started again, after a save; and
// is not shown of another plan.
func TestTicksStay(t *testing.T) {
	setup := owned(t)
	d := start(t, setup, 100, 40).keys("4 s down space")
	d.shows("> [x]  2. take the hornbeam", "1 of 19 done")
	d.keys("down space esc s").shows("2 of 19 done")
	d.keys("esc 1 S")
	again := start(t, setup, 100, 40).keys("4 s")
	again.shows("[x]  2. take the hornbeam", "[ ]  1. take ready strips", "2 of 19 done")
	again.keys("down space").shows("1 of 19 done")
	again.keys("esc + s").shows("0 of ")
	again.keys("esc - s").shows("1 of 19 done")
}
