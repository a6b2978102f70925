// Package shop holds a workshop: its kerfs and allowances, what it keeps, its air
// and seasons, its limits and machines, and its habits of cutting out, gluing,
// finishing and selling.
//
// Lengths are exact, percents run from 0 to 100, moisture is in points (percent of
// oven-dry mass), a step is in micrometres per face, a strain in percent, money in
// the maker's own currency.
package shop

import (
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/moisture"
	"example.com/oddments/pattern/second"
)

// A Shop is one workshop. Default gives the one to start from.
type Shop struct {
	Units     length.Unit
	Kerf      Kerf
	Allowance Allowance
	Keep      Keep
	Standing  Standing
	Draw      Draw
	Air       moisture.Air // its equilibrium is the moisture at glue-up, where no reading says otherwise
	Dry       moisture.Air // the season that dries the board most
	Humid     moisture.Air
	Limits    Limits
	Machine   Machine
	Cut       Cut
	Glue      Glue
	Finish    Finish
	Price     Price
	Maker     Maker
}

// Kerf is what each kind of cut turns to dust: 0 to 1 m.
type Kerf struct{ Rip, Crosscut, Resaw length.Length }

// Allowance is what each step takes off, or leaves on: 0 to 1 m.
type Allowance struct {
	Truing     length.Length // off thickness and off width, once per piece that is not planed
	Cleaning   length.Length // off the sawn face before the next slice is resawn
	Planing    length.Length // slice thickness minus planed thickness
	Jointing   length.Length // ripped width minus finished width of a flat strip, both edges together
	Flattening length.Length // planed thickness minus finished panel thickness
	Length     length.Length // strip length at glue-up minus finished panel length
	EndTrim    length.Length // squared off each end of a piece
	Second     length.Length // a second glue-up's bar, or panel laid flat, minus the flattened board
	OverLength length.Length // a strip may be cut from a section up to this much longer
}

// Keep is the smallest leftover that goes back to the rack: 0 to 2 m.
type Keep struct{ Length, Width, Thickness length.Length }

// Standing is the strip widths that the maker rips as a rule, in the order said: above 0
// to 2 m each, and 0 where there are no more.
type Standing [StandingMost]length.Length

// StandingMost is how many standing widths there may be: each more makes the search for
// layouts longer.
const StandingMost = 8

// Widths returns those that there are.
func (s Standing) Widths() []length.Length {
	var out []length.Length
	for _, w := range s {
		if w > 0 {
			out = append(out, w)
		}
	}
	return out
}

// Draw weighs the timber that a plan takes.
type Draw struct {
	UseFirstPct float64 // what a use-first piece counts
	ReturnedPct float64 // what slabs and rips that go back are credited
	TailsPct    float64 // what tails that go back are credited
	OpenedCM3   float64 // added for every piece opened
	JointCM3    float64 // added for every joint of a strip made of several pieces
}

// Limits are the figures above which a glue line asks for care, or asks too much.
type Limits struct {
	StepUM      Limit   // micrometres per face
	StrainPct   Limit   // percent
	MoisturePct Limit   // points between neighbours
	RowPct      Limit   // percent that a row of an end-grain board is stretched
	Contrast    float64 // CIEDE2000 below which neighbours read as one
}

// A Limit is a pair of figures: above the first take care, above the second too much.
type Limit struct{ Care, Much float64 }

// Machine holds the limits of the maker's own machines, from their manuals. 0 says
// that a limit does not apply.
type Machine struct {
	ThicknesserWidth  length.Length
	ThicknesserLength length.Length // shortest it may be fed
	SurfacerLength    length.Length // shortest it may be fed
	BandsawHeight     length.Length
	SawDepth          length.Length
}

// Cut says how products are set out on a panel and routed out of it: 0 to 1 m.
type Cut struct {
	EndMargin  length.Length // from a strip's end
	SideMargin length.Length // from the panel's edges
	Gap        length.Length // between products: the cutter and the web that holds
	Cutter     length.Length // the router cutter's diameter
	Bush       length.Length // the guide bush's outside diameter; 0: none
	Pass       length.Length // depth of one pass; 0: not said
	Base       length.Length // how far the last pass goes into the sacrificial board
	Stop       length.Length // pieces of a strip are cut to multiples of it, so that stops are set seldom
	Shortest   length.Length // piece of a strip that is cut
}

// MostClamps is more than any workshop has.
const MostClamps = 10_000

// Glue is the glue and how it is spread and clamped.
type Glue struct {
	SpreadGM2    float64       // grams on a square metre of joint, both faces together
	WastePct     float64       // squeezed out and left in the roller
	SizePct      float64       // more of it on a joint that cuts the grain
	OpenMinutes  float64       // from the first joint spread to the last clamp
	SecondsJoint float64       // to spread one joint
	ClampReach   length.Length // from the pad, or the caul's outer face, to the first joint; 0: not said
	ClampForceN  float64       // newtons, of one clamp; 0: not said
	PressureMPa  float64       // megapascals wanted on the joint
	LeastC       float64       // °C below which the glue makes no film; its sheet says
	Class        int           // of durability, EN 204: 1 to 4; 0: not said
	WaitDays     int           // from gluing to planing
	Clamps       int           // at hand; 0: not said
	// Handling is what a glue-up takes besides spreading, in minutes: laid out dry, clamped, wiped.
	Handling     float64
	EveningHours float64 // at the bench; 0: not said
}

