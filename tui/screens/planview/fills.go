package planview

import (
	"fmt"
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/fill"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/pattern/worksteps"
	"example.com/oddments/tui/overlay/page"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

// fills offers strips for the rack out of what slices of the plan leave: of widths that are cut
// there anyway, then of standing ones too, then none again.
func (l Screen) fills(ctx screen.Context) (screen.Screen, []screen.Request) {
	if why := l.stale(ctx); why != "" {
		return l, []screen.Request{screen.Say(why)}
	}
	if l.fill++; l.fill > fill.Standing {
		l.fill = fill.Off
	}
	if l.fill == fill.Off {
		return l, append(withFills(ctx.Plan, nil), screen.Say("slices give no strips for the rack"))
	}
	return l, l.offer(true)
}

// offer has fills offered once the saved patterns are read, which say what strips are worth.
func (l Screen) offer(aloud bool) []screen.Request {
	return []screen.Request{screen.Saved{Then: func(all []store.Saved) tea.Msg {
		return screen.Then[Screen](func(l Screen, ctx screen.Context) (screen.Screen, []screen.Request) {
			if l.fill == fill.Off || l.stale(ctx) != "" {
				return l, nil
			}
			saved := []pattern.Pattern{ctx.State.Pattern}
			for _, s := range all {
				if s.File != "" { // not of the demo
					saved = append(saved, s.Pattern)
				}
			}
			fills := fill.Of(ctx.Plan.Job, ctx.Plan.Plan, fill.Ask{Widths: l.fill, Saved: saved})
			out := withFills(ctx.Plan, fills)
			if aloud {
				out = append(out, screen.Say(offered(l.fill, fills, ctx)))
			}
			return l, out
		})
	}}}
}

// offered says what is offered.
func offered(widths fill.Widths, fills []cutting.Fill, ctx screen.Context) string {
	from := map[fill.Widths]string{fill.Own: "widths cut there anyway", fill.Standing: "standing widths too"}[widths]
	made, spare := counts(fills)
	text := fmt.Sprintf("strips for the rack, %s: %s", from, tell.Count(made, "strip"))
	if spare > 0 {
		text += fmt.Sprintf("; %d instead of spare widths, not made", spare)
	}
	return text + "; " + ctx.Keys.KeyOf(planMark) + " chooses"
}

// counts counts the strips that are made, and those that are only offered.
func counts(fills []cutting.Fill) (made, offered int) {
	for _, f := range fills {
		if f.Made {
			made += len(f.Widths)
		} else {
			offered += len(f.Widths)
		}
	}
	return made, offered
}

// withFills puts fills into the plan; what it draws and what is proved of it stay.
func withFills(p screen.Plan, fills []cutting.Fill) []screen.Request {
	p.Plan.Fills = fills
	p.Details = worksteps.Details(p.Job, p.Plan)
	return []screen.Request{screen.Planned(p)}
}

// mark shows the fills to be ticked: those that are made.
func (l Screen) mark(ctx screen.Context) []screen.Request {
	if len(ctx.Plan.Plan.Fills) == 0 {
		return []screen.Request{screen.Say("no slice is filled: " + ctx.Keys.KeyOf(planFill) + " offers strips for the rack")}
	}
	var tasks []page.Task
	var made []int
	for i, f := range ctx.Plan.Plan.Fills {
		f.Made = true // whether it is, the tick says
		tasks = append(tasks, page.Task{Text: place(f) + ": " + fill.Text(f, ctx.Unit)})
		if ctx.Plan.Plan.Fills[i].Made {
			made = append(made, i+1)
		}
	}
	before := []string{"Ticked ones are made and booked. Where the rest of a slice is waste a strip costs nothing; a spare width that goes back can still become any."}
	list := page.NewChecklist("strips for the rack out of slices", before, tasks, nil, made).Counting("made")
	return []screen.Request{screen.Show{Overlay: list, Then: func(value any) tea.Msg {
		return screen.Then[Screen](func(l Screen, ctx screen.Context) (screen.Screen, []screen.Request) {
			fills := slices.Clone(ctx.Plan.Plan.Fills)
			for i := range fills {
				fills[i].Made = slices.Contains(value.([]int), i+1)
			}
			return l, withFills(ctx.Plan, fills)
		})
	}}}
}

// place says which slice a fill is of.
func place(f cutting.Fill) string {
	name := f.Piece
	if f.Copy > 1 {
		name = fmt.Sprintf("%s (%d)", f.Piece, f.Copy)
	}
	return fmt.Sprintf("%s, length %d, slice %d", name, f.Section, f.Slice)
}

// filled says how many strips the fills give, and what is used up with them; nothing without
// any.
func filled(ctx screen.Context) string {
	made, offered := counts(ctx.Plan.Plan.Fills)
	switch {
	case made+offered == 0:
		return ""
	case made == 0:
		return fmt.Sprintf("%s for the rack offered   ", tell.Count(offered, "strip"))
	}
	return fmt.Sprintf("%s for the rack, uses up %s with the fill   ", tell.Count(made, "strip"), length.Volume(fill.GoneCM3(ctx.Plan.Plan), ctx.Unit))
}

// pieceFills lists the fills of the chosen piece beneath its settings.
func pieceFills(c *paint.Canvas, r paint.Rect, d worksteps.Detail, ctx screen.Context) {
	row := 0
	for _, f := range ctx.Plan.Plan.Fills {
		if f.Piece != d.Cut.Piece || f.Copy != d.Cut.Copy || row >= r.H {
			continue
		}
		box := "[ ] "
		if f.Made {
			box = "[x] "
		}
		f.Made = true
		for i, text := range screen.Wrap(fmt.Sprintf("length %d, slice %d: %s", f.Section, f.Slice, fill.Text(f, ctx.Unit)), r.W-len(box)) {
			if i > 0 {
				box = "    "
			}
			c.Text(r.Row(row), box+text, paint.Style{})
			row++
		}
	}
}
