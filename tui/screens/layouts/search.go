package layouts

import (
	"context"
	"fmt"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/mistake"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/remake"
	"example.com/oddments/tui/job"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/screen"
)

// layFor is how long layouts are sought before the best so far are taken.
const layFor = 10 * time.Second

// An answer is what a search comes to.
type answer struct {
	shown   Shown
	further bool
	err     error
}

// A progress is how far a search is, with what it found.
type progress struct {
	at   suggest.Progress
	laid []Candidate
}

// askAnew asks for what is wished now.
func (s Screen) askAnew(ctx screen.Context) (screen.Screen, []screen.Request) {
	q, wrong := s.Question(ctx)
	if wrong != "" {
		return s, []screen.Request{screen.Refuse(wrong)}
	}
	return s.seek(q, false, ctx)
}

// more asks for more layouts, unlike those shown.
func (s Screen) more(ctx screen.Context) (screen.Screen, []screen.Request) {
	q, wrong := s.Question(ctx)
	switch {
	case wrong != "":
		return s, []screen.Request{screen.Refuse(wrong)}
	case s.again:
		s.wish.ways++
		return s.askAnew(ctx)
	case s.works:
		return s, say("the search is still running")
	case !s.shown.Have || len(s.shown.Laid) == 0 || !s.shown.Of.Alike(q):
		return s.askAnew(ctx)
	case s.shown.NoMore:
		return s, say("no other layout differs enough (proved)")
	}
	for _, l := range s.shown.Laid {
		q.Ask.Unlike = append(q.Ask.Unlike, l.Layout.Strips)
	}
	return s.seek(q, true, ctx)
}

// stop ends a search with the best so far.
func (s Screen) stop(screen.Context) []screen.Request {
	if !s.works {
		return say("no search is running")
	}
	s.running.Stop()
	return say("stopped with the best so far")
}

// seek starts the search for an answer.
func (s Screen) seek(q Question, further bool, ctx screen.Context) (screen.Screen, []screen.Request) {
	s.running.Stop()
	s.works, s.further, s.asked, s.began, s.found = true, further, q, ctx.Now, suggest.Progress{}
	search := search{q: q, further: further, wish: s.wish, look: Look{Physics: ctx.Physics, Bench: ctx.State}, beside: ctx.Beside}
	var cmd tea.Cmd
	s.running, cmd = job.Start(layFor, search.run)
	return s, []screen.Request{screen.Run{Cmd: cmd}}
}

// A search is what is sought, and how what is found is looked at.
type search struct {
	q       Question
	further bool
	wish    wish
	look    Look
	beside  screen.Beside
}

// run seeks the answer.
func (s search) run(ctx context.Context, tick <-chan time.Time, report func(progress)) answer {
	told := 0
	tell := suggest.Options{LoosenFor: suggest.LoosenFor, Progress: func(p suggest.Progress) {
		select {
		case <-tick:
		default: // but for the first, at most as often as the ticks come
			if !p.None && (told > 0 || len(p.Found) == 0) {
				return
			}
		}
		told++
		report(progress{p, s.look.Layouts(s.q.Ask, p.Found)})
	}}
	if s.q.Again {
		return s.runAgain(ctx, tell)
	}
	got, err := s.beside.Solve.Suggest(ctx, s.look.Physics, s.q.Ask, tell)
	out := answer{err: err, further: s.further, shown: s.look.Answer(s.q, got, s.further)}
	out.shown.loosen = s.wish.loosen(got.Loosen)
	out.shown.Told = s.beside.Tell(got.Broken, mistake.Layouts, s.q.job(s.look.Physics, got.Layouts), s.q.String())
	return out
}

// runAgain seeks ways to make the pattern again.
func (s search) runAgain(ctx context.Context, tell suggest.Options) answer {
	got, err := s.beside.Solve.Again(ctx, s.look.Physics, s.q.Same, tell)
	out := answer{err: err, shown: Shown{Have: true, Of: s.q, Laid: s.look.again(got.Answers, got.Status), Status: got.Status, stopped: got.Stopped,
		Told: s.beside.Tell(got.Broken, mistake.Answers, s.q.job(s.look.Physics, nil), s.q.String())}}
	if err == nil && len(got.Answers) == 0 && !got.Stopped {
		out.shown.loosen = s.wish.loosenAgain(remake.Loosen(ctx, s.look.Physics, s.q.Same, got.Status == suggest.Infeasible))
	}
	return out
}

