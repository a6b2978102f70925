package shop

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// A Ratio is so many parts of wax to so many of oil, by mass; Oil is above 0. The
// zero value says that there is no blend.
type Ratio struct{ Wax, Oil float64 }

// maxParts bounds either side of a ratio that is read.
const maxParts = 1000

var ratioText = regexp.MustCompile(`^([0-9]+(?:[.,][0-9]+)?) ?: ?([0-9]+(?:[.,][0-9]+)?)$`)

// ParseRatio reads wax to oil as in 1:2 or 1:3.5; 0:1 is oil alone.
func ParseRatio(s string) (Ratio, error) {
	parts := ratioText.FindStringSubmatch(s)
	if parts == nil {
		return Ratio{}, fmt.Errorf("wax to oil %q: must be like 1:2", s)
	}
	wax, okWax := ratioPart(parts[1])
	oil, okOil := ratioPart(parts[2])
	if !okWax || !okOil || oil == 0 {
		return Ratio{}, fmt.Errorf("wax to oil %q: must be parts of 0 to %d, the oil above 0", s, maxParts)
	}
	return Ratio{Wax: wax, Oil: oil}, nil
}

func ratioPart(s string) (float64, bool) {
	x, err := strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64)
	return x, err == nil && x <= maxParts
}

// String returns the ratio as ParseRatio reads it: 1:2.
func (r Ratio) String() string {
	return strconv.FormatFloat(r.Wax, 'f', -1, 64) + ":" + strconv.FormatFloat(r.Oil, 'f', -1, 64)
}

// Blend parts so many grams into wax and oil.
func (r Ratio) Blend(grams float64) (wax, oil float64) {
	whole := r.Wax + r.Oil
	if whole <= 0 {
		return 0, 0
	}
	return grams * r.Wax / whole, grams * r.Oil / whole
}
