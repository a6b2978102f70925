package tui

import (
	"context"
	"slices"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/remake"
	"example.com/oddments/pattern/suggest/search"
	"example.com/oddments/tui/screens/layouts"
)

// laySetup is a bench and a rack of which layouts are found at once: ready strips that
// leave a choice, and one piece.
func laySetup(t testing.TB) Setup {
	t.Helper()
	const mm = length.Millimetre
	s := demoSetup(t)
	p := &s.Open.Pattern
	p.Name, p.Notes = "Lychgate board", "for the porch stall"
	p.Products = slices.Clone(p.Products)
	p.Products[0].Width = 110 * mm // the square of the demo is wider than this board
	p.Panel = pattern.Panel{Length: 255 * mm, Thickness: 19 * mm, Width: 130 * mm}
	p.Strips = nil
	for i, key := range []string{"hornbeam", "ovangkol", "hornbeam", "pear", "hornbeam", "ovangkol"} {
		p.Strips = append(p.Strips, pattern.Strip{Species: key, Width: []length.Length{25 * mm, 20 * mm}[i%2], Rings: pattern.RingsQuarter(), Moisture: pattern.Read(9)})
	}
	ready := func(id, species string, w length.Length, n int, first bool) rack.Strip {
		return rack.Strip{ID: id, Species: species, Width: w * mm, Thickness: 22 * mm, Length: 290 * mm, Quantity: n,
			Rings: pattern.RingsQuarter(), Moisture: pattern.Read(9), UseFirst: first}
	}
	s.Rack = rack.Rack{Strips: []rack.Strip{
		ready("H-25", "hornbeam", 25, 6, false), ready("OV-20", "ovangkol", 20, 3, false),
		ready("PE-20", "pear", 20, 2, true), ready("EL-25", "european_elm", 25, 2, true),
		ready("EA-30", "european_ash", 30, 2, false),
	}, Pieces: []rack.Piece{{ID: "EA9", Species: "european_ash", Length: 640 * mm, Width: 70 * mm, Thickness: 30 * mm, Quantity: 1, Rings: pattern.RingsFlat(), Moisture: pattern.Read(9)}}}
	return s
}

// onLayouts opens the gallery on ready strips alone.
func onLayouts(t *testing.T, w, h int) *hand { return start(t, laySetup(t), w, h).keys("v f h 9") }

