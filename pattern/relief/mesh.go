package relief

import "math"

// The mesh: so many rows of elements through the thickness, and two unknowns a node, its
// shift across and up, numbered column by column.
const (
	rows     = 8
	perNode  = 2
	inColumn = perNode * (rows + 1)
	// halfBand is how many unknowns from one on an equation may reach: a column and a node
	// further.
	halfBand = inColumn + 2*perNode
)

// unknown returns the number of a node's shift across; that up comes after it.
func unknown(column, row int) int { return column*inColumn + row*perNode }

// A mesh is a section parted into elements, each within one strip.
type mesh struct {
	section Section
	x, z    []float64 // of the columns and rows of nodes
	strip   []int     // by column of elements
	share   []float64 // likewise: its width in parts of the strip's own columns
	middle  []float64 // of each strip
}

// elements returns into how many equal parts strip i is parted across, before those next to
// other strips are parted again.
func (s Section) elements(i int) float64 {
	return max(4, 2*math.Ceil(5*s.Strips[i].WidthMM/s.ThicknessMM))
}

// columns returns how many columns of elements s has.
func (s Section) columns() float64 {
	sum := 0.0
	for i := range s.Strips {
		sum += s.elements(i) + 4
	}
	return sum
}

// newMesh parts s. Where strips meet, and at the edges, the elements are smaller.
func newMesh(s Section) *mesh {
	m := &mesh{section: s, x: []float64{0}}
	for row := range rows + 1 {
		j := float64(row)
		m.z = append(m.z, -s.ThicknessMM/4*(math.Cos(math.Pi*j/rows)+1-2*j/rows))
	}
	from := 0.0
	for i, strip := range s.Strips {
		m.middle = append(m.middle, from+strip.WidthMM/2)
		n := int(s.elements(i))
		each := strip.WidthMM / float64(n)
		at := []float64{0, 0.25, 0.5}
		for k := 1; k < n; k++ {
			at = append(at, float64(k))
		}
		at = append(at, float64(n)-0.5, float64(n)-0.25, float64(n))
		for k := 1; k < len(at); k++ {
			m.x = append(m.x, from+at[k]*each)
			m.strip, m.share = append(m.strip, i), append(m.share, at[k]-at[k-1])
		}
		from += strip.WidthMM
	}
	return m
}

// solve returns the shifts of the nodes in each season, in mm. One corner is held, and the
// other corner of the underside up and down.
func (m *mesh) solve(seasons int, kept *kept) [][]float64 {
	k := &kept.equations
	k.reset(len(m.x)*inColumn, halfBand)
	loads := make([][]float64, seasons)
	for i := range loads {
		loads[i] = make([]float64, k.n)
	}
	for column, strip := range m.strip {
		kind := elementKind{strip, m.share[column], m.section.Strips[strip].Bark}
		of, ok := kept.elements[kind]
		if !ok {
			of = m.elements(column)
			kept.elements[kind] = of
		}
		for row, e := range of {
			m.add(k, loads, e, column, row)
		}
	}
	for _, held := range [...]int{unknown(0, 0), unknown(0, 0) + 1, unknown(len(m.x)-1, 0) + 1} {
		k.hold(held)
		for i := range loads {
			loads[i][held] = 0
		}
	}
	k.factor()
	k.solve(loads)
	return loads
}

// elementKind is what columns of elements have in common that are alike.
type elementKind struct {
	strip int
	share float64
	bark  Direction
}

// What is kept from one section to the next, whose strips differ in their bark sides alone:
// some MB, and a fifth of the work.
type kept struct {
	equations band
	elements  map[elementKind]*[rows]*element
}

func newKept() *kept { return &kept{elements: map[elementKind]*[rows]*element{}} }

// elements returns those of a column: rows are as high beneath the middle as above.
func (m *mesh) elements(column int) *[rows]*element {
	out := &[rows]*element{}
	stiffness := m.section.Strips[m.strip[column]].stiffness()
	for row := range rows / 2 {
		e := newElement(m.x[column+1]-m.x[column], m.z[row+1]-m.z[row], stiffness)
		out[row], out[rows-1-row] = e, e
	}
	return out
}

// add adds an element to the equations: its stiffness, and what its strip wants to do.
func (m *mesh) add(k *band, loads [][]float64, e *element, column, row int) {
	var at [8]int
	for i, corner := range corners {
		at[2*i] = unknown(column+corner.right, row+corner.up)
		at[2*i+1] = at[2*i] + 1
	}
	for j, b := range at {
		to := k.column(b)
		for i, a := range at {
			if a >= b {
				to[a-b] += e.k[i][j]
			}
		}
	}
	i := m.strip[column]
	strip := &m.section.Strips[i]
	x, z := (m.x[column]+m.x[column+1])/2-m.middle[i], (m.z[row]+m.z[row+1])/2
	width, height := m.x[column+1]-m.x[column], m.z[row+1]-m.z[row]
	for g, point := range gauss {
		z := z + point.eta*height/2
		bark := strip.at(x+point.xi*width/2, z)
		for season, load := range loads {
			free := strip.free(season, bark, z, m.section.ThicknessMM)
			for i, a := range at {
				by := &e.load[g][i]
				load[a] += by[0]*free[0] + by[1]*free[1] + by[2]*free[2]
			}
		}
	}
}
