package tui

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"
	"github.com/charmbracelet/x/exp/golden"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/overlay/help"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screens/bench"
	"example.com/oddments/tui/screens/colour"
	"example.com/oddments/tui/screens/cutout"
	"example.com/oddments/tui/screens/findings"
	"example.com/oddments/tui/screens/layouts"
	"example.com/oddments/tui/screens/made"
	"example.com/oddments/tui/screens/planview"
	"example.com/oddments/tui/screens/rackview"
	"example.com/oddments/tui/screens/settings"
	"example.com/oddments/tui/screens/workview"
)

// The golden frames are the screens as plain text. To refresh: go test ./tui -run
// Golden -update, and read the differences like code.
func TestGolden(t *testing.T) {
	for _, c := range []struct {
		name string
		w, h int
		keys string
	}{
		{"Bench", 80, 24, "down"},
		{"Bench", 120, 40, "down"},
		{"Bench", 60, 18, "right"},
		{"Bench", 200, 60, "down"},
		{"BenchStands", 80, 24, "| right"},
		{"BenchStands", 120, 40, "| right i"},
		{"BenchInches", 80, 24, "down i"},
		{"BenchHumid", 80, 24, "down y y"},
		{"BenchAside", 80, 24, "down x x"},
		{"Findings", 80, 24, "5 down"},
		{"Findings", 120, 40, "5 down down"},
		{"Findings", 60, 18, "5"},
		{"PutIn", 80, 24, "a p e a"},
		{"PutIn", 120, 40, "a"},
		{"PutIn", 60, 18, "a"},
		{"Width", 80, 24, "down w"},
		{"WidthRefused", 80, 24, "down w backspace backspace x enter"},
		{"Help", 80, 24, "?"},
		{"Manual", 80, 24, "? tab"},
		{"Manual", 60, 18, "? tab down pgdown"},
		{"Search", 80, 24, "/ r o l l"},
		{"Open", 80, 24, "ctrl+o"},
		{"New", 80, 24, "ctrl+n enter"},
		{"NewBoard", 80, 24, "ctrl+n 8 0 0 space x space 3 4 0 space x space 2"},
		{"Relief", 80, 24, "right X"},
		{"Relief", 120, 40, "right X f"},
		{"Relief", 60, 18, "right X y y f"},
		{"Relief", 200, 60, "X w right right"},
		{"ReliefNumbers", 80, 24, "X right right right n i"},
		{"Rack", 80, 24, "tab down"},
		{"Rack", 120, 40, "tab down"},
		{"RackLine", 80, 24, "tab a p e a r space 5 0 0 space 6"},
		{"Pile", 80, 24, "3 g right h down"},
		{"Pile", 120, 40, "3 g"},
		{"Pile", 60, 18, "3 g"},
		{"Pile", 200, 60, "3 g right right h"},
		{"PileWants", 80, 24, "3"},
		{"PileLine", 80, 24, "3 a r o u n d space 2 9 0 space x space 2 5 space t h i c k , space 3 8 space e a c h"},
		{"Plan", 80, 24, "4 down"},
		{"Plan", 120, 40, "4 down"},
		{"Plan", 60, 18, "4 down down"},
		{"PlanSteps", 80, 24, "4 s"},
		{"CutOut", 80, 24, "6"},
		{"CutOut", 120, 40, "6 a r o u n d space 9 0 space x 3 enter"},
		{"CutOut", 60, 18, "6"},
		{"CutOut", 200, 60, "6 right right k"},
		{"CutOutMarks", 80, 24, "6 s"},
		{"Work", 80, 24, "shift+tab shift+tab down down"},
		{"Work", 120, 40, "shift+tab shift+tab + + pgdown"},
		{"Work", 60, 18, "shift+tab shift+tab pgdown pgdown pgdown"},
		{"Work", 200, 60, "shift+tab shift+tab pgdown pgdown pgdown pgdown pgdown"},
		{"Made", 80, 24, "shift+tab a 3 1 0 space m i n enter a n o t e space o i l e d enter up"},
		{"Made", 120, 40, "shift+tab a 3 1 0 space m i n enter"},
		{"Made", 60, 18, "shift+tab"},
		{"Made", 200, 60, "shift+tab a enter"},
		{"Settings", 80, 24, ": down down"},
		{"Settings", 120, 40, "down : pgdown pgdown"},
		{"Settings", 60, 18, ": pgdown"},
		{"Settings", 200, 60, "i : pgdown pgdown pgdown"},
		{"SettingsField", 80, 24, ": down enter 2 ,"},
		{"MadeLabel", 80, 24, "shift+tab l"},
	} {
		t.Run(fmt.Sprintf("%s%dx%d", c.name, c.w, c.h), func(t *testing.T) {
			golden.RequireEqual(t, []byte(onDemo(t, c.w, c.h).keys(c.keys).screen()))
		})
	}
}

