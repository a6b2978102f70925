package made_test

import (
	"testing"

	"example.com/oddments/tui/screen/screentest"
	"example.com/oddments/tui/screens/made"
)

// Whatever is done on it, it is drawn within its rectangle.
func TestInside(t *testing.T) {
	screentest.Inside(t, made.Screen{}, screentest.Demo(t, made.Screen{}.Keys()...))
}
