package tui

import (
	"fmt"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"
	"github.com/charmbracelet/x/exp/golden"

	"example.com/oddments/pattern/suggest"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screens/layouts"
)

// Text that got past every reader never reaches the terminal as control codes.
func TestHostileTextInTheGallery(t *testing.T) {
	s := laySetup(t)
	hostile := "\x1b]0;owned\x07\x1b[2J\u202eevil\u009b31m\n\r\t"
	s.Open.Pattern.Name, s.Open.Pattern.Notes = hostile, hostile
	for i := range s.Rack.Strips {
		s.Rack.Strips[i].ID += hostile
	}
	for _, profile := range paint.Profiles() {
		s.Profile = profile
		for _, keys := range []string{"v f right", "V", "v f esc"} {
			d := start(t, s, 200, 60).keys(keys)
			frame := d.app.View()
			for _, r := range ansi.Strip(frame) {
				if r != '\n' && (r < ' ' || r == 0x7f || r >= 0x80 && r < 0xa0 || r >= 0x202a && r <= 0x202e) {
					t.Fatalf("%v, %s: %U reaches the terminal", profile, keys, r)
				}
			}
			if strings.Contains(frame, "\x1b]") || strings.Contains(frame, "\x1b[2J") {
				t.Fatalf("%v, %s: an escape reaches the terminal", profile, keys)
			}
		}
	}
}

// The golden frames of the gallery; see TestGolden.
func TestGoldenLayouts(t *testing.T) {
	for _, c := range []struct {
		name string
		w, h int
		keys string
	}{
		{"Layouts", 80, 24, "v f down"},
		{"Layouts", 120, 40, "v f down right right"},
		{"Layouts", 60, 18, "v f down"},
		{"Layouts", 200, 60, "v f down"},
		{"LayoutsHeld", 80, 24, "v f h 1 right p"},
		{"LayoutsHolding", 80, 24, "v f h"},
		{"LayoutsTimbers", 80, 24, "v f e 3 down space"},
		{"LayoutsNoLook", 80, 24, "v f h 9 down"},
		{"LayoutsNoLook", 120, 40, "v f h 9 down"},
		{"LayoutsPieces", 80, 24, "v m"},
		{"LayoutsStale", 80, 24, "n 2 enter p v f u"},
		{"LayoutsNone", 80, 24, "v f h 1 T T T T t c c c c c c c c c c c c c c c c c c c c c c"},
		{"LayoutsInches", 80, 24, "i v f t"},
		{"Again", 80, 24, "V"},
		{"Again", 120, 40, "V down"},
	} {
		t.Run(fmt.Sprintf("%s%dx%d", c.name, c.w, c.h), func(t *testing.T) {
			golden.RequireEqual(t, []byte(start(t, laySetup(t), c.w, c.h).keys(c.keys).screen()))
		})
	}
}

// Every frame of the gallery is as large as the window, whatever stands on it.
func TestSweepOfLayouts(t *testing.T) {
	for _, keys := range []string{"v f right", "V", "v f c c c c c c c c c c c c c c c c c c c c", "v f n"} {
		d := start(t, laySetup(t), 80, 24).keys(keys)
		for w := 1; w <= 240; w += 7 {
			for h := 1; h <= 80; h += 5 {
				d.send(tea.WindowSizeMsg{Width: w, Height: h})
				lines := strings.Split(ansi.Strip(d.app.View()), "\n")
				if len(lines) != h {
					t.Fatalf("%s at %dx%d: %d lines", keys, w, h, len(lines))
				}
				for _, line := range lines {
					if ansi.StringWidth(line) != w {
						t.Fatalf("%s at %dx%d: a line of %d cells: %q", keys, w, h, ansi.StringWidth(line), line)
					}
				}
			}
		}
	}
}

// A press chooses a layout, makes what the footer says, and sets a wish.
func TestMouseInTheGallery(t *testing.T) {
	d := onLayouts(t, 80, 24)
	press := func(text string) {
		t.Helper()
		for y, line := range strings.Split(d.screen(), "\n") {
			if x := strings.Index(line, text); x >= 0 {
				d.send(tea.MouseMsg{X: len([]rune(line[:x])), Y: y, Button: tea.MouseButtonLeft, Action: tea.MouseActionPress})
				return
			}
		}
		t.Fatalf("%q is not on the screen", text)
	}
	press("  b  ")
	d.shows("b of 5")
	press("l up to take care")
	d.shows("l up to too much")
	d.send(tea.MouseMsg{Button: tea.MouseButtonWheelDown, Action: tea.MouseActionPress}).shows("b of")
	press("Esc bench")
	if d.app.here() == layouts.Place {
		t.Error("the gallery is still open")
	}
}

// All that there is to say of a layout can be read on the smallest screen.
func TestTellAllOfALayout(t *testing.T) {
	d := start(t, laySetup(t), 60, 18).keys("v o").shows("layout a", "strip 1 ")
	text := d.screen()
	for range 12 {
		text += d.keys("pgdown").screen()
	}
	l := of[layouts.Screen](d.app).Shown().Laid[0]
	for n := range l.Summary.Lines {
		if !strings.Contains(text, fmt.Sprintf("%d|%d, ", n+1, n+2)) {
			t.Errorf("nothing is told of %d|%d", n+1, n+2)
		}
	}
	for _, change := range suggest.Compare(d.app.state().Pattern.Strips, l.Pattern.Strips) {
		if change.Now > 0 && !strings.Contains(text, fmt.Sprintf("strip %d ", change.Now)) {
			t.Errorf("strip %d differs, and nothing tells so", change.Now)
		}
	}
	if l.Layout.Plan == nil || len(l.Layout.Plan.Cuts)+len(l.Layout.Plan.Ready) == 0 {
		t.Fatal("the layout has no plan")
	}
	for _, cut := range l.Layout.Plan.Cuts {
		if !strings.Contains(text, cut.Piece) {
			t.Errorf("the order of work does not name %s, which it takes", cut.Piece)
		}
	}
	for _, ready := range l.Layout.Plan.Ready {
		if !strings.Contains(text, ready.ID) {
			t.Errorf("the order of work does not name %s, which it takes", ready.ID)
		}
	}
	d.keys("esc").shows("Layouts   ").keys("esc V o").shows("layout a", "stays")
}
