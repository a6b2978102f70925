package ceiling

import (
	"context"

	"example.com/oddments/pattern/length"
)

// stock returns what all the rack yields at most at the prices, and writes down in give the
// millimetres of width of strips that this is, by row of the grid.
func (c *Ceiling) stock(ctx context.Context, give []float64) (worth float64) {
	for p := range c.pools {
		pool := &c.pools[p]
		for i := range pool.stacks {
			if ctx.Err() != nil {
				return 0 // for nothing: the step is given up
			}
			worth += c.saw(p, &pool.stacks[i], give)
		}
		for i := range pool.ready {
			u := &pool.ready[i]
			best, glued := 0.0, -1
			for g, at := range u.at {
				if at >= 0 {
					if now := c.price[c.base[p][g]+at]; now > best {
						best, glued = now, g
					}
				}
			}
			if glued >= 0 {
				worth += times(times(best, u.wide), u.count)
				give[c.base[p][glued]+u.at[glued]] += times(u.wide, u.count)
			}
		}
	}
	return worth
}

// saw returns what pieces of one section yield at most, each cut into sections as long as marks
// of the grid: an unbounded knapsack over whole millimetres, sections rounded down and pieces
// up.
func (c *Ceiling) saw(p int, s *stack, give []float64) (worth float64) {
	type section struct {
		takes, way, at int
		worth          float64
	}
	var sections []section
	kerf := c.shop.Kerf.Crosscut
	most := 0.0
	for at, long := range c.all {
		best := section{takes: max(1, int((long+kerf)/length.Millimetre)), way: -1, at: at}
		for i, way := range s.ways {
			sum := 0.0
			for g, n := range way.slices {
				if mark := c.at[at][g]; n > 0 && mark >= 0 {
					sum += times(n, c.price[c.base[p][g]+mark])
				}
			}
			if sum *= way.full; sum > best.worth {
				best.worth, best.way = sum, i
			}
		}
		if best.worth > most { // else a shorter one is worth as much
			most = best.worth
			sections = append(sections, best)
		}
	}
	long := s.units[0].long
	table := make([]float64, long+1)
	cut := make([]int16, long+1)
	for x := range table {
		cut[x] = -1
		if x > 0 {
			table[x] = table[x-1]
		}
		for i := range sections {
			one := &sections[i]
			if one.takes > x {
				break
			}
			if now := table[x-one.takes] + one.worth; now > table[x] {
				table[x], cut[x] = now, int16(i)
			}
		}
	}
	for _, u := range s.units {
		worth += times(table[u.long], u.count)
		for x := u.long; x > 0; {
			if cut[x] < 0 {
				x--
				continue
			}
			one := &sections[cut[x]]
			way := &s.ways[one.way]
			for g, n := range way.slices {
				if mark := c.at[one.at][g]; n > 0 && mark >= 0 {
					give[c.base[p][g]+mark] += times(times(n, way.full), u.count)
				}
			}
			x -= one.takes
		}
	}
	return worth
}
