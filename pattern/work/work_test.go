package work

import (
	"math"
	"math/rand/v2"
	"reflect"
	"testing"
	"time"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/shop/shoptest"
	"example.com/oddments/species"
)

func physics() movement.Physics { return physicsOf(shoptest.Roomy()) }

func physicsOf(s shop.Shop) movement.Physics { return movement.New(species.Builtin(), s) }

// job returns two rounds of 290 on a panel of 13 strips, made four times.
func job(t testing.TB, products ...pattern.Product) Job {
	t.Helper()
	p := pattern.Pattern{Panel: pattern.Panel{Length: 740 * mm, Thickness: 22 * mm, Moisture: pattern.Read(8)}}
	for i := range 13 {
		key := []string{"hard_maple", "black_walnut", "black_cherry"}[i%3]
		p.Strips = append(p.Strips, pattern.Strip{Species: key, Width: 23 * mm, Rings: pattern.RingsFlat()})
	}
	j := Job{Pattern: p, Copies: 4, Products: products}
	layout, err := outline.Lay(p, 20*mm, products, nil, shop.Default().Cut)
	if err != nil {
		t.Fatal(err)
	}
	j.Layout = layout
	return j
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}

func lantern() pattern.Product {
	return pattern.Product{Shape: outline.Round, Diameter: 290 * mm, Count: 2, Bevel: 8 * mm}
}

func TestFiguresByHand(t *testing.T) {
	j := job(t, lantern())
	j.Minutes = 600
	f := Of(physics(), j)
	// 12 joints of 760 x 24, four panels.
	near(t, "joints, m2", f.Glue.AreaM2, 12*0.760*0.024*4, 1e-9)
	near(t, "glue, g", f.Glue.Grams, 12*0.760*0.024*4*180*1.1, 1e-6)
	near(t, "minutes", f.Glue.Minutes, 8, 1e-9)
	near(t, "force", f.Glue.ForceN, 1.2*760*24, 1e-6)
	near(t, "by force: 21888 N by 3020", f.Glue.ClampsByForce.Value, 8, 0)
	near(t, "by reach: 760 by 120", f.Glue.ClampsByReach.Value, 7, 0)
	near(t, "clamps", f.Glue.Clamps.Value, 8, 0)
	if f.Glue.Parts != 1 || f.Glue.GlueUps != known(1) {
		t.Errorf("%d parts, %v goes", f.Glue.Parts, f.Glue.GlueUps)
	}
	p := f.Products[0]
	if p.PerPanel != 2 || p.Template.Along != 272*mm || p.Passes != 8 || p.EdgeLeft != 14*mm ||
		p.Stands.Along != 274*mm || p.Top.Along != 290*mm || p.Blank.Along != 295*mm {
		t.Errorf("%+v", p)
	}
	near(t, "path: 302 pi, 8 times", p.PathM, math.Pi*302*8/1000, 1e-9)
	near(t, "face", p.BevelFaceMM, 8*math.Sqrt2, 1e-9)
	near(t, "removed", p.RemovedCM3, math.Pi*(145*64-512.0/3)/1000, 1e-9)
	near(t, "one disc", p.FinishM2, (2*math.Pi*145*145+math.Pi*290*22)/1e6, 1e-9)
	near(t, "oil: 8 discs, 3 coats of 60", f.Finish.OilMl, 8*p.FinishM2*180, 1e-9)
	near(t, "the same oil weighed", f.Finish.OilG, f.Finish.OilMl*0.85, 1e-9)
	near(t, "wax at 1 to 2", f.Finish.WaxG.Value, f.Finish.OilG/2, 1e-9)
	// 1200 x 400 takes four discs of 290: two rounds of three evenings.
	near(t, "evenings", f.Finish.Evenings.Value, 6, 0)
	rough := 0.0
	for range 13 {
		rough += (23 + 1 + 3.2) * (22 + 2 + 2 + 1.2) * 760 / 1e6
	}
	near(t, "timber", f.Price.Materials, rough*5*4, 1e-6)
	near(t, "labour: 10 h", f.Price.Labour.Value, 200, 1e-9)
	each := (rough*5*4 + 200 + 8*2) / 8
	near(t, "each", f.Price.Each.Value, each, 1e-6)
	near(t, "at cost with the fee", f.Price.AtCost.Value, each/0.98, 1e-6)
	// Sold at cost a piece earns its labour, 25: two pay the stall's 50.
	near(t, "break-even", f.Price.BreakEven.Value, 2, 0)
}

// The card adds up: what all pieces cost is the sum of its lines.
func TestCardAddsUp(t *testing.T) {
	j := job(t, lantern())
	j.Minutes = 311
	p := Of(physics(), j).Price
	near(t, "sum", p.Each.Value*float64(p.Pieces), p.Materials+p.Labour.Value+p.Fixed, 1e-9)
}

