package export

import (
	"hash/fnv"
	"math"

	"example.com/oddments/pattern"
	"example.com/oddments/species"
)

// A vein is one line of the grain: quadratic curves, one after another.
type vein struct {
	from   point
	curves []curve
	shade  int
	wide   float64
}

// A curve goes on from the end of the one before by its control point.
type curve struct{ by, to point }

// An rng gives a strip's own numbers from 0 to 1, always the same ones (SplitMix64).
type rng uint64

func rngOf(key string, strip int) rng {
	h := fnv.New64a()
	_, _ = h.Write([]byte(key)) // a hash takes all
	return rng(h.Sum64() + uint64(strip)*0x9e3779b97f4a7c15)
}

func (r *rng) next() float64 {
	*r += 0x9e3779b97f4a7c15
	z := uint64(*r)
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return float64((z^z>>31)>>11) / (1 << 53)
}

// between returns a number from least to most.
func (r *rng) between(least, most float64) float64 { return least + (most-least)*r.next() }

// mostVeins bounds the lines of one strip.
const mostVeins = 60

// veinsOf draws the grain of a strip as its rings meet the face. Lines that would lie
// closer than fine are left out.
func veinsOf(t species.Species, s pattern.Strip, k plank, fine float64) []vein {
	if k.x1 <= k.x0 || k.y1-k.y0 < 2*fine {
		return nil
	}
	r := rngOf(t.Key, k.number)
	var out []vein
	switch s.Rings.Nearest() {
	case pattern.RingsFlat():
		out = arches(&r, k, fine)
	case pattern.RingsQuarter():
		out = append(lines(&r, k, fine, 0, 1), rays(&r, k, fine)...)
	default: // aslant, or nobody has looked
		out = lines(&r, k, fine, r.between(0.014, 0.03), 1.7)
	}
	for i := range out {
		out[i].mirror(k, s.Turned, s.Turned != s.Over)
	}
	return out
}

// mirror turns a vein as its strip was turned: end for end mirrors both ways, the
// other face up across alone.
func (v *vein) mirror(k plank, along, across bool) {
	turn := func(p *point) {
		if along {
			p.x = k.x0 + k.x1 - p.x
		}
		if across {
			p.y = k.y0 + k.y1 - p.y
		}
	}
	turn(&v.from)
	for i := range v.curves {
		turn(&v.curves[i].by)
		turn(&v.curves[i].to)
	}
}

// arches draws rings that the face cuts flat: parabolas about a line near the middle,
// nested along the strip.
func arches(r *rng, k plank, fine float64) []vein {
	const inset = 0.2 // so that no line reaches over the strip's edge
	half := (k.y1-k.y0)/2 - inset
	apex := (k.y0+k.y1)/2 + half*r.between(-0.35, 0.35)
	pitch := max(r.between(14, 24), 4*fine, (k.x1-k.x0)/mostVeins)
	reach := r.between(90, 190) * min(1.4, max(0.5, half/12))
	if r.next() < 0.5 {
		reach = -reach
	}
	from, to := k.x0-math.Abs(reach)*2, k.x1+math.Abs(reach)*2
	var out []vein
	for x := from + pitch*r.next(); x < to; x += pitch * r.between(0.6, 1.5) {
		bend := reach * r.between(0.9, 1.1)
		v := vein{shade: shadeEarly, wide: max(0.4, fine/3)}
		if len(out)%3 == 0 {
			v.shade, v.wide = shadeLate, max(0.6, fine/2)
		}
		// x(u) = x + bend u^2 with u from the apex, in half widths; each side is cut to
		// the strip and is one quadratic curve.
		for _, side := range [2]float64{-1, 1} {
			edge := k.y1 - inset - apex
			if side < 0 {
				edge = apex - k.y0 - inset
			}
			if v, ok := v.half(k, x, bend, apex, side*half, edge/half); ok {
				out = append(out, v)
			}
		}
	}
	return out
}

