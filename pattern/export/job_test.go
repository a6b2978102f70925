package export

import (
	"bytes"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/shop/shoptest"
	"example.com/oddments/pattern/work"
	"example.com/oddments/species"
)

const mm = length.Millimetre

// lantern returns a panel of 13 strips with two rounds and, where there is room, more.
func lantern(products ...pattern.Product) pattern.Pattern {
	p := pattern.Pattern{Name: "Lantern pair", Notes: "for the Gorsebank stall", Panel: pattern.Panel{Length: 740 * mm, Thickness: 22 * mm}}
	for i := range 13 {
		s := pattern.Strip{Species: "hard_maple", Width: 23 * mm, Rings: pattern.RingsFlat()}
		switch {
		case i%3 == 1:
			s.Species, s.Rings = "black_walnut", pattern.RingsQuarter()
		case i%3 == 2:
			s.Species, s.Rings, s.Turned = "black_cherry", pattern.Rings{}, true
		}
		p.Strips = append(p.Strips, s)
	}
	p.Products = products
	return p
}

func round(diameter length.Length, count int) pattern.Product {
	return pattern.Product{Shape: outline.Round, Diameter: diameter, Count: count, Bevel: 8 * mm}
}

// jobFor returns the job of making a pattern once in the default workshop.
func jobFor(t testing.TB, p pattern.Pattern) Job {
	t.Helper()
	s := shoptest.Roomy()
	made, err := work.JobOf(movement.New(species.Builtin(), s), p, 1)
	if err != nil {
		t.Fatal(err)
	}
	return Job{Stem: "lantern-pair", Work: made, Physics: movement.New(species.Builtin(), s)}
}

// written returns a job in a form.
func written(t testing.TB, ending string, j Job) []byte {
	t.Helper()
	for _, e := range Exports() {
		if e.Ending != ending {
			continue
		}
		var b bytes.Buffer
		if err := e.Write(&b, j); err != nil {
			t.Fatalf("%s: %v", ending, err)
		}
		return b.Bytes()
	}
	t.Fatalf("there is no form %s", ending)
	return nil
}

// hostile returns a pattern whose texts try to be more than text.
func hostile() pattern.Pattern {
	p := lantern(round(290*mm, 2))
	p.Name = `</title><script>alert("1")</script> & ' ]]> <!-- ` + "\u202egnp.exe\u202c \u200f"
	p.Notes = `<img src=x onerror=alert(1)> "quoted" 'single' ]]> ` + "\x1b[31mred\x00 " + string(bytes.Repeat([]byte("long"), 200))
	p.Made = []pattern.Made{{Date: pattern.Date{Year: 2026, Month: 11, Day: 2}, Copies: 2, Note: `</td></table><script>x()</script>`}}
	return p
}
