package cli

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strconv"
	"strings"
	"unicode"

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

// mostReported bounds the lines of one failure in plain text: a page of them says
// enough. JSON has them all.
const mostReported = 50

// report tells of a failure, after what was printed before it, and keeps its exit.
func (a *app) report(err error) {
	_ = a.flush() // finish meets an error again
	all := problemsOf(err)
	for i, p := range all {
		if p.Code == codeUsage {
			a.worsen(exitUsage)
		} else {
			a.worsen(exitFailed)
		}
		if a.json || i < mostReported {
			a.tell(p)
		} else if i == mostReported {
			a.message("oddments: and %d more\n", len(all)-mostReported)
		}
	}
}

// tell prints one problem.
func (a *app) tell(p *problem) {
	if a.json {
		p.Format = "oddments/error 1"
		a.message("%s", jsonLine(p))
		return
	}
	a.message("oddments: %s\n", p.Error())
	if p.Hint != "" {
		a.message("hint: %s\n", visible(p.Hint))
	}
}

// message writes to the standard error. Where that fails there is nobody to tell.
func (a *app) message(format string, args ...any) { _, _ = fmt.Fprintf(a.env.Stderr, format, args...) }

// jsonLine returns v on one line. Signs that only HTML cares about stay as they are.
func jsonLine(v any) string {
	var b strings.Builder
	encoder := json.NewEncoder(&b)
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(v); err != nil {
		// A figure that is no number: a mistake of ours, and no reason to fall over.
		return fmt.Sprintf(`{"format":"oddments/error 1","code":"io","file":"","line":null,"column":null,"field":"","message":%q,"hint":""}`+"\n", err)
	}
	return b.String()
}

// asksForJSON looks for --json before the flags are read, since a flag that is wrong
// ends the reading.
func asksForJSON(args []string) bool {
	if end := slices.Index(args, "--"); end >= 0 {
		args = args[:end]
	}
	return slices.Contains(args, "--json") || slices.Contains(args, "--json=true")
}

// visible returns s with what does not print written as an escape, so that no name can
// act on a terminal.
func visible(s string) string {
	if strings.IndexFunc(s, func(r rune) bool { return !unicode.IsPrint(r) || r == unicode.ReplacementChar }) < 0 {
		return s
	}
	quoted := strconv.Quote(s)
	return strings.ReplaceAll(quoted[1:len(quoted)-1], `\"`, `"`)
}
