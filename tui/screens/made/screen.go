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
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

// A Screen is what was made of the pattern. The zero value stands at the last batch.
type Screen struct {
	view  List
	shown Shown
}

// Title returns the screen's name.
func (Screen) Title() keymap.Place { return Place }

// Draw draws the batches and the label into r.
func (s Screen) Draw(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	s.view.Draw(c, r, s.shown, ctx)
}

// Update goes through the batches and changes what is written of them.
func (s Screen) Update(ctx screen.Context, msg tea.Msg) (screen.Screen, []screen.Request) {
	switch msg := msg.(type) {
	case screen.Do:
		return s.do(msg.ID, ctx)
	case screen.Enter, screen.Recomputed:
		return s.labelled(ctx), nil
	case screen.Press:
		if id, ok := screen.Pressed(s.view.Footer(ctx.Window.Body, ctx), msg.X, msg.Y); ok {
			return s, []screen.Request{screen.Act{ID: id}}
		}
		s.view = s.view.At(msg.Y, ctx.Window.Body, ctx.State.Pattern)
		return s.labelled(ctx), nil
	case screen.Wheel:
		return s.goBy(msg.By(), ctx), nil
	}
	return s, nil
}

func (s Screen) do(id keymap.ID, ctx screen.Context) (screen.Screen, []screen.Request) {
	switch id {
	case madeUp:
		return s.goBy(-1, ctx), nil
	case madeDown:
		return s.goBy(1, ctx), nil
	case "add-made":
		return s.add(ctx)
	case "set-made":
		return s.change(ctx)
	case "drop-made":
		return s, s.strike(ctx)
	case madeAgain:
		return s, s.again(ctx)
	case madeLabel:
		return s, []screen.Request{screen.Show{Overlay: page.New("the label, a blank where a field is empty", s.shown.Lines())}}
	}
	return s, nil
}

func (s Screen) goBy(by int, ctx screen.Context) Screen {
	s.view = s.view.Go(by, ctx.State.Pattern)
	return s.labelled(ctx)
}

// labelled puts the labels of the chosen batch together.
func (s Screen) labelled(ctx screen.Context) Screen {
	job, err := ctx.WorkJob(nil)
	if err != nil {
		job.Layout = outline.Layout{}
	}
	p := ctx.State.Pattern
	if i, ok := s.view.Index(p); ok {
		job.Label = job.Label.OfBatch(ctx.Stamp.Stem, i+1, p.Made[i])
	}
	s.shown = Shown{Labels: work.Labels(ctx.Physics.Table(), job, ctx.Unit)}
	for i := range s.shown.Labels {
		name := "the panel"
		if len(job.Products) > 0 {
			name = fmt.Sprintf("product %d", i+1)
		}
		s.shown.Names = append(s.shown.Names, name)
	}
	return s
}

// batch shows a field for a batch; what was understood stands beneath it while it is
// typed.
func batch(title, text string, ctx screen.Context, set func(edit.State, pattern.Made) (edit.State, error)) []screen.Request {
	today := pattern.DateOf(ctx.Now)
	field := ask.New(title, text, func(s string) (any, string, error) {
		m, err := work.ParseBatch(s, ctx.Unit, today)
		return m, work.BatchLine(m, ctx.Unit), err
	})
	return []screen.Request{ask.Show(field, func(m pattern.Made) tea.Msg {
		return screen.Edit{Make: func(s edit.State) (edit.State, error) { return set(s, m) }}
	})}
}

// add writes a batch down; it starts from today, and from the copies that are planned
// where they are several: a count that is typed is not to stand behind another.
func (s Screen) add(ctx screen.Context) (screen.Screen, []screen.Request) {
	today := pattern.DateOf(ctx.Now)
	start := today.String() + ", "
	if n := ctx.Batch.Made(); n > 1 {
		start = work.BatchLine(pattern.Made{Date: today, Copies: n}, ctx.Unit) + ", "
	}
	s.view = s.view.Last()
	return s, batch("a batch: day, how many, then as 299.5 wide, 21.6 thick, 310 min, note and your words", start, ctx, edit.AddMade)
}

// change lets what is written of the chosen batch be changed.
func (s Screen) change(ctx screen.Context) (screen.Screen, []screen.Request) {
	i, ok := s.view.Index(ctx.State.Pattern)
	if !ok {
		return s.add(ctx)
	}
	return s, batch(fmt.Sprintf("change batch %d", i+1), work.BatchLine(ctx.State.Pattern.Made[i], ctx.Unit), ctx,
		func(st edit.State, m pattern.Made) (edit.State, error) { return edit.SetMade(st, i, m) })
}

// strike strikes the chosen batch out.
func (s Screen) strike(ctx screen.Context) []screen.Request {
	i, ok := s.view.Index(ctx.State.Pattern)
	if !ok {
		return []screen.Request{screen.Say("nothing is written down")}
	}
	return []screen.Request{screen.Edit{Make: func(st edit.State) (edit.State, error) { return edit.DropMade(st, i) }}}
}

// again plans as many copies as in the chosen batch, and shows what was noted then.
func (s Screen) again(ctx screen.Context) []screen.Request {
	i, ok := s.view.Index(ctx.State.Pattern)
	if !ok {
		return []screen.Request{screen.Say("nothing was made yet: " + ctx.Keys.KeyOf("add-made") + " writes a batch down")}
	}
	m := ctx.State.Pattern.Made[i]
	words := fmt.Sprintf("made again as on %s: %d copies", m.Date, m.Copies)
	if m.Note != "" {
		words += "; noted then: " + m.Note
	}
	return []screen.Request{screen.Tell{Msg: screen.MadeAgain{Copies: m.Copies, Words: words}}}
}
