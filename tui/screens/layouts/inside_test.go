package layouts_test

import (
	"testing"

	"example.com/oddments/tui/screen/screentest"
	"example.com/oddments/tui/screens/layouts"
)

// Whatever is done on it, it is drawn within its rectangle.
func TestInside(t *testing.T) {
	screentest.Inside(t, layouts.Screen{}, screentest.Demo(t, layouts.Screen{}.Keys()...), "lay-ask")
}