// Every frame has as many lines of as many cells as the window is large, whatever
// lies on it. By night at every size, else the bench at every width.
func TestSweepOfSizes(t *testing.T) {
	for _, c := range []struct {
		keys         string
		stepX, stepY int
	}{
		{"down", 1, 7}, {"|", 13, 7}, {"5", 13, 7}, {"6 left k", 13, 7}, {"shift+tab shift+tab down", 13, 7}, {"shift+tab a enter", 13, 7}, {"tab", 13, 7}, {"3", 13, 7}, {"4", 13, 7}, {"4 s", 13, 7}, {"a", 13, 7}, {"down w", 13, 7}, {"X", 13, 7}, {"X n", 13, 7}, {"?", 13, 7}, {"ctrl+n", 13, 7}, {"ctrl+n enter", 13, 7},
	} {
		d := onDemo(t, 80, 24).keys(c.keys)
		if testing.Short() {
			c.stepX, c.stepY = 11, 7
		} else if os.Getenv("ODDMENTS_NIGHTLY") != "" {
			c.stepX, c.stepY = 1, 1
		}
		for w := 1; w <= 240; w += c.stepX {
			for h := 1 + w%c.stepY; h <= 80; h += c.stepY { // every height comes with some width
				d.send(tea.WindowSizeMsg{Width: w, Height: h})
				lines := strings.Split(ansi.Strip(d.app.View()), "\n")
				if len(lines) != h {
					t.Fatalf("%s at %dx%d: %d lines", c.keys, w, h, len(lines))
				}
				for _, line := range lines {
					if ansi.StringWidth(line) != w {
						t.Fatalf("%s at %dx%d: a line of %d cells: %q", c.keys, w, h, ansi.StringWidth(line), line)
					}
				}
			}
		}
	}
}

// Every action of the table is reached by each of its keys, and the help shows it.
func TestEveryActionIsReachable(t *testing.T) {
	helped := ""
	d := onDemo(t, 200, 300).keys("?")
	helped = d.screen() + d.keys("pgdown pgdown").screen()
	for _, a := range Keys().Actions() {
		if !strings.Contains(helped, a.Does) || !strings.Contains(helped, help.Keys(a)) {
			t.Errorf("the help does not show %s", a.ID)
		}
		if a.Place() == keymap.InLists {
			continue
		}
		if _, ok := d.app.handlers[a.ID]; ok != (a.Place() == keymap.Everywhere) {
			t.Errorf("%s is done everywhere: %v, its place is %s", a.ID, ok, a.Place())
		}
		if _, ok := d.app.find(a.Place()); !ok && a.Place() != keymap.Everywhere {
			t.Errorf("nothing is done for %s", a.ID)
		}
	}
	for id := range d.app.handlers {
		if _, ok := Keys().ByID(id); !ok {
			t.Errorf("%s is done, and stands in no table", id)
		}
	}
}

