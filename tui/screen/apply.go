package screen

import (
	"fmt"

	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/edit"
)

// Apply makes a remedy's change as one undo step, and says what was done.
func Apply(m check.Remedy, ctx Context) []Request {
	said := Say("done: " + m.Between())
	if m.Kind == check.Settle { // what was written is not yet so
		said = Say(fmt.Sprintf("counted on at %.1f %% now: glue strip %d when it reads that", m.Reading.Percent, m.Strip))
	}
	return []Request{Edit{Make: func(s edit.State) (edit.State, error) { return m.Apply(s, ctx.Allow) }}, said}
}
