package solve

import (
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve/ready"
	"example.com/oddments/pattern/cutting/solve/sections"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/tell"
)

// A timber is one species' share of a job.
type timber struct {
	sections.Catalogue
	species string
	needs   [][]int // of each kind: places in the list of choices, ascending; none where joined
	groups  []group // of strips that may be made of several pieces; else none
	stocks  []stock
	ready   *ready.Strips
}

// A stock is a set of pieces that are alike.
type stock struct {
	cross    int
	length   length.Length
	useFirst bool
	items    []item
	costs    sections.Costs
}

// An item names one piece of a stock.
type item struct {
	place int // in the rack; clear rectangles stand where their piece does
	id    string
	copy  int
}

// sortTimbers parts a job by species, in the order of the first need of each.
func sortTimbers(job cutting.Job, choices []cutting.Choice) []*timber {
	var places tell.Groups[string, int]
	for i, c := range choices {
		places.Add(c.Species, i)
	}
	var timbers []*timber
	for species, at := range places.All() {
		t := &timber{species: species, Catalogue: sections.Catalogue{Shop: job.Shop}}
		if joined := slices.ContainsFunc(at, func(place int) bool { return len(choices[place].Ways) > 1 || choices[place].Joints(0) > 0 }); joined {
			t.addGroups(choices, at)
		} else {
			t.addKinds(choices, at)
		}
		asks := false
		for _, k := range t.Kinds {
			asks = asks || k.Rings.Known()
			if n := len(t.Lengths); n == 0 || t.Lengths[n-1] != k.Length {
				t.Lengths = append(t.Lengths, k.Length)
			}
		}
		t.addStocks(job.Rack, species, asks)
		t.ready = ready.New(job.Rack, species, t.Kinds, t.Want, t.joined())
		t.addColumns()
		timbers = append(timbers, t)
	}
	return timbers
}

// A kindKey is what strips and pieces of strips share that are alike for the saw and for
// ready strips.
type kindKey struct {
	make                 pattern.Make
	width, glued, length length.Length
	rings                pattern.Rings
}

func keyOf(n cutting.Strip) kindKey { return kindKey{n.Make, n.Width, n.Glued, n.Length, n.Rings} }

// addKinds gathers strips that are alike, the longest first.
func (t *timber) addKinds(choices []cutting.Choice, places []int) {
	need := func(place int) cutting.Strip { return choices[place].Ways[0][0] }
	var kinds tell.Groups[kindKey, int]
	for _, place := range places {
		kinds.Add(keyOf(need(place)), place)
	}
	for _, alike := range kinds.All() {
		t.needs = append(t.needs, alike)
	}
	slices.SortStableFunc(t.needs, func(x, y []int) int { return longestFirst(need(x[0]), need(y[0])) })
	for _, alike := range t.needs {
		t.Kinds = append(t.Kinds, need(alike[0]))
		t.Want = append(t.Want, int32(len(alike)))
	}
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
	crossAt, stockAt := map[sections.Cross]int{}, map[key]int{}
	for place, p := range r.Pieces {
		if p.Species != species {
			continue
		}
		for _, c := range p.Clear() {
			x := sections.Cross{Width: c.Width, Thickness: c.Thickness, Planed: c.Planed}
			if asks {
				x.Rings = c.Rings
			}
			at, ok := crossAt[x]
			if !ok {
				at = t.AddCross(x)
				crossAt[x] = at
			}
			k := key{at, c.Length, c.UseFirst}
			i, ok := stockAt[k]
			if !ok {
				i = len(t.stocks)
				stockAt[k] = i
				s := stock{cross: at, length: c.Length, useFirst: c.UseFirst}
				s.costs = t.CostsOf(x, s.length, s.useFirst)
				t.stocks = append(t.stocks, s)
				t.Crosses[at].Longest = max(t.Crosses[at].Longest, s.costs.Span-t.Shop.Kerf.Crosscut)
			}
			for n := range p.Quantity {
				t.stocks[i].items = append(t.stocks[i].items, item{place: place, id: c.ID, copy: n + 1})
			}
		}
	}
}

// tail returns what goes back of the length of a piece of s whose sections and
// crosscuts take used; 0: nothing.
func (t *timber) tail(s *stock, used length.Length) length.Length {
	if left := s.length - t.Shop.Allowance.EndTrim - used; left >= t.Shop.Keep.Length && left > 0 {
		return left
	}
	return 0
}