// Each key changes what its action says. What is compared is the whole frame, and
// for hand moves the pattern.
func TestEveryKeyDoesSomething(t *testing.T) {
	moves := map[keymap.ID]bool{}
	for _, m := range edit.Moves() {
		moves[keymap.ID(m.ID)] = m.Step
	}
	// What must be done first, so that an action has something to do.
	before := map[keymap.ID]string{
		"bring-back": "x", keymap.Undo: "+", keymap.Redo: "+ u", "join": "t n 2 enter", keymap.Save: "+",
		"rack-up": "down", "plan-up": "down", "plan-fewer": "+", "plan-run": "down", "plan-alone": "a enter",
		"product-sooner": "a r o u n d space 3 0 enter", "cut-next": "+", "cut-last": "+ .", "drop-avoid": "k",
		"work-up": "down", "find-up": "down", "find-page-up": "pgdown", "work-page-up": "pgdown", "work-fewer": "+",
		"made-up": "a enter a enter", "made-down": "a enter a enter up", "drop-made": "a enter", "made-again": "a enter",
		"cut-slide-near": "]", "cut-near-fine": "]", "cut-keep": "]",
		"select-first": "n 2 enter", "slide-near": "d 5 enter", keymap.SlideNearFine: "d 5 enter", "mirror": "+", "roll": "n 6 enter",
		"lay-up": "down", "lay-pin": "right", "lay-count-less": "k", "lay-differ-less": "d", "lay-ask": "down",
		"set-up": "down", "set-page-up": "pgdown", "colour-further": "+",
		"to-bench": "tab",
		"pile-up":  "down", "pile-left": "g right", "pile-right": "g", "pile-hold": "g", "pile-drop": "g", "pile-why": "g",
		"pile-look": "g", "pile-keep": "g", "pile-take": "g",
	}
	for _, a := range Keys().Actions() {
		if a.Place() == keymap.InLists || a.ID == keymap.Suspend || a.ID == keymap.Quit {
			continue
		}
		goThere := map[keymap.Place]string{rackview.Place: "tab down ", planview.Place: "4 ", layouts.Place: "v ", findings.Place: "5 ",
			cutout.Place: "6 ", workview.Place: "shift+tab shift+tab ", made.Place: "shift+tab ", settings.Place: ": ", keymap.ReliefPlace: "X ", keymap.PilePlace: "3 "}[a.Place()]
		begin := onDemo
		if a.Place() == layouts.Place || a.ID == keymap.LayOut || a.ID == keymap.LayAgain {
			begin = func(t *testing.T, w, h int) *hand { return start(t, laySetup(t), w, h) }
		}
		opening := "n 2 enter "
		if a.Place() == colour.Place {
			opening, begin = "", onPhoto
		}
		for i := range a.Keys {
			w, h := 120, 40
			if i == 0 { // the least window can do everything too
				w, h = leastWidth, leastHeight
			}
			d := begin(t, w, h).keys(opening + goThere + before[a.ID])
			now, _ := d.app.keys.ByID(a.ID) // on the larger one the panel lies
			k := now.Keys[i]
			frame, revision := d.screen(), d.app.doc.History.Revision()
			d.send(key(k))
			if d.screen() == frame {
				t.Errorf("%s by %s at %dx%d: the screen stays as it was\n%s", a.ID, k, w, h, frame)
			}
			if strings.Contains(d.app.notice.Text, "nothing is done") {
				t.Errorf("%s by %s: %s", a.ID, k, d.app.notice.Text)
			}
			if d.app.overlay == nil && moves[a.ID] && d.app.doc.History.Revision() == revision {
				t.Errorf("%s by %s: the pattern stays as it was: %s", a.ID, k, d.app.notice.Text)
			}
		}
	}
}

// Letters that arrive as one message are so many keys, and a paste is none.
func TestLettersInOneMessage(t *testing.T) {
	d := onDemo(t, 80, 24)
	d.send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("++t")})
	if n := len(d.app.state().Pattern.Strips); n != 12 {
		t.Errorf("%d strips after ++t, want 12", n)
	}
	if w := d.app.state().Pattern.Strips[0].Width; w != 33*length.Millimetre {
		t.Errorf("strip 1 is %v wide after two steps, want 33 mm", w)
	}
	d.send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("xxx"), Paste: true})
	if n := len(d.app.state().Pattern.Strips); n != 12 {
		t.Errorf("a paste changed the panel: %d strips", n)
	}
	d.send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("w2")}).shows("width of strip", "> 2")
}

func TestMouse(t *testing.T) {
	for _, turn := range []string{"", "|"} {
		mouse(t, onDemo(t, 80, 24).keys(turn))
	}
}

