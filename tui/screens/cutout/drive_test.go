package cutout_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screen/screentest"
	"example.com/oddments/tui/screens/cutout"
)

// bare is the screen over a panel of four strips, 40 wide and 600 long, with nothing to cut out.
func bare(t *testing.T) *screentest.Driver {
	t.Helper()
	ctx := screentest.Demo(t, cutout.Screen{}.Keys()...)
	ctx.Beside.Solve = screen.Searching()
	p := &ctx.State.Pattern
	p.Panel.Length, p.Panel.Thickness = 600*length.Millimetre, 25*length.Millimetre
	p.Strips, p.Products, p.Avoids = p.Strips[:4], nil, nil
	for i := range p.Strips {
		p.Strips[i].Width, p.Strips[i].Start, p.Strips[i].Length = 40*length.Millimetre, 0, 0
	}
	return screentest.Drive(t, cutout.Screen{}, ctx)
}

func products(d *screentest.Driver) []pattern.Product { return d.Ctx.State.Pattern.Products }

// Products are listed, changed, counted and taken away by their keys, each as one change that
// can be taken back.
func TestProductsByKeys(t *testing.T) {
	d := bare(t)
	for _, key := range []string{"+", "b", "c", "x"} {
		if d.Do(key); d.Edits() != 0 || !strings.HasPrefix(d.Said, "no product listed") {
			t.Errorf("%s with nothing listed: %q, %d changes", key, d.Said, d.Edits())
		}
	}
	d.Do("a")
	d.Type("round 120 x2")
	if len(products(d)) != 1 || products(d)[0].Diameter != 120*length.Millimetre || !strings.Contains(d.Said, "listed: ") {
		t.Fatalf("listed %+v, said %q", products(d), d.Said)
	}
	d.Shows("120", "copy")
	for _, c := range []struct {
		key, typed string
		want       func(p pattern.Product) bool
	}{
		{"+", "", func(p pattern.Product) bool { return p.Count == 3 }},
		{"-", "", func(p pattern.Product) bool { return p.Count == 2 }},
		{"b", "6 mm", func(p pattern.Product) bool { return p.Bevel == 6*length.Millimetre }},
		{"o", "", func(p pattern.Product) bool { return p.BevelSide == pattern.BevelSides()[1] }},
		{"c", "joint 2", func(p pattern.Product) bool { return p.Centre.Words() == "glue line 2|3" }},
		{"e", "300x100", func(p pattern.Product) bool { return p.Shape == outline.Rectangle && p.Count == 1 }},
	} {
		before := d.Edits()
		d.Do(c.key)
		if c.typed != "" {
			d.Type(c.typed)
		}
		if d.Edits() != before+1 || !c.want(products(d)[0]) {
			t.Fatalf("%s %s: %+v after %d changes; %q", c.key, c.typed, products(d)[0], d.Edits()-before, d.Refuse)
		}
		after := products(d)[0]
		if d.Undo(); products(d)[0] == after {
			t.Fatalf("%s is not taken back", c.key)
		}
		d.Do(c.key) // once more, to go on from it
		if c.typed != "" {
			d.Type(c.typed)
		}
	}
	if d.Do("-", "-"); d.Refuse == "" || products(d)[0].Count != 0 {
		t.Errorf("one that fills the rows has one fewer: %+v", products(d))
	}
	d.Do("+")
	d.Do("a")
	d.Type("round 60")
	d.Do("<")
	if len(products(d)) != 2 || products(d)[0].Shape != outline.Round {
		t.Errorf("sooner: %+v; %q", products(d), d.Refuse)
	}
	d.Do("x")
	if len(products(d)) != 1 || products(d)[0].Shape != outline.Rectangle {
		t.Errorf("taken away: %+v", products(d))
	}
}

// What cannot be read stays in its field, which says why, and changes nothing.
func TestFieldsRefuse(t *testing.T) {
	for _, c := range []struct{ key, typed, says string }{
		{"a", "blob 120", "blob"}, {"a", "round", "diameter"}, {"a", "round 0", "0"}, {"K", "12", "across"},
	} {
		d := bare(t)
		d.Do(c.key)
		d.Type(c.typed)
		if d.Edits() != 0 || !strings.Contains(d.Over(), c.says) {
			t.Errorf("%s %q: %d changes, and\n%s", c.key, c.typed, d.Edits(), d.Over())
		}
	}
}

// A knot is marked at the cursor, set right by figures, and taken away there; products then keep
// clear of it.
func TestKnots(t *testing.T) {
	d := bare(t)
	d.Do("a")
	d.Type("round 100")
	at, _ := d.Screen.(cutout.Screen).Copy()
	d.Do("k")
	knots := d.Ctx.State.Pattern.Avoids
	if len(knots) != 1 || knots[0].Along != at.Along || knots[0].Across != at.Across || !strings.Contains(d.Said, "a knot of radius 8 mm") {
		t.Fatalf("%+v, %q", knots, d.Said)
	}
	if now, ok := d.Screen.(cutout.Screen).Copy(); !ok || now.From <= at.From {
		t.Errorf("the round lies at %v and does not keep clear of the knot in its middle", now.From)
	}
	d.Do("K")
	d.Type("500, 80, 5")
	if k := d.Ctx.State.Pattern.Avoids[0]; len(d.Ctx.State.Pattern.Avoids) != 1 || k.Along != 500*length.Millimetre || k.Radius != 5*length.Millimetre {
		t.Errorf("set right: %+v; %q", d.Ctx.State.Pattern.Avoids, d.Refuse)
	}
	if d.Do("j"); len(d.Ctx.State.Pattern.Avoids) != 1 || d.Said != "there is no knot at the cursor" {
		t.Errorf("where there is none: %q", d.Said)
	}
	s := d.Screen.(cutout.Screen)
	p := d.Ctx.State.Pattern
	now := s.Point(p)
	d.Screen = s.Move(500*length.Millimetre-now.Along, 80*length.Millimetre-now.Across, d.Ctx)
	if d.Do("j"); len(d.Ctx.State.Pattern.Avoids) != 0 {
		t.Errorf("%+v stays; %q", d.Ctx.State.Pattern.Avoids, d.Said)
	}
}

