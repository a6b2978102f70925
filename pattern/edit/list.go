package edit

import (
	"slices"

	"example.com/oddments/pattern"
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
