package solve

import (
	"math"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
)

// perCM3 is how many units of cost a cubic centimetre is. Costs are whole units, so
// that bounds are proved without a tolerance.
const perCM3 = 1e6

// units returns a volume as a cost.
func units(cm3 float64) int64 { return int64(math.Round(cm3 * perCM3)) }

// A timber is one species' share of a job.
type timber struct {
	species string
	shop    shop.Shop
	kinds   []kind
	want    []int32         // strips asked of each kind
	lengths []length.Length // that sections may have, the longest first
	crosses []cross
	stocks  []stock
	pools   []pool
	lying   []lying // ready strips

	sections [][]section // of each cross
	whole    []bool      // of each cross: sections holds every one there is
	crowded  []bool      // of each cross: only some ways were looked for
	scratch  []int32     // to list them with
}

// numbers returns so many 0, its own until it is asked again; they are to be 0 again then.
func (t *timber) numbers(n int) []int32 {
	if len(t.scratch) < n {
		t.scratch = make([]int32, n)
	}
	return t.scratch[:n]
}

// A cross is the cross-section of a piece, with what it shows.
type cross struct {
	width, thickness length.Length
	planed           bool
	rings            pattern.Rings
	longest          length.Length // section of any of its pieces
}

// A stock is a set of pieces that are alike.
type stock struct {
	cross    int
	length   length.Length
	useFirst bool
	items    []item
	costs    stockCosts
}

// An item names one piece of a stock.
type item struct {
	place int // in the rack; clear rectangles stand where their piece does
	id    string
	copy  int
}

// stockCosts is what opening a piece costs: open and the sections' own length when
// its tail goes back, all of it when not.
type stockCosts struct {
	open    int64           // end trim and the charge for opening
	all     int64           // the whole piece and the charge for opening
	along   []int64         // of each of the timber's lengths with its crosscut
	credit  float64         // units a cubic centimetre of slabs and rips brings
	span    length.Length   // sections and their crosscuts may take so much
	keeping length.Length   // and so much when a tail is to be kept; negative: none can
	steps   []length.Length // each of the timber's lengths with its crosscut
}

// A lying strip is a set of ready strips that are alike.
type lying struct {
	rack.Strip
	items []item
}

// sortTimbers parts a job by species, in the order of the first need of each.
func sortTimbers(job cutting.Job, needs []cutting.Strip) []*timber {
	var order []string
	places := map[string][]int{}
	for i, n := range needs {
		if places[n.Species] == nil {
			order = append(order, n.Species)
		}
		places[n.Species] = append(places[n.Species], i)
	}
	timbers := make([]*timber, len(order))
	for i, species := range order {
		t := &timber{species: species, shop: job.Shop, kinds: sortKinds(needs, places[species])}
		t.want = make([]int32, len(t.kinds))
		asks := false
		for j, k := range t.kinds {
			t.want[j] = int32(len(k.needs))
			asks = asks || k.Rings.Known()
			if n := len(t.lengths); n == 0 || t.lengths[n-1] != k.Length {
				t.lengths = append(t.lengths, k.Length)
			}
		}
		t.addStocks(job.Rack, species, asks)
		t.addLying(job.Rack, species)
		t.addPools()
		timbers[i] = t
	}
	return timbers
}

// addStocks gathers alike pieces. Where no strip asks for rings, asks is false and
// pieces that differ in their rings count as alike. Of alike pieces it makes no difference
// which is cut in which way: what fits, what it yields and what it costs depend on the
// cross-section, the length, the mark and, where asked for, the rings alone, so a plan that
// says how many of them are cut in each way says all, and each is named only in the end.
func (t *timber) addStocks(r rack.Rack, species string, asks bool) {
	type key struct {
		cross    int
		length   length.Length
		useFirst bool
	}
	crossAt, stockAt := map[cross]int{}, map[key]int{}
	for place, p := range r.Pieces {
		if p.Species != species {
			continue
		}
		for _, c := range p.Clear() {
			x := cross{width: c.Width, thickness: c.Thickness, planed: c.Planed}
			if asks {
				x.rings = c.Rings
			}
			at, ok := crossAt[x]
			if !ok {
				at = len(t.crosses)
				crossAt[x] = at
				t.crosses = append(t.crosses, x)
			}
			k := key{at, c.Length, c.UseFirst}
			i, ok := stockAt[k]
			if !ok {
				i = len(t.stocks)
				stockAt[k] = i
				s := stock{cross: at, length: c.Length, useFirst: c.UseFirst}
				s.costs = t.costsOf(x, s)
				t.stocks = append(t.stocks, s)
				t.crosses[at].longest = max(t.crosses[at].longest, s.costs.span-t.shop.Kerf.Crosscut)
			}
			for n := range p.Quantity {
				t.stocks[i].items = append(t.stocks[i].items, item{place: place, id: c.ID, copy: n + 1})
			}
		}
	}
	t.sections = make([][]section, len(t.crosses))
	t.whole, t.crowded = make([]bool, len(t.crosses)), make([]bool, len(t.crosses))
}

// costsOf returns the costs of a stock.
func (t *timber) costsOf(x cross, s stock) stockCosts {
	sh := t.shop
	counts := 1.0
	if s.useFirst {
		counts = sh.Draw.UseFirstPct / 100
	}
	c := stockCosts{
		open:   units(counts*length.VolumeCM3(sh.Allowance.EndTrim, x.width, x.thickness) + sh.Draw.OpenedCM3),
		all:    units(counts*length.VolumeCM3(s.length, x.width, x.thickness) + sh.Draw.OpenedCM3),
		credit: counts * sh.Draw.ReturnedPct / 100 * perCM3,
		span:   s.length - 2*sh.Allowance.EndTrim + sh.Kerf.Crosscut,
	}
	c.keeping = min(c.span, s.length-sh.Allowance.EndTrim-sh.Keep.Length)
	for _, l := range t.lengths {
		step := l + sh.Kerf.Crosscut
		c.steps = append(c.steps, step)
		c.along = append(c.along, units(counts*length.VolumeCM3(step, x.width, x.thickness)))
	}
	return c
}

// tail returns what goes back of the length of a piece of s whose sections and
// crosscuts take used; 0: nothing.
func (t *timber) tail(s *stock, used length.Length) length.Length {
	if left := s.length - t.shop.Allowance.EndTrim - used; left >= t.shop.Keep.Length && left > 0 {
		return left
	}
	return 0
}

// addLying gathers alike ready strips, in the order in which they are best used:
// those to use first, then the shortest, then the thinnest, then as the rack has them.
func (t *timber) addLying(r rack.Rack, species string) {
	type key struct {
		width, thickness, length length.Length
		rings                    pattern.Rings
		useFirst                 bool
	}
	at := map[key]int{}
	for place, s := range r.Strips {
		if s.Species != species {
			continue
		}
		k := key{s.Width, s.Thickness, s.Length, s.Rings, s.UseFirst}
		i, ok := at[k]
		if !ok {
			i = len(t.lying)
			at[k] = i
			t.lying = append(t.lying, lying{Strip: s})
		}
		for n := range s.Quantity {
			t.lying[i].items = append(t.lying[i].items, item{place: place, id: s.ID, copy: n + 1})
		}
	}
	slices.SortStableFunc(t.lying, func(a, b lying) int {
		switch {
		case a.UseFirst != b.UseFirst:
			if a.UseFirst {
				return -1
			}
			return 1
		case a.Length != b.Length:
			return int(max(-1, min(1, a.Length-b.Length)))
		default:
			return int(max(-1, min(1, a.Thickness-b.Thickness)))
		}
	})
}
