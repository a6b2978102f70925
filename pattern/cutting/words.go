package cutting

import (
	"cmp"
	"fmt"
	"iter"
	"slices"
	"strings"

	"example.com/oddments/pattern"
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

// Changes says of each strip of p, by its number, how it is laid otherwise.
func (e ShortEnds) Changes(p pattern.Pattern, sh shop.Shop, u length.Unit) iter.Seq2[int, string] {
	return func(yield func(int, string) bool) {
		for _, l := range e.Laid {
			was := p.Strips[l.Strip-1]
			now := was
			now.Start, now.Length, now.Joints = l.Start, l.Length, l.Joints
			long := func(s pattern.Strip) string { return p.StripLength(s, sh.Allowance.Length).With(u) }
			text := fmt.Sprintf("start %s -> %s, length %s -> %s", was.Start.With(u), now.Start.With(u), long(was), long(now))
			if was.Joints != now.Joints {
				text += ", in one piece"
			}
			if !yield(l.Strip, text) {
				return
			}
		}
	}
}

// Saves says what short ends outside save.
func (e ShortEnds) Saves(u length.Unit) string {
	switch now, then := e.Now, e.Then; {
	case len(e.Laid) > 0 && now.Short > then.Short:
		return fmt.Sprintf("saves %s: missing %d -> %d", tell.Count(now.Short-then.Short, "strip"), now.Short, then.Short)
	case len(e.Laid) > 0:
		return fmt.Sprintf("saves %s: one board counts %s -> %s", length.SmallVolume(now.Counted()-then.Counted(), u),
			length.Volume(now.Counted(), u), length.Volume(then.Counted(), u))
	case now.Short > 0:
		return fmt.Sprintf("saves nothing: %s either way", tell.Count(now.Short, "strip")+" missing")
	default:
		return "saves nothing: whole strips draw no more timber"
	}
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

// RefsText is RefsText without the number of the board where the job has several patterns, each
// made once: tray strips 2, 5; plate strip 1.
func (job Job) RefsText(refs []Ref) string {
	more := func(d Demand) bool { return d.Copies != 1 }
	if len(job.Patterns) < 2 || slices.ContainsFunc(job.Patterns, more) {
		return RefsText(refs)
	}
	var of tell.Groups[string, Ref]
	for _, r := range refs {
		of.Add(r.Pattern, r)
	}
	var texts []string
	for stem, strips := range of.All() {
		texts = append(texts, stem+" "+StripsText(strips))
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
