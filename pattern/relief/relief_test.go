package relief_test

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"example.com/oddments/pattern/relief"
)

// A worked section is one that was computed elsewhere, by the same elements and by a finer
// method ("dense"): testdata/cases.json.
type worked struct {
	Name   string
	T      float64
	Strips []struct {
		W, Rings, Heart float64
		ER, ET, G, SRT  float64
		Free            [][2]float64
		Normal          []float64 // empty: the bark side is not known
		Run             string
	}
	Seasons []workedSeason
}

type workedSeason struct {
	Season   string
	WidthMM  float64 `json:"width_mm"`
	Top      []float64
	Bottom   []float64
	CupUM    float64 `json:"cup_um"`
	GapTop   float64 `json:"gap_top_um"`
	GapUnder float64 `json:"gap_under_um"`
	Strips   []struct {
		Crown float64 `json:"crown_um"`
		Under float64 `json:"under_um"`
	}
	Lines []struct {
		Step  float64 `json:"step_um"`
		Edge  float64 `json:"edge_um"`
		Ridge float64 `json:"ridge_um"`
	} `json:"glue_lines"`
	DenseTop    []float64 `json:"dense_top"`
	DenseBottom []float64 `json:"dense_bottom"`
}

func workedSections(t testing.TB) []worked {
	t.Helper()
	text, err := os.ReadFile("testdata/cases.json")
	if err != nil {
		t.Fatal(err)
	}
	var out []worked
	if err := json.Unmarshal(text, &out); err != nil {
		t.Fatal(err)
	}
	if len(out) < 6 {
		t.Fatalf("only %d sections", len(out))
	}
	return out
}

func (w worked) section() (relief.Section, []int) {
	s := relief.Section{ThicknessMM: w.T}
	var run []int
	for i, c := range w.Strips {
		strip := relief.Strip{WidthMM: c.W, Degrees: c.Rings, HeartMM: c.Heart,
			Elastic: relief.Elastic{RadialMPa: c.ER, TangentialMPa: c.ET, ShearMPa: c.G, CrossPerMPa: c.SRT}}
		if len(c.Normal) == 2 {
			strip.Bark = relief.Direction{X: c.Normal[0], Z: c.Normal[1]}
		}
		for _, f := range c.Free {
			strip.Free = append(strip.Free, relief.Strain{Radial: f[0], Tangential: f[1]})
		}
		s.Strips = append(s.Strips, strip)
		switch {
		case i == 0:
			run = append(run, 0)
		case c.Run == w.Strips[i-1].Run:
			run = append(run, run[i-1])
		default:
			run = append(run, run[i-1]+1)
		}
	}
	return s, run
}

// furthest returns how far two faces lie apart at most.
func furthest(a, b []float64) float64 {
	most := 0.0
	for i := range a {
		most = max(most, math.Abs(a[i]-b[i]))
	}
	return most
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %v, want %v, give or take %v", what, got, want, within)
	}
}

// Faces, width and every figure are those of the same elements in another program.
func TestWorkedSections(t *testing.T) {
	for _, w := range workedSections(t) {
		s, run := w.section()
		for i, p := range s.Profiles(len(w.Seasons)) {
			want := w.Seasons[i]
			t.Run(w.Name+", "+want.Season, func(t *testing.T) {
				if len(p.TopUM) != len(want.Top) {
					t.Fatalf("%d points, want %d", len(p.TopUM), len(want.Top))
				}
				near(t, "visible face", furthest(p.TopUM, want.Top), 0, 1e-6)
				near(t, "underside", furthest(p.UnderUM, want.Bottom), 0, 1e-6)
				near(t, "width", p.WidthChangeMM, want.WidthMM, 1e-9)
				span := slices.Max(want.Top) - slices.Min(want.Bottom)
				within := max(1.5, 0.02*span)
				near(t, "visible face by the finer method", furthest(p.TopUM, want.DenseTop), 0, within)
				near(t, "underside by the finer method", furthest(p.UnderUM, want.DenseBottom), 0, within)
				figures(t, s.Figures(p, run), want)
			})
		}
	}
}

