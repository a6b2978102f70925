package manual

import (
	"slices"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"

	"example.com/oddments/tui/keymap"
)

func TestChapters(t *testing.T) {
	chapters := Chapters(keymap.NewMap())
	if len(chapters) < 5 {
		t.Fatalf("%d chapters, want 5 or more", len(chapters))
	}
	var names []string
	for _, c := range chapters {
		if c.Name == "" || c.Title == "" || len(c.Lines) == 0 || c.Lines[0] == "" {
			t.Errorf("chapter %q %q begins with %q", c.Name, c.Title, c.Lines)
		}
		if slices.Contains(names, c.Name) {
			t.Errorf("%s stands there twice", c.Name)
		}
		names = append(names, c.Name)
		for _, line := range c.Lines {
			for _, r := range line {
				if r != '±' && (r < ' ' || r > '~') {
					t.Errorf("%s: %q is not to be typed on every keyboard: %s", c.Name, r, line)
				}
			}
			for _, word := range []string{"certified", "food safe", "is safe"} {
				if strings.Contains(strings.ToLower(line), word) {
					t.Errorf("%s promises %q: %s", c.Name, word, line)
				}
			}
		}
	}
}

// The keys in the text are those of the table.
func TestKeysStandInTheText(t *testing.T) {
	keys := keymap.NewMap()
	text := strings.Join(Chapters(keys)[0].Lines, "\n")
	if want := `with "` + keys.KeyOf(keymap.Undo) + `", as often`; !strings.Contains(text, want) {
		t.Errorf("the first hour does not say %q:\n%s", want, text)
	}
}

func TestWrappedFits(t *testing.T) {
	for _, c := range Chapters(keymap.NewMap()) {
		for _, w := range []int{58, 76, 120} {
			for _, line := range c.Wrapped(w) {
				if n := ansi.StringWidth(line); n > w {
					t.Errorf("%s at %d: %d cells: %s", c.Name, w, n, line)
				}
			}
		}
		got := strings.Fields(strings.Join(c.Wrapped(58), " "))
		if want := strings.Fields(strings.Join(c.Lines, " ")); !slices.Equal(got, want) {
			t.Errorf("%s: words are lost in wrapping", c.Name)
		}
	}
}
