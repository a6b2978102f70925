package sets

import (
	"slices"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/orders"
	"example.com/oddments/pattern/pile"
)

// Without returns a set without one of its panels, of the wants that it was sought for. It has no
// plan; what no set is worth more than stays.
func (s Set) Without(panel int, wants []orders.Want) Set {
	s.Panels = slices.Delete(slices.Clone(s.Panels), panel, panel+1)
	s.Made, s.Short, s.Worth = make([]int, len(wants)), 0, 0
	for _, p := range s.Panels {
		s.Made[p.Want] += p.Copies()
		s.Worth += float64(float64(p.Copies()) * wants[p.Want].Each())
	}
	for i, w := range wants {
		s.Short += max(0, w.Least-s.Made[i])
	}
	s.Plan.Cuts, s.Plan.Ready = nil, nil
	return s
}

// InStrips returns how much of each timber of a rack goes into the strips of panels as they are
// glued, in the rack's order: less than is drawn, and known without a plan.
func InStrips(r Request, panels []Panel) []pile.Used {
	used := pile.Taken(r.Rack, r.Rack)
	allow := r.Physics.Shop().Allowance
	for _, p := range panels {
		for _, strip := range p.Pattern.Strips {
			if i := slices.IndexFunc(used, func(u pile.Used) bool { return u.Species == strip.Species }); i >= 0 {
				used[i].UsedCM3 += length.VolumeCM3(strip.Width, p.Pattern.StripLength(strip, allow.Length), p.Pattern.Panel.Thickness+allow.Flattening)
			}
		}
	}
	return used
}