func figures(t *testing.T, f relief.Figures, want workedSeason) {
	t.Helper()
	const within = 1e-6
	near(t, "cup", f.CupUM, want.CupUM, within)
	near(t, "gap above", f.GapTopUM, want.GapTop, within)
	near(t, "gap beneath", f.GapUnderUM, want.GapUnder, within)
	if len(f.Strips) != len(want.Strips) || len(f.Lines) != len(want.Lines) {
		t.Fatalf("figures of %d strips and %d lines, want %d and %d", len(f.Strips), len(f.Lines), len(want.Strips), len(want.Lines))
	}
	for i, s := range f.Strips {
		near(t, "crown", s.CrownUM, want.Strips[i].Crown, within)
		near(t, "crown beneath", s.UnderUM, want.Strips[i].Under, within)
	}
	for i, l := range f.Lines {
		near(t, "step", l.StepUM, want.Lines[i].Step, within)
		near(t, "edge", l.EdgeUM, want.Lines[i].Edge, within)
		near(t, "ridge", l.RidgeUM, want.Lines[i].Ridge, within)
	}
}

// maple is a hardwood of 705 kg/m3: the ratios of the Wood Handbook.
func maple() relief.Elastic {
	return relief.Elastic{RadialMPa: 1818.7, TangentialMPa: 976.3, ShearMPa: 351.5, CrossPerMPa: -0.34 / 976.3}
}

func leaning(degrees, side float64) relief.Direction {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	return relief.Direction{X: side * sin, Z: cos}
}

// One timber whose rings all lean one way only grows and shears: faces stay flat.
func TestUniformFieldIsFlat(t *testing.T) {
	for degrees := 0.0; degrees <= 90; degrees += 15 {
		s := relief.Section{ThicknessMM: 22}
		for _, w := range []float64{25, 8, 40} {
			s.Strips = append(s.Strips, relief.Strip{WidthMM: w, Degrees: degrees, Bark: leaning(degrees, 1), Elastic: maple(),
				Free: []relief.Strain{{Radial: 0.004, Tangential: 0.009}}})
		}
		p := s.Profiles(1)[0]
		for i := range p.TopUM {
			near(t, "face", p.TopUM[i]-p.TopUM[0], 0, 1e-6)
			near(t, "underside", p.UnderUM[i]-p.UnderUM[0], 0, 1e-6)
		}
	}
}

// A board that is wetter on one face bends as a bimetal strip does whose expansion changes
// evenly through the thickness: curvature = difference/thickness, and nothing is held back
// (Timoshenko, "Analysis of bi-metal thermostats", 1925, carried to a linear change). So
// the edges lie W^2 C p/(8 t) below the middle.
func TestWetterFaceCups(t *testing.T) {
	const width, thick, ct, points = 300.0, 20.0, 0.0035, 2.0
	s := relief.Section{ThicknessMM: thick, Strips: []relief.Strip{{WidthMM: width, Bark: relief.Direction{Z: 1}, Elastic: maple(),
		Free: []relief.Strain{{}}, Wetter: relief.Strain{Radial: 0.0016 * points, Tangential: ct * points}}}}
	f := s.Figures(s.Profiles(1)[0], []int{0})
	want := -1000 * width * width * ct * points / (8 * thick)
	near(t, "cup", f.CupUM, want, 1e-4*math.Abs(want))
}

// Two narrow strips in a tall section are a bimetal strip that stands on its end: of like
// stiffness and thickness it bends by 3/2 of the difference of what they do along it, over
// its thickness (Timoshenko, "Analysis of bi-metal thermostats", 1925, eq. 4 with m = n = 1).
// So the two faces, which are its ends, turn against one another by that times its length,
// less what is missing within a thickness of either end.
func TestBimetalStrip(t *testing.T) {
	const each, tall, differ = 4.0, 400.0, 0.001
	strip := func(radial float64) relief.Strip { // flat: along z it moves by its rays
		return relief.Strip{WidthMM: each, Bark: relief.Direction{Z: 1}, Elastic: maple(), Free: []relief.Strain{{Radial: radial, Tangential: 0}}}
	}
	s := relief.Section{ThicknessMM: tall, Strips: []relief.Strip{strip(differ), strip(0)}}
	p := s.Profiles(1)[0]
	slope := func(face []float64) float64 { return (face[len(face)-1] - face[0]) / 1000 / (2 * each) }
	got := math.Abs(slope(p.TopUM) - slope(p.UnderUM))
	want := 1.5 * differ / (2 * each) * tall
	near(t, "turn of its ends", got, want, 0.03*want)
}

