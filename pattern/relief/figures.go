package relief

import "math"

// Figures are what a maker reads of a profile; heights are in micrometres.
type Figures struct {
	CupUM      float64 // above 0: the edges stand up
	GapTopUM   float64 // the largest distance under a straightedge across the visible face
	GapUnderUM float64 // and across the underside
	Strips     []StripFigures
	Lines      []LineFigures
}

// StripFigures say how one strip stands.
type StripFigures struct {
	CrownUM float64 // its middle above its edges; below 0: it is hollow
	UnderUM float64 // likewise on the underside, seen from there
}

// LineFigures say how the two strips of a glue line stand to one another.
type LineFigures struct {
	StepUM  float64 // from middle to middle of what is alike on either side
	EdgeUM  float64 // what a finger meets: 4 mm on either side
	RidgeUM float64 // the line above what lies beside it; below 0: a valley
}

// How far from a glue line a finger feels, and a ridge is measured at most, in mm.
const (
	fingerMM = 4
	ridgeMM  = 10
)

// Figures reads the figures of p, a profile of s, off; run says for each strip which run
// of strips that move as one it belongs to.
func (s Section) Figures(p Profile, run []int) Figures {
	c := curves{p: p, width: s.WidthMM()}
	edges := s.edges()
	f := Figures{CupUM: c.cup(), GapTopUM: c.gap(c.top), GapUnderUM: c.gap(func(i int) float64 { return -p.UnderUM[i] })}
	for i := range s.Strips {
		left, right := edges[i], edges[i+1]
		middle := (left + right) / 2
		f.Strips = append(f.Strips, StripFigures{
			CrownUM: c.at(p.TopUM, middle) - (c.at(p.TopUM, left)+c.at(p.TopUM, right))/2,
			UnderUM: (c.at(p.UnderUM, left)+c.at(p.UnderUM, right))/2 - c.at(p.UnderUM, middle),
		})
	}
	for i := 1; i < len(s.Strips); i++ {
		at, d := edges[i], s.ridgeMM(i)
		l := LineFigures{
			EdgeUM:  math.Abs(c.half(at+fingerMM) - c.half(at-fingerMM)),
			RidgeUM: c.at(p.TopUM, at) - (c.at(p.TopUM, at-d)+c.at(p.TopUM, at+d))/2,
		}
		if run[i] != run[i-1] {
			l.StepUM = math.Abs(c.half(middleOf(run, i, edges)) - c.half(middleOf(run, i-1, edges)))
		}
		f.Lines = append(f.Lines, l)
	}
	return f
}

// edges returns where the strips begin and the last one ends.
func (s Section) edges() []float64 {
	at := []float64{0}
	for _, strip := range s.Strips {
		at = append(at, at[len(at)-1]+strip.WidthMM)
	}
	return at
}

// MayRidgeUM returns in what ridge the strips of glue line n, from 1, may stand if both are
// rift and lean against each other: by what each leans alone, in the season in which that is
// more.
func (s Section) MayRidgeUM(n int) float64 {
	if !s.rift(n-1) || !s.rift(n) {
		return 0
	}
	left, right := &s.Strips[n-1], &s.Strips[n]
	most := 0.0
	for season := range left.Free {
		most = max(most, (math.Abs(left.lean(season))+math.Abs(right.lean(season)))/2)
	}
	return 1000 * most * s.ridgeMM(n)
}

// lean returns the slope that a season gives the faces of a strip alone.
func (s *Strip) lean(season int) float64 {
	sin, cos := math.Sincos(s.Degrees * math.Pi / 180)
	return 2 * (s.Free[season].Tangential - s.Free[season].Radial) * sin * cos
}

// ridgeMM returns how far from glue line n, from 1, its ridge is measured.
func (s Section) ridgeMM(n int) float64 {
	return min(ridgeMM, s.Strips[n-1].WidthMM/2, s.Strips[n].WidthMM/2)
}

// middleOf returns the middle of the run that strip i belongs to.
func middleOf(run []int, i int, edges []float64) float64 {
	first, last := i, i
	for first > 0 && run[first-1] == run[i] {
		first--
	}
	for last+1 < len(run) && run[last+1] == run[i] {
		last++
	}
	return (edges[first] + edges[last+1]) / 2
}

