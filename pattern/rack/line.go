package rack

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// A LineError is a word of a typed line that cannot be taken.
type LineError struct {
	Word    string // as typed; empty where something is missing
	Column  int    // where it starts, from 1, in characters
	Message string // what is wrong, and what would be right

	at   int    // where it starts, in bytes
	want string // what the word may still become while it is being typed
}

// Error gives the column, the word where the message does not quote it, and the message.
func (e *LineError) Error() string {
	if e.Word == "" || strings.Contains(e.Message, strconv.Quote(e.Word)) {
		return fmt.Sprintf("column %d: %s", e.Column, e.Message)
	}
	return fmt.Sprintf("column %d, %q: %s", e.Column, e.Word, e.Message)
}

// An Echo is what was understood of a line while it is being typed.
type Echo struct {
	Entry   Entry    // as far as it goes; whole where Missing is empty and Err is nil
	Text    string   // what was understood, for the eye
	Missing []string // what is still wanted, each with its question mark: width?
	Err     error    // the first word that cannot be taken, a *LineError
}

// ParseLine reads one typed line: one piece, or several alike, as it is spoken.
//
//	black cherry 620 85 77 flat 9.1 % split 0-40, along 30-45 x3 first
//	strip hard maple 470 25 24 x14 flat 8 %
//
// First the timber, by its letters or by words that its key or one of its names
// begins with (see Lookup.Find), then length, width and thickness. A ready strip has
// the word strip before its timber or anywhere behind it, and its sizes in the same
// order. Between the sizes stands a blank, x or by; a number without a unit is in u,
// but a unit behind the last alone holds for all three; 24-1/2 is 24 and a half. The
// rest comes in any order, parted by blanks or commas:
//
//	planed p             flat f, rift r, quarter q, unknown, 30deg: the rings
//	9.1 %                the moisture
//	0-40                 a fault over that stretch of the length
//	along 30-45          a fault along the grain over that band of the width
//	x3                   so many alike
//	first                to be used first
//	#W9 or id W9         its id; #"W 9" where it has blanks
//	note from the shed   a note, to the end of the line
//
// Before a fault may stand what it is (split, shake, knot, check, wane, rot, sapwood,
// hole or fault); the rack keeps where it lies, not what it is. A timber whose key is
// strip or timber is named by timber and its key.
//
// The id is empty where none was given. The error is the first *LineError of the
// line.
func ParseLine(text string, look Lookup, u length.Unit) (Entry, error) {
	l := read(text, look, u)
	if missing := l.missing(); len(missing) > 0 {
		l.failAt(len(text), len(text), "", "still wanted: %s; write it like %s", strings.Join(missing, ", "), example)
	}
	if err := l.first(func(*LineError) bool { return true }); err != nil {
		return Entry{}, err
	}
	return l.entry, nil
}

// Understood reads a line that is being typed, as ParseLine does, as far as it goes.
// The last word is no error while more letters may make it right: Missing then says
// what it may become.
func Understood(text string, look Lookup, u length.Unit) Echo {
	l := read(text, look, u)
	echo := Echo{Entry: l.entry, Text: l.echo()}
	typing := func(e *LineError) bool { return e.want != "" && e.at+len(e.Word) == len(text) }
	for _, e := range l.errs {
		if typing(&e) {
			echo.Missing = append(echo.Missing, e.want)
		}
	}
	for _, m := range l.missing() {
		if m == "timber" && len(echo.Missing) > 0 && l.named {
			continue // the word that is being typed asks for it already
		}
		echo.Missing = append(echo.Missing, m+"?")
	}
	if err := l.first(func(e *LineError) bool { return !typing(e) }); err != nil {
		echo.Err = err
	}
	return echo
}

// example is a line as the hints show it. Its timber is one that every table knows and
// that no other is called like.
const example = "black cherry 620 85 77"

// longestLine bounds what is read: a long note and all else fits twice.
const longestLine = 6000

// A line is a typed line that is being read.
type line struct {
	text string
	at   int // byte that is read next
	look Lookup
	unit length.Unit

	entry     Entry
	named     bool // words stand where the timber belongs
	sizes     int  // that were read
	sizeTexts []sizeText
	sized     bool // the last thing that was read was a size
	given     map[string]bool
	planed    part
	note      part
	faults    []spoken
	errs      []LineError
	wrong     bool // a size was wrong: faults cannot be held against it
	refused   bool // nothing was read at all
}

// A part is a stretch of the text; the zero value is none.
type part struct{ from, to int }

// A sizeText is a size as it is typed, empty where it is none, and where it stands.
type sizeText struct {
	text string
	part
}

// A spoken fault is one with the words it was told in.
type spoken struct {
	kind string // split, or fault where nothing was said
	part
}

