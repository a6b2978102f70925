package tui

import (
	"context"
	"fmt"
	"reflect"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/tui/job"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/overlay/page"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screens/layouts"
)

// layFor is how long layouts are sought before the best so far are taken.
const layFor = 10 * time.Second

// gallery is what is laid out for the maker, and what was asked for it. It lies over
// the bench while it is open, and its search goes on when it is not.
type gallery struct {
	open    bool
	again   bool   // the bench's pattern again, in place of new layouts
	of      string // the document that the wishes are for
	wish    wish
	running job.Job[layProgress, laying]
	works   bool
	further bool     // running asks for more, unlike those shown
	asked   question // what is running
	began   time.Time
	found   suggest.Progress
	shown   shown
	at      int // the chosen layout, or way to loosen
	strip   int // the chosen strip of it, from 0; none: -1
}

// A question is all that an answer depends on.
type question struct {
	again bool
	ask   suggest.Ask
	same  suggest.AgainAsk
	rack  int // revision
}

// alike reports whether two questions have the same answer. What they are unlike is
// left aside: further layouts belong to the same question.
func (q question) alike(other question) bool {
	bare := func(q question) question {
		q.ask.Rack.Pieces, q.ask.Rack.Strips, q.same.Rack = nil, nil, q.ask.Rack
		q.same.Rack.Pieces, q.same.Rack.Strips, q.ask.Unlike = nil, nil, nil
		return q
	}
	return reflect.DeepEqual(bare(q), bare(other))
}

// shown is an answer, or as much of one as there is yet.
type shown struct {
	have   bool
	part   bool // more is being sought
	of     question
	laid   []screen.Laid
	status suggest.Status
	aim    suggest.Aim
	bound  *suggest.Bound
	noMore bool
	loosen []loosening
	took   time.Duration
}

// A loosening is one condition made less strict.
type loosening struct {
	text func(length.Unit) string
	wish wish
}

// question gives what would be asked for now, or why nothing can be.
func (a App) question() (question, string) {
	g, p := a.gallery, a.state().Pattern
	q := question{again: g.again, rack: a.racks.history.Revision()}
	if g.again {
		q.same = suggest.AgainAsk{Pattern: p, Stem: a.doc.recoveryStem(), Copies: a.planner.made(), Rack: a.rack(), Level: g.wish.level, Answers: g.wish.layouts}
		if len(p.Strips) == 0 {
			return q, "there is no strip on the bench: open the pattern that is to be made again"
		}
		return q, ""
	}
	q.ask = g.wish.ask(p, a.doc.report.Figures.Width)
	q.ask.Rack = a.rack()
	switch {
	case q.ask.Width <= 0:
		return q, "say how wide the panel should be first: " + a.keys.KeyOf("set-panel-width") + " on the bench"
	case q.ask.Length <= 0 || q.ask.Thickness <= 0:
		return q, "say how long and thick the panel should be first: " + a.keys.KeyOf("set-panel-length") + " and " + a.keys.KeyOf("set-thickness") + " on the bench"
	case len(q.ask.Rack.Pieces)+len(q.ask.Rack.Strips) == 0:
		return q, "the rack is empty: " + a.keys.KeyOf(keymap.RackAdd) + " on the rack writes timber down"
	}
	return q, ""
}

// layOut opens the gallery on new layouts.
func (a App) layOut() (App, tea.Cmd) { return a.openGallery(false) }

// layAgain opens the gallery on ways to make the bench's pattern again.
func (a App) layAgain() (App, tea.Cmd) { return a.openGallery(true) }

func (a App) openGallery(again bool) (App, tea.Cmd) {
	if own := a.doc.recoveryStem(); a.gallery.of != own || a.gallery.wish.layouts == 0 {
		a.gallery.running.Stop()
		a.gallery = gallery{of: own, wish: a.usualWish()}
	}
	a.screen = 0
	g := &a.gallery
	if g.again != again {
		g.running.Stop()
		g.works, g.again, g.shown, g.at = false, again, shown{}, 0
	}
	g.open, g.strip = true, -1
	q, wrong := a.question()
	if wrong != "" || g.works && g.asked.alike(q) || g.shown.have && !g.shown.part && g.shown.of.alike(q) {
		return a, nil
	}
	return a.layAsk()
}

// layClose goes back to the bench; a search goes on.
func (a App) layClose() (App, tea.Cmd) {
	a.gallery.open = false
	if a.gallery.works {
		return a.say("the search goes on: " + a.keys.KeyOf(keymap.LayOut) + " comes back to it"), nil
	}
	return a, nil
}

