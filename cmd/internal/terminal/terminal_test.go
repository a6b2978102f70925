package terminal_test

import (
	"strings"
	"testing"

	"example.com/oddments/cmd/internal/terminal"
	"example.com/oddments/tui/paint"
)

// Each says what is there, and what to do where that is not enough.
func TestAdvice(t *testing.T) {
	with := func(name, value string) func(string) string {
		return func(n string) string {
			if n == name {
				return value
			}
			return ""
		}
	}
	for _, c := range []struct{ got, says string }{
		{terminal.Size(0, 0), "not known"}, {terminal.Size(40, 24), "too small"}, {terminal.Size(70, 20), "enough to work"}, {terminal.Size(80, 24), "full use"},
		{terminal.Colours(paint.TrueColour, false), "--color 256"}, {terminal.Colours(paint.None, false), "letters and textures"},
		{terminal.Colours(paint.ANSI256, false), "COLORTERM=truecolor"},
		{terminal.Mouse(with("TERM", "linux")), "console has none"}, {terminal.Mouse(with("TMUX", "1")), "tmux passes it on"}, {terminal.Mouse(with("", "")), "hold Shift"},
		{terminal.Locale(with("LANG", "en_GB.UTF-8")), "UTF-8, since LANG"}, {terminal.Locale(with("LC_ALL", "C")), "not UTF-8"},
	} {
		if !strings.Contains(c.got, c.says) {
			t.Errorf("%q does not say %q", c.got, c.says)
		}
	}
	if got := terminal.Colours(paint.None, true); got != "" {
		t.Errorf("colours asked for by name are advised on: %q", got)
	}
}
