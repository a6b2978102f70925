// Package failure says what went wrong as users and scripts are told of it: of what kind it
// is, where it stands, what is wrong, and what to do next.
package failure

import (
	"errors"
	"fmt"
	"io/fs"
	"strconv"
	"strings"
	"unicode"

	"example.com/oddments/pattern/mistake"
	"example.com/oddments/pattern/store"
)

// A Code says of a problem what kind it is; scripts go by it.
type Code string

// The kinds.
const (
	CodeUsage    Code = "usage"     // the command line is wrong
	CodeNotFound Code = "not_found" // no such pattern, timber or file
	CodeBadFile  Code = "bad_file"  // a file has something in it that it must not
	CodeBusy     Code = "busy"      // another oddments holds the home
	CodeIO       Code = "io"        // the system said no
)

// A Problem is one failure as the user is told of it, and the JSON of it.
type Problem struct {
	Format  string `json:"format"`
	Code    Code   `json:"code"`
	File    string `json:"file"` // or the stem asked for; may be empty
	Line    *int   `json:"line"`
	Column  *int   `json:"column"`
	Field   string `json:"field"` // may be empty
	Message string `json:"message"`
	Hint    string `json:"hint"` // the next step; may be empty
}

// New returns a problem of a kind.
func New(code Code, hint, format string, args ...any) *Problem {
	return &Problem{Code: code, Message: fmt.Sprintf(format, args...), Hint: hint}
}

// Usage returns a problem of the command line.
func Usage(hint, format string, args ...any) *Problem { return New(CodeUsage, hint, format, args...) }

// OrUsage returns err where it is made of problems, else it as one of the command line.
func OrUsage(err error, hint string) error {
	var p *Problem
	if errors.As(err, &p) {
		return err
	}
	return Usage(hint, "%v", err)
}

// Join makes one error of several problems, with a hint behind the last; nil of none.
func Join(hint string, all ...*Problem) error {
	errs := make([]error, len(all))
	for i, p := range all {
		errs[i] = p
		if i == len(all)-1 {
			p.Hint = hint
		}
	}
	return errors.Join(errs...)
}

// Error returns the place, the field and the message on one line.
func (p *Problem) Error() string {
	var b strings.Builder
	if p.File != "" {
		b.WriteString(Visible(p.File))
		if p.Line != nil {
			fmt.Fprintf(&b, ":%d:%d", *p.Line, *p.Column)
		}
		b.WriteString(": ")
	}
	if p.Field != "" {
		b.WriteString(Visible(p.Field) + ": ")
	}
	b.WriteString(Visible(p.Message))
	return b.String()
}

// WithHint is Error with the hint in brackets behind it, for a list of problems.
func (p *Problem) WithHint() string {
	if p.Hint == "" {
		return p.Error()
	}
	return p.Error() + " (" + Visible(p.Hint) + ")"
}

// Of takes an error apart: one problem for each thing that is wrong.
func Of(err error) []*Problem {
	switch e := err.(type) {
	case *Problem:
		return []*Problem{e}
	case store.Errors:
		all := make([]*Problem, len(e))
		for i := range e {
			all[i] = inFile(&e[i])
		}
		return all
	case *store.FileError:
		return []*Problem{inFile(e)}
	case *store.Error:
		return []*Problem{ofFile(e)}
	case *mistake.Withdrawn:
		return []*Problem{{Code: CodeIO, Message: e.Error(), Hint: e.Where()}}
	case interface{ Unwrap() []error }:
		var all []*Problem
		for _, one := range e.Unwrap() {
			all = append(all, Of(one)...)
		}
		return all
	default:
		return []*Problem{{Code: codeOf(err), Message: err.Error()}}
	}
}

func inFile(e *store.FileError) *Problem {
	p := &Problem{Code: CodeBadFile, File: e.File, Field: e.Field, Message: e.Message, Hint: e.Hint}
	if e.Line > 0 {
		p.Line, p.Column = &e.Line, &e.Column
	}
	return p
}

func ofFile(e *store.Error) *Problem {
	p := &Problem{Code: codeOf(e.Err), File: e.File, Message: e.Err.Error(), Hint: e.Hint}
	switch {
	case errors.Is(e.Err, store.ErrNotFound):
		p.Message = "there is no such pattern"
	case errors.Is(e.Err, store.ErrStem) && strings.Contains(e.File, "="):
		p.Hint = "put the number of copies after it as a whole number, like trivet=4"
	case e.Doing != "read":
		p.Message = e.Doing + ": " + p.Message
	}
	return p
}

// codeOf returns the kind of a failure of a file as a whole. A name that no saved
// pattern can have is the name of none.
func codeOf(err error) Code {
	switch {
	case errors.Is(err, fs.ErrNotExist), errors.Is(err, store.ErrStem):
		return CodeNotFound
	case errors.Is(err, store.ErrBusy):
		return CodeBusy
	default:
		return CodeIO
	}
}

// Visible returns s with what does not print written as an escape, so that no name can
// act on a terminal.
func Visible(s string) string {
	if strings.IndexFunc(s, func(r rune) bool { return !unicode.IsPrint(r) || r == unicode.ReplacementChar }) < 0 {
		return s
	}
	quoted := strconv.Quote(s)
	return strings.ReplaceAll(quoted[1:len(quoted)-1], `\"`, `"`)
}
