package relief_test

import (
	"testing"

	"example.com/oddments/tui/screen/screentest"
	"example.com/oddments/tui/screens/relief"
)

// Whatever is done on it, it is drawn within its rectangle: what was worked out, as a drawing
// and in numbers, and nothing yet.
func TestInside(t *testing.T) {
	ctx := screentest.Demo(t, relief.Screen{}.Keys()...)
	d := screentest.Drive(t, relief.Screen{}, ctx)
	d.Work()
	screentest.Inside(t, d.Screen, ctx, "relief-wetter")
	d.Do("n")
	screentest.Inside(t, d.Screen, ctx, "relief-wetter", "relief-numbers")
}