// Finish is what a piece is finished with and dries on.
type Finish struct {
	OilMlM2    float64 // one coat
	Coats      int
	WaxToOil   Ratio         // of a blend, by mass
	OilDensity float64       // g/ml
	EndGrain   float64       // times the oil that long grain drinks
	RackLength length.Length // of the drying rack; 0: not said
	RackWidth  length.Length
}

// Price is what timber, work and selling cost.
type Price struct {
	RateHour     float64 // labour
	MaterialsDM3 float64 // timber, one cubic decimetre as it leaves the rack
	FixedEach    float64 // finish, abrasive, packing of one piece
	Stall        float64 // of a fair: fee, travel, day
	FeePercent   float64 // that a sale costs
}

// Maker is who stands on the label of what is sold, and what every label says.
type Maker struct {
	Name       string
	Address    string // postal
	Electronic string // mail or web address
	Glue       string // as the label names it
	Finish     string
}

// Default returns the workshop that a maker without a shop file has. Its allowances
// and limits are habits of the trade (common practice, no source) unless a line
// says otherwise; every one can be changed in the file.
func Default() Shop {
	const mm = length.Millimetre
	return Shop{
		Units: length.InMM,
		Kerf:  Kerf{Rip: 3200 * length.Micrometre, Crosscut: 3200 * length.Micrometre, Resaw: 1200 * length.Micrometre},
		Allowance: Allowance{
			Truing: 1 * mm, Cleaning: 500 * length.Micrometre, Planing: 1 * mm, Jointing: 1 * mm,
			Flattening: 1 * mm, Length: 5 * mm, EndTrim: 5 * mm, Second: 3 * mm, OverLength: 40 * mm,
		},
		Keep:  Keep{Length: 250 * mm, Width: 20 * mm, Thickness: 12 * mm},
		Draw:  Draw{UseFirstPct: 60, ReturnedPct: 70, TailsPct: 100, OpenedCM3: 20, JointCM3: 20},
		Air:   moisture.Air{TemperatureC: 18, HumidityPct: 50},
		Dry:   moisture.Air{TemperatureC: 20, HumidityPct: 35},
		Humid: moisture.Air{TemperatureC: 20, HumidityPct: 65},
		Limits: Limits{
			StepUM: Limit{Care: 30, Much: 80}, StrainPct: Limit{Care: 0.3, Much: 0.8},
			// Reasoned, no source: equal halves that differ by 0.2 and 0.4 percent bear half each.
			MoisturePct: Limit{Care: 1, Much: 2}, RowPct: Limit{Care: 0.1, Much: 0.2}, Contrast: 4,
		},
		Machine: Machine{
			ThicknesserWidth: 318 * mm, ThicknesserLength: 305 * mm, SurfacerLength: 300 * mm,
			BandsawHeight: 300 * mm, SawDepth: 80 * mm,
		},
		// The pass is the eighth of an inch of tool manuals.
		Cut: Cut{EndMargin: 5 * mm, SideMargin: 2 * mm, Gap: 16 * mm, Cutter: 12 * mm, Bush: 30 * mm, Pass: 3 * mm, Base: 1 * mm,
			Stop: 10 * mm, Shortest: 150 * mm},
		// Spread and open time of a common cross-linking PVA; package work names its sources.
		Glue: Glue{SpreadGM2: 180, WastePct: 10, SizePct: 100, OpenMinutes: 12, SecondsJoint: 40, ClampReach: 60 * mm,
			ClampForceN: 3020, PressureMPa: 1.2, LeastC: 8, Class: 3, WaitDays: 3, Handling: 20},
		Finish: Finish{
			OilMlM2: 60, Coats: 3, WaxToOil: Ratio{Wax: 1, Oil: 2}, OilDensity: 0.85, EndGrain: 3,
			RackLength: 1200 * mm, RackWidth: 400 * mm,
		},
		// The prices stand for nobody's.
		Price: Price{RateHour: 20, MaterialsDM3: 5, FixedEach: 2, Stall: 50, FeePercent: 2},
	}
}

// Glued returns the panel thickness t before it is flattened.
func (s Shop) Glued(t length.Length) length.Length { return t + s.Allowance.Flattening }

// Takes returns what second glue-ups take off.
func (s Shop) Takes() second.Takes {
	return second.Takes{Crosscut: s.Kerf.Crosscut, Second: s.Allowance.Second, Length: s.Allowance.Length}
}

// Sawn returns the thickness a slice is sawn to for flat strips of a panel t thick.
func (s Shop) Sawn(t length.Length) length.Length { return s.Glued(t) + s.Allowance.Planing }
