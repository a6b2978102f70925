package export

import (
	"bytes"
	"regexp"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// pieced is the lantern with two rounds whose strip 2 is parted between them, 30 apart, and
// whose strip 5 is parted where pieces touch.
func pieced(products ...pattern.Product) pattern.Pattern {
	p := lantern(products...)
	p.Strips[1].Joints = pattern.JointsOf(pattern.Joint{From: 290 * mm, To: 320 * mm})
	p.Strips[4].Joints = pattern.JointsOf(pattern.Joint{From: 304 * mm, To: 304 * mm})
	return p
}

// In the picture with marks an opening is as wide as it is, and shows what lies under the
// panel; touching pieces are parted by a line, and both have their names. A customer's
// picture shows the products alone.
func TestJointsInPictures(t *testing.T) {
	j := jobFor(t, pieced(round(290*mm, 2)))
	if n := len(j.Work.Layout.Placed); n != 2 {
		t.Fatalf("%d rounds are placed", n)
	}
	j.Look.Marks = true
	_, text := elements(t, written(t, ".svg", j))
	for _, name := range []string{"2a", "2b", "5a", "5b", "the glued panel; dashed"} {
		if !strings.Contains(text, name) {
			t.Errorf("no %q in %q", name, text)
		}
	}
	if strings.Contains(text, "1a") || strings.Contains(text, "2c") {
		t.Errorf("strips in one piece have letters: %q", text)
	}
	pg, err := pageOf(j, 0)
	if err != nil {
		t.Fatal(err)
	}
	open, lines := 0, 0
	for _, o := range pg.ops {
		switch o := o.(type) {
		case fillOp:
			if a, b := o.points[0], o.points[2]; o.colour == pg.ground && b.y-a.y == j.Work.Pattern.Strips[1].Width.MM() {
				open++
				if wide := b.x - a.x; wide < 29.999 || wide > 30.001 {
					t.Errorf("30 mm are drawn %v wide", wide)
				}
			}
		case strokeOp:
			if len(o.points) == 2 && o.points[0].x == o.points[1].x && o.colour == ink && o.wide < pg.letters/10 {
				lines++
			}
		}
	}
	if open != 1 || lines < 4 {
		t.Errorf("%d openings, %d ends of pieces", open, lines)
	}

	img, pg, perMM := drawn(t, j)
	at := firstWood(t, pg)
	o := pg.ops[at].(woodOp)
	y := (o.at.y + (pg.wood.planks[1].y0+pg.wood.planks[1].y1)/2) * perMM
	for x, ground := range map[float64]bool{305: true, 270: false, 420: false} {
		if got := rgb(img.At(int((o.at.x+x)*perMM), int(y))); (got == pg.ground) != ground {
			t.Errorf("at %v mm strip 2 is %v, the ground %v", x, got, pg.ground)
		}
	}

	j.Look.Marks = false
	_, text = elements(t, written(t, ".svg", j))
	if strings.Contains(text, "the glued panel") || strings.Contains(text, "2a") || !strings.Contains(text, "round 290 mm") {
		t.Errorf("the customer's picture: %q", text)
	}
	whole := jobFor(t, pieced())
	if svg := written(t, ".svg", whole); !bytes.Contains(svg, []byte("the finished panel")) || bytes.Contains(svg, []byte("2a")) {
		t.Errorf("a panel that is kept whole is not shown")
	}
}

// The sheet draws the pieces, and lists them in the order of laying with the stops: one line
// a length, the longest first.
func TestPiecesOnTheSheet(t *testing.T) {
	j := planned(t, pieced(round(290*mm, 2)), 1)
	text := words(t, written(t, ".html", j))
	order := regexp.MustCompile(`Pieces in the order of laying, datum end first piece start length from 2a .* 2b .* 5a .* 5b `)
	if !order.MatchString(text) {
		t.Errorf("no table of pieces:\n%s", text)
	}
	for _, p := range j.Work.Pattern.PiecesOf(j.Work.Pattern.Strips[1], 20*mm) {
		if !strings.Contains(text, p.Start.With(length.InMM)+" "+p.Length.With(length.InMM)) {
			t.Errorf("no piece from %v, %v long", p.Start, p.Length)
		}
	}
	stops := regexp.MustCompile(`stop at ([0-9.]+) mm strips? ([0-9ab, ]+)`).FindAllStringSubmatch(text, -1)
	seen := map[string]bool{}
	for _, s := range stops {
		if seen[s[1]] {
			t.Errorf("the stop is set twice to %s", s[1])
		}
		seen[s[1]] = true
	}
	if len(stops) < 4 {
		t.Errorf("%d stops of pieces of 4 lengths: %v", len(stops), stops)
	}
	if text = words(t, written(t, ".html", planned(t, lantern(round(290*mm, 2)), 1))); strings.Contains(text, "in the order of laying") {
		t.Error("strips in one piece are listed as pieces")
	}
}
