package screen

import (
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/tell"
)

// Size says how large a pattern is, for lists.
func Size(p pattern.Pattern, u length.Unit) string {
	return tell.Count(len(p.Strips), "strip") + "   " + tell.Size(u, p.Panel.Length, p.Width(), p.Panel.Thickness)
}
