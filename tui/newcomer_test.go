package tui

import (
	"strings"
	"testing"

	"example.com/oddments/tui/screens/cutout"
)

// A key that does nothing where it is pressed says so, and says where it would.
func TestNoKeyIsSilent(t *testing.T) {
	for _, c := range []struct{ name, keys, says string }{
		{"no key anywhere", "&", "& does nothing here; ? shows all keys"},
		{"the space bar", "space", "the space bar does nothing here"},
		{"a key of the bench", "tab v", "v does nothing here; on the bench: layouts; ? shows all keys"},
		{"a key of the bench on the findings", "5 x", "x does nothing here; on the bench: lay aside"},
		{"esc only takes words away", "esc", "worst 9|10"},
	} {
		t.Run(c.name, func(t *testing.T) {
			onDemo(t, 80, 24).keys("right left").keys(c.keys).shows(c.says)
		})
	}
}

// The findings take none of the bench's moves: the strip that they would change is out
// of sight. What they offer is the remedy beneath the finding, which undo takes back.
func TestFindingsChangeOnlyByTheirRemedy(t *testing.T) {
	d := onDemo(t, 80, 24).keys("5")
	before := d.app.doc.History.Revision()
	for _, k := range strings.Fields("x delete a c t m r s j w l + - left right home < > z p f g k % R L T W E M F N O . , n v V h e o b d [ ]") {
		if d.keys(k); d.app.overlay != nil || d.app.doc.History.Revision() != before {
			t.Fatalf("%s is taken on the findings", k)
		}
	}
	if d.keys("enter").shows("strip 10 is now entered at 9.1 %: do not glue it before it reads that"); d.app.doc.History.Revision() == before {
		t.Error("the remedy was not made")
	}
	d.keys("u").shows("undone: take remedy")
	d.keys("y i").shows("[FINDINGS]")
}

// The help begins with the keys of the screen that it was asked for on.
func TestHelpBeginsWithTheKeysHere(t *testing.T) {
	for _, c := range []struct{ keys, first string }{
		{"", "choose a strip"}, {"tab", "on the rack"}, {"4", "on the plan"}, {"5", "on the findings"},
		{toCutOut, "where products are cut out"}, {toWork, "on the working figures"}, {toMade, "on what was made"},
	} {
		rows := strings.Split(onDemo(t, 80, 24).keys(c.keys+" ?").screen(), "\n")
		if got := strings.TrimSpace(rows[8]); got != c.first {
			t.Errorf("after %q the help begins with %q, want %q", c.keys, got, c.first)
		}
	}
}

// What the search finds on another screen is done there.
func TestSearchGoesToTheScreenOfWhatItFinds(t *testing.T) {
	onDemo(t, 80, 24).keys("/").text("order of work").keys("enter").shows("[PLAN]")
	onDemo(t, 80, 24).keys("tab /").text("quarter turn").keys("down enter").shows("[BENCH]")
	onDemo(t, 80, 24).keys("/").shows("  strip: choose the strip above").keys("esc").keys("tab /").shows("  piece: go to the piece above")
}

// On the least screen the name, the way to the help and what waits stay in view.
func TestLeastScreenKeepsWhatMatters(t *testing.T) {
	d := onDemo(t, 60, 18).keys("right esc").shows("Rookery square", "moisture 2.2 points apart, too much", "? keys")
	d.keys("i").shows("Rookery square", "? keys")
}

// A glue line's level stands beside the figure that it goes by, on little room too.
func TestLevelStandsByItsFigure(t *testing.T) {
	d := onDemo(t, 80, 24).keys("n").text("9").keys("enter")
	d.shows("worst 9|10: moisture 2.2 points apart, too much", "9|10 EL moisture 2.2 apart, too much")
	d = onDemo(t, 200, 60).keys("n").text("9").keys("enter")
	d.shows("9|10 EL step 74 ±14 um humid, take care, close to the limit; moisture 2.2 points apart, too much")
}

// Where a list or field lies over the screen, the keys beneath it are not offered.
func TestOverlayOffersItsOwnKeysOnly(t *testing.T) {
	d := onDemo(t, 80, 24).keys("n")
	if s := d.screen(); strings.Contains(s, "? keys") {
		t.Errorf("a field lies over the bench, and Tab is offered:\n%s", s)
	}
	d.keys("esc").shows("? keys")
}

// A batch is typed as the screen shows it: the field holds the day only, so that the
// count that is typed first is the count.
func TestBatchIsTypedAsTheScreenShowsIt(t *testing.T) {
	onDemo(t, 80, 24).keys(toMade+" a").text("4, 299.5 wide, 310 min").keys("enter").shows("1 batch, copies: 4", "299.5")
}

// On an empty panel the screens say what is to be done first, and compute nothing.
func TestScreensOfAnEmptyPanel(t *testing.T) {
	d := onDemo(t, 80, 24).keys("ctrl+n enter 4").shows("no strips yet: put them in on the bench")
	if s := d.screen(); strings.Contains(s, "no better plan exists (proved)") || strings.Contains(s, "d done") {
		t.Errorf("the plan of no strips:\n%s", s)
	}
	d.keys("tab").shows("No strips yet: put them in on the bench.")
	d.keys("7").shows("[WORK]", "No strips yet: put them in on the bench")
	if s := d.screen(); strings.Contains(s, "255 x") || strings.Contains(s, "Glue") {
		t.Errorf("the work on no strips:\n%s", s)
	}
}

// A field says all that it asks for, however long that is.
func TestFieldShowsItsWholeQuestion(t *testing.T) {
	onDemo(t, 60, 18).keys(toCutOut+" c").shows("centre (panel, strip 6, or joint 6 for glue line 6|7)", "(both)")
}

// What is typed as it is needs no echo, and no colon before the keys.
func TestFieldWithoutEcho(t *testing.T) {
	d := onDemo(t, 80, 24).keys("N").shows(" Enter sets it, Esc cancels")
	if strings.Contains(d.screen(), ": Enter takes it") {
		t.Errorf("a colon without words before it:\n%s", d.screen())
	}
}

// Only the order of work is numbered: a number before "short of" or before a line of
// the label would be read as part of it.
func TestOnlyStepsAreNumbered(t *testing.T) {
	onDemo(t, 80, 24).keys("4 s").shows(" 1. ")
	for _, keys := range []string{toMade + " l", toCutOut + " s"} {
		d := onDemo(t, 80, 24).keys(keys)
		if rows := strings.Split(d.screen(), "\n"); strings.HasPrefix(strings.TrimSpace(rows[3]), "1") {
			t.Errorf("after %q:\n%s", keys, d.screen())
		}
	}
}

// Where nothing is left of a panel no figure of it is shown, and the mark-out says so in
// words.
func TestNothingLeftIsNoFigure(t *testing.T) {
	onDemo(t, 120, 40).keys(toCutOut).shows("offcut 23 x 255")
	d := onDemo(t, 120, 40).keys("ctrl+o").text("saltings").keys("enter " + toCutOut).shows("1 of 1 placed")
	if left := of[cutout.Screen](d.app).Shown().Job.Layout.Left; left.Length != 0 {
		t.Fatalf("the case leaves %+v", left)
	}
	if s := d.screen(); strings.Contains(s, "left 0") || strings.Contains(s, "out of it") {
		t.Errorf("nothing is left, and yet:\n%s", s)
	}
	d.keys("s").shows("offcut: none behind the last product")
}
