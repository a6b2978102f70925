package tui

import (
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.com/oddments/tui/overlay/choose"
)

// What is typed into the search never changes anything by itself, whatever the letters.
func TestSearchRunsNothingUnasked(t *testing.T) {
	for _, typed := range []string{"delete", "settings", "remove", "book", "fill", "quarter turn", "take remedy", "moisture", "z", "e", "copy", "wider"} {
		for _, at := range []string{"", "tab", "4"} {
			d := onDemo(t, 80, 24).keys(at + " /")
			bench, rack := d.app.doc.History.Revision(), d.app.rack.History.Revision()
			d.text(typed).keys("enter")
			if d.app.doc.History.Revision() != bench || d.app.rack.History.Revision() != rack || d.app.batch.Made() != 1 {
				t.Errorf("%s, Enter after %q changes something", typed, at)
			}
		}
	}
}

// What is chosen by hand is done; what only shows is, where it is the only one.
func TestSearchDoesWhatIsChosen(t *testing.T) {
	d := onDemo(t, 80, 24).keys("/").text("delete").keys("down enter")
	if len(d.app.state().Tray) != 1 {
		t.Error("delete, the first of them, lays no strip aside")
	}
	onDemo(t, 80, 24).keys("/").text("order of work").keys("enter").shows("[PLAN]")
	onDemo(t, 80, 24).keys("/").text("zzz").keys("enter").shows("nothing of that name: try").keys("esc")
	onDemo(t, 80, 24).keys("/").text("inhces").shows("try inches")
}

// Makers' own words find what they mean, on the bench.
func TestWordsThatMakersSearchBy(t *testing.T) {
	for typed, want := range map[string]string{
		"delete": "lay aside", "remove": "lay aside", "copy": "twin", "duplicate": "twin", "print": "picture", "export": "picture", "cutting list": "bench sheet",
		"back": "undo", "undo": "undo", "restore": "bring back", "moisture": "moisture", "warning": "next problem", "problem": "next problem", "tolerance": "layouts",
		"humidity": "moisture", "sapwood": "add", "inches": "mm/inch", "save": "save", "quit": "quit", "moisture content": "moisture", "split": "split",
		"kerf": "settings", "help": "all keys", "exit": "quit", "round": "add", "price": "price",
	} {
		d := onDemo(t, 80, 24).keys("/").text(typed)
		rows := strings.Split(d.screen(), "\n")
		at := slices.IndexFunc(rows, func(r string) bool { return strings.Contains(r, "find: ") })
		if at < 0 || !slices.ContainsFunc(rows[at+1:at+4], func(r string) bool { return strings.HasPrefix(strings.TrimSpace(r), want) }) {
			t.Errorf("%q does not find %q among the first three:\n%s", typed, want, d.screen())
		}
	}
}

// Lists of timbers find no timber by letters that lie scattered in its name.
func TestTimbersAreFoundByTheirWords(t *testing.T) {
	for _, c := range []struct{ key, typed, not string }{{"c", "ebony", "birch"}, {"a", "zzz", "zebrano"}} {
		d := onDemo(t, 80, 24).keys(c.key).text(c.typed)
		if s := d.screen(); strings.Contains(s, c.not) {
			t.Errorf("%s finds %s:\n%s", c.typed, c.not, s)
		}
		if _, ok := d.app.overlay.(choose.List); !ok {
			t.Errorf("%s shows no list", c.key)
		}
	}
}

// Every line of words.txt is about an action of the table.
func TestSearchWordsAreOfActions(t *testing.T) {
	found := map[string]bool{}
	for _, a := range Keys().Actions() {
		if a.Words != "" {
			found[string(a.ID)] = true
		}
	}
	for line := range strings.Lines(searchWordsText(t)) {
		id, _, ok := strings.Cut(strings.TrimPrefix(strings.TrimSpace(line), "+ "), ": ")
		if ok && !strings.HasPrefix(line, "#") && !found[id] {
			t.Errorf("words.txt: there is no action %s", id)
		}
	}
}

func searchWordsText(t *testing.T) string {
	t.Helper()
	text, err := os.ReadFile("keymap/words.txt")
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// Digits go to the screens in the order of the line at the bottom; in a field they are digits.
func TestDigitsGoToScreens(t *testing.T) {
	d := onDemo(t, 80, 24)
	for i, want := range []string{"[BENCH]", "[RACK]", "[PILE]", "[PLAN]", "[FINDINGS]", "[CUT OUT]", "[WORK]", "[MADE]"} {
		d.keys(strconv.Itoa(i + 1)).shows(want)
	}
	d.keys("1 w 2 3").shows("> 23").keys("esc").shows("[BENCH]")
	d.keys("v 4").shows("[PLAN]").keys("9").shows("9 does nothing here")
}

// What a newcomer looks for stands in the bench's footer at all times, at 80x24, and what
// lies aside can be brought back by a key that is seen.
func TestBenchFooter(t *testing.T) {
	d := onDemo(t, 80, 24)
	d.shows("u undo", "S save", "i mm/inch", "/ search", "q quit", "x lay aside", "+ wider", "w width")
	d.keys("x").shows("b bring back", "u undo", "S save", "i mm/inch", "/ search", "q quit")
	d.keys("ctrl+n enter").shows("v shows layouts", "u undo", "S save", "/ search", "q quit")
}

// What lies aside is said in whole, at 80x24 with as much as there is; where the strips have
// no room, how many and the key that brings them back.
func TestAsideRowIsWhole(t *testing.T) {
	d := onDemo(t, 80, 24)
	d.keys("x").shows("EL 0.54/5.91   HB 0.99/13.45   PE 0.19/2.04   aside HB 31")
	for n := 2; n <= 9; n++ {
		d.keys("x").shows("/5.91   ", "/13.45   ", "aside: b")
	}
	d.shows("9 strips aside: b")
	onDemo(t, 60, 18).keys("x x").shows("   2 aside: b")
}

// A new pattern shows itself, wherever it was begun.
func TestNewPatternShowsItself(t *testing.T) {
	for _, at := range []string{"1", "2", "3", "4", "5", "6", "7", "8"} {
		onDemo(t, 80, 24).keys(at+" ctrl+n enter").shows("[BENCH]", "An empty panel")
	}
}
