package work

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// ParseAmount reads an amount of money above 0, like 45 or 39.50; a comma may stand
// for the point.
func ParseAmount(text string) (float64, error) {
	plain := strings.Replace(strings.TrimSpace(text), ",", ".", 1)
	amount, err := strconv.ParseFloat(plain, 64)
	if err != nil || strings.Trim(plain, "0123456789.") != "" || !(amount > 0) || math.IsInf(amount, 0) {
		return 0, fmt.Errorf("%q: must be a plain amount above 0, like 45 or 39.50", text)
	}
	return amount, nil
}