func TestRaggedJointsGlueWhereTheyMeet(t *testing.T) {
	j := job(t)
	j.Pattern.Strips = j.Pattern.Strips[:3]
	j.Pattern.Strips[0].Start, j.Pattern.Strips[0].Length = 100*mm, 300*mm // 100 to 400
	j.Pattern.Strips[2].Start, j.Pattern.Strips[2].Length = 700*mm, 100*mm // 700 to 760 beside 0 to 760
	f := Of(physics(), j).Glue
	near(t, "area", f.AreaM2, (0.300+0.060)*0.024*4, 1e-9)
	near(t, "the longest is clamped", f.ForceN, 1.2*300*24, 1e-6)
}

func TestParts(t *testing.T) {
	strip := func(w length.Length) pattern.Strip { return pattern.Strip{Width: w * mm} }
	for _, c := range []struct {
		name   string
		widths []length.Length
		limit  length.Length
		parts  int
	}{
		{"fits", []length.Length{100, 100, 118}, 318, 1},
		{"a strip more", []length.Length{100, 100, 118, 20}, 318, 2},
		{"no thicknesser said", []length.Length{900, 900}, 0, 1},
		{"one too wide alone", []length.Length{50, 400, 50}, 318, 3},
	} {
		var strips []pattern.Strip
		for _, w := range c.widths {
			strips = append(strips, strip(w))
		}
		if got := parts(strips, c.limit*mm); got != c.parts {
			t.Errorf("%s: %d parts, want %d", c.name, got, c.parts)
		}
	}
}

func TestWhatIsNotKnown(t *testing.T) {
	j := job(t, lantern())
	j.Pattern.Strips[6].Species = "plum_of_nowhere"
	s := shop.Default()
	s.Glue.ClampForceN, s.Glue.ClampReach, s.Glue.OpenMinutes = 0, 0, 0.5
	s.Finish.RackLength, s.Finish.WaxToOil = 0, shop.Ratio{}
	f := Of(physicsOf(s), j)
	for name, e := range map[string]Estimate{
		"weight": f.Products[0].WeightKg, "labour": f.Price.Labour, "each": f.Price.Each, "at cost": f.Price.AtCost,
		"break-even": f.Price.BreakEven, "evenings": f.Finish.Evenings, "wax": f.Finish.WaxG,
		"clamps": f.Glue.Clamps, "by force": f.Glue.ClampsByForce, "by reach": f.Glue.ClampsByReach, "goes": f.Glue.GlueUps,
	} {
		if e != (Estimate{}) {
			t.Errorf("%s: %+v is reckoned from nothing", name, e)
		}
	}
	for _, season := range movement.Seasons() {
		if e := OutOfRound(physics(), j, lantern(), j.Layout.Placed[0], season); e.Known {
			t.Errorf("out of round %v with a timber without figures", e)
		}
	}
	if _, ok := LastStart(pattern.Date{Year: 2026, Month: time.December, Day: 5}, j, f, s.Glue); ok {
		t.Error("a last day without the evenings")
	}
	j.Asked = 40 // a price asked needs no minutes
	if f := Of(physicsOf(s), j); !f.Price.BreakEven.Known {
		t.Error("break-even at a price asked")
	}
}

func TestPanelAloneIsTheProduct(t *testing.T) {
	j := job(t)
	f := Of(physics(), j)
	if len(f.Products) != 1 || f.Products[0].PerPanel != 1 || f.Finish.Pieces != 4 {
		t.Fatalf("%+v", f)
	}
	near(t, "surface", f.Products[0].FinishM2, 2*(0.740*0.299+0.740*0.022+0.299*0.022), 1e-9)
	mass := 0.0
	for _, timber := range physics().Timber(j.Pattern) {
		mass += timber.MassKg
	}
	near(t, "weighs what its timbers do", f.Products[0].WeightKg.Value, mass, 1e-9)
}

func TestDraft(t *testing.T) {
	f := Of(physics(), Job{Copies: 1})
	if f.Glue.Joints != 0 || f.Glue.Grams != 0 || f.Glue.Clamps.Known || f.Finish.OilMl != 0 {
		t.Errorf("%+v", f)
	}
}

