package check_test

import (
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/shop/shoptest"
	"example.com/oddments/species"
)

const mm = length.Millimetre

func physics() movement.Physics { return movement.New(species.Builtin(), shoptest.Roomy()) }

// panel is 450 mm long, 22 thick and glued at 8 percent.
func panel(strips ...pattern.Strip) pattern.Pattern {
	return pattern.Pattern{
		Panel:  pattern.Panel{Length: 450 * mm, Thickness: 22 * mm, Moisture: pattern.Read(8)},
		Strips: strips,
	}
}

// strip is flat-sawn.
func strip(timber string, width length.Length) pattern.Strip {
	return pattern.Strip{Species: timber, Width: width, Rings: pattern.RingsFlat()}
}

func quarter(timber string, width length.Length) pattern.Strip {
	return pattern.Strip{Species: timber, Width: width, Rings: pattern.RingsQuarter()}
}

// leaning is a rift strip of hard maple, 25 mm wide, whose bark lies above on that side; 0:
// nobody has looked.
func leaning(right int8) pattern.Strip {
	s := pattern.Strip{Species: "hard_maple", Width: 25 * mm, Rings: pattern.RingsRift()}
	if right != 0 {
		s.Bark = pattern.Bark{Right: right, Up: 1}
	}
	return s
}

// by returns the findings of one rule.
func by(r check.Report, rule string) []check.Finding {
	var out []check.Finding
	for _, f := range r.Findings {
		if f.Rule == rule {
			out = append(out, f)
		}
	}
	return out
}

// figures returns those of every glue line, from 1; the first is none.
func figures(r movement.Physics, p pattern.Pattern) []movement.Figure {
	prepared := r.Panel(p)
	out := make([]movement.Figure, prepared.Len())
	for n := 1; n < len(out); n++ {
		out[n], _ = prepared.Figure(n)
	}
	return out
}

func equal[T comparable](t *testing.T, what string, got, want T) {
	t.Helper()
	if got != want {
		t.Errorf("%s:\n got %v\nwant %v", what, got, want)
	}
}
