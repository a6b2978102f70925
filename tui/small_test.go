package tui

import (
	"regexp"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"

	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/screens/layouts"
)

// opened returns what each action opens: a hand on the screen or overlay that it leads to.
func opened(t *testing.T, w, h int, before string) map[keymap.ID]*hand {
	t.Helper()
	all := map[keymap.ID]*hand{}
	for _, a := range Keys().Actions() {
		switch {
		case a.Place() == keymap.InLists, a.Place() == layouts.Place, a.ID == keymap.Suspend, a.ID == keymap.Quit:
			continue // lists and the gallery have tests of their own
		case a.ID == keymap.LayOut, a.ID == keymap.LayAgain:
			continue // a search
		}
		way := ""
		tabs := 0
		for i, s := range screens() {
			if s.Title() == a.Place() && i > 0 {
				way = strings.Repeat(" tab", tabs) + " down"
			}
			if s.listed() {
				tabs++
			}
		}
		all[a.ID] = onDemo(t, w, h).keys(before + " n 2 enter" + way).keys(a.Keys[0])
	}
	return all
}

// In the least window every screen and whatever lies over it fills the window, closes by
// its key, and says what it is for.
func TestLeastWindow(t *testing.T) {
	overlays := 0
	for id, d := range opened(t, leastWidth, leastHeight, "") {
		lines := strings.Split(d.screen(), "\n")
		if len(lines) != leastHeight {
			t.Errorf("%s: %d lines", id, len(lines))
		}
		for _, line := range lines {
			if ansi.StringWidth(line) != leastWidth {
				t.Errorf("%s: a line of %d cells: %q", id, ansi.StringWidth(line), line)
			}
		}
		if d.app.overlay == nil {
			continue
		}
		overlays++
		open := d.screen()
		if !strings.Contains(open, "Esc") {
			t.Errorf("%s does not say how it closes:\n%s", id, open)
		}
		d.keys("esc")
		if d.app.overlay != nil || d.screen() == open {
			t.Errorf("%s is not closed by Esc:\n%s", id, d.screen())
		}
	}
	if overlays < 15 {
		t.Errorf("%d overlays were opened: too few to be all", overlays)
	}
}

// A change shows in the least window too, however long the pattern's name is.
func TestUnsavedMarkIsNeverCutOff(t *testing.T) {
	d := onDemo(t, leastWidth, leastHeight).keys("+")
	if first, _, _ := strings.Cut(d.screen(), "\n"); !strings.Contains(first, " * ") {
		t.Errorf("no mark: %q", first)
	}
}

var (
	metric = regexp.MustCompile(`[0-9] ?(mm|cm|um|cm3|dm3)\b`)
	// What may stand in millimetres: a line as it was typed, in its field or under the rack,
	// so that nothing is lost when it is typed over; what was understood of it beside the
	// inches; a source as it says it; chips, which have no unit of the trade; settings that
	// are kept in a unit of their own.
	asTyped = regexp.MustCompile(`^ > |, that is |#[A-Z]|common practice, |wood taken off|^ [ >] (?:opened|joint|step) +[0-9]|may be [0-9]`)
)

// In inches no screen and nothing that lies over it shows a millimetre, but what was
// typed in them.
func TestInchesEverywhere(t *testing.T) {
	for id, d := range opened(t, 120, 40, "i") {
		if id == keymap.Unit || id == keymap.Help || id == keymap.Search {
			continue // back in millimetres; what keys do is said in both
		}
		if id == "rack-edit" {
			continue // all of it is the line as it was typed
		}
		for line := range strings.SplitSeq(d.screen(), "\n") {
			if metric.MatchString(line) && !asTyped.MatchString(line) {
				t.Errorf("%s: %q", id, line)
			}
		}
	}
}

// One of something is one.
func TestOneIsOne(t *testing.T) {
	onDemo(t, 80, 24).keys("ctrl+n enter a enter").shows(" 1 strip, ")
	onDemo(t, 80, 24).keys("ctrl+n enter a enter t").shows(" 2 strips, ")
}

// A window that calls itself larger than any is drawn in part, and said to be.
func TestLargestWindow(t *testing.T) {
	d := onDemo(t, 65535, 65535).shows("this window is 65535 x 65535: oddments draws the first 1000 x 300 of the window")
	lines := strings.Split(d.screen(), "\n")
	if len(lines) != mostHeight || ansi.StringWidth(lines[0]) != mostWidth {
		t.Errorf("%d lines, the first %d wide", len(lines), ansi.StringWidth(lines[0]))
	}
	s := demoSetup(t)
	s.Width, s.Height = 65535, 65535 // the first frame, before the library tells of a size
	if lines := strings.Split(New(s).View(), "\n"); len(lines) != mostHeight {
		t.Errorf("%d lines at the start", len(lines))
	}
	d.send(tea.WindowSizeMsg{Width: 65535, Height: 24}).keys("right")
	if lines := strings.Split(d.screen(), "\n"); len(lines) != 24 {
		t.Errorf("%d lines", len(lines))
	}
}
