package cli

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.com/oddments/cmd/internal/failure"
	"example.com/oddments/cmd/internal/result"
	"example.com/oddments/cmd/internal/rows"
	"example.com/oddments/cmd/internal/terminal"
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/store"
)

// All that a command prints goes through here: rows of plain text, which a terminal shows
// as tables, one result.Object of JSON, and messages. With --json the rows are left out.

// row prints a fact of a form.
func (a *app) row(f rows.Form, level pattern.Level, cells ...string) {
	if a.asJSON {
		return
	}
	for i, cell := range cells {
		cells[i] = failure.Visible(cell)
	}
	a.rows.Print(f, level, cells...)
}

// say prints a sentence.
func (a *app) say(format string, args ...any) {
	a.row(rows.Form{{}}, pattern.Fine, fmt.Sprintf(format, args...))
}

// fact prints what there is to say of something.
func (a *app) fact(subject, format string, args ...any) {
	a.row(rows.Form{{}, {"", ": "}}, pattern.Fine, subject, fmt.Sprintf(format, args...))
}

// A topic is a thing of which several facts are told.
type topic struct {
	*app
	subject string
}

// of returns the topic that is called so.
func (a *app) of(format string, args ...any) topic { return topic{a, fmt.Sprintf(format, args...)} }

// partForm is the form of what is said of a part.
func partForm() rows.Form { return rows.Form{{}, {"", ", "}, {"", ": "}} }

// fact prints what there is to say of a part of the topic, or of all of it.
func (t topic) fact(part, format string, args ...any) {
	t.row(partForm(), pattern.Fine, t.subject, part, fmt.Sprintf(format, args...))
}

// json prints a result.
func (a *app) json(o result.Object) { _, _ = a.out.WriteString(result.Line(o)) }

// result prints a result where JSON is asked for.
func (a *app) result(of func() result.Object) {
	if a.asJSON {
		a.json(of())
	}
}

// tableColumns returns how wide tables may be, 0 where rows are lines: where nobody sits at a
// terminal, or one that shows no screens, or one in which columns would be too narrow.
func (a *app) tableColumns() int {
	if a.flags.plain || !a.env.IsTerminal() || a.dumb() {
		return 0
	}
	if columns, _ := a.env.TerminalSize(); columns >= terminal.LeastColumns {
		return columns
	}
	return 0
}

// sayPattern says which pattern is told of.
func (a *app) sayPattern(saved store.Saved) { a.fact("pattern", "%s", called(saved)) }

// called returns the stem of a pattern, and its name where that is another.
func called(saved store.Saved) string {
	if saved.Pattern.Name == saved.Stem {
		return saved.Stem
	}
	return saved.Stem + ", " + saved.Pattern.Name
}

// said returns text where it is so, else nothing.
func said(so bool, text string) string { return or(so, text, "") }

// together returns the texts that say something, parted by commas.
func together(texts ...string) string {
	return strings.Join(slices.DeleteFunc(texts, func(s string) bool { return s == "" }), ", ")
}

// or returns the one text where it is so, else the other.
func or(so bool, one, other string) string {
	if so {
		return one
	}
	return other
}

// mostReported bounds the lines of one failure in plain text: a page of them says
// enough. JSON has them all.
const mostReported = 50

// choose has whoever sits at the terminal pick one of several by its number, and returns
// its place; -1 where nobody does.
func (a *app) choose(what string, of []string) int {
	const most = 9
	if a.asJSON || !a.env.IsTerminal() {
		return -1
	}
	a.message("%s:\n", failure.Visible(what))
	for i, one := range of[:min(most, len(of))] {
		a.message("  %d  %s\n", i+1, failure.Visible(one))
	}
	a.message("which? Type its number and Enter: ")
	answer, _ := a.in.ReadString('\n') // an end without an answer is none
	n, err := strconv.Atoi(strings.TrimSpace(answer))
	if err != nil || n < 1 || n > min(most, len(of)) {
		return -1
	}
	return n - 1
}

// report tells of a failure, after what was printed before it, and keeps its exit.
func (a *app) report(err error) {
	_ = a.flush() // finish meets an error again
	all := failure.Of(err)
	for i, p := range all {
		if p.Code == failure.CodeUsage {
			a.worsen(exitUsage)
		} else {
			a.worsen(exitFailed)
		}
		if a.asJSON || i < mostReported {
			a.tell(p)
		} else if i == mostReported {
			a.message("oddments: and %d more\n", len(all)-mostReported)
		}
	}
}

// tell prints one problem.
func (a *app) tell(p *failure.Problem) {
	if a.asJSON {
		p.Format = "oddments/error 1"
		a.message("%s", result.Line(p))
		return
	}
	a.message("oddments: %s\n", p.Error())
	if p.Hint != "" {
		a.message("hint: %s\n", failure.Visible(p.Hint))
	}
}

// message writes to the standard error. Where that fails there is nobody to tell.
func (a *app) message(format string, args ...any) { _, _ = fmt.Fprintf(a.env.Stderr, format, args...) }

// oneLine refuses a text of the command line with characters that no file may hold. What
// is told in words is held to it before it is taken apart: some of these characters part
// words, and would be gone unseen.
func oneLine(text string) error {
	if r, bad := pattern.ForbiddenRune(text); bad {
		return fmt.Errorf("must be one line without control characters (take out %U)", r)
	}
	return nil
}
