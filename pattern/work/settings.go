package work

import (
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
)

// Settings are the maker's own habits. Default gives the ones to start from.
type Settings struct {
	Cut    outline.Cut
	Glue   Glue
	Finish Finish
	Price  Price
}

// Glue is a glue and how it is used.
type Glue struct {
	SpreadGM2    float64       // grams on a square metre of joint, both faces together
	WastePct     float64       // squeezed out and left in the roller
	OpenMinutes  float64       // from the first joint spread to the last clamp
	SecondsJoint float64       // to spread one joint
	ClampReach   length.Length // from the pad, or the caul's outer face, to the first joint
	ClampForceN  float64       // of one clamp
	PressureMPa  float64       // wanted on the joint
	LeastC       float64       // temperature below which the glue makes no film; its sheet says
	Class        int           // EN 204: 1 to 4; 0: not said
	WaitDays     int           // from gluing to planing
}

// Finish is what a board is finished with and dries on.
type Finish struct {
	OilMlM2    float64 // one coat
	Coats      int
	WaxToOil   Ratio         // of a blend, by mass
	OilDensity float64       // g/ml
	RackLength length.Length // of the drying rack; 0: not said
	RackWidth  length.Length
	DryingOil  bool // linseed, tung, walnut or another that hardens
}

// A Ratio is so many parts of wax to so many of oil.
type Ratio struct{ Wax, Oil float64 }

// Price is what a piece costs beside its timber.
type Price struct {
	RateHour     float64 // labour
	MaterialsDM3 float64 // timber, one cubic decimetre as it leaves the rack
	FixedEach    float64 // finish, abrasive, packing of one piece
	Stall        float64 // of a fair: fee, travel, day
	FeePercent   float64 // that a sale costs
}

// Default gives the settings to start from. Each is a habit that the maker sets
// right; SourceOf says where figures come from. The prices stand for nobody's.
func Default() Settings {
	const mm = length.Millimetre
	return Settings{
		Cut: outline.Default(),
		Glue: Glue{
			SpreadGM2: 180, WastePct: 10, OpenMinutes: 12, SecondsJoint: 40, ClampReach: 60 * mm,
			ClampForceN: 3020, PressureMPa: 1.2, LeastC: 8, Class: 3, WaitDays: 3,
		},
		Finish: Finish{
			OilMlM2: 60, Coats: 3, WaxToOil: Ratio{Wax: 1, Oil: 2}, OilDensity: 0.85,
			RackLength: 1200 * mm, RackWidth: 400 * mm,
		},
		Price: Price{RateHour: 20, MaterialsDM3: 5, FixedEach: 2, Stall: 50, FeePercent: 2},
	}
}
