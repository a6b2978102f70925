package outline

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// The scan reads the rules literally, in millimetres and floats, and tries one centre
// after another. It shares no code with the exact laying.

const (
	scanStep  = 0.25 // mm
	tolerance = 1e-5 // mm: what rounding to nanometres and floats may differ by
)

type scanPanel struct {
	p         pattern.Pattern
	allowance float64
	avoids    []pattern.Avoid
	cut       Cut
}

// slack returns by how much a product centred at x, y keeps the rules; below 0 it
// breaks one.
func (s scanPanel) slack(p pattern.Product, x, y float64) float64 {
	along, across := ShapeOf(p).Size()
	halfX, halfY := along.MM()/2, across.MM()/2
	width, end := 0.0, s.cut.EndMargin.MM()
	slack := math.Inf(1)
	for _, strip := range s.p.Strips {
		low, high := width, width+strip.Width.MM()
		width = high
		d := math.Max(0, math.Max(low-y, y-high))
		if d >= halfY-1e-9 {
			continue
		}
		c := halfX
		switch p.Shape {
		case Round:
			c = math.Sqrt(halfX*halfX - d*d)
		case Oval:
			c = halfX * math.Sqrt(1-d*d/(halfY*halfY))
		}
		a, long := strip.Start.MM(), strip.Length.MM()
		if strip.Length == 0 {
			long = s.p.Panel.Length.MM() + s.allowance
		}
		slack = min(slack, x-(a+c+end), a+long-c-end-x)
	}
	slack = min(slack, y-halfY-s.cut.SideMargin.MM(), width-s.cut.SideMargin.MM()-y-halfY)
	for _, a := range s.avoids {
		dx, dy := math.Abs(a.Along.MM()-x), math.Abs(a.Across.MM()-y)
		apart := math.Hypot(dx, dy) - halfX
		switch p.Shape {
		case Round:
		case Oval:
			apart = fromEllipse(dx, dy, halfX, halfY)
		default:
			apart = math.Hypot(max(0, dx-halfX), max(0, dy-halfY))
			if dx < halfX && dy < halfY {
				apart = -min(halfX-dx, halfY-dy) - a.Radius.MM() // inside
			}
		}
		slack = min(slack, apart-a.Radius.MM())
	}
	return slack
}

func randomCase(rng *rand.Rand) (scanPanel, []pattern.Product) {
	s := scanPanel{cut: habits(), allowance: 20}
	s.p.Panel.Length = length.Length(300+rng.IntN(600)) * mm
	even := rng.IntN(3) == 0
	for range 3 + rng.IntN(12) {
		strip := pattern.Strip{Width: length.Length(8e6 + rng.Int64N(40e6))}
		if !even && rng.IntN(2) == 0 {
			strip.Start = length.Length(rng.Int64N(80e6))
			strip.Length = s.p.Panel.Length - length.Length(rng.Int64N(120e6))
		}
		s.p.Strips = append(s.p.Strips, strip)
	}
	for range rng.IntN(4) {
		s.avoids = append(s.avoids, pattern.Avoid{
			Along:  length.Length(rng.Int64N(int64(s.p.Panel.Length))),
			Across: length.Length(rng.Int64N(int64(s.p.Width()))),
			Radius: length.Length(rng.Int64N(12e6)),
		})
	}
	products := make([]pattern.Product, 1+rng.IntN(3))
	for i := range products {
		p := pattern.Product{Shape: Shapes()[rng.IntN(4)].Name(), Count: 1 + rng.IntN(5)}
		size := func() length.Length { return length.Length(30e6 + rng.Int64N(150e6)) }
		if p.Shape == Round {
			p.Diameter = size()
		} else {
			p.Length, p.Width = size(), size()
		}
		switch rng.IntN(3) {
		case 0:
			p.Centre.Strip = 1 + rng.IntN(len(s.p.Strips))
		case 1:
			p.Centre.Joint = 1 + rng.IntN(len(s.p.Strips)-1)
		}
		if i == len(products)-1 && rng.IntN(2) == 0 {
			p.Count = 0
		}
		products[i] = p
	}
	return s, products
}

