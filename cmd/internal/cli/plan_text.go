package cli

import (
	"context"
	"errors"
	"fmt"
	"strconv"
	"strings"

	"example.com/oddments/cmd/internal/rows"
	"example.com/oddments/cmd/internal/typed"
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
	workshop
	job     cutting.Job
	saved   []store.Saved // the job's patterns
	plan    cutting.Plan
	details []worksteps.Detail
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
	for _, l := range booking.LookFirst(t.job, &t.plan, t.physics()) {
		t.say("%v", l)
	}
	t.cautions()
	t.steps()
	t.waysOut(ctx)
}

// asked says what is made, and how many of its strips there will be.
func (t planText) asked() {
	strips := 0
	for i, d := range t.job.Patterns {
		strips += d.Copies * len(d.Pattern.Strips)
		t.fact("pattern", "%s, made %s%s", called(t.saved[i]), tell.Times(d.Copies), said(len(d.Pattern.Strips) == 0, ", a draft without strips"))
	}
	if len(t.job.Rack.Entries()) == 0 {
		t.fact("rack", "empty; oddments rack add writes timber down")
	}
	t.fact("strips", "%d asked for, %d served, %d short%s", strips, strips-t.plan.Short, t.plan.Short, t.short())
}

// short says which timbers run short.
func (t planText) short() string {
	if t.plan.Short == 0 {
		return ""
	}
	text := ": " + t.plan.ShortText(t.name)
	if t.plan.Claim().Sure == cutting.Least {
		return text + "; the fewest, proved"
	}
	return text
}

// drawn says how much timber is taken, and how sure it is that no plan takes less.
func (t planText) drawn(late bool) {
	p, claim := t.plan, t.plan.Claim()
	t.fact("drawn", "%s, %s", length.Volume(p.DrawnCM3, t.unit), claim.Say(p.Short > 0, t.unit))
	t.fact("gone", "%s, which does not come back", length.Volume(p.GoneCM3, t.unit))
	t.say("%s", cutting.CountedText(t.shop.Draw, t.unit))
	if late && claim.Sure != cutting.Least {
		t.fact("time", "the %s s ran out; more with --time may bring a better plan", typed.Shown(t.flags.seconds))
	}
}

// ready says which ready strips serve, those of one entry together.
func (t planText) ready() {
	taken := t.plan.ReadyTaken()
	for id, refs := range taken.All() {
		lying, _ := t.job.Rack.Get(id)
		t.fact("ready strip "+id, "%d of %d, for %s", len(refs), lying.Quantity, cutting.RefsText(refs))
	}
}

// piece says what an opened piece is cut into, and how the machines are set for it.
func (t planText) piece(d worksteps.Detail) {
	piece := t.of("piece %s", d.Name())
	piece.fact("", "%s", d.Text(t.name(d.Piece.Species), t.unit))
	for i, s := range d.Cut.Sections {
		section := fmt.Sprintf("section %d", i+1)
		piece.fact(section, "%s long, %s%s", s.Length.With(t.unit), tell.Count(len(s.Slices), "slice"), said(s.Side, ", side-sliced"))
		for j, sl := range s.Slices {
			piece.fact(fmt.Sprintf("%s, slice %d", section, j+1), "%s thick, for %s", sl.Thickness.With(t.unit), cutting.RefsText(sl.Strips))
		}
	}
	var settings []string
	for _, s := range d.Settings() {
		settings = append(settings, s.Name+" "+s.Text(t.unit))
	}
	piece.fact("settings", "%s", strings.Join(settings, "; "))
}

// back says what goes back to the rack.
func (t planText) back() {
	back := rows.Form{{"goes back", "goes back: "}, {"of", " of "}, {"timber", ", "}, {"size", ", "}}
	none := true
	for _, d := range t.details {
		for _, l := range d.Back {
			none = false
			t.row(back, pattern.Fine, l.Kind.String(), d.Name(), t.name(l.Piece.Species),
				tell.Size(t.unit, l.Piece.Length, l.Piece.Width, l.Piece.Thickness))
		}
	}
	if none && len(t.details) > 0 {
		t.fact("goes back", "nothing")
	}
}

// cautions says what asks for care before anything is cut; the steps say it again at
// their place.
func (t planText) cautions() {
	for _, n := range worksteps.Notes(t.job, t.plan, t.unit) {
		if n.Level > pattern.Fine {
			sections := said(len(n.Sections) > 0, tell.Numbered("section", n.Sections))
			t.row(rows.Form{{"", "caution, "}, {"", ", piece "}, {"", ", "}, {"", ": "}}, n.Level,
				n.Level.String(), n.Piece, sections, n.Message)
		}
	}
}

// steps gives the order of work, and what to write on each strip.
func (t planText) steps() {
	for _, c := range worksteps.Cares(t.job, t.plan) {
		t.row(rows.Form{{}, {"", ", "}, {"", ": "}}, c.Level, c.Level.Heading(), c.At, c.Message)
	}
	for i, s := range worksteps.Steps(t.job, t.plan, t.name, t.unit) {
		t.row(rows.Form{{"step", "step "}, {"work", ", "}}, pattern.Fine, strconv.Itoa(i+1), s)
	}
	for _, c := range worksteps.Chalk(t.job, t.plan) {
		t.say("chalk on the strip from %s", c)
	}
}

// waysOut looks for ways out of a plan that is short.
func (t planText) waysOut(ctx context.Context) {
	if t.plan.Short == 0 {
		return
	}
	if ctx.Err() != nil {
		t.fact("ways out", "no time was left to look for them; --time gives more")
		return
	}
	ways, err := t.env.Solvers.Ways(ctx, t.job, t.plan, t.physics())
	if err != nil { // what is wrong with a job, Solve has said
		t.report(err)
		return
	}
	for _, line := range ways.Say(t.job, t.name, t.unit) {
		t.fact("ways out", "%s", line)
	}
	t.tellBroken(t.home, ways.Broken, mistake.Ways, t.job)
}
