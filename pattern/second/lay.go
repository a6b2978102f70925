package second

import (
	"cmp"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// A Cell is the part of one strip in one bar, as it lies in a board.
type Cell struct {
	Strip  int                     // from 1
	Bars   [pattern.MaxSeconds]int // its bar in each glue-up, from 1
	Up     Face
	Points []Point // convex, anticlockwise, from the least x
	Across vector  // where across the strips points in plan
	Along  vector  // where along the strips points; end grain: where through the panel does
}

// A Face is the face of a cell's timber that is up.
type Face int

// The faces: those of the panel, and the sawn ends of a bar.
const (
	Top Face = iota
	Under
	Near
	Far
)

// String returns top, under, near or far.
func (f Face) String() string { return [...]string{"top", "under", "near", "far"}[f] }

// other returns the face on the other side.
func (f Face) other() Face { return f ^ 1 }

// A bed is one bar before it is laid: its cells in u, square to the cut from its near
// side, and v along it.
type bed struct {
	cells  []Cell
	points [][]spot
	room   []spot // that points lie in
}

// add puts a cell to the bar.
func (b *bed) add(c Cell, at []spot) {
	from := len(b.room)
	b.room = append(b.room, at...)
	b.cells, b.points = append(b.cells, c), append(b.points, b.room[from:len(b.room):len(b.room)])
}

// empty makes room for the next bar.
func (b *bed) empty() { b.cells, b.points, b.room = b.cells[:0], b.points[:0], b.room[:0] }

// lay puts the bars of glue-up n, counted from 0, side by side and clips the board out of
// them.
func (g *GlueUp) lay(cells []Cell, strips []pattern.Strip, n int) {
	if g.Size.Length == 0 {
		return
	}
	saw := newBench(g, cells)
	high := float64(g.From.Width)/g.saw.sin + g.lost()
	trim := float64(g.Trim)
	up := trim + float64(slices.Max(g.Shifts)) + g.lost()
	turns, alike := false, true
	g.Cells = make([]Cell, 0, min(MaxCells, g.Bars*len(cells)))
	var clip clipper
	for i := range g.Bars {
		b := saw.cut(i)
		if g.OverAt(i) {
			b.over(float64(g.Across))
		}
		if g.TurnedAt(i) {
			turns, alike = true, alike && b.turnsAlike(strips, float64(g.Across), high)
			b.turn(float64(g.Across), high)
		}
		from := len(g.Cells)
		g.place(&clip, b, n, i, float64(length.Length(i)*g.Across)-trim, float64(g.Shifts[i])-up)
		if len(g.Cells) > MaxCells {
			g.Cells, g.Unlaid = nil, true
			return
		}
		if bar := g.Cells[from:]; !slices.IsSortedFunc(bar, across) {
			slices.SortStableFunc(bar, across)
		}
	}
	g.TurnsAlike = turns && alike
}

// across orders the cells of a bar from edge A on.
func across(a, b Cell) int {
	return cmp.Or(cmp.Compare(lowest(&a), lowest(&b)), cmp.Compare(a.Points[0].X, b.Points[0].X))
}

// lowest returns the least y of a cell.
func lowest(c *Cell) length.Length {
	y := c.Points[0].Y
	for _, p := range c.Points {
		y = min(y, p.Y)
	}
	return y
}

// place adds the cells of bar i of glue-up n, moved by x and y, where they lie in the board.
func (g *GlueUp) place(clip *clipper, b *bed, n, i int, x, y float64) {
	for k, c := range b.cells {
		at := clip.take(b.points[k])
		for j := range at {
			at[j].x += x
			at[j].y += y
		}
		clip.to(float64(g.Size.Length), float64(g.Size.Width))
		c.Points = clip.points(g.Mitred() || c.slanted())
		if c.Points == nil {
			continue
		}
		c.Bars[n] = i + 1
		g.Cells = append(g.Cells, c)
	}
}

// slanted reports whether the cell does not lie square to the board.
func (c Cell) slanted() bool { return c.Across.X != 0 && c.Across.Y != 0 }

// A bench has what is cut, ready for the cuts of one glue-up.
type bench struct {
	g     *GlueUp
	cells []Cell
	spots [][]spot // in u and v, as bar 1 has them
	from  []float64
	to    []float64 // least and greatest u
	b     bed
	clip  clipper
}

func newBench(g *GlueUp, cells []Cell) *bench {
	saw := &bench{g: g, cells: slices.Clone(cells)}
	for i := range saw.cells {
		c := &saw.cells[i]
		if g.Lay == pattern.LayEnd {
			c.Up = Near
			low, high := float64(c.Points[0].Y), float64(c.Points[2].Y)
			thick := float64(g.From.Thickness)
			saw.spots = append(saw.spots, []spot{{0, low}, {thick, low}, {thick, high}, {0, high}})
			continue
		}
		c.Across, c.Along = g.saw.along(c.Across), g.saw.along(c.Along)
		spots := make([]spot, len(c.Points))
		for k, p := range c.Points {
			v := g.saw.along(vector{float64(p.X), float64(p.Y)})
			spots[k] = spot{v.X, v.Y}
		}
		saw.spots = append(saw.spots, spots)
		least, most := spots[0].x, spots[0].x
		for _, s := range spots {
			least, most = min(least, s.x), max(most, s.x)
		}
		saw.from, saw.to = append(saw.from, least), append(saw.to, most)
	}
	return saw
}

// along turns a vector of the panel into one of a bar.
func (m mitre) along(v vector) vector {
	return vector{v.X*m.sin - v.Y*m.cos, v.X*m.cos + v.Y*m.sin}
}

// cut returns bar i, counted from 0, which is good until the next is cut.
func (s *bench) cut(i int) *bed {
	b := &s.b
	b.empty()
	off, wide := s.g.offset(i), float64(s.g.Bar)
	for k, c := range s.cells {
		if s.g.Lay == pattern.LayEnd {
			b.add(c, s.spots[k])
			continue
		}
		if s.to[k] <= off || s.from[k] >= off+wide {
			continue
		}
		at := s.clip.take(s.spots[k])
		for j := range at {
			at[j].x -= off
			at[j].y -= off * s.g.saw.cot()
		}
		s.clip.between(wide)
		b.add(c, s.clip.at)
	}
	return b
}

// over lays a bar with its other face up.
func (b *bed) over(wide float64) {
	for k := range b.cells {
		c := &b.cells[k]
		c.Up = c.Up.other()
		c.Across.X, c.Along.X = -c.Across.X, -c.Along.X
		for j := range b.points[k] {
			b.points[k][j].x = wide - b.points[k][j].x
		}
		slices.Reverse(b.points[k])
	}
}

// turn lays a bar end for end, and lists what lay last first.
func (b *bed) turn(wide, high float64) {
	for k := range b.cells {
		c := &b.cells[k]
		c.Across, c.Along = vector{-c.Across.X, -c.Across.Y}, vector{-c.Along.X, -c.Along.Y}
		for j, p := range b.points[k] {
			b.points[k][j] = spot{wide - p.x, high - p.y}
		}
	}
	slices.Reverse(b.cells)
	slices.Reverse(b.points)
}

// turnsAlike reports whether a bar looks the same end for end.
func (b *bed) turnsAlike(strips []pattern.Strip, wide, high float64) bool {
	type look struct {
		strip                  pattern.Strip
		least, low, most, high length.Length
	}
	seen := map[look]int{}
	for k, c := range b.cells {
		low, top := b.points[k][0], b.points[k][0]
		for _, p := range b.points[k] {
			low, top = spot{min(low.x, p.x), min(low.y, p.y)}, spot{max(top.x, p.x), max(top.y, p.y)}
		}
		strip := alikeOf(strips[c.Strip-1])
		seen[look{strip, rounded(low.x), rounded(low.y), rounded(top.x), rounded(top.y)}]++
		seen[look{strip, rounded(wide - top.x), rounded(high - top.y), rounded(wide - low.x), rounded(high - low.y)}]--
	}
	for _, n := range seen {
		if n != 0 {
			return false
		}
	}
	return true
}

// turned returns the cells of a board that is so wide as the next glue-up cuts it: turned
// a quarter, so that its bar 1 lies at edge A.
func turned(cells []Cell, wide length.Length) []Cell {
	all := slices.Clone(cells)
	for i, c := range all {
		points := make([]Point, len(c.Points))
		for k, p := range c.Points {
			points[k] = Point{wide - p.Y, p.X}
		}
		all[i].Points = points
		all[i].Across, all[i].Along = c.Across.quarter(), c.Along.quarter()
	}
	return all
}
