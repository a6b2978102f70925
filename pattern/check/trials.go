package check

import (
	"cmp"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/shop"
)

// A cause is what a finding about a glue line finds fault with, and so what its
// remedies must better.
type cause int

const (
	byMovement cause = iota // step and strain
	byMoisture              // the moisture gap
)

// How small a figure must become, as a share of what it was, for a remedy to be worth
// a word: where the level comes down with it, and where it stays.
const (
	noticeable = 0.95
	worthwhile = 0.8
)

// trials is where remedies are tried: a change is made to the panel, judged and taken
// back.
type trials struct {
	board  *board
	panel  *movement.Panel
	limits shop.Limits

	// As they stand.
	now   []movement.Figure // by glue line from 1
	reach []stretch         // by strip from 0
	place []place           // by strip from 0
	shape shape

	swaps [][]outcome          // by strip from 0, as far as asked for: of its swaps, see outcomes
	kept  [][4]movement.Figure // of swaps that are ok: of the lines beside the first strip and the second

	// Kept from one trial to the next to save making them anew.
	lines []int             // those of the trial
	after []movement.Figure // likewise, as far as none was at a higher level
	seen  []int             // by glue line: the last trial that it was among the lines of
	trial int
}

// A stretch is the glue lines from first to last, from 1; none where last is below
// first.
type stretch struct{ first, last int }

// A place is what one strip must have in common with another for the two to change
// places.
type place struct {
	open       bool // no pin holds the strip, and it moves by known figures
	start, end length.Length
}

func newTrials(b *board) *trials {
	n := len(b.pattern.Strips)
	t := &trials{
		board: b, panel: b.panel, limits: b.shop.Limits,
		now: make([]movement.Figure, n), reach: make([]stretch, n), place: make([]place, n),
		swaps: make([][]outcome, n), seen: make([]int, n), shape: shapeOf(b.pattern.Strips),
	}
	for i, s := range b.pattern.Strips {
		t.reach[i] = t.reachNow(i)
		t.place[i] = place{!s.Pinned && b.timber(i).Moves(), s.Start, b.end(s)}
		if i > 0 {
			t.now[i], _ = t.panel.Figure(i)
		}
	}
	return t
}

func (t *trials) reachNow(i int) stretch {
	first, last := t.panel.Reach(i)
	return stretch{first, last}
}

// level returns the level that f has by c.
func (t *trials) level(c cause, f movement.Figure) pattern.Level { return level(t.limits, c, f) }

func level(limits shop.Limits, c cause, f movement.Figure) pattern.Level {
	if c == byMoisture {
		return movement.LevelOf(f.GapPct, limits.MoisturePct)
	}
	return max(movement.LevelOf(f.StepUM, limits.StepUM), movement.LevelOf(f.StrainPct, limits.StrainPct))
}

// severity returns the worse figure that f has by c, on a scale on which 1 is the limit
// to take care at.
func (t *trials) severity(c cause, f movement.Figure) float64 { return severity(t.limits, c, f) }

func severity(limits shop.Limits, c cause, f movement.Figure) float64 {
	if c == byMoisture {
		return f.GapPct / limits.MoisturePct.Care
	}
	return max(f.StepUM/limits.StepUM.Care, f.StrainPct/limits.StrainPct.Care)
}

// worstCause returns the cause by which the figures are the worst.
func (t *trials) worstCause(before, after movement.Figure) cause {
	moved := max(t.severity(byMovement, before), t.severity(byMovement, after))
	if max(t.severity(byMoisture, before), t.severity(byMoisture, after)) > moved {
		return byMoisture
	}
	return byMovement
}

func (t *trials) worstSeverity(f movement.Figure) float64 {
	return max(t.severity(byMovement, f), t.severity(byMoisture, f))
}

// An outcome is what a change makes of all lines together, whichever of them it is
// meant to mend.
type outcome struct {
	ok    bool          // it brings no line to a higher level
	worst pattern.Level // of all lines that it reaches
	sum   float64       // what it adds to their severities
	kept  int           // of a swap: where the figures of the lines that it touches are kept
}

