package evenings

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/work"
)

// A plain is a glue-up as the oracle knows it.
type plain struct{ panel, round, clamps, seconds int }

// tryAll returns the first of all ways to put glue-ups into the fewest evenings, gone through in
// the order of the evening of the first, then of the second, and so on. It shares no code with the
// search: it tries every way, and holds each to the statement.
func tryAll(all []plain, clamps, seconds, handling int) []int {
	good := func(at []int, evenings int) bool {
		for e := range evenings {
			sumClamps, sumSeconds, n, alone := 0, 0, 0, false
			for i, g := range all {
				if at[i] != e {
					continue
				}
				n++
				sumClamps += g.clamps
				sumSeconds += g.seconds + handling
				alone = alone || clamps == 0 || g.clamps == 0 || g.clamps > clamps || seconds > 0 && g.seconds+handling > seconds
			}
			if n > 1 && (alone || sumClamps > clamps || seconds > 0 && sumSeconds > seconds) {
				return false
			}
		}
		for i, a := range all {
			for k, b := range all {
				if a.panel == b.panel && a.round < b.round && at[i] >= at[k] {
					return false
				}
			}
		}
		return true
	}
	for evenings := 1; ; evenings++ {
		at := make([]int, len(all))
		for {
			if good(at, evenings) {
				return at
			}
			i := len(at) - 1
			for i >= 0 && at[i] == evenings-1 {
				at[i] = 0
				i--
			}
			if i < 0 {
				break
			}
			at[i]++
		}
	}
}

// The search against trying all, on small sets with parts and second glue-ups.
func TestAgainstTryingAll(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 11))
	evenings := map[int]int{}
	for n := range 3000 {
		r := Request{Clamps: []int{0, 6, 9, 14}[rng.IntN(4)], Handling: rng.IntN(400), Wait: rng.IntN(4)}
		if rng.IntN(2) == 0 {
			r.Seconds = 600 + rng.IntN(2000)
		}
		var all []plain
		for len(all) < 6 && len(r.Panels) < 5 {
			var p Panel
			for range []int{1, 1, 1, 2, 2, 3}[rng.IntN(6)] {
				var round []GlueUp
				for range 1 + rng.IntN(2) {
					if len(all) == 6 {
						break
					}
					g := GlueUp{From: len(all), Clamps: rng.IntN(10), Spread: rng.IntN(900)}
					all = append(all, plain{len(r.Panels), len(p.Rounds), g.Clamps, g.Spread})
					round = append(round, g)
				}
				if len(round) > 0 {
					p.Rounds = append(p.Rounds, round)
				}
			}
			r.Panels = append(r.Panels, p)
		}
		want := tryAll(all, r.Clamps, r.Seconds, r.Handling)
		got := Solve(r)
		at := evenOf(got)
		if !got.Proved() || !slices.Equal(at, want) {
			t.Fatalf("case %d, %+v: evenings %v, at least %d; trying all has %v", n, r, at, got.Least, want)
		}
		evenings[len(got.Evenings)]++
		holds(t, r, got)
	}
	if len(evenings) < 5 {
		t.Errorf("the cases take only %v evenings", evenings)
	}
}

// evenOf returns the evening of every glue-up, which From numbers in the order of the request.
func evenOf(s Schedule) []int {
	of := map[int]int{}
	for e, evening := range s.Evenings {
		for _, g := range evening.GlueUps {
			of[g.From] = e
		}
	}
	at := make([]int, len(of))
	for i := range at {
		at[i] = of[i]
	}
	return at
}

// holds checks a schedule against its request: days rise, and what waits has waited.
func holds(t *testing.T, r Request, s Schedule) {
	t.Helper()
	for e, evening := range s.Evenings {
		if e == 0 && evening.Day != 1 || e > 0 && evening.Day <= s.Evenings[e-1].Day {
			t.Errorf("%+v: evening %d is day %d", r, e+1, evening.Day)
		}
		for _, g := range evening.GlueUps {
			for _, before := range s.Evenings[:e] {
				for _, b := range before.GlueUps {
					if b.Panel == g.Panel && b.Round < g.Round && evening.Day < before.Day+r.Wait {
						t.Errorf("%+v: %v on day %d, its parts on day %d", r, g, evening.Day, before.Day)
					}
				}
			}
		}
	}
}

// A large set is scheduled soon; what is not proved has a bound.
func TestLargeSets(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 2))
	for n := 0; n < 40; n += 3 {
		r := Request{Clamps: 20, Seconds: 9000, Handling: 1200, Wait: 3}
		for range 10 + n {
			p := Panel{Rounds: [][]GlueUp{{{Clamps: 3 + rng.IntN(12), Spread: 200 + rng.IntN(500)}}}}
			if rng.IntN(4) == 0 {
				p.Rounds = append(p.Rounds, []GlueUp{{Clamps: 2 + rng.IntN(8), Spread: 300}})
			}
			r.Panels = append(r.Panels, p)
		}
		s := Solve(r)
		if s.Least > len(s.Evenings) || s.Least*10 < len(s.Evenings)*9-10 {
			t.Errorf("%d panels: %d evenings, at least %d", len(r.Panels), len(s.Evenings), s.Least)
		}
		holds(t, r, s)
	}
}

// As many copies as may be made at a time are scheduled; without its limit of steps the search
// never ends.
func TestManyCopies(t *testing.T) {
	for _, clamps := range []int{0, 12} {
		r := Request{Clamps: clamps, Handling: 1200, Wait: 3}
		for i := range 10_000 {
			p := Panel{Rounds: [][]GlueUp{{{Clamps: 3 + i%4, Spread: 300}}}}
			if i%50 == 0 {
				p.Rounds = append(p.Rounds, p.Rounds[0])
			}
			r.Panels = append(r.Panels, p)
		}
		s := Solve(r)
		if s.Least > len(s.Evenings) || s.Least < len(s.Evenings)*9/10 {
			t.Errorf("%d clamps: %d evenings, at least %d", clamps, len(s.Evenings), s.Least)
		}
		holds(t, r, s)
	}
}

