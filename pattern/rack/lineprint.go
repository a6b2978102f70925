package rack

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"example.com/oddments/pattern/length"
)

// Line returns e as a line that ParseLine reads back to the same entry, its timber by
// the name that look has for it, and with a number bare where it is exact in u. It
// serves to change an entry by typing.
func Line(e Entry, look Lookup, u length.Unit) string {
	return lineOf(e, look, u, bareSizes(e, u), func(f Fault) string { return bareStretch(f, u) })
}

// Shown returns e in the words of Line, for the eye: lengths in u as they are shown.
func Shown(e Entry, look Lookup, u length.Unit) string {
	var texts []string
	for _, s := range sizes() {
		texts = append(texts, (*s.of(&e.Piece)).Format(u))
	}
	return lineOf(e, look, u, strings.Join(texts, " x ")+" "+u.String(), func(f Fault) string { return f.From.Format(u) + "-" + f.To.With(u) })
}

// lineOf returns e as a line, with its sizes and its faults in such words.
func lineOf(e Entry, look Lookup, u length.Unit, sizes string, stretch func(Fault) string) string {
	var parts []string
	if e.Planed {
		parts = append(parts, "planed")
	}
	if e.Rings.Known() {
		parts = append(parts, ringsText(e))
	}
	if e.Moisture.Known {
		parts = append(parts, percentText(e)+"%")
	}
	for _, f := range e.Faults {
		text := stretch(f)
		if f.Along {
			text = alongWord + " " + text
		}
		parts = append(parts, text)
	}
	if e.Quantity != 1 {
		parts = append(parts, fmt.Sprintf("x%d", e.Quantity))
	}
	if e.UseFirst {
		parts = append(parts, "first")
	}
	if e.ID != "" {
		parts = append(parts, "#"+idText(e.ID))
	}
	if e.Note != "" {
		parts = append(parts, "note "+noteText(e.Note))
	}
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
	var head []string
	if e.Ready {
		head = append(head, "ready strip")
	}
	if e.Species != "" {
		head = append(head, l.look.Name(e.Species))
	}
	if sizes := l.echoSizes(); sizes != "" {
		head = append(head, sizes)
	}
	if e.Planed {
		head = append(head, "planed")
	}
	if l.Said("rings") {
		head = append(head, ringsText(e))
	}
	var parts []string
	if len(head) > 0 {
		parts = append(parts, strings.Join(head, " "))
	}
	if e.Quantity > 1 {
		parts = append(parts, fmt.Sprintf("x%d", e.Quantity))
	}
	if e.Moisture.Known {
		parts = append(parts, percentText(e)+" %")
	}
	for i, f := range e.Faults {
		parts = append(parts, l.echoFault(l.faults[i].kind, f))
	}
	if e.UseFirst {
		parts = append(parts, "use first")
	}
	if e.ID != "" {
		parts = append(parts, "id "+e.ID)
	}
	if e.Note != "" {
		parts = append(parts, "note: "+e.Note)
	}
	if l.sizes == len(sizes()) && !l.wrong {
		parts = append(parts, length.Volume(e.VolumeCM3(), l.Unit))
	}
	return strings.Join(parts, ", ")
}

// echoSizes returns the sizes that were read, a ? for one that is wrong.
func (l *line) echoSizes() string {
	var texts []string
	for _, s := range sizes()[:l.sizes] {
		if got := *s.of(&l.entry.Piece); got > 0 {
			texts = append(texts, bare(got, l.Unit))
		} else {
			texts = append(texts, "?")
		}
	}
	return strings.Join(texts, " x ")
}

func (l *line) echoFault(kind string, f Fault) string {
	if f.Along {
		kind += " " + alongWord
	}
	text := bareStretch(f, l.Unit)
	if !strings.HasSuffix(text, "mm") {
		text += " " + l.Unit.String()
	}
	return kind + " " + text
}
