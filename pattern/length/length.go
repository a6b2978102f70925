// Package length holds lengths exactly: whole nanometres, read from and printed
// in millimetres and inches.
//
// An inch is 25.4 mm by definition (international inch, 1959), so that 1/64 in is
// a whole number of nanometres. Lengths are compared with == and <=; there is no
// tolerance anywhere. Areas and volumes are float64 with the unit in the name and
// never flow back into a Length.
package length

import "math"

// A Length is a whole number of nanometres. The zero value is no length. The
// largest is some nine million kilometres, so sums over a workshop cannot overflow.
type Length int64

// The units in which lengths are written in code.
const (
	Nanometre  Length = 1
	Micrometre        = 1000 * Nanometre
	Millimetre        = 1000 * Micrometre
	Centimetre        = 10 * Millimetre
	Metre             = 1000 * Millimetre
	Inch              = 25_400 * Micrometre
)

// MM returns l in millimetres, for estimates and drawing.
func (l Length) MM() float64 { return float64(l) / float64(Millimetre) }

// FromMM returns the Length nearest to mm millimetres. It is for drawing and for
// steps of a hand move; text is read with Parse, which is exact.
func FromMM(mm float64) Length { return Length(math.Round(mm * float64(Millimetre))) }

// Split parts l into n lengths that differ by at most a nanometre and add up to l.
// It gives nil when n is below 1.
func (l Length) Split(n int) []Length {
	if n < 1 {
		return nil
	}
	parts := make([]Length, n)
	whole, rest := l/Length(n), l%Length(n)
	step := Length(1)
	if rest < 0 {
		step, rest = -1, -rest
	}
	for i := range parts {
		parts[i] = whole
		if Length(i) < rest {
			parts[i] += step
		}
	}
	return parts
}

// AreaCM2 returns a times b in square centimetres.
func AreaCM2(a, b Length) float64 { return a.MM() * b.MM() / 100 }

// VolumeCM3 returns a times b times c in cubic centimetres.
func VolumeCM3(a, b, c Length) float64 { return a.MM() * b.MM() * c.MM() / 1000 }