// TestAgainstScan holds every layout to the rules read literally: each copy is
// allowed, apart from its neighbours, at the first place that the scan finds in its
// row, and slides to the last one.
func TestAgainstScan(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 2))
	placed, missing, staggered, slid := 0, 0, 0, 0
	for n := range 250 {
		s, products := randomCase(rng)
		layout, err := Lay(s.p, 20*mm, products, s.avoids, s.cut)
		if err != nil {
			t.Fatal(err)
		}
		scanLayout(t, s, products, layout)
		if t.Failed() {
			t.Fatalf("case %d: %+v\n%+v\n%+v", n, s, products, layout)
		}
		placed += len(layout.Placed)
		missing += len(layout.NotPlaced)
		for _, b := range layout.Bands {
			if b.Staggered {
				staggered++
			}
		}
		for _, p := range layout.Placed {
			if p.Slide > 0 {
				slid++
			}
		}
	}
	if placed < 500 || missing < 50 || staggered < 3 || slid < 300 {
		t.Errorf("the cases are too tame: %d placed, %d missing, %d staggered, %d slide", placed, missing, staggered, slid)
	}
}

func scanLayout(t *testing.T, s scanPanel, products []pattern.Product, layout Layout) {
	t.Helper()
	counts := make([]int, len(products))
	for i, at := range layout.Placed {
		product := products[at.Product-1]
		counts[at.Product-1]++
		if slack := s.slack(product, at.Along.MM(), at.Across.MM()); slack < -tolerance {
			t.Errorf("product %d copy %d oversteps by %v mm", at.Product, at.Copy, -slack)
		}
		if at.Copy != counts[at.Product-1] {
			t.Errorf("product %d: copy %d comes %d.", at.Product, at.Copy, counts[at.Product-1])
		}
		for _, other := range layout.Placed[:i] {
			scanApart(t, s, products, at, other)
		}
	}
	for _, missing := range layout.NotPlaced {
		counts[missing.Product-1] += missing.Copies
	}
	for i, product := range products {
		if product.Count > 0 && counts[i] != product.Count {
			t.Errorf("product %d: %d placed and missing, %d asked for", i+1, counts[i], product.Count)
		}
	}
	for i, b := range layout.Bands {
		scanBand(t, s, products[b.Product-1], layout, i)
	}
}

func scanApart(t *testing.T, s scanPanel, products []pattern.Product, a, b Placed) {
	t.Helper()
	pa, pb, gap := products[a.Product-1], products[b.Product-1], s.cut.Gap.MM()
	dx, dy := math.Abs(a.Along.MM()-b.Along.MM()), math.Abs(a.Across.MM()-b.Across.MM())
	aAlong, aAcross := ShapeOf(pa).Size()
	bAlong, bAcross := ShapeOf(pb).Size()
	between := max(dx-(aAlong+bAlong).MM()/2, dy-(aAcross+bAcross).MM()/2)
	if a.Product == b.Product && pa.Shape == Round {
		between = math.Hypot(dx, dy) - pa.Diameter.MM()
	}
	if a.Product == b.Product && pa.Shape == Oval {
		between = fromEllipse(dx, dy, pa.Length.MM(), pa.Width.MM()) // one as a point, the other twice as large
	}
	if a.Product != b.Product {
		between = dx - (aAlong+bAlong).MM()/2 // a crosscut parts the bands
	}
	if between < gap-tolerance {
		t.Errorf("product %d copy %d and product %d copy %d are %v mm apart", a.Product, a.Copy, b.Product, b.Copy, between)
	}
}

// scanBand scans each row of a straight band from both ends.
func scanBand(t *testing.T, s scanPanel, product pattern.Product, layout Layout, n int) {
	t.Helper()
	band := layout.Bands[n]
	along, _ := ShapeOf(product).Size()
	half, pitch := along.MM()/2, (along + s.cut.Gap).MM()
	from, to := 0.0, s.p.Panel.Length.MM()+s.allowance+s.cut.EndMargin.MM()
	if n > 0 {
		from = (layout.Bands[n-1].End + s.cut.Gap).MM() + half
	}
	if n+1 < len(layout.Bands) {
		to = (layout.Bands[n+1].From - s.cut.Gap).MM() - half
	}
	inRow := map[int][]Placed{}
	last := -1.0
	for _, p := range layout.Placed {
		if p.Product == band.Product {
			inRow[p.Row] = append(inRow[p.Row], p)
			if p.Along.MM() < last-tolerance {
				t.Errorf("copy %d lies before copy %d", p.Copy, p.Copy-1)
			}
			last = p.Along.MM()
		}
	}
	if band.Staggered {
		return // rows depend on one another; what they hold was checked
	}
	for _, row := range inRow {
		bound := from
		for _, p := range row {
			if x, ok := s.first(product, bound, to, p.Across.MM()); ok && x < p.Along.MM()-tolerance {
				t.Errorf("copy %d stands at %v, but may at %v", p.Copy, p.Along, x)
			}
			bound = p.Along.MM() + pitch
		}
		// A row goes on while copies are wanted.
		total := len(layout.Placed)
		if x, ok := s.first(product, bound, math.Inf(1), row[0].Across.MM()); ok && product.Count == 0 && total < MaxCopies {
			t.Errorf("row %d would hold another at %v", row[0].Row, x)
		}
		limit := to
		for i := len(row) - 1; i >= 0; i-- {
			p := row[i]
			at := (p.Along + p.Slide).MM()
			if slack := s.slack(product, at, p.Across.MM()); slack < -tolerance || at > limit+tolerance {
				t.Errorf("copy %d may not slide by %v", p.Copy, p.Slide)
			}
			for x := at + scanStep; x < limit; x += scanStep {
				if s.slack(product, x, p.Across.MM()) > tolerance {
					t.Errorf("copy %d slides by %v to %v, but may stand at %v", p.Copy, p.Slide, at, x)
					break
				}
			}
			limit = at - pitch
		}
	}
}

