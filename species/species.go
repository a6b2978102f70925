// Package species holds timbers: how much each moves with moisture, its density,
// hardness, colours and cautions, each value with its source and standing.
//
// Movement coefficients are fractions of the size per point of moisture content,
// valid from about 6 to 14 percent. Colours are sRGB and always "about": most are
// visual estimates. The built-in table and the maker's own file have one form; the
// maker's values stand over the built-in ones, value by value.
package species

import "fmt"

// A Species is one timber. A number that is 0 is not known; a text that is empty
// has nothing to say.
type Species struct {
	Key       string // stable identifier: lower-case letters, digits and _
	Name      string
	Also      []string // other names in the trade
	Botanical string
	Letters   string // two capitals that mark its strips, unlike those of any other timber

	CR, CT       float64 // movement, radial and tangential, fraction per point, 0.0001 to 0.02
	FSPPct       float64 // fibre saturation point, percent, 15 to 40
	DensityKgM3  float64 // air-dry at 12 percent, 50 to 1500
	JankaN       float64 // side hardness, newtons, 100 to 30000
	Colour       RGB     // fresh planed
	ColourOiled  RGB     // after clear oil
	ColourChange string  // what light and years do to it

	Pores     string // ring, semi-ring, diffuse or softwood
	OpenPored bool   // vessels open to the eye on a planed face
	Oily      bool   // resins or oils that trouble glue
	Sensitise bool   // its dust is known to sensitise some people
	Food      string // caution about food contact
	Dust      string // what its dust is known for
	Listed    string // its place in the CITES appendices, where it has one
	Note      string

	Sources map[string]Source // by value, named as in ValueNames
}

// A Source says where a value comes from and how far it was checked.
type Source struct {
	Text   string
	Status Status
}

// A Status says how far a value was checked.
type Status int

// The standings of a value, the firmest first.
const (
	Verified Status = iota // read in the named source
	Derived                // reckoned from the named inputs
	Memory                 // from memory, no stored copy found
	Yours                  // from the maker's own file
	None                   // no published value found
)

// Statuses lists every standing, the firmest first.
func Statuses() []Status { return []Status{Verified, Derived, Memory, Yours, None} }

// String gives the word that files and the screen use.
func (s Status) String() string {
	switch s {
	case Verified:
		return "verified"
	case Derived:
		return "derived"
	case Memory:
		return "memory"
	case Yours:
		return "yours"
	case None:
		return "none"
	default:
		return fmt.Sprintf("status(%d)", int(s))
	}
}

// An RGB is an sRGB colour of 8 bits a channel. RGBs compare with ==.
type RGB struct{ R, G, B uint8 }

// String gives the colour as #RRGGBB.
func (c RGB) String() string { return fmt.Sprintf("#%02X%02X%02X", c.R, c.G, c.B) }

// Moves reports whether both movement coefficients are known.
func (s Species) Moves() bool { return s.CR > 0 && s.CT > 0 }
