package findings_test

import (
	"testing"

	"example.com/oddments/tui/screen/screentest"
	"example.com/oddments/tui/screens/findings"
)

// Whatever is done on it, it is drawn within its rectangle.
func TestInside(t *testing.T) {
	screentest.Inside(t, findings.List{}, screentest.Demo(t, findings.List{}.Keys()...))
}
