package rows

import (
	"io"
	"slices"
	"strings"

	"github.com/charmbracelet/lipgloss"
	lipglosstable "github.com/charmbracelet/lipgloss/table"
	"github.com/muesli/termenv"

	"example.com/oddments/pattern"
	"example.com/oddments/tui/paint"
)

// A table is rows of one form.
type table struct {
	form Form
	rows []row
}

// What stands between two columns, in cells, and where there is no room for that.
const (
	wideGap   = 2
	narrowGap = 1
)

// draw returns the table, at most so wide where its words can be broken that far.
func (t table) draw(columns int, profile paint.Profile) string {
	t = t.trimmed()
	widths, gap := t.widths(columns)
	styles, theme := renderer(profile), paint.Theme(profile)
	drawn := lipglosstable.New().Border(lipgloss.NormalBorder()).BorderStyle(styles.NewStyle()).
		BorderTop(false).BorderBottom(false).BorderLeft(false).BorderRight(false).BorderColumn(false).
		StyleFunc(func(row, column int) lipgloss.Style {
			style := theme[paint.RolePlain]
			if row == lipglosstable.HeaderRow || column == 0 && t.rows[row].marked(0) == paint.RolePlain {
				style = theme[paint.RoleTitle]
			}
			style = style.Renderer(styles).Width(widths[column])
			if column < len(widths)-1 {
				style = style.Width(widths[column] + gap).PaddingRight(gap)
			}
			return style
		})
	if heads := t.heads(); heads != nil {
		drawn.Headers(heads...)
	}
	for i, r := range t.rows {
		cells := append([]string{}, r.cells...)
		for n, text := range cells {
			if role := r.marked(n); role != paint.RolePlain {
				cells[n] = theme[role].Renderer(styles).Render(text)
			}
		}
		if i > 0 && r.cells[0] == t.rows[i-1].cells[0] {
			cells[0] = "" // said in the row above
		}
		drawn.Row(cells...)
	}
	lines := strings.Split(strings.TrimRight(drawn.String(), "\n"), "\n")
	for i, line := range lines {
		lines[i] = strings.TrimRight(line, " ")
	}
	return strings.Join(lines, "\n")
}

// marked returns the role of the cell that stands for the row's level: the one that names it,
// else the first. Any other is plain.
func (r row) marked(column int) paint.Role {
	switch named := slices.Index(r.cells, r.level.String()); {
	case column != max(named, 0):
		return paint.RolePlain
	case r.level == pattern.TooMuch:
		return paint.RoleMuch
	case r.level == pattern.TakeCare:
		return paint.RoleCare
	default:
		return paint.RolePlain
	}
}

// trimmed returns the table with as many cells in each row and nothing around them,
// without the columns that hold nothing.
func (t table) trimmed() table {
	out := table{rows: make([]row, len(t.rows))}
	for i, r := range t.rows {
		out.rows[i].level = r.level
	}
	for n, column := range t.form {
		cells, some := make([]string, len(t.rows)), false
		for i, r := range t.rows {
			if n < len(r.cells) {
				cells[i] = strings.TrimSpace(r.cells[n])
				some = some || cells[i] != ""
			}
		}
		if !some {
			continue
		}
		out.form = append(out.form, column)
		for i := range out.rows {
			out.rows[i].cells = append(out.rows[i].cells, cells[i])
		}
	}
	return out
}

// heads returns what stands over the columns; nil where nothing does.
func (t table) heads() []string {
	heads, some := make([]string, len(t.form)), false
	for i, column := range t.form {
		heads[i] = column[head]
		some = some || column[head] != ""
	}
	if !some {
		return nil
	}
	return heads
}

// widths returns how wide the columns are and what stands between them: as wide as their
// widest cells where there is room, else the widest is made narrower, as long as no word is
// broken.
func (t table) widths(columns int) (wide []int, gap int) {
	words, gaps := make([]int, len(t.form)), len(t.form)-1
	for i, column := range t.form {
		widest := lipgloss.Width(column[head])
		words[i] = widest
		for _, r := range t.rows {
			widest = max(widest, lipgloss.Width(r.cells[i]))
			for word := range strings.FieldsSeq(r.cells[i]) {
				words[i] = max(words[i], lipgloss.Width(word))
			}
		}
		wide = append(wide, widest)
	}
	if gap = wideGap; sum(words)+gap*gaps > columns {
		gap = narrowGap
	}
	for over := sum(wide) + gap*gaps - columns; over > 0; over-- {
		widest := -1
		for i := range wide {
			if wide[i] > words[i] && (widest < 0 || wide[i] > wide[widest]) {
				widest = i
			}
		}
		if widest < 0 { // a word must be broken
			widest = slices.Index(wide, slices.Max(wide))
		}
		wide[widest]--
	}
	return wide, gap
}

func sum(all []int) int {
	n := 0
	for _, one := range all {
		n += one
	}
	return n
}

// renderer returns what draws in the colours of a profile, and asks no terminal for them.
func renderer(profile paint.Profile) *lipgloss.Renderer {
	r := lipgloss.NewRenderer(io.Discard)
	r.SetHasDarkBackground(true)
	r.SetColorProfile(map[paint.Profile]termenv.Profile{
		paint.TrueColour: termenv.TrueColor, paint.ANSI256: termenv.ANSI256, paint.ANSI16: termenv.ANSI, paint.None: termenv.Ascii,
	}[profile])
	return r
}