// A copy slides to try and goes back, no further than it may, and is kept by a mark.
func TestSliding(t *testing.T) {
	d := bare(t)
	d.Do("a")
	d.Type("round 100")
	first, _ := d.Screen.(cutout.Screen).Copy()
	d.Do("]")
	slid, _ := d.Screen.(cutout.Screen).Copy()
	if slid.From != first.From+5*length.Millimetre || d.Edits() != 1 {
		t.Errorf("slid from %v to %v, %d changes", first.From, slid.From, d.Edits())
	}
	d.Do("[")
	if back, _ := d.Screen.(cutout.Screen).Copy(); back.From != first.From {
		t.Errorf("back at %v, it lay at %v", back.From, first.From)
	}
	if d.Do("["); d.Said != "the copy is at its earliest place" {
		t.Errorf("further back: %q", d.Said)
	}
	for range 200 {
		d.Do("]")
	}
	if d.Said != "the copy cannot move further" {
		t.Errorf("at the far end: %q", d.Said)
	}
	if d.Do("z"); d.Refuse == "" && len(d.Ctx.State.Pattern.Avoids) != 1 {
		t.Errorf("kept by %+v, %q", d.Ctx.State.Pattern.Avoids, d.Said)
	}
	other := bare(t)
	other.Do("a")
	other.Type("round 100")
	if other.Do("z"); other.Edits() != 1 || !strings.HasPrefix(other.Said, "no copy is moved") {
		t.Errorf("nothing slid: %q", other.Said)
	}
}

// Short ends and the whole mark-out, with and without products.
func TestShortEndsAndMarkOut(t *testing.T) {
	d := bare(t)
	if d.Do("h"); d.Edits() != 0 || !strings.HasPrefix(d.Said, "no product listed") {
		t.Errorf("without products: %q", d.Said)
	}
	d.Do("a")
	d.Type("round 150")
	if d.Do("h"); d.Edits() != 1 || !strings.HasPrefix(d.Said, "planning short ends") || !d.Works() {
		t.Fatalf("%d changes, %q, %q", d.Edits(), d.Said, d.Refuse)
	}
	if d.Work(); d.Edits() != 2 || !strings.HasPrefix(d.Said, "short ends outside: saves ") {
		t.Fatalf("%d changes, %q, %q", d.Edits(), d.Said, d.Refuse)
	}
	if !slices.ContainsFunc(d.Ctx.State.Pattern.Strips, func(s pattern.Strip) bool { return s.Length > 0 && s.Length < 600*length.Millimetre }) {
		t.Error("no strip is shorter")
	}
	if d.Do("h"); d.Edits() != 2 {
		t.Error("a second time it changes more")
	}
	if d.Work(); d.Edits() != 2 || !strings.HasPrefix(d.Said, "short ends outside: saves nothing") {
		t.Errorf("a second time: %d changes, %q", d.Edits(), d.Said)
	}
	d.Do("h", "+")
	if d.Work(); d.Edits() != 3 || !strings.Contains(d.Said, "changed meanwhile") {
		t.Errorf("of another state: %d changes, %q", d.Edits(), d.Said)
	}
	d.Do("s")
	if over := d.Over(); !strings.Contains(over, "mark-out") || !strings.Contains(over, "round") {
		t.Errorf("the mark-out:\n%s", over)
	}
}

// Every copy can be gone to, and the chosen one stands in the list.
func TestGoingThroughCopies(t *testing.T) {
	d := bare(t)
	d.Do("a")
	d.Type("round 100 x3")
	seen := map[string]bool{}
	for range 3 {
		at, ok := d.Screen.(cutout.Screen).Copy()
		if !ok {
			t.Fatal("no copy is chosen")
		}
		seen[fmt.Sprint(at.Copy)] = true
		d.Do(".")
	}
	if len(seen) != 3 {
		t.Errorf("gone to %v", seen)
	}
	before, _ := d.Screen.(cutout.Screen).Copy()
	d.Do(",")
	if now, _ := d.Screen.(cutout.Screen).Copy(); now == before {
		t.Error("the copy before is not gone to")
	}
	d.Tell(screen.Opened{})
	if _, ok := d.Screen.(cutout.Screen).Copy(); ok {
		t.Error("another pattern keeps the copy")
	}
}

// What does not fit is told of on the screen.
func TestWhatDoesNotFit(t *testing.T) {
	d := bare(t)
	d.Do("a")
	d.Type("round 300")
	d.Shows("not placed")
	d.Do("s")
	if d.Over() == "" && d.Refuse == "" {
		t.Error("the mark-out of nothing is neither shown nor refused")
	}
}
