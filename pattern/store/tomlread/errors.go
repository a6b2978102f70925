package tomlread

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// A FileError is one thing that is wrong in a file.
type FileError struct {
	File    string
	Line    int    // from 1; 0: the file as a whole
	Column  int    // from 1, in characters
	Field   string // as in the package comment; empty: no field
	Message string // what is wrong, and what would be right
	Hint    string // the next step; may be empty
}

// Error returns the place, the field and the message on one line, the hint behind
// them.
func (e *FileError) Error() string {
	text := e.File
	if e.Line > 0 {
		text += fmt.Sprintf(":%d:%d", e.Line, e.Column)
	}
	if e.Field != "" {
		text += ": " + e.Field
	}
	text += ": " + e.Message
	if e.Hint != "" {
		text += " (" + e.Hint + ")"
	}
	return text
}

// Errors is all that is wrong in one file, sorted by line and column. As an error
// it is never empty.
type Errors []FileError

// mostShown bounds what Error prints: a page of errors says enough.
const mostShown = 50

// Error returns one error a line.
func (e Errors) Error() string {
	var lines []string
	for _, one := range e[:min(len(e), mostShown)] {
		lines = append(lines, one.Error())
	}
	if more := len(e) - mostShown; more > 0 {
		lines = append(lines, fmt.Sprintf("and %d more", more))
	}
	return strings.Join(lines, "\n")
}

// Unwrap returns each error as a *FileError, for errors.As.
func (e Errors) Unwrap() []error {
	all := make([]error, len(e))
	for i := range e {
		all[i] = &e[i]
	}
	return all
}

func (e Errors) sort() {
	slices.SortStableFunc(e, func(a, b FileError) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
}

// longestQuote bounds how much of a file's text a message repeats.
const longestQuote = 40

// Quote returns s in quotes with nothing in it that could act on a screen.
func Quote(s string) string {
	runes := []rune(s)
	if len(runes) > longestQuote {
		s = string(runes[:longestQuote]) + "..."
	}
	return strconv.Quote(s)
}

// Visible returns s with what does not print written as an escape.
func Visible(s string) string {
	if strings.IndexFunc(s, hidden) < 0 {
		return s
	}
	quoted := strconv.Quote(s)
	return strings.ReplaceAll(quoted[1:len(quoted)-1], `\"`, `"`)
}

func hidden(r rune) bool { return !unicode.IsPrint(r) }
