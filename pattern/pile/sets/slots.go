package sets

import (
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// A slot is room in a slice that the set has sawn as it is packed: a strip that it takes costs
// no timber.
type slot struct {
	glued, long, over, room length.Length
	rings                   pattern.Rings
}

// Slots are those of a lot, for what the set asked of it when they were listed.
type slots struct {
	key string
	all []slot
}

// slotsOf returns the slots of a lot.
func (s *search) slotsOf(lot int) []slot {
	items := s.items(lot, nil)
	if len(items) == 0 {
		return nil
	}
	slices.SortFunc(items, order)
	key := keyOfItems(lot, items)
	if was := &s.slots[lot]; was.key != key {
		was.key, was.all = key, nil
		if p := s.packedOf(lot, items); p != nil {
			was.all = p.slots()
		}
	}
	return s.slots[lot].all
}

// slots lists the room in slices, and where the stacks of sections have room for a slice more.
func (p *packer) slots() (out []slot) {
	kerf := p.shop.Kerf.Rip
	for _, one := range p.done {
		u := &p.units[one.unit]
		across, depth := u.lies()
		at, rings := 0, u.rings
		if one.side {
			at, rings = 1, u.rings.Rolled()
		}
		room := depth[at] + p.shop.Kerf.Resaw + p.shop.Allowance.Cleaning
		for _, sl := range one.slices {
			room -= sl.sawn + p.shop.Kerf.Resaw + p.shop.Allowance.Cleaning
			left, glued := across[at]+kerf, length.Length(0)
			for k, n := range sl.fill {
				if n > 0 {
					left -= length.Length(n) * (p.left[k].across + kerf)
					glued = p.left[k].glued
				}
			}
			out = append(out, slot{glued, one.long, p.over, left - kerf, rings})
		}
		if u.Planed || u.shop.Machine.BandsawHeight > 0 && across[at] > u.shop.Machine.BandsawHeight {
			continue
		}
		for _, g := range p.glued {
			if g+p.shop.Allowance.Planing <= room-p.shop.Kerf.Resaw-p.shop.Allowance.Cleaning {
				out = append(out, slot{g, one.long, p.over, across[at], rings})
			}
		}
	}
	return out
}
