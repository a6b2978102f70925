package tui

import (
	"context"
	"fmt"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/work"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screens/cutout"
)

const mm = length.Millimetre

// lantern is a panel for two rounds of 290 whose strip 1 stands back by 70.
func lantern() pattern.Pattern {
	p := pattern.Pattern{Name: "Lantern pair", Panel: pattern.Panel{Length: 740 * mm, Thickness: 22 * mm, Moisture: pattern.Read(8)}}
	for i := range 13 {
		key := []string{"hornbeam", "european_elm", "pear"}[i%3]
		p.Strips = append(p.Strips, pattern.Strip{Species: key, Width: 23 * mm, Rings: pattern.RingsFlat()})
	}
	p.Strips[0].Start, p.Strips[0].Length = 70*mm, 600*mm
	p.Products = []pattern.Product{{Shape: outline.Round, Diameter: 290 * mm, Count: 2, Bevel: 8 * mm}}
	return p
}

const toCutOut = "6"

// onLantern starts on the lantern's bench, in a home of its own.
func onLantern(t *testing.T, w, h int) *hand {
	t.Helper()
	setup := demoSetup(t)
	setup.Open = store.Saved{Stem: "lantern-pair", Pattern: lantern()}
	return start(t, setup, w, h)
}

// The screen shows the numbers of the mark-out: 5 of margin and 145 from strip 7's
// end, or from edge A 149.5; the second 306 on. Strip 1 ends at 670, and the round's
// half chord on it is the root of 145 squared less 126.5 squared, 70.9: the second may
// lie at 594.1, which is 138.1 on. The rounds end at 601, which leaves 69.
func TestCutOutScreen(t *testing.T) {
	d := onLantern(t, 100, 40).keys(toCutOut)
	d.shows("[CUT OUT]", "2 of 2 placed: round 290 mm, bevel 8 mm (under)",
		"from strip 7's near end (0), square on A", "template 272 (bush 30, cutter 12); 8 passes 3 deep, 7.6 m of path; blank at least 295",
		"bevel 8 (45 deg, under): face 11.3 wide, foot 274, 14 of edge stays", "offcut 69 x 299 at the far end, from 601 mm",
		"out of round, across the grain: ", ">1<", "Follow your machine's manual", "more: s shows the whole mark-out")
	job := of[cutout.Screen](d.app).Shown().Job
	m := work.MarkOutOf(job.Pattern, 20*mm, job.Layout, 16*mm)
	for i, at := range job.Layout.Placed {
		d.shows(fmt.Sprintf("%d    %s", at.Copy, m.Marks[i].FromHook.Format(length.InMM)))
	}
	d.shows("150        149.5", "strip 7", "288.1 (138.1)", "456        149.5", "neighbour", "594.1 (138.1)", "4.5", "5, 449.1", "311, 143.1")
	d.keys("s").shows("the mark-out", "measure: lengths from the near end of strip 7")
	for _, line := range work.Texts(work.MarkLines(d.app.physics, job, length.InMM))[:4] {
		d.shows(line[:min(40, len(line))])
	}
	d.keys("esc i").shows("11 27/64 in", "5 29/32")
}

