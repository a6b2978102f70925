package suggest

import (
	"cmp"
	"fmt"
	"math"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/colour"
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
		return cmp.Or(a.UseLeft(u), "no better layout was found") + a.notProved(u)
	}
	contrast := fmt.Sprintf("weakest contrast, %.1f, is the strongest possible, then the sum of its contrasts, %.1f", l.SmallestContrast, l.TotalContrast)
	if a.Aim == UseUp {
		return fmt.Sprintf("uses the most use-first wood, %s wide; with as much, its %s", l.UseFirst.With(u), contrast)
	}
	return "its " + contrast
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
		return "; nothing is proved"
	}
	contrast := fmt.Sprintf("no weakest contrast is above %s, nor with as much a sum of contrasts above %s (proved)",
		ceiling(a.Bound.SmallestContrast), ceiling(a.Bound.TotalContrast))
	if a.Aim == UseUp {
		return fmt.Sprintf("; none uses more use-first wood than %s wide; with as much, %s", a.Bound.UseFirst.With(u), contrast)
	}
	return "; " + contrast
}

func (a Result) whyLater(before, l Layout, u length.Unit) string {
	const same = 1.0 / PerContrast
	switch {
	case a.Aim == UseUp && l.UseFirst != before.UseFirst:
		return fmt.Sprintf("use-first wood %s wide; the layout before it has %s", l.UseFirst.With(u), before.UseFirst.With(u))
	case math.Abs(l.SmallestContrast-before.SmallestContrast) > same:
		return figures("weakest contrast", l.SmallestContrast, before.SmallestContrast)
	case math.Abs(l.TotalContrast-before.TotalContrast) > same:
		return figures("sum of contrasts", l.TotalContrast, before.TotalContrast)
	default:
		return "as good as the layout before it"
	}
}

// Against says in how many strips layout now differs from was, wherever they lie, and
// in what: layouts of the same timbers look alike. It is a phrase without a full stop.
func Against(was, now Layout) string {
	strips := Apart(was, now)
	timbers := apartBy(was.Strips, now.Strips, func(p Placed) string { return p.Species })
	boards := apartBy(was.Strips, now.Strips, func(p Placed) colour.Own { return p.Colour })
	switch {
	case len(was.Strips) != len(now.Strips):
		return fmt.Sprintf("%s instead of %d; %s, %d of them in timber", tell.Count(len(now.Strips), "strip"), len(was.Strips), tell.Count(strips, "change"), timbers)
	case strips == 0 && boards > 0:
		return "the same timbers; " + tell.Count(boards, "strip") + " from boards of another colour"
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

// figures sets a figure next to that of the layout before, with as few decimals as tell
// the two apart.
func figures(what string, now, before float64) string {
	decimals := 1
	for ; decimals < 6 && fmt.Sprintf("%.*f", decimals, now) == fmt.Sprintf("%.*f", decimals, before); decimals++ {
	}
	return fmt.Sprintf("%s %.*f; the layout before it has %.*f", what, decimals, now, decimals, before)
}

// ceiling returns a contrast rounded up, for what nothing exceeds.
func ceiling(c float64) string { return fmt.Sprintf("%.1f", math.Ceil(c*10)/10) }

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
		text, sure = "allow the width to differ by "+enough(l.Request.Tolerance, u), " (less is not enough, proved)"
	case OfLevel:
		text, sure = fmt.Sprintf("accept glue lines up to %q", l.Request.Level), " (no milder level is enough, proved)"
	case OfLeastContrast:
		text, sure = "lower the least contrast to "+floor(l.Request.LeastContrast), " (no much higher one is possible, proved)"
	case OfSymmetry:
		text = "accept layouts that are not their own mirror image"
	case OfNoTwins:
		text = "allow the same wood side by side"
	}
	if !proved {
		sure = ""
	}
	return text + sure
}

// floor returns a contrast with one decimal, rounded down: so it is enough as it is said.
func floor(c float64) string { return fmt.Sprintf("%.1f", math.Floor(c*10)/10) }

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
