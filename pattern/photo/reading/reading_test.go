package reading_test

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/photo"
	"example.com/oddments/pattern/photo/phototest"
	"example.com/oddments/pattern/photo/reading"
)

// timbers are colours from sycamore to wenge.
func timbers() []colour.Lab {
	return []colour.Lab{{L: 82, A: 3, B: 18}, {L: 64, A: 12, B: 28}, {L: 52, A: 20, B: 26}, {L: 38, A: 10, B: 15}, {L: 24, A: 5, B: 6}}
}

func decode(t testing.TB, file []byte) *photo.Photo {
	t.Helper()
	p, err := photo.Decode(t.Context(), bytes.NewReader(file), nil)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func reader(t testing.TB, p *photo.Photo, s reading.Setup) *reading.Reader {
	t.Helper()
	r, err := reading.NewReader(p, s)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func piece(t testing.TB, r *reading.Reader, b reading.Box) reading.Piece {
	t.Helper()
	p, err := r.Piece("W1", b)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// near fails where a colour lies further from the truth than it may.
func near(t *testing.T, what string, got, want colour.Lab, most float64) {
	t.Helper()
	if d := got.Difference(want); !(d <= most) {
		t.Errorf("%s: %.2f is %.3f from %.2f, at most %.2f", what, got, d, want, most)
	}
}

// Where the light has the form that is laid through the papers, the truth comes out, by any
// colour of light, with papers on two or on four sides, as PNG and as JPEG.
func TestTruth(t *testing.T) {
	for name, light := range map[string]func(u, v float64) photo.Triple{
		"even": nil, "slope": phototest.Slope(photo.Triple{1, 1, 1}, 1.15, 0.9),
		"lamp": phototest.Slope(photo.Triple{1.25, 0.95, 0.6}, 1.1, 1), "shade": phototest.Slope(photo.Triple{0.85, 0.95, 1.2}, 0.9, 1.05),
	} {
		scene, papers, boxes := phototest.Room(timbers()...)
		scene.Light = light
		for i := range scene.Things {
			scene.Things[i].Grain = float64(i%3) * 0.2
		}
		if light != nil {
			scene.Bright = 0.55
		}
		exact := phototest.PNG(scene.Image())
		scene.Noise = 3 // without any, JPEG has one step of colour for each timber
		for kind, file := range map[string][]byte{"PNG": exact, "JPEG": phototest.JPEG(scene.Image())} {
			r := reader(t, decode(t, file), reading.Setup{White: papers})
			for i, b := range boxes {
				near(t, fmt.Sprintf("%s, %s, piece %d", name, kind, i), piece(t, r, b).Lab, timbers()[i], map[string]float64{"PNG": 0.3, "JPEG": 0.5}[kind])
			}
			if r.Method != reading.ByPaper || !r.Known || r.Residual > 0.005 {
				t.Errorf("%s, %s: %+v", name, kind, r)
			}
		}
	}
}

// Noise, grain, uneven lights and a camera's curve: what is read is what the statement says,
// worked a second time, and lies within "about" of the truth for two of three.
func TestStatement(t *testing.T) {
	rng := rand.New(rand.NewPCG(20, 11))
	within, all := 0, 0
	for trial := range 12 {
		scene, papers, boxes := phototest.Room(timbers()...)
		grey := reading.Box{X: 165, Y: 272, W: 60, H: 25}
		scene.Things = append(scene.Things, phototest.Thing{Box: grey, Lab: colour.Lab{L: 49.496}})
		scene.Noise, scene.Bright, scene.Gamma = rng.Float64()*4, 0.45+0.2*rng.Float64(), 0.9+0.2*rng.Float64()
		bend := 0.1 * rng.Float64()
		slope := phototest.Slope(photo.Triple{0.9 + 0.3*rng.Float64(), 1, 0.7 + 0.4*rng.Float64()}, 0.85+0.3*rng.Float64(), 0.9+0.2*rng.Float64())
		scene.Light = func(u, v float64) photo.Triple {
			l := slope(u, v)
			for i := range l {
				l[i] *= 1 - bend*u*u
			}
			return l
		}
		for i := range scene.Things {
			scene.Things[i].Grain = 2 * rng.Float64()
		}
		setup := reading.Setup{White: papers, Light: reading.Light(trial % 2)}
		if trial%3 == 0 {
			setup.White = append(setup.White, reading.Box{X: 80, Y: 2, W: 240, H: 15})
			scene.Things = append(scene.Things, phototest.Thing{Box: setup.White[2], Lab: phototest.Paper})
		}
		paper := phototest.Paper
		if trial%2 == 1 {
			paper = colour.Lab{L: 94, A: 0, B: 2}
			setup.Paper = &paper
		}
		if trial%4 < 2 {
			setup.Grey = &reading.GreyCard{Box: grey, Percent: reading.UsualGrey}
		}
		file := phototest.PNG(scene.Image())
		if trial%3 == 1 {
			file = phototest.JPEG(scene.Image())
		}
		p := decode(t, file)
		r := reader(t, p, setup)
		want, residual, gamma := oraclePieces(p, setup.White, setup.Grey, paper, boxes)
		if math.Abs(r.Residual-residual) > 1e-5 || math.Abs(r.Gamma-gamma) > 1e-3 {
			t.Errorf("trial %d: residual %.6f, gamma %.5f; want %.6f, %.5f", trial, r.Residual, r.Gamma, residual, gamma)
		}
		for i, b := range boxes {
			got := piece(t, r, b)
			near(t, fmt.Sprintf("trial %d, piece %d", trial, i), got.Lab, want[i], 0.15)
			if trial%2 == 0 { // where the paper is what it is taken to be
				if all++; got.Lab.Difference(timbers()[i]) <= got.About {
					within++
				}
			}
		}
	}
	if within*3 < all*2 {
		t.Errorf("only %d of %d lie within about", within, all)
	}
}

// The grey card takes a camera's own curve out: 18 % is L* 49.496 (CIE 15).
func TestGreyCard(t *testing.T) {
	for _, gamma := range []float64{0.8, 0.9, 1.15, 1.3} {
		scene, papers, boxes := phototest.Room(timbers()...)
		card := reading.Box{X: 165, Y: 272, W: 60, H: 25}
		scene.Things = append(scene.Things, phototest.Thing{Box: card, Lab: colour.Lab{L: 49.496}})
		scene.Gamma = gamma
		p := decode(t, phototest.PNG(scene.Image()))
		with := reader(t, p, reading.Setup{White: papers, Grey: &reading.GreyCard{Box: card, Percent: reading.UsualGrey}})
		without := reader(t, p, reading.Setup{White: papers})
		if math.Abs(with.Gamma*gamma-1) > 0.06 || with.Method != reading.ByGrey {
			t.Errorf("curve %v: gamma %v", gamma, with.Gamma)
		}
		for i, b := range boxes {
			d, other := piece(t, with, b).Lab.Difference(timbers()[i]), piece(t, without, b).Lab.Difference(timbers()[i])
			if d > with.About() || d > other+0.3 {
				t.Errorf("curve %v, piece %d: %.2f off, %.2f without the card", gamma, i, d, other)
			}
		}
	}
}

// One scene coded in Display P3 and in sRGB must agree within 0.3.
func TestP3Agrees(t *testing.T) {
	scene, papers, boxes := phototest.Room(timbers()...)
	scene.Noise = 3
	profile := phototest.Profile("Display P3", phototest.P3Colorants, phototest.SRGBCurve())
	plain := reader(t, decode(t, phototest.JPEG(scene.Image())), reading.Setup{White: papers})
	scene.P3 = true
	wide := reader(t, decode(t, phototest.WithICC(phototest.JPEG(scene.Image()), profile, 60000)), reading.Setup{White: papers})
	for i, b := range boxes {
		near(t, fmt.Sprint("piece ", i), piece(t, wide, b).Lab, piece(t, plain, b).Lab, 0.3)
	}
}

// Along the grain: eight parts, half of them lighter; and the lightest and darkest fifth.
func TestAlongTheGrain(t *testing.T) {
	scene, papers, boxes := phototest.Room(colour.Lab{L: 50, A: 10, B: 20})
	b := boxes[0]
	lighter := phototest.Thing{Box: reading.Box{X: b.X, Y: b.Y, W: b.W / 2, H: b.H}, Lab: colour.Lab{L: 56, A: 10, B: 20}}
	scene.Things = append(scene.Things, lighter)
	got := piece(t, reader(t, decode(t, phototest.PNG(scene.Image())), reading.Setup{White: papers}), b)
	apart := lighter.Lab.Difference(colour.Lab{L: 50, A: 10, B: 20})
	if math.Abs(got.Range-apart) > 0.1 || math.Abs(got.Spread-apart/2) > 0.2 {
		t.Errorf("spread %.2f, range %.2f of %.2f", got.Spread, got.Range, apart)
	}
	near(t, "light", got.Light.Lab(), lighter.Lab, 0.5)
	near(t, "dark", got.Dark.Lab(), colour.Lab{L: 50, A: 10, B: 20}, 0.5)
	if got.Pixels != b.W*b.H || got.Used != got.Pixels {
		t.Errorf("%d of %d pixels", got.Used, got.Pixels)
	}
	wide := phototest.Scene{Width: 520, Height: 260, Ground: phototest.Paper, Bright: 0.7}
	all := reading.Box{W: 520, H: 260}
	if got := piece(t, reader(t, decode(t, phototest.PNG(wide.Image())), reading.Setup{White: []reading.Box{all}}), all); got.Pixels != 260*130 || got.Used != got.Pixels {
		t.Errorf("of 135,200 pixels %d are looked at, want every second row and column", got.Pixels)
	}
	even, papers, boxes := phototest.Room(colour.Lab{L: 50, A: 10, B: 20})
	if got := piece(t, reader(t, decode(t, phototest.PNG(even.Image())), reading.Setup{White: papers}), boxes[0]); got.Range > 0.1 {
		t.Errorf("an even piece: range %v", got.Range)
	}
}

// What is refused, by the box that it is of.
func TestRefusals(t *testing.T) {
	scene, papers, boxes := phototest.Room(timbers()...)
	shaded := func(factor float64) func(u, v float64) photo.Triple {
		return func(u, v float64) photo.Triple {
			if u > 0.5 && v > 0 {
				return photo.Triple{factor, factor, factor}
			}
			return photo.Triple{1, 1, 1}
		}
	}
	for _, c := range []struct {
		name string
		with func(s *phototest.Scene, setup *reading.Setup)
		box  string
		what string
	}{
		{"bright", func(s *phototest.Scene, _ *reading.Setup) { s.Bright = 1.2 }, "white 1", "too bright"},
		{"dark", func(s *phototest.Scene, _ *reading.Setup) { s.Bright = 0.08 }, "white 1", "too dark"},
		{"cast", func(s *phototest.Scene, _ *reading.Setup) {
			s.Light = phototest.Slope(photo.Triple{1, 0.7, 0.12}, 1, 1)
		}, "white 1", "colour is too strong"},
		{"shadow", func(s *phototest.Scene, _ *reading.Setup) { s.Light = shaded(0.5) }, "white 1", "differ by"},
		{"slope", func(s *phototest.Scene, _ *reading.Setup) {
			s.Light = phototest.Slope(photo.Triple{0.5, 0.5, 0.5}, 0.4, 1)
		}, "white 1", "times as light"},
		{"few pixels", func(_ *phototest.Scene, setup *reading.Setup) {
			setup.White[1] = reading.Box{X: 340, Y: 20, W: 19, H: 19}
		}, "white 2", "too few"},
		{"narrow", func(_ *phototest.Scene, setup *reading.Setup) {
			setup.White[1] = reading.Box{X: 340, Y: 20, W: 7, H: 90}
		}, "white 2", "too few"},
		{"outside", func(_ *phototest.Scene, setup *reading.Setup) {
			setup.White[0] = reading.Box{X: 360, Y: 20, W: 50, H: 90}
		}, "white 1", "outside the photo"},
		{"no paper", func(_ *phototest.Scene, setup *reading.Setup) { setup.White = nil }, "white 1", "no paper"},
		{"grey is timber", func(_ *phototest.Scene, setup *reading.Setup) {
			setup.Grey = &reading.GreyCard{Box: boxes[4], Percent: 18}
		}, "grey", "reads"},
		{"no target", func(_ *phototest.Scene, setup *reading.Setup) { setup.Target = &boxes[2] }, "target", "does not look like"},
	} {
		s, setup := scene, reading.Setup{White: append([]reading.Box(nil), papers...)}
		c.with(&s, &setup)
		_, err := reading.NewReader(decode(t, phototest.PNG(s.Image())), setup)
		var r *reading.Refusal
		if !errors.As(err, &r) || r.Box != c.box || !strings.Contains(r.What, c.what) || r.Remedy == "" {
			t.Errorf("%s: %v, want %s: %s", c.name, err, c.box, c.what)
		}
	}
}

// finding returns the finding of a rule.
func finding(list []reading.Finding, rule string) (reading.Finding, bool) {
	for _, f := range list {
		if f.Rule == rule {
			return f, true
		}
	}
	return reading.Finding{}, false
}

// What the maker is told beside the colours.
func TestFindings(t *testing.T) {
	for _, c := range []struct {
		rule  string
		level pattern.Level
		with  func(s *phototest.Scene, setup *reading.Setup)
	}{
		{"paper only", pattern.Fine, func(*phototest.Scene, *reading.Setup) {}},
		{"evenness unknown", pattern.Fine, func(_ *phototest.Scene, setup *reading.Setup) { setup.White = setup.White[:1] }},
		{"dark", pattern.TakeCare, func(s *phototest.Scene, _ *reading.Setup) { s.Bright = 0.2 }},
		{"bright", pattern.TakeCare, func(s *phototest.Scene, _ *reading.Setup) { s.Bright = 0.9 }},
		{"cast", pattern.TakeCare, func(s *phototest.Scene, _ *reading.Setup) {
			s.Light = phototest.Slope(photo.Triple{1, 0.8, 0.35}, 1, 1)
		}},
		{"shadow", pattern.TakeCare, func(s *phototest.Scene, _ *reading.Setup) {
			s.Light = func(u, v float64) photo.Triple {
				k := 1 - 0.2*max(0, math.Sin(4*v))
				return photo.Triple{k, k, k}
			}
		}},
		{"uneven", pattern.TakeCare, func(s *phototest.Scene, _ *reading.Setup) {
			s.Light = phototest.Slope(photo.Triple{0.7, 0.7, 0.7}, 1.6, 1)
		}},
	} {
		quiet, papers, _ := phototest.Room(timbers()...)
		quiet.Bright = 0.7
		s, setup := quiet, reading.Setup{White: papers}
		c.with(&s, &setup)
		got, ok := finding(reader(t, decode(t, phototest.PNG(s.Image())), setup).Findings, c.rule)
		if !ok || got.Level != c.level || got.Message == "" || got.Remedy == "" {
			t.Errorf("%s: %+v", c.rule, got)
		}
		if c.level == pattern.TakeCare {
			if f, ok := finding(reader(t, decode(t, phototest.PNG(quiet.Image())), reading.Setup{White: papers}).Findings, c.rule); ok {
				t.Errorf("by quiet light: %+v", f)
			}
		}
	}
}

// Shine is left out, told of, and refused where it is most of the piece; a piece far outside
// the papers, and one far from its timber, are told of.
func TestPieceFindings(t *testing.T) {
	scene, papers, boxes := phototest.Room(timbers()...)
	shine := func(share float64) *photo.Photo {
		s := scene
		b := boxes[1]
		s.Things = append(s.Things[:len(s.Things):len(s.Things)], phototest.Thing{Box: reading.Box{X: b.X, Y: b.Y, W: int(float64(b.W) * share), H: b.H}, Lab: colour.Lab{L: 150}})
		return decode(t, phototest.PNG(s.Image()))
	}
	got := piece(t, reader(t, shine(0.1), reading.Setup{White: papers}), boxes[1])
	if f, ok := finding(got.Findings, "shine"); !ok || f.Level != pattern.TakeCare || f.Where != "W1" {
		t.Errorf("%+v", got.Findings)
	}
	near(t, "beside shine", got.Lab, timbers()[1], 0.3)
	if _, err := reader(t, shine(0.25), reading.Setup{White: papers}).Piece("W1", boxes[1]); err == nil {
		t.Error("a piece that shines over a quarter is read")
	}
	// The middles of the two papers stand in columns 400 and 500; a piece may lie 200 beside
	// them, a quarter of the longer side.
	near := []reading.Box{{X: 380, Y: 100, W: 40, H: 40}, {X: 480, Y: 100, W: 40, H: 40}}
	s := phototest.Scene{Width: 800, Height: 200, Ground: phototest.Paper, Bright: 0.7}
	r := reader(t, decode(t, phototest.PNG(s.Image())), reading.Setup{White: near})
	for x, want := range map[int]bool{205: false, 195: true, 695: false, 705: true} {
		got := piece(t, r, reading.Box{X: x - 10, Y: 100, W: 20, H: 40})
		if _, ok := finding(got.Findings, "outside"); ok != want {
			t.Errorf("a piece about column %d: %+v", x, got.Findings)
		}
	}
	usual := timbers()[0].RGB()
	for lab, want := range map[colour.Lab]bool{timbers()[0]: false, timbers()[3]: true} {
		var p reading.Piece
		d := p.Compare(lab, "sycamore", usual)
		if _, ok := finding(p.Findings, "far from its timber"); ok != want || want != (d > 15) {
			t.Errorf("%v: %.1f, %+v", lab, d, p.Findings)
		}
	}
}

// How far a colour may be off, by the statement's figures.
func TestAbout(t *testing.T) {
	scene, papers, _ := phototest.Room(timbers()...)
	card := reading.Box{X: 165, Y: 272, W: 60, H: 25}
	scene.Things = append(scene.Things, phototest.Thing{Box: card, Lab: colour.Lab{L: 49.496}})
	p := decode(t, phototest.PNG(scene.Image()))
	grey := &reading.GreyCard{Box: card, Percent: reading.UsualGrey}
	for want, setup := range map[float64]reading.Setup{
		4.5: {White: papers}, 5.5: {White: papers, Light: reading.Lamp}, math.Hypot(4.5, 1): {White: papers[:1]},
		2.5: {White: papers, Grey: grey},
	} {
		r := reader(t, p, setup)
		base := want
		if setup.Grey != nil {
			base += 20 * math.Abs(math.Log(r.Gamma))
		}
		if got := r.About(); math.Abs(got-math.Hypot(base, 30*r.Residual)) > 1e-9 || math.Abs(got-want) > 0.3 {
			t.Errorf("about %v, want %v", got, want)
		}
	}
}
