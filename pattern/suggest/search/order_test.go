package search

import (
	"math/rand/v2"
	"reflect"
	"testing"

	"example.com/oddments/pattern/suggest"
)

// Layouts unlike the first ones are those that come after them when more are asked
// for.
func TestUnlike(t *testing.T) {
	rng := rand.New(rand.NewPCG(6, 6))
	further := 0
	for n := range byDayOrNight(25, 60) {
		a := randomAsk(rng)
		a.Pinned = nil
		a.Layouts = 2
		first, err := Solve(t.Context(), physics(), a, suggest.Options{})
		if err != nil {
			t.Fatal(err)
		}
		a.Layouts = 4
		all, _ := Solve(t.Context(), physics(), a, suggest.Options{})
		a.Layouts = 2
		for _, l := range first.Layouts {
			a.Unlike = append(a.Unlike, l.Strips)
		}
		more, _ := Solve(t.Context(), physics(), a, suggest.Options{})
		if first.Status != suggest.Optimal || all.Status != suggest.Optimal {
			continue
		}
		rest := all.Layouts[min(2, len(all.Layouts)):]
		if len(more.Layouts) != len(rest) || len(rest) == 0 && more.Status != suggest.Infeasible {
			t.Fatalf("ask %d: %d more layouts (%v), want %d", n, len(more.Layouts), more.Status, len(rest))
		}
		for i, l := range more.Layouts {
			further++
			if !reflect.DeepEqual(l.Strips, rest[i].Strips) {
				t.Fatalf("ask %d: further layout %d is %+v, want %+v", n, i, l.Strips, rest[i].Strips)
			}
		}
	}
	if further < 10 {
		t.Fatalf("only %d further layouts were looked at", further)
	}
}

// What an ask to be unlike names need not be among what can be had.
func TestUnlikeWhatIsGone(t *testing.T) {
	a := suggest.New(60*mm, 20*mm, 300*mm)
	a.Have = []suggest.ReadyStrips{{Species: "black_walnut", Width: 20 * mm, Count: 2}, {Species: "hard_maple", Width: 20 * mm, Count: 2}}
	a.Unlike = [][]suggest.Placed{{{Species: "sapele", Width: 33 * mm}, {Species: "iroko", Width: 27 * mm}}}
	answer, err := Solve(t.Context(), physics(), a, suggest.Options{})
	if err != nil || answer.Status != suggest.Optimal || len(answer.Layouts) == 0 {
		t.Errorf("%+v, %v", answer, err)
	}
}

// A layout seen from the other side is the same one: its plan cuts the same strips, and
// twice turned it is as it was.
func TestMirrored(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 8))
	seen := 0
	for range 40 {
		a := randomRough(rng)
		answer, err := Solve(t.Context(), physics(), a, suggest.Options{})
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range answer.Layouts {
			seen++
			m := l.Mirrored()
			if !reflect.DeepEqual(m.Mirrored(), l) {
				t.Fatalf("turned twice %+v is %+v", l, m.Mirrored())
			}
			for _, cut := range m.Plan.Cuts {
				for _, section := range cut.Sections {
					for _, slice := range section.Slices {
						for _, ref := range slice.Strips {
							if m.Strips[ref.Strip-1].Source != cut.Piece {
								t.Fatalf("strip %d of the mirror image comes from %s, its plan says %s", ref.Strip, m.Strips[ref.Strip-1].Source, cut.Piece)
							}
						}
					}
				}
			}
			was := a.Pattern(m).Strips
			if near := a.Nearer(was, l); len(suggest.Compare(was, a.Pattern(near).Strips)) != 0 {
				t.Fatalf("beside its mirror image %+v is shown as %+v", was, near)
			}
		}
	}
	if seen < 20 {
		t.Fatalf("only %d layouts were found", seen)
	}
}
