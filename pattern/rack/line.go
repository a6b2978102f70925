package rack

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/spoken"
)

// An Echo is what was understood of a line while it is being typed.
type Echo struct {
	Entry   Entry    // as far as it goes; whole where Missing is empty and Err is nil
	Text    string   // what was understood, for the eye
	Missing []string // what is still wanted, each with its question mark: width?
	Err     error    // the first word that cannot be taken, a *spoken.Error
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
// A size may have the word long, wide or thick behind it, and stands then in any place.
//
//	planed p             flat f, rift r, quarter q, unknown, 30deg: the rings
//	bark up left         the side of the bark, seen on the end grain
//	heart 90             how far the pith lies from the middle
//	9.1 %                the moisture
//	0-40                 a fault over that stretch of the length
//	along 30-45          a fault along the grain over that band of the width
//	x3                   so many alike
//	first                to be used first
//	#W9 or id W9         its id; #"W 9" where it has blanks
//	note from the shed   a note, to the end of the line
//
// Before a fault may stand what it is (split, crack, shake, knot, check, wane, bark, pith,
// rot, sapwood, hole or fault). A timber whose key is strip or timber is named by timber and
// its key.
//
// The id is empty where none was given. The error is the first *spoken.Error of the
// line.
func ParseLine(text string, look Lookup, u length.Unit) (Entry, error) {
	l := read(text, look, u)
	if missing := l.missing(); len(missing) > 0 {
		l.FailAt(len(text), len(text), "", "missing: %s; write it like %s", strings.Join(missing, ", "), example)
	}
	if err := l.Err(); err != nil {
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
	echo.Missing, echo.Err = l.Typing()
	asked := len(echo.Missing) > 0 && l.named // the word that is being typed asks for the timber
	for _, m := range l.missing() {
		if m != "timber" || !asked {
			echo.Missing = append(echo.Missing, m+"?")
		}
	}
	return echo
}

// An Unclear line has words for its timber that may mean several.
type Unclear struct {
	Words string   // as typed
	Names []string // of the timbers that may be meant
	Lines []string // for each of these, the line with its name in it
}

// UnclearTimber returns what a line may mean whose timber may be several, else nil.
func UnclearTimber(text string, look Lookup, u length.Unit) *Unclear {
	return read(text, look, u).unclear
}

// example is a line as the hints show it. Its timber is one that every table knows and
// that no other is called like.
const example = "black cherry 620 85 77"

// longestLine bounds what is read: a long note and all else fits twice.
const longestLine = 6000

// A line is a typed line that is being read.
type line struct {
	spoken.Line
	look Lookup

	entry     Entry
	named     bool // words stand where the timber belongs
	sizes     int  // that were read
	sizeTexts []sizeText
	given     [3]bool
	unclear   *Unclear // a timber that may be several
	sized     bool     // the last thing that was read was a size
	planed    part
	grain     part // the last of bark and heart
	note      part
	faults    []part
	wrong     bool // a size was wrong: faults cannot be held against it
	refused   bool // nothing was read at all
}

// A part is a stretch of the text; the zero value is none.
type part struct{ from, to int }

// A sizeText is a size as it is typed, empty where it is none, and where it stands.
type sizeText struct {
	text  string
	named int // the size that a word behind it says, from 1
	part
}

// read reads as much of text as can be understood.
func read(text string, look Lookup, u length.Unit) *line {
	l := &line{Line: spoken.Line{Text: text, Unit: u, Times: true}, look: look, entry: Entry{Piece: Piece{Quantity: 1}}}
	if len(text) > longestLine {
		l.refused = true
		l.FailAt(0, 0, "", "a line of %d letters: must be at most %d", len(text), longestLine)
		return l
	}
	if r, bad := pattern.ForbiddenRune(text); bad {
		l.refused = true
		at := strings.IndexRune(text, r)
		l.FailAt(at, at, "", "the line holds the control character %U: take it out", r)
		return l
	}
	l.timber()
	for l.More() {
		before := l.At
		l.item()
		if l.At == before { // nothing may hold the reading up
			l.At = len(l.Text)
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
	for i, s := range sizes() {
		if !l.given[i] {
			missing = append(missing, s.name)
		}
	}
	return missing
}

// once reports whether what is of a kind is given for the first time.
func (l *line) once(from int, kind string) bool {
	twice := l.Twice(kind)
	if twice {
		l.Fail(from, "", "%s is given twice: write it once", kind)
	}
	return !twice
}

// timber reads the words up to the sizes.
func (l *line) timber() {
	var words []string
	from, to := 0, 0
	for l.More() {
		start := l.At
		word := l.Word()
		small := strings.ToLower(word)
		begins, _ := utf8.DecodeRuneInString(word)
		if !unicode.IsLetter(begins) || len(words) > 0 && endsTimber(small) {
			l.At = start
			break
		}
		if small == "strip" && len(words) == 0 {
			l.entry.Ready = l.once(start, "strip") || l.entry.Ready
			continue
		}
		if small == "timber" && len(words) == 0 {
			l.More()
			start, word = l.At, l.Word()
		}
		if len(words) == 0 {
			from = start
		}
		words, to = append(words, word), l.At
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
		l.unclear = &Unclear{Words: e.Words, Names: e.Called}
		for _, name := range e.Called {
			l.unclear.Lines = append(l.unclear.Lines, l.Text[:from]+name+l.Text[to:])
		}
	}
	l.FailAt(from, to, want, "%v (the timber comes first, like %s)", err, example)
}

// item reads one thing behind the timber.
func (l *line) item() {
	start, sized := l.At, l.sized
	l.sized = false
	r, width := utf8.DecodeRuneInString(l.Text[l.At:])
	switch {
	case l.AtNumber():
		l.number()
	case r == '#':
		l.At += width
		l.id(start)
	case spoken.IsTimes(r):
		l.At += width
		if l.Spaces(); l.AtNumber() || l.At == len(l.Text) {
			l.times(start, sized && l.sizes < len(sizes()))
			return
		}
		l.At = start
		fallthrough
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
	n, ok := spoken.Whole(l.Word())
	if !ok || n < 1 || n > MaxQuantity {
		l.Fail(start, "x how many?", "a quantity is x1 to x%d, in whole pieces", MaxQuantity)
		return
	}
	if l.once(start, "quantity") {
		l.entry.Quantity = n
	}
}

// together looks at what only the whole line can tell.
func (l *line) together() {
	if err := l.entry.Grain().Check(); err != nil {
		l.FailAt(l.grain.from, l.grain.to, "", "%v", err)
	}
	if l.entry.Ready {
		if l.entry.Planed {
			l.FailAt(l.planed.from, l.planed.to, "", "%v", errReadyPlaned)
		}
		for _, f := range l.faults {
			l.FailAt(f.from, f.to, "", "%v", errReadyFault)
		}
		if l.entry.Note != "" {
			l.FailAt(l.note.from, l.note.to, "", "%v", errReadyNote)
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
			l.FailAt(f.from, f.to, "", "%v", err)
		}
	}
}
