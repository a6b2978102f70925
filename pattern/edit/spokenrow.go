package edit

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/spoken"
)

// A Board is what a new pattern begins with. Where Mirror is set, the strips that are put in
// first get their mirror image too.
type Board struct {
	Length, Width, Thickness length.Length
	Mirror                   bool
}

// mirrorWords are the words that ask for the mirror image.
func mirrorWords() []string { return []string{"unfold", "mirror", "mirrored"} }

// longestSpoken bounds what is read of a line: as many strips as a pattern holds find room.
const longestSpoken = 200_000

const (
	exampleBoard = "800 x 340 x 25"
	exampleRow   = "wa30 ma10 x3 unfold"
)

// ParseBoard reads a new board as it is spoken: its finished length, the width that is wanted
// and its thickness, with x, by or a blank between them, then mirror where its strips are to
// be mirrored. One unit behind the last holds for all; numbers without are in u.
//
//	800 x 340 x 25 mirror
//
// The error is the first *spoken.Error of the line.
func ParseBoard(text string, u length.Unit) (Board, error) {
	var b Board
	l := spoken.Line{Text: text, Unit: u, Times: true}
	if len(text) > longestSpoken {
		l.FailAt(0, 0, "", "a line of %d letters: write it like %s", len(text), exampleBoard)
		return b, l.Err()
	}
	sizes := []spoken.Size{{What: "length", Into: &b.Length}, {What: "width", Into: &b.Width}, {What: "thickness", Into: &b.Thickness}}
	n := 0
	for l.More() {
		from := l.At
		switch {
		case l.AtNumber() && n < len(sizes):
			sizes[n].Text = l.LengthText()
			if _, err := length.ParseIn(sizes[n].Text, u); err != nil {
				l.Fail(from, "", "%s: %v", sizes[n].What, err)
			}
			n++
		case n > 0 && n < len(sizes) && l.SkipTimes(), n > 0 && l.Skip("by"):
		case l.Skip(mirrorWords()...):
			b.Mirror = true
		default:
			l.Word()
			l.Fail(from, "", "must be %s, then mirror or nothing", exampleBoard)
		}
	}
	if n < len(sizes) {
		l.FailAt(len(text), len(text), "", "still wanted: %s; write it like %s", sizes[n].What, exampleBoard)
	}
	if err := l.Err(); err != nil {
		return b, err
	}
	if err := l.Together(sizes); err != nil {
		l.FailAt(0, len(text), "", "%v", err)
	}
	if _, err := NewBoard(b); err != nil {
		l.FailAt(0, len(text), "", "%v", err)
	}
	return b, l.Err()
}

// NewBoard returns an empty panel of the board's sizes.
func NewBoard(b Board) (State, error) {
	s, err := SetPanelLength(State{}, b.Length)
	if err == nil {
		s, err = SetPanelWidth(s, b.Width)
	}
	if err == nil {
		s, err = SetThickness(s, b.Thickness)
	}
	return s, err
}

// Row returns what is typed for the board's first strips, with the mirror image where the
// board has one and the line does not say so.
func (b Board) Row(text string) string {
	words := strings.Fields(text)
	if n := len(words); !b.Mirror || n > 0 && slices.Contains(mirrorWords(), strings.ToLower(words[n-1])) {
		return text
	}
	return text + " " + mirrorWords()[0]
}

// New begins a pattern by what is typed: its name, its sizes (see ParseBoard) and its strips
// (see ParseRow), of which there may be none. Numbers without a unit are in u.
func (v Vocabulary) New(name, size, strips string, u length.Unit) (State, error) {
	board, err := ParseBoard(size, u)
	if err != nil {
		return State{}, fmt.Errorf("SIZE %q: %w", size, err)
	}
	s, err := NewBoard(board)
	if err == nil {
		s, err = SetName(s, strings.TrimSpace(name))
	}
	if err != nil || s.Pattern.Name == "" {
		return State{}, fmt.Errorf("NAME %q: a pattern needs a name, one line", name)
	}
	if strings.TrimSpace(strips) == "" {
		return s, nil
	}
	row, err := ParseRow(board.Row(strips), v.Find, u)
	if err == nil {
		s, err = PutInRow(s, row)
	}
	if err != nil {
		return State{}, fmt.Errorf("STRIPS %q: %w", strips, err)
	}
	return s, nil
}

// ParseRow reads strips as they are spoken, from left to right: each a timber, by its letters
// or its name, and its width. x3 has what stands before it three times, as far back as the
// last x; unfold, as the last word, adds the mirror image, in which the last strip is the
// middle one. find finds a timber; numbers without a unit are in u.
//
//	wa30 ma10 sa40 ma10 x3
//	walnut 30, hard maple 10, sapele 40 unfold
//
// The strips are those that were understood where there is an error, which is the first
// *spoken.Error of the line.
func ParseRow(text string, find func(words string) (species string, err error), u length.Unit) ([]pattern.Strip, error) {
	r := rowWords{Line: spoken.Line{Text: text, Unit: u, Times: true}, find: find}
	if len(text) > longestSpoken {
		r.FailAt(0, 0, "", "a line of %d letters: write it like %s", len(text), exampleRow)
		return nil, r.Err()
	}
	for r.More() && r.Err() == nil {
		r.next()
	}
	if len(r.strips) == 0 {
		r.FailAt(len(text), len(text), "", "still wanted: a timber and its width; write it like %s", exampleRow)
	}
	return r.strips, r.Err()
}