// Weight by another route: points strewn over the piece, each weighed by its strip.
func TestWeightAgainstPoints(t *testing.T) {
	r, rng := physics(), rand.New(rand.NewPCG(4, 4))
	for _, product := range []pattern.Product{
		{Shape: outline.Round, Diameter: 260 * mm, Bevel: 10 * mm, BevelSide: pattern.BevelBoth},
		{Shape: outline.Rectangle, Length: 200 * mm, Width: 130 * mm, Bevel: 9 * mm},
		{Shape: outline.Block, Length: 200 * mm, Width: 70 * mm, Hole: 40 * mm, Holes: 2, HoleDepth: 15 * mm},
		{Shape: outline.Oval, Length: 340 * mm, Width: 220 * mm, Bevel: 10 * mm, BevelSide: pattern.BevelTop},
		{Shape: outline.Oval, Length: 60 * mm, Width: 240 * mm, Bevel: 9 * mm, BevelSide: pattern.BevelBoth}, // deeper than its ends are round
	} {
		product.Count = 1
		j := job(t, product)
		at, thick := j.Layout.Placed[0], j.Pattern.Panel.Thickness.MM()
		along, across := outline.ShapeOf(product).Size()
		a, b := along.MM(), across.MM()
		centres, _ := HoleCentres(product)
		const points = 400_000
		sum := 0.0
		for range points {
			x, y, z := rng.Float64()*a, rng.Float64()*b, rng.Float64()*thick
			if inside(product, centres, x, y, z, thick) {
				strip := int((at.Side.MM() + y) / 23)
				timber, _ := r.Table().Get(j.Pattern.Strips[strip].Species)
				sum += timber.DensityKgM3
			}
		}
		want := sum / points * a * b * thick / 1e9
		got := WeightKg(r, j, product, at)
		near(t, string(product.Shape), got.Value, want, 0.005*want)
	}
}

// inside reports whether a point lies in the wood; z from the underside.
func inside(p pattern.Product, centres []length.Length, x, y, z, thick float64) bool {
	off, c := 0.0, p.Bevel.MM()
	if p.BevelSide != pattern.BevelTop && z < c {
		off = c - z
	}
	if p.BevelSide != pattern.BevelUnder && thick-z < c {
		off = max(off, c-(thick-z))
	}
	along, across := outline.ShapeOf(p).Size()
	a, b := along.MM(), across.MM()
	if p.Shape == outline.Round {
		return math.Hypot(x-a/2, y-b/2) <= a/2-off
	}
	if p.Shape == outline.Oval {
		return insideOval(x-a/2, y-b/2, a/2, b/2, off)
	}
	for _, h := range centres {
		if math.Hypot(x-h.MM(), y-b/2) < p.Hole.MM()/2 && thick-z < p.HoleDepth.MM() {
			return false
		}
	}
	return min(x, a-x, y, b-y) >= off
}

// insideOval reports whether a point keeps off away from the rim: whether the rim, looked
// at from it all round in parts of a degree, comes no nearer.
func insideOval(x, y, a, b, off float64) bool {
	from := math.Sqrt(x*x/(a*a) + y*y/(b*b)) // the middle, 1 being the rim
	if from > 1 || (1-from)*min(a, b) >= off {
		return from <= 1
	}
	x, y = math.Abs(x), math.Abs(y)
	for i := range 181 {
		sin, cos := math.Sincos(float64(i) * math.Pi / 360)
		if math.Hypot(x-a*cos, y-b*sin) < off {
			return false
		}
	}
	return true
}

// The wood of a bevelled disc of one timber is that of the whole disc less the closed
// form of its bevel.
func TestBevelsByTwoRoutes(t *testing.T) {
	for _, p := range []pattern.Product{lantern(), {Shape: outline.Round, Diameter: 100 * mm, Bevel: 11 * mm, BevelSide: pattern.BevelBoth},
		{Shape: outline.Rectangle, Length: 300 * mm, Width: 50 * mm, Bevel: 10 * mm, BevelSide: pattern.BevelTop}, {Shape: outline.Oval, Length: 340 * mm, Width: 220 * mm, Bevel: 8 * mm}} {
		whole := p
		whole.Bevel = 0
		_, across := outline.ShapeOf(p).Size()
		full := volumeMM3(whole, 22, 0, across.MM())
		near(t, string(p.Shape), (full-volumeMM3(p, 22, 0, across.MM()))/1000, BevelCM3(p), 1e-6)
	}
}

// The diameter line of a round across strips: its growth is that of the panel's width
// where it spans the panel.
func TestOutOfRoundOfTheWholeWidth(t *testing.T) {
	j := job(t)
	r, width := physics(), j.Pattern.Width()
	for _, season := range movement.Seasons() {
		want := r.Of(j.Pattern).Seasons[season].WidthChangeMM
		got := OutOfRound(r, j, pattern.Product{Shape: outline.Round, Diameter: width}, outline.Placed{}, season)
		near(t, season.String(), got.Value, want, 1e-9)
	}
	if e := OutOfRound(r, j, pattern.Product{Shape: outline.Rectangle}, outline.Placed{}, movement.Dry); e.Known {
		t.Error("a rectangle has no round to lose")
	}
}

