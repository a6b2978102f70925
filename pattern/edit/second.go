package edit

import (
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/second"
)

// An Again is what is to become of a second glue-up: a new one, one that is changed, or one
// that is taken away. It is read by ParseAgain.
type Again struct {
	Number int  // from 1; 0: one more behind the others
	Out    bool // take it away
	Begin  pattern.Second
	steps  []again
}

// An again is one change of a glue-up of p, in the order in which it was said.
type again func(*pattern.Second, pattern.Pattern) error

// GlueAgain makes, changes or takes away a second glue-up.
func GlueAgain(s State, a Again) (State, error) {
	all := slices.Clone(s.Pattern.Seconds)
	n := a.Number - 1
	switch {
	case len(s.Pattern.Strips) == 0:
		return s, refuse("there is no strip yet: put one in first")
	case a.Number > len(all):
		return s, refuse("there is no second glue-up %d: the pattern has %d", a.Number, len(all))
	case a.Out:
		all = slices.Delete(all, n, n+1)
		if n == 0 && len(all) > 0 && s.Pattern.Seconds[0].Lay != all[0].Lay {
			return s, refuse("second glue-up 2 needs the end grain of the first: take that away before")
		}
	case a.Number == 0 && len(all) == pattern.MaxSeconds:
		return s, refuse("a pattern has at most %d second glue-ups", pattern.MaxSeconds)
	case a.Number == 0:
		all, n = append(all, a.Begin), len(all)
	}
	if !a.Out {
		for _, step := range a.steps {
			if err := step(&all[n], s.Pattern); err != nil {
				return s, err
			}
		}
		if err := secondInRange(all[n], n); err != nil {
			return s, err
		}
	}
	if len(all) == 0 {
		all = nil
	}
	s.Pattern.Seconds = all
	return s, nil
}

// secondInRange refuses what no file may say of a glue-up, counted from 0.
func secondInRange(g pattern.Second, n int) error {
	switch {
	case g.Bar < pattern.MinBar || g.Bar > pattern.MaxBar:
		return refuse("bar %v: must be %v to %v", g.Bar, pattern.MinBar, length.Length(pattern.MaxBar))
	case g.Bars < 0 || g.Bars > pattern.MaxBars:
		return refuse("%d bars: must be 1 to %d", g.Bars, pattern.MaxBars)
	case g.Degrees() < pattern.MinAngle || g.Degrees() > pattern.Square:
		return refuse("angle %g: must be %g to %g degrees", g.Degrees(), pattern.MinAngle, pattern.Square)
	case g.Lay == pattern.LayEnd && n > 0:
		return refuse("only the first second glue-up lays bars on end: lay these flat")
	case g.Lay == pattern.LayEnd && g.Mitred():
		return refuse("bars on end are cut square: lay mitred bars flat")
	case g.Trim < 0 || g.Trim > pattern.MaxTrim:
		return refuse("trim %v: must be 0 to %v", g.Trim, length.Length(pattern.MaxTrim))
	case g.Moisture.Percent < 0 || g.Moisture.Percent > pattern.MaxMoisture:
		return refuse("moisture %g %%: must be 0 to %g", g.Moisture.Percent, pattern.MaxMoisture)
	}
	return nil
}

// A BoardSize is a board that is wanted, in so many bars; with 0, in as many as it takes.
type BoardSize struct {
	Size second.Size
	Bars int
}

// ForBoard makes panel, strips and bars what a board of a size takes.
func ForBoard(s State, want BoardSize, takes second.Takes) (State, error) {
	p := s.Pattern
	n, ok := second.For(p, want.Size, want.Bars, takes)
	if !ok {
		return s, refuse("a board of a size needs strips and one second glue-up: the pattern has %d", len(p.Seconds))
	}
	p.Panel.Length, p.Panel.Thickness = n.Panel.Length, n.Panel.Thickness
	p.Strips = slices.Clone(p.Strips)
	for i := range p.Strips {
		p.Strips[i].Width = n.Widths[i]
		if err := aboveNone("strip width", n.Widths[i], pattern.MaxAcross); err != nil {
			return s, err
		}
	}
	if err := aboveNone("panel length", n.Panel.Length, pattern.MaxLength); err != nil {
		return s, err
	}
	if err := aboveNone("panel thickness", n.Panel.Thickness, pattern.MaxAcross); err != nil {
		return s, err
	}
	p.Seconds = slices.Clone(p.Seconds)
	p.Seconds[0].Bar, p.Seconds[0].Bars = n.Bar, n.Bars
	if err := secondInRange(p.Seconds[0], 0); err != nil {
		return s, err
	}
	s.Pattern = p
	s.fit()
	return s, nil
}

// everyOther sets what a list says to every other bar, or takes it back where it says so.
func everyOther(list *[]bool) {
	if slices.Equal(*list, []bool{false, true}) {
		*list = nil
	} else {
		*list = []bool{false, true}
	}
}

// thisBar changes what a list says of bar n, from 1, of so many.
func thisBar[T comparable](list *[]T, n, bars int, change func(T) T) {
	var none T
	all := make([]T, max(n, bars))
	for i := range all {
		if len(*list) > 0 {
			all[i] = (*list)[i%len(*list)]
		}
	}
	all[n-1] = change(all[n-1])
	if !slices.ContainsFunc(all, func(v T) bool { return v != none }) {
		all = nil
	}
	*list = all
}

// Arrangements names the arrangements of bars to start from.
func Arrangements() []string { return []string{"stripes", "chequer", "brick", "stair", "chevron"} }

// arrange lays the bars in one of them.
func arrange(name string) again {
	return func(g *pattern.Second, p pattern.Pattern) error {
		g.Turned, g.Over, g.Shift = nil, nil, nil
		switch name {
		case "chequer":
			g.Turned = []bool{false, true}
		case "brick":
			g.Shift = []pattern.Shift{{}, {Step: pattern.ShiftHalf}}
		case "stair":
			// Up a third of the strips and down again: one that went on would leave no board.
			most := max(1, min(len(p.Strips)/3, int(pattern.MaxShift/p.Strips[0].Width)))
			for i := range 2 * most {
				g.Shift = append(g.Shift, pattern.Shift{By: length.Length(min(i, 2*most-i)) * p.Strips[0].Width})
			}
		case "chevron":
			if g.Lay == pattern.LayEnd {
				return refuse("a chevron is mitred: lay its bars flat")
			}
			if !g.Mitred() {
				g.Angle = 45
			}
			g.Over = []bool{false, true}
		}
		return nil
	}
}
