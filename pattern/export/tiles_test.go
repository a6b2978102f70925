package export

import (
	"bytes"
	"image/png"
	"math"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/second/secondtest"
	"example.com/oddments/pattern/shop/shoptest"
	"example.com/oddments/pattern/work"
	"example.com/oddments/species"
)

// boardJob returns the job of a worked second glue-up, with products.
func boardJob(t *testing.T, name string, products ...pattern.Product) Job {
	t.Helper()
	cases, _, err := secondtest.Stored()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range cases {
		if c.Name != name {
			continue
		}
		p, err := secondtest.Read(c.TOML)
		if err != nil {
			t.Fatal(err)
		}
		p.Products = products
		r := movement.New(species.Builtin(), shoptest.Roomy())
		made, err := work.JobOf(r, p, 1)
		if err != nil {
			t.Fatal(err)
		}
		return Job{Stem: name, Work: made, Physics: r}
	}
	t.Fatalf("there is no %s", name)
	return Job{}
}

func exported(t *testing.T, ending string, j Job) []byte {
	t.Helper()
	var out bytes.Buffer
	for _, e := range Exports() {
		if e.Ending == ending {
			if err := e.Write(&out, j); err != nil {
				t.Fatal(err)
			}
		}
	}
	return out.Bytes()
}

// The picture has the board's size, and every cell with its own grain: what of it is
// walnut is as much of the picture as of the board.
func TestPicturesOfBoards(t *testing.T) {
	for _, name := range []string{"stripes", "chequer", "brick", "chevron-45", "three-glue-ups", "diamonds"} {
		j := boardJob(t, name)
		size := j.Work.Board.Up().Size
		svg := string(exported(t, ".svg", j))
		if want := "the finished board " + size.Length.With(length.InMM) + " x " + size.Width.With(length.InMM); !strings.Contains(svg, want) {
			t.Errorf("%s: no %q", name, want)
		}
		img, err := png.Decode(bytes.NewReader(exported(t, ".png", j)))
		if err != nil {
			t.Fatal(err)
		}
		walnut, _ := species.Builtin().Get("black_walnut")
		dark, light := 0, 0
		b := img.Bounds()
		for y := b.Dy() / 5; y < b.Dy()*3/5; y++ { // within the board
			for x := b.Dx() / 8; x < b.Dx()*7/8; x++ {
				r, g, bl, _ := img.At(x, y).RGBA()
				off := math.Abs(float64(r>>8)-float64(walnut.ColourOiled.R)) + math.Abs(float64(g>>8)-float64(walnut.ColourOiled.G)) + math.Abs(float64(bl>>8)-float64(walnut.ColourOiled.B))
				if off < 60 {
					dark++
				} else {
					light++
				}
			}
		}
		share := 0.0
		for i, s := range j.Work.Pattern.Strips {
			if s.Species == "black_walnut" {
				share += j.Work.Board.AreaMM2(i) / (size.Length.MM() * size.Width.MM())
			}
		}
		if got := float64(dark) / float64(dark+light); math.Abs(got-share) > 0.08 {
			t.Errorf("%s: %.2f of the picture is walnut, %.2f of the board", name, got, share)
		}
	}
}

// End grain has rings in every cell, alike in all cells of a strip but for how they lie, and
// nothing of a cell's grain lies outside of it.
func TestRingsOfEndGrain(t *testing.T) {
	for _, name := range []string{"chequer", "chevron-45", "three-glue-ups"} {
		j := boardJob(t, name)
		w := boardOf(j, j.Work.Board.Up()).grained(j, 0.5)
		for i, tile := range w.tiles {
			if len(tile.veins) == 0 {
				least, most := w.cells.Cells[i].Box()
				if min(most.X-least.X, most.Y-least.Y) > 5*length.Millimetre {
					t.Fatalf("%s: cell %d has no grain", name, i+1)
				}
			}
			for _, v := range tile.veins {
				for _, p := range []point{v.from, v.curves[0].to} {
					for k, a := range tile.points {
						b := tile.points[(k+1)%len(tile.points)]
						if (b.x-a.x)*(p.y-a.y)-(b.y-a.y)*(p.x-a.x) < -1e-6 {
							t.Fatalf("%s: grain of cell %d at %v", name, i+1, p)
						}
					}
				}
			}
		}
	}
}

// The sheet has a board a glue-up, its bars numbered, and where they are cut; products are
// marked from the board's own datum.
func TestSheetOfABoard(t *testing.T) {
	j := boardJob(t, "three-glue-ups", pattern.Product{Shape: outline.Round, Diameter: 80 * length.Millimetre, Count: 1})
	html := string(exported(t, ".html", j))
	for _, want := range []string{
		"Saw bars, glue again", "The board of second glue-up 1 from above", "The board of second glue-up 2 from above",
		"near side of each bar, along edge A", "0, 44.2, 88.4,", "bars 1, 3, 5, 7 as cut; bars 2, 4, 6, 8 end for end",
		"Measure along from the board&#39;s datum end", "never feed end grain to a thicknesser",
	} {
		if !strings.Contains(strings.ReplaceAll(html, "board's datum", "board&#39;s datum"), want) {
			t.Errorf("the sheet lacks %q", want)
		}
	}
}
