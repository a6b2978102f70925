// Package shop holds a workshop: its kerfs and allowances, what it keeps, its air
// and seasons, its limits and machines.
//
// Lengths are exact, percents run from 0 to 100, moisture is in points (percent of
// oven-dry mass), a step is in micrometres per face, a strain in percent.
package shop

import (
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/moisture"
)

// A Shop is one workshop. Default gives the one to start from.
type Shop struct {
	Units     length.Unit
	Kerf      Kerf
	Allowance Allowance
	Keep      Keep
	Draw      Draw
	Air       moisture.Air // its equilibrium is the moisture at glue-up, where no reading says otherwise
	Dry       moisture.Air // the season that dries the board most
	Humid     moisture.Air
	Limits    Limits
	Machine   Machine
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
	OverLength length.Length // a strip may be cut from a section up to this much longer
}

// Keep is the smallest leftover that goes back to the rack: 0 to 2 m.
type Keep struct{ Length, Width, Thickness length.Length }

// Draw weighs the timber that a plan takes.
type Draw struct {
	UseFirstPct float64 // what a use-first piece counts
	ReturnedPct float64 // what slabs and rips that go back are credited
	OpenedCM3   float64 // added for every piece opened
}

// Limits are the figures above which a glue line asks for care, or asks too much.
type Limits struct {
	StepUM      Limit   // micrometres per face
	StrainPct   Limit   // percent
	MoisturePct Limit   // points between neighbours
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

// Default gives the workshop that a maker without a shop file has. Its allowances
// and limits are habits of the trade (common practice, no source) unless a line
// says otherwise; every one can be changed in the file.
func Default() Shop {
	const mm = length.Millimetre
	return Shop{
		Units: length.InMM,
		Kerf:  Kerf{Rip: 3200 * length.Micrometre, Crosscut: 3200 * length.Micrometre, Resaw: 1200 * length.Micrometre},
		Allowance: Allowance{
			Truing: 2 * mm, Cleaning: 800 * length.Micrometre, Planing: 2 * mm, Jointing: 1 * mm,
			Flattening: 2 * mm, Length: 20 * mm, EndTrim: 10 * mm, OverLength: 40 * mm,
		},
		Keep:  Keep{Length: 250 * mm, Width: 20 * mm, Thickness: 12 * mm},
		Draw:  Draw{UseFirstPct: 60, ReturnedPct: 70, OpenedCM3: 20},
		Air:   moisture.Air{TemperatureC: 18, HumidityPct: 50},
		Dry:   moisture.Air{TemperatureC: 20, HumidityPct: 35},
		Humid: moisture.Air{TemperatureC: 20, HumidityPct: 65},
		Limits: Limits{
			StepUM: Limit{Care: 30, Much: 80}, StrainPct: Limit{Care: 0.3, Much: 0.8},
			MoisturePct: Limit{Care: 1, Much: 2}, Contrast: 4,
		},
		Machine: Machine{
			ThicknesserWidth: 318 * mm, ThicknesserLength: 305 * mm, SurfacerLength: 300 * mm,
			BandsawHeight: 300 * mm, SawDepth: 80 * mm,
		},
	}
}

// Glued gives the panel thickness t before it is flattened.
func (s Shop) Glued(t length.Length) length.Length { return t + s.Allowance.Flattening }

// Sawn gives the thickness a slice is sawn to for flat strips of a panel t thick.
func (s Shop) Sawn(t length.Length) length.Length { return s.Glued(t) + s.Allowance.Planing }
