package gallery

import (
	"context"
	"fmt"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/look"
)

// From a pile of pieces every look is there, any two of them differ on three tenths of the
// width, and each layout has a whole plan. What an answer claims was checked before it was
// handed out.
func TestGalleryOfAPile(t *testing.T) {
	r := physics()
	ask := pileAsk(0)
	got, err := Solve(t.Context(), r, ask, suggest.Options{})
	if err != nil || got.Broken != nil || got.Status != suggest.Optimal || len(got.Layouts) != 7 {
		t.Fatalf("%v, %v, %v, %d layouts, left out %v", err, got.Broken, got.Status, len(got.Layouts), got.LeftOut)
	}
	for i, l := range got.Layouts {
		if l.Look != look.Looks()[i] || l.Plan == nil || l.Plan.Short > 0 || len(l.Strips) < 9 || len(l.Strips) > 15 {
			t.Errorf("layout %d: %v, %d strips, plan %v", i+1, l.Look, len(l.Strips), l.Plan != nil)
		}
		for j, o := range got.Layouts[:i] {
			if d := look.Apart(suggest.Seen(r, l.Strips), suggest.Seen(r, o.Strips), suggest.Told(r)); d < 30 || d < l.ApartPct {
				t.Errorf("layouts %d and %d differ on %.1f %%, said %.1f", j+1, i+1, d, l.ApartPct)
			}
		}
		for _, s := range l.Strips {
			if s.Width < 20*mm && l.Look != look.Accent {
				t.Errorf("layout %d, %v, has a strip of %v", i+1, l.Look, s.Width)
			}
		}
	}
	ask.Unlike = [][]suggest.Placed{got.Layouts[0].Strips, got.Layouts[2].Strips}
	ask.Looks, ask.Layouts = []look.Look{look.Mirror}, 1
	more, err := Solve(t.Context(), r, ask, suggest.Options{})
	if err != nil || len(more.Layouts) != 1 {
		t.Fatalf("the next best: %v, %d layouts", err, len(more.Layouts))
	}
	for _, before := range ask.Unlike {
		if d := look.Apart(suggest.Seen(r, more.Layouts[0].Strips), suggest.Seen(r, before), suggest.Told(r)); d < 30 {
			t.Errorf("the next best differs on %.1f %% only", d)
		}
	}
}

// A gallery to use up begins with what is marked, however soon it ends; what is said to be
// proved is, and what is left is said.
func TestGalleryUsesUp(t *testing.T) {
	r := physics()
	ask := pileAsk(1)
	ask.Looks, ask.Layouts = []look.Look{look.Mirror}, 1
	ctx, stop := context.WithTimeout(t.Context(), 40*time.Second)
	defer stop()
	got, err := Solve(ctx, r, ask, suggest.Options{})
	if err != nil || got.Broken != nil || got.Aim != suggest.UseUp || len(got.Layouts) == 0 {
		t.Fatalf("%v, %v, %v, %d layouts", err, got.Broken, got.Aim, len(got.Layouts))
	}
	for _, l := range got.Layouts {
		if l.Most.Use < l.UseFirst || (l.UseLeft(length.InMM) != "") != (!l.Proved && l.Most.Use > l.UseFirst) {
			t.Errorf("%v: uses %v, at most %v, proved %v: %q", l.Look, l.UseFirst, l.Most.Use, l.Proved, l.UseLeft(length.InMM))
		}
	}
	if got.Layouts[0].UseFirst == 0 {
		t.Error("nothing marked is used")
	}
}

// Little work on each walk finds most of what can be used up, whatever the look, so that a
// gallery whose time is short has something good.
func TestUsesUpSoon(t *testing.T) {
	r := physics()
	for _, seed := range []uint64{5, 9, 3, 1, 7}[:byDayOrNight(2, 5)] {
		ask := pileAsk(seed)
		ask.Aim = suggest.UseUp
		g := newGoods(r, ask, func() bool { return false })
		for _, l := range look.Looks() {
			s, ok := g.newSeek(l, func() bool { return false })
			if !ok {
				t.Fatalf("pile %d has no %v", seed+1, l)
			}
			most, _ := s.mostUse(t.Context(), units(ask.Floor(l)), nil, brief())
			if s.best == nil || 3*int64(s.best.UseFirst) < 2*most {
				t.Errorf("pile %d, %v: found %v, at most %d mm", seed+1, l, s.best, most/int64(mm))
			}
		}
	}
}

// A look that was not found because the time ran out is left out for that reason, not for
// what the rack has.
func TestTheTimeRanOut(t *testing.T) {
	ctx, stop := context.WithDeadline(t.Context(), time.Now().Add(-time.Second))
	defer stop()
	got, err := Solve(ctx, physics(), pileAsk(1), suggest.Options{LoosenFor: 1})
	if err != nil || got.Status != suggest.Open || !got.Stopped {
		t.Fatalf("%v, %v, stopped %v", err, got.Status, got.Stopped)
	}
	for _, o := range got.LeftOut {
		if o.Proved || !strings.Contains(o.Why, "time ran out") {
			t.Errorf("%v left out: %s, proved %v", o.Look, o.Why, o.Proved)
		}
	}
	if len(got.LeftOut) != len(look.Looks()) {
		t.Errorf("%d of %d looks are named", len(got.LeftOut), len(look.Looks()))
	}
}

