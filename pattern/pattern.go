// Package pattern holds what a maker saves: a panel, its strips in order, what is cut
// from it, and what was made of it.
//
// A pattern is a value. Whatever changes one takes it and gives a new one; the
// strips of a pattern that was handed on are never written to. Lengths are exact
// (package length); moisture is percent of oven-dry mass. Values are in range once
// a reader or package edit has let them in: see the Max constants.
package pattern

import (
	"fmt"
	"time"

	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/tell"
)

// The largest values a pattern may hold. Widths and thicknesses are above 0.
const (
	MaxAcross    = 2 * length.Metre  // widths and thicknesses
	MaxLength    = 20 * length.Metre // lengths of panels, strips and pieces
	MaxStart     = 1 * length.Metre  // a strip's start
	MaxStrips    = 10_000            // strips in a pattern, after count is spread out
	MaxMoisture  = 30.0              // percent
	MaxTextRunes = 2_000             // name, note
	MaxBatch     = 10_000            // copies in a batch that was made
	MaxMinutes   = 100_000           // that a batch took
)

// A Pattern is a named arrangement of strips with its panel's size. Without strips
// it is a draft.
type Pattern struct {
	Name    string
	Notes   string
	Panel   Panel
	Strips  []Strip  // left to right
	Seconds []Second // glue-ups after the first, in the order of the work

	Products []Product // what is cut from the panel, in this order along it
	Avoids   []Avoid   // what no product may take in
	Made     []Made    // oldest first
}

// A Panel is the size that strips are glued up for.
type Panel struct {
	Length    length.Length // finished
	Thickness length.Length // finished
	Width     length.Length // wanted finished width; 0: none said
	Make      Make
	Moisture  Reading // at glue-up, for strips without a reading
	Flattened Reading // when the panel is made flush
}

// A Strip is one strip of a panel. Strips that compare equal are alike in all.
type Strip struct {
	Species  string        // key in the species table
	Width    length.Length // finished, across the panel
	Rings    Rings         // against the visible face
	Bark     Bark          // one of Rings.BarkSides; zero: nobody has looked
	Heart    length.Length // from its middle to the pith; 0: not known, and without Bark
	Moisture Reading       // this strip's own
	Length   length.Length // its own at glue-up; 0: that of the panel and its allowance
	Start    length.Length // its near end from the datum end
	Joints   Joints        // where its pieces meet; Start and Length stay its outer ends
	Turned   bool          // end for end, against how it was put in
	Over     bool          // its other face is up
	Pinned   bool          // mirror, fill and laying out leave it alone
	Colour   colour.Own    // its own, under oil
}

// Grain returns how the rings lie in s.
func (s Strip) Grain() Grain { return Grain{s.Rings, s.Bark, s.Heart} }

// Lay makes the rings of s lie so.
func (s *Strip) Lay(g Grain) { s.Rings, s.Bark, s.Heart = g.Rings, g.Bark, g.Heart }

// A Made is one batch that was made of a pattern.
type Made struct {
	Date      Date
	Copies    int
	Width     length.Length // as it came out; 0: not said
	Thickness length.Length // as it came out; 0: not said
	Minutes   int           // 0: not said
	Note      string
}

// A Date is a day of the calendar.
type Date struct {
	Year  int
	Month time.Month
	Day   int
}

// String returns the day as 2026-11-02.
func (d Date) String() string { return fmt.Sprintf("%04d-%02d-%02d", d.Year, d.Month, d.Day) }

// A Reading is a moisture content that somebody measured or set. The zero value
// says that nobody did.
type Reading struct {
	Percent float64
	Known   bool
}

// Read returns the Reading of percent.
func Read(percent float64) Reading { return Reading{Percent: percent, Known: true} }

// Or returns the reading, or else where there is none.
func (r Reading) Or(other float64) float64 {
	if r.Known {
		return r.Percent
	}
	return other
}

// A Make says how strips are cut from a slice. The zero value is Flat.
type Make int

// The ways of cutting strips.
const (
	MakeFlat Make = iota // the slice gives the panel's thickness
	MakeEdge             // the slice gives the strip's width; the strip is then rolled a quarter turn
)

// String returns flat or edge.
func (m Make) String() string { return tell.Word(m, "make", "flat", "edge") }

// ParseMake reads flat or edge.
func ParseMake(s string) (Make, error) {
	if m, ok := tell.Named(s, []Make{MakeFlat, MakeEdge}); ok {
		return m, nil
	}
	return MakeFlat, fmt.Errorf("%q: must be flat or edge", s)
}

// A Level says how much a finding asks of the maker. The zero value is Fine.
type Level int

// The levels, the mildest first.
const (
	Fine Level = iota
	TakeCare
	TooMuch
)

// Levels lists every level, the mildest first.
func Levels() []Level { return []Level{Fine, TakeCare, TooMuch} }

// String returns the level in the words that makers read.
func (l Level) String() string { return tell.Word(l, "level", "fine", "take care", "too much") }

// Heading returns what stands before a finding or a caution of the level, in small letters:
// fine is said of what is fine, and nothing that asks for something is.
func (l Level) Heading() string {
	if l == Fine {
		return "note"
	}
	return l.String()
}

// ParseLevel reads fine, take care or too much.
func ParseLevel(s string) (Level, error) {
	if l, ok := tell.Named(s, Levels()); ok {
		return l, nil
	}
	return Fine, fmt.Errorf("level %q: must be fine, take care or too much", s)
}

// Width returns the glue-up width: the sum of the finished strip widths.
func (p Pattern) Width() length.Length {
	var sum length.Length
	for _, s := range p.Strips {
		sum += s.Width
	}
	return sum
}

// StripLength returns the length of strip s at glue-up: its own where it has one,
// else the panel's length with allowance added.
func (p Pattern) StripLength(s Strip, allowance length.Length) length.Length {
	if s.Length > 0 {
		return s.Length
	}
	return p.Panel.Length + allowance
}

// Ragged reports whether a strip has a start or a length of its own.
func (p Pattern) Ragged() bool {
	for _, s := range p.Strips {
		if s.Length > 0 || s.Start > 0 {
			return true
		}
	}
	return false
}
