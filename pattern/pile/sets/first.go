package sets

import (
	"cmp"
	"context"
	"slices"

	"example.com/oddments/pattern/length"
)

// mostSwaps bounds how many strips are tried of use-first timber.
const mostSwaps = 2000

// useFirst takes strips of the best set from use-first timber of their species and width where it
// gives them. A draw takes all strips of a timber from the lot that costs least: a use-first piece
// that is too small for all of them would serve none.
func (s *search) useFirst(ctx context.Context) {
	s.ctx, s.boards = ctx, slices.Clone(s.best)
	type place struct {
		board, strip int
		cm3          float64
	}
	var places []place
	for i, b := range s.boards {
		for n := range b.kinds { // none where it is held
			strip := b.Pattern.Strips[n]
			places = append(places, place{i, n, length.VolumeCM3(strip.Width, b.Pattern.StripLength(strip, s.shop.Allowance.Length), b.Pattern.Panel.Thickness)})
		}
	}
	slices.SortStableFunc(places, func(a, b place) int { return -cmp.Compare(a.cm3, b.cm3) })
	tries := 0
	for _, p := range places {
		for k := range s.kinds {
			if s.ctx.Err() != nil || tries == mostSwaps {
				break
			}
			if from := s.kinds[s.boards[p.board].kinds[p.strip]]; !s.lots[from.lot].first && s.mayServe(k, from) {
				tries++
				s.swap(p.board, p.strip, k)
			}
		}
	}
	s.keep(s.score(s.boards).better(s.score(s.best)))
}

// mayServe reports whether a kind is of use-first timber and may stand in another's place.
func (s *search) mayServe(k int, other kind) bool {
	one := s.kinds[k]
	return s.lots[one.lot].first && one.strip.Species == other.strip.Species && one.strip.Width == other.strip.Width
}

// swap puts a strip of another kind into a board, where the board keeps to its want and the rack
// gives all of it still.
func (s *search) swap(at, strip, kind int) {
	was := s.boards[at]
	from := was.lots[strip]
	kinds := slices.Clone(was.kinds)
	kinds[strip] = kind
	now, miss, _ := s.board(s.wants[was.Want], was.Copies(), kinds)
	if miss != none || now == nil {
		return
	}
	s.boards[at] = now
	for _, lot := range []int{from, s.kinds[kind].lot} {
		if !s.gives(lot, s.items(lot, nil)) {
			s.boards[at] = was
			return
		}
	}
}