// half returns one side of a parabola about x, from its apex to where u is most, as far
// as it lies on the strip.
func (v vein) half(k plank, x, bend, apex, perU, most float64) (vein, bool) {
	least := 0.0
	// bend u^2 must lie in x0-x..x1-x.
	a, b := (k.x0-x)/bend, (k.x1-x)/bend
	if a > b {
		a, b = b, a
	}
	if b <= 0 {
		return v, false
	}
	least, most = math.Sqrt(max(0, a)), min(most, math.Sqrt(b))
	if most-least < 0.02 {
		return v, false
	}
	on := func(u float64) point { return point{x + bend*u*u, apex + perU*u} }
	middle := (least + most) / 2
	v.from = on(least)
	v.curves = []curve{{by: point{x + bend*least*most, apex + perU*middle}, to: on(most)}}
	return v, true
}

// lines draws rings that the face cuts upright or aslant: lines along the strip that
// waver a little, lean by slant, and lie so many times as far apart as they may.
func lines(r *rng, k plank, fine, slant, apart float64) []vein {
	if r.next() < 0.5 {
		slant = -slant
	}
	long := k.x1 - k.x0
	gap := max(apart*r.between(1.6, 2.6), 1.5*fine, (k.y1-k.y0+math.Abs(slant)*long)/mostVeins)
	steps := max(2, min(24, int(long/45)))
	waver := min(0.35*gap, 1.2)
	rise := math.Abs(slant) * long
	var out []vein
	n := 0
	for y := k.y0 - rise + gap*r.next(); y < k.y1+rise; y += gap * r.between(0.6, 1.5) {
		v := vein{shade: shadeEarly, wide: max(0.35, fine/3)}
		if n++; n%4 == 0 {
			v.shade, v.wide = shadeLate, max(0.5, fine/2)
		}
		points := make([]point, 0, steps+1)
		for i := range steps + 1 {
			x := k.x0 + long*float64(i)/float64(steps)
			points = append(points, point{x, y + slant*(x-k.x0) + waver*r.between(-1, 1)})
		}
		out = append(out, v.through(points, k)...)
	}
	return out
}

// rays draws what a quarter face alone shows: short lighter ribbons across the grain.
func rays(r *rng, k plank, fine float64) []vein {
	const each, most, inset = 350, 50, 0.8 // one to so many square millimetres
	wide := k.y1 - k.y0
	if wide < 6*fine || wide < 4*inset {
		return nil
	}
	var out []vein
	for range min(most, int((k.x1-k.x0)*wide/each)) {
		long := min(r.between(3, 9), wide-2*inset)
		from := point{r.between(k.x0, k.x1), r.between(k.y0+inset, k.y1-inset-long)}
		to := point{max(k.x0, min(k.x1, from.x+long*r.between(0.3, 0.8))), from.y + long}
		by := point{max(k.x0, min(k.x1, (from.x+to.x)/2+r.between(-1.5, 1.5))), from.y + long/2}
		out = append(out, vein{from: from, curves: []curve{{by: by, to: to}}, shade: shadeRay, wide: max(0.6, fine/3)})
	}
	return out
}

// through returns the smooth lines by points that lie within the strip; where one leaves
// it, it ends.
func (v vein) through(points []point, k plank) []vein {
	const inset = 0.35
	inside := func(p point) bool { return p.y > k.y0+inset && p.y < k.y1-inset }
	var out []vein
	var run []point
	flush := func() {
		if len(run) > 2 {
			out = append(out, v.smooth(run))
		}
		run = nil
	}
	for _, p := range points {
		if !inside(p) {
			flush()
			continue
		}
		run = append(run, p)
	}
	flush()
	return out
}

// smooth returns the curve that has points as its controls, through the middles between
// them.
func (v vein) smooth(points []point) vein {
	last := len(points) - 1
	v.from, v.curves = points[0], nil
	for i := 1; i < last; i++ {
		to := point{(points[i].x + points[i+1].x) / 2, (points[i].y + points[i+1].y) / 2}
		if i == last-1 {
			to = points[last]
		}
		v.curves = append(v.curves, curve{by: points[i], to: to})
	}
	return v
}
