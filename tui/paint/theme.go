package paint

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

// Style returns the look of role r in profile p. A named colour stands as text only
// on a named background, since yellow on white or blue on black cannot be read and
// the terminal's background is not known; elsewhere weight does the work.
func (r Role) Style(p Profile) Style {
	if p == None {
		return [roleCount]Style{
			RoleFaint: {Faint: true}, RoleFine: {Faint: true},
			RoleTitle: {Bold: true}, RoleKey: {Bold: true}, RoleUnknown: {Bold: true},
			RoleHeading: {Underline: true}, RoleField: {Underline: true},
			RoleSelected: {Bold: true, Reversed: true},
			RoleCare:     {Bold: true}, RoleCaution: {Bold: true},
			RoleMuch: {Bold: true, Reversed: true}, RoleError: {Bold: true, Reversed: true},
		}[r]
	}
	switch r {
	case RoleCare, RoleCaution:
		return Style{FG: Black, BG: Yellow}
	case RoleMuch, RoleError:
		return Style{FG: BrightWhite, BG: Red, Bold: true}
	default:
		return r.Style(None)
	}
}
