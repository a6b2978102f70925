package check_test

import (
	"slices"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/length"
)

// inTurn is strips of walnut and maple turn about, the maple as wet as is said.
func inTurn(maple ...float64) pattern.Pattern {
	var strips []pattern.Strip
	for _, m := range maple {
		wet := strip("hard_maple", 30*mm)
		wet.Moisture = pattern.Read(m)
		strips = append(strips, strip("black_walnut", 30*mm), wet)
	}
	return panel(strips...)
}

// groupsBy returns what the groups of one rule tell of, each with its places.
func groupsBy(r check.Report, rule string) []string {
	var out []string
	for _, g := range r.Groups {
		if g.Rule == rule {
			out = append(out, g.Level.Heading()+", "+g.Places()+": "+g.Says())
		}
	}
	return out
}

// Glue lines of the same two timbers, in either order, with the same rings and level are read
// as one; another ring or level parts them. The gaps are by hand: the panel is at 8 percent.
func TestAlikeLinesAreOneGroup(t *testing.T) {
	p := inTurn(11, 11, 11)
	rings := inTurn(11, 11, 11)
	rings.Strips[5].Rings = pattern.RingsQuarter()
	unlike := inTurn(11, 11.5, 11)
	levels := inTurn(11, 11, 9.5)
	levels.Strips[4].Moisture = pattern.Read(8) // so 4|5 is 3 points apart, and 5|6 is 1.5
	const apart = ", 3.0 points apart: keep both in the same air until they agree, then glue"
	for _, c := range []struct {
		name string
		p    pattern.Pattern
		want []string
	}{
		{"all", p, []string{"too much, lines 1|2 to 5|6: strip 1 is at 8.0 % moisture and strip 2 at 11.0 %" + apart + "; worst at 1|2"}},
		{"another ring", rings, []string{
			"too much, lines 1|2 to 4|5: strip 1 is at 8.0 % moisture and strip 2 at 11.0 %" + apart + "; worst at 1|2",
			"too much, line 5|6: strip 5 is at 8.0 % moisture and strip 6 at 11.0 %" + apart,
		}},
		{"the worst leads", unlike, []string{"too much, lines 1|2 to 5|6: strip 3 is at 8.0 % moisture and strip 4 at 11.5 %" + strings.Replace(apart, "3.0", "3.5", 1) + "; worst at 3|4"}},
		{"another level", levels, []string{
			"too much, lines 1|2 to 4|5: strip 1 is at 8.0 % moisture and strip 2 at 11.0 %" + apart + "; worst at 1|2",
			"take care, line 5|6: strip 5 is at 8.0 % moisture and strip 6 at 9.5 %" + strings.Replace(apart, "3.0", "1.5", 1),
		}},
	} {
		if got := groupsBy(check.Of(physics(), c.p, length.InMM), "moisture"); !slices.Equal(got, c.want) {
			t.Errorf("%s:\n got %q\nwant %q", c.name, got, c.want)
		}
	}
}

// No contrast goes by rings: maple next to maple looks like one strip however it is sawn.
func TestContrastGroupsWithoutRings(t *testing.T) {
	p := panel(strip("hard_maple", 30*mm), quarter("hard_maple", 30*mm), quarter("hard_maple", 30*mm))
	if got := groupsBy(check.Of(physics(), p, length.InMM), "contrast"); len(got) != 1 || !strings.Contains(got[0], "lines 1|2, 2|3: hard maple next to hard maple") || strings.Contains(got[0], "worst") {
		t.Errorf("%q", got)
	}
}

// The best remedy of each line of a group is told, the one of the worst line first, no
// change twice and four at most; a finding alone has all of its own.
func TestRemediesOfGroups(t *testing.T) {
	report := check.Of(physics(), inTurn(11, 11.5, 11, 11, 11, 11), length.InMM)
	for _, g := range report.Groups {
		all := g.Remedies()
		if len(g.Findings) == 1 {
			if len(all) != len(g.Finding.Remedies()) {
				t.Errorf("%s: %d remedies, want all %d", g.Places(), len(all), len(g.Finding.Remedies()))
			}
			continue
		}
		if g.Rule == "moisture" && (len(all) != 4 || all[0].Strip != 4) {
			t.Errorf("%d remedies, first %q", len(all), all[0].Text)
		}
		for i, m := range all {
			for _, o := range all[:i] {
				if m.Text == o.Text {
					t.Errorf("twice: %q", m.Text)
				}
			}
		}
	}
}

// Every finding stands in one group, with its rule and level; the gravest groups come first,
// and the findings stay as scripts have them, in the order of the rules.
func TestGroupsHoldEveryFinding(t *testing.T) {
	r := check.Of(physics(), hardCase(), length.InMM)
	seen := map[[3]any]int{}
	for i, g := range r.Groups {
		if i > 0 && g.Level > r.Groups[i-1].Level {
			t.Errorf("%s comes after a lower level", g.Says())
		}
		for _, f := range g.Findings {
			if f.Rule != g.Rule || f.Level != g.Level {
				t.Errorf("%s, %v in a group of %s, %v", f.Rule, f.Level, g.Rule, g.Level)
			}
			seen[[3]any{f.Rule, f.Where, f.Message}]++
		}
	}
	for _, f := range r.Findings {
		if seen[[3]any{f.Rule, f.Where, f.Message}] != 1 {
			t.Errorf("%v: in %d groups", f.Message, seen[[3]any{f.Rule, f.Where, f.Message}])
		}
	}
	at := func(id string) int {
		return slices.IndexFunc(check.Rules(), func(c check.Rule) bool { return c.ID == id })
	}
	for i := 1; i < len(r.Findings); i++ {
		if at(r.Findings[i].Rule) < at(r.Findings[i-1].Rule) {
			t.Errorf("finding %d is out of the order of the rules", i)
		}
	}
}

// Places are named by what they are; three and more in a row as from and to, and of very
// many the first and how many more.
func TestPlacesOfGroups(t *testing.T) {
	line := func(n int) check.Place { return check.Place{Line: n} }
	var odd []check.Place
	for n := 1; n < 40; n += 2 {
		odd = append(odd, line(n))
	}
	for _, c := range []struct {
		want   string
		places []check.Place
	}{
		{"panel", []check.Place{{}}},
		{"line 3|4", []check.Place{line(3)}},
		{"lines 3|4, 4|5, 8|9 to 10|11", []check.Place{line(3), line(4), line(8), line(9), line(10)}},
		{"strips 2, 5", []check.Place{{Strip: 2}, {Strip: 5}}},
		{"second glue-up 1", []check.Place{{Second: 1}}},
		{"glue-up 1, bars 2|3, 5|6", []check.Place{{Second: 1, BarLine: 2}, {Second: 1, BarLine: 5}}},
		{"lines 1|2, 3|4, 5|6, 7|8, 9|10, 11|12, 13|14, 15|16, 17|18, 19|20, 21|22, 23|24 and 8 more", odd},
	} {
		g := check.Group{Finding: check.Finding{Where: c.places[0]}}
		for _, w := range c.places {
			g.Findings = append(g.Findings, check.Finding{Where: w})
		}
		equal(t, "places", g.Places(), c.want)
	}
}
