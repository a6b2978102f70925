package relief

import "math"

// An element is a rectangle of four nodes, each shift bilinear in between, with the modes
// 1 - xi^2 and 1 - eta^2 of each shift besides, so that it can bend (Wilson, Taylor,
// Doherty and Ghaboussi, "Incompatible displacement models", 1973). On rectangles it passes
// the patch test as it is. The modes belong to the element alone and are condensed.
type element struct {
	k    [8][8]float64    // stiffness between the shifts of its corners
	load [4][8][3]float64 // by Gauss point: the loads that a free strain there makes
}

// corners are the nodes of an element, in the order of its shifts.
var corners = [4]struct{ right, up int }{{0, 0}, {1, 0}, {1, 1}, {0, 1}}

// gauss are the points of the 2 x 2 rule of Gauss, all of the same weight.
var gauss = func() (points [4]struct{ xi, eta float64 }) {
	at := 1 / math.Sqrt(3)
	for i, c := range corners {
		points[i].xi, points[i].eta = at*float64(2*c.right-1), at*float64(2*c.up-1)
	}
	return points
}()

// strains of the 8 shifts of the corners, then of the 4 of the modes, at one point.
type strains [3][12]float64

func strainsAt(xi, eta, width, height float64) (b strains) {
	toX, toZ := 2/width, 2/height
	for i, c := range corners {
		x, z := float64(2*c.right-1), float64(2*c.up-1)
		dx, dz := x*(1+eta*z)/4*toX, z*(1+xi*x)/4*toZ
		b[0][2*i], b[1][2*i+1] = dx, dz
		b[2][2*i], b[2][2*i+1] = dz, dx
	}
	dx, dz := -2*xi*toX, -2*eta*toZ
	b[0][8], b[2][9] = dx, dx   // 1 - xi^2 of the shifts across and up
	b[2][10], b[1][11] = dz, dz // 1 - eta^2, likewise
	return b
}

// newElement returns the element of such a size, in mm, from a material with stiffness d.
func newElement(width, height float64, d [3][3]float64) *element {
	var full [12][12]float64
	var stress [4][3][12]float64 // D B J at each point
	area := width * height / 4
	for g, p := range gauss {
		b := strainsAt(p.xi, p.eta, width, height)
		for i := range 3 {
			for j := range 12 {
				stress[g][i][j] = area * (d[i][0]*b[0][j] + d[i][1]*b[1][j] + d[i][2]*b[2][j])
			}
		}
		for i := range 12 {
			for j := range 12 {
				full[i][j] += b[0][i]*stress[g][0][j] + b[1][i]*stress[g][1][j] + b[2][i]*stress[g][2][j]
			}
		}
	}
	modes := condense(&full)
	e := &element{}
	for i := range 8 {
		for j := range 8 {
			e.k[i][j] = full[i][j]
			for m := range 4 {
				e.k[i][j] -= full[i][8+m] * modes[m][j]
			}
		}
		for g := range gauss {
			for s := range 3 {
				e.load[g][i][s] = stress[g][s][i]
				for m := range 4 {
					e.load[g][i][s] -= modes[m][i] * stress[g][s][8+m]
				}
			}
		}
	}
	return e
}

// condense returns how the modes follow the shifts of the corners: the inverse of their own
// stiffness times that between them and the corners. It is by elimination; the modes'
// stiffness is positive definite, so no pivot is sought.
func condense(full *[12][12]float64) (out [4][8]float64) {
	var a [4][12]float64 // the modes' own stiffness, then the right hand sides
	for i := range 4 {
		copy(a[i][:4], full[8+i][8:])
		copy(a[i][4:], full[8+i][:8])
	}
	for i := range 4 {
		for r := range 4 {
			if r == i {
				continue
			}
			f := a[r][i] / a[i][i]
			for c := i; c < 12; c++ {
				a[r][c] -= f * a[i][c]
			}
		}
	}
	for i := range 4 {
		for j := range 8 {
			out[i][j] = a[i][4+j] / a[i][i]
		}
	}
	return out
}