// Products are added, changed and taken away, each as one undo step.
func TestProductsByKeys(t *testing.T) {
	d := onLantern(t, 80, 24).keys(toCutOut)
	products := func() []pattern.Product { return d.app.state().Pattern.Products }
	before := d.app.state()
	d.keys("a").shows("another product").text("block 100 60 x2 holes 1 of 40 dee").shows("write a number").text("p 12 bevel 3 top").
		shows("2 of block 100 mm x 60 mm, 1 hole of 40 mm, 12 mm deep, bevel 3 mm (top)").keys("enter")
	if got := products(); len(got) != 2 || got[1].Shape != outline.Block || got[1].Count != 2 || got[1].Bevel != 3*mm {
		t.Fatalf("%+v", got)
	}
	d.shows("product 2 of 2", "listed: block", ">2.1<")
	d.keys("u").shows("undone: add")
	if !d.app.state().Alike(before) {
		t.Error("one undo does not take the product back")
	}
	d.keys("U . .") // again, and to the block
	for _, c := range []struct {
		keys, text string
		holds      func(pattern.Product) bool
	}{
		{"+", "", func(p pattern.Product) bool { return p.Count == 3 }},
		{"- - -", "", func(p pattern.Product) bool { return p.Count == 0 }},
		{"-", "", func(p pattern.Product) bool { return p.Count == 0 }}, // it fills the rows already
		{"+", "", func(p pattern.Product) bool { return p.Count == 1 }},
		{"o", "", func(p pattern.Product) bool { return p.BevelSide == pattern.BevelBoth }},
		{"b ctrl+u", "4", func(p pattern.Product) bool { return p.Bevel == 4*mm }},
		{"c ctrl+u", "strip 5", func(p pattern.Product) bool { return p.Centre == pattern.Centre{Strip: 5} }},
		{"c ctrl+u", "joint 6", func(p pattern.Product) bool { return p.Centre == pattern.Centre{Joint: 6} }},
		{"enter ctrl+u", "round 80 x2", func(p pattern.Product) bool {
			return p == pattern.Product{Shape: outline.Round, Diameter: 80 * mm, Count: 2}
		}},
		{"b", "", func(p pattern.Product) bool { return p.Bevel == 0 }},
	} {
		d.keys(c.keys)
		if c.text != "" {
			d.text(c.text).keys("enter")
		}
		if d.app.overlay != nil {
			d.keys("esc")
		}
		if got := products()[1]; !c.holds(got) {
			t.Errorf("after %s %s: %+v (%s)", c.keys, c.text, got, d.app.notice.Text)
		}
	}
	d.keys("o").shows("it has no bevel")
	d.keys("<").shows("product 1 of 2")
	if got := products(); got[0].Diameter != 80*mm {
		t.Errorf("sooner: %+v", got)
	}
	d.keys("< x")
	if got := products(); len(got) != 1 || got[0].Diameter != 290*mm {
		t.Errorf("taken away: %+v", got)
	}
	d.keys("x").shows("the panel itself is the product", "a lists a round")
	for range 14 {
		d.keys("u")
	}
	if !d.app.state().Alike(before) {
		t.Errorf("undone all the way it is not as before: %+v", d.app.state().Pattern.Products)
	}
}

// What does not fit says so and why: a third of 290 would have its centre at 762, and
// its half chord of 70.9 on strip 1 and 5 of margin are 167.9 beyond that strip's end. And what cannot be listed is refused in words.
func TestCutOutSaysWhatDoesNotFit(t *testing.T) {
	d := onLantern(t, 80, 24).keys(toCutOut + " +")
	d.shows("too much: 1 does not fit:", "2 of 3 placed")
	d.keys("pgdown pgdown").shows("> not placed: 1 of product 1, panel too short by 167.9 mm")
	d.keys("a").text("round 400 x1").keys("enter").shows("panel too narrow by 105 mm")
	d.keys("c ctrl+u").text("strip 40").keys("enter").shows("the panel has 13 strips")
}

// A centre whose strip is gone keeps the products from being laid: the screen says so,
// and its keys still set it right.
func TestCutOutWithALostCentre(t *testing.T) {
	setup := demoSetup(t)
	p := lantern()
	p.Products[0].Centre = pattern.Centre{Strip: 13}
	p.Strips = p.Strips[:12]
	setup.Open = store.Saved{Stem: "lantern-pair", Pattern: p}
	d := start(t, setup, 80, 24).keys(toCutOut)
	d.shows("cannot be laid", "centre strip 13: must be a strip of the 12")
	d.keys("s").shows("must be a strip of the 12").keys("h").shows("must be a strip of the 12")
	d.keys("c ctrl+u").text("panel").keys("enter").shows("panel too narrow by 18 mm")
}