// foundSoFar shows what a search has found so far.
func (s Screen) foundSoFar(m job.Progress[progress], ctx screen.Context) (screen.Screen, []screen.Request) {
	if !s.running.Sent(m) {
		return s, nil // of an older search
	}
	next := []screen.Request{screen.Run{Cmd: s.running.Next()}}
	if s.of != ctx.Stamp.Stem {
		return s, next // another pattern lies on the bench by now
	}
	s.found = m.At.at
	if len(m.At.laid) > 0 && !s.further {
		if !s.shown.Part || !s.shown.Of.Alike(s.asked) {
			s.at, s.strip = 0, -1
		}
		s.shown = Shown{Have: true, Part: true, Of: s.asked, Laid: m.At.laid, Status: suggest.Feasible}
	}
	return s, next
}

// done takes the answer of a search over.
func (s Screen) done(m job.Done[answer], ctx screen.Context) (screen.Screen, []screen.Request) {
	if !s.running.Ended(m) {
		return s, nil
	}
	s.works = false
	told := []screen.Request{screen.Withdrawn{Told: m.Result.shown.Told}}
	if s.of != ctx.Stamp.Stem {
		return s, told // another pattern lies on the bench by now
	}
	if m.Result.err != nil {
		return s, append(told, screen.Refuse(m.Result.err.Error()))
	}
	now := m.Result.shown
	now.took = ctx.Now.Sub(s.began)
	if m.Result.further {
		before := s.shown
		now.NoMore = len(now.Laid) == 0 && now.Status == suggest.Infeasible ||
			now.Status == suggest.Optimal && len(now.Laid) < s.asked.Ask.Layouts && len(s.asked.Ask.Looks) < 2
		if n := len(now.Laid); n > 0 {
			s.at = len(before.Laid)
		}
		now.Laid = append(before.Laid[:len(before.Laid):len(before.Laid)], now.Laid...)
		now.Status, now.Aim, now.loosen, now.leftOut = before.Status, before.Aim, nil, before.leftOut
		now.stopped = now.stopped || before.stopped
	} else if !s.shown.Part {
		s.at, s.strip = 0, -1
	}
	s = s.With(now)
	if ctx.Window.At == Place || ctx.Window.Covered || now.Told != nil {
		return s, told
	}
	opening := keymap.LayOut
	if s.again {
		opening = keymap.LayAgain
	}
	return s, say(fmt.Sprintf("layouts: %s; %s shows them", Count(len(now.Laid)), ctx.Keys.KeyOf(opening)))
}

// With returns the gallery with an answer shown.
func (s Screen) With(shown Shown) Screen {
	s.shown = shown
	s.shown.Of.Ask.Unlike = nil
	return s
}

// A Look makes what is looked at of what was found.
type Look struct {
	Physics movement.Physics
	Bench   edit.State
}

// Answer returns what an answer to q comes to; further: it is of layouts unlike those before.
func (l Look) Answer(q Question, a suggest.Result, further bool) Shown {
	out := Shown{Have: true, Of: q, Laid: l.Layouts(q.Ask, a.Layouts), Status: a.Status, Aim: a.Aim, Bound: a.Bound, leftOut: a.LeftOut, stopped: a.Stopped}
	for i := range out.Laid {
		out.Laid[i].Summary.Sure = a.Sure(a.Layouts[i])
		out.Laid[i].Answer, out.Laid[i].Place, out.Laid[i].Later = a, i, further
	}
	return out
}

// Layouts returns layouts with what was computed of them, each seen from the side from
// which it is the more like what lies on the bench.
func (l Look) Layouts(ask suggest.Request, all []suggest.Layout) []Candidate {
	out := make([]Candidate, len(all))
	for i, one := range all {
		one = ask.Nearer(l.Bench.Pattern.Strips, one)
		out[i] = Candidate{Layout: one, Pattern: ask.Pattern(one), Summary: ask.Summary(l.Physics, one), Sought: len(ask.Looks) > 0}
		if i > 0 && len(ask.Looks) == 0 {
			out[i].Against = suggest.Against(all[i-1], one)
		}
	}
	return out
}

// again returns ways to make a pattern again with what was computed of them.
func (l Look) again(all []remake.Way, status suggest.Status) []Candidate {
	out := make([]Candidate, len(all))
	for i, same := range all {
		out[i] = Candidate{Same: same, Pattern: same.Pattern, Summary: same.Summary(l.Physics)}
		out[i].Summary.Sure = same.Sure(status)
	}
	return out
}
