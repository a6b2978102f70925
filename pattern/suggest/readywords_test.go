package suggest_test

import (
	"strings"
	"testing"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop/shoptest"
	"example.com/oddments/pattern/suggest"
)

// A panel of 450 by 20 needs strips of 470 by 22 by the default allowances.
func TestReadyText(t *testing.T) {
	strip := func(long, thick length.Length, n int) rack.Strip {
		return rack.Strip{Species: "oak", Length: long * length.Millimetre, Thickness: thick * length.Millimetre, Width: 25 * length.Millimetre, Quantity: n}
	}
	ask := suggest.Request{Length: 450 * length.Millimetre, Thickness: 20 * length.Millimetre}
	for _, c := range []struct {
		strips []rack.Strip
		want   string
	}{
		{nil, "no ready strip"},
		{[]rack.Strip{strip(469, 22, 2), strip(290, 24, 3)}, "no ready strip on the rack is at least 470 mm long and 22 mm thick; the longest is 469 mm, the thickest 24 mm"},
		{[]rack.Strip{strip(470, 22, 2), strip(470, 21, 3)}, "2 of 5 ready strips on the rack are at least 470 mm long and 22 mm thick, 50 mm wide together"},
	} {
		ask.Rack.Strips = c.strips
		if got := ask.ReadyText(shoptest.Roomy(), length.InMM); !strings.Contains(got, c.want) {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
	ask.Widths = []length.Length{20 * length.Millimetre}
	if got := ask.ReadyText(shoptest.Roomy(), length.InMM); got != "" {
		t.Errorf("with pieces: %q", got)
	}
}