// mouse goes over the bench with the mouse.
func mouse(t *testing.T, d *hand) {
	t.Helper()
	at := func(strip int) (x, y int) {
		l := of[bench.Screen](d.app).Picture(d.app.context())
		s := l.Strips[strip]
		if l.Lies {
			return l.Wood.X, s.X / 2
		}
		return s.X + s.W/2, l.Wood.Y
	}
	press := func(x, y int) {
		d.send(tea.MouseMsg{X: x, Y: y, Button: tea.MouseButtonLeft, Action: tea.MouseActionPress})
	}
	release := func(x, y int) {
		d.send(tea.MouseMsg{X: x, Y: y, Button: tea.MouseButtonLeft, Action: tea.MouseActionRelease})
	}
	first := d.app.state().Pattern.Strips[0]
	press(at(0))
	release(at(3))
	if got := d.app.state(); got.Pattern.Strips[3] != first || got.Selected != 3 {
		t.Errorf("dragged to place 4 it is not there: %+v", got.Pattern.Strips)
	}
	d.keys("u")
	if got := d.app.state().Pattern.Strips[0]; got != first {
		t.Errorf("one undo does not take the drag back: %+v", got)
	}
	for _, p := range []struct{ word, id string }{{"put in", "put-in"}} {
		lines := strings.Split(d.screen(), "\n")
		for y, line := range lines {
			if x := strings.Index(line, p.word); x >= 0 && y > 18 {
				press(x, y)
				d.shows("find:")
			}
		}
	}
	d.keys("esc")
	x, y := at(1)
	before := d.app.state().Selected
	d.send(tea.MouseMsg{X: x, Y: y, Button: tea.MouseButtonWheelDown, Action: tea.MouseActionPress})
	if got := d.app.state().Selected; got != before+1 {
		t.Errorf("the wheel goes from strip %d to %d", before+1, got+1)
	}
	press(strings.Index(strings.Split(d.screen(), "\n")[23], "findings"), 23)
	d.shows("[FINDINGS]")
}

// The advice is made by its key, and the line it was for is better.
func TestTakeAdvice(t *testing.T) {
	d := onDemo(t, 120, 40).keys(".")
	for range 20 {
		if strings.Contains(d.app.notice.Text, "too much") {
			break
		}
		d.keys(".")
	}
	n := d.app.state().Selected + 1
	before := d.app.doc.report.Figures.Lines[n-1].Level
	d.keys("enter")
	if after := d.app.doc.report.Figures.Lines[n-1].Level; before != pattern.TooMuch || after >= before {
		t.Errorf("line %d was %v, after the advice %v: %s", n, before, after, d.app.notice.Text)
	}
}

func TestUnitsFollow(t *testing.T) {
	d := onDemo(t, 120, 40).keys("n 2 enter i")
	d.shows(" in", "thou", "bd ft", "/64")
	d.keys("w").shows("43/64 in (17 mm)")
	d.keys("ctrl+u").text("3/4").keys("enter")
	if got := d.app.state().Pattern.Strips[1].Width; got != 3*length.Inch/4 {
		t.Errorf("3/4 in a field of inches gives %v", got)
	}
	d.keys("+")
	if got := d.app.state().Pattern.Strips[1].Width; got != 13*length.Inch/16 {
		t.Errorf("a step wider gives %v, want 13/16 in", got)
	}
}

func saved(t *testing.T, d *hand, file string) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(d.app.files.Dir(), file))
	if err != nil {
		return ""
	}
	return string(data)
}

// A change is kept a second later, offered at the next start, and let go of once it
// is saved.
func TestRecovery(t *testing.T) {
	setup := demoSetup(t)
	d := start(t, setup, 80, 24)
	d.keys("right + x")
	const file = "recovery/rookery-square.toml"
	if saved(t, d, file) != "" {
		t.Error("kept before its time")
	}
	d.aSecond()
	if text := saved(t, d, file); !strings.Contains(text, `name = "Rookery square"`) {
		t.Fatalf("not kept: %q", text)
	}

	kept, err := setup.Home.Recoveries(setup.Physics.Table())
	if err != nil || len(kept) != 1 {
		t.Fatalf("kept %v, %v", kept, err)
	}
	setup.Kept = kept
	again := start(t, setup, 80, 24).shows("bring back Rookery square", "decide later")
	again.keys("enter")
	if !again.app.state().Alike(d.app.state()) || !again.app.doc.History.Dirty() {
		t.Errorf("brought back %+v, want %+v", again.app.state(), d.app.state())
	}
	again.shows("Rookery square *")
	again.keys("b S").shows("saved as rookery-square")
	if saved(t, again, file) != "" {
		t.Error("the copy stays though everything is saved")
	}
	if again.app.doc.History.Dirty() {
		t.Error("still unsaved")
	}
	if text := saved(t, again, "patterns/rookery-square.toml"); !strings.Contains(text, "oddments/pattern 1") {
		t.Errorf("saved %q", text)
	}
}