// outcome returns that of the panel as changed at strips, from 0.
func (t *trials) outcome(strips ...int) outcome {
	o := outcome{ok: true}
	t.after = t.after[:0]
	for _, n := range t.reached(strips) {
		before := &t.now[n]
		after, _ := t.panel.Figure(n)
		if after.Level > before.Level {
			return outcome{}
		}
		t.after = append(t.after, after)
		o.worst = max(o.worst, after.Level)
		o.sum += t.worstSeverity(after) - t.worstSeverity(*before)
	}
	return o
}

// reached returns the lines whose figures may have changed with strips, those beside them,
// which change most, first. The slice is good until the next call.
func (t *trials) reached(strips []int) []int {
	t.lines = t.lines[:0]
	t.trial++
	for _, i := range strips {
		t.among(stretch{max(i, 1), min(i+1, t.panel.Len()-1)})
	}
	for _, i := range strips {
		t.among(t.reach[i])
		t.among(t.reachNow(i))
	}
	return t.lines
}

// among takes in the lines of s that are not among those of the trial yet.
func (t *trials) among(s stretch) {
	for n := s.first; n <= s.last; n++ {
		if t.seen[n] != t.trial {
			t.seen[n] = t.trial
			t.lines = append(t.lines, n)
		}
	}
}

// effects returns what the panel as changed at strips does to its lines.
func (t *trials) effects(strips ...int) []Effect {
	lines := t.reached(strips)
	slices.Sort(lines)
	out := make([]Effect, 0, len(lines))
	for _, n := range lines {
		if after, _ := t.panel.Figure(n); after != t.now[n] {
			out = append(out, Effect{Line: n, Before: t.now[n], After: after})
		}
	}
	return out
}

// A score orders remedies for one finding.
type score struct {
	line pattern.Level // of the line, by the finding's cause
	outcome
}

func (s score) compare(o score) int {
	return cmp.Or(cmp.Compare(s.line, o.line), cmp.Compare(s.worst, o.worst), cmp.Compare(s.sum, o.sum))
}

// score judges a change with outcome o, after which line n has the figure after, as a remedy
// for that line, and reports whether it is one: the line's figure comes down with its level, or comes
// down well while all lines are left with less in sum.
func (t *trials) score(n int, c cause, o outcome, after movement.Figure) (score, bool) {
	if !o.ok {
		return score{}, false
	}
	before := t.now[n]
	s := score{t.level(c, after), o}
	share := t.severity(c, after) / t.severity(c, before) // which is above its limit, so not 0
	if s.line < t.level(c, before) {
		return s, share < noticeable
	}
	return s, share < worthwhile && o.sum < 0
}

// A choice is a remedy with its score.
type choice struct {
	Remedy
	score score
}

// choices returns the remedies for line n, the best first: of those after which it is at the
// same level, what settles before what is rolled, and that before what is swapped.
func (t *trials) choices(n int, c cause) []choice {
	var out []choice
	if wet, dry := t.wetter(n); t.board.moisture(wet) > t.board.moisture(dry) {
		out = t.settles(out, n, c, wet, pattern.Read(t.board.moisture(dry)))
	}
	for _, i := range [...]int{n - 1, n} {
		if c == byMovement { // rolling dries nothing
			out = t.rolls(out, n, c, i)
		}
	}
	if swap, ok := t.bestSwap(n, c); ok {
		out = append(out, swap)
	}
	slices.SortStableFunc(out, func(a, b choice) int {
		return cmp.Or(cmp.Compare(a.score.line, b.score.line), cmp.Compare(a.Kind.order(), b.Kind.order()), a.score.compare(b.score))
	})
	return out
}

// order is in which order remedies are tried.
func (k Kind) order() int { return slices.Index([]Kind{Settle, Roll, Swap}, k) }

