package screen

import (
	"errors"
	"fmt"

	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
)

// Words puts a refusal into the maker's unit.
func Words(err error, u length.Unit) string {
	var refusal *edit.Refusal
	if errors.As(err, &refusal) {
		return refusal.In(u)
	}
	return err.Error()
}

// Apply makes a remedy's change as one undo step, and says what was done.
func Apply(m check.Remedy, ctx Context) []Request {
	said := Say("done: " + m.Between())
	if m.Kind == check.Settle { // what was written is not yet so
		said = Say(fmt.Sprintf("%s is now entered at %.1f %%: do not glue it before it reads that", m.Strips(), m.Reading.Percent))
		if len(m.Also) > 0 {
			said = Say(fmt.Sprintf("%s are now entered at %.1f %%: do not glue them before they read that", m.Strips(), m.Reading.Percent))
		}
	}
	return []Request{Edit{Make: func(s edit.State) (edit.State, error) { return m.Apply(s, ctx.Allow) }}, said}
}
