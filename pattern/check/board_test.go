package check_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/joints"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/second/secondtest"
)

// again returns p with second glue-ups.
func again(p pattern.Pattern, ups ...pattern.Second) pattern.Pattern {
	p.Seconds = ups
	return p
}

func strips(n int, timbers ...string) (all []pattern.Strip) {
	for i := range n {
		all = append(all, strip(timbers[i%len(timbers)], 25*mm))
	}
	return all
}

// boardCases are worked out by hand for a panel of 450 mm and a kerf of 3.2: ten bars of 41
// take 438.8.
func boardCases() []ruleCase {
	maple := panel(strips(4, "hard_maple", "black_walnut")...)
	odd := panel(strips(5, "hard_maple", "black_walnut")...)
	deep := maple
	deep.Panel.Thickness = 81 * mm
	end := pattern.Second{Bar: 41 * mm}
	flat := pattern.Second{Lay: pattern.LayFlat, Bar: 41 * mm}
	with := func(s pattern.Second, change func(*pattern.Second)) pattern.Second {
		change(&s)
		return s
	}
	return []ruleCase{
		{"too few bars", "bars", again(maple, with(end, func(s *pattern.Second) { s.Bars = 12 })), pattern.TooMuch, "second 1",
			"10 bars come out of 12 asked for: make the panel longer or ask for fewer"},
		{"bars that are left", "bars", again(maple, with(end, func(s *pattern.Second) { s.Bars = 9 })), pattern.Fine, "second 1", "1 bar more would come out"},
		{"no bar", "bars", again(maple, with(end, func(s *pattern.Second) { s.Bar = 500 * mm })), pattern.TooMuch, "second 1",
			"no bar comes out: what is cut is 450 mm long and 100 mm wide, a bar takes 500 mm"},
		{"no board", "bars", again(maple, with(end, func(s *pattern.Second) { s.Trim = 60 * mm })), pattern.TooMuch, "second 1",
			"no board comes out: trim, shift and flattening take all of it"},
		{"a thick panel", "bar_saw", again(deep, end), pattern.TakeCare, "second 1",
			"what is cut is 81 mm thick, your saw cuts 80 mm deep: saw it another way; follow your machine's manual and local rules"},
		{"a mitre", "grain_joint", again(maple, with(flat, func(s *pattern.Second) { s.Angle, s.Bars = 45, 2 })), pattern.TakeCare, "second 1 line 1",
			"the joint cuts the grain at 45 degrees: weaker than long grain, size it before you glue"},
		{"end to end", "grain_joint", again(maple, flat), pattern.TooMuch, "second 1",
			"bar lines 1 to 9: end grain to end grain, 90 degrees: glue holds poorly on it, change the build"},
		{"turned for nothing", "turned_alike", again(odd, with(end, func(s *pattern.Second) { s.Turned = []bool{false, true} })), pattern.TakeCare, "second 1",
			"the strips are the same from both ends, so turning bars does nothing: shift them by a strip"},
		// The humid swing is 4.00 points. Beech and maple meet along the joint with CT 0.00431 and
		// 0.00353; flat and quarter maple bear half of 0.00353 less 0.00165 each; the chequer's
		// means are 0.001775 over 220 mm and 0.003135 over 100.
		{"unlike cells", "cells", again(panel(strips(12, "hard_maple", "american_beech")...), with(end, func(s *pattern.Second) { s.Turned = []bool{false, true} })), pattern.TakeCare, "second 1",
			"bar lines 1 to 9: cells strain 0.31 ±0.33 % in the humid season; close to the limit"},
		{"unlike rows", "rows", again(panel(strip("hard_maple", 40*mm), quarter("hard_maple", 40*mm)), end), pattern.TooMuch, "second 1",
			"the row from 0 mm to 40 mm would move 0.38 % apart from the board over its whole length: mix its timber into other rows, as a chequer does"},
		{"a frame", "frame", again(maple, end), pattern.Fine, "second 1",
			"the board changes by -0.4 mm in length and -0.3 mm in width in the dry season, +1.6 mm in length and +1.3 mm in width in the humid season: " +
				"glue no long-grain frame or strip round it, it would break"},
		{"nearly meeting", "near_miss", again(maple, with(end, func(s *pattern.Second) { s.Bars, s.Shift = 2, []pattern.Shift{{}, {By: mm}} })), pattern.TakeCare,
			"second 1 line 1", "strip lines miss each other by less than 2 mm: it reads as a mistake, let them meet or shift them further"},
	}
}

func TestBarsOfNoBoard(t *testing.T) {
	if found := by(check.Of(physics(), panel(strips(300, "hard_maple", "black_walnut")...), length.InMM), "bars"); len(found) != 0 {
		t.Errorf("a panel has bars: %+v", found)
	}
	many := again(panel(strips(2100, "hard_maple", "black_walnut")...), pattern.Second{Bar: 41 * mm})
	if found := by(check.Of(physics(), many, length.InMM), "bars"); len(found) != 1 || found[0].Level != pattern.TakeCare || !strings.Contains(found[0].Message, "20000 cells is not laid") {
		t.Errorf("21,000 cells: %+v", found)
	}
}

