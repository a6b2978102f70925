package export

import (
	"bytes"
	"image/png"
	"math"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/species"
)

// The grain tells how a strip is sawn: only a quarter face has rays, arches lie on a flat one
// alone, lines lean on a rift one and not on a quarter one; and all of it is seen.
func TestGrainBySaw(t *testing.T) {
	const mm = length.Millimetre
	j := jobFor(t, lantern(round(290*mm, 1)))
	rings := []pattern.Rings{pattern.RingsFlat(), pattern.RingsRift(), pattern.RingsQuarter()}
	for i := range j.Work.Pattern.Strips {
		j.Work.Pattern.Strips[i].Rings = rings[i%3]
	}
	w := woodOf(j).grained(j, 0.3)
	for i, k := range w.planks {
		rays, lean, bent := 0, 0.0, 0
		for _, v := range k.veins {
			to := v.curves[len(v.curves)-1].to
			switch {
			case v.shade == shadeRay:
				rays++
			case len(v.curves) == 1:
				bent++
			default:
				lean = max(lean, math.Abs(to.y-v.from.y)/math.Abs(to.x-v.from.x))
			}
		}
		flat, rift, quarter := i%3 == 0, i%3 == 1, i%3 == 2
		if len(k.veins) < 3 || (rays > 0) != quarter || flat != (bent > 3 && lean == 0) || rift && lean < 0.01 || quarter && lean > 0.02 {
			t.Errorf("strip %d, %v: %d veins, %d rays, %d arches, lean %.4f", i+1, rings[i%3], len(k.veins), rays, bent, lean)
		}
		for shade, least := range map[int]float64{shadeEarly: 1.8, shadeLate: 4, shadeRay: 2} {
			if off := species.Contrast(k.shades[shade], k.shades[shadeBase]); off < least {
				t.Errorf("strip %d: shade %d stands %.1f off, at least %.1f", i+1, shade, off, least)
			}
		}
	}
}

// A board of a timber is the same each time, and not all of them are the same.
func TestBoardsDiffer(t *testing.T) {
	j := jobFor(t, lantern(round(290*length.Millimetre, 1)))
	first, again := woodOf(j), woodOf(j)
	seen := map[string]map[species.RGB]bool{}
	for i, k := range first.planks {
		if k.shades != again.planks[i].shades {
			t.Errorf("strip %d is another board the second time", i+1)
		}
		key := j.Work.Pattern.Strips[i].Species
		if seen[key] == nil {
			seen[key] = map[species.RGB]bool{}
		}
		seen[key][k.shades[shadeBase]] = true
	}
	for key, all := range seen {
		if len(all) < 2 {
			t.Errorf("every board of %s is the same", key)
		}
	}
}

// On a table the corner of a picture is the table; on paper it is paper.
func TestTable(t *testing.T) {
	j := jobFor(t, lantern(round(290*length.Millimetre, 1)))
	j.Look.Width = 300
	for on, want := range map[bool]species.RGB{false: paper, true: table} {
		j.Look.Table = on
		img, _, _ := drawn(t, j)
		if got := rgb(img.At(1, 1)); got != want {
			t.Errorf("table %v: the corner is %v, want %v", on, got, want)
		}
		if svg := string(written(t, ".svg", j)); strings.Contains(svg, `fill="`+table.String()+`"`) != on {
			t.Errorf("table %v: the drawing is not so", on)
		}
	}
}

// Several patterns stand side by side at one scale, with text of one height and their names.
func TestSideBySide(t *testing.T) {
	const mm = length.Millimetre
	one, two := jobFor(t, lantern(round(290*mm, 1))), jobFor(t, lantern(round(150*mm, 1)))
	one.Work.Pattern.Name, two.Work.Pattern.Name = "Wide one", "Small one"
	one.Beside = []Job{two, one, two}
	one.Look = Look{Width: 900, Table: true}
	s, err := displayOf(one)
	if err != nil || len(s.pages) != 4 {
		t.Fatalf("%d pages, %v", len(s.pages), err)
	}
	for i, pg := range s.pages {
		if pg.letters != s.pages[0].letters || pg.ground != table {
			t.Errorf("page %d: text %v high on %v", i+1, pg.letters, pg.ground)
		}
		for k, other := range s.pages[:i] {
			apart := pg.at.x >= other.at.x+other.wide-1e-9 || pg.at.y >= other.at.y+other.high-1e-9
			if !apart || pg.at.x+pg.wide > s.wide+1e-9 || pg.at.y+pg.high > s.high+1e-9 {
				t.Errorf("pages %d and %d lie over each other", k+1, i+1)
			}
		}
	}
	if s.pages[3].at.x != 0 || s.pages[1].at.y != 0 {
		t.Errorf("the second lies at %v, the fourth at %v", s.pages[1].at, s.pages[3].at)
	}
	svg := string(written(t, ".svg", one))
	if strings.Count(svg, `id="oawood"`) != 1 || strings.Count(svg, `id="odwood"`) != 1 || !strings.Contains(svg, "<title id=\"ot\">Wide one, Small one, Wide one, Small one</title>") {
		t.Error("the drawing has not the wood of each, or not the names")
	}
	c, err := png.DecodeConfig(bytes.NewReader(written(t, ".png", one)))
	if err != nil || c.Width != 900 || math.Abs(float64(c.Height)-900*s.high/s.wide) > 1 {
		t.Errorf("%d x %d pixels, %v", c.Width, c.Height, err)
	}
	two.Look.Product = 7
	one.Beside, one.Look = []Job{two}, two.Look
	if _, err := displayOf(one); err == nil {
		t.Error("a product that is not there is drawn")
	}
}