// inGallery makes an action of the gallery, which opens it first where it is not.
func inGallery(f handler) handler {
	return func(a App) (App, tea.Cmd) {
		if !a.gallery.open {
			return a.openGallery(a.gallery.again)
		}
		return f(a)
	}
}

// A laying is what a search comes to.
type laying struct {
	shown   shown
	further bool
	err     error
}

// A layProgress is how far a search is, with what it found.
type layProgress struct {
	at   suggest.Progress
	laid []screen.Laid
}

// layAsk asks anew.
func (a App) layAsk() (App, tea.Cmd) {
	q, wrong := a.question()
	if wrong != "" {
		return a.refuse(wrong), nil
	}
	return a.seek(q, false)
}

// layMore asks for more layouts, unlike those shown.
func (a App) layMore() (App, tea.Cmd) {
	g := a.gallery
	q, wrong := a.question()
	switch {
	case wrong != "":
		return a.refuse(wrong), nil
	case g.again:
		a.gallery.wish.layouts++
		return a.layAsk()
	case g.works:
		return a.say("the search is still going on"), nil
	case !g.shown.have || len(g.shown.laid) == 0 || !g.shown.of.alike(q):
		return a.layAsk()
	case g.shown.noMore:
		return a.say("no further layout is unlike enough: proved"), nil
	}
	for _, l := range g.shown.laid {
		q.ask.Unlike = append(q.ask.Unlike, l.Layout.Strips)
	}
	return a.seek(q, true)
}

// layStop ends a search with the best so far.
func (a App) layStop() (App, tea.Cmd) {
	if !a.gallery.works {
		return a.say("nothing is being sought"), nil
	}
	a.gallery.running.Stop()
	return a.say("stopped with the best so far"), nil
}

// seek starts the search for an answer.
func (a App) seek(q question, further bool) (App, tea.Cmd) {
	g := &a.gallery
	g.running.Stop()
	g.works, g.further, g.asked, g.began, g.found = true, further, q, a.now(), suggest.Progress{}
	reckoner, bench, wish := a.reckoner, a.state(), g.wish
	var cmd tea.Cmd
	g.running, cmd = job.Start(layFor, func(ctx context.Context, tick <-chan time.Time, report func(layProgress)) laying {
		seen := seen{reckoner: reckoner, bench: bench}
		told := 0
		tell := suggest.Options{Progress: func(p suggest.Progress) {
			select {
			case <-tick:
			default: // but for the first, at most as often as the ticks come
				if !p.None && (told > 0 || len(p.Found) == 0) {
					return
				}
			}
			told++
			report(layProgress{p, seen.layouts(q.ask, p.Found)})
		}}
		if q.again {
			answer, err := suggest.Again(ctx, reckoner, q.same, tell)
			out := laying{err: err, shown: shown{have: true, of: q, laid: seen.again(answer.Answers, answer.Status), status: answer.Status}}
			if err == nil && answer.Status == suggest.Infeasible {
				out.shown.loosen = wish.loosenAgain(suggest.LoosenAgain(ctx, reckoner, q.same))
			}
			return out
		}
		search, end := context.WithCancel(ctx)
		defer end()
		all := tell.Progress
		tell.Progress = func(p suggest.Progress) {
			if all(p); p.None {
				time.AfterFunc(suggest.LoosenFor, end)
			}
		}
		answer, err := suggest.Solve(search, reckoner, q.ask, tell)
		out := laying{err: err, further: further, shown: shown{have: true, of: q, laid: seen.layouts(q.ask, answer.Layouts), status: answer.Status,
			aim: answer.Aim, bound: answer.Bound, loosen: wish.loosen(answer.Loosen)}}
		for i := range out.shown.laid {
			out.shown.laid[i].Summary.Sure = answer.Sure(answer.Layouts[i])
			out.shown.laid[i].Answer, out.shown.laid[i].Place, out.shown.laid[i].Later = answer, i, further
		}
		return out
	})
	return a, cmd
}

// layFound shows what a search has found so far.
func (a App) layFound(m job.Progress[layProgress]) (App, tea.Cmd) {
	g, p := &a.gallery, m.At
	if !g.running.Sent(m) {
		return a, nil // of an older search
	}
	if g.of != a.doc.recoveryStem() {
		return a, g.running.Next() // another pattern lies on the bench by now
	}
	g.found = p.at
	if len(p.laid) > 0 && !g.further {
		if !g.shown.part || !g.shown.of.alike(g.asked) {
			g.at, g.strip = 0, -1
		}
		g.shown = shown{have: true, part: true, of: g.asked, laid: p.laid, status: suggest.Feasible}
	}
	return a, g.running.Next()
}

