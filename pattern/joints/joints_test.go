package joints

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/shop/shoptest"
)

const mm = length.Millimetre

// An example is a panel with its stretches and ways as worked out by another hand.
type example struct {
	Seed  int
	Panel struct {
		Species   []string
		Widths    []float64
		Thickness float64
		Product   []any
		Count     int
		Length    float64
	}
	Stretches [][][2]float64
	Ask       map[string][]struct {
		ID           string
		Alternatives [][]float64
	}
}

func examples(t *testing.T) (all []example) {
	t.Helper()
	data, err := os.ReadFile("testdata/cases.json")
	if err == nil {
		err = json.Unmarshal(data, &all)
	}
	if err != nil || len(all) < 5 {
		t.Fatalf("%d examples, %v", len(all), err)
	}
	return all
}

func sized(f float64) length.Length { return length.Length(math.Round(f * 1e6)) }

// pattern returns the panel, and a workshop in which a whole strip is as long as in the example.
func (e example) pattern() (pattern.Pattern, shop.Shop) {
	p := pattern.Pattern{Panel: pattern.Panel{Length: sized(e.Panel.Length), Thickness: sized(e.Panel.Thickness)}}
	for i, s := range e.Panel.Species {
		p.Strips = append(p.Strips, pattern.Strip{Species: s, Width: sized(e.Panel.Widths[i])})
	}
	product := pattern.Product{Shape: pattern.ShapeName(e.Panel.Product[0].(string)), Count: e.Panel.Count}
	if along := sized(e.Panel.Product[1].(float64)); product.Shape == outline.Round {
		product.Diameter = along
	} else {
		product.Length, product.Width = along, sized(e.Panel.Product[2].(float64))
	}
	p.Products = []pattern.Product{product}
	sh := shoptest.Roomy()
	sh.Allowance.Length = sized(e.Ask["whole"][0].Alternatives[0][0]) - p.Panel.Length
	return p, sh
}

func TestStretchesOfExamples(t *testing.T) {
	for _, e := range examples(t) {
		p, sh := e.pattern()
		l, err := outline.Lay(p, sh.Allowance.Length, p.Products, nil, sh.Cut)
		if err != nil {
			t.Fatal(err)
		}
		got := make([][][2]float64, len(p.Strips))
		for _, s := range l.Stretches {
			got[s.Strip-1] = append(got[s.Strip-1], [2]float64{s.From.MM(), s.To.MM()})
		}
		for i, want := range e.Stretches {
			if len(got[i]) != len(want) {
				t.Fatalf("seed %d, strip %d: %v, want %v", e.Seed, i+1, got[i], want)
			}
			for k := range want {
				if math.Abs(got[i][k][0]-want[k][0]) > 1e-3 || math.Abs(got[i][k][1]-want[k][1]) > 1e-3 {
					t.Errorf("seed %d, strip %d: %v, want %v", e.Seed, i+1, got[i][k], want[k])
				}
			}
		}
	}
}

// The examples count strips from 0, so that their bricks 0 are our odd ones.
func TestWaysOfExamples(t *testing.T) {
	for _, e := range examples(t) {
		p, sh := e.pattern()
		for name, how := range map[string]How{"whole": AsTheyAre, "whole or short ends": Ends, "bricks 0": Odd, "bricks 1": Even, "any joint": Anywhere} {
			ways, err := Of(p, sh, how)
			if err != nil {
				t.Fatal(err)
			}
			seen := 0
			for _, ask := range e.Ask[name] {
				var want []string
				for _, lengths := range ask.Alternatives {
					slices.Sort(lengths)
					want = append(want, fmt.Sprint(lengths))
				}
				slices.Sort(want)
				for word := range strings.SplitSeq(strings.TrimPrefix(ask.ID, "strips "), ",") {
					var strip int
					fmt.Sscan(word, &strip)
					seen++
					var got []string
					for _, way := range ways[strip-1] {
						var lengths []float64
						for _, l := range way.Lengths() {
							lengths = append(lengths, l.MM())
						}
						got = append(got, fmt.Sprint(lengths))
					}
					if slices.Sort(got); !slices.Equal(got, want) {
						t.Errorf("seed %d, %s, strip %d:\n got %v\nwant %v", e.Seed, name, strip, got, want)
					}
				}
			}
			if seen != len(p.Strips) {
				t.Errorf("seed %d, %s: %d strips of %d are in the example", e.Seed, name, seen, len(p.Strips))
			}
		}
	}
}

