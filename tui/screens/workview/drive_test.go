package workview_test

import (
	"strings"
	"testing"

	"example.com/oddments/pattern/work"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screen/screentest"
	"example.com/oddments/tui/screens/workview"
)

func shown(d *screentest.Driver) workview.Shown { return d.Screen.(workview.Screen).Shown() }

// What is told counts in the figures, and an empty field takes it back.
func TestWhatIsToldCounts(t *testing.T) {
	d := screentest.Drive(t, workview.Screen{}, screentest.Demo(t, workview.Screen{}.Keys()...))
	for _, c := range []struct {
		key, typed string
		told       func(work.Job) bool
	}{
		{"m", "310", func(j work.Job) bool { return j.Minutes == 310 }},
		{"p", "48.50", func(j work.Job) bool { return j.Asked == 48.5 }},
		{"c", "6", func(j work.Job) bool { return j.Clamps == 6 }},
		{"d", "2026-12-05", func(j work.Job) bool { return j.Due.String() == "2026-12-05" }},
	} {
		before := shown(d).Job
		if c.told(before) {
			t.Fatalf("%s: it is told already", c.key)
		}
		lines := len(shown(d).Lines)
		d.Do(c.key)
		d.Type(c.typed)
		if !c.told(shown(d).Job) || len(shown(d).Lines) < lines {
			t.Errorf("%s %s: %+v", c.key, c.typed, shown(d).Job)
		}
		d.Do(c.key)
		d.Type("")
		if c.told(shown(d).Job) {
			t.Errorf("%s: an empty field does not take it back", c.key)
		}
	}
	if d.Edits() != 0 {
		t.Error("figures that are told changed the pattern")
	}
}

// What is no figure stays in its field.
func TestFieldsRefuse(t *testing.T) {
	for _, c := range []struct{ key, typed string }{{"m", "0"}, {"m", "many"}, {"c", "10001"}, {"p", "cheap"}, {"d", "tomorrow"}} {
		d := screentest.Drive(t, workview.Screen{}, screentest.Demo(t, workview.Screen{}.Keys()...))
		d.Do(c.key)
		if d.Type(c.typed); !strings.Contains(d.Over(), c.typed) {
			t.Errorf("%s %q leaves its field:\n%s", c.key, c.typed, d.Over())
		}
	}
}

// Copies and the oil change what is worked with; a drying oil minds the rags.
func TestCopiesAndOil(t *testing.T) {
	d := screentest.Drive(t, workview.Screen{}, screentest.Demo(t, workview.Screen{}.Keys()...))
	if d.Do("+", "+", "-"); d.Ctx.Batch.Made() != 2 || shown(d).Job.Copies != 2 {
		t.Errorf("%d copies, figures of %d", d.Ctx.Batch.Made(), shown(d).Job.Copies)
	}
	rags := func() (words string) {
		for _, l := range shown(d).Lines {
			if l.Caution && strings.Contains(l.Text, "rags") {
				words += l.Text + "\n"
			}
		}
		return words
	}
	mineral := rags()
	if d.Do("o"); !shown(d).Job.DryingOil || rags() == mineral || !strings.Contains(rags(), "catch fire") || !strings.Contains(d.Said, "rags") {
		t.Errorf("a drying oil: %s said %q", rags(), d.Said)
	}
	if d.Do("o"); shown(d).Job.DryingOil || rags() != mineral {
		t.Error("the oil does not change back")
	}
	d.Do("m")
	d.Type("100")
	d.Tell(screen.Opened{})
	d.Tell(screen.Recomputed{})
	if shown(d).Job.Minutes == 100 {
		t.Error("the minutes of one pattern count for another")
	}
}