func TestWetterUndersideCupsTheOtherWay(t *testing.T) {
	section := func(sign float64) relief.Section {
		return relief.Section{ThicknessMM: 20, Strips: []relief.Strip{{WidthMM: 200, Bark: relief.Direction{Z: 1}, Elastic: maple(),
			Free: []relief.Strain{{}}, Wetter: relief.Strain{Radial: sign * 0.003, Tangential: sign * 0.007}}}}
	}
	top, under := section(1), section(-1)
	a, b := top.Figures(top.Profiles(1)[0], []int{0}), under.Figures(under.Profiles(1)[0], []int{0})
	near(t, "cups together", a.CupUM+b.CupUM, 0, 1e-6)
	if a.CupUM >= 0 {
		t.Errorf("a board wet on top has a cup of %v: its edges must go down", a.CupUM)
	}
}

// Rings that are circles about the pith let the strip swell without stress, each point by
// u_r = e_R r and u_f = (e_T - e_R) r f, f the angle from the axis (plane polar
// coordinates: e_rr = u_r/r and e_ff = u_r/r + du_f/(r df) are then the free strains).
func TestCurvedRings(t *testing.T) {
	const width, thick, heart, er, et = 40.0, 20.0, 80.0, 0.004, 0.009
	s := relief.Section{ThicknessMM: thick, Strips: []relief.Strip{{WidthMM: width, Bark: relief.Direction{Z: 1}, HeartMM: heart,
		Elastic: relief.Elastic{RadialMPa: 1600, TangentialMPa: 900, ShearMPa: 320, CrossPerMPa: -0.34 / 900}, Free: []relief.Strain{{Radial: er, Tangential: et}}}}}
	p := s.Profiles(1)[0]
	up := func(x, z float64) float64 {
		r, f := math.Hypot(x, z+heart), math.Atan2(x, z+heart)
		return 1000 * (er*r*math.Cos(f) - (et-er)*r*f*math.Sin(f))
	}
	var top, under []float64
	shift := 0.0
	for _, x := range p.AtMM {
		top, under = append(top, up(x-width/2, thick/2)), append(under, up(x-width/2, -thick/2))
		shift += (top[len(top)-1] + under[len(under)-1]) / 2 / float64(len(p.AtMM))
	}
	for i := range top {
		near(t, "visible face", p.TopUM[i], top[i]-shift, 0.1)
		near(t, "underside", p.UnderUM[i], under[i]-shift, 0.1)
	}
}

func randomSection(rng *rand.Rand) relief.Section {
	s := relief.Section{ThicknessMM: 15 + 20*rng.Float64()}
	for range 1 + rng.IntN(6) {
		degrees := float64(rng.IntN(7)) * 15
		strip := relief.Strip{WidthMM: float64(5 + rng.IntN(50)), Degrees: degrees, Elastic: relief.Elastic{
			RadialMPa: 1000 + 1000*rng.Float64(), TangentialMPa: 500 + 500*rng.Float64(), ShearMPa: 200 + 200*rng.Float64(), CrossPerMPa: -0.0004}}
		strip.Free = []relief.Strain{{Radial: 0.01 * (rng.Float64() - 0.5), Tangential: 0.02 * (rng.Float64() - 0.5)}}
		if rng.IntN(3) > 0 {
			strip.Bark = leaning(degrees, float64(2*rng.IntN(2)-1))
			if rng.IntN(2) == 0 {
				strip.Bark.Z = -strip.Bark.Z
			}
			strip.HeartMM = float64(rng.IntN(2)) * (60 + 100*rng.Float64())
		}
		s.Strips = append(s.Strips, strip)
	}
	return s
}

// turned returns s with its strips from right to left and the bark on the other side across
// and, where over is said, through: seen in a mirror, or turned over.
func turned(s relief.Section, over bool) relief.Section {
	out := relief.Section{ThicknessMM: s.ThicknessMM, Strips: slices.Clone(s.Strips)}
	slices.Reverse(out.Strips)
	for i := range out.Strips {
		out.Strips[i].Bark.X = -out.Strips[i].Bark.X
		if over {
			out.Strips[i].Bark.Z = -out.Strips[i].Bark.Z
		}
	}
	return out
}

