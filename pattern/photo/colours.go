package photo

import "github.com/lucasb-eyer/go-colorful"

// A Triple is three numbers of one colour: coded channels, linear light, XYZ, or cones.
type Triple [3]float64

// A Matrix takes Triples to Triples.
type Matrix [3][3]float64

// Times returns m t.
func (m Matrix) Times(t Triple) Triple {
	var out Triple
	for i, row := range m {
		out[i] = row[0]*t[0] + row[1]*t[1] + row[2]*t[2]
	}
	return out
}

// By returns m n: first n, then m.
func (m Matrix) By(n Matrix) Matrix {
	var out Matrix
	for i := range m {
		for j := range n {
			out[i][j] = m[i][0]*n[0][j] + m[i][1]*n[1][j] + m[i][2]*n[2][j]
		}
	}
	return out
}

func (m Matrix) determinant() float64 {
	return m[0][0]*(m[1][1]*m[2][2]-m[1][2]*m[2][1]) -
		m[0][1]*(m[1][0]*m[2][2]-m[1][2]*m[2][0]) +
		m[0][2]*(m[1][0]*m[2][1]-m[1][1]*m[2][0])
}

// Inverse returns what takes m back. The determinant of m must not be 0.
func (m Matrix) Inverse() Matrix {
	var out Matrix
	d := m.determinant()
	for i := range m {
		for j := range m {
			a, b, c, e := (j+1)%3, (j+2)%3, (i+1)%3, (i+2)%3
			out[i][j] = (m[a][c]*m[b][e] - m[a][e]*m[b][c]) / d
		}
	}
	return out
}

// D65 is daylight as go-colorful has it.
func D65() Triple { return Triple(colorful.D65) }

// D50 is the white of colour profiles (ISO 15076-1).
func D50() Triple { return Triple{0.9642, 1, 0.8249} }

// Cones is the Bradford matrix, from XYZ to what adapts to a light.
func Cones() Matrix {
	return Matrix{{0.8951, 0.2664, -0.1614}, {-0.7502, 1.7135, 0.0367}, {0.0389, -0.0685, 1.0296}}
}

// FromD50 takes XYZ under the white of colour profiles to daylight.
func FromD50() Matrix { return Adapt(D50(), D65()) }

// Adapt takes XYZ under one white to another (ISO 15076-1, Annex E).
func Adapt(from, to Triple) Matrix {
	m := Cones()
	was, is := m.Times(from), m.Times(to)
	scale := Matrix{{is[0] / was[0]}, {0, is[1] / was[1]}, {0, 0, is[2] / was[2]}}
	return m.Inverse().By(scale.By(m))
}
