package worksteps

import (
	"fmt"
	"slices"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/tell"
)

// A speaker puts steps by machine into words.
type speaker struct {
	planner
	name func(key string) string // of a timber
	one  bool                    // a single pattern, which need not be named then
	once bool                    // that is made once
	said map[string]bool         // what is said after the first step of a kind only
}

// text returns what a step by machine is, and what it takes.
func (s speaker) text(step Step) string {
	var items []string
	for i := 0; i < len(step.Takes); {
		t := step.Takes[i]
		text, names := s.item(step, t), []string{t.Name}
		for i++; i < len(step.Takes) && s.item(step, step.Takes[i]) == text; i++ {
			names = append(names, step.Takes[i].Name)
		}
		item := called(names)
		if text != "" {
			item += " " + text
		}
		if len(names) > 1 && text != "" {
			item += " each"
		}
		items = append(items, item)
	}
	return s.head(step) + ": " + strings.Join(items, "; ") + s.after(step)
}

// called returns names, one that stands there several times once, with their number.
func called(names []string) string {
	var of tell.Groups[string, int]
	for _, n := range names {
		of.Add(n, 0)
	}
	var texts []string
	for name, all := range of.All() {
		if len(all) > 1 {
			name = fmt.Sprintf("%d x %s", len(all), name)
		}
		texts = append(texts, name)
	}
	return strings.Join(texts, ", ")
}

// head says what is done, and how the machine is set.
func (s speaker) head(step Step) string {
	at, first := s.with(step.At), step.Takes[0]
	switch step.Work {
	case Fetch:
		if first.Ready {
			return "take ready strips"
		}
		return "take the " + s.name(first.Timber)
	case Square:
		return "square the near end, " + at + " off"
	case EndOff:
		return "cut the end offcut off before anything else; it goes back whole"
	case EndOffTrued, EndOffPlaned:
		return "cut the end offcut off now, then enter its new size on the rack"
	case True:
		return "true, " + at + " off width and thickness"
	case PartStacks:
		return "crosscut first, since the stacks differ, a kerf between each two lengths"
	case PartRough, PartPlaned:
		return "crosscut first, since slices are ripped differently, a kerf between each two lengths"
	case Resaw:
		how := "standing on edge, face against the fence"
		if flat(step) {
			how = "lying flat, edge against the fence"
		}
		return "resaw, bandsaw fence at " + at + ", " + how
	case RipSpare:
		return "before planing, rip the spare width off each slice, " + at
	case Plane:
		return "plane to " + at
	case Rip:
		return "rip, saw fence at " + at
	case PlaneOn:
		return "plane strips on to " + at
	case Already:
		return at + " long already, nothing to crosscut"
	case Shorten:
		return "shorten, stop at " + at
	case Back:
		return "back to the rack"
	default:
		return "crosscut to length, stop at " + at
	}
}

// flat reports whether all that is resawn lies flat.
func flat(step Step) bool {
	return !slices.ContainsFunc(step.Takes, func(t Take) bool { return t.Way != OnFlat })
}

// item says what of a piece a step takes, its name apart.
func (s speaker) item(step Step, t Take) string {
	long := ""
	if t.Long > 0 && step.Work < Crosscut {
		long = s.with(t.Long) + " long, "
	}
	switch step.Work {
	case Fetch:
		if t.Ready {
			return fmt.Sprintf("(%d) for %s", t.Copy, s.refs(t.Strips))
		}
		return s.size(t.Sizes...) + t.More
	case Square:
		return ""
	case EndOff, EndOffTrued, EndOffPlaned:
		return s.with(t.Sizes[0])
	case True:
		return s.size(t.Sizes...) + " left"
	case PartStacks, PartRough, PartPlaned:
		return long + s.partsText(t.Parts)
	case Resaw:
		return long + s.resawText(step, t)
	case RipSpare:
		return long + s.with(t.Sizes[0]) + " thick"
	case Plane:
		if t.Ready {
			return "from " + s.with(t.From)
		}
		return fmt.Sprintf("%s%s from %s", long, tell.Count(t.Count, "slice"), s.with(t.From))
	case Rip:
		return long + s.ripText(step, t)
	case PlaneOn:
		return fmt.Sprintf("%s%s from %s", long, tell.Count(t.Count, "strip"), s.with(t.From))
	case Back:
		return strings.Join(t.Back, ", ")
	default:
		return s.stopText(t)
	}
}