// read reads as much of text as can be understood.
func read(text string, look Lookup, u length.Unit) *line {
	l := &line{text: text, look: look, unit: u, entry: Entry{Piece: Piece{Quantity: 1}}, given: map[string]bool{}}
	if len(text) > longestLine {
		l.refused = true
		l.failAt(0, 0, "", "a line of %d letters: must be at most %d", len(text), longestLine)
		return l
	}
	if r, bad := pattern.ForbiddenRune(text); bad {
		l.refused = true
		at := strings.IndexRune(text, r)
		l.failAt(at, at, "", "the line holds the control character %U: take it out", r)
		return l
	}
	l.timber()
	for l.blanks(); l.at < len(l.text); l.blanks() {
		before := l.at
		l.item()
		if l.at == before { // nothing may hold the reading up
			l.at = len(l.text)
		}
	}
	l.settleSizes()
	l.together()
	return l
}

// missing lists what a line must have and this one has not.
func (l *line) missing() []string {
	if l.refused {
		return nil
	}
	var missing []string
	if l.entry.Species == "" {
		missing = append(missing, "timber")
	}
	for _, s := range sizes()[l.sizes:] {
		missing = append(missing, s.name)
	}
	return missing
}

// first gives the leftmost error that counts, or nil.
func (l *line) first(counts func(*LineError) bool) error {
	slices.SortStableFunc(l.errs, func(a, b LineError) int { return a.at - b.at })
	for i := range l.errs {
		if counts(&l.errs[i]) {
			return &l.errs[i]
		}
	}
	return nil
}

// failAt reports the text from from to to.
func (l *line) failAt(from, to int, want, format string, args ...any) {
	l.errs = append(l.errs, LineError{
		Word: l.text[from:to], Column: utf8.RuneCountInString(l.text[:from]) + 1,
		Message: fmt.Sprintf(format, args...), at: from, want: want,
	})
}

// fail reports what was read since from.
func (l *line) fail(from int, want, format string, args ...any) {
	l.failAt(from, l.at, want, format, args...)
}

// once reports whether what is of a kind is given for the first time.
func (l *line) once(from int, kind string) bool {
	if l.given[kind] {
		l.fail(from, "", "%s is given twice: say it once", kind)
		return false
	}
	l.given[kind] = true
	return true
}

// timber reads the words up to the sizes.
func (l *line) timber() {
	var words []string
	from, to := 0, 0
	for l.blanks(); l.at < len(l.text); l.blanks() {
		start := l.at
		word := l.word()
		small := strings.ToLower(word)
		begins, _ := utf8.DecodeRuneInString(word)
		if !letter(begins) || len(words) > 0 && endsTimber(small) {
			l.at = start
			break
		}
		if small == "strip" && len(words) == 0 {
			l.entry.Ready = l.once(start, "strip") || l.entry.Ready
			continue
		}
		if small == "timber" && len(words) == 0 {
			l.blanks()
			start, word = l.at, l.word()
		}
		if len(words) == 0 {
			from = start
		}
		words, to = append(words, word), l.at
	}
	if len(words) == 0 {
		return
	}
	l.named = true
	s, err := l.look.Find(strings.Join(words, " "))
	if err == nil {
		l.entry.Species = s.Key
		return
	}
	want := ""
	if e, ok := err.(*TimberError); ok && len(e.Could) > 0 {
		want = namesOf(e.Could) + "?"
	}
	l.failAt(from, to, want, "%s", l.timberHelp(err))
}

// timberHelp adds to an error about the timber where the timber belongs.
func (l *line) timberHelp(err error) string {
	return err.Error() + " (the timber comes first, like " + example + ")"
}

// item reads one thing behind the timber.
func (l *line) item() {
	start, sized := l.at, l.sized
	l.sized = false
	r, width := utf8.DecodeRuneInString(l.text[l.at:])
	switch {
	case l.startsNumber(l.at):
		l.number()
	case r == '#':
		l.at += width
		l.id(start)
	case isTimes(r):
		if next := l.spacesFrom(l.at + width); l.startsNumber(next) || next == len(l.text) {
			l.at = next
			l.times(start, sized && l.sizes < len(sizes()))
			return
		}
		l.spokenWord(sized)
	default:
		l.spokenWord(sized)
	}
}

// times reads what stands behind an x: the next size, or how many there are.
func (l *line) times(start int, between bool) {
	if between {
		l.sized = true // the next size follows, or is still to be typed
		return
	}
	l.toBlank()
	n, ok := wholeNumber(strings.TrimLeft(l.text[start:l.at], "xX× "))
	if !ok || n < 1 || n > MaxQuantity {
		l.fail(start, "x how many?", "a quantity is x1 to x%d, in whole pieces", MaxQuantity)
		return
	}
	if l.once(start, "quantity") {
		l.entry.Quantity = n
	}
}

// together looks at what only the whole line can tell.
func (l *line) together() {
	if l.entry.Ready {
		if l.entry.Planed {
			l.failAt(l.planed.from, l.planed.to, "", "%v", errReadyPlaned)
		}
		for _, f := range l.faults {
			l.failAt(f.from, f.to, "", "%v", errReadyFault)
		}
		if l.entry.Note != "" {
			l.failAt(l.note.from, l.note.to, "", "%v", errReadyNote)
		}
		return
	}
	if l.sizes < len(sizes()) || l.wrong {
		return
	}
	for i, f := range l.faults {
		one := l.entry.Piece
		one.Faults = one.Faults[i : i+1]
		if err := one.Check(); err != nil {
			l.failAt(f.from, f.to, "", "%v", err)
		}
	}
}