// Laid as any of its ways, a strip keeps every product where it lies.
func TestProductsStayWhereTheyLie(t *testing.T) {
	tried := 0
	for _, e := range examples(t) {
		p, sh := e.pattern()
		lay := func(p pattern.Pattern) string {
			l, err := outline.Lay(p, sh.Allowance.Length, p.Products, nil, sh.Cut)
			if err != nil {
				t.Fatal(err)
			}
			var at []length.Length
			for _, c := range l.Placed {
				at = append(at, c.From, c.Side)
			}
			return fmt.Sprint(at)
		}
		before := lay(p)
		for _, how := range []How{Ends, Even, Odd, Anywhere} {
			ways, err := Of(p, sh, how)
			if err != nil {
				t.Fatal(err)
			}
			for n := range 8 {
				q := p
				q.Strips = slices.Clone(p.Strips)
				for i, w := range ways {
					if way := w[n*(i+1)%len(w)]; len(way) > 1 || n > 0 {
						q.Strips[i] = way.Laid(q.Strips[i])
						if !slices.Equal(q.PiecesOf(q.Strips[i], sh.Allowance.Length), way) {
							t.Fatalf("%v laid as %v", way, q.PiecesOf(q.Strips[i], sh.Allowance.Length))
						}
						if err := q.CheckJoints(q.Strips[i]); err != nil {
							t.Fatal(err)
						}
					}
				}
				tried++
				if after := lay(q); after != before {
					t.Fatalf("seed %d, %v: products stood at %s, stand at %s", e.Seed, how, before, after)
				}
			}
		}
	}
	if tried < 100 {
		t.Errorf("only %d panels", tried)
	}
}

// In bricks no two neighbours are parted in one gap: of their joints none lie within the
// stretches' gap of each other.
func TestBricksAreBonded(t *testing.T) {
	for _, e := range examples(t) {
		p, sh := e.pattern()
		for _, how := range []How{Even, Odd} {
			ways, _ := Of(p, sh, how)
			for i := 1; i < len(ways); i++ {
				for _, a := range ways[i-1] {
					for _, b := range ways[i] {
						for _, one := range a.Laid(pattern.Strip{}).Joints.All() {
							for _, other := range b.Laid(pattern.Strip{}).Joints.All() {
								if max(one.From, other.From)-min(one.To, other.To) < 50*mm {
									t.Fatalf("seed %d: strips %d and %d parted at %v and %v", e.Seed, i, i+1, one, other)
								}
							}
						}
					}
				}
			}
		}
	}
}

// A piece that is longer than its run goes towards the datum end as far as there is room.
func TestPieceFor(t *testing.T) {
	cut := shop.Cut{Stop: 10 * mm, Shortest: 150 * mm}
	for _, c := range []struct {
		name        string
		from, to    length.Length
		before      length.Length // where the piece before ends; 0: none
		start, long length.Length
		falls       bool
	}{
		{"just a stop", 100, 260, 0, 100, 160, false},
		{"up to the stop", 103, 260, 0, 100, 160, false},
		{"short", 300, 400, 0, 250, 150, false},
		{"short at the datum end", 20, 60, 0, 0, 150, false},
		{"short behind a piece", 300, 400, 280, 280, 150, false},
		{"behind a piece that touches", 303, 463, 303, 303, 160, false},
		{"behind a piece that overlaps", 300, 400, 301, 301, 150, true},
	} {
		var before Way
		if c.before > 0 {
			before = Way{{Start: 0, Length: c.before * mm}}
		}
		got, ok := pieceFor(c.from*mm, c.to*mm, before, cut)
		if want := (pattern.StripPiece{Start: c.start * mm, Length: c.long * mm}); got != want || ok == c.falls {
			t.Errorf("%s: %v, %v; want %v", c.name, got, ok, want)
		}
	}
}