// The findings of the worked glue-ups are those of another program of ours, and a chequer
// of end grain says what it does to a frame.
func TestFindingsOfWorkedGlueUps(t *testing.T) {
	cases, _, err := secondtest.Stored()
	if err != nil {
		t.Fatal(err)
	}
	frames := 0
	for _, c := range cases {
		p, err := secondtest.Read(c.TOML)
		if err != nil {
			t.Fatal(err)
		}
		var got, want []string
		for _, f := range check.Of(physics(), p, length.InMM).Findings {
			if f.Rule == "frame" {
				frames++
				if !strings.Contains(f.Message, "in length and") || f.Level != pattern.Fine {
					t.Errorf("%+v", f)
				}
			}
			if said := fmt.Sprintf("%s %v", f.Rule, f.Level); f.Where.Second > 0 && f.Level > pattern.Fine && !slices.Contains(got, said) {
				got = append(got, said)
			}
		}
		for _, f := range c.Answer.Findings {
			want = append(want, f[0]+" "+f[1])
		}
		if slices.Sort(got); !slices.Equal(got, want) {
			t.Errorf("%s: %v, want %v", c.Name, got, want)
		}
		if c.Name == "accent-row" && !slices.Contains(got, "rows too much") {
			t.Error("one accent row is fine")
		}
	}
	if frames != 8 {
		t.Errorf("%d of the worked boards are of end grain", frames)
	}
}

// What would help is tried on the pattern, and offered only where it does.
func TestRemediesOfBoards(t *testing.T) {
	maple, odd := panel(strips(4, "hard_maple", "black_walnut")...), panel(strips(5, "hard_maple", "american_beech")...)
	alike := panel(strips(5, "black_cherry", "black_walnut")...)
	turned := []bool{false, true}
	for _, c := range []struct {
		name, rule string
		p          pattern.Pattern
		want       string // the best remedy
	}{
		{"too few bars", "bars", again(maple, pattern.Second{Bar: 41 * mm, Bars: 12}), "make do with 10 bars"},
		{"bars that are left", "bars", again(maple, pattern.Second{Bar: 41 * mm, Bars: 9}), "cut all 10 bars"},
		{"no bar", "bars", again(maple, pattern.Second{Bar: 500 * mm}), ""},
		{"turned for nothing", "turned_alike", again(alike, pattern.Second{Bar: 41 * mm, Turned: turned}), "shift every other bar of glue-up 1 by a strip, and turn none"},
		{"turned for nothing, and shifted they would strain", "turned_alike", again(odd, pattern.Second{Bar: 41 * mm, Turned: turned}), ""},
		{"turned for nothing, no strip to spare", "turned_alike", again(panel(strip("hard_maple", 40*mm)), pattern.Second{Bar: 41 * mm, Turned: turned}), ""},
		// Turned, each row has as much of either; the bar lines then strain, whose limit to take care
		// is that of glue lines.
		{"unlike rows", "rows", again(panel(strip("hard_maple", 40*mm), quarter("hard_maple", 40*mm)), pattern.Second{Bar: 41 * mm}), ""},
	} {
		found := by(check.Of(physics(), c.p, length.InMM), c.rule)
		if len(found) != 1 {
			t.Errorf("%s: %+v", c.name, found)
			continue
		}
		all := found[0].Remedies()
		if c.want == "" {
			if len(all) > 0 {
				t.Errorf("%s: %q helps nobody", c.name, all[0].Text)
			}
			continue
		}
		if len(all) == 0 || all[0].Text != c.want {
			t.Errorf("%s: %+v, want %q", c.name, all, c.want)
			continue
		}
		next, err := all[0].Apply(edit.New(c.p), check.Allowances(physics().Shop()))
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if left := by(check.Of(physics(), next.Pattern, length.InMM), c.rule); len(left) > 0 {
			t.Errorf("%s: after it there is still %q", c.name, left[0].Message)
		}
	}
}

// Bars take the whole panel: no gap between products hides a joint, and every place counts as
// one that strips must bridge.
func TestJointsInAPanelThatIsGluedAgain(t *testing.T) {
	parted := strip("hard_maple", 40*mm)
	parted.Joints = pattern.JointsOf(pattern.Joint{From: 200 * mm, To: 210 * mm})
	p := again(panel(strip("black_walnut", 40*mm), parted), pattern.Second{Bar: 41 * mm})
	p.Products = []pattern.Product{{Shape: outline.Rectangle, Length: 50 * mm, Width: 50 * mm, Count: 1}}
	r := check.Of(physics(), p, length.InMM)
	if found := by(r, "joint_shows"); len(found) != 1 || found[0].Level != pattern.TakeCare || !strings.Contains(found[0].Message, "bars are cut across the whole panel, so it opens in the board") {
		t.Errorf("%+v", found)
	}
	if found := by(r, "parted"); len(found) != 1 || found[0].Level != pattern.TooMuch {
		t.Errorf("one strip of two runs through: %+v", found)
	}
	ways, err := joints.Of(p, physics().Shop(), joints.Anywhere)
	if err != nil || len(ways) != 2 || len(ways[0]) != 1 || len(ways[1]) != 1 || len(ways[1][0]) != 1 {
		t.Errorf("a strip of a panel that is cut into bars may be laid in %v, %v", ways, err)
	}
}
