package movement

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// plain returns a prepared panel of strips whose free changes are stated outright: strips
// of one name count as one.
func plain(thickness length.Length, names []string, widthsMM []float64, flush [][seasonCount]float64) *Panel {
	p := physics().Panel(pattern.Pattern{Panel: pattern.Panel{Thickness: thickness}, Strips: make([]pattern.Strip, len(names))})
	for i, name := range names {
		p.strips[i] = &strip{species: name, rings: pattern.RingsFlat(), width: length.FromMM(widthsMM[i]), known: true, flush: flush[i]}
	}
	p.join(0, len(names)-1)
	return p
}

// Steps that another program computed by the same closed form, to its last digit:
// pattern/relief/testdata/cases.json, beside the faces that finite elements give.
func TestClosedFormElsewhere(t *testing.T) {
	text, err := os.ReadFile("../relief/testdata/cases.json")
	if err != nil {
		t.Fatal(err)
	}
	var cases []struct {
		Name   string
		T      float64
		Strips []struct {
			W, Rings float64
			Run      string
			Free     [seasonCount][2]float64 // along the rays, along the rings
		}
		Seasons [seasonCount]struct {
			Steps []float64 `json:"closed_step_um"`
		}
	}
	if err := json.Unmarshal(text, &cases); err != nil {
		t.Fatal(err)
	}
	compared := 0
	for _, c := range cases {
		var names []string
		var widths []float64
		var flush [][seasonCount]float64
		for _, s := range c.Strips {
			names, widths = append(names, s.Run), append(widths, s.W)
			var h [seasonCount]float64
			for season, free := range s.Free {
				h[season] = through(free[0], free[1], s.Rings)
			}
			flush = append(flush, h)
		}
		p := plain(length.FromMM(c.T), names, widths, flush)
		for season, s := range c.Seasons {
			for i, want := range s.Steps {
				line := Line{Line: i + 1}
				p.takeStep(&line)
				near1(t, c.Name, line.In[season].StepUM, want, 1e-5)
				compared++
			}
		}
	}
	if compared != 28 {
		t.Errorf("%d steps compared, want 28", compared)
	}
}

// Plane-stress finite elements of our own (E 700 MPa, G 260 MPa, Poisson 0.35,
// elements of 0.8 mm; derived, not published), whose wood is stiff alike in both
// directions: 0.11 was the bar of the pairwise figure, and the closed form keeps to half.
func TestClosedFormAgainstFiniteElements(t *testing.T) {
	var sum, worst float64
	rows := table(t, "testdata/relief_fe.csv")
	for _, row := range rows {
		var widths []float64
		for _, w := range strings.Fields(row["widths_mm"]) {
			widths = append(widths, number(t, w))
		}
		names := strings.Split(row["timbers"], "")
		flush := make([][seasonCount]float64, len(names))
		for i, name := range names {
			if name == "b" {
				flush[i] = [seasonCount]float64{0.001, 0.001}
			}
		}
		line := Line{Line: int(number(t, row["line"]))}
		p := plain(20*mm, names, widths, flush)
		p.takeStep(&line)
		off := line.StepUM/(p.halfUM()*0.001) - number(t, row["step_ratio"])
		sum, worst = sum+off, max(worst, math.Abs(off))
		if math.Abs(off) > 0.055 {
			t.Errorf("case %s line %d: %.3f off the finite elements' %s", row["case"], line.Line, off, row["step_ratio"])
		}
	}
	if len(rows) != 31 {
		t.Errorf("%d cases, want 31", len(rows))
	}
	t.Logf("mean %.3f, worst %.3f off", sum/float64(len(rows)), worst)
}

// Before and beyond a jump the shares add up to 1, entries of the table are met, between
// them it is straight, and there is nothing beyond the last.
func TestFollows(t *testing.T) {
	for i, entry := range followed {
		near1(t, "entry", follows(entry.thicknesses*perThickness), entry.share, 1e-12)
		near1(t, "before", follows(-entry.thicknesses*perThickness), 1-entry.share, 1e-12)
		if i == 0 {
			continue
		}
		before := followed[i-1]
		const share = 0.3
		at := before.thicknesses + share*(entry.thicknesses-before.thicknesses)
		near1(t, "between", follows(at*perThickness), before.share+share*(entry.share-before.share), 1e-12)
	}
	for _, q := range []float64{far, far + 1, 1e300, math.Inf(1), math.NaN()} {
		near1(t, "far beyond", follows(q*perThickness), 1, 0)
	}
	near1(t, "far before", follows(math.Inf(-1)), 0, 0)
}

// A literal reading of the closed form: runs, their mirror images, and half the change of
// thickness anywhere, with positions in thicknesses.
type literal struct {
	from, to []float64 // of each run, images among them
	of       []int     // the run of the panel that it is, or is the image of
}

