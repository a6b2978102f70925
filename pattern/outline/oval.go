package outline

import (
	"fmt"
	"math"
	"math/big"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// Oval is the name of an ellipse; its length lies along the grain, longer than its width
// or shorter.
const Oval pattern.ShapeName = "oval"

// An oval is an ellipse.
//
// Its chords are roots of whole numbers, rounded up by less than a nanometre. How far a
// circle or another oval must keep is never too little, which a line that parts the two
// proves (see keep), and hardly too much. Straight rows lie as those of rectangles do,
// which is exact for ovals behind and beside one another.
type oval struct{ along, across length.Length }

func (oval) Name() pattern.ShapeName    { return Oval }
func (oval) Also() []string             { return []string{"ellipse"} }
func (oval) Takes() []Taken             { return []Taken{lengthwise(), widthwise()} }
func (oval) Drilled() bool              { return false }
func (oval) Of(p pattern.Product) Shape { return oval{p.Length, p.Width} }

func (o oval) Size() (along, across length.Length)     { return o.along, o.across }
func (o oval) Sizes() []length.Length                  { return []length.Length{o.along, o.across} }
func (oval) Resized(along, across length.Length) Shape { return oval{along, across} }

// Chord returns along times the root of 1 - (twice/across)², the least whole number of
// nanometres that is not less.
func (o oval) Chord(twice length.Length) length.Length {
	a, b, y := whole(o.along), whole(o.across), whole(twice)
	square := times(a, a, new(big.Int).Sub(times(b, b), times(y, y)))
	return length.Length(ceilRoot(ceilQuo(square, times(b, b))).Int64())
}

func (o oval) Keep(diameter, twice length.Length) (length.Length, bool) {
	if twice >= o.across+diameter {
		return 0, false
	}
	return o.keep(diameter, twice), true
}

// Apart takes one of two neighbours for a point: it must keep from the other's middle as
// from an oval of twice the size, with the gap all round.
func (o oval) Apart(gap length.Length) (length.Length, bool) {
	turned := oval{2 * o.across, 2 * o.along}
	return ceilHalf(turned.keep(2*gap, 2*ceilHalf(o.along+gap))), true
}

// leanUnit is how long the whole numbers are that a direction is given by.
const leanUnit = 1 << 31

// keep returns how far along the middle of a circle must keep, as Footprint.Keep has it.
//
// Take any direction (p, q). The oval reaches root(p²a² + q²b²) in it, a and b being its
// half axes, and the circle radius times root(p² + q²). Where the middles lie at least as
// far apart in that direction as both reach together, a line square to it parts the two.
// So every p above 0 gives a distance along that is enough, and it is taken with roots
// and quotients of whole numbers, rounded up. The direction is that of the normal where
// the two would touch, from floats: were it wrong, the distance would be too large, never
// too small. Near the best direction a wrong one counts only by its square.
func (o oval) keep(diameter, twice length.Length) length.Length {
	sin, w := o.at(float64(diameter), float64(twice))
	p := big.NewInt(max(1, int64(float64(o.across)*math.Sqrt(1-sin*sin)/w*leanUnit)))
	q := big.NewInt(int64(float64(o.along) * sin / w * leanUnit))
	a, b, d, y := whole(o.along), whole(o.across), whole(diameter), whole(twice)
	reach := ceilRoot(new(big.Int).Add(times(p, p, a, a), times(q, q, b, b)))
	reach.Add(reach, times(d, ceilRoot(new(big.Int).Add(times(p, p), times(q, q)))))
	enough := ceilQuo(reach.Sub(reach, times(q, y)), p)
	if most := o.along + diameter; enough.Cmp(whole(most)) > 0 {
		return most // beyond the rectangle round both they never meet
	}
	return length.Length(enough.Int64())
}

// at returns the place on the oval whose normal meets a line half of twice away from the
// middle half of diameter outside, or inside where that is below 0: the sine of the angle
// that an ellipse is drawn by, and the root of b² cos² + a² sin², a and b being the sizes.
// What is outside grows with the sine, and so does what is inside up to where opposite
// sides meet, so one place is found.
func (o oval) at(diameter, twice float64) (sin, w float64) {
	a, b := float64(o.along), float64(o.across)
	root := func(sin float64) float64 { return math.Sqrt(b*b + (a-b)*(a+b)*sin*sin) }
	low, high := 0.0, 1.0
	if inside := -diameter * b / a; a < b && inside > a {
		high = math.Sqrt(max(0, (b-inside)*(b+inside)/((b-a)*(b+a))))
	}
	sin = min(high, twice/(b+diameter))
	for range 60 { // Newton's steps, halving where one leads out; six are usual
		w = root(sin)
		over := sin*(b+diameter*a/w) - twice
		if over < 0 {
			low = sin
		} else {
			high = sin
		}
		next := sin - over/(b+diameter*a*b*b/(w*w*w))
		if math.Abs(next-sin) < 1e-15 || high-low < 1e-15 {
			break
		}
		if !(next > low && next < high) {
			next = (low + high) / 2
		}
		sin = next
	}
	return sin, root(sin)
}

// halves returns the half axes in mm.
func (o oval) halves() (along, across float64) { return o.along.MM() / 2, o.across.MM() / 2 }

// Half is that of the line which keeps in away from the rim. It is no ellipse.
func (o oval) Half(in, off float64) float64 {
	a, b := o.halves()
	off = math.Abs(off)
	switch {
	case off >= b-in:
		return 0
	case in == 0:
		return a * math.Sqrt(1-off*off/(b*b))
	}
	const twice = 2 * float64(length.Millimetre)
	sin, w := o.at(-twice*in, twice*off)
	return max(0, math.Sqrt(1-sin*sin)*(a-in*o.across.MM()/(w/float64(length.Millimetre))))
}

// Area is that of a disc drawn out along the grain, and within a bevel by Simpson's rule
// over the angle that the width is seen by.
func (o oval) Area(in, from, to float64) float64 {
	a, b := o.halves()
	switch {
	case in == 0:
		return a / b * DiscMM2(b, from-b, to-b)
	case in >= b:
		return 0
	}
	angle := func(y float64) float64 { return math.Asin(max(-1, min(1, (y-b)/(b-in)))) }
	low, high := angle(from), angle(to)
	if low < 0 && high > 0 { // a deep bevel's rim has its points on the middle line
		return o.between(in, low, 0) + o.between(in, 0, high)
	}
	return o.between(in, low, high)
}

// between returns the area between two lines, each by the sine of its angle.
func (o oval) between(in, low, high float64) float64 {
	const steps = 16 // of a quarter, even
	_, b := o.halves()
	n := 2 * max(1, int(math.Ceil(steps/math.Pi*(high-low))))
	return max(0, simpson(n, low, high, func(angle float64) float64 {
		sin, cos := math.Sincos(angle)
		return 2 * o.Half(in, (b-in)*sin) * (b - in) * cos
	}))
}

func (o oval) Perimeter(twice length.Length) float64 {
	a, b := o.halves()
	return ellipsePerimeter(a, b) + math.Pi*twice.MM() // what runs outside bulges, so it is longer by a circle
}

// ellipsePerimeter returns the length of an ellipse with such half axes: four times the
// longer one times the complete elliptic integral E, by the arithmetic-geometric mean
// (Abramowitz and Stegun, Handbook of Mathematical Functions, 17.6.3 and 17.6.4). For
// axes up to 20 000 to 1 it is right to a part in 10^12.
func ellipsePerimeter(a, b float64) float64 {
	a, b = max(a, b), min(a, b)
	x, y, weight := 1.0, b/a, 0.5
	rest := weight * (1 - y) * (1 + y)
	for c := 1.0; c > 1e-9; {
		c = (x - y) / 2
		x, y = (x+y)/2, math.Sqrt(x*y)
		weight *= 2
		rest += weight * c * c
	}
	return 2 * math.Pi * a / x * (1 - rest)
}

func (o oval) Surface(t float64) float64 {
	a, b := o.halves()
	return 2*math.Pi*a*b + ellipsePerimeter(a, b)*t
}

// Bevelled is exact where the bevel is no deeper than the rim's least radius: what lies
// so far inside is smaller by the perimeter times the depth, less a circle.
func (o oval) Bevelled(c float64) float64 {
	a, b := o.halves()
	if least := min(a, b) * min(a, b) / max(a, b); c > least {
		return BevelMM3(o, c, 0, o.across.MM())
	}
	return ellipsePerimeter(a, b)*c*c/2 - math.Pi*c*c*c/3
}

func (oval) Diameter() length.Length { return 0 }

func (oval) Edge() string { return "rim" }

func (oval) Small() string { return "saw it outside the line and sand to it, and keep hands clear" }

// Common practice, no source.
func (oval) Sawn() (how, mind string) {
	return "without a template: saw it outside the line on a bandsaw, with relief cuts where the curve is tight, and sand to the line",
		"turn no oval: no lathe, no circle jig; at the bandsaw set the guard close above the wood, keep your fingers to the side of the blade, never in front of it, " +
			"and stop it before you back out of a cut"
}

// Template goes by two nails and a string (common practice, no source). An ellipse is
// not as far within another all round as on its axes, so what is cut round it differs
// from an ellipse; that is told where it can be seen.
func (o oval) Template(along, across length.Length, u length.Unit) string {
	long, short, way := max(along, across), min(along, across), "along"
	switch {
	case along == across:
		return fmt.Sprintf("draw it with compasses set to %s, both axes are alike", (along / 2).With(u))
	case across > along:
		way = "across"
	}
	text := fmt.Sprintf("draw both axes; set two nails on the long one, %s the grain, each %s from the middle; a string of %s from nail to nail keeps the pencil on the line",
		way, (ceilSqrtDiff(long, short) / 2).With(u), long.With(u))
	const seen = 0.05 // mm
	switch off := o.cutRound(oval{along, across}); {
	case off >= seen:
		text += fmt.Sprintf("; the cut is up to %s %v fuller between the axes", length.Estimate(off, u), u)
	case off <= -seen:
		text += fmt.Sprintf("; the cut is up to %s %v leaner between the axes", length.Estimate(-off, u), u)
	}
	return text
}

// cutRound returns by how many mm what is cut round a template is fuller than o, where it
// differs most: between the axes, on which it is right.
func (o oval) cutRound(template oval) float64 {
	a, b := o.halves()
	ta, tb := template.halves()
	d := b - tb
	if a == b || d == 0 {
		return 0
	}
	r := (a + b) / (a + b - 2*d)
	cos2 := (r*r*tb*tb - b*b) / ((a - b) * (a + b) * (1 - r))
	return math.Sqrt(ta*ta*cos2+tb*tb*(1-cos2)) + d - math.Sqrt(a*a*cos2+b*b*(1-cos2))
}

func (o oval) Label(t length.Length, u length.Unit) string {
	return fmt.Sprintf("%s x %s oval, %s thick", o.along.With(u), o.across.With(u), t.With(u))
}

// Draw draws a polygon with sides too short to see.
func (o oval) Draw(x, y float64, pen Pen) {
	const sides = 240
	a, b := o.halves()
	points := make([][2]float64, sides)
	for i := range points {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / sides)
		points[i] = [2]float64{x + a + a*cos, y + b + b*sin}
	}
	pen.Polygon(points)
}
