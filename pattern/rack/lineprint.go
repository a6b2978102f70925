package rack

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/tell"
)

// Line returns e as a line that ParseLine reads back to the same entry, its timber by
// the name that look has for it, and with a number bare where it is exact in u. It
// serves to change an entry by typing.
func Line(e Entry, look Lookup, u length.Unit) string {
	return lineOf(e, look, u, bareSizes(e, u), bare(e.Heart, u), func(f Fault) string { return bareStretch(f, u) })
}

// Shown returns e in the words of Line, for the eye: lengths in u as they are shown.
func Shown(e Entry, look Lookup, u length.Unit) string {
	var texts []string
	for _, s := range sizes() {
		texts = append(texts, (*s.of(&e.Piece)).Format(u))
	}
	return lineOf(e, look, u, strings.Join(texts, " x ")+" "+u.String(), e.Heart.With(u), func(f Fault) string { return f.From.Format(u) + "-" + f.To.With(u) })
}

// lineOf returns e as a line, with its sizes, its heart and its faults in such words.
func lineOf(e Entry, look Lookup, u length.Unit, sizes, heart string, stretch func(Fault) string) string {
	var parts tell.Phrases
	parts.If(e.Planed, "planed")
	parts.If(e.Rings.Known(), ringsText(e))
	parts.If(e.Bark.Known(), barkWord+" "+e.Bark.String())
	parts.If(e.Heart > 0, "heart "+heart)
	parts.If(e.Moisture.Known, percentText(e)+"%")
	for _, f := range e.Faults {
		text := stretch(f)
		if f.Along {
			text = alongWord + " " + text
		}
		parts = append(parts, strings.TrimSpace(f.Kind+" "+text))
	}
	parts.If(e.Quantity != 1, fmt.Sprintf("x%d", e.Quantity))
	parts.If(e.UseFirst, "first")
	parts.If(e.ID != "", "#"+idText(e.ID))
	parts.If(e.Note != "", "note "+noteText(e.Note))
	head := timberText(e, look.Called(e.Species))
	if again := read(head+" 1 1 1", look, u); again.entry.Species != e.Species || again.entry.Ready != e.Ready || again.Err() != nil {
		head = timberText(e, e.Species) // a word of the name means something else here
	}
	return strings.Join(append([]string{head + " " + sizes}, parts...), ", ")
}

// bareSizes returns the sizes exactly, all with their unit where one needs it.
func bareSizes(e Entry, u length.Unit) string {
	return bareTogether(" x ", u, e.Length, e.Width, e.Thickness)
}

// bareStretch returns where f lies, exactly.
func bareStretch(f Fault, u length.Unit) string { return bareTogether("-", u, f.From, f.To) }

// bareTogether returns lengths exactly, all with their unit where one needs it.
func bareTogether(between string, u length.Unit, all ...length.Length) string {
	var texts, exact []string
	for _, l := range all {
		texts, exact = append(texts, bare(l, u)), append(exact, l.String())
	}
	if slices.ContainsFunc(texts, func(text string) bool { return strings.HasSuffix(text, "mm") }) {
		texts = exact
	}
	return strings.Join(texts, between)
}

// timberText returns the timber by one of its names, with what must stand before it.
func timberText(e Entry, name string) string {
	if name == "strip" || name == "timber" { // these two begin something else
		name = "timber " + name
	}
	if e.Ready {
		name = "strip " + name
	}
	return name
}

// bare returns l exactly: without its unit where that is u.
func bare(l length.Length, u length.Unit) string {
	const sixtyFourth = length.Inch / 64
	if u == length.InInches {
		if l%sixtyFourth == 0 {
			return l.Format(length.InInches)
		}
		return l.String()
	}
	return strings.TrimSuffix(l.String(), " mm")
}

func ringsText(e Entry) string {
	if word, ok := e.Rings.Word(); ok {
		return word
	}
	return e.Rings.String() + "deg"
}

func percentText(e Entry) string { return strconv.FormatFloat(e.Moisture.Percent, 'f', -1, 64) }

func idText(id string) string {
	odd := func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && !strings.ContainsRune("-_.+()", r)
	}
	if strings.ContainsFunc(id, odd) {
		return strconv.Quote(id)
	}
	return id
}

func noteText(note string) string {
	if strings.TrimFunc(note, unicode.IsSpace) != note || strings.HasPrefix(note, `"`) {
		return strconv.Quote(note)
	}
	return note
}

// echo returns what was understood of the line: black cherry 620 x 85 x 77 flat, split
// 0-40 mm, 4.06 dm3.
func (l *line) echo() string {
	e := l.entry
	var head, parts tell.Phrases
	head.If(e.Ready, "ready strip")
	head.If(e.Species != "", l.look.Name(e.Species))
	head.If(l.sizes > 0, l.echoSizes())
	head.If(e.Planed, "planed")
	head.If(l.Said("rings"), ringsText(e))
	parts.If(len(head) > 0, strings.Join(head, " "))
	parts.If(e.Quantity > 1, fmt.Sprintf("x%d", e.Quantity))
	parts = append(parts, e.Grain().Words(l.Unit)...)
	parts.If(e.Moisture.Known, percentText(e)+" %")
	for _, f := range e.Faults {
		parts = append(parts, l.echoFault(f))
	}
	parts.If(e.UseFirst, "use first")
	parts.If(e.ID != "", "id "+e.ID)
	parts.If(e.Note != "", "note: "+e.Note)
	parts.If(l.sizes == len(sizes()) && !l.wrong, length.Volume(e.VolumeCM3(), l.Unit))
	return strings.Join(parts, ", ")
}

// echoSizes returns the sizes that were read, a ? for one that is wrong.
func (l *line) echoSizes() string {
	var texts []string
	for i, s := range sizes() {
		if !l.given[i] {
			continue
		}
		if got := *s.of(&l.entry.Piece); got > 0 {
			texts = append(texts, bare(got, l.Unit))
		} else {
			texts = append(texts, "?")
		}
	}
	return strings.Join(texts, " x ")
}

func (l *line) echoFault(f Fault) string {
	kind := cmp.Or(f.Kind, anyFault)
	if f.Along {
		kind += " " + alongWord
	}
	text := bareStretch(f, l.Unit)
	if !strings.HasSuffix(text, "mm") {
		text += " " + l.Unit.String()
	}
	return kind + " " + text
}
