package page

import (
	"fmt"
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

// A Task is one step of a checklist, with what to know of it.
type Task struct {
	Text  string
	Notes []string
}

// A Checklist is a page of numbered steps that are ticked. Its values are the numbers of
// those that are ticked, with every tick.
type Checklist struct {
	title  string
	before []string // lines above them
	tasks  []Task
	after  []string // lines below them
	done   []int    // ascending
	counts string   // what those that are ticked are called
	at     int
}

// NewChecklist returns a checklist of which some steps, by their numbers from 1, are done.
func NewChecklist(title string, before []string, tasks []Task, after []string, done []int) Checklist {
	done = slices.DeleteFunc(slices.Clone(done), func(n int) bool { return n > len(tasks) })
	return Checklist{title: title, before: before, tasks: tasks, after: after, done: done, counts: "done"}
}

// Counting has the ticked ones called otherwise than done.
func (l Checklist) Counting(as string) Checklist {
	l.counts = as
	return l
}

// Key goes through the steps, ticks one, and closes on esc or enter.
func (l Checklist) Key(k tea.KeyMsg, ctx screen.Context) (screen.Overlay, screen.Outcome) {
	const page = 5
	a, _ := ctx.Keys.List(k.String())
	switch {
	case k.Type == tea.KeySpace && l.at < len(l.tasks):
		return l.tick()
	case a.ID == keymap.Close || a.ID == keymap.Accept:
		return l, screen.Outcome{Closed: true}
	}
	l.at = max(0, min(l.at+a.ID.Steps(page), len(l.tasks)+len(l.after)-1))
	return l, screen.Outcome{}
}

// tick ticks the chosen step, or takes its tick back.
func (l Checklist) tick() (screen.Overlay, screen.Outcome) {
	n := l.at + 1
	at, ticked := slices.BinarySearch(l.done, n)
	l.done = slices.Clone(l.done)
	if ticked {
		l.done = slices.Delete(l.done, at, at+1)
	} else {
		l.done = slices.Insert(l.done, at, n)
	}
	return l, screen.Outcome{Meanwhile: slices.Clone(l.done)}
}

// Press closes the page.
func (l Checklist) Press(int, int, paint.Rect, screen.Context) (screen.Overlay, screen.Outcome) {
	return l, screen.Outcome{Closed: true}
}

// A line is one row, of a step or below them.
type line struct {
	text string
	of   int
	note bool
}

// lines returns all rows in a width.
func (l Checklist) lines(w int) []line {
	var out []line
	add := func(of int, note bool, first, indent, text string) {
		for i, row := range screen.Wrap(text, w-paint.Width(first)) {
			if i > 0 {
				first = indent
			}
			out = append(out, line{first + row, of, note})
		}
	}
	for _, text := range l.before {
		add(-1, true, "", "", text)
	}
	for i, t := range l.tasks {
		box := "[ ]"
		if _, ticked := slices.BinarySearch(l.done, i+1); ticked {
			box = "[x]"
		}
		add(i, false, fmt.Sprintf("%s %2d. ", box, i+1), "        ", t.Text)
		for _, n := range t.Notes {
			add(i, true, "        ", "        ", n)
		}
	}
	for i, text := range l.after {
		add(len(l.tasks)+i, false, "", "", text)
	}
	return out
}

// Draw draws the page over r, with the chosen step in view.
func (l Checklist) Draw(c *paint.Canvas, r paint.Rect, _ screen.Context) {
	all := l.lines(r.W - 4)
	of := func(row line) bool { return row.of == l.at }
	first := max(0, slices.IndexFunc(all, of))
	top := max(0, first-(r.H-2)/3)
	if l.at == 0 {
		top = 0 // what stands above the steps is read first
	}
	right := fmt.Sprintf("Space ticks   %d of %d %s", len(l.done), len(l.tasks), l.counts)
	screen.DrawPage(c, r, l.title, right, len(all), top, func(i int, r paint.Rect) {
		style := paint.Style{}
		if all[i].note {
			style = c.Role(paint.RoleCare)
		}
		mark := "  "
		if i == first {
			mark = "> "
		}
		c.Text(r, mark+all[i].text, style)
	})
}
