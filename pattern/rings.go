package pattern

import (
	"fmt"
	"strconv"
)

// Rings says how the growth rings meet a strip's visible face: an angle from 0
// (flat-sawn) to 90 degrees (quarter-sawn). The zero value is unknown. Rings
// compare with ==.
type Rings struct {
	degrees float64
	known   bool
}

// The angles that have a word of the trade.
const (
	flatDegrees    = 0.0
	riftDegrees    = 45.0
	quarterDegrees = 90.0
)

// RingsFlat returns the rings of flat-sawn timber.
func RingsFlat() Rings { return Rings{degrees: flatDegrees, known: true} }

// RingsRift returns the rings of rift-sawn timber.
func RingsRift() Rings { return Rings{degrees: riftDegrees, known: true} }

// RingsQuarter returns the rings of quarter-sawn timber.
func RingsQuarter() Rings { return Rings{degrees: quarterDegrees, known: true} }

// RingsAt returns rings at an angle, which must lie from 0 to 90 degrees.
func RingsAt(degrees float64) (Rings, error) {
	if !(degrees >= flatDegrees && degrees <= quarterDegrees) {
		return Rings{}, fmt.Errorf("rings at %v degrees: must be 0 to 90, or flat, rift, quarter or unknown", degrees)
	}
	return Rings{degrees: degrees, known: true}, nil
}

// Known reports whether somebody has looked at the end grain.
func (r Rings) Known() bool { return r.known }

// Degrees returns the angle in degrees; unknown rings are computed as 45.
func (r Rings) Degrees() float64 {
	if !r.known {
		return riftDegrees
	}
	return r.degrees
}

// Rolled returns the rings after a quarter turn about the strip's length, or after
// side-slicing: flat and quarter change places, unknown stays so.
func (r Rings) Rolled() Rings {
	if !r.known {
		return r
	}
	return Rings{degrees: quarterDegrees - r.degrees, known: true}
}

// Nearest returns the nearest of flat, rift and quarter; unknown rings stay so.
func (r Rings) Nearest() Rings {
	switch {
	case !r.known:
		return r
	case r.degrees < (flatDegrees+riftDegrees)/2:
		return RingsFlat()
	case r.degrees <= (riftDegrees+quarterDegrees)/2:
		return RingsRift()
	default:
		return RingsQuarter()
	}
}

// Mark returns the sign of the nearest: = flat, / rift, | quarter, ? unknown.
func (r Rings) Mark() rune {
	switch r.Nearest() {
	case RingsFlat():
		return '='
	case RingsRift():
		return '/'
	case RingsQuarter():
		return '|'
	default:
		return '?'
	}
}

// Word returns flat, rift, quarter or unknown, and false for another angle.
func (r Rings) Word() (string, bool) {
	switch {
	case !r.known:
		return "unknown", true
	case r.degrees == flatDegrees:
		return "flat", true
	case r.degrees == riftDegrees:
		return "rift", true
	case r.degrees == quarterDegrees:
		return "quarter", true
	default:
		return "", false
	}
}

// String returns the word, or the angle as a number.
func (r Rings) String() string {
	if word, ok := r.Word(); ok {
		return word
	}
	return strconv.FormatFloat(r.degrees, 'f', -1, 64)
}

// ParseRings reads flat, rift, quarter, unknown or an angle of 0 to 90 degrees.
func ParseRings(s string) (Rings, error) {
	switch s {
	case "flat":
		return RingsFlat(), nil
	case "rift":
		return RingsRift(), nil
	case "quarter":
		return RingsQuarter(), nil
	case "unknown":
		return Rings{}, nil
	}
	degrees, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return Rings{}, fmt.Errorf("rings %q: must be flat, rift, quarter, unknown or an angle of 0 to 90", s)
	}
	return RingsAt(degrees)
}
