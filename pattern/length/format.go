package length

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// smallestFraction is the finest mark of a workshop's inch rule.
const smallestFraction = 64

// String returns l exactly, in millimetres: 25 mm, 9.525 mm.
func (l Length) String() string { return l.exactMM() + " mm" }

// Exact returns l as files keep it, in a form that Parse reads back to the same
// nanometre. A sixty-fourth of an inch that millimetres need three decimals for
// was typed in inches and stays so: 1 1/8 in, not 28.575 mm.
func (l Length) Exact() string {
	const sixtyFourth = Inch / smallestFraction
	if l > 0 && l%sixtyFourth == 0 && l%(10*Micrometre) != 0 {
		return l.fraction() + " in"
	}
	return l.String()
}

// Format returns l for the eye, without its unit: millimetres to a tenth, inches to
// the nearest sixty-fourth.
func (l Length) Format(u Unit) string {
	if u == InInches {
		return l.fraction()
	}
	return Estimate(l.MM(), u)
}

// With is Format with the unit behind it.
func (l Length) With(u Unit) string { return l.Format(u) + " " + u.String() }

// Estimate returns a computed length of mm millimetres for the eye, without its
// unit: to a tenth of a millimetre or a hundredth of an inch.
func Estimate(mm float64, u Unit) string {
	value, decimals := mm, 1
	if u == InInches {
		value, decimals = mm/Inch.MM(), 2
	}
	text := strconv.FormatFloat(value, 'f', decimals, 64)
	text = strings.TrimSuffix(text, "."+strings.Repeat("0", decimals))
	if text == "-0" {
		return "0"
	}
	return text
}

// Change is Estimate with its sign, and its unit behind it: +0.5 mm; in inches to a
// thousandth, since what a season does to a panel is little.
func Change(mm float64, u Unit) string {
	text := Estimate(mm, u)
	if u == InInches {
		text = strconv.FormatFloat(mm/Inch.MM(), 'f', 3, 64)
		if strings.Trim(text, "-0.") == "" {
			text = "0"
		}
	}
	if mm > 0 && text != "0" {
		text = "+" + text
	}
	return text + " " + u.String()
}

// Step returns a step of um micrometres with its scatter pm for the eye: 14 ±17 um, or
// in thousandths of an inch, 0.6 ±0.7 thou.
func Step(um, pm float64, u Unit) string {
	value, scatter, unit := StepValue(um, u), StepValue(pm, u), StepUnit(u)
	if pm == 0 {
		return value + " " + unit
	}
	return value + " ±" + scatter + " " + unit
}

// StepValue returns a step of um micrometres for the eye, without its unit.
func StepValue(um float64, u Unit) string {
	if u == InInches {
		const perThou = float64(Inch/1000) / float64(Micrometre)
		return strconv.FormatFloat(um/perThou, 'f', 1, 64)
	}
	return strconv.FormatFloat(um, 'f', 0, 64)
}

// StepUnit names the unit that steps are shown in: um or thou.
func StepUnit(u Unit) string {
	if u == InInches {
		return "thou"
	}
	return "um"
}

// The volumes that timber is counted in: a cubic decimetre, and a board foot of 144
// cubic inches.
const (
	cm3PerDM3       = 1000
	cm3PerBoardFoot = 144 * 2.54 * 2.54 * 2.54
)

// Volume returns cm3 cubic centimetres of timber for the eye: 1.21 dm3, or 0.51 bd ft
// (true board feet of 144 cubic inches, no nominal sizes).
func Volume(cm3 float64, u Unit) string { return VolumeValue(cm3, u) + " " + VolumeUnit(u) }

// SmallVolume returns a volume of what goes into one panel, which is little in dm3.
func SmallVolume(cm3 float64, u Unit) string {
	if u == InInches {
		return Volume(cm3, u)
	}
	return fmt.Sprintf("%.0f cm3", cm3)
}

// VolumeDown returns cm3 rounded down, for what nothing is less than.
func VolumeDown(cm3 float64, u Unit) string {
	whole := float64(cm3PerDM3)
	if u == InInches {
		whole = cm3PerBoardFoot
	}
	const digits = 100 // as many hundredths as are shown
	return Volume(math.Floor(cm3/whole*digits)/digits*whole, u)
}

// VolumeValue returns cm3 cubic centimetres for the eye, without the unit.
func VolumeValue(cm3 float64, u Unit) string {
	if u == InInches {
		return strconv.FormatFloat(cm3/cm3PerBoardFoot, 'f', 2, 64)
	}
	return strconv.FormatFloat(cm3/cm3PerDM3, 'f', 2, 64)
}

// VolumeUnit names the unit that volumes of timber are shown in: dm3 or bd ft.
func VolumeUnit(u Unit) string {
	if u == InInches {
		return "bd ft"
	}
	return "dm3"
}

func (l Length) exactMM() string {
	sign := ""
	magnitude := uint64(l)
	if l < 0 {
		sign, magnitude = "-", -magnitude
	}
	const perMM = uint64(Millimetre)
	text := fmt.Sprintf("%s%d.%06d", sign, magnitude/perMM, magnitude%perMM)
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}

func (l Length) fraction() string {
	sign := ""
	if l < 0 {
		sign, l = "-", -l
	}
	parts := int64(math.Round(float64(l) / float64(Inch) * smallestFraction))
	whole, over, under := parts/smallestFraction, parts%smallestFraction, int64(smallestFraction)
	for over != 0 && over%2 == 0 {
		over, under = over/2, under/2
	}
	switch {
	case over == 0 && whole == 0:
		return "0"
	case over == 0:
		return fmt.Sprintf("%s%d", sign, whole)
	case whole == 0:
		return fmt.Sprintf("%s%d/%d", sign, over, under)
	default:
		return fmt.Sprintf("%s%d %d/%d", sign, whole, over, under)
	}
}
