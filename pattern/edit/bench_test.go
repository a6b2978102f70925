package edit_test

import (
	"testing"

	"example.com/oddments/pattern/edit"
)

// BenchmarkMove makes moves on 60 strips. Budget: 20 microseconds each.
func BenchmarkMove(b *testing.B) {
	s := bySeed(1, 2).state(60)
	s.Selected = 20
	s.Pattern.Strips[20] = strip("oak", 40*mm)
	for _, bm := range []struct {
		name string
		move move
	}{
		{"widen", with(edit.Widen, 1*mm)},
		{"carry", edit.CarryLeft},
		{"aside", edit.LayAside},
		{"split", with(edit.Split, allow)},
		{"mirror", edit.Mirror},
		{"fill", edit.Fill},
	} {
		b.Run(bm.name, func(b *testing.B) {
			s := s
			s.Pattern.Panel.Width = s.Pattern.Width()/2*3 + 1
			b.ReportAllocs()
			for b.Loop() {
				if _, err := bm.move(s); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkStep makes a move on 60 strips, does it in a history, undoes and redoes
// it. Budget: 80 microseconds, 20 for each of the four.
func BenchmarkStep(b *testing.B) {
	s := bySeed(1, 2).state(60)
	s.Selected = 30
	s.Pattern.Strips[30] = strip("oak", 40*mm)
	h := edit.NewHistory(s)
	b.ReportAllocs()
	for b.Loop() {
		next, err := edit.Widen(h.Now(), 1*mm)
		if err != nil {
			b.Fatal(err)
		}
		done, _, _ := h.Do("wider", next).Undo()
		if _, _, ok := done.Redo(); !ok {
			b.Fatal("nothing to redo")
		}
	}
}