// curves read the faces of a profile between its points.
type curves struct {
	p     Profile
	width float64
}

func (c curves) top(i int) float64 { return c.p.TopUM[i] }

// at returns the height of a face at x, kept on the panel.
func (c curves) at(face []float64, x float64) float64 {
	x = max(0, min(c.width, x))
	i := min(int(x/profileStep), len(face)-2)
	from, to := c.p.AtMM[i], c.p.AtMM[i+1]
	return face[i] + (face[i+1]-face[i])*(x-from)/(to-from)
}

// half returns half the change of thickness at x.
func (c curves) half(x float64) float64 { return (c.at(c.p.TopUM, x) - c.at(c.p.UnderUM, x)) / 2 }

// cup returns the rise of the parabola that lies nearest to the middle between the faces,
// from the panel's middle to its edges.
func (c curves) cup() float64 {
	// With x from the middle the parabola a + b x + q x^2 has its q from what is left of
	// x^2 after its own straight line.
	n := len(c.p.AtMM)
	x, square, middle := make([]float64, n), make([]float64, n), make([]float64, n)
	for i, at := range c.p.AtMM {
		x[i] = at - c.width/2
		square[i] = x[i] * x[i]
		middle[i] = (c.p.TopUM[i] + c.p.UnderUM[i]) / 2
	}
	base := fitLine(x, square)
	var over, under float64
	for i := range x {
		rest := square[i] - base.at(x[i])
		over += rest * middle[i]
		under += rest * rest
	}
	if under == 0 {
		return 0
	}
	return over / under * c.width * c.width / 4
}

// gap returns the largest distance between a face and the straightedge that lies on it:
// its upper convex hull.
func (c curves) gap(height func(i int) float64) float64 {
	var hull []int
	for i, x := range c.p.AtMM {
		for len(hull) >= 2 {
			a, b := hull[len(hull)-2], hull[len(hull)-1]
			left := (height(b) - height(a)) * (x - c.p.AtMM[a])
			if left > (height(i)-height(a))*(c.p.AtMM[b]-c.p.AtMM[a]) {
				break // b stands above the line from a to i
			}
			hull = hull[:len(hull)-1]
		}
		hull = append(hull, i)
	}
	most := 0.0
	for k := 1; k < len(hull); k++ {
		a, b := hull[k-1], hull[k]
		slope := (height(b) - height(a)) / (c.p.AtMM[b] - c.p.AtMM[a])
		for i := a; i <= b; i++ {
			most = max(most, height(a)+slope*(c.p.AtMM[i]-c.p.AtMM[a])-height(i))
		}
	}
	return most
}

// unseenHeartMM is how far the pith of a strip is taken to lie that nobody has measured.
const unseenHeartMM = 120

// Band returns, at every point of a profile of s, by how much the strips whose bark side
// nobody has seen may shift it either way in a season, in micrometres: the root of the sum
// of the squares of how each would lean, and of how each would cup.
func (s Section) Band(season int) []float64 {
	points, edges := s.points(), s.edges()
	squares := make([]float64, len(points))
	lean, bow := make([]float64, len(points)), make([]float64, len(points))
	for i := range s.Strips {
		strip := &s.Strips[i]
		if strip.Bark.Known() {
			continue
		}
		sin, cos := math.Sincos(strip.Degrees * math.Pi / 180)
		differ := strip.Free[season].Tangential - strip.Free[season].Radial
		half := strip.WidthMM / 2
		for k, x := range points {
			from := x - edges[i] - half
			clip := max(-half, min(half, from))
			lean[k] = strip.lean(season) * clip
			bow[k] = -differ * cos / unseenHeartMM * (cos*cos*clip*clip + sin*sin*strip.WidthMM*max(0, math.Abs(from)-half))
		}
		for _, shape := range [...][]float64{lean, bow} {
			base := fitLine(points, shape)
			for k, x := range points {
				by := 1000 * (shape[k] - base.at(x))
				squares[k] += by * by
			}
		}
	}
	for k := range squares {
		squares[k] = math.Sqrt(squares[k])
	}
	return squares
}
