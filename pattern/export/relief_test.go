package export

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/relief"
)

// leaning returns a panel of rift strips, of some of which the bark side is known.
func leaning() pattern.Pattern {
	p := lantern()
	for i := range p.Strips {
		p.Strips[i].Rings = pattern.RingsRift()
		if i%4 > 0 {
			p.Strips[i].Bark = pattern.Bark{Right: []int8{-1, 1}[i%2], Up: 1}
		}
	}
	return p
}

// The section is drawn in both seasons, to scale across, and each face as far off its place as
// the relief says, by the factor that stands in words; the faces never cross.
func TestSectionIsTheRelief(t *testing.T) {
	j := jobFor(t, leaning())
	s := sectionOf(j)
	l := &layout{job: j, size: 5, margin: 5}
	l.wide = 2*5 + s.WidthMM()/2 // half as large
	l.sections(s)
	n := 0
	for _, o := range l.ops {
		fill, ok := o.(fillOp)
		if !ok {
			continue
		}
		season, strip := s.seasons[n/len(s.Strips)], n%len(s.Strips)
		n++
		if fill.colour != s.colours[strip] {
			t.Errorf("strip %d has another colour than on the panel", strip+1)
		}
		half := len(fill.points) / 2
		var middle float64 // of the thickness, on the page
		for i, at := range fill.points {
			x := min(s.WidthMM(), max(0, 2*(at.x-5)))
			face, sign := relief.Top, -1.0
			if i >= half {
				face, sign = relief.Under, 1
			}
			um, _ := season.At(face, x)
			place := at.y - sign*(s.ThicknessMM/2+um*float64(s.factor)/1000)/2
			if i == 0 {
				middle = place
			}
			if math.Abs(place-middle) > 1e-9 {
				t.Fatalf("%v strip %d point %d is %g off its place", season.Season, strip+1, i, place-middle)
			}
			if other := fill.points[len(fill.points)-1-i]; i < half && other.y <= at.y {
				t.Fatalf("%v strip %d: the faces cross", season.Season, strip+1)
			}
		}
	}
	if n != 2*len(s.Strips) {
		t.Errorf("%d strips are drawn", n)
	}
}

// The sheet shows the section with what it is and what is read off it, as the domain says;
// where there is none it says why. Its drawings lie on white paper.
func TestReliefOnTheSheet(t *testing.T) {
	j := jobFor(t, leaning())
	page := written(t, ".html", j)
	text, s := words(t, page), sectionOf(j)
	for _, want := range []string{"heights magnified", s.seasons[0].Gaps(j.Unit), s.seasons[1].Cup(j.Unit), s.Unseen(), relief.GiveOrTake} {
		if !strings.Contains(text, want) {
			t.Errorf("the sheet lacks %q", want)
		}
	}
	if !bytes.Contains(page, []byte(`id="rt"`)) || bytes.Contains(page, []byte(`fill="#000000"`)) {
		t.Error("the section is not drawn, or drawings do not lie on white paper")
	}
	p := leaning()
	p.Strips[3].Species = "plum"
	page = written(t, ".html", jobFor(t, p))
	if text := words(t, page); !strings.Contains(text, "No relief: no figure for plum") || bytes.Contains(page, []byte(`id="rt"`)) {
		t.Error("a timber without figures has a section, or nothing is said of it")
	}
}

// The customer's picture has the section only where it is asked for.
func TestReliefIsAskedFor(t *testing.T) {
	j := jobFor(t, leaning())
	plain := written(t, ".svg", j)
	j.Look.Relief, j.Unit = true, length.InMM
	asked := written(t, ".svg", j)
	if bytes.Contains(plain, []byte("humid season")) || !bytes.Contains(asked, []byte("humid season")) || !bytes.Contains(asked, []byte("heights magnified")) {
		t.Error("the section is not where it is asked for alone")
	}
	before, _, _ := drawn(t, jobFor(t, leaning()))
	after, pg, _ := drawn(t, j)
	if after.Bounds().Dy() <= before.Bounds().Dy() || !strings.Contains(pg.says, "heights magnified") {
		t.Error("the PNG has no room for the section, or does not say it")
	}
}
