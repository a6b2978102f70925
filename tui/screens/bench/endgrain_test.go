package bench

import (
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/tui/screen/screentest"
)

// A glue line of an end-grain board has a strain and no step.
func TestEndGrainSaysStrain(t *testing.T) {
	ctx := screentest.Demo(t, Screen{}.Keys()...)
	says := func() string { return screentest.Drive(t, Screen{}, ctx).Draw(80, 20) }
	if s := says(); !strings.Contains(s, "1|2 EL step ") {
		t.Fatalf("no step on a panel:\n%s", s)
	}
	ctx.State.Pattern.Seconds = []pattern.Second{{Lay: pattern.LayEnd, Bar: 20 * length.Millimetre, Bars: 6, Angle: 90}}
	if s := says(); strings.Contains(s, "EL step ") || !strings.Contains(s, "1|2 EL strain ") {
		t.Errorf("a board of end grain:\n%s", s)
	}
}
