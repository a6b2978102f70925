package search

import (
	"cmp"
)

// doubts keeps the first claim of a plan that broke while layouts were sought. Searches
// that one another begins share theirs.
type doubts struct{ first error }

// note keeps err where it is the first.
func (d *doubts) note(err error) { d.first = cmp.Or(d.first, err) }
