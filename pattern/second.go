package pattern

import (
	"fmt"
	"slices"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/tell"
)

// The bounds of a second glue-up.
const (
	MaxSeconds = 3                     // second glue-ups of a pattern
	MinBar     = 1 * length.Millimetre // a bar's width as sawn
	MaxBar     = 2 * length.Metre
	MaxBars    = 1_000 // bars of a glue-up, and entries of a list that goes bar by bar
	MinAngle   = 20.0  // degrees between cut and strips
	Square     = 90.0
	MaxShift   = 2 * length.Metre
	MaxTrim    = 1 * length.Metre
)

// A Second is a second glue-up: bars cut off the glued panel, or off what the glue-up
// before gave, laid and glued again. Its lists go bar by bar and repeat; an empty one
// is as if it held the zero value.
type Second struct {
	Lay      Lay
	Bar      length.Length // width of a bar as sawn, square to the cut
	Bars     int           // 0: as many as come out
	Angle    float64       // degrees between cut and strips; 0 stands for Square
	Turned   []bool        // end for end, the same face up
	Over     []bool        // about its long axis, the other face up
	Shift    []Shift       // along the bar
	Trim     length.Length // squared off each of the four edges afterwards
	Moisture Reading       // at this glue-up
}

// Degrees returns the angle between cut and strips.
func (s Second) Degrees() float64 {
	if s.Angle == 0 {
		return Square
	}
	return s.Angle
}

// Mitred reports whether the cuts are not square to the strips.
func (s Second) Mitred() bool { return s.Degrees() != Square }

// Equal reports whether s and other say the same.
func (s Second) Equal(other Second) bool {
	return s.Lay == other.Lay && s.Bar == other.Bar && s.Bars == other.Bars && s.Degrees() == other.Degrees() &&
		s.Trim == other.Trim && s.Moisture == other.Moisture && slices.Equal(s.Turned, other.Turned) &&
		slices.Equal(s.Over, other.Over) && slices.Equal(s.Shift, other.Shift)
}

// repeated returns what a list says of bar i, counted from 0.
func repeated[T any](list []T, i int) (none T) {
	if len(list) == 0 {
		return none
	}
	return list[i%len(list)]
}

// TurnedAt reports whether bar i, counted from 0, lies end for end.
func (s Second) TurnedAt(i int) bool { return repeated(s.Turned, i) }

// OverAt reports whether bar i, counted from 0, has its other face up.
func (s Second) OverAt(i int) bool { return repeated(s.Over, i) }

// ShiftAt returns the shift of bar i, counted from 0.
func (s Second) ShiftAt(i int) Shift { return repeated(s.Shift, i) }

// EndGrain reports whether the end grain of p's board is up.
func (p Pattern) EndGrain() bool { return len(p.Seconds) > 0 && p.Seconds[0].Lay == LayEnd }

// A Lay says how a bar lies when it is glued. The zero value is LayEnd.
type Lay int

// The ways to lie.
const (
	LayEnd  Lay = iota // rolled a quarter turn, end grain up
	LayFlat            // as it was cut
)

// String returns end or flat.
func (l Lay) String() string { return tell.Word(l, "lay", "end", "flat") }

// ParseLay reads end or flat.
func ParseLay(s string) (Lay, error) {
	if l, ok := tell.Named(s, []Lay{LayEnd, LayFlat}); ok {
		return l, nil
	}
	return LayEnd, fmt.Errorf("%q: must be end or flat", s)
}

// A Shift is how far a bar is moved along: a length, or a step that the strips make.
// The zero value is no shift.
type Shift struct {
	By   length.Length // where Step is ShiftLength
	Step ShiftStep
}

// A ShiftStep is the measure of a shift.
type ShiftStep int

// The steps: strip 1 as it shows along the bar, and half of it.
const (
	ShiftLength ShiftStep = iota
	ShiftHalf
	ShiftStrip
)

// String returns the shift as ParseShift reads it.
func (s Shift) String() string {
	switch s.Step {
	case ShiftHalf:
		return "half"
	case ShiftStrip:
		return "strip"
	default:
		return s.By.Exact()
	}
}

// ParseShift reads half, strip or a length.
func ParseShift(text string) (Shift, error) {
	switch text {
	case "half":
		return Shift{Step: ShiftHalf}, nil
	case "strip":
		return Shift{Step: ShiftStrip}, nil
	}
	by, err := length.Parse(text)
	switch {
	case err != nil:
		return Shift{}, fmt.Errorf("%w: must be half, strip or a length", err)
	case by < 0 || by > MaxShift:
		return Shift{}, fmt.Errorf("%s: must be half, strip or 0 to %s", by, MaxShift)
	}
	return Shift{By: by}, nil
}
