package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/mistake"
	"example.com/oddments/pattern/store"
)

// A code says of a problem what kind it is; scripts go by it.
type code string

const (
	codeUsage    code = "usage"     // the command line is wrong
	codeNotFound code = "not_found" // no such pattern, timber or file
	codeBadFile  code = "bad_file"  // a file has something in it that it must not
	codeBusy     code = "busy"      // another oddments holds the home
	codeIO       code = "io"        // the system said no
)

// A problem is one failure as the user is told of it, and the JSON of it.
type problem struct {
	Format  string `json:"format"`
	Code    code   `json:"code"`
	File    string `json:"file"` // or the stem asked for; may be empty
	Line    *int   `json:"line"`
	Column  *int   `json:"column"`
	Field   string `json:"field"` // may be empty
	Message string `json:"message"`
	Hint    string `json:"hint"` // the next step; may be empty
}

// oneLine refuses a text of the command line with characters that no file may hold. What
// is told in words is held to it before it is taken apart: some of these characters part
// words, and would be gone unseen.
func oneLine(text string) error {
	if r, bad := pattern.ForbiddenRune(text); bad {
		return fmt.Errorf("must be one line without control characters (take out %U)", r)
	}
	return nil
}

// usage returns a problem of the command line.
func usage(hint, format string, args ...any) *problem {
	return &problem{Code: codeUsage, Message: fmt.Sprintf(format, args...), Hint: hint}
}

// Error returns the place, the field and the message on one line.
func (p *problem) Error() string {
	var b strings.Builder
	if p.File != "" {
		b.WriteString(visible(p.File))
		if p.Line != nil {
			fmt.Fprintf(&b, ":%d:%d", *p.Line, *p.Column)
		}
		b.WriteString(": ")
	}
	if p.Field != "" {
		b.WriteString(visible(p.Field) + ": ")
	}
	b.WriteString(visible(p.Message))
	return b.String()
}

// withHint is Error with the hint in brackets behind it, for a list of problems.
func (p *problem) withHint() string {
	if p.Hint == "" {
		return p.Error()
	}
	return p.Error() + " (" + visible(p.Hint) + ")"
}

// problemsOf takes an error apart: one problem for each thing that is wrong.
func problemsOf(err error) []*problem {
	switch e := err.(type) {
	case *problem:
		return []*problem{e}
	case store.Errors:
		all := make([]*problem, len(e))
		for i := range e {
			all[i] = inFile(&e[i])
		}
		return all
	case *store.FileError:
		return []*problem{inFile(e)}
	case *store.Error:
		return []*problem{ofFile(e)}
	case *mistake.Withdrawn:
		return []*problem{{Code: codeIO, Message: e.Error(), Hint: e.Where()}}
	case interface{ Unwrap() []error }:
		var all []*problem
		for _, one := range e.Unwrap() {
			all = append(all, problemsOf(one)...)
		}
		return all
	default:
		return []*problem{{Code: codeOf(err), Message: err.Error()}}
	}
}

func inFile(e *store.FileError) *problem {
	p := &problem{Code: codeBadFile, File: e.File, Field: e.Field, Message: e.Message, Hint: e.Hint}
	if e.Line > 0 {
		p.Line, p.Column = &e.Line, &e.Column
	}
	return p
}

func ofFile(e *store.Error) *problem {
	p := &problem{Code: codeOf(e.Err), File: e.File, Message: e.Err.Error(), Hint: e.Hint}
	switch {
	case errors.Is(e.Err, store.ErrNotFound):
		p.Message = "there is no such pattern"
	case errors.Is(e.Err, store.ErrStem) && strings.Contains(e.File, "="):
		p.Hint = "how many times stands behind it as a whole number, like trivet=4"
	case e.Doing != "read":
		p.Message = e.Doing + ": " + p.Message
	}
	return p
}

// codeOf returns the kind of a failure of a file as a whole. A name that no saved
// pattern can have is the name of none.
func codeOf(err error) code {
	switch {
	case errors.Is(err, fs.ErrNotExist), errors.Is(err, store.ErrStem):
		return codeNotFound
	case errors.Is(err, store.ErrBusy):
		return codeBusy
	default:
		return codeIO
	}
}
