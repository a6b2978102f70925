package planview_test

import (
	"testing"

	"example.com/oddments/tui/screen/screentest"
	"example.com/oddments/tui/screens/planview"
)

// Whatever is done on it, it is drawn within its rectangle.
func TestInside(t *testing.T) {
	screentest.Inside(t, planview.Screen{}, screentest.Demo(t, planview.Screen{}.Keys()...), "plan-run")
}
