package edit_test

import (
	"fmt"
	"slices"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/outline"
	"pgregory.net/rapid"
)

// inRange says what in s no file could hold.
func inRange(s edit.State) error {
	p := s.Pattern
	if len(p.Strips) > 0 && (s.Selected < 0 || s.Selected >= len(p.Strips)) || len(p.Strips) == 0 && s.Selected != 0 {
		return fmt.Errorf("strip %d of %d is chosen", s.Selected+1, len(p.Strips))
	}
	if p.Panel.Length <= 0 || p.Panel.Length > pattern.MaxLength || p.Panel.Thickness <= 0 || p.Panel.Thickness > pattern.MaxAcross ||
		p.Panel.Width < 0 || p.Panel.Width > pattern.MaxAcross {
		return fmt.Errorf("panel %+v", p.Panel)
	}
	for _, st := range slices.Concat(p.Strips, s.Tray) {
		if st.Species == "" || st.Width <= 0 || st.Width > pattern.MaxAcross || st.Length < 0 || st.Length > pattern.MaxLength ||
			st.Start < 0 || st.Start > pattern.MaxStart || st.Moisture.Percent < 0 || st.Moisture.Percent > pattern.MaxMoisture {
			return fmt.Errorf("strip %+v", st)
		}
	}
	for _, st := range p.Strips {
		if err := p.CheckJoints(st); err != nil {
			return fmt.Errorf("strip %+v: %w", st, err)
		}
	}
	for i, product := range p.Products {
		if bad := outline.Misfits(product); len(bad) > 0 || product.Count == 0 && i < len(p.Products)-1 {
			return fmt.Errorf("product %+v: %v", product, bad)
		}
	}
	for _, a := range p.Avoids {
		if a.Along < 0 || a.Across < 0 || a.Radius < 0 || a.Radius > pattern.MaxRadius {
			return fmt.Errorf("avoid %+v", a)
		}
	}
	for _, m := range p.Made {
		if !m.Date.Valid() || m.Copies < 1 || m.Copies > pattern.MaxBatch || m.Minutes < 0 {
			return fmt.Errorf("made %+v", m)
		}
	}
	return nil
}

// TestEveryMoveKeepsItsWord makes every move of the list on drawn states: none
// writes to what it was given, a refused one changes nothing, what comes out is in
// range, and only the moves that are no undo steps leave pattern and tray alone.
func TestEveryMoveKeepsItsWord(t *testing.T) {
	for _, m := range edit.Moves() {
		t.Run(m.ID, func(t *testing.T) {
			made := 0
			rapid.Check(t, func(t *rapid.T) {
				u := byRapid(t)
				s := u.state(u(9))
				before := deep(s)
				next, err := u.arbitrary()[m.ID](s)
				if !same(s, before) {
					t.Fatalf("wrote to its state: %s, was %s", row(s), row(before))
				}
				if err != nil {
					if !same(next, s) {
						t.Fatalf("refused (%v), but gives %s", err, row(next))
					}
					return
				}
				made++
				if err := inRange(next); err != nil {
					t.Fatalf("out of range: %v", err)
				}
				if !m.Step && !next.Alike(s) {
					t.Fatalf("is no step, but changed %s to %s", row(s), row(next))
				}
			})
			if made < 5 && !testing.Short() { // rapid draws fewer cases then
				t.Errorf("could be made %d times only: the property says nothing", made)
			}
		})
	}
}

// TestThereAndBack holds pairs of moves that cancel.
func TestThereAndBack(t *testing.T) {
	pairs := []struct {
		name  string
		there move
		back  move
	}{
		{"carry right and left", edit.CarryRight, edit.CarryLeft},
		{"carry left and right", edit.CarryLeft, edit.CarryRight},
		{"turn over twice", edit.TurnOver, edit.TurnOver},
		{"pin and unpin", edit.Pin, edit.Pin},
		{"wider and narrower", with(edit.Widen, 1*mm), with(edit.Narrow, 1*mm)},
		{"slide far and near", with(edit.SlideFar, 1*mm), with(edit.SlideNear, 1*mm)},
		{"twin and lay the twin aside", edit.Twin, func(s edit.State) (edit.State, error) {
			s, err := edit.LayAside(s)
			s.Tray = s.Tray[:len(s.Tray)-1]
			return s, err
		}},
		{"lay aside and bring back", edit.LayAside, func(s edit.State) (edit.State, error) { return edit.BringBack(s, len(s.Tray)-1) }},
	}
	for _, pair := range pairs {
		t.Run(pair.name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				u := byRapid(t)
				s := u.state(2 + u(8))
				there, err := pair.there(s)
				if err != nil {
					return
				}
				back, err := pair.back(there)
				if err != nil {
					t.Fatal(err)
				}
				if pair.name == "lay aside and bring back" && s.Selected == 0 {
					// The strip of the left edge comes back as the second.
					back, err = edit.CarryLeft(back)
				}
				if err != nil || !same(back, s) {
					t.Fatalf("from %s by %s to %s (%v)", row(s), row(there), row(back), err)
				}
			})
		})
	}
}

func TestTurnedTwice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u := byRapid(t)
		s := u.state(1 + u(5))
		was, _ := s.Strip()
		start := s.Pattern.Panel.Length + allow.Length - was.Start - s.Pattern.StripLength(was, allow.Length)
		once, err := edit.Turn(s, allow)
		if err != nil {
			t.Fatal(err)
		}
		twice, err := edit.Turn(once, allow)
		if err != nil {
			t.Fatal(err)
		}
		if got, _ := twice.Strip(); got.Turned != was.Turned || start >= 0 && !same(twice, s) {
			t.Fatalf("turned twice %+v, was %+v", got, was)
		}
	})
}

