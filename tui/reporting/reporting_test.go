package reporting_test

import (
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/species"
	"example.com/oddments/tui/reporting"
)

// Only strips that lean against each other are waited for; another check ends the wait.
func TestAgain(t *testing.T) {
	r := movement.New(species.Builtin(), shop.Default())
	p := pattern.Pattern{Panel: pattern.Panel{Length: 450 * length.Millimetre, Thickness: 22 * length.Millimetre, Moisture: pattern.Read(8)}}
	for i := range 2 {
		p.Strips = append(p.Strips, pattern.Strip{Species: "hard_maple", Width: 25 * length.Millimetre, Rings: pattern.RingsRift(), Bark: pattern.Bark{Right: int8(2*i - 1), Up: 1}})
	}
	soon, first, cmd := reporting.Late{}.Again(r, p, length.InMM)
	done, ok := cmd().(reporting.Done)
	if !ok || !first.Ended(done) || len(done.Result.Findings) != len(soon.Findings)+1 {
		t.Errorf("late %+v after %+v", done.Result.Findings, soon.Findings)
	}
	_, second, _ := first.Again(r, p, length.InMM)
	if second.Ended(done) {
		t.Error("what was worked out before counts for the next state")
	}
	p.Strips[1].Bark.Right = -1
	if _, _, cmd := second.Again(r, p, length.InMM); cmd != nil {
		t.Error("strips that lean one way are waited for")
	}
}
