package workview_test

import (
	"testing"

	"example.com/oddments/tui/screen/screentest"
	"example.com/oddments/tui/screens/workview"
)

// Whatever is done on it, it is drawn within its rectangle.
func TestInside(t *testing.T) {
	screentest.Inside(t, workview.Screen{}, screentest.Demo(t, workview.Screen{}.Keys()...))
}
