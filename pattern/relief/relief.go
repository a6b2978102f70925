// Package relief computes how the section of a panel stands in a season: the shape of
// both faces, not only a figure for each glue line.
//
// Across the panel x runs from edge A, z up from the middle of the thickness, both in
// millimetres; heights are micrometres. Along the grain the panel is free, so the section
// is in plane stress, and no force acts on it but what its strips do to one another. Each
// strip wants to change by its free strains; a mesh of four-node rectangles gives what
// becomes of them together. Stiffness is that of small clear specimens in the Wood
// Handbook's ratios (FPL-GTR-190, 2010, chapter 5), the same in both seasons. Boards of
// one species differ by some 15 percent: every figure is an estimate, and no level comes
// of it.
package relief

import "math"

// A Direction is where the bark side of a strip lies, seen on the end grain at the datum
// end with strip 1 on the left and the visible face up: a unit vector, right and up
// positive. The zero value: nobody has looked.
type Direction struct{ X, Z float64 }

// Known reports whether somebody has looked.
func (d Direction) Known() bool { return d != Direction{} }

// A Strain is what wood would do alone, as fractions along the rays and along the rings.
type Strain struct{ Radial, Tangential float64 }

// Elastic is the stiffness of wood across the grain, in MPa; CrossPerMPa is the compliance
// that couples the two directions, below 0.
type Elastic struct {
	RadialMPa, TangentialMPa, ShearMPa float64
	CrossPerMPa                        float64
}

// A Strip is a strip of a section, from left to right.
type Strip struct {
	WidthMM float64
	Degrees float64   // at which the rings meet the face, 0 to 90
	Bark    Direction // at the strip's middle, in keeping with Degrees
	HeartMM float64   // from the strip's middle to the pith; 0: the rings are straight
	Elastic Elastic
	Free    []Strain // by season
	Wetter  Strain   // by how much more the visible face swells than the underside
}

// A Section is a panel, cut across.
type Section struct {
	ThicknessMM float64
	Strips      []Strip
}

// A Profile is how a section stands in one season. Heights are above the straight line
// that lies nearest to the middle between the faces.
type Profile struct {
	AtMM          []float64 // every half millimetre from edge A, and the other edge
	TopUM         []float64 // of the visible face
	UnderUM       []float64 // of the underside
	WidthChangeMM float64
}

// profileStep is how far the points of a profile lie apart, in mm.
const profileStep = 0.5

// WidthMM returns the width of the panel.
func (s Section) WidthMM() float64 {
	sum := 0.0
	for _, strip := range s.Strips {
		sum += strip.WidthMM
	}
	return sum
}

// points returns where a profile has its points.
func (s Section) points() []float64 {
	width := s.WidthMM()
	var at []float64
	for i := 0; float64(i)*profileStep < width-profileStep*1e-6; i++ {
		at = append(at, float64(i)*profileStep)
	}
	return append(at, width)
}

// Profiles computes how s stands in each of so many seasons. The same section gives the
// same digits. A section without strips, or without thickness, gives none.
func (s Section) Profiles(seasons int) []Profile { return s.profiles(seasons, newKept()) }

// profiles is Profiles with what is kept of sections before.
func (s Section) profiles(seasons int, k *kept) []Profile {
	if len(s.Strips) == 0 || s.ThicknessMM <= 0 || seasons == 0 {
		return nil
	}
	m := newMesh(s)
	solved := m.solve(seasons, k)
	out := make([]Profile, seasons)
	for i := range out {
		out[i] = m.profile(solved[i], s.points())
	}
	return out
}

// profile reads the heights of both faces at points off the shifts of the nodes, in mm.
func (m *mesh) profile(shift []float64, points []float64) Profile {
	p := Profile{AtMM: points, TopUM: make([]float64, len(points)), UnderUM: make([]float64, len(points))}
	column := 0
	for i, x := range points {
		for column+2 < len(m.x) && x > m.x[column+1] {
			column++
		}
		share := min(1, (x-m.x[column])/(m.x[column+1]-m.x[column]))
		height := func(row int) float64 {
			left, right := shift[unknown(column, row)+1], shift[unknown(column+1, row)+1]
			return 1000 * (left + share*(right-left))
		}
		p.TopUM[i], p.UnderUM[i] = height(rows), height(0)
	}
	middle := make([]float64, len(points))
	for i := range middle {
		middle[i] = (p.TopUM[i] + p.UnderUM[i]) / 2
	}
	base := fitLine(points, middle)
	for i, x := range points {
		p.TopUM[i] -= base.at(x)
		p.UnderUM[i] -= base.at(x)
	}
	p.WidthChangeMM = m.meanShift(shift, len(m.x)-1) - m.meanShift(shift, 0)
	return p
}

