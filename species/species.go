// Package species holds timbers: how much each moves with moisture, its density,
// hardness, colours and cautions, each value with its source and standing.
//
// Movement coefficients are fractions of the size per point of moisture content,
// valid from about 6 to 14 percent. Colours are sRGB and always "about": most are
// visual estimates. The built-in table and the maker's own file have one form; the
// maker's values stand over the built-in ones, value by value.
package species

// A Species is one timber. A number that is 0 is not known; a text that is empty
// has nothing to say.
type Species struct {
	Key       string   `toml:"key"` // stable identifier: lower-case letters, digits and _
	Name      string   `toml:"name"`
	Also      []string `toml:"also"` // other names in the trade; shared, so only read it
	Botanical string   `toml:"botanical"`
	Letters   string   `toml:"letters"` // two capitals that mark its strips, unlike those of any other timber

	CR           float64 `toml:"cr"`            // movement, radial, fraction per point, 0.0001 to 0.02
	CT           float64 `toml:"ct"`            // movement, tangential, likewise
	FSPPct       float64 `toml:"fsp_pct"`       // fibre saturation point, percent, 15 to 40
	DensityKgM3  float64 `toml:"density_kg_m3"` // air-dry at 12 percent, 50 to 1500
	JankaN       float64 `toml:"janka_n"`       // side hardness, newtons, 100 to 30000
	Colour       RGB     `toml:"colour"`        // fresh planed
	ColourOiled  RGB     `toml:"colour_oiled"`  // after clear oil
	ColourChange string  `toml:"colour_change"` // what light and years do to it

	Pores     string `toml:"pores"`      // ring, semi-ring, diffuse or softwood
	OpenPored bool   `toml:"open_pored"` // vessels open to the eye on a planed face
	Cautions
	Note string `toml:"note"`

	Sources map[string]Source `toml:"sources"` // by value, named as in ValueNames; shared, so only read it
}

// Cautions are what to mind of a timber.
type Cautions struct {
	Oily       bool   `toml:"oily"`         // resins or oils that trouble glue
	Sensitise  bool   `toml:"sensitiser"`   // its dust is known to sensitise some people
	Food       string `toml:"food"`         // caution about food contact
	NotForFood bool   `toml:"not_for_food"` // better kept off boards that food touches; Food says why
	Dust       string `toml:"dust"`         // what its dust is known for
	Listed     string `toml:"listed"`       // its place in the CITES appendices, where it has one
}

// fibreSaturationPct is the general value where a timber has none of its own: USDA
// Wood Handbook FPL-GTR-190 (2010), chapter 13, the 30 percent of eq. 13-3.
const fibreSaturationPct = 30

// Moves reports whether both movement coefficients are known.
func (s Species) Moves() bool { return s.CR > 0 && s.CT > 0 }

// FSP is the fibre saturation point in percent of oven-dry mass: the timber's own
// where it is known, else 30.
func (s Species) FSP() float64 {
	if s.FSPPct > 0 {
		return s.FSPPct
	}
	return fibreSaturationPct
}

// Contrast is the colour difference of the two timbers under oil (see the function
// Contrast), which is how neighbours in a finished panel are seen.
func (s Species) Contrast(other Species) float64 {
	return Contrast(s.ColourOiled, other.ColourOiled)
}
