package cli

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/mistake"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/tell"
)

const rackLong = `rack keeps the timber that you have: pieces, rough or planed, and ready strips.
rack list prints it, rack add writes down what you say, rack change and rack
used keep it right, rack import takes a file over, and rack export gives it out
as a table for a spreadsheet.

The rack is rack.toml in your home. What is saved is whole or not at all, the
rack before it is kept as rack.toml.bak.`

func (a *app) rackCommand() *cobra.Command {
	cmd := &cobra.Command{
		Use:               "rack list|add|change|used|import|export",
		Short:             "list the timber of the rack, and write down what comes to it",
		Long:              rackLong,
		Example:           "  oddments rack list cherry 300\n  oddments rack add \"black cherry 620 85 77 flat 9.1 % x2\"\n  oddments rack export shed.csv",
		Args:              rackArgs,
		RunE:              func(*cobra.Command, []string) error { return nil }, // Args lets nothing through
		ValidArgsFunction: cobra.NoFileCompletions,
	}
	cmd.SuggestionsMinimumDistance = 2
	cmd.AddCommand(a.rackListCommand(), a.rackAddCommand(), a.rackChangeCommand(), a.rackUsedCommand(), a.rackImportCommand(), a.rackExportCommand())
	return cmd
}

// rackArgs refuses whatever is no command of the rack's.
func rackArgs(cmd *cobra.Command, args []string) error {
	const hint = "oddments rack list, add, change, used, import or export"
	if len(args) == 0 {
		return usage(hint, "rack needs to be told what to do")
	}
	if near := cmd.SuggestionsFor(args[0]); len(near) > 0 {
		return usage(didYouMean(cmd, near), "rack has no command %q", args[0])
	}
	return usage(hint, "rack has no command %q", args[0])
}

const rackListLong = `rack list prints the pieces of the rack, then its ready strips, one a line.

FILTER is one or several words, of which all must hold: a timber by its letters
or the beginnings of its words (cherry lists all cherries), a number for the
least length (300, 30cm), "#W9" for an id, and planed, rough, first, ready,
faults, flat, rift, quarter or unknown. A number without a unit is millimetres.

--for PATTERN[=N] says with each entry how many strips of that pattern, made N
times, it gives by itself, and for each timber how many are needed. Where --time
runs out it says what is known, which is then at least so many. The exit is 1
where strips are short, and where the time ran out before enough were found.

--sort says in what order: timber (each with the longest first), length,
volume, id, or first, which begins with what is to be used first. --rack lists
another file, as CSV where it ends in .csv.`

func (a *app) rackListCommand() *cobra.Command {
	order, purpose := orderFlag(rack.ByTimber), ""
	cmd := &cobra.Command{
		Use:     "list [FILTER...]",
		Short:   "list the timber of the rack",
		Long:    rackListLong,
		Example: "  oddments rack list\n  oddments rack list maple ready --sort length\n  oddments rack list --for rookery-square=4",
		RunE: func(cmd *cobra.Command, args []string) error {
			return a.rackList(cmd.Context(), args, rack.Order(order), purpose)
		},
		ValidArgsFunction: cobra.NoFileCompletions,
	}
	cmd.Flags().Var(&order, "sort", "for rack list: timber, length, volume, id or first")
	cmd.Flags().StringVar(&purpose, "for", "", "for rack list: `PATTERN[=N]` whose strips are counted")
	var words []string
	for _, o := range rack.Orders() {
		words = append(words, o.String())
	}
	completeValues(cmd, "sort", words)
	return cmd
}

// An orderFlag is the word of an order.
type orderFlag rack.Order

func (f *orderFlag) String() string { return rack.Order(*f).String() }

func (f *orderFlag) Type() string { return "ORDER" }

func (f *orderFlag) Set(text string) error {
	order, err := rack.ParseOrder(text)
	if err == nil {
		*f = orderFlag(order)
	}
	return err
}