// layDone takes the answer of a search over.
func (a App) layDone(m job.Done[laying]) (App, tea.Cmd) {
	g, done := &a.gallery, m.Result
	if !g.running.Ended(m) {
		return a, nil
	}
	g.works = false
	if g.of != a.doc.recoveryStem() {
		return a, nil // another pattern lies on the bench by now
	}
	if done.err != nil {
		return a.refuse(done.err.Error()), nil
	}
	now := done.shown
	now.took = a.now().Sub(g.began)
	if done.further {
		before := g.shown
		now.noMore = len(now.laid) == 0 && now.status == suggest.Infeasible || now.status == suggest.Optimal && len(now.laid) < g.asked.ask.Layouts
		if n := len(now.laid); n > 0 {
			g.at = len(before.laid)
		}
		now.laid = append(before.laid[:len(before.laid):len(before.laid)], now.laid...)
		now.status, now.aim, now.loosen = before.status, before.aim, nil
	} else if !g.shown.part {
		g.at, g.strip = 0, -1
	}
	g.shown = now
	g.shown.of.ask.Unlike = nil
	if g.open || a.overlay != nil {
		return a, nil
	}
	return a.say(fmt.Sprintf("laid out for you: %s; %s shows them", layouts.Count(len(now.laid)), a.keys.KeyOf(a.openingKey()))), nil
}

func (a App) openingKey() keymap.ID {
	if a.gallery.again {
		return keymap.LayAgain
	}
	return keymap.LayOut
}

// layTake puts the chosen layout on the bench as one undo step, or loosens the
// condition that is chosen where there is none.
func (a App) layTake() (App, tea.Cmd) {
	g := a.gallery
	q, wrong := a.question()
	switch {
	case wrong != "":
		return a.refuse(wrong), nil
	case g.shown.have && !g.shown.of.alike(q):
		return a.say("these are of an older state: " + a.keys.KeyOf(keymap.LayAsk) + " asks anew"), nil
	case len(g.shown.laid) == 0 && g.at < len(g.shown.loosen):
		a.gallery.wish = g.shown.loosen[g.at].wish
		if n := g.shown.loosen[g.at].wish.copies; n > 0 {
			a.gallery.wish.copies, a.planner.copies = 0, n
		}
		return a.layAsk()
	case g.at >= len(g.shown.laid):
		return a.say("there is no layout to take yet"), nil
	}
	chosen := g.shown.laid[g.at]
	next := a.state()
	if g.again {
		next.Pattern.Strips = chosen.Pattern.Strips
	} else {
		next.Pattern = g.shown.of.ask.Take(next.Pattern, chosen.Layout)
	}
	next.Selected = max(0, min(next.Selected, len(next.Pattern.Strips)-1))
	if next.Alike(a.state()) {
		return a.say("the bench is laid out like that already"), nil
	}
	a.gallery.open, a.gallery.wish.pins = false, nil // they are on the bench now
	a, cmd := a.do(next)
	return a.say("laid out as " + layouts.Name(g.at) + "; " + a.keys.KeyOf(keymap.Undo) + " brings yours back"), cmd
}

// layTell tells all of the chosen layout.
func (a App) layTell() (App, tea.Cmd) {
	lines := layouts.Tell(a.context())
	if lines == nil {
		return a.say("there is no layout yet"), nil
	}
	g := a.gallery
	l := g.shown.laid[g.at]
	switch {
	case g.again:
		lines = append(lines, cutting.Steps(g.shown.of.same.Job(a.reckoner, l.Same), l.Same.Plan, a.context().Name, a.unit)...)
	case l.Layout.Plan != nil:
		lines = append(lines, cutting.Steps(g.shown.of.ask.Job(a.reckoner, l.Layout), *l.Layout.Plan, a.context().Name, a.unit)...)
	}
	return a.show(page.New("layout "+layouts.Name(g.at), lines), nil), nil
}

// layGo chooses another layout, or way to loosen.
func layGo(by int) handler {
	return func(a App) (App, tea.Cmd) {
		g := &a.gallery
		n := len(g.shown.laid)
		if n == 0 {
			n = len(g.shown.loosen)
		}
		g.at, g.strip = max(0, min(g.at+by, n-1)), -1
		return a, nil
	}
}

// layStrip chooses another strip of the chosen layout.
func layStrip(by int) handler {
	return func(a App) (App, tea.Cmd) {
		g := &a.gallery
		if g.at >= len(g.shown.laid) {
			return a, nil
		}
		n := len(g.shown.laid[g.at].Pattern.Strips)
		switch {
		case g.strip < 0 && by < 0:
			g.strip = n - 1
		default:
			g.strip = max(0, min(g.strip+by, n-1))
		}
		return a, nil
	}
}

