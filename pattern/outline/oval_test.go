package outline

import (
	"fmt"
	"math"
	"math/big"
	"math/rand/v2"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// fromEllipse returns how far a point at x, y, both 0 or more, lies from an ellipse about
// 0 with half axes a and b; below 0 within, where it is the distance to the rim too. It
// goes by the normal through the point, in floats, and shares nothing with the code.
func fromEllipse(x, y, a, b float64) float64 {
	x, y = math.Abs(x), math.Abs(y)
	nearest := math.Inf(1)
	at := func(angle float64) float64 {
		sin, cos := math.Sincos(angle)
		return math.Hypot(x-a*cos, y-b*sin)
	}
	const parts = 32
	best := 0
	for i := range parts + 1 {
		if d := at(math.Pi / 2 * float64(i) / parts); d < nearest {
			nearest, best = d, i
		}
	}
	low, high := math.Pi/2*float64(max(0, best-1))/parts, math.Pi/2*float64(min(parts, best+1))/parts
	for range 45 { // the distance falls, then rises
		third := (high - low) / 3
		if at(low+third) < at(high-third) {
			high -= third
		} else {
			low += third
		}
	}
	nearest = min(nearest, at(low), at(high))
	if x*x/(a*a)+y*y/(b*b) < 1 {
		return -nearest
	}
	return nearest
}

func anyOval(rng *rand.Rand) oval {
	size := func(most length.Length) length.Length {
		switch rng.IntN(4) {
		case 0:
			return pattern.MinProduct + length.Length(rng.Int64N(int64(most-pattern.MinProduct)))
		case 1:
			return length.Length(1+rng.Int64N(20)) * 50 * mm
		default:
			return 20*mm + length.Length(rng.Int64N(int64(400*mm)))
		}
	}
	return oval{size(pattern.MaxLength), size(pattern.MaxAcross)}
}

// A chord is the least whole number n with n² b² at least a² (b² - t²).
func TestOvalChordIsExact(t *testing.T) {
	rng := rand.New(rand.NewPCG(21, 1))
	for range 3000 {
		o := anyOval(rng)
		at := length.Length(rng.Int64N(int64(o.across) + 1))
		n := o.Chord(at)
		holds := func(n length.Length) bool {
			left := times(whole(n), whole(n), whole(o.across), whole(o.across))
			return left.Cmp(times(whole(o.along), whole(o.along), new(big.Int).Sub(times(whole(o.across), whole(o.across)), times(whole(at), whole(at))))) >= 0
		}
		if !holds(n) || n > 0 && holds(n-1) {
			t.Fatalf("%+v at %d: chord %d", o, at, n)
		}
	}
	if o := (oval{340 * mm, 220 * mm}); o.Chord(0) != 340*mm || o.Chord(220*mm) != 0 || o.Chord(132*mm) != 272*mm { // 3, 4, 5
		t.Errorf("%v, %v, %v", o.Chord(0), o.Chord(132*mm), o.Chord(220*mm))
	}
}

// With both axes alike an oval is a round: to the nanometre, or two where a line parts
// them. Its rows are shifted by half a pitch in whole nanometres, so they may lie closer.
func TestOvalOfOneAxisIsARound(t *testing.T) {
	rng := rand.New(rand.NewPCG(21, 2))
	for range 2000 {
		d := anyOval(rng).across
		r, o := round{d}, oval{d, d}
		at := length.Length(rng.Int64N(int64(d)))
		if r.Chord(at) != o.Chord(at) {
			t.Fatalf("%v at %v: chord %d, a round's %d", d, at, o.Chord(at), r.Chord(at))
		}
		circle := length.Length(rng.Int64N(int64(100 * mm)))
		at = length.Length(rng.Int64N(int64(d + circle)))
		want, _ := r.Keep(circle, at)
		if got, meets := o.Keep(circle, at); !meets || got < want || got > want+2 {
			t.Fatalf("%v, a circle of %v at %v: keep %d, a round's %d", d, circle, at, got, want)
		}
		gap := length.Length(rng.Int64N(int64(30 * mm)))
		wantApart, _ := r.Apart(gap)
		if got, _ := o.Apart(gap); got < wantApart-1 || got > wantApart+2 {
			t.Fatalf("%v, gap %v: rows %d apart, a round's %d", d, gap, got, wantApart)
		}
		for _, f := range []struct {
			what      string
			got, want float64
		}{
			{"perimeter", o.Perimeter(circle), r.Perimeter(circle)}, {"surface", o.Surface(20), r.Surface(20)},
			{"area", o.Area(0, 0, d.MM()/3), r.Area(0, 0, d.MM()/3)}, {"bevel", o.Bevelled(d.MM() / 9), r.Bevelled(d.MM() / 9)},
			{"half", o.Half(d.MM()/9, d.MM()/5), r.Half(d.MM()/9, d.MM()/5)}, {"area within", o.Area(d.MM()/9, 0, d.MM()/2), r.Area(d.MM()/9, 0, d.MM()/2)},
		} {
			if math.Abs(f.got-f.want) > 1e-6*f.want+1e-9 {
				t.Fatalf("%v: %s %v, a round's %v", d, f.what, f.got, f.want)
			}
		}
	}
}

// A circle that keeps what it is told to does not enter the oval, and a hundredth of a
// millimetre nearer it would, where the two do not meet at a glancing angle.
func TestOvalKeepsCirclesOff(t *testing.T) {
	rng := rand.New(rand.NewPCG(21, 3))
	close := 0
	for range 4000 {
		o := anyOval(rng)
		circle := length.Length(rng.Int64N(int64(80 * mm)))
		off := length.Length(rng.Int64N(int64(o.across + circle)))
		keep, meets := o.Keep(circle, off)
		if !meets {
			t.Fatalf("%+v and a circle of %v at %v do not meet", o, circle, off)
		}
		a, b := o.halves()
		rounding := 1e-9 * (a + b)
		x, y, r := keep.MM()/2, off.MM()/2, circle.MM()/2
		if in := r - fromEllipse(x, y, a, b); in > rounding+1e-7 {
			t.Fatalf("%+v, a circle of %v at %v keeps %v and enters by %v mm", o, circle, off, keep, in)
		}
		if x > 0.01 && fromEllipse(x-0.01, y, a, b) < r {
			close++
		}
	}
	if close < 3800 {
		t.Errorf("only %d of 4000 are told no more than a hundredth too much", close)
	}
	o := oval{340 * mm, 220 * mm}
	if _, meets := o.Keep(20*mm, 240*mm); meets {
		t.Error("a circle that touches the oval's side meets it")
	}
	if keep, _ := o.Keep(20*mm, 0); keep != 360*mm {
		t.Errorf("a circle on the middle line keeps %v, want 170 and 10", keep/2)
	}
}

// Staggered ovals are the gap apart, and hardly more: by what one seen as a point keeps
// from another twice the size.
func TestStaggeredOvalsKeepTheGap(t *testing.T) {
	rng := rand.New(rand.NewPCG(21, 4))
	for range 2000 {
		o, gap := anyOval(rng), length.Length(rng.Int64N(int64(40*mm)))
		apart, ok := o.Apart(gap)
		if !ok || apart > o.across+gap {
			t.Fatalf("%+v, gap %v: %v apart, %v", o, gap, apart, ok)
		}
		a, b := o.halves()
		shift := ceilHalf(o.along + gap).MM()
		between := fromEllipse(shift, apart.MM(), 2*a, 2*b)
		if rounding := 1e-9 * (a + b); between < gap.MM()-rounding-1e-7 {
			t.Fatalf("%+v, gap %v: %v mm between neighbours", o, gap, between)
		}
		if 2*apart < o.across+gap {
			t.Fatalf("%+v, gap %v: rows next but one are %v apart", o, gap, 2*apart)
		}
	}
	// Three straight rows, (400 - 4 + 16) by 106, of twelve each, (920 - 10 + 16) by 76,
	// against four staggered of twelve and eleven.
	layout, err := Lay(panel(900*mm, 400*mm, 10), 20*mm, []pattern.Product{{Shape: Oval, Length: 60 * mm, Width: 90 * mm}}, nil, habits())
	if err != nil || !layout.Bands[0].Staggered || layout.Bands[0].Rows != 4 || len(layout.Placed) != 46 {
		t.Errorf("%d ovals in %+v, %v; want 46 in four staggered rows, straight ones hold 36", len(layout.Placed), layout.Bands, err)
	}
}

// The perimeter is four times the longer half axis times E(m), m = 1 - (b/a)²: values of
// Abramowitz and Stegun, Handbook of Mathematical Functions, table 17.1.
func TestPerimeterOfAnEllipse(t *testing.T) {
	for m, e := range map[float64]float64{
		0: 1.570796326794897, 0.1: 1.530757636897763, 0.5: 1.350643881047675, 0.9: 1.104774732704073, 0.99: 1.015993545025224,
	} {
		const a = 170
		got := ellipsePerimeter(a, a*math.Sqrt(1-m))
		if want := 4 * a * e; math.Abs(got-want) > 1e-12*want {
			t.Errorf("m %v: %.13f, want %.13f", m, got, want)
		}
	}
	// By another route: chords of so many parts lie short by a part of their square.
	for _, b := range []float64{170, 110, 17, 1} {
		const a, parts = 170, 400_000
		sum := 0.0
		for i := range parts {
			s0, c0 := math.Sincos(math.Pi / 2 * float64(i) / parts)
			s1, c1 := math.Sincos(math.Pi / 2 * float64(i+1) / parts)
			sum += 4 * math.Hypot(a*(c1-c0), b*(s1-s0))
		}
		if got := ellipsePerimeter(a, b); math.Abs(got-sum) > 1e-9*sum || ellipsePerimeter(b, a) != got {
			t.Errorf("half axes 170 and %v: %v, want %v", b, got, sum)
		}
	}
	if got := ellipsePerimeter(10_000, 0.5); math.Abs(got-40_000) > 0.01 {
		t.Errorf("the flattest there is: %v, want little more than four times 10 000", got)
	}
}

// Within a bevel the rim keeps its depth from the whole oval's, also where the bevel is
// deeper than the rim's least radius and opposite sides meet.
func TestOvalWithin(t *testing.T) {
	rng := rand.New(rand.NewPCG(21, 6))
	deep := 0
	for range 3000 {
		o := oval{length.Length(20+rng.IntN(400)) * mm, length.Length(20+rng.IntN(400)) * mm}
		a, b := o.halves()
		in := 0.98 * rng.Float64() * min(a, b)
		if in > min(a, b)*min(a, b)/max(a, b) {
			deep++
		}
		off := rng.Float64() * b
		x := o.Half(in, off)
		if x > 1e-6 && math.Abs(-fromEllipse(x, off, a, b)-in) > 1e-6 {
			t.Fatalf("%+v, %v in, %v off: %v, which is %v from the rim", o, in, off, x, -fromEllipse(x, off, a, b))
		}
		if x <= 1e-6 && -fromEllipse(0, off, a, b) > in+1e-6 {
			t.Fatalf("%+v, %v in, %v off: nothing, but the middle is %v from the rim", o, in, off, -fromEllipse(0, off, a, b))
		}
	}
	if deep < 300 {
		t.Errorf("only %d cases are deeper than the least radius", deep)
	}
}

// What lies so far inside is smaller by the perimeter times the depth, less a circle
// (Steiner), and strips of it add up.
func TestOvalAreas(t *testing.T) {
	for _, o := range []oval{{340 * mm, 220 * mm}, {220 * mm, 340 * mm}, {300 * mm, 60 * mm}, {60 * mm, 300 * mm}} {
		a, b := o.halves()
		if got, want := o.Area(0, 0, 2*b), math.Pi*a*b; math.Abs(got-want) > 1e-9*want {
			t.Errorf("%+v: %v, want %v", o, got, want)
		}
		for _, part := range []float64{0.2, 0.9} {
			in := part * min(a, b) * min(a, b) / max(a, b)
			want := math.Pi*a*b - ellipsePerimeter(a, b)*in + math.Pi*in*in
			if got := o.Area(in, 0, 2*b); math.Abs(got-want) > 3e-5*want {
				t.Errorf("%+v, %v in: %v, want %v", o, in, got, want)
			}
			sum := 0.0
			for i := range 7 {
				sum += o.Area(in, 2*b*float64(i)/7, 2*b*float64(i+1)/7)
			}
			if math.Abs(sum-want) > 3e-5*want {
				t.Errorf("%+v, %v in: seven strips make %v, want %v", o, in, sum, want)
			}
			if got, want := BevelMM3(o, in, 0, 2*b), o.Bevelled(in); math.Abs(got-want) > 1e-4*want {
				t.Errorf("%+v: a bevel of %v takes %v by slices, %v by its formula", o, in, got, want)
			}
		}
	}
	// A bevel deeper than the least radius: points strewn over the oval, each as deep as
	// the bevel is there.
	o, c := oval{200 * mm, 50 * mm}, 15.0
	a, b := o.halves()
	rng, sum := rand.New(rand.NewPCG(21, 7)), 0.0
	const points = 40_000
	for range points {
		x, y := rng.Float64()*a, rng.Float64()*b
		if from := fromEllipse(x, y, a, b); from < 0 {
			sum += max(0, c+from)
		}
	}
	if want := 4 * a * b * sum / points; math.Abs(o.Bevelled(c)-want) > 0.02*want {
		t.Errorf("a deep bevel takes %v, want about %v", o.Bevelled(c), want)
	}
}

// The nails stand in the foci: every point of the rim is as far from both together as
// the string is long. What is cut round a template is told by how much it differs.
func TestOvalTemplate(t *testing.T) {
	o := oval{340 * mm, 220 * mm}
	text := o.Template(340*mm, 220*mm, length.InMM)
	if want := "set two nails on the long one, along the grain, each 129.6 mm from the middle; a string of 340 mm from nail"; !strings.Contains(text, want) {
		t.Errorf("%q, want %q", text, want)
	}
	focus := math.Sqrt(170*170 - 110*110)
	for i := range 50 {
		sin, cos := math.Sincos(float64(i))
		if sum := math.Hypot(170*cos-focus, 110*sin) + math.Hypot(170*cos+focus, 110*sin); math.Abs(sum-340) > 1e-9 {
			t.Errorf("a point of the rim is %v from both nails", sum)
		}
	}
	if text := (oval{220 * mm, 340 * mm}).Template(220*mm, 340*mm, length.InInches); !strings.Contains(text, "across the grain, each 5 7/64 in") {
		t.Error(text)
	}
	if text := (oval{80 * mm, 80 * mm}).Template(80*mm, 80*mm, length.InMM); !strings.Contains(text, "compasses set to 40 mm") {
		t.Error(text)
	}
	for _, c := range []struct {
		of, template oval
		says         string
	}{
		{o, oval{322 * mm, 202 * mm}, "fuller"}, {o, oval{382 * mm, 262 * mm}, "leaner"},
		{oval{100 * mm, 60 * mm}, oval{82 * mm, 42 * mm}, "fuller"}, {oval{60 * mm, 100 * mm}, oval{102 * mm, 142 * mm}, "leaner"},
	} {
		a, b := c.of.halves()
		ta, tb := c.template.halves()
		most := 0.0
		for i := range 100_000 {
			sin, cos := math.Sincos(math.Pi / 2 * float64(i) / 100_000)
			if off := math.Hypot(ta*cos, tb*sin) + (b - tb) - math.Hypot(a*cos, b*sin); math.Abs(off) > math.Abs(most) {
				most = off
			}
		}
		if got := c.of.cutRound(c.template); math.Abs(got-most) > 1e-6 {
			t.Errorf("%+v by %+v: %v off, want %v", c.of, c.template, got, most)
		}
		says := fmt.Sprintf("up to %.1f mm %s between the axes", math.Abs(most), c.says)
		if text := c.of.Template(c.template.along, c.template.across, length.InMM); !strings.Contains(text, says) {
			t.Errorf("%q, want %q", text, says)
		}
	}
}

// BenchmarkLayOvals lays ovals with 30 knots on a panel of 60 strips. Budget: 2 ms, as
// for a key.
func BenchmarkLayOvals(b *testing.B) {
	p := panel(2000*mm, 900*mm, 60)
	var knots []pattern.Avoid
	for i := range length.Length(30) {
		knots = append(knots, pattern.Avoid{Along: i * 67 * mm, Across: (i * 211 % 900) * mm, Radius: 6 * mm})
	}
	for b.Loop() {
		if _, err := Lay(p, 20*mm, []pattern.Product{{Shape: Oval, Length: 120 * mm, Width: 80 * mm}}, knots, habits()); err != nil {
			b.Fatal(err)
		}
	}
}