func (a *app) rackList(ctx context.Context, args []string, order rack.Order, purpose string) error {
	ctx, stop := a.bounded(ctx, time.Now())
	defer stop()
	w, err := a.workshop()
	if err != nil {
		return err
	}
	whole, err := a.readRack(w)
	if err != nil {
		return err
	}
	filter, err := rack.ParseFilter(strings.Join(args, " "), rack.NewLookup(w.table, whole.Species()), length.InMM)
	if err != nil {
		return usage("oddments rack list --help says what there is to filter by", "filter: %v", err)
	}
	supplies, gives, err := a.yields(ctx, w, purpose)
	if err != nil {
		return err
	}
	shown, unit := whole.Filter(filter).Sort(order), a.unit(w.shop)
	for _, e := range shown.Entries() {
		a.say("%s%s", entryText(w, e, unit), gives[e.ID])
	}
	for _, s := range supplies {
		if s.Have < s.Need { // also where more time might find them: nobody is to read it as enough
			a.worsen(exitMuch)
		}
		a.say("%s: %s needed, %s", w.name(s.Species), tell.Count(s.Need, "strip"), supplyText(s))
	}
	if left := len(whole.Entries()) - len(shown.Entries()); left > 0 {
		a.say("total: %s; not listed: %d of %d entries", rackText(shown, unit), left, len(whole.Entries()))
		return nil
	}
	a.say("total: %s", rackText(shown, unit))
	return nil
}

// yields returns what the rack has of what purpose asks for, and for each entry of those
// timbers the words for what it gives; nothing where there is no purpose.
func (a *app) yields(ctx context.Context, w workshop, purpose string) ([]solve.Supply, map[string]string, error) {
	if purpose == "" {
		return nil, nil, nil
	}
	job, _, err := a.jobOf(w, []string{purpose})
	if err != nil {
		return nil, nil, err
	}
	supplies, yields, err := a.env.Solvers.Yields(ctx, job)
	var broken *cutting.Broken
	if errors.As(err, &broken) {
		a.tellBroken(w.home, err, mistake.Counts, job)
		err = nil
	}
	gives := map[string]string{}
	for _, y := range yields {
		gives[y.ID] = ", " + yieldText(y)
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
		return "not reckoned in the time: give it a longer --time"
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
		return "not reckoned in the time"
	case y.AtLeast:
		return "gives at least " + tell.Count(y.Strips, "strip")
	default:
		return "gives " + tell.Count(y.Strips, "strip")
	}
}

// rackText counts what lies on a rack, each copy.
func rackText(r rack.Rack, u length.Unit) string {
	var cm3 float64
	for _, e := range r.Entries() {
		cm3 += e.VolumeCM3()
	}
	return fmt.Sprintf("%s, %s, %s", tell.Count(pieces(r), "piece"), tell.Count(readyStrips(r), "ready strip"), length.Volume(cm3, u))
}

// entryText returns all that the rack says of an entry, on one line.
func entryText(w workshop, e rack.Entry, u length.Unit) string {
	var b strings.Builder
	say := func(format string, args ...any) { fmt.Fprintf(&b, format, args...) }
	say("%s: ", e.ID)
	if e.Ready {
		say("ready strip, ")
	}
	say("%s, %s", w.name(e.Species), tell.Size(u, e.Length, e.Width, e.Thickness))
	if e.Planed {
		say(", planed")
	}
	if e.Quantity > 1 {
		say(", x%d", e.Quantity)
	}
	say(", rings %s", ringsText(e))
	if e.Moisture.Known {
		say(", moisture %g %%", e.Moisture.Percent)
	}
	for _, f := range e.Faults {
		along := ""
		if f.Along {
			along = "along "
		}
		say(", fault %s%s-%s", along, f.From.Format(u), f.To.With(u))
	}
	if e.UseFirst {
		say(", use first")
	}
	say(", %s", length.Volume(e.VolumeCM3(), u))
	if e.Note != "" {
		say(", note: %s", e.Note)
	}
	return b.String()
}

func ringsText(e rack.Entry) string {
	if word, ok := e.Rings.Word(); ok {
		return word
	}
	return e.Rings.String() + "°"
}

// refuseRackFlag refuses --rack where the rack of the home is written.
func (a *app) refuseRackFlag(cmd *cobra.Command) error {
	if a.flags.rack == "" {
		return nil
	}
	return usage("--home DIR writes to the rack of another home", "%s writes to the rack of a home, not to that of --rack", calledAs(cmd))
}

// changeRack lets change make a new rack of the home's, and saves it.
func (a *app) changeRack(w workshop, change func(rack.Rack) (rack.Rack, error)) error {
	before, version, err := w.home.Rack(w.known)
	if err != nil {
		return err
	}
	after, err := change(before)
	if err != nil {
		return err
	}
	return a.saveRack(w.home, after, version)
}

// saveRack saves r over the version base, and lets go of the home.
func (a *app) saveRack(home *store.Home, r rack.Rack, base store.Version) error {
	a.writes()
	_, err := home.SaveRack(r, base)
	_ = a.wrote(err)
	if closed := home.Close(); err == nil {
		err = closed
	}
	return err
}
