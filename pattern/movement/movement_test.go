package movement

import (
	"math"
	"math/rand/v2"
	"slices"
	"sync"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/shop/shoptest"
	"example.com/oddments/species"
)

const mm = length.Millimetre

// timbers is the table of this package's tests, read once.
var timbers = sync.OnceValue(species.Builtin)

func physics() Physics { return New(timbers(), shoptest.Roomy()) }

func panelOf(strips ...pattern.Strip) pattern.Pattern {
	return pattern.Pattern{
		Panel:  pattern.Panel{Length: 450 * mm, Thickness: 22 * mm, Moisture: pattern.Read(8)},
		Strips: strips,
	}
}

func near1(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if math.Abs(got-want) > tolerance {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}

// Reckoned by hand: at 20 C wood settles at 6.92 percent in 35 percent humidity and
// 11.95 in 65 (eq. 4-5). Flat walnut moves 0.00190 through the thickness, flat
// maple 0.00165. From 8 percent to the humid season that differs by
// 0.00025 x 3.95 = 0.000988, and half of 22 mm of it is 10.9 um a face. The middles of both
// strips lie 12.5 mm from the line, 0.568 thicknesses, where the face has followed 1.0087 of
// the jump: 2 x 1.0087 - 1 = 1.0174. The image of the line beyond either edge lies 37.5 and
// 62.5 mm from them, 1.70 and 2.84 thicknesses: 1.0006 - 1.0000. With both that is 1.0186.
func TestLineByHand(t *testing.T) {
	p := panelOf(
		pattern.Strip{Species: "black_walnut", Width: 25 * mm, Rings: pattern.RingsFlat()},
		pattern.Strip{Species: "hard_maple", Width: 25 * mm, Rings: pattern.RingsFlat()},
	)
	f := physics().Of(p)
	humid := f.Seasons[Humid].EquilibriumPct
	near1(t, "humid equilibrium", humid, 11.95, 0.06)
	line := f.Lines[0]
	if !line.Known || line.Season != Humid || line.Level != pattern.Fine || !line.Settled || line.Borderline {
		t.Errorf("line 1: %+v", line)
	}
	near1(t, "step", line.StepUM, 1.0186*500*22*0.00025*(humid-8), 0.001)
	near1(t, "strain", line.StrainPct, 0.025*(humid-8), 1e-9)
	near1(t, "step scatter", line.StepPM, 1.0186*0.15*500*22*math.Hypot(0.00190, 0.00165)*(humid-8), 0.05)
	near1(t, "least", line.LeastUM, line.StepUM, 1e-9)
	near1(t, "most", line.MostUM, line.StepUM, 1e-9)
	near1(t, "dry width", f.Seasons[Dry].WidthChangeMM, 25*(0.00274+0.00353)*(f.Seasons[Dry].EquilibriumPct-8), 1e-9)
	if f.Width != 50*mm {
		t.Errorf("width %v", f.Width)
	}
}

// A strip of unknown rings stands for 45 degrees, and its line ranges from where the
// free changes meet to where they lie furthest apart. Line 1 shows 1.0180 of a difference,
// as by hand above, and line 2 beyond it takes the middle of maple back by 0.0080: 1.0259.
func TestUnknownRings(t *testing.T) {
	p := panelOf(
		pattern.Strip{Species: "black_walnut", Width: 25 * mm, Rings: pattern.RingsFlat()},
		pattern.Strip{Species: "hard_maple", Width: 25 * mm},
		pattern.Strip{Species: "black_walnut", Width: 25 * mm, Rings: pattern.RingsFlat()},
	)
	f := physics().Of(p)
	line := f.Lines[0]
	swing := f.Seasons[Humid].EquilibriumPct - 8
	const k = 1.0259
	near1(t, "step at 45 degrees", line.StepUM, k*500*22*((0.00165+0.00353)/2-0.00190)*swing, 0.002)
	near1(t, "least: 0.00190 lies between 0.00165 and 0.00353", line.LeastUM, 0, 1e-9)
	near1(t, "most", line.MostUM, k*500*22*(0.00353-0.00190)*swing, 0.005)
	if line.Settled {
		t.Error("from 0 to 70 um the level changes, yet the line is settled")
	}
	if want := []Look{{Strip: 2, Lines: 2}}; !slices.Equal(f.Look, want) {
		t.Errorf("look first at %v, want %v", f.Look, want)
	}
}

func TestLookFirstTakesTheLowestOnATie(t *testing.T) {
	unknown := pattern.Strip{Species: "hard_maple", Width: 25 * mm}
	flat := pattern.Strip{Species: "black_walnut", Width: 25 * mm, Rings: pattern.RingsFlat()}
	f := physics().Of(panelOf(unknown, flat, unknown, flat, unknown))
	if want := []Look{{3, 2}, {1, 1}, {5, 1}}; !slices.Equal(f.Look, want) {
		t.Errorf("look first at %v, want %v", f.Look, want)
	}
}

// Strips alike in species, rings and moisture count as one: no step, no scatter, and
// the line beyond them is relieved by their joint width.
func TestJoinedStripsCountAsOne(t *testing.T) {
	maple := pattern.Strip{Species: "hard_maple", Width: 5 * mm, Rings: pattern.RingsFlat()}
	wenge := pattern.Strip{Species: "wenge", Width: 30 * mm, Rings: pattern.RingsQuarter()}
	wide := maple
	wide.Width = 15 * mm
	r := physics()
	parts := r.Of(panelOf(wenge, maple, maple, maple, wenge)).Lines
	whole := r.Of(panelOf(wenge, wide, wenge)).Lines
	near1(t, "the step beside three of 5 mm and one of 15", parts[0].StepUM, whole[0].StepUM, 1e-9)
	near1(t, "the other side", parts[3].StepUM, whole[1].StepUM, 1e-9)
	if l := parts[1]; l.StepUM != 0 || l.StepPM != 0 || l.StrainPM != 0 || l.Level != pattern.Fine {
		t.Errorf("between two alike: %+v", l)
	}
	apart := maple
	apart.Moisture = pattern.Read(8) // the same moisture, by a reading
	same := r.Of(panelOf(wenge, maple, apart, maple, wenge)).Lines
	near1(t, "a reading equal to the panel's joins too", same[0].StepUM, whole[0].StepUM, 1e-9)
	up, down := maple, maple
	up.Bark, down.Bark = pattern.Bark{Up: 1}, pattern.Bark{Up: -1}
	panel := r.Panel(panelOf(wenge, up, up, down, wenge))
	if first, last := panel.Run(2); first != 1 || last != 2 {
		t.Errorf("of two with the bark up and one with it down, strips %d to %d count as one", first+1, last+1)
	}
}

func TestFlattenedLater(t *testing.T) {
	p := panelOf(
		pattern.Strip{Species: "black_walnut", Width: 25 * mm, Rings: pattern.RingsFlat(), Moisture: pattern.Read(6.5)},
		pattern.Strip{Species: "black_walnut", Width: 25 * mm, Rings: pattern.RingsFlat(), Moisture: pattern.Read(10)},
	)
	r := physics()
	wet := r.Of(p).Lines[0]
	if wet.StepUM == 0 || wet.StrainPct == 0 || wet.GapPct != 3.5 || wet.Level != pattern.TooMuch {
		t.Errorf("a dry and a wet strip: %+v", wet)
	}
	p.Panel.Flattened = pattern.Read(8)
	settled := r.Of(p).Lines[0]
	if settled.StepUM != 0 || settled.StrainPct != wet.StrainPct {
		t.Errorf("made flush when settled there is no step, and the strain stays: %+v", settled)
	}
}

// No figure is made up for a timber without coefficients.
func TestMissingCoefficients(t *testing.T) {
	p := panelOf(
		pattern.Strip{Species: "plum", Width: 25 * mm},
		pattern.Strip{Species: "black_walnut", Width: 25 * mm, Moisture: pattern.Read(9.5)},
		pattern.Strip{Species: "black_walnut", Width: 25 * mm, Moisture: pattern.Read(9.5)},
	)
	f := physics().Of(p)
	if l := f.Lines[0]; l.Known || l.Level != pattern.TakeCare || l.GapPct != 1.5 {
		t.Errorf("line 1: %+v; the gap alone makes its level", l)
	}
	if !f.Lines[1].Known {
		t.Error("line 2 has no figure")
	}
	if f.Seasons[Dry].Known || f.Seasons[Dry].WidthChangeMM != 0 {
		t.Errorf("a width change is claimed: %+v", f.Seasons[Dry])
	}
	if _, known := physics().Panel(p).Figure(1); known {
		t.Error("Figure(1) is known")
	}
}

// rough: (25 + 1 + 3.2)(22 + 2 + 2 + 1.2)(450 + 20) flat, (22 + 2 + 3.2)(25 + 2 + 1.2) 470
// on edge; finished 25 x 22 x 450; walnut weighs 616 kg/m3.
func TestTimber(t *testing.T) {
	p := panelOf(
		pattern.Strip{Species: "black_walnut", Width: 25 * mm},
		pattern.Strip{Species: "plum", Width: 25 * mm, Length: 268 * mm},
		pattern.Strip{Species: "black_walnut", Width: 25 * mm},
	)
	got := physics().Timber(p)
	if len(got) != 2 || got[0].Species != "black_walnut" || got[0].Strips != 2 || got[0].Width != 50*mm {
		t.Fatalf("timber %+v", got)
	}
	near1(t, "rough", got[0].RoughCM3, 2*2.92*2.72*47, 1e-9)
	near1(t, "finished", got[0].FinishedCM3, 2*2.5*2.2*45, 1e-9)
	near1(t, "mass", got[0].MassKg, 495*0.000616, 1e-9)
	near1(t, "finished to its own length", got[1].FinishedCM3, 2.5*2.2*26.8, 1e-9)
	p.Panel.Make = pattern.MakeEdge
	near1(t, "rough on edge", physics().Timber(p)[0].RoughCM3, 2*2.72*2.82*47, 1e-9)
}

func randomPanel(rng *rand.Rand, n int) pattern.Pattern {
	all := timbers().All()
	p := panelOf()
	p.Panel.Thickness = length.Length(12+rng.IntN(30)) * mm
	for range n {
		s := pattern.Strip{Species: all[rng.IntN(len(all))].Key, Width: length.Length(5+rng.IntN(40)) * mm}
		switch rng.IntN(4) {
		case 0:
			s.Rings = pattern.RingsFlat()
		case 1:
			s.Rings = pattern.RingsQuarter()
		case 2:
			s.Rings, _ = pattern.RingsAt(float64(rng.IntN(91)))
		}
		if rng.IntN(3) == 0 {
			s.Moisture = pattern.Read(4 + 14*rng.Float64())
		}
		p.Strips = append(p.Strips, s)
		if rng.IntN(4) == 0 {
			p.Strips = append(p.Strips, s)
		}
	}
	return p
}

// A mirrored panel moves as the panel does, line for line; the fast figure is the
// full one; the least step is at most the step, and that at most the most.
func TestProperties(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	r := physics()
	for range 300 {
		p := randomPanel(rng, 1+rng.IntN(14))
		mirrored := p
		mirrored.Strips = slices.Clone(p.Strips)
		slices.Reverse(mirrored.Strips)
		panel := r.Panel(p)
		f, m := r.Of(p), r.Of(mirrored)
		for i, l := range f.Lines {
			other := m.Lines[len(m.Lines)-1-i]
			other.Line = l.Line
			if math.Abs(other.StepUM-l.StepUM) > 1e-9 || other.Level != l.Level || other.Settled != l.Settled {
				t.Fatalf("line %d is %+v, mirrored %+v", l.Line, l, other)
			}
			if l.Known && (l.In[l.Season].StepUM != l.StepUM || max(l.In[Dry].StrainPct, l.In[Humid].StrainPct) > l.StrainPct+1e-9) {
				t.Fatalf("line %d does not name its worst season: %+v", l.Line, l)
			}
			if l.LeastUM > l.StepUM+1e-9 || l.StepUM > l.MostUM+1e-9 {
				t.Fatalf("line %d: %v um does not lie from %v to %v", l.Line, l.StepUM, l.LeastUM, l.MostUM)
			}
			fast, known := panel.Figure(l.Line)
			if known != l.Known || known && (math.Abs(fast.StepUM-l.StepUM) > 1e-9 ||
				math.Abs(fast.StrainPct-l.StrainPct) > 1e-12 || fast.Level != l.Level) {
				t.Fatalf("line %d: %+v, fast %+v", l.Line, l, fast)
			}
		}
	}
}

// Swapping and replacing in a prepared panel gives the figures of the pattern with
// the strips so arranged.
func TestSwapAndReplace(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	r := physics()
	for range 200 {
		p := randomPanel(rng, 4+rng.IntN(8))
		panel := r.Panel(p)
		i, j := rng.IntN(len(p.Strips)), rng.IntN(len(p.Strips))
		changed := p
		changed.Strips = slices.Clone(p.Strips)
		changed.Strips[i], changed.Strips[j] = changed.Strips[j], changed.Strips[i]
		panel.Swap(i, j)
		if want := r.Of(changed).Lines; !slices.Equal(panel.Lines(), want) {
			t.Fatalf("swapped %d and %d", i, j)
		}
		panel.Swap(i, j)
		rolled := p.Strips[i]
		rolled.Rings = rolled.Rings.Rolled()
		changed.Strips = slices.Clone(p.Strips)
		changed.Strips[i] = rolled
		restore := panel.Replace(i, rolled)
		if want := r.Of(changed).Lines; !slices.Equal(panel.Lines(), want) {
			t.Fatalf("replaced %d", i)
		}
		restore()
		if want := r.Of(p).Lines; !slices.Equal(panel.Lines(), want) {
			t.Fatalf("restored %d", i)
		}
	}
}

// What changes with a strip lies within its reach before and its reach after, and a
// line without a coefficient keeps its gap.
func TestReach(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 10))
	r := physics()
	changed := 0
	for range 400 {
		p := randomPanel(rng, 1+rng.IntN(8))
		panel := r.Panel(p)
		i := rng.IntN(len(p.Strips))
		before := panel.Lines()
		first, last := panel.Reach(i)
		strip := p.Strips[rng.IntN(len(p.Strips))] // often one that joins a run
		panel.Replace(i, strip)
		f, l := panel.Reach(i)
		for n, line := range panel.Lines() {
			inside := n+1 >= first && n+1 <= last || n+1 >= f && n+1 <= l
			if line != before[n] && !inside {
				t.Fatalf("line %d changed, strip %d reaches %d to %d and %d to %d", n+1, i+1, first, last, f, l)
			}
			if line != before[n] {
				changed++
			}
			if fast, _ := panel.Figure(n + 1); fast.GapPct != line.GapPct || fast.Level != line.Level {
				t.Fatalf("line %+v, fast %+v", line, fast)
			}
		}
	}
	if changed == 0 {
		t.Error("nothing ever changed")
	}
}

// Budget: every figure of 60 strips within 0.3 ms; the whole check has 2 ms.
func BenchmarkOf60Strips(b *testing.B) {
	p := randomPanel(rand.New(rand.NewPCG(7, 8)), 80)
	p.Strips = p.Strips[:60]
	r := physics()
	for b.Loop() {
		r.Of(p)
	}
}
