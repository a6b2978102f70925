package screen_test

import (
	"fmt"
	"testing"

	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

// Whatever is chosen is in view, no row is empty where there are entries for it, and what is
// drawn into a row is what a press on that row finds.
func TestList(t *testing.T) {
	for n := range 12 {
		for h := 1; h < 9; h++ {
			for at := -2; at < n+3; at++ {
				l := screen.List{Rows: paint.Rect{X: 2, Y: 3, W: 9, H: h}, N: n, At: at}
				drawn, chosen := map[int]int{}, 0
				l.Draw(paint.New(20, 20, paint.None), func(i int, row paint.Rect, mark string, _ paint.Style) {
					drawn[row.Y] = i
					if mark == "> " {
						chosen++
					}
				})
				name := fmt.Sprintf("entry %d of %d in %d rows", at, n, h)
				if len(drawn) != min(n, h) || chosen != min(n, 1) {
					t.Fatalf("%s: %d drawn, %d chosen", name, len(drawn), chosen)
				}
				for y := range 20 {
					i, ok := l.On(y)
					if want, is := drawn[y]; ok != is || ok && i != want {
						t.Fatalf("%s: row %d has %d, %v; %d is drawn there", name, y, i, ok, want)
					}
				}
			}
		}
	}
}

// Keys flow into the rows that there are, one clear of the next, and it is said where some
// find no room.
func TestFlow(t *testing.T) {
	var keys []screen.KeyPlace
	for i := range 9 {
		keys = append(keys, screen.KeyPlace{ID: keymap.ID(fmt.Sprint(i)), Key: "Ctrl-x", Text: "does it"[:1+i%7]})
	}
	for w := 20; w < 140; w += 7 {
		for h := 1; h < 8; h++ {
			r := paint.Rect{X: 4, Y: 5, W: w, H: h}
			placed, all := screen.Flow(r, keys)
			if all != (len(placed) == len(keys)) {
				t.Fatalf("%d x %d: %d placed, all: %v", w, h, len(placed), all)
			}
			for i, p := range placed {
				if p.Rect.Intersect(r) != p.Rect {
					t.Fatalf("%d x %d: %v stands outside", w, h, p)
				}
				if id, ok := screen.Pressed(placed, p.Rect.X, p.Rect.Y); !ok || id != p.ID {
					t.Fatalf("%d x %d: a press on %s finds %s", w, h, p.ID, id)
				}
				if i > 0 && placed[i-1].Rect.Y == p.Rect.Y && placed[i-1].Rect.Right() >= p.Rect.X {
					t.Fatalf("%d x %d: %v touches %v", w, h, placed[i-1], p)
				}
			}
		}
	}
}

// The side column and the rest share the width, with a column for the line between them.
func TestSplitSide(t *testing.T) {
	for w := range 300 {
		r := paint.Rect{X: 1, Y: 2, W: w, H: 20}
		side, rest := screen.SplitSide(r)
		switch {
		case w < screen.SideFrom && (!side.Empty() || rest != r):
			t.Errorf("%d cells have a side of %v", w, side)
		case w >= screen.SideFrom && (rest.Right()+1 != side.X || side.Right() != r.Right() || side.W < 40 || rest.W < side.W):
			t.Errorf("%d cells: %v beside %v", w, side, rest)
		}
	}
}
