package pileview_test

import (
	"testing"

	"example.com/oddments/tui/screen/screentest"
	"example.com/oddments/tui/screens/pileview"
)

// Whatever is done on it, it is drawn within its rectangle.
func TestInside(t *testing.T) {
	d := onPile(t)
	screentest.Inside(t, pileview.Screen{}, d.Ctx)
	screentest.Inside(t, d.Screen, d.Ctx, "pile-search")
	d.Do("g")
	d.Work()
	screentest.Inside(t, d.Screen, d.Ctx, "pile-search")
}
