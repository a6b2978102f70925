package cutout_test

import (
	"testing"

	"example.com/oddments/tui/screen/screentest"
	"example.com/oddments/tui/screens/cutout"
)

// Whatever is done on it, it is drawn within its rectangle.
func TestInside(t *testing.T) {
	screentest.Inside(t, cutout.Screen{}, screentest.Demo(t, cutout.Screen{}.Keys()...))
}
