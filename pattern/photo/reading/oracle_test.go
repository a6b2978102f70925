package reading_test

import (
	"math"
	"slices"

	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/photo"
	"example.com/oddments/pattern/photo/reading"
)

// The statement of what is read, worked a second time: its own curve, matrices and CIELAB,
// least squares by orthogonal columns over rows of which the pull towards even light is some.
// It shares with the package only the pixels as they are coded.

type vec = [3]float64

func mul(m [3]vec, v vec) vec {
	var out vec
	for i := range m {
		out[i] = m[i][0]*v[0] + m[i][1]*v[1] + m[i][2]*v[2]
	}
	return out
}

var (
	// IEC 61966-2-1, to seven places.
	oracleSRGB = [3]vec{{0.4124564, 0.3575761, 0.1804375}, {0.2126729, 0.7151522, 0.0721750}, {0.0193339, 0.1191920, 0.9503041}}
	// The Bradford matrix and its inverse as published.
	oracleCones = [3]vec{{0.8951, 0.2664, -0.1614}, {-0.7502, 1.7135, 0.0367}, {0.0389, -0.0685, 1.0296}}
	oracleBack  = [3]vec{{0.9869929, -0.1470543, 0.1599627}, {0.4323053, 0.5183603, 0.0492912}, {-0.0085287, 0.0400428, 0.9684867}}
	oracleWhite = vec{0.95047, 1, 1.08883}
)

func oracleLab(xyz vec) colour.Lab {
	f := func(t float64) float64 {
		if t > 216./24389 {
			return math.Cbrt(t)
		}
		return (24389./27*t + 16) / 116
	}
	x, y, z := f(xyz[0]/oracleWhite[0]), f(xyz[1]/oracleWhite[1]), f(xyz[2]/oracleWhite[2])
	return colour.Lab{L: 116*y - 16, A: 500 * (x - y), B: 200 * (y - z)}
}

func oracleXYZ(c colour.Lab) vec {
	g := func(t float64) float64 {
		if t > 6./29 {
			return t * t * t
		}
		return (116*t - 16) * 27 / 24389
	}
	y := (c.L + 16) / 116
	return vec{oracleWhite[0] * g(y+c.A/500), oracleWhite[1] * g(y), oracleWhite[2] * g(y-c.B/200)}
}

type dot struct {
	v    vec
	x, y float64
}

// oracleDots are the pixels of a box that count, in XYZ.
func oracleDots(p *photo.Photo, b reading.Box) (dots []dot) {
	s := 1
	for b.W*b.H > 65536*s*s {
		s++
	}
	for y := 0; y < b.H; y += s {
		for x := 0; x < b.W; x += s {
			coded := p.At(b.X+x, b.Y+y).Coded
			if slices.Max(coded[:]) >= 254 || slices.Min(coded[:]) <= 0 {
				continue
			}
			var l vec
			for i, c := range coded {
				if v := c / 255; v <= 0.04045 {
					l[i] = v / 12.92
				} else {
					l[i] = math.Exp(2.4 * math.Log((v+0.055)/1.055))
				}
			}
			dots = append(dots, dot{mul(oracleSRGB, l), float64(b.X+x) + 0.5, float64(b.Y+y) + 0.5})
		}
	}
	return dots
}

func oracleMean(dots []dot) vec {
	dots = slices.Clone(dots)
	slices.SortStableFunc(dots, func(a, b dot) int {
		if a.v[1] < b.v[1] {
			return -1
		}
		return 1
	})
	n := len(dots) / 20
	dots = dots[n : len(dots)-n]
	var m vec
	for _, d := range dots {
		for i := range m {
			m[i] += d.v[i] / float64(len(dots))
		}
	}
	return m
}

// oracleFit solves rows times x = values by orthogonal columns (Gram and Schmidt).
func oracleFit(rows [][]float64, values []float64) []float64 {
	n := len(rows[0])
	q := make([][]float64, n)
	r := make([][]float64, n)
	inner := func(a, b []float64) (sum float64) {
		for i := range a {
			sum += a[i] * b[i]
		}
		return sum
	}
	for j := range n {
		r[j], q[j] = make([]float64, n), make([]float64, len(rows))
		for i := range rows {
			q[j][i] = rows[i][j]
		}
		for k := range j {
			r[k][j] = inner(q[k], q[j])
			for i := range rows {
				q[j][i] -= r[k][j] * q[k][i]
			}
		}
		r[j][j] = math.Sqrt(inner(q[j], q[j]))
		for i := range rows {
			q[j][i] /= r[j][j]
		}
	}
	x := make([]float64, n)
	for j := n - 1; j >= 0; j-- {
		x[j] = inner(q[j], values)
		for k := j + 1; k < n; k++ {
			x[j] -= r[j][k] * x[k]
		}
		x[j] /= r[j][j]
	}
	return x
}