// rowWords are the words of a row that are still to be read.
type rowWords struct {
	spoken.Line
	find   func(string) (string, error)
	strips []pattern.Strip
	group  int // the first strip that the next x repeats
}

// next reads one strip, how often to repeat, or that the row is mirrored.
func (r *rowWords) next() {
	from := r.At
	if r.SkipTimes() {
		r.repeat(from)
		return
	}
	if r.Skip(mirrorWords()...) {
		r.unfold(from)
		return
	}
	timber, ok := r.timber(from)
	if !ok {
		return
	}
	at := r.At
	if !r.More() || !r.AtNumber() {
		r.FailAt(at, at, "", "still wanted: the width of the %s; write it like %s", timber.called, exampleRow)
		return
	}
	at = r.At
	width, err := r.Length()
	if err == nil {
		err = aboveNone("width", width, pattern.MaxAcross)
	}
	if err != nil {
		r.Fail(at, "", "%v", err)
		return
	}
	r.add(at, []pattern.Strip{{Species: timber.key, Width: width}})
}

// A calledTimber is a timber with the words that it was called by.
type calledTimber struct{ key, called string }

// timber reads the words up to a number.
func (r *rowWords) timber(from int) (calledTimber, bool) {
	var words []string
	to := from
	for r.More() && !r.AtNumber() {
		start := r.At
		if word := strings.ToLower(r.Word()); slices.Contains(mirrorWords(), word) {
			r.At = start
			break
		}
		r.At = start
		word := r.Letters()
		if word == "" {
			break
		}
		words, to = append(words, word), r.At
	}
	if len(words) == 0 {
		r.Word()
		r.Fail(from, "", "the timber comes before its width; write it like %s", exampleRow)
		return calledTimber{}, false
	}
	t := calledTimber{called: strings.Join(words, " ")}
	var err error
	if t.key, err = r.find(t.called); err == nil && t.key == "" {
		err = errors.New("no timber of that name")
	}
	if err != nil {
		r.FailAt(from, to, "", "%v", err)
	}
	return t, err == nil
}

// repeat reads how often what stands before is to be there.
func (r *rowWords) repeat(from int) {
	r.Spaces()
	n, err := spoken.Count("times", r.Word(), pattern.MaxStrips)
	switch group := r.strips[r.group:]; {
	case err != nil:
		r.Fail(from, "", "%v", err)
	case len(group) == 0:
		r.Fail(from, "", "there is no strip before it to repeat; write it like %s", exampleRow)
	case len(group)*n > pattern.MaxStrips:
		r.tooMany(from)
	default:
		r.add(from, slices.Repeat(group, n-1))
		r.group = len(r.strips)
	}
}

// unfold adds the mirror image.
func (r *rowWords) unfold(from int) {
	switch to := r.At; {
	case len(r.strips) == 0:
		r.Fail(from, "", "there is no strip before it to mirror; write it like %s", exampleRow)
	case r.More():
		r.FailAt(from, to, "", "it mirrors the whole row: say it last")
	default:
		image := slices.Clone(r.strips[:len(r.strips)-1])
		slices.Reverse(image)
		r.add(from, image)
	}
}

func (r *rowWords) add(from int, strips []pattern.Strip) {
	if len(r.strips)+len(strips) > pattern.MaxStrips {
		r.tooMany(from)
		return
	}
	r.strips = append(r.strips, strips...)
}

func (r *rowWords) tooMany(from int) {
	r.Fail(from, "", "a pattern has %d strips at most", pattern.MaxStrips)
}

// RowLine returns strips as ParseRow reads them: each by what called calls its timber, and its
// width, in u where no unit stands.
func RowLine(strips []pattern.Strip, called func(species string) string, u length.Unit) string {
	words := make([]string, len(strips))
	for i, s := range strips {
		words[i] = called(s.Species) + " " + s.Width.Typed(u)
	}
	return strings.Join(words, ", ")
}

// PutInRow puts strips in after the chosen one, or as the first of a draft, in their order,
// and chooses the last of them.
func PutInRow(s State, strips []pattern.Strip) (State, error) {
	if len(strips) == 0 {
		return s, refuse("there is no strip to put in: write them like %s", exampleRow)
	}
	if len(s.Pattern.Strips)+len(strips) > pattern.MaxStrips {
		return s, refuse("%d strips and %d more: a pattern has %d at most", len(s.Pattern.Strips), len(strips), pattern.MaxStrips)
	}
	fitted := make([]pattern.Strip, len(strips))
	for i, strip := range strips {
		var err error
		if fitted[i], err = fit(strip); err != nil {
			return s, err
		}
		s.Pattern.Fit(&fitted[i])
	}
	at := 0
	if len(s.Pattern.Strips) > 0 {
		if _, err := s.chosen(); err != nil {
			return s, err
		}
		at = s.Selected + 1
	}
	s.Pattern.Strips = splice(s.Pattern.Strips, at, 0, fitted)
	s.Selected = at + len(fitted) - 1
	return s, nil
}
