package ready

import (
	"math/rand/v2"
	"slices"
	"testing"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve/sections"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
)

const mm = length.Millimetre

// draw draws kinds of a few sizes, and ready strips that serve some of them.
func draw(rng *rand.Rand) (r rack.Rack, kinds []cutting.Strip, want []int32) {
	size := func() (wide, thick, long length.Length) {
		return length.Length(20+5*rng.IntN(2)) * mm, length.Length(20+2*rng.IntN(3)) * mm, length.Length(300+50*rng.IntN(3)) * mm
	}
	for range 2 + rng.IntN(4) {
		w, g, l := size()
		kinds, want = append(kinds, cutting.Strip{Width: w, Glued: g, Length: l}), append(want, 1+rng.Int32N(3))
	}
	for i := range 1 + rng.IntN(4) {
		w, g, l := size()
		r.Strips = append(r.Strips, rack.Strip{ID: string(rune('A' + i)), Species: "elm", Width: w, Thickness: g, Length: l, Quantity: 1 + rng.IntN(3), UseFirst: rng.IntN(3) == 0})
	}
	return r, kinds, want
}

// The richest choice is the best of all, no choice is told twice, and each can be handed
// out: just its strips, each ready strip once, to kinds that it serves. Where pools are
// loose, prices may be below 0, and any part of a choice is one too.
func TestChoicesCanBeHandedOut(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 8))
	choices := 0
	for n := range 2000 {
		loose := n%2 == 1
		r, kinds, want := draw(rng)
		s := New(r, "elm", kinds, want, loose)
		prices := make([]int64, len(kinds))
		for k := range prices {
			if prices[k] = rng.Int64N(9); loose {
				prices[k] -= 3
			}
		}
		for pool := range s.Pools() {
			var all []sections.Take
			best, none := int64(-1), false
			s.Choices(pool, prices, -1000, func(c sections.Take, worth int64) bool {
				if slices.ContainsFunc(all, func(had sections.Take) bool { return slices.Equal(had, c) }) {
					t.Errorf("%v is told twice", c)
				}
				all, best, none = append(all, c), max(best, worth), none || len(c) == 0
				handedOut(t, r, kinds, c, s.HandOut(pool, c))
				return true
			})
			if c, worth := s.Richest(pool, prices, want); worth != best || worth != c.Worth(prices) {
				t.Errorf("the richest choice is worth %d, the best of %d is %d", worth, len(all), best)
			}
			if none != loose {
				t.Errorf("loose %v: the choice to serve nothing is there: %v", loose, none)
			}
			choices += len(all)
		}
	}
	if choices < 1000 {
		t.Errorf("only %d choices were tried", choices)
	}
}

func handedOut(t *testing.T, r rack.Rack, kinds []cutting.Strip, c sections.Take, handed []Handed) {
	t.Helper()
	counts := make([]int32, len(kinds))
	had := map[Handed]bool{}
	for _, h := range handed {
		counts[h.Kind]++
		i := slices.IndexFunc(r.Strips, func(s rack.Strip) bool { return s.ID == h.ID })
		s, k := r.Strips[i], kinds[h.Kind]
		if s.Width != k.Width || s.Length < k.Length || s.Thickness < k.Glued {
			t.Errorf("%v does not serve %v", s, k)
		}
		h.Kind = 0
		if had[h] || h.Copy < 1 || h.Copy > s.Quantity {
			t.Errorf("%s (%d) of %d is handed out, or again", h.ID, h.Copy, s.Quantity)
		}
		had[h] = true
	}
	if got := sections.TakeOf(counts); !slices.Equal(got, c) {
		t.Errorf("%v was handed out for %v", got, c)
	}
}
