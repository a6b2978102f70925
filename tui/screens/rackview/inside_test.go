package rackview_test

import (
	"testing"

	"example.com/oddments/tui/screen/screentest"
	"example.com/oddments/tui/screens/rackview"
)

// Whatever is done on it, it is drawn within its rectangle.
func TestInside(t *testing.T) {
	screentest.Inside(t, rackview.Screen{}, screentest.Demo(t, rackview.Screen{}.Keys()...))
}