// figureNames lists the fields of the figures, as Line has them.
func figureNames() map[string]bool {
	fields := map[string]bool{"Timetable.Start": true, "OutOfRound": true, "Drawing.Template": true, "Drawing.Opening": true}
	figures := reflect.TypeFor[Figures]()
	for i := range figures.NumField() {
		group := figures.Field(i)
		kind := group.Type
		if kind.Kind() == reflect.Slice {
			kind = kind.Elem()
		}
		for k := range kind.NumField() {
			fields[group.Name+"."+kind.Field(k).Name] = true
		}
	}
	return fields
}

// Every figure is told of with where it comes from, and no source stands for nothing.
func TestEveryFigureHasASource(t *testing.T) {
	fields := figureNames()
	// The number of a product is no figure, and what is taken off is told of in one.
	for _, name := range []string{"Products.Product", "Products.BevelCM3", "Products.HolesCM3"} {
		delete(fields, name)
	}
	block := pattern.Product{Shape: outline.Block, Length: 300 * mm, Width: 60 * mm, Count: 1, Hole: 41 * mm, Holes: 3, HoleDepth: 14 * mm}
	told := map[string]bool{}
	board, _ := workedBoard(t, "chequer")
	jobs := []Job{board}
	for _, products := range [][]pattern.Product{nil, {lantern()}, {block}, {{Shape: outline.Oval, Length: 340 * mm, Width: 220 * mm, Count: 1}}} {
		jobs = append(jobs, job(t, products...))
	}
	for _, j := range jobs {
		j.Due = pattern.Date{Year: 2026, Month: time.December, Day: 5}
		for _, l := range Report(physics(), j, Of(physics(), j), length.InMM) {
			if l.Figure == "" {
				continue
			}
			told[l.Figure] = true
			if l.Source == "" {
				t.Errorf("%s has no source", l.Figure)
			}
			if !fields[l.Figure] {
				t.Errorf("%s is no figure", l.Figure)
			}
		}
	}
	for name := range fields {
		if !told[name] {
			t.Errorf("nothing is told of %s", name)
		}
	}
	for name := range figures() {
		if !fields[name] {
			t.Errorf("the table has %s, which is no figure", name)
		}
	}
}

func TestMinutesOfTheLastBatch(t *testing.T) {
	p := pattern.Pattern{Made: []pattern.Made{{Copies: 1, Minutes: 90}, {Copies: 4, Minutes: 310}, {Copies: 2}}}
	if got := Minutes(p, 3); got != 233 { // 77.5 each
		t.Errorf("%d minutes, want 233", got)
	}
	if got := Minutes(pattern.Pattern{}, 3); got != 0 {
		t.Errorf("%d minutes from nothing", got)
	}
}

// Two that are exactly enough are not three by the last digit of a float.
func TestExactlyEnough(t *testing.T) {
	if got := BreakEven(2.1, 0.7, 0, 0); got != known(3) { // 3.0000000000000004
		t.Errorf("2.10 by 0.70 takes %v", got.Value)
	}
	if got := ClampsByForce(3*1000.1, 1000.1); got != 3 {
		t.Errorf("%d clamps for the force of three", got)
	}
	g := shop.Glue{OpenMinutes: 0.7, SecondsJoint: 4.2} // ten joints
	if got := glueUps(10, g); got != known(1) {
		t.Errorf("%v goes", got.Value)
	}
	if got := glueUps(11, g); got != known(2) {
		t.Errorf("%v goes", got.Value)
	}
}

// Counted by hand on a shelf of 1200 x 400.
func TestSlots(t *testing.T) {
	for _, c := range []struct{ a, b, slots length.Length }{
		{290, 290, 4}, {400, 300, 4}, {300, 400, 4}, {350, 150, 8}, {150, 350, 8}, {1200, 400, 1}, {1201, 100, 0}, {0, 100, 0},
	} {
		if got := Slots(1200*mm, 400*mm, c.a*mm, c.b*mm); got != int(c.slots) {
			t.Errorf("%d x %d: %d, want %d", c.a, c.b, got, c.slots)
		}
	}
}

// Five rounds of 290 from three panels share the drying rack of 1200 x 400, four at a time: two
// turns of three coats. Alone they would take a turn each.
func TestFinishOf(t *testing.T) {
	var jobs []Job
	var figures []Figures
	oil := 0.0
	for _, copies := range []int{2, 2, 1} {
		j := job(t, lantern())
		j.Layout.Placed, j.Copies = j.Layout.Placed[:1], copies
		f := Of(physics(), j)
		jobs, figures, oil = append(jobs, j), append(figures, f), oil+f.Finish.OilMl
	}
	got := FinishOf(jobs, figures, shoptest.Roomy().Finish)
	near(t, "evenings", got.Evenings.Value, 6, 0)
	near(t, "oil", got.OilMl, oil, 1e-9)
	if got.Pieces != 5 || len(FinishLines(got, shoptest.Roomy(), length.InMM)) < 5 {
		t.Errorf("%+v", got)
	}
}
