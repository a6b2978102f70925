package paint_test

import (
	"testing"

	"example.com/oddments/tui/paint"
)

func TestDetectColours(t *testing.T) {
	for _, c := range []struct {
		name string
		env  map[string]string
		want paint.Profile
	}{
		{"nothing set", nil, paint.None},
		{"dumb", map[string]string{"TERM": "dumb", "COLORTERM": "truecolor"}, paint.None},
		{"NO_COLOR wins", map[string]string{"TERM": "xterm-256color", "COLORTERM": "truecolor", "NO_COLOR": "1"}, paint.None},
		{"empty NO_COLOR counts for nothing", map[string]string{"TERM": "xterm-256color", "NO_COLOR": ""}, paint.ANSI256},
		{"truecolor", map[string]string{"TERM": "xterm", "COLORTERM": "truecolor"}, paint.TrueColour},
		{"24bit in capitals", map[string]string{"TERM": "xterm-256color", "COLORTERM": "24BIT"}, paint.TrueColour},
		{"another COLORTERM", map[string]string{"TERM": "xterm", "COLORTERM": "yes"}, paint.ANSI16},
		{"direct", map[string]string{"TERM": "xterm-direct"}, paint.TrueColour},
		{"direct of 256", map[string]string{"TERM": "xterm-direct256"}, paint.TrueColour},
		{"over ssh", map[string]string{"TERM": "xterm-kitty"}, paint.TrueColour},
		{"256", map[string]string{"TERM": "tmux-256color"}, paint.ANSI256},
		{"screen inside a deep one", map[string]string{"TERM": "screen.xterm-256color", "COLORTERM": "truecolor"}, paint.ANSI256},
		{"tmux that calls itself screen", map[string]string{"TERM": "screen-256color", "COLORTERM": "truecolor", "TMUX": "/tmp/x"}, paint.TrueColour},
		{"plain xterm", map[string]string{"TERM": "xterm"}, paint.ANSI16},
		{"console", map[string]string{"TERM": "linux"}, paint.ANSI16},
		{"black and white", map[string]string{"TERM": "xterm-mono"}, paint.None},
		{"Windows Terminal", map[string]string{"WT_SESSION": "1"}, paint.TrueColour},
	} {
		got, why := paint.Detect(func(name string) string { return c.env[name] })
		if got != c.want || why == "" {
			t.Errorf("%s: %v since %q, want %v", c.name, got, why, c.want)
		}
	}
}
