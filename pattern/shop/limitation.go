package shop

import (
	"fmt"

	"example.com/oddments/pattern/length"
)

// A Limitation is a limit of one of the maker's machines, with what to call it.
type Limitation struct {
	Length length.Length // 0: none
	of     string        // whose it is
	key    string        // of [machine] in the shop file
	usual  length.Length
}

// ThicknesserMost is the widest that the thicknesser takes.
func (m Machine) ThicknesserMost() Limitation {
	return Limitation{m.ThicknesserWidth, "thicknesser", "thicknesser_width", Default().Machine.ThicknesserWidth}
}

// ThicknesserLeast is the shortest that may be fed to the thicknesser.
func (m Machine) ThicknesserLeast() Limitation {
	return Limitation{m.ThicknesserLength, "thicknesser", "thicknesser_length", Default().Machine.ThicknesserLength}
}

// Surfacer is the shortest that may be fed to the surfacer.
func (m Machine) Surfacer() Limitation {
	return Limitation{m.SurfacerLength, "surfacer", "surfacer_length", Default().Machine.SurfacerLength}
}

// Saw is the deepest that the saw cuts.
func (m Machine) Saw() Limitation {
	return Limitation{m.SawDepth, "saw", "saw_depth", Default().Machine.SawDepth}
}

// Words returns the limit as a sentence has it, in u: your thicknesser's 280 mm. One that
// is as Default has it may be nobody's, so it is said how to set it.
func (l Limitation) Words(u length.Unit) string {
	if l.Length != l.usual {
		return fmt.Sprintf("your %s's %s", l.of, l.Length.With(u))
	}
	return fmt.Sprintf("the %s's default %s (set %s from its manual)", l.of, l.Length.With(u), l.key)
}
