// Package spoken reads a line that is typed as it is spoken, word by word and number by
// number, for everything that a maker may type so: a piece, a filter, a product, a
// batch, a strip, a move.
//
// Words are parted by blanks, commas and semicolons; a comma between two digits belongs
// to a number. A number without a unit is in the line's, and lengths come out in whole
// nanometres. What the words mean is for those who ask for them.
package spoken

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/oddments/pattern/length"
)

// A Line is a typed line that is being read.
type Line struct {
	Text  string
	At    int         // byte that is read next
	Unit  length.Unit // of numbers that have none
	Times bool        // an x may end a number: 620x85

	errs []Error
	said []string
}

// Parts reports whether r parts words.
func Parts(r rune) bool { return unicode.IsSpace(r) || r == ',' || r == ';' }

// IsTimes reports whether r stands between sizes, or before a quantity.
func IsTimes(r rune) bool { return r == 'x' || r == 'X' || r == '×' }

// pass goes on as long as fits holds of what is read next.
func (l *Line) pass(fits func(rune) bool) {
	rest := strings.TrimLeftFunc(l.Text[l.At:], fits)
	l.At = len(l.Text) - len(rest)
}

// More goes past what parts words, and reports whether anything follows.
func (l *Line) More() bool {
	l.pass(Parts)
	return l.At < len(l.Text)
}

// Parted goes past what parts words, and reports whether a comma or semicolon is among it.
func (l *Line) Parted() (comma bool) {
	l.pass(func(r rune) bool {
		comma = comma || r == ',' || r == ';'
		return Parts(r)
	})
	return comma
}

// Spaces goes past blanks alone.
func (l *Line) Spaces() { l.pass(unicode.IsSpace) }

// Word takes what is read next up to what parts words, as it is typed.
func (l *Line) Word() string {
	from := l.At
	l.pass(func(r rune) bool { return !Parts(r) })
	return l.Text[from:l.At]
}

// Letters takes what is read next up to a digit, a point or what parts words, as it is typed.
func (l *Line) Letters() string {
	from := l.At
	l.pass(func(r rune) bool { return !Parts(r) && r != '.' && !unicode.IsDigit(r) })
	return l.Text[from:l.At]
}

// SkipTimes takes an x that stands before a number, or where one is still to be typed, and
// reports whether there was one.
func (l *Line) SkipTimes() bool {
	from := l.At
	l.More()
	if r, width := utf8.DecodeRuneInString(l.Text[l.At:]); IsTimes(r) {
		l.At += width
		if l.Spaces(); l.AtNumber() || l.At == len(l.Text) {
			return true
		}
	}
	l.At = from
	return false
}

// token is Word with the decimal commas of a number.
func (l *Line) token() string {
	from, number := l.At, l.AtNumber()
	for l.Word(); number && l.atDecimal(); l.Word() {
		l.At++
	}
	return l.Text[from:l.At]
}

// atDecimal reports whether a comma between two digits is read next.
func (l *Line) atDecimal() bool {
	t := l.Text[l.At:]
	return l.At > 0 && len(t) > 1 && t[0] == ',' && digit(l.Text[l.At-1]) && digit(t[1])
}

// Next takes the next word, or a number with its decimal comma, in small letters; it is
// empty where none follows.
func (l *Line) Next() string {
	l.More()
	return strings.ToLower(l.token())
}

// Skip takes the next word where it is one of those, and reports whether it was.
func (l *Line) Skip(words ...string) bool {
	before := l.At
	if l.More() && slices.Contains(words, l.Next()) {
		return true
	}
	l.At = before
	return false
}

// Rest takes all that follows, without blanks around it.
func (l *Line) Rest() string {
	rest := strings.TrimSpace(l.Text[l.At:])
	l.At = len(l.Text)
	return rest
}

// Quoted takes what stands in quotes.
func (l *Line) Quoted() (text string, ok bool) {
	quoted, err := strconv.QuotedPrefix(l.Text[l.At:])
	if err != nil || quoted[0] != '"' {
		return "", false
	}
	l.At += len(quoted)
	text, _ = strconv.Unquote(quoted) // QuotedPrefix has seen to it
	return text, true
}

// Said reports whether a thing was said.
func (l *Line) Said(thing string) bool { return slices.Contains(l.said, thing) }

// Twice reports whether a thing was said before, and keeps that it is said.
func (l *Line) Twice(thing string) bool {
	twice := l.Said(thing)
	l.said = append(l.said, thing)
	return twice
}

// An Error is a word of a line that cannot be taken.
type Error struct {
	Word    string // as typed; empty where something is missing
	Column  int    // where it starts, from 1, in characters
	Message string // what is wrong, and what would be right

	at   int    // where it starts, in bytes
	want string // what the word may still become while it is being typed
}

// Error returns the column, the word where the message does not quote it, and the message.
func (e *Error) Error() string {
	if e.Word == "" || strings.Contains(e.Message, strconv.Quote(e.Word)) {
		return fmt.Sprintf("column %d: %s", e.Column, e.Message)
	}
	return fmt.Sprintf("column %d, %q: %s", e.Column, e.Word, e.Message)
}

// FailAt keeps an error about the text from from to to, and what may still become of it
// while it is being typed, if anything.
func (l *Line) FailAt(from, to int, want, format string, args ...any) {
	l.errs = append(l.errs, Error{
		Word: l.Text[from:to], Column: utf8.RuneCountInString(l.Text[:from]) + 1,
		Message: fmt.Sprintf(format, args...), at: from, want: want,
	})
}

// Fail is FailAt for what was read since from.
func (l *Line) Fail(from int, want, format string, args ...any) {
	l.FailAt(from, l.At, want, format, args...)
}

// Err returns the leftmost error, an *Error, or nil.
func (l *Line) Err() error {
	_, err := l.typing(false)
	return err
}

// Typing is Err for a line that is still being typed: its last word is no error while
// more letters may make it right, and wanted says what they may make of it.
func (l *Line) Typing() (wanted []string, err error) { return l.typing(true) }

func (l *Line) typing(on bool) (wanted []string, err error) {
	var first *Error
	for i, e := range l.errs {
		if on && e.want != "" && e.at+len(e.Word) == len(l.Text) {
			wanted = append(wanted, e.want)
		} else if first == nil || e.at < first.at {
			first = &l.errs[i]
		}
	}
	if first == nil {
		return wanted, nil
	}
	return wanted, first
}
