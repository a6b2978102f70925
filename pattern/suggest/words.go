package suggest

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
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
		if a, b := strips[i], strips[n-1-i]; a.Species != b.Species || a.Width != b.Width {
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
		return cmp.Or(a.UseLeft(u), "nothing better was found") + a.notProved(u)
	}
	sum := fmt.Sprintf("of those with as much, none has contrasts that come to more than %s in all", figure(l.TotalContrast))
	if a.Aim == UseUp {
		return fmt.Sprintf("none takes more use-first width than %s; of those that take as much, none has a smallest contrast above %s; %s",
			l.UseFirst.With(u), figure(l.SmallestContrast), sum)
	}
	return fmt.Sprintf("none has a smallest contrast above %s; %s", figure(l.SmallestContrast), sum)
}

// UseLeft says what use-first width may be possible beyond that of the first layout: one
// plain line without a full stop, empty where there is none.
func (a Result) UseLeft(u length.Unit) string {
	if a.Aim != UseUp || a.Bound == nil || len(a.Layouts) == 0 || a.Layouts[0].UseFirst >= a.Bound.UseFirst {
		return ""
	}
	if a.Layouts[0].UseFirst == 0 {
		return fmt.Sprintf("the search failed: this layout uses no use-first timber, and up to %s may be possible", a.Bound.UseFirst.With(u))
	}
	return fmt.Sprintf("this layout uses %s of use-first timber, and up to %s may be possible", a.Layouts[0].UseFirst.With(u), a.Bound.UseFirst.With(u))
}

// UseLeft says what use-first width a layout with a look leaves that may be possible; empty
// where there is none.
func (l Layout) UseLeft(u length.Unit) string {
	if l.Proved || l.Most.Use <= l.UseFirst {
		return ""
	}
	return Result{Aim: UseUp, Bound: &Bound{UseFirst: l.Most.Use}, Layouts: []Layout{l}}.UseLeft(u)
}

// notProved says what the first layout that is not proved could at most be.
func (a Result) notProved(u length.Unit) string {
	if a.Bound == nil {
		return ", and nothing is proved"
	}
	b := fmt.Sprintf("none with as much of the rest has a smallest contrast above %s, nor, with that too, contrasts above %s in all",
		ceiling(a.Bound.SmallestContrast), ceiling(a.Bound.TotalContrast))
	if a.Aim == UseUp {
		return fmt.Sprintf("; proved is that none takes more use-first width than %s; %s", a.Bound.UseFirst.With(u), b)
	}
	return "; proved is that " + b
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
func Against(was, now Layout) string {
	strips := Apart(was, now)
	timbers := apartBy(was.Strips, now.Strips, func(p Placed) string { return p.Species })
	switch {
	case len(was.Strips) != len(now.Strips):
		return fmt.Sprintf("%s in place of %d; %d unlike in all, %d of these by timber", tell.Count(len(now.Strips), "strip"), len(was.Strips), strips, timbers)
	case strips == 0:
		return "the same strips in another order"
	case timbers == 0:
		return fmt.Sprintf("the timbers are the same; %s of another width", tell.Count(strips, "strip"))
	case timbers >= strips:
		return tell.Count(strips, "strip") + " of another timber"
	default:
		return fmt.Sprintf("%s of another timber, %d of another width", tell.Count(timbers, "strip"), strips-timbers)
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
func (r *Relaxation) Say(u length.Unit) []string {
	if r == nil {
		return nil
	}
	var all []string
	for _, l := range r.Ways {
		all = append(all, l.Say(u, r.Proved))
	}
	return all
}

// Say is one sentence of a Relaxation; proved: nothing less would do.
func (l Loosening) Say(u length.Unit, proved bool) string {
	text, sure := "", ""
	if l.Said != "" {
		return l.Said
	}
	switch l.Condition {
	case OfTolerance:
		text, sure = "a tolerance of "+enough(l.Request.Tolerance, u), ", the least that does"
	case OfLevel:
		text, sure = fmt.Sprintf("glue lines up to %q", l.Request.Level), ", the mildest level that does"
	case OfLeastContrast:
		text, sure = "a least contrast of "+floor(l.Request.LeastContrast), ", the greatest that does"
	case OfSymmetry:
		text = "a layout that is not its own mirror image"
	case OfNoTwins:
		text = "letting a timber lie beside itself"
	}
	if !proved {
		sure = ""
	}
	return text + " would do" + sure
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