// first scans for a place clearly within the rules.
func (s scanPanel) first(p pattern.Product, from, to, y float64) (float64, bool) {
	end := min(to, s.p.Panel.Length.MM()+200)
	for x := from + tolerance; x <= end; x += scanStep {
		if s.slack(p, x, y) > tolerance {
			return x, true
		}
	}
	return 0, false
}

// A wider gap or margin, or a circle more, never places more copies.
func TestTighterNeverHoldsMore(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 5))
	for range 200 {
		s, products := randomCase(rng)
		one := products[len(products)-1:]
		one[0].Count, one[0].Centre = 0, pattern.Centre{}
		count := func(cut Cut, avoids []pattern.Avoid) int {
			layout, err := Lay(s.p, 20*mm, one, avoids, cut)
			if err != nil {
				t.Fatal(err)
			}
			return len(layout.Placed)
		}
		was := count(s.cut, nil)
		ends := s.cut
		ends.EndMargin += 3 * mm
		if now := count(ends, nil); now > was {
			t.Fatalf("%d with a wider end margin, %d before", now, was)
		}
		if now := count(s.cut, s.avoids); now > was {
			t.Fatalf("%d with circles to avoid, %d without", now, was)
		}
	}
}

// TooShort is exact: so much longer holds the copies asked for, a nanometre less
// does not.
func TestTooShortIsExact(t *testing.T) {
	rng := rand.New(rand.NewPCG(2, 8))
	tried := 0
	for range 300 {
		s, products := randomCase(rng)
		one := products[:1]
		one[0].Count = 1 + rng.IntN(9)
		s.p.Strips[0].Start++ // ragged: straight rows only
		longer := func(by length.Length) Layout {
			p := s.p
			p.Strips = append([]pattern.Strip(nil), p.Strips...)
			for i := range p.Strips {
				p.Strips[i].Length = s.p.StripLength(s.p.Strips[i], 20*mm) + by
			}
			layout, err := Lay(p, 20*mm, one, s.avoids, s.cut)
			if err != nil {
				t.Fatal(err)
			}
			return layout
		}
		missing := longer(0).NotPlaced
		if len(missing) == 0 || missing[0].TooShort == 0 {
			continue
		}
		tried++
		by := missing[0].TooShort
		if len(longer(by).NotPlaced) != 0 || len(longer(by-1).NotPlaced) != 1 {
			t.Fatalf("%v longer: %+v; a nanometre less: %+v", by, longer(by).NotPlaced, longer(by-1).NotPlaced)
		}
	}
	if tried < 50 {
		t.Errorf("only %d cases were too short", tried)
	}
}

// Budget: 200 products on a panel of 60 strips under 5 ms.
func BenchmarkLay(b *testing.B) {
	p := panel(4000*mm, 600*mm, 60)
	for i := range p.Strips {
		p.Strips[i].Start = length.Length(i%7) * mm
	}
	products := make([]pattern.Product, 200)
	for i := range products {
		products[i] = pattern.Product{Shape: Round, Diameter: 60 * mm, Count: 1}
	}
	many := []pattern.Product{{Shape: Round, Diameter: 80 * mm, Count: 200}}
	avoids := []pattern.Avoid{knot(300*mm, 200*mm, 8*mm), knot(1300*mm, 400*mm, 8*mm)}
	for _, c := range []struct {
		name     string
		products []pattern.Product
	}{{"200 listed", products}, {"200 copies", many}} {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				if _, err := Lay(p, 20*mm, c.products, avoids, habits()); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