// meanShift returns how far a column of nodes moves across, as a mean over the thickness.
func (m *mesh) meanShift(shift []float64, column int) float64 {
	sum := 0.0
	for row := range rows {
		sum += (m.z[row+1] - m.z[row]) * (shift[unknown(column, row)] + shift[unknown(column, row+1)]) / 2
	}
	return sum / (m.z[rows] - m.z[0])
}

// A line is a straight line: its height at x = 0, and its slope.
type line struct{ height, slope float64 }

func (l line) at(x float64) float64 { return l.height + l.slope*x }

// fitLine returns the line nearest to points by the sum of squares.
func fitLine(x, y []float64) line {
	n := float64(len(x))
	var meanX, meanY float64
	for i := range x {
		meanX += x[i] / n
		meanY += y[i] / n
	}
	var xx, xy float64
	for i := range x {
		xx += (x[i] - meanX) * (x[i] - meanX)
		xy += (x[i] - meanX) * (y[i] - meanY)
	}
	slope := 0.0
	if xx > 0 {
		slope = xy / xx
	}
	return line{meanY - slope*meanX, slope}
}

// at returns the direction to the bark at the point x, z of a strip, both from its middle. Of
// a strip whose bark side is not known it is one of the two that there may be, all over.
func (s *Strip) at(x, z float64) Direction {
	switch {
	case !s.Bark.Known():
		sin, cos := math.Sincos(s.Degrees * math.Pi / 180)
		return Direction{sin, cos}
	case s.HeartMM == 0:
		return s.Bark
	}
	x, z = x+s.HeartMM*s.Bark.X, z+s.HeartMM*s.Bark.Z
	far := math.Hypot(x, z)
	if far == 0 {
		return s.Bark // the pith itself
	}
	return Direction{x / far, z / far}
}

// free returns the free strain of a strip in a season where its bark lies towards n, z above
// the middle of the thickness: across, through and sheared.
func (s *Strip) free(season int, n Direction, z, thickness float64) [3]float64 {
	r, t := s.Free[season].Radial+s.Wetter.Radial*z/thickness, s.Free[season].Tangential+s.Wetter.Tangential*z/thickness
	e := [3]float64{t*n.Z*n.Z + r*n.X*n.X, t*n.X*n.X + r*n.Z*n.Z}
	if s.Bark.Known() {
		e[2] = 2 * (r - t) * n.X * n.Z
	}
	return e
}

// stiffness returns the matrix from strains to stresses, both across, through and sheared.
// Of a strip whose bark side is not known it is the mean of the two that there may be.
func (s *Strip) stiffness() (d [3][3]float64) {
	if s.Bark.Known() {
		return s.Elastic.turned(s.Bark)
	}
	sin, cos := math.Sincos(s.Degrees * math.Pi / 180)
	left, right := s.Elastic.turned(Direction{-sin, cos}), s.Elastic.turned(Direction{sin, cos})
	for i := range d {
		for j := range d {
			d[i][j] = (left[i][j] + right[i][j]) / 2
		}
	}
	return d
}

// turned returns the stiffness of wood whose bark lies towards n.
func (e Elastic) turned(n Direction) (d [3][3]float64) {
	det := 1/(e.RadialMPa*e.TangentialMPa) - e.CrossPerMPa*e.CrossPerMPa
	own := [3][3]float64{ // along the rings, along the rays, sheared
		{1 / e.RadialMPa / det, -e.CrossPerMPa / det, 0},
		{-e.CrossPerMPa / det, 1 / e.TangentialMPa / det, 0},
		{0, 0, e.ShearMPa},
	}
	t := Direction{n.Z, -n.X}
	turn := [3][3]float64{ // strains of the section's axes into the wood's
		{t.X * t.X, t.Z * t.Z, t.X * t.Z},
		{n.X * n.X, n.Z * n.Z, n.X * n.Z},
		{2 * t.X * n.X, 2 * t.Z * n.Z, t.X*n.Z + t.Z*n.X},
	}
	for i := range d {
		for j := range d {
			for k := range own {
				for l := range own {
					d[i][j] += turn[k][i] * own[k][l] * turn[l][j]
				}
			}
		}
	}
	return d
}
