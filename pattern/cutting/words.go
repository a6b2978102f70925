package cutting

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/tell"
)

// String says the claim in few words: no better plan exists (proved), at most 2.3 % above
// the best plan, or not proved the best.
func (c Claim) String() string {
	switch c.Sure {
	case Least:
		return "no better plan exists (proved)"
	case Bounded:
		return fmt.Sprintf("at most %.1f %% above the best plan", c.AbovePct)
	default:
		return "not proved the best plan"
	}
}

// Say says all of the claim, likewise; short says that the plan has strips short.
func (c Claim) Say(short bool, u length.Unit) string {
	text := c.String()
	switch {
	case short && c.Sure == Least:
		text = "no better plan exists with as many strips missing (proved)"
	case short:
		text += " with as many strips missing"
	}
	if c.Joints {
		text += ", joints counted"
	}
	if c.Sure == Bounded {
		text += ": " + c.Under(u)
	}
	return text
}

// Under says what no plan draws less than, rounded down; nothing where that is not known.
func (c Claim) Under(u length.Unit) string {
	if c.Sure == Unproved {
		return ""
	}
	if c.Joints {
		return "no plan counts less than " + length.VolumeDown(c.UnderCM3, u) + " with its joints counted"
	}
	return "no plan counts less than " + length.VolumeDown(c.UnderCM3, u)
}

// Say says how good the best plan so far is; nothing before there is one.
func (p Progress) Say(u length.Unit) string {
	if p.DrawnCM3 <= 0 {
		return ""
	}
	return fmt.Sprintf("best plan so far counts %s, none under %s", length.Volume(p.DrawnCM3, u), length.VolumeDown(p.LowerBoundCM3, u))
}

// CountedText says how d counts timber when plans are compared, which is why more may be
// used up than that.
func CountedText(d shop.Draw, u length.Unit) string {
	tails := ""
	if d.TailsPct != 100 {
		tails = fmt.Sprintf("end offcuts that go back are credited at %g %%, ", d.TailsPct)
	}
	return fmt.Sprintf("a piece marked use first counts %g %%, %sspare thickness and width that go back are credited at %g %%, each piece opened adds %s",
		d.UseFirstPct, tails, d.ReturnedPct, length.Volume(d.OpenedCM3, u))
}

// RefsText lists strips, those of one board together: tray board 1 strips 2, 5; tray
// board 2 strip 2.
func RefsText(refs []Ref) string {
	var of tell.Groups[Ref, Ref]
	for _, r := range refs {
		of.Add(r.OfCopy(), r)
	}
	var texts []string
	for c, strips := range of.All() {
		texts = append(texts, fmt.Sprintf("%s board %d %s", c.Pattern, c.Copy, StripsText(strips)))
	}
	return strings.Join(texts, "; ")
}

// StripsText lists strips of one copy, and pieces of them as they are chalked: strips 2, 4a.
func StripsText(refs []Ref) string {
	refs = slices.Clone(refs)
	slices.SortFunc(refs, func(a, b Ref) int { return cmp.Or(cmp.Compare(a.Strip, b.Strip), cmp.Compare(a.Piece, b.Piece)) })
	names := make([]string, len(refs))
	for i, r := range refs {
		names[i] = r.Name()
	}
	return tell.Labelled("strip", names)
}