// solved answers what the gallery asks for now, without the gallery.
func solved(t *testing.T, d *hand) suggest.Result {
	t.Helper()
	q, wrong := d.question()
	if wrong != "" {
		t.Fatal(wrong)
	}
	answer, err := search.Solve(context.Background(), d.app.physics, q.Ask, suggest.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return answer
}

// laid returns the layouts that the gallery shows.
func laid(d *hand) [][]pattern.Strip {
	var out [][]pattern.Strip
	for _, l := range of[layouts.Screen](d.app).Shown().Laid {
		out = append(out, l.Pattern.Strips)
	}
	return out
}

// What is shown is what the search answers, best first, with its proof; with something
// marked use first it is to be used up.
func TestGalleryShowsTheAnswer(t *testing.T) {
	d := onLayouts(t, 120, 40)
	answer := solved(t, d)
	shown := of[layouts.Screen](d.app).Shown()
	if answer.Status != suggest.Optimal || answer.Aim != suggest.UseUp || len(answer.Layouts) != 5 || len(shown.Laid) != 5 {
		t.Fatalf("%v for %v: %d layouts, %d shown", answer.Status, answer.Aim, len(answer.Layouts), len(shown.Laid))
	}
	for i, l := range answer.Layouts {
		got := shown.Laid[i].Layout
		if got.UseFirst != l.UseFirst || got.SmallestContrast != l.SmallestContrast || got.Width != l.Width {
			t.Errorf("layout %d is shown as %+v, the answer is %+v", i, got, l)
		}
	}
	d.shows("Layouts   ", "130 wide, 19 thick, 255 mm long", "all proved", "use-first wood", "a of 5", "> a", "yours",
		"uses the most use-first wood", "wide): 1 ", "Needs", "Worst glue line ")
	d.keys("down").shows("b of 5", "> b").keys("up up").shows("a of 5")
}

// Taking a layout is one undo step; all but the strips stays, and so do pins.
func TestTakeALayout(t *testing.T) {
	d := start(t, laySetup(t), 100, 30).keys("n 2 enter p L").text("").keys("esc v f h 9")
	before, steps := d.app.state(), d.app.doc.History.Revision()
	chosen := laid(d)[1]
	d.keys("down enter").shows("laid out as b", "u undo")
	after := d.app.state()
	if d.app.here() == layouts.Place || d.app.doc.History.Revision() != steps+1 {
		t.Fatal("it is not one step on the bench")
	}
	if len(after.Pattern.Strips) != len(chosen) || after.Pattern.Notes != before.Pattern.Notes || after.Pattern.Panel != before.Pattern.Panel ||
		!slices.Equal(after.Pattern.Products, before.Pattern.Products) || len(before.Pattern.Products) == 0 {
		t.Errorf("on the bench lies %+v", after.Pattern)
	}
	if after.Pattern.Strips[1] != before.Pattern.Strips[1] || !after.Pattern.Strips[1].Pinned {
		t.Errorf("the pinned strip is now %+v, it was %+v", after.Pattern.Strips[1], before.Pattern.Strips[1])
	}
	d.keys("u")
	if !d.app.state().Alike(before) {
		t.Error("one undo does not bring the old arrangement back")
	}
	d.keys("U v").shows("b of 5")
	if of[layouts.Screen](d.app).Works() {
		t.Error("a layout that was taken makes the same question a new one")
	}
}

// What lies on the bench is the layout already: nothing is done.
func TestTakeTheSameTwice(t *testing.T) {
	d := onLayouts(t, 100, 30).keys("enter")
	steps := d.app.doc.History.Revision()
	d.keys("v").shows("Same as yours").keys("enter").shows("has that layout already")
	if d.app.doc.History.Revision() != steps {
		t.Error("there is an undo step for nothing")
	}
}

// Layouts of an older bench or rack say so, and are not taken.
func TestStaleLayouts(t *testing.T) {
	d := start(t, laySetup(t), 100, 30).keys("n 2 enter p v f u")
	d.shows("out of date").keys("enter").shows("out of date: g searches again")
	if d.app.doc.History.Revision() != 2 { // the pin, and its undo
		t.Error("the bench has changed")
	}
	d.keys("g").shows("all proved")
	if strings.Contains(d.screen(), "out of date") {
		t.Error("asked anew they are out of date still")
	}
	d = onLayouts(t, 100, 30).keys("tab down x")
	d.app.at, _ = d.app.find(layouts.Place)
	d.shows("out of date")
	d.app.at = 0
	d.keys("v").shows("all proved")
	for _, l := range of[layouts.Screen](d.app).Shown().Laid {
		for _, s := range l.Layout.Strips {
			if _, ok := d.app.rack.History.Now().Get(s.Source); !ok {
				t.Errorf("a layout takes %s, which is used up", s.Source)
			}
		}
	}
}

// A search goes on when the gallery is left, the bench can be worked on, and what comes
// of it says that it is of the bench as it was.
func TestBenchWhileSearching(t *testing.T) {
	d := start(t, laySetup(t), 100, 30)
	model, cmd := d.app.Update(key("v"))
	d.app = model.(App)
	d.shows("searching", "x stop")
	d.keys("esc").shows("the search continues", "searching")
	strips := len(d.app.state().Pattern.Strips)
	d.keys("t right p")
	if len(d.app.state().Pattern.Strips) != strips+1 {
		t.Error("the bench cannot be worked on")
	}
	d.run(cmd)
	d.shows("layouts: ", "; v shows them")
	if of[layouts.Screen](d.app).Works() {
		t.Error("the search is still at work")
	}
	d.app.at, _ = d.app.find(layouts.Place)
	d.shows("out of date")
}

// With another pattern on the bench a search for the one before ends, and what came of
// it is not shown for the other.
func TestAnotherPatternWhileSearching(t *testing.T) {
	d := start(t, laySetup(t), 100, 30)
	model, cmd := d.app.Update(key("v"))
	d.app = model.(App)
	d.keys("ctrl+o").text("candle").keys("enter")
	d.run(cmd)
	if d.app.here() == layouts.Place || of[layouts.Screen](d.app).Works() || of[layouts.Screen](d.app).Shown().Have {
		t.Errorf("of the pattern before there is %+v", of[layouts.Screen](d.app).Shown())
	}
	if strings.Contains(d.screen(), "laid out for you") {
		t.Error("it is told of on the other pattern's bench")
	}
}

// A search is stopped at once with the best it has; one that was overtaken is dropped.
func TestStopAndOvertake(t *testing.T) {
	setup := demoSetup(t) // whose pile takes seconds
	d := start(t, setup, 100, 30)
	model, cmd := d.app.Update(key("v"))
	d.app = model.(App)
	d.keys("x").shows("stopped with the best so far")
	d.run(cmd)
	if of[layouts.Screen](d.app).Works() || !of[layouts.Screen](d.app).Shown().Have || of[layouts.Screen](d.app).Shown().Status == suggest.Infeasible {
		t.Errorf("after the stop: %+v", of[layouts.Screen](d.app).Shown())
	}
	model, first := d.app.Update(key("g"))
	model, second := model.(App).Update(key("f")) // ready strips alone: soon done
	d.app = model.(App)
	d.run(first)
	if !of[layouts.Screen](d.app).Works() {
		t.Error("the overtaken search's answer was taken")
	}
	d.run(second)
	if of[layouts.Screen](d.app).Works() || len(of[layouts.Screen](d.app).Shown().Of.Ask.Widths) > 0 {
		t.Error("the last search's answer was not taken")
	}
}

// Each wish changes what is asked for, stands on the screen, and asks anew.
func TestWishes(t *testing.T) {
	for _, c := range []struct{ keys, text, shown string }{
		{"t", "", "±6 mm"},
		{"T", "", "±3 mm"},
		{"l", "", "too much"},
		{"m", "", "by weakest contrast"},
		{"c", "", "contrast 14"},
		{"C C", "", "contrast 8"},
		{"s", "", "mirror"},
		{"b", "", "same wood side by side: no"},
		{"k", "", "show 6"},
		{"K K", "", "show 3"},
		{"d", "", "3+ strips differ"},
		{"f", "", "pieces too"},
		{"j", "", "j joints as bricks"},
		{"j j", "", "j joints in any gap"},
		{"n backspace backspace backspace backspace", "5-6", "5-6 strips"},
		{"n backspace backspace backspace backspace", "6", "6 strips"},
		{"w", ", 30", "20,25,30 wide"},
	} {
		d := onLayouts(t, 160, 40)
		before, _ := d.question()
		d.keys(c.keys).text(c.text)
		if c.text != "" {
			d.keys("enter")
		}
		d.shows(c.shown)
		now, _ := d.question()
		if now.Alike(before) {
			t.Errorf("%s: the same is asked for", c.keys)
		}
		if g := of[layouts.Screen](d.app); g.Works() || !g.Shown().Of.Alike(now) {
			t.Errorf("%s: what is shown answers something else", c.keys)
		}
		for _, l := range of[layouts.Screen](d.app).Shown().Laid {
			n := len(l.Pattern.Strips)
			if n < now.Ask.Strips[0] || n > now.Ask.Strips[1] || now.Ask.Symmetric && !l.Summary.Mirror {
				t.Errorf("%s: a layout of %d strips, mirror %v", c.keys, n, l.Summary.Mirror)
			}
		}
	}
	d := onLayouts(t, 100, 30).keys("n backspace backspace backspace backspace").text("13-9").keys("enter")
	d.shows("must be a number of strips")
	d.keys("esc w").text(", 30 parsecs").keys("enter").shows("parsecs").keys("esc").shows("Layouts   ")
}

// Strips pinned in the gallery and on the bench stay where they are when asked again.
func TestPinAndAskAgain(t *testing.T) {
	d := start(t, laySetup(t), 100, 30).keys("n 4 enter p v f").shows("1 pinned")
	d.keys("p").shows("choose a strip first").keys("right right p").shows("strip 2 pinned", "2 pinned", "out of date")
	pin := laid(d)[0][1]
	d.keys("g").shows("all proved")
	for i, strips := range laid(d) {
		if strips[1].Species != pin.Species || strips[1].Width != pin.Width {
			t.Errorf("layout %d has %+v where %+v is pinned", i, strips[1], pin)
		}
		if strips[3].Species != "pear" || !strips[3].Pinned {
			t.Errorf("layout %d has %+v where pear is pinned on the bench", i, strips[3])
		}
	}
	d.keys("right right p").shows("strip 2 unpinned").keys("right right p").shows("strip 4 is pinned on the bench")
	d.keys("g enter")
	if s := d.app.state().Pattern.Strips; !s[3].Pinned || s[1].Pinned {
		t.Errorf("pins on the bench: %+v", s)
	}
}

// More layouts are unlike those shown, and there is an end to them.
func TestMoreUnlikeThese(t *testing.T) {
	d := onLayouts(t, 100, 60).keys("K K K")
	first := laid(d)
	d.keys("a")
	all := laid(d)
	if len(all) <= len(first) || !slices.EqualFunc(first, all[:len(first)], func(a, b []pattern.Strip) bool { return slices.Equal(a, b) }) {
		t.Fatalf("%d layouts, then %d", len(first), len(all))
	}
	count := func(strips []pattern.Strip) map[pattern.Strip]int {
		out := map[pattern.Strip]int{}
		for _, s := range strips {
			out[pattern.Strip{Species: s.Species, Width: s.Width}]++
		}
		return out
	}
	d.shows("of those that differ from the ones before")
	now, _ := d.question()
	for i, one := range all {
		for j, other := range all[:i] {
			sum := 0
			a, b := count(one), count(other)
			for k := range a {
				b[k] -= a[k]
				a[k] = 0
			}
			for _, n := range b {
				sum += max(n, -n)
			}
			if (sum+1)/2 < now.Ask.Differ {
				t.Errorf("layouts %d and %d differ by %d strips", i, j, (sum+1)/2)
			}
		}
	}
	for range 30 {
		d.keys("a")
	}
	d.shows("no other layout differs enough (proved)", "no other differs enough")
}

// What cannot be says so at once, and one key loosens it.
func TestLoosen(t *testing.T) {
	d := onLayouts(t, 100, 30).keys("T T T T T T W")
	if d.app.overlay != nil || len(laid(d)) == 0 {
		t.Fatal("the gallery has no key W")
	}
	d.keys("esc W backspace backspace backspace").text("127").keys("enter v")
	d.shows("no layout can meet all of this (proved)", "> allow the width to differ by 2 mm", "Enter take")
	d.keys("enter").shows("±2", "all proved")
	for _, l := range of[layouts.Screen](d.app).Shown().Laid {
		if w := l.Layout.Width.MM(); w < 125 || w > 129 {
			t.Errorf("a layout is %v mm wide", w)
		}
	}
	d = onLayouts(t, 100, 30).keys("c c c c c c c c c c c c c c c c c c c c c c").shows("lower the least contrast to")
	d.keys("enter").shows("all proved")
}

// That nothing will do is said as soon as it is known, before what to loosen is.
func TestImpossibleIsSaidAtOnce(t *testing.T) {
	d := start(t, laySetup(t), 100, 30).keys("v f h 9 c c c c c c c c c c c c c c c c c c c c c")
	model, cmd := d.app.Update(key("c"))
	d.app = model.(App)
	d.run(cmd)
	d.shows("Any one of these changes is enough")
	said := false
	q, _ := d.question()
	if _, err := search.Solve(context.Background(), d.app.physics, q.Ask, suggest.Options{Progress: func(p suggest.Progress) { said = said || p.None }}); err != nil || !said {
		t.Errorf("the search does not say so: %v", err)
	}
}

// What was found is said in the unit on display, also when that changes afterwards.
func TestUnitOfWhatWasFound(t *testing.T) {
	d := onLayouts(t, 200, 60).shows("uses the most use-first wood, 70 mm wide")
	d.keys("i").shows("2 3/4 in wide;")
	d.keys("i T T T T T T n backspace backspace backspace backspace").text("2-60").keys("enter esc W backspace backspace backspace").text("127").keys("enter v")
	d.shows("allow the width to differ by 2 mm").keys("i")
	if strings.Contains(d.screen(), "allow the width to differ by 2 mm") {
		t.Error("what to loosen is still said in millimetres")
	}
}

// What is missing is said, with the key that gives it.
func TestNothingToAsk(t *testing.T) {
	s := laySetup(t)
	s.Rack = rack.Rack{}
	start(t, s, 100, 30).keys("v").shows("the rack is empty: a on the rack")
	s = laySetup(t)
	s.Open.Pattern.Strips, s.Open.Pattern.Panel.Width = nil, 0
	start(t, s, 100, 30).keys("v").shows("set how wide the panel should be first: W").keys("esc V").shows("there is no strip on the bench")
}

// The pattern again, timber for timber, is what the search says; taken it is one step.
func TestAgainInTheGallery(t *testing.T) {
	s := laySetup(t)
	for i := range s.Open.Pattern.Strips { // a timber that the rack has not
		if s.Open.Pattern.Strips[i].Species == "pear" {
			s.Open.Pattern.Strips[i].Species = "black_walnut"
		}
		s.Open.Pattern.Strips[i].Rings = pattern.Rings{}
	}
	d := start(t, s, 120, 40).keys("V")
	q, _ := d.question()
	answer, err := remake.Again(context.Background(), d.app.physics, q.Same, suggest.Options{})
	if err != nil || len(answer.Answers) == 0 {
		t.Fatalf("%+v, %v", answer, err)
	}
	if n := len(of[layouts.Screen](d.app).Shown().Laid); n != len(answer.Answers) {
		t.Fatalf("%d ways shown, the search has %d", n, len(answer.Answers))
	}
	d.shows("Again, from what the rack holds", "closest in colour first", "colour difference", "black walnut -> ", "stays", "Needs")
	before := d.app.state()
	d.keys("enter").shows("laid out as a")
	for i, strip := range d.app.state().Pattern.Strips {
		if strip != answer.Answers[0].Pattern.Strips[i] {
			t.Errorf("strip %d is %+v, the answer has %+v", i+1, strip, answer.Answers[0].Pattern.Strips[i])
		}
	}
	d.keys("u")
	if !d.app.state().Alike(before) {
		t.Error("one undo does not take it back")
	}
	d.keys("V + + + + + + + +").shows("make 9", "no layout can meet all of this", "(the most possible, proved)")
	d.keys("down down enter").shows("all proved")
	if n := d.app.batch.Made(); n >= 9 || n < 1 {
		t.Errorf("loosened it makes %d", n)
	}
}
