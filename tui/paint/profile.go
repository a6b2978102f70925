// Package paint draws frames as cells: a rune and a style each, written into
// rectangles and given out as runs of escapes.
//
// Every frame is exactly as many lines of as many cells as its canvas is large, and
// every cell is one printable character of one cell's width: text from files and
// fields is made so on the way in, so that no control character, escape or
// direction mark ever reaches the terminal. Text keeps the terminal's own colours
// and its 16 named ones, so that it reads on dark and light; the terminal is never
// asked for its background. Wood has sRGB colours, shown as they are or as the
// nearest of 256; where there are fewer, whoever draws wood uses letters and
// textures (Profile.ShowsWood). Positions and sizes are in cells from the top left.
package paint

import "fmt"

// A Profile says which colours the terminal shows. The zero value is TrueColour.
type Profile int

// The profiles, the richest first.
const (
	TrueColour Profile = iota // 24 bits
	ANSI256                   // the 256 of xterm
	ANSI16                    // the 16 named ones
	None                      // no colour; bold, underline and reverse remain
)

// Profiles lists every profile, the richest first.
func Profiles() []Profile { return []Profile{TrueColour, ANSI256, ANSI16, None} }

// String returns the profile as the --color flag writes it.
func (p Profile) String() string {
	names := [...]string{"truecolor", "256", "16", "none"}
	if p < 0 || int(p) >= len(names) {
		return fmt.Sprintf("profile(%d)", int(p))
	}
	return names[p]
}

// ParseProfile reads truecolor, 256, 16 or none.
func ParseProfile(s string) (Profile, error) {
	for _, p := range Profiles() {
		if s == p.String() {
			return p, nil
		}
	}
	return None, fmt.Errorf("colours %q: must be truecolor, 256, 16 or none", s)
}

// ShowsWood reports whether sRGB colours are shown; otherwise wood is drawn by
// letters and textures.
func (p Profile) ShowsWood() bool { return p == TrueColour || p == ANSI256 }
