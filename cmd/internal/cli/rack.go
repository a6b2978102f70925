package cli

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"example.com/oddments/cmd/internal/command"
	"example.com/oddments/cmd/internal/failure"
	"example.com/oddments/cmd/internal/result"
	"example.com/oddments/cmd/internal/rows"
	"example.com/oddments/cmd/internal/typed"
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/mistake"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/tell"
)

func (a *app) rackCommand() *cobra.Command {
	cmd := a.command("rack", task{takes: rackArgs,
		run: func(*cobra.Command, []string) error { return nil }}) // rackArgs lets nothing through
	cmd.SuggestionsMinimumDistance = 2
	cmd.AddCommand(a.rackListCommand(), a.rackAddCommand(), a.rackChangeCommand(), a.rackUsedCommand(), a.rackWhyCommand(), a.rackImportCommand(), a.rackExportCommand())
	return cmd
}

// rackArgs refuses whatever is no command of the rack's.
func rackArgs(cmd *cobra.Command, args []string) error {
	const hint = "oddments rack list, add, change, used, why, import or export"
	if len(args) == 0 {
		return failure.Usage(hint, "rack needs a command")
	}
	if near := cmd.SuggestionsFor(args[0]); len(near) > 0 {
		return failure.Usage(didYouMean(cmd, near), "rack has no command %q", args[0])
	}
	return failure.Usage(hint, "rack has no command %q", args[0])
}

func (a *app) rackListCommand() *cobra.Command {
	order, purpose := rack.ByTimber, ""
	cmd := a.command("rack list", task{json: "oddments/rack 1", errand: func(ctx context.Context, w workshop, args []string) error {
		return w.rackList(ctx, args, order, purpose)
	}})
	typed.Flag(cmd.Flags(), &order, "sort", "ORDER", order.String(), rack.ParseOrder, "for rack list: timber, length, volume, id or first")
	cmd.Flags().StringVar(&purpose, "for", "", "for rack list: `PATTERN[=N]` whose strips are counted")
	typed.Complete(cmd, "sort", typed.Words(rack.Orders()...))
	return cmd
}

func (w workshop) rackList(ctx context.Context, args []string, order rack.Order, purpose string) error {
	whole, err := w.ReadRack()
	if err != nil {
		return err
	}
	filter, err := rack.ParseFilter(strings.Join(args, " "), rack.NewLookup(w.Table, whole.Species()), length.InMM)
	if err != nil {
		return failure.Usage("oddments rack list --help says what there is to filter by", "filter: %v", err)
	}
	supplies, gives, err := w.yields(ctx, purpose)
	if err != nil {
		return err
	}
	shown := whole.Filter(filter).Sort(order)
	for _, e := range shown.Entries() {
		words := ""
		if y, ok := gives[e.ID]; ok {
			words = yieldText(y)
		}
		w.Row(entryForm(""), pattern.Fine, append(w.entryCells(e), words)...)
	}
	for _, s := range supplies {
		if s.Have < s.Need { // also where more time might find them: nobody is to read it as enough
			w.Worsen(command.ExitMuch)
		}
		w.Fact(w.Name(s.Species), "%s needed, %s", tell.Count(s.Need, "strip"), supplyText(s))
	}
	total := rackText(shown, w.Unit)
	if left := len(whole.Entries()) - len(shown.Entries()); left > 0 {
		total += fmt.Sprintf("; not listed: %d of %d entries", left, len(whole.Entries()))
	}
	w.Fact("total", "%s", total)
	w.Result(func() result.Object { return rackJSON(whole, shown.Entries(), supplies, gives) })
	return nil
}

// rackJSON returns the JSON of some entries of a rack, with what these give.
func rackJSON(whole rack.Rack, shown []rack.Entry, supplies []solve.Supply, gives map[string]solve.Yield) result.Object {
	listed := make([]result.Listed, len(shown))
	for i, e := range shown {
		listed[i].Entry = e
		if y, ok := gives[e.ID]; ok {
			listed[i].Gives = result.Object{{"strips", y.Strips}, {"at_least", y.AtLeast}}
		}
	}
	return result.Rack(listed, len(whole.Entries())-len(shown), result.Each(supplies, func(s solve.Supply) result.Object {
		return result.Object{{"species", s.Species}, {"needed", s.Need}, {"has", s.Have}, {"at_least", s.AtLeast}}
	}))
}

// yields returns what the rack has of what purpose asks for, and what each entry of those
// timbers gives; nothing where there is no purpose.
func (w workshop) yields(ctx context.Context, purpose string) ([]solve.Supply, map[string]solve.Yield, error) {
	if purpose == "" {
		return nil, nil, nil
	}
	job, _, err := w.JobOf([]string{purpose})
	if err != nil {
		return nil, nil, err
	}
	return w.yieldsOf(ctx, job)
}

