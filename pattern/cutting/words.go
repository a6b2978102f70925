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

// Best says it of timber that is used up: no better plan exists (proved).
func (c Claim) Best() string {
	if c.Sure == Least {
		return "no better plan exists (proved)"
	}
	return c.String()
}

// String says the claim in few words, to stand behind what is drawn: the least (proved),
// at most 2.3 % above the least, or not proved the least.
func (c Claim) String() string {
	switch c.Sure {
	case Least:
		return "the least (proved)"
	case Bounded:
		return fmt.Sprintf("at most %.1f %% above the least", c.AbovePct)
	default:
		return "not proved the least"
	}
}

// Say says all of the claim, likewise; short says that the plan has strips short.
func (c Claim) Say(short bool, u length.Unit) string {
	so := ""
	if short {
		so = " with so many short"
	}
	switch c.Sure {
	case Least:
		return "the least" + so + ", proved"
	case Bounded:
		return c.String() + so + ": " + c.Under(u)
	default:
		return "and nothing is proved of the least" + so
	}
}

// Under says what no plan draws less than, rounded down; nothing where that is not known.
func (c Claim) Under(u length.Unit) string {
	if c.Sure == Unproved {
		return ""
	}
	return "no plan draws under " + length.VolumeDown(c.UnderCM3, u)
}

// Say says how good the best plan so far is; nothing before there is one.
func (p Progress) Say(u length.Unit) string {
	if p.DrawnCM3 <= 0 {
		return ""
	}
	return fmt.Sprintf("best %s, not under %s", length.Volume(p.DrawnCM3, u), length.VolumeDown(p.LowerBoundCM3, u))
}

// CountedText says how d counts what is drawn, which is why more may be gone than that.
func CountedText(d shop.Draw, u length.Unit) string {
	tails := ""
	if d.TailsPct != 100 {
		tails = fmt.Sprintf("end offcuts that go back at %g %%, ", d.TailsPct)
	}
	return fmt.Sprintf("drawn counts a piece to be used first at %g %%, credits %sspare thickness and width that go back at %g %%, and adds %s for each piece opened; gone is timber as it is",
		d.UseFirstPct, tails, d.ReturnedPct, length.Volume(d.OpenedCM3, u))
}

// RefsText lists strips, those of one copy together: tray copy 1 strips 2, 5; tray copy 2
// strip 2.
func RefsText(refs []Ref) string {
	var of tell.Groups[Ref, Ref]
	for _, r := range refs {
		of.Add(r.OfCopy(), r)
	}
	var texts []string
	for c, strips := range of.All() {
		texts = append(texts, fmt.Sprintf("%s copy %d %s", c.Pattern, c.Copy, StripsText(strips)))
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