// settles appends to out that strip i dries to a reading, where it is a remedy for line n; in
// a mirrored panel its image likewise, where that is wetter too and its line is at fault.
func (t *trials) settles(out []choice, n int, c cause, i int, to pattern.Reading) []choice {
	strips := []int{i}
	o, line := t.panel.Len()-1-i, t.panel.Len()-n
	if t.shape.mirror && o != i && t.board.moisture(o) > to.Percent && t.level(c, t.now[line]) > pattern.Fine {
		strips = append(strips, o)
	}
	m := Remedy{Kind: Settle, Strip: i + 1, Reading: to}
	settled := func(i int) (pattern.Strip, bool) {
		s := t.board.pattern.Strips[i]
		s.Moisture = to
		return s, true
	}
	if with := t.replace(out, n, c, m, strips, settled); len(with) > len(out) || len(strips) == 1 {
		return with
	}
	return t.replace(out, n, c, m, strips[:1], settled)
}

// rolls appends to out that strip i is rolled, where it is a remedy for line n. What must be
// alike for the panel to keep its look is rolled with it; where a roll leaves widths as they
// are it may do so by itself.
func (t *trials) rolls(out []choice, n int, c cause, i int) []choice {
	rolled := func(i int) (pattern.Strip, bool) {
		s, _, err := edit.Rolled(t.board.pattern, i, t.board.allow)
		return s, err == nil && s.Rings != t.board.pattern.Strips[i].Rings
	}
	m := Remedy{Kind: Roll, Strip: i + 1}
	strips := t.shape.with(i)
	if with := t.replace(out, n, c, m, strips, rolled); len(with) > len(out) || len(strips) == 1 {
		return with
	}
	if s, ok := rolled(i); !ok || s.Width != t.board.pattern.Strips[i].Width {
		return out
	}
	return t.replace(out, n, c, m, []int{i}, rolled)
}

// replace appends to out the remedy m, which makes other strips of those it is about, where
// it is one for line n.
func (t *trials) replace(out []choice, n int, c cause, m Remedy, strips []int, of func(i int) (pattern.Strip, bool)) []choice {
	var restore []func()
	defer func() {
		for i := len(restore) - 1; i >= 0; i-- {
			restore[i]()
		}
	}()
	for _, i := range strips {
		strip, ok := of(i)
		if !ok {
			return out
		}
		restore = append(restore, t.panel.Replace(i, strip))
		if i != m.Strip-1 {
			m.Also = append(m.Also, [2]int{i + 1, 0})
		}
	}
	after, _ := t.panel.Figure(n)
	if s, ok := t.score(n, c, t.outcome(strips...), after); ok {
		m.Effects = t.effects(strips...)
		out = append(out, choice{m, s})
	}
	return out
}

// wetter returns the strips of line n, from 0.
func (t *trials) wetter(n int) (wet, dry int) {
	if t.board.moisture(n-1) < t.board.moisture(n) {
		return n, n - 1
	}
	return n - 1, n
}

// swapReach is how many strips away a strip to swap with is looked for, so that a
// panel of thousands stays quick.
const swapReach = 64

// bestSwap tries the strips of the panel in the place of either strip of line n.
func (t *trials) bestSwap(n int, c cause) (choice, bool) {
	var best choice
	found := false
	for _, i := range [...]int{n - 1, n} {
		for k, o := range t.outcomes(i) {
			j := firstSwap(i) + k
			if !o.ok || j == n-1 || j == n {
				continue
			}
			after := t.kept[o.kept][n-i] // i comes before j, so its lines stand first
			if j < i {
				after = t.kept[o.kept][2+n-i]
			}
			s, ok := t.score(n, c, o, after)
			if ok && (!found || s.compare(best.score) < 0) {
				best, found = choice{Remedy{Kind: Swap, Strip: i + 1, Other: j + 1}, s}, true
				for _, also := range t.pairs(i, j)[1:] {
					best.Also = append(best.Also, [2]int{also[0] + 1, also[1] + 1})
				}
			}
		}
	}
	if found {
		pairs := t.pairs(best.Strip-1, best.Other-1)
		t.exchange(pairs)
		best.Effects = t.effects(both(pairs)...)
		t.exchange(pairs)
	}
	return best, found
}