// With other timbers in each, no two layouts are of the same two in the main.
func TestVary(t *testing.T) {
	ask := pileAsk(0)
	ask.Vary, ask.Looks, ask.Layouts = true, ask.Looks[:6], 6
	got, err := Solve(t.Context(), physics(), ask, suggest.Options{})
	if err != nil || got.Broken != nil || len(got.Layouts) != 6 {
		t.Fatalf("%v, %v, %d layouts", err, got.Broken, len(got.Layouts))
	}
	e := &every{r: physics(), ask: ask}
	for i, l := range got.Layouts {
		var before [][]suggest.Placed
		for _, o := range got.Layouts[:i] {
			before = append(before, o.Strips)
		}
		if !e.fresh(l.Strips, before) {
			t.Errorf("%v is of the timbers of one before", l.Look)
		}
	}
}

// Wishes about timbers and pieces are kept to, and looks that the rack cannot give are named.
func TestWishes(t *testing.T) {
	r := physics()
	ask := pileAsk(0)
	ask.Looks, ask.Layouts = []look.Look{look.Mirror, look.Lively}, 2
	ask.Without, ask.Longest = []string{"black_walnut"}, 800*mm
	ask.AtMost = []suggest.Share{{Species: "hard_maple", Pct: 30}}
	got, err := Solve(t.Context(), r, ask, suggest.Options{})
	if err != nil || got.Broken != nil || len(got.Layouts) == 0 {
		t.Fatalf("%v, %v, %d layouts", err, got.Broken, len(got.Layouts))
	}
	for _, l := range got.Layouts {
		var maple length.Length
		for _, s := range l.Strips {
			if s.Species == "black_walnut" {
				t.Errorf("%v has walnut", l.Look)
			}
			if s.Species == "hard_maple" {
				maple += s.Width
			}
			i := slices.IndexFunc(ask.Rack.Pieces, func(p rack.Piece) bool { return p.ID == s.Source })
			if i < 0 || ask.Rack.Pieces[i].Length > 800*mm {
				t.Errorf("%v takes from %s", l.Look, s.Source)
			}
		}
		if 100*maple.MM() > 30*l.Width.MM() {
			t.Errorf("%v is %v maple of %v", l.Look, maple, l.Width)
		}
	}
	ask = pileAsk(0)
	ask.Looks, ask.Layouts, ask.Timbers = []look.Look{look.Fade, look.Calm}, 2, [2]int{2, 2}
	if got, err = Solve(t.Context(), r, ask, suggest.Options{}); err != nil || len(got.LeftOut) != 1 || got.LeftOut[0].Look != look.Fade {
		t.Errorf("fade of two timbers: %v, %v", err, got.LeftOut)
	}
}

// Where nothing does it, what it would work with was found.
func TestWays(t *testing.T) {
	ask := suggest.New(200*mm, 22*mm, 400*mm)
	ask.Tolerance, ask.Aim, ask.Looks, ask.Layouts = 0, suggest.Contrast, []look.Look{look.Mirror}, 1
	ask.Have = []suggest.ReadyStrips{{Species: "hard_maple", Width: 25 * mm, Count: 4, Source: "m"}, {Species: "black_walnut", Width: 20 * mm, Count: 4, Source: "w"},
		{Species: "sapele", Width: 30 * mm, Count: 1, Source: "s"}}
	ask.Without, ask.Level = []string{"sapele"}, 2
	got, err := Solve(t.Context(), physics(), ask, suggest.Options{})
	if err != nil || got.Status != suggest.Infeasible || got.Loosen == nil || len(got.Loosen.Ways) == 0 {
		t.Fatalf("%v, %v, %+v", err, got.Status, got.Loosen)
	}
	for _, way := range got.Loosen.Ways {
		with, err := Solve(t.Context(), physics(), way.Request, suggest.Options{LoosenFor: 1})
		if err != nil || len(with.Layouts) == 0 {
			t.Errorf("%q does not: %v", way.Said, err)
		}
	}
	if !strings.HasPrefix(got.Loosen.Say(length.InMM)[0], "it would work ") {
		t.Errorf("%q", got.Loosen.Say(length.InMM))
	}
}

