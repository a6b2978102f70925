package sections

import (
	"math"
	"slices"
	"testing"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve/solvetest"
	"example.com/oddments/pattern/length"
)

// rounding is how far, in cubic centimetres, sums of what goes back may lie apart: rips are
// compared in whole ripUnits.
const rounding = 1e-6

// listed returns the catalogue of a job of one timber, with every way listed.
func listed(job cutting.Job) *Catalogue {
	c := &Catalogue{Shop: job.Shop}
	for _, n := range cutting.Needs(job) {
		n.Ref, n.Asked.Pinned = cutting.Ref{}, false
		at := slices.Index(c.Kinds, n)
		if at < 0 {
			at = len(c.Kinds)
			c.Kinds, c.Want = append(c.Kinds, n), append(c.Want, 0)
		}
		c.Want[at]++
		if !slices.Contains(c.Lengths, n.Length) {
			c.Lengths = append(c.Lengths, n.Length)
		}
	}
	slices.Sort(c.Lengths)
	slices.Reverse(c.Lengths)
	for _, p := range job.Rack.Pieces {
		c.AddCross(Cross{Width: p.Width, Thickness: p.Thickness, Planed: p.Planed, Rings: p.Rings, Longest: p.Length})
	}
	c.ListAll(true, Stopper{})
	return c
}

// What is said of a section is what its slices are: its strips, what goes back, and that
// they fit. Plain ways are among all.
func TestSectionsAreAsTheirSlices(t *testing.T) {
	seen := 0
	for seed := range uint64(60) {
		c := listed(solvetest.RandomJob(seed, 8, 6, 1))
		for n := range c.Crosses {
			if !c.Whole[n] {
				t.Fatalf("job %d, cross %d: not every way was listed", seed, n)
			}
			for _, s := range c.Sections[n] {
				c.holds(t, n, s)
				seen++
			}
		}
		all := slices.Clone(c.Sections)
		c.ListPlain(Stopper{})
		for n, plain := range c.Sections {
			for _, s := range plain {
				c.holds(t, n, s)
				i := slices.IndexFunc(all[n], func(a Section) bool { return a.Along == s.Along && slices.Equal(a.Take, s.Take) })
				if i < 0 || all[n][i].credit < s.credit-rounding {
					t.Errorf("job %d, cross %d: %v among the plain ways, and no better among all", seed, n, s.Take)
				}
			}
		}
	}
	if seen < 1000 {
		t.Errorf("only %d sections were looked at", seen)
	}
}

// holds looks at the slices of a section.
func (c *Catalogue) holds(t *testing.T, n int, s Section) {
	t.Helper()
	x, long := c.Crosses[n], c.Lengths[s.Along]
	across, depth := x.Width, x.Thickness
	if !x.Planed {
		across, depth = across-c.Shop.Allowance.Truing, depth-c.Shop.Allowance.Truing
	}
	if s.Side {
		across, depth = depth, across
	}
	stack, slab, credit := c.Stack(n, s)
	counts := make([]int32, len(c.Kinds))
	used := length.Length(0)
	back := length.VolumeCM3(slab, across, long)
	for i, sl := range stack {
		if i > 0 {
			used += c.between()
		}
		used += sl.Sawn
		width := sl.Rip
		for _, q := range sl.Take {
			width += length.Length(q.Count) * (c.Kinds[q.Kind].Across + c.Shop.Kerf.Rip)
		}
		if width > across+c.Shop.Kerf.Rip {
			t.Errorf("cross %d: a slice takes %v of a width of %v", n, width, across)
		}
		back += length.VolumeCM3(sl.Rip, sl.Sawn, long)
		sl.Take.AddTo(counts)
	}
	if slab > 0 {
		used += c.between() + slab
	}
	if len(stack) == 0 || used > depth || !slices.Equal(TakeOf(counts), s.Take) {
		t.Errorf("cross %d: %d slices take %v of %v and give %v, not %v", n, len(stack), used, depth, TakeOf(counts), s.Take)
	}
	if math.Abs(back-credit) > rounding || math.Abs(back-s.credit) > rounding {
		t.Errorf("cross %d: %v goes back, told %v and %v", n, back, credit, s.credit)
	}
}