// A panel in a mirror stands as its image; one turned over about its length has its faces
// changed.
func TestMirroredAndTurnedOver(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for range 20 {
		s := randomSection(rng)
		p, mirror, over := s.Profiles(1)[0], turned(s, false).Profiles(1)[0], turned(s, true).Profiles(1)[0]
		n := len(p.TopUM) - 1
		for i := range p.TopUM {
			near(t, "visible face in the mirror", mirror.TopUM[n-i], p.TopUM[i], 1e-5)
			near(t, "underside in the mirror", mirror.UnderUM[n-i], p.UnderUM[i], 1e-5)
			near(t, "visible face turned over", over.TopUM[n-i], -p.UnderUM[i], 1e-5)
			near(t, "underside turned over", over.UnderUM[n-i], -p.TopUM[i], 1e-5)
		}
	}
}

// Where no bark side is known, strips are free across and the panel's width changes by what
// they change alone, but for what they hold one another through the thickness.
func TestWidthIsTheSumOfTheStrips(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	for range 20 {
		s := randomSection(rng)
		sum := 0.0
		for i := range s.Strips {
			strip := &s.Strips[i]
			strip.Bark, strip.HeartMM = relief.Direction{}, 0
			sin, cos := math.Sincos(strip.Degrees * math.Pi / 180)
			sum += strip.WidthMM * (strip.Free[0].Tangential*cos*cos + strip.Free[0].Radial*sin*sin)
		}
		near(t, "width", s.Profiles(1)[0].WidthChangeMM, sum, 0.0005+0.02*math.Abs(sum))
	}
}

// Nobody has looked at one rift strip: it may lean by e_T - e_R times its width either way,
// which lifts one half of the panel against the other.
func TestBandOfOneLean(t *testing.T) {
	s := relief.Section{ThicknessMM: 20, Strips: []relief.Strip{{WidthMM: 40, Degrees: 45, Free: []relief.Strain{{Radial: 0.004, Tangential: 0.008}}}}}
	for _, b := range s.Band(0) { // a straight lean of all of the panel is no shape; what it cups is left
		if b < 0 || b > 10 {
			t.Errorf("one strip alone has a band of %v um", b)
		}
	}
	s.Strips[0].Bark = leaning(45, 1)
	if most := slices.Max(s.Band(0)); most != 0 {
		t.Errorf("a strip that was looked at has a band of %v um", most)
	}
}

func TestNoSection(t *testing.T) {
	if got := (relief.Section{ThicknessMM: 20}).Profiles(2); got != nil {
		t.Errorf("no strips: %v", got)
	}
	if got := (relief.Section{Strips: []relief.Strip{{WidthMM: 1}}}).Profiles(2); got != nil {
		t.Errorf("no thickness: %v", got)
	}
}

// benchmarkSection has strips of 25 mm, 22 thick, flat and quartered, with two seasons.
func benchmarkSection(strips int) relief.Section {
	s := relief.Section{ThicknessMM: 22}
	for i := range strips {
		degrees := float64(i%3) * 45
		s.Strips = append(s.Strips, relief.Strip{WidthMM: 20 + float64(i%4)*3, Degrees: degrees, Bark: leaning(degrees, 1), HeartMM: 120, Elastic: maple(),
			Free: []relief.Strain{{Radial: -0.0017, Tangential: -0.0036}, {Radial: 0.0066, Tangential: 0.0141}}})
	}
	return s
}

// Budget: 5 ms of processor time for 13 strips, 20 ms for 60, both seasons.
func BenchmarkProfiles13(b *testing.B) { benchmarkProfiles(b, 13) }
func BenchmarkProfiles60(b *testing.B) { benchmarkProfiles(b, 60) }

func benchmarkProfiles(b *testing.B, strips int) {
	s := benchmarkSection(strips)
	b.ReportAllocs()
	for b.Loop() {
		if len(s.Profiles(2)) != 2 {
			b.Fatal("no profile")
		}
	}
}
