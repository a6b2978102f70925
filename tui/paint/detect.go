package paint

import (
	"slices"
	"strings"
)

// Detect returns the colours that a terminal shows by what the environment says
// of it, and which variable decided. The terminal itself is never asked: some do not
// answer. NO_COLOR is that of no-color.org, COLORTERM and the endings of TERM are
// habits that terminals share (from memory).
func Detect(getenv func(string) string) (Profile, string) {
	name := getenv("TERM")
	depth := strings.ToLower(getenv("COLORTERM"))
	switch {
	case getenv("NO_COLOR") != "":
		return None, "NO_COLOR is set"
	case name == "" && getenv("WT_SESSION") != "":
		return TrueColour, "WT_SESSION is set: Windows Terminal shows 24 bits"
	case name == "":
		return None, "TERM is not set"
	case name == "dumb" || strings.HasSuffix(name, "-mono"):
		return None, "TERM says that it shows none"
	case strings.HasPrefix(name, "screen") && getenv("TMUX") == "" && depth != "":
		// COLORTERM comes through from the terminal outside, which is not what draws.
		return ANSI256, "TERM is of screen, which cuts 24 bits down"
	case depth == "truecolor" || depth == "24bit":
		return TrueColour, "COLORTERM is " + depth
	case strings.Contains(name, "-direct") || slices.ContainsFunc(deepTerminals(), func(t string) bool { return strings.HasPrefix(name, t) }):
		return TrueColour, "TERM is of a terminal with 24 bits"
	case strings.Contains(name, "256color"):
		return ANSI256, "TERM ends in 256color"
	default:
		return ANSI16, "TERM says nothing of more"
	}
}

// deepTerminals lists how TERM begins on terminals that show 24 bits and are often
// reached over ssh, which does not pass COLORTERM on.
func deepTerminals() []string {
	return []string{"alacritty", "contour", "foot", "wezterm", "xterm-ghostty", "xterm-kitty"}
}
