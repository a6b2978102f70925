package pile

import (
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/booking"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/rack"
)

// VolumeDM3 returns what one copy of a pattern is worth by the timber that is sold: the volume of
// its products as finished, or of the panel where it has none.
func VolumeDM3(p pattern.Pattern) float64 {
	sum := 0.0
	for _, product := range p.Products {
		sum += float64(max(1, product.Count)) * outline.VolumeDM3(product, p.Panel.Thickness)
	}
	if sum == 0 {
		sum = length.VolumeCM3(p.Width(), p.Panel.Length, p.Panel.Thickness) / 1000
	}
	return sum
}

// Used is how much of a timber a choice takes.
type Used struct {
	Species          string
	RackCM3, UsedCM3 float64
}

// Left is an entry of the rack of which something stays, with what keeps it there.
type Left struct {
	Entry rack.Entry
	Miss  cutting.Miss // with Reason Gives: it would serve an offer, and Lacks says what it has too little of
	Lacks []string     // timbers by key
}

// After returns how much of each timber a choice takes, in the rack's order, and the entries
// that lie there as before.
func After(r Request, c Choice) (used []Used, left []Left, err error) {
	job := r.job(c.Copies)
	after := r.Rack
	if len(job.Patterns) > 0 {
		after, _, err = booking.Book(job, c.Plan, pattern.Date{}, func(string) string { return "" })
		if err != nil {
			return nil, nil, err
		}
	}
	used = Taken(r.Rack, after)
	all := cutting.Job{Rack: r.Rack, Shop: r.Shop}
	for _, o := range r.Offers {
		all.Patterns = append(all.Patterns, cutting.Demand{Stem: o.Stem, Pattern: o.Pattern, Copies: 1})
	}
	for _, e := range Still(r.Rack, after) {
		left = append(left, Left{Entry: e, Miss: cutting.Why(all, e), Lacks: c.lacking(r, e.Species)})
	}
	return used, left, nil
}

// Taken returns how much of each timber lies on a rack and is gone from what it is after, in its
// order.
func Taken(before, after rack.Rack) (used []Used) {
	at := map[string]int{}
	for _, e := range before.Entries() {
		n, ok := at[e.Species]
		if !ok {
			n = len(used)
			at[e.Species] = n
			used = append(used, Used{Species: e.Species})
		}
		used[n].RackCM3 += volume(e)
		used[n].UsedCM3 += volume(e)
	}
	for _, e := range after.Entries() {
		used[at[e.Species]].UsedCM3 -= volume(e)
	}
	return used
}

// Still returns the entries of a rack that lie there as before, as many of each as are left.
func Still(before, after rack.Rack) (left []rack.Entry) {
	for _, e := range before.Entries() {
		if still, ok := after.Get(e.ID); ok {
			e.Quantity = still.Quantity
			left = append(left, e)
		}
	}
	return left
}

// lacking returns the timbers for want of which no offer takes more of one.
func (c Choice) lacking(r Request, species string) (timbers []string) {
	seen := map[string]bool{}
	for i, o := range r.Offers {
		for _, s := range o.Pattern.Strips {
			if s.Species != species {
				continue
			}
			for _, lack := range c.Lacks[i] {
				if !seen[lack] {
					seen[lack] = true
					timbers = append(timbers, lack)
				}
			}
			break
		}
	}
	return timbers
}

func volume(e rack.Entry) float64 {
	return float64(e.Quantity) * length.VolumeCM3(e.Length, e.Width, e.Thickness)
}
