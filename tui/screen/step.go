package screen

import "example.com/oddments/pattern/length"

// A Step is how far one press of a key goes, in the maker's unit.
type Step struct{ MM, Inches length.Length }

// In returns the step in a unit.
func (s Step) In(u length.Unit) length.Length {
	if u == length.InInches {
		return s.Inches
	}
	return s.MM
}

// SlideStep is how far a key slides what lies along the panel, FineSlideStep how far the
// one beside it does.
func SlideStep() Step { return Step{5 * length.Millimetre, length.Inch / 4} }

// FineSlideStep is the finer of the two.
func FineSlideStep() Step { return Step{length.Millimetre, length.Inch / 16} }
