// Package moisture computes the moisture content that wood settles to in an air.
//
// Moisture content is in percent of oven-dry mass, temperature in degrees Celsius,
// relative humidity in percent. The equation is that of the USDA Wood Handbook
// (FPL-GTR-190, 2010), number 4-5, with its Celsius constants (Simpson 1998,
// FPL-RN-0268). It stands for wood in general: a species may lie a point or more
// beside it, and wood that dries settles higher than wood that takes moisture up.
package moisture

// An Air is a climate that wood lies in for weeks. The zero value is freezing and
// bone dry; a real one comes from the workshop's file.
type Air struct {
	TemperatureC float64 // -10 to 60
	HumidityPct  float64 // 0 to 100
}

// EquilibriumPct returns the moisture content in percent that wood settles to in a.
func (a Air) EquilibriumPct() float64 {
	t, h := a.TemperatureC, a.HumidityPct/100
	// Wood Handbook eq. 4-5, Celsius.
	w := 349 + 1.29*t + 0.0135*t*t
	k := 0.805 + 0.000736*t - 0.00000273*t*t
	k1 := 6.27 - 0.00938*t - 0.000303*t*t
	k2 := 1.91 + 0.0407*t - 0.000293*t*t
	kh := k * h
	one := k1 * kh
	two := k1 * k2 * kh * kh
	return 1800 / w * (kh/(1-kh) + (one+2*two)/(1+one+two))
}
