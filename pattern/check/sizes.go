package check

import (
	"fmt"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/tell"
)

func widthRule(b *board) []Finding {
	wanted, now := b.pattern.Panel.Width, b.figures.Width
	if wanted == 0 || now == wanted {
		return nil
	}
	f := Finding{remedies: b.later(b.fill)}
	f.Message = fmt.Sprintf("glue-up width %s is %s over the %s you want", b.with(now), b.with(now-wanted), b.with(wanted))
	if now < wanted {
		f.Level = pattern.TakeCare
		f.Message = fmt.Sprintf("glue-up width %s is %s short of the %s you want", b.with(now), b.with(wanted-now), b.with(wanted))
	}
	return []Finding{f}
}

// fill offers to spread the missing or spare width.
func (b *board) fill() []Remedy {
	filled, err := edit.Fill(edit.New(b.pattern))
	if err != nil {
		return nil // every strip is pinned, or one would have no width left
	}
	least, most := length.Length(pattern.MaxAcross), length.Length(-pattern.MaxAcross)
	for i, s := range filled.Pattern.Strips {
		if by := s.Width - b.pattern.Strips[i].Width; by != 0 {
			least, most = min(least, by), max(most, by)
		}
	}
	what := "widen"
	if most < 0 {
		what, least, most = "narrow", -most, -least
	}
	share := b.with(most)
	if least.Format(b.unit) != most.Format(b.unit) {
		share = least.Format(b.unit) + " to " + share
	}
	return []Remedy{{Kind: Fill, Text: fmt.Sprintf("%s each unpinned strip by %s", what, share)}}
}

// thicknesserRule goes by whole strips: a part that fits holds as many neighbours as
// the thicknesser takes side by side.
func thicknesserRule(b *board) []Finding {
	limit, now := b.shop.Machine.ThicknesserWidth, b.figures.Width
	if limit == 0 || now <= limit {
		return nil
	}
	wanted := b.pattern.Panel.Width
	if wanted > 0 && wanted <= limit {
		return []Finding{{Level: pattern.TakeCare, Message: fmt.Sprintf("glue-up width %s is more than %s, %s would fit: trim the strips first; ",
			b.with(now), b.shop.Machine.ThicknesserMost().Words(b.unit), b.with(wanted)) + manuals}}
	}
	message := fmt.Sprintf("glue-up width %s is more than %s: ", b.with(now), b.shop.Machine.ThicknesserMost().Words(b.unit))
	parts, part := 1, length.Length(0)
	for i, s := range b.pattern.Strips {
		if s.Width > limit {
			return []Finding{{Level: pattern.TakeCare,
				Message: message + fmt.Sprintf("strip %d alone, %s wide, is too: flatten the panel another way; ", i+1, b.with(s.Width)) + manuals}}
		}
		if part+s.Width > limit {
			parts, part = parts+1, 0
		}
		part += s.Width
	}
	joint := "joint"
	if parts > 2 {
		joint = "joints"
	}
	return []Finding{{Level: pattern.TakeCare,
		Message: message + fmt.Sprintf("glue it in %d parts, level the last %s by hand; ", parts, joint) + manuals}}
}

// endsRule looks at the length that all strips share. Of the strips that bound it
// those stop short that start late, or end before a strip of the panel's own length
// does.
func endsRule(b *board) []Finding {
	p := b.pattern
	from, to := p.Strips[0].Start, b.end(p.Strips[0])
	for _, s := range p.Strips[1:] {
		from, to = max(from, s.Start), min(to, b.end(s))
	}
	shared := max(0, to-from)
	if shared >= p.Panel.Length {
		return nil
	}
	var short []int
	for i, s := range p.Strips {
		late := s.Start == from && from > 0
		early := b.end(s) == to && to < p.Panel.Length+b.allow.Length
		if late || early {
			short = append(short, i+1)
		}
	}
	noun, verb := "strip", "stops"
	if len(short) > 1 {
		noun, verb = "strips", "stop"
	}
	return []Finding{{Level: pattern.TakeCare,
		Message: fmt.Sprintf("all strips lie side by side for only %s of the panel's %s: %s %s %s short; that is enough where the products fit",
			b.with(shared), b.with(p.Panel.Length), noun, tell.Runs(short), verb)}}
}

// standingOut is how far a strip end may stand out beyond both neighbours before a
// panel goes through the thicknesser: common practice, no source.
const standingOut = 20 * length.Millimetre

func standingOutRule(b *board) []Finding {
	strips := b.pattern.Strips
	if len(strips) < 2 {
		return nil
	}
	var out []Finding
	for i, s := range strips {
		neighbours := strips[max(0, i-1):min(i+2, len(strips))]
		near, far := length.Length(pattern.MaxStart), length.Length(0)
		for k, n := range neighbours {
			if max(0, i-1)+k != i {
				near, far = min(near, n.Start), max(far, b.end(n))
			}
		}
		if by := max(near-s.Start, b.end(s)-far); by > standingOut {
			out = append(out, Finding{Level: pattern.TakeCare, Where: Place{Strip: i + 1},
				Message: fmt.Sprintf("an end of strip %d sticks out %s alone: trim it before flattening, it can snap in the thicknesser; ",
					i+1, b.with(by)) + manuals})
		}
	}
	return out
}

func fewRule(b *board) []Finding {
	if len(b.pattern.Strips) > 1 {
		return nil
	}
	return []Finding{{Level: pattern.TakeCare, Message: "one strip makes no panel: add a second"}}
}
