package rack

import (
	"fmt"
	"slices"
	"testing"

	"example.com/oddments/pattern/length"
)

func TestClear(t *testing.T) {
	const mm = length.Millimetre
	fault := func(along bool, from, to length.Length) Fault {
		return Fault{Along: along, From: from * mm, To: to * mm}
	}
	tests := []struct {
		name   string
		faults []Fault
		want   []string // id, from, low, length x width; the piece is 600 x 80
	}{
		{"none", nil, []string{"W3 0 0 600x80"}},
		{"end split", []Fault{fault(false, 0, 40)}, []string{"W3/1 40 0 560x80"}},
		{"knot and band", []Fault{fault(false, 300, 330), fault(true, 30, 45)},
			[]string{"W3/1 0 0 300x30", "W3/2 0 45 300x35", "W3/3 330 0 270x30", "W3/4 330 45 270x35"}},
		{"overlapping, out of order", []Fault{fault(false, 200, 300), fault(false, 100, 250)}, []string{"W3/1 0 0 100x80", "W3/2 300 0 300x80"}},
		{"one within another", []Fault{fault(false, 100, 400), fault(false, 200, 300)}, []string{"W3/1 0 0 100x80", "W3/2 400 0 200x80"}},
		{"side by side", []Fault{fault(false, 100, 200), fault(false, 200, 300)}, []string{"W3/1 0 0 100x80", "W3/2 300 0 300x80"}},
		{"far end", []Fault{fault(false, 560, 600)}, []string{"W3/1 0 0 560x80"}},
		{"beyond the end", []Fault{fault(false, 590, 700)}, []string{"W3/1 0 0 590x80"}},
		{"outside", []Fault{fault(false, 700, 800)}, []string{"W3/1 0 0 600x80"}},
		{"all of it", []Fault{fault(true, 0, 80)}, nil},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			p := Piece{ID: "W3", Species: "oak", Length: 600 * mm, Width: 80 * mm, Thickness: 30 * mm, Quantity: 2, Faults: test.faults}
			before := slices.Clone(p.Faults)
			var got []string
			for _, c := range p.Clear() {
				got = append(got, fmt.Sprintf("%s %d %d %dx%d", c.ID, c.From/mm, c.Low/mm, c.Length/mm, c.Width/mm))
				if c.Thickness != p.Thickness || c.Quantity != 2 || c.Species != "oak" || len(c.Faults) > 0 {
					t.Errorf("rectangle %+v", c)
				}
			}
			if !slices.Equal(got, test.want) {
				t.Errorf("got %q, want %q", got, test.want)
			}
			if !slices.Equal(p.Faults, before) {
				t.Error("the piece's own faults were changed")
			}
		})
	}
}