func (s speaker) partsText(parts []stretch) string {
	var texts []string
	for _, p := range parts {
		text := p.length.Format(s.unit)
		if n := len(p.sections); n > 1 {
			text += " (" + tell.Count(n, "length") + ")"
		}
		texts = append(texts, text)
	}
	return strings.Join(texts, ", ") + " " + s.unit.String()
}

func (s speaker) resawText(step Step, t Take) string {
	text := tell.Count(t.Count, "slice")
	if t.Way == OnFlat && !flat(step) {
		text += " lying flat, edge against the fence"
	}
	if t.From > 0 {
		text += fmt.Sprintf(" (the last slice is the rest, %s)", s.with(t.From))
	}
	if len(t.Sizes) > 0 {
		text += fmt.Sprintf(" (spare thickness %s)", s.with(t.Sizes[0]))
	}
	return text
}

func (s speaker) ripText(step Step, t Take) string {
	if t.Count == 0 {
		return fmt.Sprintf("%d of %s for the rack", len(t.Sizes), s.with(t.Sizes[0]))
	}
	text := tell.Count(t.Count, "strip")
	switch to, same := jointed(step); {
	case t.Way == OnEdge:
		text += fmt.Sprintf(", rolled a quarter turn: %s wide", s.with(t.From))
	case t.From < t.At && !(same && to == t.From):
		text += ", edges jointed to " + s.with(t.From)
	}
	if n := len(t.Sizes); n > 0 {
		text += moreText(n, t.Sizes[0], s.unit)
	}
	return text
}

// moreText says which strips for the rack are ripped at the same setting.
func moreText(count int, wide length.Length, u length.Unit) string {
	return fmt.Sprintf(", then %d more of %s for the rack, same fence", count, wide.With(u))
}

// jointed returns what the edges of all strips of a step are jointed to, where they are to
// the same.
func jointed(step Step) (to length.Length, same bool) {
	for i, t := range step.Takes {
		if t.Way == OnEdge || t.From >= t.At || i > 0 && t.From != to {
			return 0, false
		}
		to = t.From
	}
	return to, true
}

func (s speaker) stopText(t Take) string {
	text := s.refs(t.Strips)
	if t.Count > 1 && t.Work == Crosscut {
		text = tell.Count(t.Count, "length") + ", " + text
	}
	if len(t.Rings) > 0 {
		text += " (rings expected: " + strings.Join(t.Rings, ", ") + ")"
	}
	return text
}

// after says what is done after what the step takes.
func (s speaker) after(step Step) string {
	first := func(what, text string) string {
		if s.said[what] {
			return ""
		}
		s.said[what] = true
		return text
	}
	has := func(such func(Take) bool) bool { return slices.ContainsFunc(step.Takes, such) }
	out := ""
	switch step.Work {
	case Resaw:
		if has(func(t Take) bool { return t.Follow }) {
			out = first("clean", "; clean each sawn face before the next cut")
		}
	case Rip:
		if to, same := jointed(step); same {
			out = "; joint the edges to " + s.with(to)
		}
	case Crosscut, Already:
		out = first("chalk", "; chalk each strip as it comes off")
		if has(func(t Take) bool { return len(t.Rings) > 0 }) {
			out += first("rings", "; check the rings at the ends, since rings turn within a thick piece")
		}
	case Back:
		if has(func(t Take) bool { return t.Follow }) {
			out = longerBack
		}
	}
	return out
}

// refs names strips, their pattern where there are several, their copy where it is made
// more than once.
func (s speaker) refs(refs []cutting.Ref) string {
	if !s.one {
		return s.named(refs)
	}
	var of tell.Groups[int, cutting.Ref]
	for _, r := range refs {
		of.Add(r.Copy, r)
	}
	var texts []string
	for copied, strips := range of.All() {
		text := cutting.StripsText(strips)
		if !s.once {
			text = fmt.Sprintf("board %d %s", copied, text)
		}
		texts = append(texts, text)
	}
	return strings.Join(texts, "; ")
}

// String returns a word of caution as a line of its own.
func (n Note) String() string {
	head := "caution"
	if n.Level == pattern.TooMuch {
		head += ", too much"
	}
	if len(n.Names) > 0 {
		head += ", " + strings.Join(n.Names, ", ")
	}
	return head + ": " + n.Message
}
