package length

import (
	"fmt"
	"math"
)

// What a workshop that reads inches reads beside them, by the international yard and
// pound (1959): a foot of 0.3048 m, a pound of 0.45359237 kg, a pound-force of
// 4.4482216152605 N.
const (
	metresPerFoot  = 0.3048
	kgPerPound     = 0.45359237
	newtonsPerLbf  = 4.4482216152605
	cm3PerCubicIn  = 2.54 * 2.54 * 2.54
	newtonsPerKilo = 1000
)

// Area returns square metres for the eye, or square feet.
func Area(m2 float64, u Unit) string {
	if u == InInches {
		return fmt.Sprintf("%.2f sq ft", m2/(metresPerFoot*metresPerFoot))
	}
	return fmt.Sprintf("%.3f m2", m2)
}

// Run returns metres that something runs for the eye, or feet.
func Run(m float64, u Unit) string {
	if u == InInches {
		return fmt.Sprintf("%.1f ft", m/metresPerFoot)
	}
	return fmt.Sprintf("%.1f m", m)
}

// Mass returns kilograms for the eye, or pounds.
func Mass(kg float64, u Unit) string {
	if u == InInches {
		return fmt.Sprintf("%.2f lb", kg/kgPerPound)
	}
	return fmt.Sprintf("%.2f kg", kg)
}

// Force returns newtons for the eye to two figures or so, in N or kN, or in pounds-force.
func Force(newtons float64, u Unit) string {
	const coarse = 10
	switch {
	case u == InInches:
		return fmt.Sprintf("%.0f lbf", math.Round(newtons/newtonsPerLbf/coarse)*coarse)
	case newtons < newtonsPerKilo:
		return fmt.Sprintf("%.0f N", math.Round(newtons/coarse)*coarse)
	default:
		return fmt.Sprintf("%.1f kN", newtons/newtonsPerKilo)
	}
}

// Chips returns cubic centimetres of little volumes for the eye, or cubic inches.
func Chips(cm3 float64, u Unit) string {
	if u == InInches {
		return fmt.Sprintf("%.2f cu in", cm3/cm3PerCubicIn)
	}
	return fmt.Sprintf("%.1f cm3", cm3)
}
