package made_test

import (
	"strings"
	"testing"
	"time"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screen/screentest"
	"example.com/oddments/tui/screens/made"
)

// empty is the screen over a pattern of which nothing was made yet.
func empty(t *testing.T) *screentest.Driver {
	t.Helper()
	ctx := screentest.Demo(t, made.Screen{}.Keys()...)
	ctx.State.Pattern.Made = nil
	ctx.Now = time.Date(2026, 11, 2, 9, 0, 0, 0, time.UTC)
	return screentest.Drive(t, made.Screen{}, ctx)
}

func batches(d *screentest.Driver) []pattern.Made { return d.Ctx.State.Pattern.Made }

// Batches are written down as they are spoken, changed, struck out and made again.
func TestBatchesByKeys(t *testing.T) {
	d := empty(t)
	for _, key := range []string{"x", "g"} {
		if d.Do(key); d.Edits() != 0 || d.Said == "" || len(d.Asked) > 0 {
			t.Errorf("%s with nothing made: %q, asked for %v", key, d.Said, d.Asked)
		}
	}
	d.Do("a")
	if !strings.Contains(d.Over(), "2026-11-02") {
		t.Errorf("the field does not begin with today:\n%s", d.Over())
	}
	d.Type("2026-11-02, 4, 299.5 wide, 310 min, note sold two")
	if len(batches(d)) != 1 || batches(d)[0].Copies != 4 || batches(d)[0].Minutes != 310 || batches(d)[0].Note != "sold two" {
		t.Fatalf("written down: %+v; %q", batches(d), d.Refuse)
	}
	d.Shows("2026-11-02", "299.5", "sold two")
	d.Do("a")
	d.Type("2026-11-05, 2")
	d.Do("e")
	d.Type("2026-11-05, 3")
	if len(batches(d)) != 2 || batches(d)[1].Copies != 3 {
		t.Fatalf("changed: %+v; %q", batches(d), d.Refuse)
	}
	d.Do("up", "g")
	again, ok := d.Asked[len(d.Asked)-1].(screen.Tell)
	if !ok || again.Msg.(screen.MadeAgain).Copies != 4 || !strings.Contains(again.Msg.(screen.MadeAgain).Words, "sold two") {
		t.Errorf("made again: %+v", d.Asked)
	}
	d.Do("x")
	if len(batches(d)) != 1 || batches(d)[0].Copies != 3 {
		t.Errorf("struck out: %+v", batches(d))
	}
	if d.Undo(); len(batches(d)) != 2 {
		t.Errorf("taken back: %+v", batches(d))
	}
}

// Several copies that are planned stand in the field: a count that is typed does not stand
// behind another.
func TestPlannedCopiesStandInTheField(t *testing.T) {
	d := empty(t)
	d.Ctx.Batch.Copies = 6
	d.Do("a")
	if !strings.Contains(d.Over(), "6") {
		t.Errorf("the field:\n%s", d.Over())
	}
}

// What cannot be read changes nothing, and the field says why.
func TestBatchesRefuse(t *testing.T) {
	for _, c := range []struct{ typed, says string }{{"lots", "lots"}, {"2026-13-40, 2", "2026-13-40"}, {"0", "0"}} {
		d := empty(t)
		d.Do("a")
		if d.Type(c.typed); d.Edits() != 0 || !strings.Contains(d.Over(), c.says) {
			t.Errorf("%q: %d changes,\n%s", c.typed, d.Edits(), d.Over())
		}
	}
}

// The label is shown in full, with what is to be written by hand, and is that of the chosen
// batch.
func TestLabel(t *testing.T) {
	d := empty(t)
	d.Do("l")
	if over := d.Over(); !strings.Contains(over, "to write by hand") {
		t.Errorf("the label:\n%s", over)
	}
	d = empty(t)
	d.Ctx.State.Pattern.Made = []pattern.Made{
		{Date: pattern.Date{Year: 2026, Month: 10, Day: 1}, Copies: 2},
		{Date: pattern.Date{Year: 2026, Month: 11, Day: 1}, Copies: 5, Width: 299 * length.Millimetre},
	}
	d.Tell(screen.Recomputed{})
	d.Shows("2 batches, 7 copies in all", "Label of product 1")
	d.Do("l")
	if over := d.Over(); !strings.Contains(over, "2026-11-01") {
		t.Errorf("the label of the last batch:\n%s", over)
	}
}

// A press chooses the batch that stands there.
func TestPress(t *testing.T) {
	d := empty(t)
	d.Ctx.State.Pattern.Made = []pattern.Made{{Copies: 1, Note: "first of all"}, {Copies: 2, Note: "second of all"}}
	d.Tell(screen.Recomputed{})
	d.Shows("note: second of all")
	row := screentest.RowOf(t, d.Draw(80, 22), "first of all")
	d.Tell(screen.Press{X: 4, Y: row})
	d.Shows("note: first of all")
}
