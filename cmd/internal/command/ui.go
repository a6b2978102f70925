package command

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

// Row prints a fact of a form.
func (a *App) Row(f rows.Form, level pattern.Level, cells ...string) {
	if a.AsJSON {
		return
	}
	for i, cell := range cells {
		cells[i] = failure.Visible(cell)
	}
	a.Rows.Print(f, level, cells...)
}

// Say prints a sentence.
func (a *App) Say(format string, args ...any) {
	a.Row(rows.Form{{}}, pattern.Fine, fmt.Sprintf(format, args...))
}

// Fact prints what there is to say of something.
func (a *App) Fact(subject, format string, args ...any) {
	a.Row(rows.Form{{}, {"", ": "}}, pattern.Fine, subject, fmt.Sprintf(format, args...))
}

// A Topic is a thing of which several facts are told.
type Topic struct {
	*App
	Subject string
}

// Of returns the topic that is called so.
func (a *App) Of(format string, args ...any) Topic { return Topic{a, fmt.Sprintf(format, args...)} }

// PartForm is the form of what is said of a part.
func PartForm() rows.Form { return rows.Form{{}, {"", ", "}, {"", ": "}} }

// Fact prints what there is to say of a part of the topic, or of all of it.
func (t Topic) Fact(part, format string, args ...any) {
	t.Row(PartForm(), pattern.Fine, t.Subject, part, fmt.Sprintf(format, args...))
}

// JSON prints a result.
func (a *App) JSON(o result.Object) { _, _ = a.Out.WriteString(result.Line(o)) }

// Result prints a result where JSON is asked for.
func (a *App) Result(of func() result.Object) {
	if a.AsJSON {
		a.JSON(of())
	}
}

// TableColumns returns how wide tables may be, 0 where rows are lines: where nobody sits at a
// terminal, or one that shows no screens, or one in which columns would be too narrow.
func (a *App) TableColumns() int {
	if a.Flags.plain || !a.Env.IsTerminal() || a.Dumb() {
		return 0
	}
	if columns, _ := a.Env.TerminalSize(); columns >= terminal.LeastColumns {
		return columns
	}
	return 0
}

// SayPattern says which pattern is told of.
func (a *App) SayPattern(saved store.Saved) { a.Fact("pattern", "%s", Called(saved)) }

// Called returns the stem of a pattern, and its name where that is another.
func Called(saved store.Saved) string {
	if saved.Pattern.Name == saved.Stem {
		return saved.Stem
	}
	return saved.Stem + ", " + saved.Pattern.Name
}

// Said returns text where it is so, else nothing.
func Said(so bool, text string) string { return Or(so, text, "") }

// Together returns the texts that say something, parted by commas.
func Together(texts ...string) string {
	return strings.Join(slices.DeleteFunc(texts, func(s string) bool { return s == "" }), ", ")
}

// Or returns the one text where it is so, else the other.
func Or(so bool, one, other string) string {
	if so {
		return one
	}
	return other
}

// Padded returns a text of each, all of them as wide as the widest.
func Padded[T any](all []T, text func(T) string) []string {
	out, wide := make([]string, len(all)), 0
	for i, one := range all {
		out[i] = failure.Visible(text(one))
		wide = max(wide, len([]rune(out[i])))
	}
	for i := range out {
		out[i] = fmt.Sprintf("%-*s", wide, out[i])
	}
	return out
}

// mostReported bounds the lines of one failure in plain text: a page of them says
// enough. JSON has them all.
const mostReported = 50

// Choose has whoever sits at the terminal pick one of several by its number, and returns
// its place; -1 where nobody does.
func (a *App) Choose(what string, of []string) int {
	const most = 9
	if a.AsJSON || !a.Env.IsTerminal() {
		return -1
	}
	a.Message("%s:\n", failure.Visible(what))
	for i, one := range of[:min(most, len(of))] {
		a.Message("  %d  %s\n", i+1, failure.Visible(one))
	}
	a.Message("which? Type its number and Enter: ")
	answer, _ := a.in.ReadString('\n') // an end without an answer is none
	n, err := strconv.Atoi(strings.TrimSpace(answer))
	if err != nil || n < 1 || n > min(most, len(of)) {
		return -1
	}
	return n - 1
}

// Report tells of a failure, after what was printed before it, and keeps its exit.
func (a *App) Report(err error) {
	_ = a.flush() // finish meets an error again
	all := failure.Of(err)
	for i, p := range all {
		if p.Code == failure.CodeUsage {
			a.Worsen(exitUsage)
		} else {
			a.Worsen(ExitFailed)
		}
		if a.AsJSON || i < mostReported {
			a.tell(p)
		} else if i == mostReported {
			a.Message("oddments: and %d more\n", len(all)-mostReported)
		}
	}
}

// tell prints one problem.
func (a *App) tell(p *failure.Problem) {
	if a.AsJSON {
		p.Format = "oddments/error 1"
		a.Message("%s", result.Line(p))
		return
	}
	a.Message("oddments: %s\n", p.Error())
	if p.Hint != "" {
		a.Message("hint: %s\n", failure.Visible(p.Hint))
	}
}

// Message writes to the standard error. Where that fails there is nobody to tell.
func (a *App) Message(format string, args ...any) { _, _ = fmt.Fprintf(a.Env.Stderr, format, args...) }

// OneLine refuses a text of the command line with characters that no file may hold. What
// is told in words is held to it before it is taken apart: some of these characters part
// words, and would be gone unseen.
func OneLine(text string) error {
	if r, bad := pattern.ForbiddenRune(text); bad {
		return fmt.Errorf("must be one line without control characters (take out %U)", r)
	}
	return nil
}

// Dumb reports whether the terminal says of itself that it shows no screens.
func (a *App) Dumb() bool { return a.Env.Getenv("TERM") == "dumb" }

// WhyNoScreen says why text is printed and no screen shown.
func (a *App) WhyNoScreen() string {
	if a.Env.IsTerminal() && a.Dumb() {
		return "this terminal shows no screens (TERM is dumb)"
	}
	return "no terminal"
}