// Undoing back to what is saved leaves nothing to keep.
func TestRecoveryGoesWithUndo(t *testing.T) {
	d := onDemo(t, 80, 24).keys("+").aSecond()
	if saved(t, d, "recovery/rookery-square.toml") == "" {
		t.Fatal("not kept")
	}
	d.keys("u").aSecond()
	if saved(t, d, "recovery/rookery-square.toml") != "" {
		t.Error("the copy stays though everything was undone")
	}
}

// Leaving asks nothing: what is not saved is kept.
func TestQuitKeeps(t *testing.T) {
	d := onDemo(t, 80, 24).keys("+ q")
	if !d.quit || saved(t, d, "recovery/rookery-square.toml") == "" {
		t.Errorf("left %v, kept %q", d.quit, saved(t, d, "recovery/rookery-square.toml"))
	}
	var out strings.Builder
	if err := d.app.keepLast(&out); err != nil || !strings.Contains(out.String(), "offered at the next start") {
		t.Errorf("said %q, %v", out.String(), err)
	}
	if d := onDemo(t, 80, 24).keys("down | right q"); !d.quit || saved(t, d, "recovery/rookery-square.toml") != "" {
		t.Error("looking around leaves a copy")
	}
}

// A second program on one home is told so, and its work is not lost.
func TestBusyHome(t *testing.T) {
	d := onDemo(t, 80, 24)
	other := store.OpenHome(d.app.files.Dir())
	if err := other.Hold(); err != nil {
		t.Fatal(err)
	}
	defer other.Close()
	d.keys("+ S").shows("another oddments")
	if !d.app.doc.History.Dirty() {
		t.Error("it counts as saved")
	}
	d.keys("q")
	if d.quit {
		t.Fatal("left though nothing could be kept")
	}
	d.shows("again leaves")
	d.keys("q")
	if !d.quit {
		t.Error("the second time it does not leave")
	}
}

// The demo is saved as a new file and leaves a maker's own alone.
func TestDemoNeverWritesOverAFile(t *testing.T) {
	setup := demoSetup(t)
	d := start(t, setup, 80, 24).shows("demo")
	own := pattern.Pattern{Name: "mine", Panel: pattern.Panel{Length: length.Metre, Thickness: 20 * length.Millimetre}}
	if _, err := setup.Home.SavePattern("rookery-square", own, store.Absent); err != nil {
		t.Fatal(err)
	}
	d.keys("+ S").shows("changed elsewhere")
	if got := saved(t, d, "patterns/rookery-square.toml"); !strings.Contains(got, `"mine"`) {
		t.Errorf("the maker's file holds %q", got)
	}
}

func TestSaveAsAndOpen(t *testing.T) {
	d := onDemo(t, 80, 24).keys("+ A ctrl+u").text("Hedge end").keys("enter").shows("saved as hedge-end")
	d.keys("ctrl+o").shows("Hedge end", "Saltings round").text("salt").keys("enter").shows("opened Saltings round")
	d.keys("ctrl+o").text("hedge").keys("enter").shows("Hedge end", "opened")
	if d.app.doc.History.Dirty() || d.app.doc.Base == store.Absent {
		t.Error("a pattern just opened counts as unsaved")
	}
}

// Opening another pattern asks nothing and loses nothing.
func TestOpenKeepsWhatIsOnTheBench(t *testing.T) {
	d := onDemo(t, 80, 24).keys("+ ctrl+o").text("candle").keys("enter").shows("Candle sill")
	if saved(t, d, "recovery/rookery-square.toml") == "" {
		t.Error("what was on the bench is lost")
	}
	d.keys("ctrl+o").shows("bring back Rookery square")
}