// oraclePaper returns how bright paper is at a place, and the residual.
func oraclePaper(p *photo.Photo, white []reading.Box) (func(x, y float64) vec, float64) {
	type cell struct{ x, y float64 }
	var cells []cell
	var lns [3][]float64
	for _, b := range white {
		nx, ny := max(1, min(4, b.W/40)), max(1, min(4, b.H/40))
		for j := range ny {
			for i := range nx {
				x0, x1, y0, y1 := b.X+b.W*i/nx, b.X+b.W*(i+1)/nx, b.Y+b.H*j/ny, b.Y+b.H*(j+1)/ny
				dots := oracleDots(p, reading.Box{X: x0, Y: y0, W: x1 - x0, H: y1 - y0})
				if len(dots) < 200 {
					continue
				}
				cells = append(cells, cell{float64(x0+x1) / 2, float64(y0+y1) / 2})
				for k, v := range mul(oracleCones, oracleMean(dots)) {
					lns[k] = append(lns[k], math.Log(v))
				}
			}
		}
	}
	n, mx, my := float64(len(cells)), 0.0, 0.0
	for _, c := range cells {
		mx, my = mx+c.x, my+c.y
	}
	mx, my = mx/n, my/n
	half := float64(max(p.Width, p.Height)) / 2
	count := 3
	if len(white) >= 3 {
		count = 5
	}
	row := func(x, y float64) []float64 {
		u, v := (x-mx)/half, (y-my)/half
		return []float64{1, u, v, u * u, v * v}[:count]
	}
	var forms [3][]float64
	residual := 0.0
	for k := range forms {
		var rows [][]float64
		for _, c := range cells {
			rows = append(rows, row(c.x, c.y))
		}
		values := slices.Clone(lns[k])
		for j, pull := range []float64{0, 0.001, 0.001, 0.003, 0.003}[:count] {
			extra := make([]float64, count)
			extra[j] = math.Sqrt(n * pull)
			rows, values = append(rows, extra), append(values, 0)
		}
		forms[k] = oracleFit(rows, values)
		for i, c := range cells {
			off := lns[k][i]
			for j, t := range row(c.x, c.y) {
				off -= forms[k][j] * t
			}
			residual += off * off
		}
	}
	return func(x, y float64) (out vec) {
		for k := range out {
			for j, t := range row(x, y) {
				out[k] += forms[k][j] * t
			}
			out[k] = math.Exp(out[k])
		}
		return out
	}, math.Sqrt(residual / (3 * n))
}

// oraclePieces reads pieces by paper, and by a grey card where there is one.
func oraclePieces(p *photo.Photo, white []reading.Box, grey *reading.GreyCard, paper colour.Lab, boxes []reading.Box) (labs []colour.Lab, residual, gamma float64) {
	light, residual := oraclePaper(p, white)
	cones := mul(oracleCones, oracleXYZ(paper))
	divided := func(d dot) vec {
		at, q := light(d.x, d.y), mul(oracleCones, d.v)
		return vec{q[0] / at[0], q[1] / at[1], q[2] / at[2]}
	}
	byPaper := func(q vec) vec { return mul(oracleBack, vec{q[0] * cones[0], q[1] * cones[1], q[2] * cones[2]}) }
	correct := byPaper
	if grey != nil {
		dots := oracleDots(p, grey.Box)
		for i, d := range dots {
			dots[i].v = divided(d)
		}
		g := oracleMean(dots)
		share := grey.Percent / 100
		gamma = math.Log(share/oracleXYZ(paper)[1]) / math.Log(byPaper(g)[1]/oracleXYZ(paper)[1])
		full := mul(oracleCones, oracleWhite)
		correct = func(q vec) vec {
			for i := range q {
				q[i] = share * full[i] * math.Pow(math.Max(q[i], 1e-6)/g[i], gamma)
			}
			return mul(oracleBack, q)
		}
	}
	for _, b := range boxes {
		dots := oracleDots(p, b)
		for i, d := range dots {
			dots[i].v = correct(divided(d))
		}
		labs = append(labs, oracleLab(oracleMean(dots)))
	}
	return labs, residual, gamma
}
