package length

import (
	"errors"
	"fmt"
	"math/big"
	"strings"
)

// A Unit is the one that a maker reads and types lengths in.
type Unit int

// The units that lengths are shown in.
const (
	InMM Unit = iota
	InInches
)

// String returns the unit as files and flags write it: mm or in.
func (u Unit) String() string {
	switch u {
	case InMM:
		return "mm"
	case InInches:
		return "in"
	default:
		return fmt.Sprintf("unit(%d)", int(u))
	}
}

// ParseUnit reads mm or in.
func ParseUnit(s string) (Unit, error) {
	switch s {
	case "mm":
		return InMM, nil
	case "in":
		return InInches, nil
	default:
		return InMM, fmt.Errorf("unit %q: must be mm or in", s)
	}
}

// longestText bounds what Parse reads: no length of a workshop needs more, and
// big.Rat must not be fed a page of digits.
const longestText = 40

// unitSizes are the units that may stand behind a number, the longest first
// where one ends another.
var unitSizes = [...]struct {
	name string
	size Length
}{
	{"mm", Millimetre},
	{"cm", Centimetre},
	{"in", Inch},
	{"m", Metre},
	{`"`, Inch},
	{"″", Inch},
}

// Parse reads a length: 25, 25 mm, 2.5 cm, 12,5 mm, 3/4 in or 1 1/8". A number
// without a unit is in millimetres. The number is digits with at most one decimal
// point or comma, or a fraction, with whole inches before it or not; it has no
// sign, exponent or underscore. A comma before exactly three digits (1,250 mm) is
// refused, since it may part thousands. What is no whole number of nanometres is
// rounded to the nearest.
func Parse(s string) (Length, error) { return ParseIn(s, InMM) }

// ParseIn is Parse for a field on the screen, where a number without a unit is
// in u.
func ParseIn(s string, u Unit) (Length, error) {
	text := strings.TrimSpace(s)
	if text == "" {
		return 0, errors.New("no length given: write one like 25 mm or 1 1/8 in")
	}
	if len(text) > longestText {
		return 0, fmt.Errorf("length of %d characters: write one like 25 mm or 1 1/8 in", len(text))
	}
	size, number := Millimetre, text
	if u == InInches {
		size = Inch
	}
	if own, unit := unitOf(text); own != 0 {
		size, number = own, strings.TrimRight(strings.TrimSuffix(text, unit), " ")
	}
	if strings.HasPrefix(number, "-") {
		return 0, fmt.Errorf("length %q: must not be below 0", text)
	}
	value, err := parseNumber(number)
	if err != nil {
		return 0, fmt.Errorf("length %q: %w", text, err)
	}
	value.Mul(value, new(big.Rat).SetInt64(int64(size)))
	nm := roundRat(value)
	if !nm.IsInt64() {
		return 0, fmt.Errorf("length %q: longer than any timber", text)
	}
	return Length(nm.Int64()), nil
}

// parseNumber reads a decimal, a fraction, or a whole number and a fraction.
func parseNumber(s string) (*big.Rat, error) {
	whole, fraction, mixed := strings.Cut(s, " ")
	fraction = strings.TrimLeft(fraction, " ")
	switch {
	case mixed:
		w, err := parseWhole(whole)
		if err != nil {
			return nil, err
		}
		f, err := parseFraction(fraction)
		if err != nil {
			return nil, err
		}
		return w.Add(w, f), nil
	case strings.Contains(s, "/"):
		return parseFraction(s)
	default:
		return parseDecimal(s)
	}
}

var errNumber = errors.New("write a number, with mm, cm, m or in behind it, like 25 mm, 12.5 mm or 1 1/8 in")

func parseWhole(s string) (*big.Rat, error) {
	if s == "" || strings.Trim(s, "0123456789") != "" {
		return nil, errNumber
	}
	n, ok := new(big.Int).SetString(s, 10)
	if !ok {
		return nil, errNumber
	}
	return new(big.Rat).SetInt(n), nil
}

func parseFraction(s string) (*big.Rat, error) {
	over, under, ok := strings.Cut(s, "/")
	if !ok {
		return nil, errNumber
	}
	n, err := parseWhole(over)
	if err != nil {
		return nil, err
	}
	d, err := parseWhole(under)
	if err != nil {
		return nil, err
	}
	if d.Sign() == 0 {
		return nil, errors.New("a fraction over 0 is no length")
	}
	return n.Quo(n, d), nil
}

func parseDecimal(s string) (*big.Rat, error) {
	at := strings.IndexAny(s, ".,")
	if at < 0 {
		return parseWhole(s)
	}
	before, after := s[:at], s[at+1:]
	if s[at] == ',' && len(after) == 3 && strings.Trim(after, "0123456789") == "" {
		return nil, fmt.Errorf("the comma before three digits is unclear: write %s%s or %s.%s", before, after, before, after)
	}
	if before == "" {
		before = "0"
	}
	digits, err := parseWhole(before + after)
	if err != nil || after == "" {
		return nil, errNumber
	}
	scale := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(len(after))), nil)
	return digits.Quo(digits, new(big.Rat).SetInt(scale)), nil
}

// roundRat returns the whole number nearest to r, which is not negative; halves go up.
func roundRat(r *big.Rat) *big.Int {
	num := new(big.Int).Lsh(r.Num(), 1)
	num.Add(num, r.Denom())
	return num.Div(num, new(big.Int).Lsh(r.Denom(), 1))
}