// The cursor places a knot, the copies keep clear of it, and it is taken away again.
func TestKnotByCursor(t *testing.T) {
	d := onLantern(t, 80, 24).keys(toCutOut)
	knots := func() []pattern.Avoid { return d.app.state().Pattern.Avoids }
	first := func() length.Length { return of[cutout.Screen](d.app).Shown().Job.Layout.Placed[0].From }
	was := first()
	d.keys("left left up shift+right shift+down shift+down k").shows("a knot of radius 8 mm at 131 mm along, 141.5 mm across", "X")
	if got, want := knots(), (pattern.Avoid{Along: 131 * mm, Across: 141500 * length.Micrometre, Radius: 8 * mm}); len(got) != 1 || got[0] != want {
		t.Fatalf("%+v, want %+v", got, want)
	}
	if first() <= was {
		t.Errorf("the first copy lies at %v still", first())
	}
	d.keys("K").shows("knot 1: along", "131, 141.5, 8").keys("ctrl+u").text("20, 149.5, 5").keys("enter")
	if got := knots()[0]; got.Along != 20*mm || first() != 25*mm {
		t.Errorf("knot %+v, the first copy at %v, want 20 and 5", got, first())
	}
	d.keys("k") // as large as the last one typed
	if got := knots(); len(got) != 2 || got[1].Radius != 5*mm {
		t.Errorf("%+v", got)
	}
	d.keys("j")
	if got := knots(); len(got) != 1 {
		t.Errorf("%+v", got)
	}
	d.keys("j").shows("there is no knot at the cursor")
	d.keys("u u u u")
	if len(knots()) != 0 || first() != was {
		t.Errorf("undone: %+v, the first at %v", knots(), first())
	}
}

// A copy is slid within its slide, to try; kept, the same layout comes of the file.
func TestSlideByKey(t *testing.T) {
	d := onLantern(t, 80, 24).keys(toCutOut)
	placed := func(i int) outline.Placed { return of[cutout.Screen](d.app).Shown().Job.Layout.Placed[i] }
	d.keys("] ] }").shows("moved to 161 mm", "moved: trial only; z", "hand")
	if placed(0).From != 16*mm || placed(1).From != 322*mm || len(d.app.state().Pattern.Avoids) != 0 {
		t.Errorf("%+v, %+v", placed(0), placed(1))
	}
	d.keys("[ { [").shows("is at its earliest place again")
	d.keys("] ] z").shows("kept")
	if got := d.app.state().Pattern.Avoids; len(got) != 1 || got[0] != (pattern.Avoid{Along: placed(0).From, Across: placed(0).Across}) {
		t.Errorf("%+v", got)
	}
	p := d.app.state().Pattern
	again, err := outline.Lay(p, 20*mm, p.Products, p.Avoids, d.app.physics.Shop().Cut)
	if err != nil || again.Placed[0].From != placed(0).From || len(of[cutout.Screen](d.app).Shown().Held) != 0 {
		t.Errorf("%+v, %v, held %+v", again.Placed, err, of[cutout.Screen](d.app).Shown().Held)
	}
	d.keys("u z").shows("no copy is moved")
	for range 40 {
		d.keys("]")
	}
	d.shows("the copy cannot move further")
	if at := placed(0); at.Slide != 0 {
		t.Errorf("%+v", at)
	}
	d.keys("+") // another pattern: what was slid is let go
	if at := placed(0); at.From != 5*mm {
		t.Errorf("after a change it lies at %v", at.From)
	}
}

// Slid so far that another place before it is free, a mark would not keep it.
func TestKeepWhereAMarkDoesNotHold(t *testing.T) {
	setup := demoSetup(t)
	p := lantern()
	p.Products[0].Count = 1
	setup.Open = store.Saved{Stem: "lantern-pair", Pattern: p}
	d := start(t, setup, 80, 24).keys(toCutOut)
	for range 80 {
		d.keys("]")
	}
	d.keys("z").shows("a keep-clear mark cannot hold the copy")
	if len(d.app.state().Pattern.Avoids) != 0 {
		t.Error("it was marked all the same")
	}
}