// yieldsOf is yields for a job.
func (w workshop) yieldsOf(ctx context.Context, job cutting.Job) ([]solve.Supply, map[string]solve.Yield, error) {
	supplies, yields, err := w.Env.Solvers.Yields(ctx, job)
	var broken *cutting.Broken
	if errors.As(err, &broken) {
		w.TellBroken(w.Home, err, mistake.Counts, job)
		err = nil
	}
	gives := map[string]solve.Yield{}
	for _, y := range yields {
		gives[y.ID] = y
	}
	return supplies, gives, err
}

// supplyText says what the rack gives of a timber. Where the time ran out it says so,
// and claims nothing that is not known.
func supplyText(s solve.Supply) string {
	switch {
	case s.AtLeast && s.Have >= s.Need:
		return fmt.Sprintf("the rack gives at least %d", s.Have)
	case s.AtLeast && s.Have > 0:
		return fmt.Sprintf("the rack gives at least %d: the time ran out, a longer --time may find more", s.Have)
	case s.AtLeast:
		return "not counted in the time: give it a longer --time"
	case s.Short() > 0:
		return fmt.Sprintf("the rack gives %d, at least %d short", s.Have, s.Short())
	default:
		return fmt.Sprintf("the rack gives %d", s.Have)
	}
}

// yieldText says what one entry of the rack gives.
func yieldText(y solve.Yield) string {
	switch {
	case y.AtLeast && y.Strips == 0:
		return "not counted in the time"
	case y.AtLeast:
		return "gives at least " + tell.Count(y.Strips, "strip")
	default:
		return "gives " + tell.Count(y.Strips, "strip")
	}
}

// rackText counts what lies on a rack, each copy.
func rackText(r rack.Rack, u length.Unit) string {
	pieces, ready, cm3 := rack.Totals(r.Entries())
	return fmt.Sprintf("%s, %s, %s", tell.Count(pieces, "piece"), tell.Count(ready, "ready strip"), length.Volume(cm3, u))
}

// entryForm is the form of all that the rack says of an entry, after what was done to it.
func entryForm(done string) rows.Form {
	return rows.Form{{"id", done}, {"timber", ": "}, {"size", ", "}, {"rings", ", rings "}, {"moisture", ", moisture "},
		{"besides", ", "}, {"gives", ", "}}
}

// entryCells returns the cells of an entry, but what it gives.
func (w workshop) entryCells(e rack.Entry) []string {
	size := command.Together(tell.Size(w.Unit, e.Length, e.Width, e.Thickness), command.Said(e.Planed, "planed"),
		command.Said(e.Quantity > 1, fmt.Sprintf("x%d", e.Quantity)))
	rings := e.Rings.String()
	if _, word := e.Rings.Word(); !word {
		rings += "°"
	}
	besides := e.Grain().Words(w.Unit)
	for _, f := range e.Faults {
		besides = append(besides, cmp.Or(f.Kind, "fault")+" "+command.Said(f.Along, "along ")+f.From.Format(w.Unit)+"-"+f.To.With(w.Unit))
	}
	besides = append(besides, command.Said(e.UseFirst, "use first"), length.Volume(e.VolumeCM3(), w.Unit), command.Said(e.Colour.Known, "colour "+e.Colour.RGB.String()),
		command.Said(e.Colour.Known, e.From), command.Said(e.Note != "", "note: "+e.Note))
	return []string{e.ID, command.Said(e.Ready, "ready strip, ") + w.Name(e.Species), size, rings,
		command.Said(e.Moisture.Known, fmt.Sprintf("%g %%", e.Moisture.Percent)), command.Together(besides...)}
}

// sayEntry says what became of an entry of the rack.
func (w workshop) sayEntry(done string, e rack.Entry) {
	w.Row(entryForm(done), pattern.Fine, w.entryCells(e)...)
}

// sayEntries says what became of entries of the rack, which is after now.
func (w workshop) sayEntries(done string, after rack.Rack, list ...rack.Entry) {
	for _, e := range list {
		w.sayEntry(done, e)
	}
	w.Result(func() result.Object { return rackJSON(after, list, nil, nil) })
}

// ownRack refuses --rack where the rack of the home is written.
func (a *app) ownRack(cmd *cobra.Command, _ []string) error {
	if a.Flags.Rack == "" {
		return nil
	}
	return failure.Usage("--home DIR writes to the rack of another home", "%s writes to the rack of a home, not to that of --rack", calledAs(cmd))
}
