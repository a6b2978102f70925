package pattern

import (
	"testing"
	"time"
)

func TestDates(t *testing.T) {
	d, err := ParseDate(" 2024-02-29 ")
	if err != nil || d != (Date{2024, time.February, 29}) || !d.Valid() || d.String() != "2024-02-29" {
		t.Errorf("%v, %v", d, err)
	}
	for _, bad := range []string{"", "2026-02-29", "2026-13-01", "2.11.2026", "2026-11-2", "12026-11-02"} {
		if d, err := ParseDate(bad); err == nil {
			t.Errorf("%q is read as %v", bad, d)
		}
	}
	for _, bad := range []Date{{}, {2026, time.February, 29}, {-1, time.May, 1}, {10000, time.May, 1}, {2026, 13, 1}} {
		if bad.Valid() {
			t.Errorf("%v is no day", bad)
		}
	}
	if d := DateOf(time.Date(2026, 11, 25, 23, 59, 0, 0, time.UTC)); d.String() != "2026-11-25" {
		t.Errorf("%v", d)
	}
}
