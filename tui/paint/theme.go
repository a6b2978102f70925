package paint

import (
	"strconv"

	"github.com/charmbracelet/lipgloss"
)

// A Role is what a piece of text is for; the theme says how it looks.
type Role int

// The roles of text. Every one also says by a word, a letter or its place what it
// means, since colour and weight may not be seen.
const (
	RolePlain    Role = iota
	RoleFaint         // what stands behind: rulers, hints, counts
	RoleTitle         // the name of a screen or a pattern
	RoleHeading       // the name of a part
	RoleSelected      // the chosen strip, row or entry
	RoleFine          // finding: fine
	RoleCare          // finding: take care
	RoleMuch          // finding: too much
	RoleUnknown       // a figure that waits for somebody to look
	RoleKey           // the name of a key
	RoleCaution       // a line about harm to people
	RoleError         // what could not be done
	RoleField         // text being typed
	RoleCount         // how many there are
)

// Theme returns how text of each role looks in profile p, by Role: the one place that says
// so, for screens and for the tables of commands. A named colour stands as text only
// on a named background, since yellow on white or blue on black cannot be read and
// the terminal's background is not known; elsewhere weight does the work.
func Theme(p Profile) [RoleCount]lipgloss.Style {
	plain := lipgloss.NewStyle()
	bold, faint, underlined := plain.Bold(true), plain.Faint(true), plain.Underline(true)
	marked := bold.Reverse(true)
	care, much := bold, marked
	if p != None {
		care = plain.Foreground(of(Black)).Background(of(Yellow))
		much = bold.Foreground(of(BrightWhite)).Background(of(Red))
	}
	return [RoleCount]lipgloss.Style{
		RolePlain: plain, RoleFaint: faint, RoleFine: faint,
		RoleTitle: bold, RoleKey: bold, RoleUnknown: bold,
		RoleHeading: underlined, RoleField: underlined, RoleSelected: marked,
		RoleCare: care, RoleCaution: care, RoleMuch: much, RoleError: much,
	}
}

// of returns a named colour as lipgloss writes it: by its number.
func of(c Colour) lipgloss.Color {
	n, _ := c.named()
	return lipgloss.Color(strconv.Itoa(n))
}

// looks returns the theme of a profile as cells have it.
func looks(p Profile) (all [RoleCount]Style) {
	for r, s := range Theme(p) {
		all[r] = Style{
			FG: colourOf(s.GetForeground()), BG: colourOf(s.GetBackground()),
			Bold: s.GetBold(), Faint: s.GetFaint(), Underline: s.GetUnderline(), Reversed: s.GetReverse(),
		}
	}
	return all
}

// colourOf returns a colour of the theme, of which all are named ones.
func colourOf(c lipgloss.TerminalColor) Colour {
	if named, ok := c.(lipgloss.Color); ok {
		if n, err := strconv.Atoi(string(named)); err == nil {
			return Black + Colour(n)
		}
	}
	return Default
}
