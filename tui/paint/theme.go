package paint

import "fmt"

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
	roleCount
)

// Roles lists every role.
func Roles() []Role {
	roles := make([]Role, roleCount)
	for i := range roles {
		roles[i] = Role(i)
	}
	return roles
}

// String returns the role's name.
func (r Role) String() string {
	if r < 0 || r >= roleCount {
		return fmt.Sprintf("role(%d)", int(r))
	}
	return [...]string{
		"plain", "faint", "title", "heading", "selected", "fine", "care", "much",
		"unknown", "key", "caution", "error", "field",
	}[r]
}

// Style returns the look of role r in profile p. A named colour stands as text only
// on a named background, since yellow on white or blue on black cannot be read and
// the terminal's background is not known; elsewhere weight does the work.
func (r Role) Style(p Profile) Style {
	coloured := p != None
	switch r {
	case RolePlain:
		return Style{}
	case RoleFaint, RoleFine:
		return Style{Faint: true}
	case RoleTitle, RoleKey:
		return Style{Bold: true}
	case RoleHeading:
		return Style{Underline: true}
	case RoleSelected:
		return Style{Bold: true, Reversed: true}
	case RoleField:
		return Style{Underline: true}
	case RoleUnknown:
		return Style{Bold: true}
	case RoleCare, RoleCaution:
		if coloured {
			return Style{FG: Black, BG: Yellow}
		}
		return Style{Bold: true}
	case RoleMuch, RoleError:
		if coloured {
			return Style{FG: BrightWhite, BG: Red, Bold: true}
		}
		return Style{Bold: true, Reversed: true}
	default:
		return Style{}
	}
}
