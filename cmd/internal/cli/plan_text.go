package cli

import (
	"context"
	"errors"
	"fmt"
	"strconv"
	"strings"

	"example.com/oddments/cmd/internal/command"
	"example.com/oddments/cmd/internal/rows"
	"example.com/oddments/cmd/internal/typed"
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/booking"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/fill"
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
	by      worksteps.By
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
	for _, l := range booking.LookFirst(t.job, &t.plan, t.Physics()) {
		t.Say("%v", l)
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
		t.Fact("pattern", "%s, made %s%s", command.Called(t.saved[i]), tell.Times(d.Copies), command.Said(len(d.Pattern.Strips) == 0, ", a draft without strips"))
	}
	if len(t.job.Rack.Entries()) == 0 {
		t.Fact("rack", "empty; oddments rack add adds timber")
	}
	t.Fact("strips", "%d asked for, %d served, %d missing%s", strips, strips-t.plan.Short, t.plan.Short, t.short())
}

// short says which timbers run short.
func (t planText) short() string {
	if t.plan.Short == 0 {
		return ""
	}
	text := ": " + t.plan.ShortText(t.Name)
	if t.plan.Claim().Sure == cutting.Least {
		return text + "; the fewest, proved"
	}
	return text
}

// drawn says how much timber is counted, and how sure it is that no plan takes less.
func (t planText) drawn(late bool) {
	p, claim := t.plan, t.plan.Claim()
	t.Fact("counted", "%s, %s", length.Volume(p.DrawnCM3, t.Unit), claim.Say(p.Short > 0, t.Unit))
	t.Fact("uses up", "%s, which does not come back", length.Volume(p.GoneCM3, t.Unit))
	if len(p.Fills) > 0 {
		t.Fact("uses up with the fill", "%s", length.Volume(fill.GoneCM3(p), t.Unit))
	}
	t.Say("%s", cutting.CountedText(t.Shop.Draw, t.Unit))
	t.pieces()
	if late && claim.Sure != cutting.Least {
		t.Fact("time", "the %s s ran out; more with --time may bring a better plan", typed.Shown(t.Flags.Seconds))
	}
}

// pieces says which strips are not whole, and where their pieces lie.
func (t planText) pieces() {
	joints := 0
	for _, p := range t.plan.Pieced {
		joints += len(p.Pieces) - 1
	}
	if joints > 0 {
		t.Fact("joints", "%d, each counted at %s", joints, length.Volume(t.Shop.Draw.JointCM3, t.Unit))
	}
	for _, p := range t.plan.Pieced {
		t.Of("%s copy %d", p.Pattern, p.Copy).Fact(fmt.Sprintf("strip %d", p.Strip), "%s", p.Pieces.Text(p.Strip, t.Unit))
	}
}

// ready says which ready strips serve, those of one entry together.
func (t planText) ready() {
	taken := t.plan.ReadyTaken()
	for id, refs := range taken.All() {
		lying, _ := t.job.Rack.Get(id)
		t.Fact("ready strip "+id, "%d of %d, for %s", len(refs), lying.Quantity, t.job.RefsText(refs))
	}
}

// piece says what an opened piece is cut into, and how the machines are set for it.
func (t planText) piece(d worksteps.Detail) {
	piece := t.Of("piece %s", d.Name())
	piece.Fact("", "%s", d.Text(t.Name(d.Piece.Species), t.Unit))
	for i, s := range d.Cut.Sections {
		section := fmt.Sprintf("length %d", i+1)
		piece.Fact(section, "%s long, %s%s", s.Length.With(t.Unit), tell.Count(len(s.Slices), "slice"), command.Said(s.Side, ", resawn across its width"))
		for j, sl := range s.Slices {
			slice := fmt.Sprintf("%s, slice %d", section, j+1)
			piece.Fact(slice, "%s thick, for %s", sl.Thickness.With(t.Unit), t.job.RefsText(sl.Strips))
			for _, f := range t.plan.Fills {
				if f.Piece == d.Cut.Piece && f.Copy == d.Cut.Copy && f.Section == i+1 && f.Slice == j+1 {
					piece.Fact(slice+", fill", "%s", fill.Text(f, t.Unit))
				}
			}
		}
	}
	var settings []string
	for _, s := range d.Settings() {
		settings = append(settings, s.Name+" "+s.Text(t.Unit))
	}
	piece.Fact("settings", "%s", strings.Join(settings, "; "))
}

// back says what goes back to the rack.
func (t planText) back() {
	back := rows.Form{{"back to the rack", "back to the rack: "}, {"of", " of "}, {"timber", ", "}, {"size", ", "}}
	none := true
	for _, d := range t.details {
		for _, l := range d.Back {
			none = false
			t.Row(back, pattern.Fine, l.Kind.String(), d.Name(), t.Name(l.Piece.Species),
				tell.Size(t.Unit, l.Piece.Length, l.Piece.Width, l.Piece.Thickness))
		}
	}
	if none && len(t.details) > 0 {
		t.Fact("back to the rack", "nothing")
	}
}

// cautions says what asks for care before anything is cut; the steps say it again at
// their place.
func (t planText) cautions() {
	for _, n := range worksteps.Notes(t.job, t.plan, t.Unit) {
		if n.Level > pattern.Fine {
			sections := command.Said(len(n.Sections) > 0, tell.Numbered("length", n.Sections))
			t.Row(rows.Form{{"", "caution, "}, {"", ", piece "}, {"", ", "}, {"", ": "}}, n.Level,
				n.Level.String(), n.Piece, sections, n.Message)
		}
	}
}

// steps gives the order of work, each word of caution on a line of its own, and what to
// write on each strip.
func (t planText) steps() {
	for _, c := range worksteps.Cares(t.job, t.plan) {
		t.Row(rows.Form{{}, {"", ", "}, {"", ": "}}, c.Level, c.Level.Heading(), c.At, c.Message)
	}
	form := rows.Form{{"step", "step ", ", "}, {"work"}}
	for i, s := range worksteps.WithManuals(worksteps.Order(t.by, t.job, t.plan, t.Name, t.Unit)) {
		t.Row(form, pattern.Fine, strconv.Itoa(i+1), s.String())
		for _, n := range s.Notes {
			t.Row(form, n.Level, "", n.String())
		}
	}
	for _, c := range worksteps.Chalk(t.job, t.plan) {
		t.Say("chalk on the strip from %s", c)
	}
}

// waysOut looks for ways out of a plan that is short.
func (t planText) waysOut(ctx context.Context) {
	if t.plan.Short == 0 {
		return
	}
	if ctx.Err() != nil {
		t.Fact("ways out", "no time was left to look for them; --time gives more")
		return
	}
	ways, err := t.Env.Solvers.Ways(ctx, t.job, t.plan, t.Physics())
	if err != nil { // what is wrong with a job, Solve has said
		t.Report(err)
		return
	}
	for _, line := range ways.Say(t.job, t.Name, t.Unit) {
		t.Fact("ways out", "%s", line)
	}
	t.TellBroken(t.Home, ways.Broken, mistake.Ways, t.job)
}