// Short ends are one step on the bench and where products are cut out: strips are as short
// as their products need where that draws less, and what that saves is said.
func TestShortEndsByKey(t *testing.T) {
	for _, keys := range []string{"h", toCutOut + " h"} {
		d := onLantern(t, 80, 24)
		before := d.app.state()
		ends, err := cutting.ShortEndsOf(d.app.context().PlanJob(), func(job cutting.Job) (cutting.Plan, error) {
			return solve.Plan(context.Background(), job, solve.Options{})
		})
		if err != nil || len(ends.Laid) == 0 {
			t.Fatalf("%+v, %v", ends.Laid, err)
		}
		short, _ := before.Lay(ends.Laid)
		d.keys(keys).shows("short ends outside: " + ends.Saves(length.InMM))
		if !d.app.state().Alike(short) {
			t.Errorf("%s: %+v", keys, d.app.state().Pattern.Strips)
		}
		d.keys("h").shows("short ends outside: saves nothing")
		d.keys("u")
		if !d.app.state().Alike(before) {
			t.Errorf("%s: one undo does not bring the lengths back", keys)
		}
	}
	setup := demoSetup(t)
	setup.Open.Pattern.Products = nil
	start(t, setup, 80, 24).keys("h").shows("no product listed")
	p := lantern()
	for i := range p.Strips {
		p.Strips[i].Start, p.Strips[i].Length, p.Strips[i].Width = 0, 1000*mm, 75*mm
	}
	p.Products = []pattern.Product{{Shape: outline.Round, Diameter: 84 * mm, Count: 120}}
	setup.Open = store.Saved{Pattern: p}
	d := start(t, setup, 80, 24).keys("h").shows("staggered rows, which need straight ends")
	d.keys(toCutOut).shows("105 of 120 placed, staggered", "staggered rows: of")
}

// The mouse takes the cursor to the panel, chooses a line and presses the footer.
func TestCutOutByMouse(t *testing.T) {
	d := onLantern(t, 100, 30).keys(toCutOut)
	press := func(x, y int) {
		d.send(tea.MouseMsg{X: x, Y: y, Button: tea.MouseButtonLeft, Action: tea.MouseActionPress})
	}
	find := func(text string) (int, int) {
		t.Helper()
		for y, line := range strings.Split(d.screen(), "\n") {
			if x := strings.Index(line, text); x >= 0 {
				return len([]rune(line[:x])), y
			}
		}
		t.Fatalf("no %q on\n%s", text, d.screen())
		return 0, 0
	}
	x, y := find(" 2    456")
	press(x+2, y)
	d.shows("> 2    456", ">2<")
	x, y = find(">2<")
	press(x-20, y)
	if at := of[cutout.Screen](d.app).Point(d.app.state().Pattern); at.Along >= 456*mm {
		t.Errorf("the cursor is at %v", at)
	}
	d.send(tea.MouseMsg{Button: tea.MouseButtonWheelUp, Action: tea.MouseActionPress}).shows("> 1    150")
	press(find("add  Enter"))
	d.shows("another product")
}

// Budget: the frame of two rounds and 60 strips at 200x60 within 4 ms.
func BenchmarkViewCutOut(b *testing.B) {
	for _, profile := range []paint.Profile{paint.TrueColour, paint.ANSI256} {
		b.Run(profile.String(), func(b *testing.B) {
			a := cutSixty(b, profile)
			for b.Loop() {
				_ = a.View()
			}
		})
	}
}

// Budget: a key that changes the products within 2 ms on 60 strips, all of it laid
// and computed anew.
func BenchmarkKeyCutOut(b *testing.B) {
	a := cutSixty(b, paint.TrueColour)
	more, fewer := key("+"), key("-")
	for b.Loop() {
		model, _ := a.Update(more)
		model, _ = model.Update(fewer)
		a = model.(App)
		a.doc.History = edit.NewHistory(a.state())
	}
	b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(2*b.N), "us/key")
}

func cutSixty(tb testing.TB, profile paint.Profile) App {
	tb.Helper()
	a := sixty(tb, profile)
	a.doc.History = edit.NewHistory(edit.State{Pattern: func() pattern.Pattern {
		p := a.state().Pattern
		p.Products = []pattern.Product{{Shape: outline.Round, Diameter: 110 * mm, Count: 2, Bevel: 5 * mm}, {Shape: outline.Round, Diameter: 40 * mm, Count: 3}}
		return p
	}()})
	var model tea.Model = a.checked()
	for range strings.Fields(toCutOut) {
		model, _ = model.Update(key("tab"))
	}
	return model.(App)
}