// What has no products, and what stands in staggered rows, stays whole; a pattern's own
// pieces are its only way where nothing is asked.
func TestWholeStays(t *testing.T) {
	p, sh := examples(t)[0].pattern()
	p.Strips[1].Joints = pattern.JointsOf(pattern.Joint{From: 430 * mm, To: 431 * mm})
	ways, _ := Of(p, sh, AsTheyAre)
	if len(ways[1]) != 1 || len(ways[1][0]) != 2 || ways[1][0][1].Start != 431*mm {
		t.Errorf("as it is: %v", ways[1])
	}
	ways, _ = Of(p, sh, Anywhere)
	if len(ways[1][0]) != 1 {
		t.Errorf("the whole is not first: %v", ways[1])
	}
	p.Products = nil
	if ways, _ = Of(p, sh, Anywhere); len(ways[0]) != 1 {
		t.Errorf("without products: %v", ways[0])
	}
	p.Strips[1].Joints = ""
	for d := 30 * mm; ; d += 5 * mm { // until rounds gain by staggered rows
		p.Products = []pattern.Product{{Shape: outline.Round, Diameter: d, Count: 0}}
		l, err := outline.Lay(p, sh.Allowance.Length, p.Products, nil, sh.Cut)
		if err != nil || len(l.Bands) == 0 {
			t.Fatalf("no rounds stand in staggered rows: %v", err)
		}
		if l.Bands[0].Staggered {
			break
		}
	}
	if ways, _ = Of(p, sh, Anywhere); len(ways[3]) != 1 {
		t.Errorf("in staggered rows: %v", ways[3])
	}
}

// Wherever a strip of some panel lies, each of its ways is undercut by one that Places has for
// its width, or is that, and its longest piece is no shorter than Places says of where it begins.
func TestPlacesAgainstPanels(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 4))
	parted, barred := 0, 0
	for _, e := range examples(t) {
		p, sh := e.pattern()
		for n := range 12 {
			how := []How{Even, Odd, Anywhere}[n%3]
			widths := []length.Length{20 * mm, 30 * mm, 50 * mm}[rng.IntN(2):]
			p.Strips = nil
			for range 4 + rng.IntN(6) {
				p.Strips = append(p.Strips, pattern.Strip{Width: widths[rng.IntN(len(widths))]})
			}
			wide := p.Width()
			places, ok := PlacesOf(p, sh, how, widths, wide-10*mm, wide+10*mm)
			if !ok {
				t.Fatalf("seed %d: places are not known", e.Seed)
			}
			ways, err := Of(p, sh, how)
			if err != nil {
				t.Fatal(err)
			}
			var at length.Length
			for i, s := range p.Strips {
				longest := places.Longest(s.Width, at)[how.Side(i+1)]
				if longest > 0 && longest < ways[i][0][0].Length {
					barred++
				}
				for _, way := range ways[i] {
					if slices.Max(way.Lengths()) < longest {
						t.Fatalf("seed %d, %v, strip %d at %v: %v, but the longest piece is said to be %v at least", e.Seed, how, i+1, at, way, longest)
					}
					if !slices.ContainsFunc(places.Ways(s.Width), func(o Way) bool { return o.within(way) }) {
						t.Fatalf("seed %d, %v, strip %d: %v is not among %v", e.Seed, how, i+1, way, places.Ways(s.Width))
					}
					if len(way) > 1 {
						parted++
					}
				}
				at += s.Width
			}
		}
	}
	if parted < 100 || barred < 50 {
		t.Errorf("only %d ways in pieces, %d strips that need less than their whole", parted, barred)
	}
}