// Worked by hand: 25 strips have 24 glue lines, 18 of them in 12 minutes at 40 s each: two parts
// of 13 and 12 strips, then one line. Two of 318 mm fit no thicknesser of that width.
func TestParts(t *testing.T) {
	const mm = length.Millimetre
	of := func(n int, wide length.Length, s shop.Shop) string {
		j := work.Job{Copies: 1}
		for range n {
			j.Pattern.Strips = append(j.Pattern.Strips, pattern.Strip{Width: wide})
		}
		p := PanelOf(j, work.Figures{Glue: work.GlueFigures{Clamps: work.Estimate{Value: 6, Known: true}}}, s)
		if p.Slow {
			return "slow"
		}
		text := ""
		for _, round := range p.Rounds {
			for _, g := range round {
				text += fmt.Sprintf("%d:%d-%d,%dx%ds ", g.Kind, g.From, g.To, g.Joints, g.Spread)
			}
			text += "| "
		}
		return text
	}
	usual, fast := shop.Default(), shop.Default()
	fast.Glue.OpenMinutes = 0.5
	quick := shop.Default()
	quick.Glue.OpenMinutes, quick.Machine.ThicknesserWidth = 1, 0 // one line at a time
	for _, c := range []struct {
		n    int
		wide length.Length
		shop shop.Shop
		want string
	}{
		{1, 30 * mm, usual, ""},
		{13, 23 * mm, usual, "0:0-0,12x480s | "},
		{25, 12 * mm, usual, "1:1-13,12x480s 1:14-25,11x440s | 2:0-0,1x40s | "},
		{3, 318 * mm, usual, "0:0-0,2x80s | "}, // each is as wide as the thicknesser takes
		{4, 150 * mm, usual, "1:1-2,1x40s 1:3-4,1x40s | 2:0-0,1x40s | "},
		{5, 30 * mm, quick, "1:1-2,1x40s 1:3-4,1x40s | 2:0-0,1x40s | 2:0-0,1x40s | "},
		{5, 30 * mm, fast, "slow"},
	} {
		if got := of(c.n, c.wide, c.shop); got != c.want {
			t.Errorf("%d strips of %v: %q, want %q", c.n, c.wide, got, c.want)
		}
	}
}

// Every setting of the workshop for evenings counts, and clamps that are said go before its.
func TestSettings(t *testing.T) {
	panel := Panel{Rounds: [][]GlueUp{{{Clamps: 4, Spread: 480}}, {{Clamps: 3, Spread: 300}}}}
	of := func(change func(*shop.Glue), clamps int) string {
		s := shop.Default()
		s.Glue.Clamps, s.Glue.EveningHours = 8, 1
		change(&s.Glue)
		r := RequestOf(s, clamps)
		r.Panels = []Panel{panel, panel, panel}
		got := Solve(r)
		return fmt.Sprint(got.Evenings, got.Text(), r.ClampsText(), r.TimeText(), r.Caveats())
	}
	usual := of(func(*shop.Glue) {}, 0)
	for name, other := range map[string]string{
		"clamps":       of(func(g *shop.Glue) { g.Clamps = 4 }, 0),
		"no clamps":    of(func(g *shop.Glue) { g.Clamps = 0 }, 0),
		"clamps said":  of(func(*shop.Glue) {}, 4),
		"hours":        of(func(g *shop.Glue) { g.EveningHours = 0.5 }, 0),
		"no hours":     of(func(g *shop.Glue) { g.EveningHours = 0 }, 0),
		"handling":     of(func(g *shop.Glue) { g.Handling = 5 }, 0),
		"days to wait": of(func(g *shop.Glue) { g.WaitDays = 7 }, 0),
	} {
		if other == usual {
			t.Errorf("%s make no difference: %s", name, usual)
		}
	}
}

// What is told of a schedule, worked by hand: two boards of 6 clamps with 8 at hand.
func TestWords(t *testing.T) {
	r := Request{Clamps: 8, Seconds: 3600, Handling: 1200, Panels: []Panel{
		{Rounds: [][]GlueUp{{{Kind: Part, From: 1, To: 9, Joints: 8, Spread: 320, Clamps: 6}, {Kind: Part, From: 10, To: 18, Joints: 8, Spread: 320, Clamps: 6}}, {{Kind: Together, Joints: 1, Spread: 40, Clamps: 6}}}},
		{Rounds: [][]GlueUp{{{Second: 2, Joints: 1, Spread: 40, Clamps: 12}}}},
	}}
	s := Solve(r)
	var text []string
	for _, e := range s.Evenings {
		for _, g := range e.GlueUps {
			text = append(text, g.Text("tray"))
		}
		text = append(text, fmt.Sprintf("day %d, %s, %s %s", e.Day, e.ClampsText(), e.TakesText(), r.Lacks(e)))
	}
	want := []string{
		"tray, part of strips 1 to 9: 8 glue lines", "day 1, 6 clamps, about 26 min ", "tray, part of strips 10 to 18: 8 glue lines", "day 2, 6 clamps, about 26 min ",
		"tray, its parts together: 1 glue line", "day 3, 6 clamps, about 21 min ",
		"tray, second glue-up 2: 1 glue line", "day 4, 12 clamps, about 21 min takes 12 clamps, you have 8: more clamps or a thicker caul",
	}
	if !slices.Equal(text, want) || s.Text() != "4, no fewer is possible (proved)" {
		t.Errorf("%q, %s", text, s.Text())
	}
}