// Text that got past every reader still never reaches the terminal as control codes.
func TestHostileText(t *testing.T) {
	setup := demoSetup(t)
	hostile := "\x1b]0;owned\x07\x1b[2J\u202eevil\u009b31m\x00\n\r\t"
	p := setup.Open.Pattern
	p.Name, p.Notes = hostile, hostile
	p.Strips = append(p.Strips[:3:3], pattern.Strip{Species: hostile, Width: length.Inch})
	setup.Open.Pattern = p
	for _, profile := range paint.Profiles() {
		setup.Profile = profile
		for _, keys := range []string{"right", "end", "tab", "N", "c", toCutOut, toCutOut + " s", toWork + " pgdown", toMade, toMade + " l"} {
			d := start(t, setup, 200, 60).keys(keys)
			for _, r := range ansi.Strip(d.app.View()) {
				if r != '\n' && (r < ' ' || r == 0x7f || r >= 0x80 && r < 0xa0 || r >= 0x202a && r <= 0x202e) {
					t.Fatalf("%v, %s: %U reaches the terminal", profile, keys, r)
				}
			}
			if frame := d.app.View(); strings.Contains(frame, "\x1b]") || strings.Contains(frame, "[2J") && strings.Contains(frame, "\x1b[2J") {
				t.Fatalf("%v, %s: an escape reaches the terminal", profile, keys)
			}
		}
	}
}

func TestTooSmallIsPolite(t *testing.T) {
	onDemo(t, 59, 18).shows("please")
	onDemo(t, 60, 17).shows("please")
}

// Budget: a frame of 60 strips at 200x60 within 4 ms.
func BenchmarkView60Strips(b *testing.B) {
	for _, profile := range []paint.Profile{paint.TrueColour, paint.ANSI256} {
		b.Run(profile.String(), func(b *testing.B) {
			a := sixty(b, profile)
			for b.Loop() {
				_ = a.View()
			}
		})
	}
}

// Budget: one key within 2 ms on 60 strips, its whole check included.
func BenchmarkKey60Strips(b *testing.B) {
	a := sixty(b, paint.TrueColour)
	wider, narrower := key("+"), key("-")
	for b.Loop() {
		model, _ := a.Update(wider)
		model, _ = model.Update(narrower)
		a = model.(App)
		a.doc.History = edit.NewHistory(a.state())
	}
}

func sixty(tb testing.TB, profile paint.Profile) App {
	tb.Helper()
	setup := demoSetup(tb)
	setup.Profile = profile
	p := setup.Open.Pattern
	p.Strips = nil
	all := setup.Physics.Table().All()
	for i := range 60 {
		s := pattern.Strip{Species: all[i*7%12].Key, Width: length.Length(8+i%9) * length.Millimetre}
		if i%3 == 0 {
			s.Rings = pattern.RingsQuarter()
		}
		if i%4 == 0 {
			s.Moisture = pattern.Read(7 + float64(i%5))
		}
		p.Strips = append(p.Strips, s)
	}
	setup.Open.Pattern = p
	model, _ := New(setup).Update(tea.WindowSizeMsg{Width: 200, Height: 60})
	return model.(App)
}

// A key that comes many times at once does what it does one by one, and the panel is
// computed once: 2,000 twins took minutes.
func TestOneKeyManyTimesAtOnce(t *testing.T) {
	for _, keys := range []string{"tttt", "++++--", "ttxxx", "+++uuuu", "mmm", "tttt.", "ttuU", "xxxxxxxxxxxxxxx", "ffff"} {
		one, all := onDemo(t, 80, 24), onDemo(t, 80, 24)
		one.text(keys)
		all.send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(keys)})
		if one.screen() != all.screen() {
			t.Errorf("%s: one by one\n%s\nat once\n%s", keys, one.screen(), all.screen())
		}
	}
	d := onDemo(t, 80, 24)
	d.app.again = true
	a, _ := d.app.key(key("t"))
	if len(a.doc.report.Figures.Lines) != len(d.app.doc.report.Figures.Lines) || !a.doc.stale {
		t.Error("the panel is computed though the same key comes next")
	}
}