// laying gives what the gallery's screen is told.
func (a App) laying() screen.Laying {
	g := a.gallery
	if !g.open {
		return screen.Laying{Running: g.works, Found: g.found}
	}
	q, wrong := a.question()
	out := screen.Laying{
		Again: g.again, Ask: q.ask, Same: q.same, Wrong: wrong, Running: g.works, Further: g.further, Found: g.found,
		Have: g.shown.have, Part: g.shown.part, Stale: g.shown.have && !g.shown.of.alike(q), Laid: g.shown.laid, Status: g.shown.status,
		Aim: g.shown.aim, Bound: g.shown.bound, NoMore: g.shown.noMore, Seconds: g.shown.took.Seconds(), At: g.at, Strip: g.strip,
	}
	for _, l := range g.shown.loosen {
		out.Loosen = append(out.Loosen, l.text(a.unit))
	}
	return out
}

// seen makes what is looked at of what was found.
type seen struct {
	reckoner movement.Reckoner
	bench    edit.State
}

// layouts gives layouts with what was reckoned of them, each seen from the side from
// which it is the more like what lies on the bench.
func (s seen) layouts(ask suggest.Ask, all []suggest.Layout) []screen.Laid {
	out := make([]screen.Laid, len(all))
	for i, l := range all {
		l = ask.Nearer(s.bench.Pattern.Strips, l)
		out[i] = screen.Laid{Layout: l, Pattern: ask.Pattern(l), Summary: ask.Summary(s.reckoner, l)}
		if i > 0 {
			out[i].Against = ask.Against(s.reckoner, all[i-1], l)
		}
	}
	return out
}

// again gives ways to make a pattern again with what was reckoned of them.
func (s seen) again(all []suggest.Same, status suggest.Status) []screen.Laid {
	out := make([]screen.Laid, len(all))
	for i, same := range all {
		out[i] = screen.Laid{Same: same, Pattern: same.Pattern, Summary: same.Summary(s.reckoner)}
		out[i].Summary.Sure = same.Sure(status)
	}
	return out
}

func drawLayouts(a App, c *paint.Canvas, r paint.Rect, ctx screen.Context) { layouts.Draw(c, r, ctx) }

func layPress(a App, m tea.MouseEvent) (App, tea.Cmd) {
	if id, ok := layouts.ActionAt(m.X, m.Y, a.body(), a.context()); ok {
		return a.act(id)
	}
	if at, ok := layouts.At(m.Y, a.body(), a.context()); ok {
		a.gallery.at, a.gallery.strip = at, -1
	}
	return a, nil
}

// layHandlers makes the actions of the gallery.
func layHandlers() map[keymap.ID]handler {
	return map[keymap.ID]handler{
		keymap.LayOut:       App.layOut,
		keymap.LayAgain:     App.layAgain,
		keymap.LayUp:        inGallery(layGo(-1)),
		keymap.LayDown:      inGallery(layGo(1)),
		keymap.LayLeft:      inGallery(layStrip(-1)),
		keymap.LayRight:     inGallery(layStrip(1)),
		keymap.LayTake:      inGallery(App.layTake),
		keymap.LayClose:     inGallery(App.layClose),
		keymap.LayStop:      inGallery(App.layStop),
		keymap.LayTell:      inGallery(App.layTell),
		keymap.LayAsk:       inGallery(App.layAsk),
		keymap.LayMore:      inGallery(App.layMore),
		keymap.LayPin:       inGallery(App.layPin),
		keymap.LayWider:     ofLayouts(wishLooser),
		keymap.LayTighter:   ofLayouts(wishTighter),
		keymap.LayLevel:     wished(wishLevel),
		keymap.LayAim:       ofLayouts(wishAim),
		keymap.LayContrast:  ofLayouts(wishContrast(2)),
		keymap.LayContrastN: ofLayouts(wishContrast(-2)),
		keymap.LayMirror:    ofLayouts(wishSymmetric),
		keymap.LayTwins:     ofLayouts(wishTwins),
		keymap.LayStrips:    inGallery(App.layStrips),
		keymap.LayWidths:    inGallery(App.layWidths),
		keymap.LayFrom:      ofLayouts(wishFrom),
		keymap.LayCount:     wished(wishLayouts(1)),
		keymap.LayCountN:    wished(wishLayouts(-1)),
		keymap.LayDiffer:    ofLayouts(wishDiffer(1)),
		keymap.LayDifferN:   ofLayouts(wishDiffer(-1)),
		keymap.LayCopies:    layCopies(1),
		keymap.LayCopiesN:   layCopies(-1),
	}
}