// newLiteral takes the panel's runs by where they begin; the last one ends at the end.
func newLiteral(begins []float64, end float64) literal {
	n := len(begins)
	at := append(append([]float64{}, begins...), end)
	l := literal{}
	add := func(from, to float64, of int) {
		l.from, l.to, l.of = append(l.from, from), append(l.to, to), append(l.of, of)
	}
	for i := range n {
		add(at[i], at[i+1], i)
	}
	last := n - 1
	for i := range n {
		if at[i] >= 3 {
			last = i - 1
			break
		}
	}
	for i := 0; i <= last; i++ {
		from := -at[i+1]
		if i == last {
			from = math.Inf(-1)
		}
		add(from, -at[i], i)
	}
	first := 0
	for i := n - 1; i >= 0; i-- {
		if end-at[i+1] >= 3 {
			first = i + 1
			break
		}
	}
	for i := n - 1; i >= first; i-- {
		to := 2*end - at[i]
		if i == first {
			to = math.Inf(1)
		}
		add(2*end-at[i+1], to, i)
	}
	return l
}

func share(q float64) float64 {
	if q < 0 {
		return 1 - share(-q)
	}
	for i := 1; i < len(followed); i++ {
		if a, b := followed[i-1], followed[i]; q < b.thicknesses {
			return a.share + (b.share-a.share)*(q-a.thicknesses)/(b.thicknesses-a.thicknesses)
		}
	}
	return 1
}

// pulls returns by how much the free change of each run adds to the step from left to right.
func (l literal) pulls(runs int, left, right float64) []float64 {
	out := make([]float64, runs)
	for i, of := range l.of {
		at := func(x float64) float64 { return share(x-l.from[i]) - share(x-l.to[i]) }
		out[of] += at(right) - at(left)
	}
	return out
}

// pieces parts the strips of a panel into runs: those alike together or, of unknown rings
// and with apart, each by itself.
func pieces(p *Panel, apart bool) (of []int, begins []float64, end float64) {
	t := p.thickness.MM()
	for i, s := range p.strips {
		joined := i > 0 && s.alike(p.strips[i-1]) && (s.rings.Known() || !apart)
		if !joined {
			begins = append(begins, end)
		}
		of = append(of, len(begins)-1)
		end += s.width.MM() / t
	}
	return of, begins, end
}

// Steps, scatter and ranges of random panels are those of the literal reading, whose range
// goes through the corners of what the rings may be.
func TestClosedFormToTheLetter(t *testing.T) {
	rng := rand.New(rand.NewPCG(51, 52))
	r := physics()
	ranged := 0
	for range 300 {
		pattern := randomKnownPanel(rng, 1+rng.IntN(14))
		p := r.Panel(pattern)
		half := 500 * p.thickness.MM()
		middle := func(begins []float64, end float64, i int) float64 {
			if i+1 < len(begins) {
				end = begins[i+1]
			}
			return (begins[i] + end) / 2
		}
		for _, line := range p.Lines() {
			n := line.Line
			var step, pm [seasonCount]float64
			least, most := 0.0, 0.0
			for season := range seasonCount {
				of, begins, end := pieces(p, false)
				pulls := newLiteral(begins, end).pulls(len(begins), middle(begins, end, of[n-1]), middle(begins, end, of[n]))
				sum, adds := 0.0, 0.0
				done := map[int]bool{}
				for i, s := range p.strips {
					if !done[of[i]] {
						done[of[i]] = true
						sum += pulls[of[i]] * s.flush[season]
						pm[season] += math.Pow(pulls[of[i]]*s.flush[season], 2)
					}
					adds += pulls[of[i]]
				}
				step[season], pm[season] = half*math.Abs(sum), 0.15*half*math.Sqrt(pm[season])

				of, begins, end = pieces(p, true)
				pulls = newLiteral(begins, end).pulls(len(begins), middle(begins, end, of[n-1]), middle(begins, end, of[n]))
				var corners []float64
				for corner := range 4 {
					sum := 0.0
					for i, s := range p.strips {
						if i > 0 && of[i] == of[i-1] {
							continue
						}
						h := s.flush[season]
						if i == n-1 || i == n {
							h = s.move[season].flushLeast
							if corner>>(i-n+1)&1 == 1 {
								h = s.move[season].flushMost
							}
						}
						sum += pulls[of[i]] * h
					}
					corners = append(corners, half*sum)
				}
				from, to := min(corners[0], corners[1], corners[2], corners[3]), max(corners[0], corners[1], corners[2], corners[3])
				if from > 0 || to < 0 {
					least = max(least, min(math.Abs(from), math.Abs(to)))
				}
				most = max(most, math.Abs(from), math.Abs(to))
			}
			for season := range seasonCount {
				near1(t, "step", line.In[season].StepUM, step[season], 1e-8)
			}
			near1(t, "scatter", line.StepPM, pm[line.Season], 1e-8)
			near1(t, "least", line.LeastUM, min(least, line.StepUM), 1e-8)
			near1(t, "most", line.MostUM, max(most, line.StepUM), 1e-8)
			if line.MostUM > line.StepUM+1 {
				ranged++
			}
		}
		if t.Failed() {
			t.Fatalf("%+v", pattern)
		}
	}
	if ranged < 100 {
		t.Errorf("only %d lines had a range", ranged)
	}
}

