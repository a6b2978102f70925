package ask

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// TypedLength returns a length as a field starts with it: as it is shown, where that reads
// back to the same, else exactly; nothing for none.
func TypedLength(l length.Length, u length.Unit) string {
	if l == 0 {
		return ""
	}
	text := l.Format(u)
	if again, err := length.ParseIn(text, u); err == nil && again == l {
		return text
	}
	return l.Exact()
}

// Length reads a length in the maker's unit.
func Length(u length.Unit) func(string) (length.Length, string, error) {
	return func(s string) (length.Length, string, error) {
		l, err := length.ParseIn(s, u)
		if err != nil {
			return 0, "", err
		}
		return l, l.With(u) + " (" + inOther(l, u) + ")", nil
	}
}

// inOther returns a length in the other unit, about where that is rounded.
func inOther(l length.Length, u length.Unit) string {
	other := length.InInches - u
	if back, err := length.ParseIn(l.Format(other), other); err == nil && back == l {
		return l.With(other)
	}
	return "about " + l.With(other)
}

// LengthOr reads a length, or nothing, which means what instead says.
func LengthOr(instead string, u length.Unit) func(string) (length.Length, string, error) {
	return func(s string) (length.Length, string, error) {
		if strings.TrimSpace(s) == "" {
			return 0, instead, nil
		}
		return Length(u)(s)
	}
}

// TypedReading returns a reading as a field starts with it; nothing for none.
func TypedReading(r pattern.Reading) string {
	if !r.Known {
		return ""
	}
	return strconv.FormatFloat(r.Percent, 'f', -1, 64)
}

// ReadingOr reads a moisture in percent, or nothing, which means what instead says.
func ReadingOr(instead string) func(string) (pattern.Reading, string, error) {
	return func(s string) (pattern.Reading, string, error) {
		text := strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(s), "%"))
		if text == "" {
			return pattern.Reading{}, instead, nil
		}
		percent, err := strconv.ParseFloat(strings.Replace(text, ",", ".", 1), 64)
		if err != nil || !(percent >= 0 && percent <= pattern.MaxMoisture) {
			return pattern.Reading{}, "", fmt.Errorf("moisture %q: must be 0 to %g percent", text, pattern.MaxMoisture)
		}
		return pattern.Read(percent), fmt.Sprintf("%g %%", percent), nil
	}
}

// Text reads a text.
func Text(s string) (string, string, error) { return strings.TrimSpace(s), "", nil }

// Name reads the name of a pattern, which is not to be empty.
func Name(s string) (string, string, error) {
	name := strings.TrimSpace(s)
	if name == "" {
		return "", "", errors.New("give the pattern a name")
	}
	return name, "", nil
}
