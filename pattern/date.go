package pattern

import (
	"fmt"
	"strings"
	"time"
)

// DateOf returns the day of t, where t is.
func DateOf(t time.Time) Date {
	year, month, day := t.Date()
	return Date{Year: year, Month: month, Day: day}
}

// ParseDate reads a day as 2026-11-02.
func ParseDate(s string) (Date, error) {
	day, err := time.Parse(time.DateOnly, strings.TrimSpace(s))
	if err != nil {
		return Date{}, fmt.Errorf("day %q: must be a day of the calendar, like 2026-11-02", strings.TrimSpace(s))
	}
	return DateOf(day), nil
}

// Valid reports whether d is a day of the calendar that a file can keep.
func (d Date) Valid() bool {
	again, err := ParseDate(d.String())
	return err == nil && again == d
}
