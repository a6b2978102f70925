package suggest

import (
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

func TestAgainst(t *testing.T) {
	of := func(species string, width length.Length, rings pattern.Rings) Placed {
		return Placed{Species: species, Width: width * mm, Rings: rings}
	}
	flat, quarter := pattern.RingsFlat(), pattern.RingsQuarter()
	was := Layout{Strips: []Placed{of("european_larch", 20, flat), of("hard_maple", 25, flat), of("european_larch", 20, flat)}}
	for _, c := range []struct {
		now  []Placed
		want string
	}{
		{[]Placed{was.Strips[1], was.Strips[0], was.Strips[2]}, "the same strips in another order"},
		{[]Placed{of("european_larch", 25, flat), was.Strips[1], of("european_larch", 20, quarter)},
			"the timbers are the same; 1 strip of another width"},
		{[]Placed{was.Strips[0], of("sapele", 25, flat), was.Strips[2]}, "1 strip of another timber"},
		{[]Placed{of("european_larch", 25, flat), of("sapele", 25, flat), was.Strips[2]},
			"1 strip of another timber, 1 of another width"},
		{[]Placed{was.Strips[0], was.Strips[1]}, "2 strips in place of 3; 1 unlike in all, 1 of these by timber"},
	} {
		if got := Against(was, Layout{Strips: c.now}); got != c.want {
			t.Errorf("%q, must be %q", got, c.want)
		}
	}
}
