package made

import (
	"fmt"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/work"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/overlay/ask"
	"example.com/oddments/tui/overlay/page"
	"example.com/oddments/tui/screen"
)

// A Screen is what was made of the pattern, with the labels of the chosen batch. The zero
// value stands at the last batch.
type Screen struct {
	back   int          // how many batches were made after the chosen one
	labels []work.Label // of each product as it is for the chosen batch
	names  []string     // of what the labels are for: product 1, or panel
}

// Title returns the screen's name.
func (Screen) Title() keymap.Place { return Place }

// Update goes through the batches and changes what is written of them.
func (s Screen) Update(ctx screen.Context, msg tea.Msg) (screen.Screen, []screen.Request) {
	if next, asked, ok := table().Take(s, ctx, msg); ok {
		return next, asked
	}
	switch msg := msg.(type) {
	case screen.Enter, screen.Recomputed:
		return s.labelled(ctx), nil
	case screen.Press:
		return s.At(msg.Y, ctx.Window.Body, ctx.State.Pattern).labelled(ctx), nil
	}
	return s, nil
}

// showLabels shows the labels in full.
func (s Screen) showLabels(screen.Context) []screen.Request {
	return []screen.Request{screen.Show{Overlay: page.New("the label, a blank where a field is empty", s.lines())}}
}

// labelled puts the labels of the chosen batch together.
func (s Screen) labelled(ctx screen.Context) Screen {
	job, err := ctx.WorkJob(nil)
	if err != nil {
		job.Layout = outline.Layout{}
	}
	p := ctx.State.Pattern
	if i, ok := s.Index(p); ok {
		job.Label = job.Label.OfBatch(ctx.Stamp.Stem, i+1, p.Made[i])
	}
	s.labels, s.names = work.Labels(ctx.Physics.Table(), job, ctx.Unit), nil
	for i := range s.labels {
		name := "the panel"
		if len(job.Products) > 0 {
			name = fmt.Sprintf("product %d", i+1)
		}
		s.names = append(s.names, name)
	}
	return s
}

// batch shows a field for a batch; what was understood stands beneath it while it is
// typed.
func batch(title, text string, ctx screen.Context, set func(edit.State, pattern.Made) (edit.State, error)) []screen.Request {
	today := pattern.DateOf(ctx.Now)
	field := ask.New(title, text, func(s string) (pattern.Made, string, error) {
		m, err := work.ParseBatch(s, ctx.Unit, today)
		return m, work.BatchLine(m, ctx.Unit), err
	})
	return ask.Show(field, func(m pattern.Made) tea.Msg {
		return screen.Edit{Make: func(s edit.State) (edit.State, error) { return set(s, m) }}
	})
}

// add writes a batch down; it starts from today, and from the copies that are planned
// where they are several: a count that is typed is not to stand behind another.
func (s Screen) add(ctx screen.Context) (screen.Screen, []screen.Request) {
	today := pattern.DateOf(ctx.Now)
	start := today.String() + ", "
	if n := ctx.Batch.Made(); n > 1 {
		start = work.BatchLine(pattern.Made{Date: today, Copies: n}, ctx.Unit) + ", "
	}
	s.back = 0
	return s, batch("a batch: day, how many, then like 299.5 wide, 21.6 thick, 310 min, note and your words", start, ctx, edit.AddMade)
}

// change lets what is written of the chosen batch be changed.
func (s Screen) change(ctx screen.Context) (screen.Screen, []screen.Request) {
	i, ok := s.Index(ctx.State.Pattern)
	if !ok {
		return s.add(ctx)
	}
	return s, batch(fmt.Sprintf("change batch %d", i+1), work.BatchLine(ctx.State.Pattern.Made[i], ctx.Unit), ctx,
		func(st edit.State, m pattern.Made) (edit.State, error) { return edit.SetMade(st, i, m) })
}

// strike strikes the chosen batch out.
func (s Screen) strike(ctx screen.Context) []screen.Request {
	i, ok := s.Index(ctx.State.Pattern)
	if !ok {
		return []screen.Request{screen.Say("no batch yet")}
	}
	return []screen.Request{screen.Edit{Make: func(st edit.State) (edit.State, error) { return edit.DropMade(st, i) }}}
}

// again plans as many copies as in the chosen batch, and shows what was noted then.
func (s Screen) again(ctx screen.Context) []screen.Request {
	i, ok := s.Index(ctx.State.Pattern)
	if !ok {
		return []screen.Request{screen.Say("no batch yet: " + ctx.Keys.KeyOf("add-made") + " adds one")}
	}
	m := ctx.State.Pattern.Made[i]
	words := fmt.Sprintf("planned as on %s: %d copies", m.Date, m.Copies)
	if m.Note != "" {
		words += "; note then: " + m.Note
	}
	return []screen.Request{screen.Tell{Msg: screen.MadeAgain{Copies: m.Copies, Words: words}}}
}
