package cli

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/charmbracelet/lipgloss"
	"github.com/charmbracelet/lipgloss/table"
	"github.com/charmbracelet/x/ansi"
	"github.com/muesli/termenv"

	"example.com/oddments/pattern"
	"example.com/oddments/tui/paint"
)

// A form is what rows of one kind are made of. Printed as a line, each cell that holds
// something has its words before it; at a terminal rows of one form that follow one
// another are a table.
type form []column

// A column is one place of a form.
type column struct {
	head   string // over the column of a table
	before string // before the cell in a line
}

// A row is one fact, by its cells.
type row struct {
	level pattern.Level
	cells []string
}

// row prints a fact of a form; cells at the end may be left out.
func (a *app) row(f form, level pattern.Level, cells ...string) {
	for i, cell := range cells {
		cells[i] = visible(cell)
	}
	switch {
	case a.asJSON:
	case a.columns == 0:
		fmt.Fprintln(a.out, f.line(cells))
	default:
		if !slices.Equal(f, a.table.form) {
			a.draw()
			a.table.form = f
		}
		a.table.rows = append(a.table.rows, row{level, cells})
	}
}

// line returns cells as plain text.
func (f form) line(cells []string) string {
	var b strings.Builder
	for i, cell := range cells {
		if cell != "" || len(f) == 1 {
			b.WriteString(f[i].before + cell)
		}
	}
	return b.String()
}

// A facts is a table that is not drawn yet.
type facts struct {
	form form
	rows []row
}

// tableColumns returns how wide tables may be, 0 where rows are lines: where nobody sits at a
// terminal, or one that shows no screens, or one in which columns would be too narrow.
func (a *app) tableColumns() int {
	if a.flags.plain || !a.env.IsTerminal() || a.dumb() {
		return 0
	}
	if columns, _ := a.env.TerminalSize(); columns >= leastColumns {
		return columns
	}
	return 0
}

// draw prints the table of the rows that wait for others of their form.
func (a *app) draw() {
	t := a.table
	a.table = facts{}
	if len(t.rows) == 0 {
		return
	}
	if len(t.form) == 1 {
		for _, r := range t.rows {
			fmt.Fprintln(a.out, ansi.Wrap(r.cells[0], a.columns, ""))
		}
		return
	}
	profile, _ := a.profile()
	fmt.Fprintln(a.out, t.drawn(a.columns, profile))
}

// drawn returns a table at most so wide.
func (t facts) drawn(columns int, profile paint.Profile) string {
	used, heads := t.used()
	style := styles(profile)
	drawn := table.New().Border(lipgloss.NormalBorder()).BorderStyle(style.NewStyle()).
		BorderTop(false).BorderBottom(false).BorderLeft(false).BorderRight(false).BorderColumn(false).
		StyleFunc(func(row, column int) lipgloss.Style {
			s := style.NewStyle()
			if column < len(used)-1 {
				s = s.PaddingRight(gap)
			}
			switch {
			case row == table.HeaderRow:
				return s.Bold(true)
			case t.rows[row].level == pattern.TooMuch:
				return s.Foreground(lipgloss.Color(red))
			case t.rows[row].level == pattern.TakeCare:
				return s.Foreground(lipgloss.Color(yellow))
			default:
				return s.Bold(column == 0)
			}
		})
	if heads != nil {
		drawn.Headers(heads...)
	}
	before := ""
	for _, r := range t.rows {
		cells := make([]string, len(used))
		for i, n := range used {
			if n < len(r.cells) {
				cells[i] = strings.TrimSpace(r.cells[n])
			}
		}
		if cells[0] == before { // said in the row above
			cells[0] = ""
		} else {
			before = cells[0]
		}
		drawn.Row(cells...)
	}
	text := drawn.String()
	if lipgloss.Width(text) > columns {
		text = drawn.Width(columns).String()
	}
	return strings.TrimRight(text, "\n")
}

// used returns which columns of the form hold something, and their heads; no heads where
// none has one.
func (t facts) used() (used []int, heads []string) {
	named := false
	for n, c := range t.form {
		if slices.ContainsFunc(t.rows, func(r row) bool { return n < len(r.cells) && r.cells[n] != "" }) {
			used, heads = append(used, n), append(heads, c.head)
			named = named || c.head != ""
		}
	}
	if !named {
		heads = nil
	}
	return used, heads
}

// gap is what stands between two columns, in cells.
const gap = 2

// The terminal's own colours, by their numbers.
const (
	red    = "1"
	yellow = "3"
)

// styles returns what draws in the colours of a profile, and asks no terminal for them.
func styles(profile paint.Profile) *lipgloss.Renderer {
	r := lipgloss.NewRenderer(io.Discard)
	r.SetColorProfile(map[paint.Profile]termenv.Profile{
		paint.TrueColour: termenv.TrueColor, paint.ANSI256: termenv.ANSI256, paint.ANSI16: termenv.ANSI, paint.None: termenv.Ascii,
	}[profile])
	r.SetHasDarkBackground(true)
	return r
}
