// Package rows prints facts. Each is a row of cells, told once: through a pipe it is a
// line of plain text, which a script and a screen reader can follow, and at a terminal
// rows of one form that follow one another are a table that fits its width. The terminal
// is never asked for anything.
package rows

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"example.com/oddments/pattern"
	"example.com/oddments/tui/paint"
)

// A Form is what rows of one kind are made of.
type Form []Column

// A Column is one place of a form: its head in a table, which may have none, and what stands
// before and after its cell in a line, where it holds something.
type Column [3]string

const (
	head = iota
	before
	after
)

// A Printer prints rows. The zero value with an Out prints lines.
type Printer struct {
	Out     io.Writer // remembers its errors, as a bufio.Writer does
	Columns int       // how wide tables may be; 0: lines are printed
	Profile paint.Profile

	waits table // for more rows of its form
	above int   // what was printed last, of the kinds below
}

// What is printed, for what stands between two of them.
const (
	nothing = iota
	text
	headed // a table with heads, which has a blank line around it
)

// A row is one fact.
type row struct {
	level pattern.Level
	cells []string
}

// Print prints a row, or has it wait for others of its form until Flush. Cells at the end
// may be left out; the text of all must be harmless to a terminal.
func (p *Printer) Print(f Form, level pattern.Level, cells ...string) {
	if p.Columns == 0 {
		fmt.Fprintln(p.Out, f.line(cells))
		return
	}
	if !slices.Equal(f, p.waits.form) {
		p.Flush()
		p.waits.form = f
	}
	p.waits.rows = append(p.waits.rows, row{level, cells})
}

// line returns cells as plain text.
func (f Form) line(cells []string) string {
	var b strings.Builder
	for i, cell := range cells {
		if cell != "" {
			b.WriteString(f[i][before] + cell + f[i][after])
		}
	}
	return b.String()
}

// Flush prints the rows that wait: sentences as paragraphs, others as a table.
func (p *Printer) Flush() {
	t := p.waits
	p.waits = table{}
	if len(t.rows) == 0 {
		return
	}
	kind := text
	if t.heads() != nil {
		kind = headed
	}
	if p.above != nothing && (p.above == headed || kind == headed) {
		fmt.Fprintln(p.Out)
	}
	p.above = kind
	if len(t.form) > 1 {
		fmt.Fprintln(p.Out, t.draw(p.Columns, p.Profile))
		return
	}
	for _, r := range t.rows {
		fmt.Fprintln(p.Out, ansi.Wrap(r.cells[0], p.Columns, ""))
	}
}
