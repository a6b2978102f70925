package cli

import (
	"context"
	"errors"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/booking"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/mistake"
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/pattern/worksteps"
)

// planText prints a plan in plain words, one fact a line.
type planText struct {
	*app
	workshop workshop
	job      cutting.Job
	saved    []store.Saved // the job's patterns
	plan     cutting.Plan
	details  []worksteps.Detail
	unit     length.Unit
}

// print prints all of it. What ctx leaves of the time goes to the ways out of a plan
// that is short.
func (t planText) print(ctx context.Context) {
	t.asked()
	t.drawn(errors.Is(ctx.Err(), context.DeadlineExceeded))
	t.ready()
	for _, d := range t.details {
		t.piece(d)
	}
	t.back()
	for _, l := range booking.LookFirst(t.job, &t.plan, t.workshop.physics()) {
		t.say("%v", l)
	}
	t.cautions()
	for i, s := range worksteps.Steps(t.job, t.plan, t.workshop.name, t.unit) {
		t.say("step %d, %s", i+1, s)
	}
	for _, c := range worksteps.Chalk(t.job, t.plan) {
		t.say("chalk on the strip from %s", c)
	}
	t.waysOut(ctx)
}

func (t planText) with(l length.Length) string { return l.With(t.unit) }
func (t planText) volume(cm3 float64) string   { return length.Volume(cm3, t.unit) }

// asked says what is made, and how many of its strips there will be.
func (t planText) asked() {
	strips := 0
	for i, d := range t.job.Patterns {
		strips += d.Copies * len(d.Pattern.Strips)
		name, draft := "", ""
		if t.saved[i].Pattern.Name != d.Stem {
			name = ", " + t.saved[i].Pattern.Name
		}
		if len(d.Pattern.Strips) == 0 {
			draft = ", a draft without strips"
		}
		t.say("pattern: %s%s, made %s%s", d.Stem, name, tell.Times(d.Copies), draft)
	}
	if len(t.job.Rack.Entries()) == 0 {
		t.say("rack: empty; oddments rack add writes timber down")
	}
	t.say("strips: %d asked for, %d served, %d short%s", strips, strips-t.plan.Short, t.plan.Short, t.short())
}

// short says which timbers run short.
func (t planText) short() string {
	if t.plan.Short == 0 {
		return ""
	}
	text := ": " + t.plan.ShortText(t.workshop.name)
	if t.plan.Claim().Sure == cutting.Least {
		return text + "; the fewest, proved"
	}
	return text
}

// drawn says how much timber is taken, and how sure it is that no plan takes less.
func (t planText) drawn(late bool) {
	p, claim := t.plan, t.plan.Claim()
	t.say("drawn: %s, %s", t.volume(p.DrawnCM3), claim.Say(p.Short > 0, t.unit))
	t.say("gone: %s, which does not come back", t.volume(p.GoneCM3))
	t.say("%s", cutting.CountedText(t.workshop.shop.Draw, t.unit))
	if late && claim.Sure != cutting.Least {
		t.say("time: the %s s ran out; more with --time may bring a better plan", t.flags.seconds.String())
	}
}

// ready says which ready strips serve, those of one entry together.
func (t planText) ready() {
	taken := t.plan.ReadyTaken()
	for id, refs := range taken.All() {
		lying, _ := t.job.Rack.Get(id)
		t.say("ready strip %s: %d of %d, for %s", id, len(refs), lying.Quantity, cutting.RefsText(refs))
	}
}

// piece says what an opened piece is cut into, and how the machines are set for it.
func (t planText) piece(d worksteps.Detail) {
	name := d.Name()
	t.say("piece %s: %s", name, d.Text(t.workshop.name(d.Piece.Species), t.unit))
	for i, s := range d.Cut.Sections {
		how := ""
		if s.Side {
			how = ", side-sliced"
		}
		t.say("piece %s, section %d: %s long, %s%s", name, i+1, t.with(s.Length), tell.Count(len(s.Slices), "slice"), how)
		for j, sl := range s.Slices {
			t.say("piece %s, section %d, slice %d: %s thick, for %s", name, i+1, j+1, t.with(sl.Thickness), cutting.RefsText(sl.Strips))
		}
	}
	var settings []string
	for _, s := range d.Settings() {
		settings = append(settings, s.Name+" "+s.Text(t.unit))
	}
	t.say("piece %s, settings: %s", name, strings.Join(settings, "; "))
}

// back says what goes back to the rack.
func (t planText) back() {
	none := true
	for _, d := range t.details {
		for _, l := range d.Back {
			none = false
			t.say("goes back: %s of %s, %s, %s", l.Kind, d.Name(), t.workshop.name(l.Piece.Species),
				tell.Size(t.unit, l.Piece.Length, l.Piece.Width, l.Piece.Thickness))
		}
	}
	if none && len(t.details) > 0 {
		t.say("goes back: nothing")
	}
}

// cautions says what asks for care before anything is cut; the steps say it again at
// their place.
func (t planText) cautions() {
	for _, n := range worksteps.Notes(t.job, t.plan, t.unit) {
		if n.Level > pattern.Fine {
			t.say("caution, %s, piece %s%s: %s", n.Level, n.Piece, sectionsText(n.Sections), n.Message)
		}
	}
}

// sectionsText names sections of a piece, where there are any to name.
func sectionsText(numbers []int) string {
	if len(numbers) == 0 {
		return ""
	}
	return ", " + tell.Numbered("section", numbers)
}

// waysOut looks for ways out of a plan that is short.
func (t planText) waysOut(ctx context.Context) {
	if t.plan.Short == 0 {
		return
	}
	if ctx.Err() != nil {
		t.say("ways out: no time was left to look for them; --time gives more")
		return
	}
	ways, err := t.env.Solvers.Ways(ctx, t.job, t.plan, t.workshop.physics())
	if err != nil { // what is wrong with a job, Solve has said
		t.report(err)
		return
	}
	for _, line := range ways.Say(t.job, t.workshop.name, t.unit) {
		t.say("ways out: %s", line)
	}
	t.tellBroken(t.workshop.home, ways.Broken, mistake.Ways, t.job)
}
