package planview_test

import (
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screen/screentest"
)

const mm = length.Millimetre

// tray is the plan of three strips of 30 from a piece of 136: of 135 they take 3 x 34.2, and
// what is left, 32.4, gives one more; keep is what a spare width must be to go back.
func tray(t *testing.T, keep length.Length) *screentest.Driver {
	return planned(t, func(ctx *screen.Context) {
		p := pattern.Pattern{Name: "Tray", Panel: pattern.Panel{Length: 300 * mm, Thickness: 20 * mm}}
		for range 3 {
			p.Strips = append(p.Strips, pattern.Strip{Species: "pear", Width: 30 * mm})
		}
		ctx.State = edit.New(p)
		ctx.Rack = rack.Rack{Pieces: []rack.Piece{{ID: "PE1", Species: "pear", Length: 360 * mm, Width: 136 * mm, Thickness: 27 * mm, Quantity: 1}}}
		sh := shop.Default()
		sh.Keep.Width = keep
		sh.Standing = shop.Standing{31 * mm}
		ctx.Physics = movement.New(ctx.Physics.Table(), sh)
	})
}

// fills presses the key, and answers with no saved pattern.
func fills(d *screentest.Driver) {
	d.Do("f")
	if s, n := seen[screen.Saved](d); n > 0 {
		d.Tell(s.Then(nil))
	}
}

// By its key slices give strips of widths cut there anyway, then standing ones too, then none.
// What the plan draws and what is proved of it stay; with the fill is said beside it.
func TestFillByKey(t *testing.T) {
	d := tray(t, 60*mm)
	before := d.Ctx.Plan.Plan
	fills(d)
	p := d.Ctx.Plan.Plan
	if len(p.Fills) != 1 || !p.Fills[0].Made || p.Fills[0].InsteadOfRip || len(p.Fills[0].Widths) != 1 || p.Fills[0].Widths[0] != 30*mm {
		t.Fatalf("filled with %+v", p.Fills)
	}
	if p.DrawnCM3 != before.DrawnCM3 || p.GoneCM3 != before.GoneCM3 || p.Status != before.Status || !d.Ctx.Planned() {
		t.Errorf("the plan is another: %+v", p)
	}
	d.Shows("1 strip for the rack, uses up ", "[x] length 1, slice 1: 1 of 30 mm for", "│rack")
	if !strings.Contains(d.Said, "widths cut there anyway: 1 strip") {
		t.Errorf("said %q", d.Said)
	}
	fills(d)
	if p := d.Ctx.Plan.Plan; len(p.Fills) != 1 || !strings.Contains(d.Said, "standing widths too") {
		t.Errorf("standing: %+v, %q", p.Fills, d.Said)
	}
	d.Do("p")
	d.Work()
	if s, n := seen[screen.Saved](d); n < 3 {
		t.Errorf("a new plan asks for its fills %d times", n)
	} else if d.Tell(s.Then(nil)); len(d.Ctx.Plan.Plan.Fills) != 1 {
		t.Error("a new plan has no fills")
	}
	d.Do("f")
	if len(d.Ctx.Plan.Plan.Fills) != 0 || !strings.Contains(d.Said, "no strips for the rack") {
		t.Errorf("off: %+v, %q", d.Ctx.Plan.Plan.Fills, d.Said)
	}
	if d.Do("F"); !strings.Contains(d.Said, "no slice is filled") {
		t.Errorf("said %q", d.Said)
	}
}

// Where a spare width would go back a fill is only offered; space makes it and takes it back,
// and the steps and what is booked follow.
func TestMarkingFills(t *testing.T) {
	d := tray(t, 20*mm)
	fills(d)
	p := d.Ctx.Plan.Plan
	if len(p.Fills) != 1 || p.Fills[0].Made || !p.Fills[0].InsteadOfRip {
		t.Fatalf("filled with %+v", p.Fills)
	}
	if !strings.Contains(d.Said, "1 instead of spare widths, not made") {
		t.Errorf("said %q", d.Said)
	}
	back := len(d.Ctx.Plan.Details[0].Back)
	d.Shows("[ ] length 1, slice 1: 1 of 30 mm for", "instead of a spare width")
	d.Do("F")
	if over := d.Over(); !strings.Contains(over, "0 of 1 made") || !strings.Contains(over, "cm3, instead of") {
		t.Errorf("over it\n%s", over)
	}
	space := tea.KeyMsg{Type: tea.KeySpace, Runes: []rune{' '}}
	d.Press(space)
	if p := d.Ctx.Plan.Plan; !p.Fills[0].Made || len(d.Ctx.Plan.Details[0].Back) != back-1 {
		t.Errorf("made %v, %d go back, %d did", p.Fills[0].Made, len(d.Ctx.Plan.Details[0].Back), back)
	}
	d.Press(space)
	if p := d.Ctx.Plan.Plan; p.Fills[0].Made || len(d.Ctx.Plan.Details[0].Back) != back {
		t.Error("the mark is not taken back")
	}
	d.Press(tea.KeyMsg{Type: tea.KeyEsc})
	d.Ctx.Stamp.Pattern++
	if d.Do("f"); !strings.Contains(d.Said, "out of date") {
		t.Errorf("on an older plan: %q", d.Said)
	}
}
