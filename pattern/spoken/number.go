package spoken

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/oddments/pattern/length"
)

// Digits reports whether s is digits alone.
func Digits(s string) bool { return s != "" && strings.Trim(s, "0123456789") == "" }

// Whole reads at most 9 digits.
func Whole(s string) (int, bool) {
	const mostDigits = 9
	if len(s) > mostDigits || !Digits(s) {
		return 0, false
	}
	n, err := strconv.Atoi(s)
	return n, err == nil
}

// Count reads how many there are of what is called so, from 1 to most.
func Count(what, text string, most int) (int, error) {
	n, ok := Whole(text)
	if !ok || n < 1 || n > most {
		return 0, fmt.Errorf("%s %q: must be a whole number from 1 to %d", what, text, most)
	}
	return n, nil
}

// Decimal reads a number with a decimal point or comma.
func Decimal(s string) (float64, error) {
	return strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64)
}

func digit(b byte) bool { return b >= '0' && b <= '9' }

// AtNumber reports whether a number is read next.
func (l *Line) AtNumber() bool {
	t := l.Text[l.At:]
	return t != "" && (digit(t[0]) || len(t) > 1 && t[0] == '.' && digit(t[1]))
}

// Ended reports whether a number may end here.
func (l *Line) Ended() bool {
	if l.At >= len(l.Text) {
		return true
	}
	r, _ := utf8.DecodeRuneInString(l.Text[l.At:])
	return Parts(r) || l.Times && IsTimes(r)
}

// digitsEnd returns where the digits from at on end.
func (l *Line) digitsEnd(at int) int {
	for at < len(l.Text) && digit(l.Text[at]) {
		at++
	}
	return at
}

// DecimalText takes the decimal number that is read next, as it is typed.
func (l *Line) DecimalText() string {
	from := l.At
	l.At = l.digitsEnd(from)
	if t := l.Text[l.At:]; len(t) > 1 && (t[0] == '.' || t[0] == ',') && digit(t[1]) {
		l.At = l.digitsEnd(l.At + 1)
	}
	return l.Text[from:l.At]
}

// fraction takes the fraction that is read next, if one is.
func (l *Line) fraction() string {
	from := l.At
	over := l.digitsEnd(from)
	if over == from || over+1 >= len(l.Text) || l.Text[over] != '/' || !digit(l.Text[over+1]) {
		return ""
	}
	l.At = l.digitsEnd(over + 1)
	return l.Text[from:l.At]
}

// Measure takes a length as far as it is one and gives it as package length reads it: a
// decimal, a fraction, or both as in 24 1/2, with its unit where there is one. With
// hyphen 24-1/2 is such a number too. What stands behind it is for the caller to see.
func (l *Line) Measure(hyphen bool) string {
	text := l.fraction()
	if text == "" {
		if text = l.DecimalText(); text == "" {
			return ""
		}
		whole := l.At
		if l.Spaces(); hyphen && l.At == whole && strings.HasPrefix(l.Text[l.At:], "-") {
			l.At++
		}
		behind := ""
		if l.At > whole && Digits(text) {
			behind = l.fraction()
		}
		if behind == "" {
			l.At = whole
		} else {
			text += " " + behind
		}
	}
	return text + l.unitBehind()
}

// unitBehind takes the unit behind a number, where there is one.
func (l *Line) unitBehind() string {
	from := l.At
	l.Spaces()
	next := l.At
	for _, unit := range []string{"mm", "cm", "in", "m", `"`, "″"} { // those first that others begin with
		end := next + len(unit)
		if end > len(l.Text) || !strings.EqualFold(l.Text[next:end], unit) {
			continue
		}
		l.At = end
		if r, _ := utf8.DecodeRuneInString(l.Text[end:]); l.Ended() || r == '-' || unicode.IsSpace(r) {
			return " " + unit
		}
	}
	l.At = from
	return ""
}

// LengthText takes what should be a length and gives it as package length reads it, the
// whole word where it is none. 11-1/2 is 11 and a half.
func (l *Line) LengthText() string {
	l.More()
	from := l.At
	text := l.Measure(true)
	if text == "" || !l.Ended() || l.atDecimal() {
		l.At = from
		text = l.token() + l.unitBehind()
	}
	return text
}

// Length takes a length.
func (l *Line) Length() (length.Length, error) { return length.ParseIn(l.LengthText(), l.Unit) }

// A Size is a length that is told with others: what it is called, where it goes, and how
// it is typed.
type Size struct {
	What string
	Into *length.Length
	Text string
}

// Together reads sizes of which one unit behind the last may hold for all.
func (l *Line) Together(of []Size) error {
	texts := make([]string, len(of))
	for i, s := range of {
		texts[i] = s.Text
	}
	meant, err := length.Together(texts, l.Unit)
	if err != nil {
		return err
	}
	for i, s := range of {
		if *s.Into, err = length.ParseIn(meant[i], l.Unit); err != nil {
			return fmt.Errorf("%s: %w", s.What, err)
		}
	}
	return nil
}