// firstSwap returns the first strip that strip i, both from 0, may be swapped with.
func firstSwap(i int) int { return max(0, i-swapReach) }

// outcomes returns the outcomes of swapping strip i, from 0, with the strips from
// firstSwap on. They serve every line that the strip touches, so they are kept. One
// that cannot be swapped, or whose swap would make neighbours read as one, is not ok.
func (t *trials) outcomes(i int) []outcome {
	if t.swaps[i] != nil {
		return t.swaps[i]
	}
	first, end := firstSwap(i), min(t.panel.Len(), i+swapReach+1)
	out := make([]outcome, end-first)
	for j := first; j < end; j++ {
		switch other := t.swaps[j]; {
		case other != nil:
			out[j-first] = other[i-firstSwap(j)]
		case j != i && t.place[i].open && t.place[i] == t.place[j] && t.panel.SwapIsMove(i, j):
			if pairs := t.pairs(min(i, j), max(i, j)); t.mayChange(pairs) && !t.worsens(pairs) {
				out[j-first] = t.swap(pairs) // whichever of them asks: sums depend on their order
			}
		}
	}
	t.swaps[i] = out
	return out
}

// pairs returns the strips, from 0, that change places where i and j do: as many as must for
// the panel to keep its look; none where it cannot.
func (t *trials) pairs(i, j int) [][2]int { return t.shape.pairs(i, j, t.board.pattern.Strips) }

// mayChange reports whether strips may change places.
func (t *trials) mayChange(pairs [][2]int) bool {
	for _, p := range pairs {
		if i, j := p[0], p[1]; !t.place[i].open || t.place[i] != t.place[j] || !t.panel.SwapIsMove(i, j) {
			return false
		}
	}
	return len(pairs) > 0
}

// exchange has strips change places, or back again.
func (t *trials) exchange(pairs [][2]int) {
	for _, p := range pairs {
		t.panel.Swap(p[0], p[1])
	}
}

// both returns the strips of pairs.
func both(pairs [][2]int) []int {
	out := make([]int, 0, 2*len(pairs))
	for _, p := range pairs {
		out = append(out, p[0], p[1])
	}
	return out
}

// swap returns the outcome of strips, from 0, changing places.
func (t *trials) swap(pairs [][2]int) outcome {
	t.exchange(pairs)
	defer t.exchange(pairs)
	o := t.outcome(both(pairs)...)
	if !o.ok {
		return o
	}
	o.kept = len(t.kept)
	var kept [4]movement.Figure
	i, j := pairs[0][0], pairs[0][1]
	for k, n := range [...]int{i, i + 1, j, j + 1} {
		if at := slices.Index(t.lines, n); at >= 0 {
			kept[k] = t.after[at]
		}
	}
	t.kept = append(t.kept, kept)
	return o
}

// worsens reports whether it takes no look at the whole panel to refuse that strips, from 0,
// change places: neighbours would read as one at a line where they do not now, or strain or
// moisture would bring a line to a higher level.
func (t *trials) worsens(pairs [][2]int) bool {
	from := func(k int) int { // the strip that comes to k
		for _, p := range pairs {
			switch k {
			case p[0]:
				return p[1]
			case p[1]:
				return p[0]
			}
		}
		return k
	}
	for _, p := range pairs {
		for _, n := range [...]int{p[0], p[0] + 1, p[1], p[1] + 1} {
			if n < 1 || n >= t.panel.Len() {
				continue
			}
			a, b := from(n-1), from(n)
			if f, _ := t.panel.Beside(a, b); f.Level > t.now[n].Level {
				return true
			}
			if t.board.figures.Lines[n-1].Contrast >= t.limits.Contrast && t.panel.Contrast(a, b) < t.limits.Contrast {
				return true
			}
		}
	}
	return false
}
