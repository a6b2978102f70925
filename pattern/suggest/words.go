package suggest

import (
	"fmt"
	"math"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/tell"
)

// Mirror reports whether a layout is its own mirror image, strip by strip.
func (l Layout) Mirror() bool {
	strips := make([]pattern.Strip, len(l.Strips))
	for i, p := range l.Strips {
		strips[i] = p.Strip()
	}
	return mirror(strips)
}

// mirror reports whether strips are of the same kinds from the right.
func mirror(strips []pattern.Strip) bool {
	for i, n := 0, len(strips); i < n/2; i++ {
		if kindOf(strips[i]) != kindOf(strips[n-1-i]) {
			return false
		}
	}
	return true
}

// Why says of layout i, from 0, why it stands where it does: of the first why it is
// the best, or what the best could at most be; of another what it gives up against the
// one before. It is one sentence without a full stop.
func (a Result) Why(i int, u length.Unit) string {
	l := a.Layouts[i]
	if i == 0 {
		return a.whyFirst(l, u)
	}
	return a.whyLater(a.Layouts[i-1], l, u)
}

func (a Result) whyFirst(l Layout, u length.Unit) string {
	if !l.Proved || !a.PlansProved {
		return a.notProved(u)
	}
	sum := fmt.Sprintf("of those with as much, none has contrasts that come to more than %s in all", figure(l.TotalContrast))
	if a.Aim == UseUp {
		return fmt.Sprintf("none takes more use-first width than %s; of those that take as much, none has a smallest contrast above %s; %s",
			l.UseFirst.With(u), figure(l.SmallestContrast), sum)
	}
	return fmt.Sprintf("none has a smallest contrast above %s; %s", figure(l.SmallestContrast), sum)
}

// notProved says what the first layout that is not proved could at most be.
func (a Result) notProved(u length.Unit) string {
	if a.Bound == nil {
		return "nothing better was found, and nothing is proved"
	}
	b := fmt.Sprintf("none with as much of the rest has a smallest contrast above %s, nor, with that too, contrasts above %s in all",
		ceiling(a.Bound.SmallestContrast), ceiling(a.Bound.TotalContrast))
	if a.Aim == UseUp {
		return fmt.Sprintf("nothing better was found; proved is that none takes more use-first width than %s; %s", a.Bound.UseFirst.With(u), b)
	}
	return "nothing better was found; proved is that " + b
}

func (a Result) whyLater(before, l Layout, u length.Unit) string {
	const same = 1.0 / PerContrast
	switch {
	case a.Aim == UseUp && l.UseFirst != before.UseFirst:
		return fmt.Sprintf("its use-first width is %s %s", (max(l.UseFirst, before.UseFirst) - min(l.UseFirst, before.UseFirst)).With(u),
			moreOrLess(l.UseFirst > before.UseFirst))
	case math.Abs(l.SmallestContrast-before.SmallestContrast) > same:
		return fmt.Sprintf("its smallest contrast is %s against %s", figure(l.SmallestContrast), figure(before.SmallestContrast))
	case math.Abs(l.TotalContrast-before.TotalContrast) > same:
		return fmt.Sprintf("its contrasts come to %s in all against %s", figure(l.TotalContrast), figure(before.TotalContrast))
	default:
		return "it is as good"
	}
}

// Against says in how many strips layout now differs from was, wherever they lie, and
// in what: layouts of the same timbers look alike. It is a phrase without a full stop.
func (a Request) Against(r movement.Physics, was, now Layout) string {
	strips := a.Apart(r, was, now)
	timbers := apartBy(was, now, func(p Placed) string { return p.Species })
	switch {
	case len(was.Strips) != len(now.Strips):
		return fmt.Sprintf("%s in place of %d; %d unlike in all, %d of these by timber", tell.Count(len(now.Strips), "strip"), len(was.Strips), strips, timbers)
	case strips == 0:
		return "the same strips in another order"
	case timbers == 0:
		return fmt.Sprintf("the timbers are the same; %s of another width, other rings or other moisture", tell.Count(strips, "strip"))
	case timbers >= strips:
		return tell.Count(strips, "strip") + " of another timber"
	default:
		return fmt.Sprintf("%s of another timber, %d of another width, other rings or other moisture", tell.Count(timbers, "strip"), strips-timbers)
	}
}

func moreOrLess(more bool) string {
	if more {
		return "more"
	}
	return "less"
}

// figure returns a contrast for the eye.
func figure(c float64) string { return fmt.Sprintf("%.2f", c) }

// ceiling is figure rounded up, for what nothing exceeds.
func ceiling(c float64) string { return fmt.Sprintf("%.2f", math.Ceil(c*100)/100) }

// Say says by which one condition alone a layout could be had, a sentence without a
// full stop for each. Values are rounded so that they would do as they are said.
func (l *Relaxation) Say(u length.Unit) []string {
	if l == nil {
		return nil
	}
	sure := func(text string) string {
		if !l.Proved {
			return ""
		}
		return text
	}
	var all []string
	if l.Tolerance != nil {
		all = append(all, "a tolerance of "+enough(*l.Tolerance, u)+" would do"+sure(", the least that does"))
	}
	if l.Level != nil {
		all = append(all, fmt.Sprintf("glue lines up to %q would do%s", l.Level, sure(", the mildest level that does")))
	}
	if l.LeastContrast != nil {
		all = append(all, fmt.Sprintf("a least contrast of %s would do%s", floor(*l.LeastContrast), sure(", the greatest that does")))
	}
	if l.Symmetric {
		all = append(all, "a layout that is not its own mirror image would do")
	}
	if l.NoTwins {
		all = append(all, "letting a timber lie beside itself would do")
	}
	return all
}

// floor returns a contrast with as many decimals as its own unit has, rounded down.
func floor(c float64) string {
	text := fmt.Sprintf("%.6f", math.Floor(c*PerContrast)/PerContrast)
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}

// enough returns a length as it is shown, where that reads back to the same; else to the
// last digit, or in inches the next sixty-fourth above it.
func enough(l length.Length, u length.Unit) string {
	const sixtyFourth = length.Inch / 64
	if back, err := length.ParseIn(l.Format(u), u); err == nil && back == l {
		return l.With(u)
	}
	if u == length.InInches {
		return ((l + sixtyFourth - 1) / sixtyFourth * sixtyFourth).With(u)
	}
	return l.Exact()
}
