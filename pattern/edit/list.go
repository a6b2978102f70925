package edit

import (
	"cmp"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/outline"
)

// A list is one of the lists of a pattern: what is in it, how that came there, where it
// lies and what it must be like.
type list[T any] struct {
	what, told string
	of         func(*pattern.Pattern) *[]T
	check      func(State, []T) error
}

// put returns s with such a list, or says what is wrong with it.
func (l list[T]) put(s State, all []T) (State, error) {
	if err := l.check(s, all); err != nil {
		return s, err
	}
	*l.of(&s.Pattern) = all
	return s, nil
}

// with is put for a copy of the list as change leaves it, which must have an entry of that
// index, from 0.
func (l list[T]) with(s State, index int, change func(all []T) []T) (State, error) {
	now := *l.of(&s.Pattern)
	if index < 0 || index >= len(now) {
		return s, refuse("there is no %s %d; %s so far: %d", l.what, index+1, l.told, len(now))
	}
	return l.put(s, change(slices.Clone(now)))
}

func (l list[T]) add(s State, one T) (State, error) {
	return l.put(s, slices.Concat(*l.of(&s.Pattern), []T{one}))
}

func (l list[T]) set(s State, index int, one T) (State, error) {
	return l.with(s, index, func(all []T) []T {
		all[index] = one
		return all
	})
}

func (l list[T]) drop(s State, index int) (State, error) {
	return l.with(s, index, func(all []T) []T { return slices.Delete(all, index, index+1) })
}

func products() list[pattern.Product] {
	return list[pattern.Product]{"product", "listed", func(p *pattern.Pattern) *[]pattern.Product { return &p.Products }, State.checkProducts}
}

// AddProduct lists p behind the other products. Only the last may fill the rows.
func AddProduct(s State, p pattern.Product) (State, error) { return products().add(s, p) }

// SetProduct puts p in the place of product index, from 0.
func SetProduct(s State, index int, p pattern.Product) (State, error) {
	return products().set(s, index, p)
}

// DropProduct takes product index, from 0, off the list.
func DropProduct(s State, index int) (State, error) { return products().drop(s, index) }

// ProductSooner lets product index, from 0, change places with the one before it, so
// that it lies nearer the datum end.
func ProductSooner(s State, index int) (State, error) {
	if index == 0 && len(s.Pattern.Products) > 0 {
		return s, refuse("product 1 is at the datum end already")
	}
	return products().with(s, index, func(all []pattern.Product) []pattern.Product {
		all[index-1], all[index] = all[index], all[index-1]
		return all
	})
}

// checkProducts says what is wrong with such products.
func (s State) checkProducts(list []pattern.Product) error {
	if len(list) > pattern.MaxProducts {
		return refuse("%d products: a pattern lists %d at most", len(list), pattern.MaxProducts)
	}
	for i, p := range list {
		for _, m := range outline.Misfits(p) {
			return refuse("product %d: %s: %s", i+1, m.Key, m.Text)
		}
		if p.Count == 0 && i < len(list)-1 {
			return refuse("product %d fills the rows, which only the last may: set how many", i+1)
		}
		if err := s.centred(i, p.Centre); err != nil {
			return err
		}
	}
	return nil
}

// centred refuses a centre that is not on the panel, unless the product had it
// before: strips come and go.
func (s State) centred(i int, c pattern.Centre) error {
	n := len(s.Pattern.Strips)
	had := slices.ContainsFunc(s.Pattern.Products, func(p pattern.Product) bool { return p.Centre == c })
	switch {
	case had:
		return nil
	case c.Strip > n:
		return refuse("product %d: centre %v: the panel has %d strips", i+1, c, n)
	case c.Joint > 0 && c.Joint >= n:
		return refuse("product %d: centre %v: the panel has %d joints", i+1, c, max(0, n-1))
	default:
		return nil
	}
}

func avoids() list[pattern.Avoid] {
	return list[pattern.Avoid]{"knot", "marked", func(p *pattern.Pattern) *[]pattern.Avoid { return &p.Avoids }, checkAvoids}
}

// AddAvoid marks a knot or shake that no product may take in.
func AddAvoid(s State, a pattern.Avoid) (State, error) { return avoids().add(s, a) }

// SetAvoid puts a in the place of mark index, from 0.
func SetAvoid(s State, index int, a pattern.Avoid) (State, error) { return avoids().set(s, index, a) }

// DropAvoid takes mark index, from 0, away.
func DropAvoid(s State, index int) (State, error) { return avoids().drop(s, index) }

func checkAvoids(_ State, list []pattern.Avoid) error {
	if len(list) > pattern.MaxAvoids {
		return refuse("%d knots: a pattern has %d at most", len(list), pattern.MaxAvoids)
	}
	for _, a := range list {
		if err := cmp.Or(
			within("knot, along", a.Along, 0, pattern.MaxLength+pattern.MaxStart),
			within("knot, across", a.Across, 0, pattern.MaxLength),
			within("knot, radius", a.Radius, 0, pattern.MaxRadius),
		); err != nil {
			return err
		}
	}
	return nil
}

func batches() list[pattern.Made] {
	return list[pattern.Made]{"batch", "written down", func(p *pattern.Pattern) *[]pattern.Made { return &p.Made },
		func(_ State, all []pattern.Made) error {
			for _, m := range all {
				if err := batch(m); err != nil {
					return err
				}
			}
			return nil
		}}
}

// AddMade writes down a batch that was made, behind the others.
func AddMade(s State, m pattern.Made) (State, error) { return batches().add(s, m) }

// SetMade puts m in the place of batch index, from 0.
func SetMade(s State, index int, m pattern.Made) (State, error) { return batches().set(s, index, m) }

// DropMade strikes batch index, from 0, out.
func DropMade(s State, index int) (State, error) { return batches().drop(s, index) }

// batch refuses what a file could not keep.
func batch(m pattern.Made) error {
	switch {
	case !m.Date.Valid():
		return refuse("%v: must be a day of the calendar, like 2026-11-02", m.Date)
	case m.Copies < 1 || m.Copies > pattern.MaxBatch:
		return refuse("%d copies: must be 1 to %d", m.Copies, pattern.MaxBatch)
	case m.Minutes < 0 || m.Minutes > pattern.MaxMinutes:
		return refuse("%d minutes: must be 0 to %d", m.Minutes, pattern.MaxMinutes)
	}
	return cmp.Or(
		within("width", m.Width, 0, pattern.MaxAcross),
		within("thickness", m.Thickness, 0, pattern.MaxAcross),
		plain("note", m.Note),
	)
}
