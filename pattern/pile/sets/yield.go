package sets

import (
	"cmp"
	"encoding/binary"
	"fmt"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/joints"
	"example.com/oddments/pattern/length"
)

// An item is one strip that is asked of a lot.
type item struct {
	thickness, width, length length.Length
	rings                    pattern.Rings
	ways                     int // where it may be laid from pieces, the place of its ways among those known, from 1
}

func order(a, b item) int {
	return cmp.Or(cmp.Compare(a.thickness, b.thickness), cmp.Compare(b.length, a.length), cmp.Compare(a.width, b.width),
		cmp.Compare(a.rings.Degrees(), b.rings.Degrees()), cmp.Compare(a.ways, b.ways))
}

// remember returns the place of ways among those known, from 1.
func (s *search) remember(ways []joints.Way) int {
	key := fmt.Sprint(ways)
	at, there := s.wayAt[key]
	if !there {
		s.ways = append(s.ways, ways)
		at = len(s.ways)
		s.wayAt[key] = at
	}
	return at
}

// How many steps the planner takes on one lot: where the packer packs not all of it, and where
// a set that is better than all before is confirmed.
const (
	quickSteps = 1
	moreSteps  = 2
)

// hopeful is how much of a lot in finished strips is tried at least where the packer does not
// pack it; above that as much as was found to fit once.
const (
	hopeful = 0.4
	hopes   = 1.03
)

// gives reports whether a lot gives all of some items, as far as the packer and the planner's
// first step tell.
func (s *search) gives(at int, items []item) bool {
	if len(items) == 0 {
		return true
	}
	slices.SortFunc(items, order)
	key := keyOfItems(at, items)
	if fits, known := s.given[key]; known {
		return fits
	}
	l := &s.lots[at]
	part := s.takes(items) / l.cm3
	fits := false
	if part <= 1 {
		s.asked++
		fits = s.pack(at, items) != nil
		// The packer alone parts strips, and saws no others than are sawn.
		if !fits && part <= max(hopeful, l.fullest*hopes) && !slices.ContainsFunc(items, func(it item) bool { return it.ways > 0 || !s.sawn(it.width) }) {
			try := solve.Try(s.ctx, s.lotJob(at, items), quickSteps)
			if p := s.planned(at, items, try.Plan); try.Fits && p != nil {
				s.plans[key], fits = p, true
			}
		}
	}
	if fits {
		l.fullest = max(l.fullest, part)
	}
	if s.ctx.Err() == nil || fits {
		s.given[key] = fits
	}
	return fits
}

// planned returns a plan of items of a lot as if they had been packed; nil where it is of pieces
// that the packer does not know.
func (s *search) planned(at int, items []item, plan cutting.Plan) *packer {
	l := &s.lots[at]
	p := &packer{search: s, units: l.units, over: max(0, s.shop.Allowance.OverLength-stop)}
	p.left = p.askedOf(items, 0)
	first := map[string]int{} // of each thickness: its first item
	for i := len(items) - 1; i >= 0; i-- {
		first[fmt.Sprint(items[i].thickness)] = i
	}
	asked := make([]int, len(items))
	for k, a := range p.left {
		for _, from := range a.from {
			asked[from.item] = k
		}
	}
	of := func(ref cutting.Ref) int { return asked[first[ref.Pattern]+ref.Strip-1] }
	unitOf := func(id string, copy int) int {
		return slices.IndexFunc(p.units, func(u unit) bool { return u.id == id && u.copy == copy })
	}
	for _, r := range plan.Ready {
		p.hands = append(p.hands, handed{unitOf(r.ID, r.Copy), of(r.For)})
	}
	for _, c := range plan.Cuts {
		for _, section := range c.Sections {
			one := packed{unit: unitOf(c.Piece, c.Copy), side: section.Side, long: section.Length}
			for _, slice := range section.Slices {
				fill := make([]int, len(p.left))
				for _, ref := range slice.Strips {
					fill[of(ref)]++
				}
				one.slices = append(one.slices, sliced{slice.Thickness, fill})
			}
			p.done = append(p.done, one)
		}
	}
	if slices.ContainsFunc(p.hands, func(h handed) bool { return h.unit < 0 }) || slices.ContainsFunc(p.done, func(d packed) bool { return d.unit < 0 }) {
		return nil
	}
	return p
}

// keyOfItems returns what tells items of a lot from others.
func keyOfItems(at int, items []item) string {
	key := binary.AppendVarint(nil, int64(at))
	for _, it := range items {
		key = binary.AppendVarint(key, int64(it.thickness))
		key = binary.AppendVarint(key, int64(it.width))
		key = binary.AppendVarint(key, int64(it.length))
		key = append(key, byte(it.rings.Degrees()), byte(it.ways), byte(it.ways>>8), byte(it.rings.Mark()))
	}
	return string(key)
}

// spares reports whether a lot has room for one strip so long more than the set takes, as far
// as the packer tells.
func (s *search) spares(lot int, w *wanted, need length.Length) bool {
	items := s.items(lot, nil)
	for _, k := range s.of[lot] {
		kind := &s.kinds[k]
		if kind.reach[w.glued] < need {
			continue
		}
		it := item{thickness: w.Thickness, width: kind.strip.Width, rings: kind.strip.Rings, length: (need + stop - 1) / stop * stop}
		all := append(slices.Clone(items), it)
		slices.SortFunc(all, order)
		key := keyOfItems(lot, all)
		fits, known := s.spared[key]
		if !known {
			s.asked++
			fits = s.pack(lot, all) != nil
			s.spared[key] = fits
		}
		if fits {
			return true
		}
	}
	return false
}

// takes returns the timber that items take with what is planed and sawn off, less than what
// any plan takes.
func (s *search) takes(items []item) (cm3 float64) {
	sh := &s.shop
	for _, it := range items {
		if it.ways == 0 {
			cm3 += float64(length.VolumeCM3(it.length-stop, it.width+sh.Allowance.Jointing, sh.Glued(it.thickness)))
		}
	}
	return cm3
}

// lotJob returns the job of cutting items from a lot: a pattern for each thickness.
func (s *search) lotJob(at int, items []item) cutting.Job {
	l := &s.lots[at]
	job := cutting.Job{Rack: l.rack, Shop: s.shop}
	job.Shop.Allowance.OverLength = max(0, job.Shop.Allowance.OverLength-stop)
	for i, it := range items {
		if i == 0 || it.thickness != items[i-1].thickness {
			job.Patterns = append(job.Patterns, cutting.Demand{Stem: fmt.Sprint(it.thickness), Copies: 1,
				Pattern: pattern.Pattern{Panel: pattern.Panel{Length: it.length, Thickness: it.thickness}}})
		}
		d := &job.Patterns[len(job.Patterns)-1]
		strip := pattern.Strip{Species: l.name, Width: it.width, Rings: it.rings, Length: it.length}
		d.Pattern.Strips = append(d.Pattern.Strips, strip)
		ways := []joints.Way{{{Length: it.length}}}
		if it.ways > 0 {
			ways = s.ways[it.ways-1]
		}
		d.Ways = append(d.Ways, ways)
	}
	if !slices.ContainsFunc(items, func(it item) bool { return it.ways > 0 }) {
		for i := range job.Patterns {
			job.Patterns[i].Ways = nil
		}
	}
	return job
}
