package cli

import (
	"fmt"

	"github.com/spf13/pflag"

	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/store"
)

// markEdits are the changes to what is cut out of a panel, in the order of the flags
// below: what goes first, so that the numbers are those that were printed before.
type markEdits struct {
	dropKnot, drop int
	knots, add     []string
}

func (e *markEdits) flags(to *pflag.FlagSet) {
	to.StringArrayVar(&e.add, "add", nil, "list a product as it is spoken in `LINE`, again for others")
	to.IntVar(&e.drop, "drop", 0, "take product `N` off the list")
	to.StringArrayVar(&e.knots, "knot", nil, "keep products clear of a `KNOT`, as \"210, 96, 8\"; again for others")
	to.IntVar(&e.dropKnot, "drop-knot", 0, "forget knot `N`")
}

func (e *markEdits) any() bool { return e.drop != 0 || e.dropKnot != 0 || len(e.add)+len(e.knots) > 0 }

// make makes the changes, and refuses them all where one cannot be.
func (e *markEdits) make(s edit.State) (edit.State, error) {
	var err error
	step := func(flag string, f func() (edit.State, error)) {
		if err != nil {
			return
		}
		next, wrong := f()
		if wrong != nil {
			err = usage("the pattern is as it was", "--%s: %v", flag, wrong)
			return
		}
		s = next
	}
	if e.dropKnot != 0 {
		step("drop-knot", func() (edit.State, error) { return edit.DropAvoid(s, e.dropKnot-1) })
	}
	if e.drop != 0 {
		step("drop", func() (edit.State, error) { return edit.DropProduct(s, e.drop-1) })
	}
	for _, line := range e.knots {
		step("knot", func() (edit.State, error) {
			knot, err := spokenLine(line, outline.ParseKnot)
			if err != nil {
				return s, err
			}
			return edit.AddAvoid(s, knot)
		})
	}
	for _, line := range e.add {
		step("add", func() (edit.State, error) {
			product, err := spokenLine(line, outline.ParseLine)
			if err != nil {
				return s, err
			}
			return edit.AddProduct(s, product)
		})
	}
	return s, err
}

// spokenLine reads a line by parse, which takes it apart.
func spokenLine[T any](line string, parse func(string, length.Unit) (T, error)) (T, error) {
	if err := oneLine(line); err != nil {
		var none T
		return none, fmt.Errorf("%q: %w", line, err)
	}
	return parse(line, length.InMM)
}

// markEdited makes and saves the changes to saved, and reads it again.
func (w workshop) markEdited(arg string, saved store.Saved, e markEdits) (store.Saved, error) {
	next, err := e.make(edit.State{Pattern: saved.Pattern})
	if err != nil {
		return saved, err
	}
	if err := w.keepPattern(saved, next.Pattern); err != nil {
		return saved, err
	}
	again, err := w.home.OpenPattern(arg, w.known)
	if err != nil {
		return saved, fmt.Errorf("read again: %w", err)
	}
	return again, nil
}