// Ten piles, odd ones to use up: the looks offered, D of any two, the processor time by which
// each was found and settled, and whether each is proved. ODDMENTS_PILES=1 prints it, with
// ODDMENTS_VARY=1 of other timbers in each: go test -run TestTenPiles -v.
func TestTenPiles(t *testing.T) {
	if os.Getenv("ODDMENTS_PILES") == "" {
		t.Skip("a table for the eye: ODDMENTS_PILES=1")
	}
	r, began := physics(), time.Now()
	for seed := range uint64(10) {
		ask := pileAsk(seed)
		ask.Vary = os.Getenv("ODDMENTS_VARY") != ""
		start, at := processorTime(began), []time.Duration{}
		got, err := Solve(t.Context(), r, ask, suggest.Options{Progress: func(suggest.Progress) { at = append(at, processorTime(began)-start) }})
		if err != nil || got.Broken != nil {
			t.Fatal(err, got.Broken)
		}
		fmt.Printf("pile %d, %v, all in %.1f s\n", seed+1, got.Aim, (processorTime(began) - start).Seconds())
		for i, l := range got.Layouts {
			fmt.Printf("  %-7v %5.1f s  %-10v use-first %-7v at most %-7v contrast %4.1f  D", l.Look, at[i].Seconds(), map[bool]string{true: "proved", false: "not proved"}[l.Proved],
				l.UseFirst, l.Most.Use, l.SmallestContrast)
			for _, o := range got.Layouts[:i] {
				fmt.Printf(" %3.0f", look.Apart(suggest.Seen(r, l.Strips), suggest.Seen(r, o.Strips), suggest.Told(r)))
			}
			fmt.Print("  ")
			for _, p := range l.Strips {
				s, _ := r.Table().Get(p.Species)
				fmt.Printf(" %s%v", s.Letters, p.Width.MM())
			}
			fmt.Println()
		}
		for _, o := range got.LeftOut {
			fmt.Printf("  %v left out: %s, proved %v\n", o.Look, o.Why, o.Proved)
		}
	}
}

// processorTime returns how long the tests have used a processor, so that a busy machine does
// not count, to a hundredth of a second; where the system does not say, what the clock says.
func processorTime(began time.Time) time.Duration {
	const user, system, hundredth = 13, 14, 10 * time.Millisecond // fields of /proc/self/stat
	text, err := os.ReadFile("/proc/self/stat")
	if fields := strings.Fields(string(text)); err == nil && len(fields) > system {
		a, _ := strconv.Atoi(fields[user])
		b, _ := strconv.Atoi(fields[system])
		return time.Duration(a+b) * hundredth
	}
	return time.Since(began)
}

// Budget: the first layout of each look within 1 s, the gallery within 3 s, proved within 10 s,
// from 25 pieces of 6 timbers.
func BenchmarkGallery(b *testing.B) {
	r := physics()
	for _, seed := range []uint64{0, 2, 4} {
		b.Run(fmt.Sprint("pile ", seed+1), func(b *testing.B) {
			for b.Loop() {
				start, slowest, before := time.Now(), time.Duration(0), time.Duration(0)
				got, err := Solve(b.Context(), r, pileAsk(seed), suggest.Options{Progress: func(suggest.Progress) {
					now := time.Since(start)
					slowest, before = max(slowest, now-before), now
				}})
				if err != nil {
					b.Fatal(err)
				}
				proved := 0
				for _, l := range got.Layouts {
					if l.Proved {
						proved++
					}
				}
				b.ReportMetric(slowest.Seconds(), "s-slowest-look")
				b.ReportMetric(float64(proved), "proved")
				b.ReportMetric(float64(len(got.Layouts)), "layouts")
			}
		})
	}
}

// A strip pinned that cannot be had is given at its place, and there alone: that no more of it can
// be cut does not rule out the layouts that have it.
func TestPinnedAsGivenAmongPieces(t *testing.T) {
	a := suggest.New(86*mm, 20*mm, 400*mm)
	a.Tolerance, a.Strips, a.Layouts, a.Aim = 6*mm, [2]int{3, 5}, 1, suggest.Contrast
	a.Widths, a.Looks = []length.Length{30 * mm}, []look.Look{look.Any}
	a.Pinned = []suggest.Pin{{Place: 1, Strip: pattern.Strip{Species: "black_walnut", Width: 30 * mm}}}
	for i, p := range []rack.Piece{{Species: "black_walnut", Length: 205 * mm}, {Species: "hard_maple", Length: 900 * mm}} {
		p.ID, p.Width, p.Thickness, p.Quantity = string(rune('A'+i)), 59*mm, 42*mm, 1
		a.Rack.Pieces = append(a.Rack.Pieces, p)
	}
	got, err := Solve(t.Context(), physics(), a, suggest.Options{LoosenFor: 1})
	if err != nil || len(got.Layouts) != 1 {
		t.Fatalf("%v, %v, %d layouts", err, got.Status, len(got.Layouts))
	}
	if l := got.Layouts[0]; len(l.Strips) != 3 || l.Strips[0].Source != "" || l.Strips[2].Species != "hard_maple" {
		t.Errorf("%+v", l.Strips)
	}
}