// TestRolledTwice: without jointing a strip rolled twice has its rings again and is
// as wide as it is thick; with jointing it is too narrow to be rolled again.
func TestRolledTwice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u := byRapid(t)
		s := u.state(1 + u(5))
		was, _ := s.Strip()
		plain := edit.Allowances{Flattening: u.anyLength(0, 5*mm)}
		once, err := edit.Roll(s, plain)
		if err != nil {
			if was.Width >= s.Pattern.Panel.Thickness+plain.Flattening {
				t.Fatalf("%v is wide enough: %v", was.Width, err)
			}
			return
		}
		twice, err := edit.Roll(once, plain)
		if err != nil {
			t.Fatal(err)
		}
		want := was
		want.Bark = was.Bark.Over() // two quarter turns the same way
		want.Width = s.Pattern.Panel.Thickness + plain.Flattening
		if got, _ := twice.Strip(); got != want {
			t.Fatalf("rolled twice %+v, want %+v", got, want)
		}
		jointed := plain
		jointed.Jointing = 1
		once, err = edit.Roll(s, jointed)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := edit.Roll(once, jointed); err == nil {
			t.Fatal("rolled again though jointing took a nanometre")
		}
	})
}

func TestSplitAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u := byRapid(t)
		s := u.state(1 + u(5))
		a := edit.Allowances{Jointing: u.anyLength(0, 5*mm), Rip: u.anyLength(0, 5*mm)}
		was, _ := s.Strip()
		left, right, lost, err := edit.Halves(s.Pattern, s.Selected, a)
		if err != nil {
			if was.Width >= a.Jointing+a.Rip+2 {
				t.Fatalf("%v is wide enough for %v and %v: %v", was.Width, a.Rip, a.Jointing, err)
			}
			return
		}
		if left.Width+right.Width+lost != was.Width || lost != a.Rip+a.Jointing || left.Width-right.Width > 1 || left.Width < right.Width {
			t.Fatalf("%v in %v and %v, %v lost", was.Width, left.Width, right.Width, lost)
		}
		split, err := edit.Split(s, a)
		if err != nil {
			t.Fatal(err)
		}
		joined, err := edit.Join(split)
		if err != nil {
			t.Fatalf("the halves do not join: %v", err)
		}
		if joined.Pattern.Width() != s.Pattern.Width()-lost || len(joined.Pattern.Strips) != len(s.Pattern.Strips) {
			t.Fatalf("split and joined %s, was %s", row(joined), row(s))
		}
	})
}

func TestMirrored(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u := byRapid(t)
		s := u.state(2 + u(8))
		once, err := edit.Mirror(s)
		if err != nil {
			once = s // a mirror image already
		}
		strips := once.Pattern.Strips
		for i := range strips {
			a, b := strips[i], strips[len(strips)-1-i]
			a.Pinned, b.Pinned = false, false
			if a != b && !strips[i].Pinned && !strips[len(strips)-1-i].Pinned {
				t.Fatalf("strip %d answers to no other: %s", i+1, row(once))
			}
		}
		for i, was := range s.Pattern.Strips {
			left, middle := s.Selected <= (len(strips)-1)/2, 2*i == len(strips)-1
			if (was.Pinned || middle || left == (2*i < len(strips))) && strips[i] != was {
				t.Fatalf("strip %d should have been left alone: %s, was %s", i+1, row(once), row(s))
			}
		}
		if twice, err := edit.Mirror(once); err == nil || !same(twice, once) {
			t.Fatalf("mirrored twice %s, once %s", row(twice), row(once))
		}
	})
}

func TestFillAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u := byRapid(t)
		s := u.state(1 + u(12))
		s.Pattern.Panel.Width = u.anyLength(1, pattern.MaxAcross)
		full, err := edit.Fill(s)
		if err != nil {
			return
		}
		if full.Pattern.Width() != s.Pattern.Panel.Width {
			t.Fatalf("filled to %v, wanted %v", full.Pattern.Width(), s.Pattern.Panel.Width)
		}
		for i, was := range s.Pattern.Strips {
			if is := full.Pattern.Strips[i]; was.Pinned && is != was {
				t.Fatalf("strip %d is pinned and went from %v to %v", i+1, was.Width, is.Width)
			}
		}
	})
}

// TestNothingIsLost: carrying, laying aside and bringing back keep every strip.
func TestNothingIsLost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u := byRapid(t)
		s := u.state(u(8))
		all := func(s edit.State) map[pattern.Strip]int {
			count := map[pattern.Strip]int{}
			for _, st := range slices.Concat(s.Pattern.Strips, s.Tray) {
				count[st]++
			}
			return count
		}
		want := all(s)
		for range 20 {
			id := []string{"carry-left", "carry-right", "lay-aside", "bring-back", "select"}[u(5)]
			next, err := u.arbitrary()[id](s)
			if err == nil {
				s = next
			}
		}
		got := all(s)
		if len(got) != len(want) {
			t.Fatalf("%d kinds of strip, were %d", len(got), len(want))
		}
		for st, n := range want {
			if got[st] != n {
				t.Fatalf("%+v %d times, was %d", st, got[st], n)
			}
		}
	})
}