// randomKnownPanel is a random panel all of whose timbers have coefficients.
func randomKnownPanel(rng *rand.Rand, n int) pattern.Pattern {
	p := randomPanel(rng, n)
	for i, s := range p.Strips {
		if timber, _ := timbers().Get(s.Species); !timber.Moves() {
			p.Strips[i].Species = "black_walnut"
		}
	}
	return p
}

// What moves alike stands alike, however it is called, and a panel of one run has no step.
func TestAllAlikeHaveNoStep(t *testing.T) {
	same := [seasonCount]float64{-0.004, 0.011}
	p := plain(22*mm, []string{"a", "b", "c", "d"}, []float64{4, 9, 31, 70}, [][seasonCount]float64{same, same, same, same})
	for n := 1; n < 4; n++ {
		f, _ := p.Figure(n)
		near1(t, "step of four that move alike", f.StepUM, 0, 1e-9)
	}
	one := plain(22*mm, []string{"a", "a", "a"}, []float64{4, 9, 31}, [][seasonCount]float64{same, same, same})
	for n := 1; n < 3; n++ {
		if f, _ := one.Figure(n); f.StepUM != 0 {
			t.Errorf("line %d within one run steps %v um", n, f.StepUM)
		}
	}
}

// The two strips left of plum, which has no coefficients, stand as if the panel ended
// there, and so do those right of it.
func TestUnknownTimberIsAnEdge(t *testing.T) {
	walnut := pattern.Strip{Species: "black_walnut", Width: 9 * mm, Rings: pattern.RingsFlat()}
	maple := pattern.Strip{Species: "hard_maple", Width: 14 * mm, Rings: pattern.RingsQuarter()}
	plum := pattern.Strip{Species: "plum", Width: 25 * mm}
	r := physics()
	lines := r.Of(panelOf(walnut, maple, plum, maple, walnut, maple)).Lines
	left, right := r.Of(panelOf(walnut, maple)).Lines, r.Of(panelOf(maple, walnut, maple)).Lines
	for i, want := range map[int]Line{0: left[0], 3: right[0], 4: right[1]} {
		near1(t, "step", lines[i].StepUM, want.StepUM, 1e-9)
		near1(t, "scatter", lines[i].StepPM, want.StepPM, 1e-9)
	}
	if lines[1].Known || lines[2].Known {
		t.Error("a figure is made up beside plum")
	}
}

// A panel that is not thick has no step, and no digit of its own.
func TestNoThickness(t *testing.T) {
	p := panelOf(pattern.Strip{Species: "black_walnut", Width: 9 * mm}, pattern.Strip{Species: "hard_maple", Width: 9 * mm})
	p.Panel.Thickness = 0
	if l := physics().Of(p).Lines[0]; l.StepUM != 0 || l.MostUM != 0 || l.StepPM != 0 {
		t.Errorf("%+v", l)
	}
}

// The figure that layouts are searched by: each strip's own width, and no neighbours.
// k1(25/22) is 0.985 and k1(10/22) is 0.669, so k is 0.827.
func TestPair(t *testing.T) {
	r := physics()
	panel := panelOf().Panel
	walnut := pattern.Strip{Species: "black_walnut", Width: 25 * mm, Rings: pattern.RingsFlat()}
	maple := pattern.Strip{Species: "hard_maple", Width: 10 * mm, Rings: pattern.RingsQuarter(), Moisture: pattern.Read(9.2)}
	f, known := r.Pair(panel, walnut, maple)
	humid := r.EquilibriumPct(Humid)
	step := 500 * 22 * 0.827 * math.Abs(0.00190*(humid-8)-0.00353*(humid-9.2))
	if !known || f.Level != pattern.TakeCare {
		t.Errorf("%+v, %v", f, known)
	}
	near1(t, "gap", f.GapPct, 1.2, 1e-12)
	near1(t, "strain", f.StrainPct, 100*math.Abs(0.00190*(6.92-8)-0.00353*(6.92-9.2)), 0.02)
	near1(t, "step", f.StepUM, max(step, 500*22*0.827*0.01*f.StrainPct), 0.05)
	if f, known := r.Pair(panel, pattern.Strip{Species: "plum"}, maple); known || f.StepUM != 0 || f.GapPct < 1.19 || f.Level != pattern.TakeCare {
		t.Errorf("beside plum: %+v", f)
	}
}
