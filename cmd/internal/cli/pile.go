package cli

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"example.com/oddments/cmd/internal/command"
	"example.com/oddments/cmd/internal/failure"
	"example.com/oddments/cmd/internal/pileset"
	"example.com/oddments/cmd/internal/result"
	"example.com/oddments/cmd/internal/rows"
	"example.com/oddments/cmd/internal/typed"
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/booking"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/mistake"
	"example.com/oddments/pattern/pile"
	"example.com/oddments/pattern/second"
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/pattern/worksteps"
)

func (a *app) pileCommand() *cobra.Command {
	f := pileset.Flags{}
	takes := func(cmd *cobra.Command, args []string) error {
		if len(args) == 0 && !cmd.Flags().Changed("time") {
			a.Flags.Seconds = setSeconds
		}
		if len(args) > 0 && (f.Orders != "" || f.Save) {
			return failure.Usage("leave the patterns out to have panels laid out for the orders", "--orders and --save have no effect with a PATTERN")
		}
		return nil
	}
	cmd := a.command("pile", task{json: "oddments/pile 1", complete: a.completePattern, takes: takes,
		errand: func(ctx context.Context, w workshop, args []string) error {
			if len(args) == 0 {
				return pileset.Run(ctx, w.Workshop, f)
			}
			return w.pile(ctx, args)
		}})
	cmd.Flags().StringVar(&f.Orders, "orders", "", "lay panels out for the orders in `FILE` instead of yours")
	cmd.Flags().BoolVar(&f.Save, "save", false, "save every panel as a pattern")
	return cmd
}

// setSeconds is how long a set is sought where nobody says.
const setSeconds = 30

// pileText prints what the pile becomes.
type pileText struct {
	workshop
	saved  []store.Saved
	ask    pile.Request
	choice pile.Choice
	used   []pile.Used
	left   []pile.Left
	money  bool // worths are the maker's, else volumes
}

// pile chooses copies of patterns.
func (w workshop) pile(ctx context.Context, args []string) error {
	t := pileText{workshop: w}
	if err := t.read(args); err != nil {
		return err
	}
	var err error
	if t.choice, err = pile.Find(ctx, t.ask, nil); err != nil {
		return failure.Usage("oddments pile --help lists what it takes", "%v", err)
	}
	w.TellBroken(w.Home, t.choice.Plan.Broken, mistake.Plan, t.job())
	if t.used, t.left, err = pile.After(t.ask, t.choice); err != nil {
		return err
	}
	made := 0
	for _, n := range t.choice.Copies {
		made += n
	}
	if t.choice.Short > 0 || made == 0 {
		w.Worsen(command.ExitMuch)
	}
	w.Result(t.result)
	t.print(errors.Is(ctx.Err(), context.DeadlineExceeded))
	return nil
}

// read reads the patterns and what is asked of each.
func (t *pileText) read(args []string) error {
	names := make([]string, len(args))
	offers := make([]pile.Offer, len(args))
	worths := 0
	for i, arg := range args {
		var err error
		if names[i], offers[i], err = pileOffer(arg); err != nil {
			return err
		}
		if offers[i].Worth > 0 {
			worths++
		}
	}
	if t.money = worths > 0; t.money && worths < len(args) {
		return failure.Usage("say @ and what one is worth behind every pattern, or behind none: then its finished volume counts",
			"%d of %d patterns say what one is worth", worths, len(args))
	}
	all, err := t.OpenAll(names, "name each pattern once, with =MIN..MAX behind it for its copies")
	if err != nil {
		return err
	}
	var wrong []error
	for i, one := range all {
		if one.Err != nil {
			wrong = append(wrong, one.Err)
			continue
		}
		o := offers[i]
		if o.Stem, o.Pattern = one.Stem, one.Pattern; !t.money {
			o.Worth = pile.VolumeDM3(second.Ground(o.Pattern, second.Of(o.Pattern, t.Shop.Takes())))
		}
		t.saved, t.ask.Offers = append(t.saved, one.Saved), append(t.ask.Offers, o)
	}
	t.ask.Shop = t.Shop
	if t.ask.Rack, err = t.ReadRack(); err != nil {
		wrong = append(wrong, err)
	}
	return errors.Join(wrong...)
}

// pileOffer reads PATTERN[=MIN..MAX][@WORTH]. In the name of a file = and @ may stand where no
// number follows.
func pileOffer(arg string) (name string, o pile.Offer, err error) {
	name = arg
	if at := strings.LastIndexByte(name, '@'); at >= 0 {
		worth, ok := typed.Number(name[at+1:])
		switch {
		case ok && worth > 0 && worth < 1e9:
			name, o.Worth = name[:at], worth
		case !store.IsFile(arg):
			return "", o, failure.Usage("write it like tray@38", "%q: what one is worth must be a plain number above 0", arg)
		}
	}
	at := strings.LastIndexByte(name, '=')
	if at < 0 {
		return name, o, nil
	}
	least, most, ranged := strings.Cut(name[at+1:], "..")
	if !ranged {
		most = least
	}
	numbers := [2]int{0, 0}
	for i, text := range []string{least, most} {
		n, wrong := strconv.ParseUint(text, 10, 31)
		if text == "" && ranged {
			continue
		}
		if wrong != nil || n > pile.MostCopies || i == 1 && n == 0 {
			if store.IsFile(arg) && (text == "" || strings.Trim(text, "0123456789") != "") {
				return name, o, nil
			}
			return "", o, failure.Usage("tray=1..4 is made 1 to 4 times, tray=2.. twice or more, tray=..4 at most 4 times",
				"%q: the copies must be numbers from 1 to %d, the least from 0", arg, pile.MostCopies)
		}
		numbers[i] = int(n)
	}
	o.Least, o.Most = numbers[0], numbers[1]
	if o.Most > 0 && o.Least > o.Most {
		return "", o, failure.Usage("put the smaller number first", "%q: at least %d and at most %d contradict each other", arg, o.Least, o.Most)
	}
	return name[:at], o, nil
}

// job returns the job of all copies that are made.
func (t pileText) job() cutting.Job {
	job := cutting.Job{Rack: t.ask.Rack, Shop: t.ask.Shop}
	for i, o := range t.ask.Offers {
		if n := t.choice.Copies[i]; n > 0 {
			job.Patterns = append(job.Patterns, cutting.Demand{Stem: o.Stem, Pattern: o.Pattern, Copies: n})
		}
	}
	return job
}

func (t pileText) print(late bool) {
	c := t.choice
	for i, o := range t.ask.Offers {
		text := "none"
		if n := c.Copies[i]; n > 0 {
			text = fmt.Sprintf("%s, worth %s", tell.Times(n), pileset.Worth(float64(n)*o.Worth, t.money, t.Unit))
		}
		if lack := o.Least - c.Copies[i]; lack > 0 {
			text += fmt.Sprintf("; %d short of the %d wanted", lack, o.Least)
		}
		if names := t.names(c.Lacks[i]); len(names) > 0 {
			text += "; one more lacks " + tell.List(names, "and")
		}
		t.Fact("make "+command.Called(t.saved[i]), "%s", text)
	}
	t.Fact("worth", "%s, %s", pileset.Worth(c.Worth, t.money, t.Unit), t.proof())
	if late && !c.Greatest {
		t.Fact("time", "the %s s ran out; more with --time may bring a better set", typed.Shown(t.Flags.Seconds))
	}
	if len(t.job().Patterns) > 0 {
		t.Fact("counted", "%s", t.counted())
		t.Fact("uses up", "%s, which does not come back", length.Volume(c.Plan.GoneCM3, t.Unit))
	}
	for _, u := range t.used {
		if u.RackCM3 > 0 {
			t.Fact("timber", "%s: %.0f %% used of %s on the rack", t.Name(u.Species), math.Abs(100*u.UsedCM3/u.RackCM3), length.Volume(u.RackCM3, t.Unit))
		}
	}
	form := rows.Form{{"stays", ""}, {"timber", ": "}, {"size", ", "}, {"why", ": "}}
	for _, l := range t.left {
		t.Row(form, pattern.Fine, l.Entry.ID, t.Name(l.Entry.Species), tell.Size(t.Unit, l.Entry.Length, l.Entry.Width, l.Entry.Thickness), t.why(l))
	}
}

// names returns timbers by name.
func (t pileText) names(keys []string) (names []string) {
	for _, key := range keys {
		names = append(names, t.Name(key))
	}
	return names
}

// proof says how sure it is that nothing is worth more.
func (t pileText) proof() string {
	switch c := t.choice; {
	case c.Greatest:
		return "no set of copies is worth more (proved)"
	case c.Fewest:
		return fmt.Sprintf("no set is worth more than %s", pileset.Worth(c.Bound, t.money, t.Unit))
	default:
		return "not proved the most"
	}
}

// counted says how much timber the plan of all copies counts.
func (t pileText) counted() string {
	text := length.Volume(t.choice.Plan.DrawnCM3, t.Unit) + ", " + planProof(t.choice.Plan, false, t.Unit)
	if t.choice.Least {
		text += "; no other set of this worth counts less (proved)"
	}
	return text
}

// why says what keeps an entry on the rack.
func (t pileText) why(l pile.Left) string {
	others := slices.DeleteFunc(slices.Clone(l.Lacks), func(key string) bool { return key == l.Entry.Species })
	switch {
	case l.Miss.Reason != cutting.Gives:
		return l.Miss.Words(t.Unit)
	case len(others) > 0:
		return "one more board lacks " + tell.List(t.names(others), "and")
	case len(l.Lacks) > 0:
		return "too little for one more board"
	default:
		return "no more boards are asked for"
	}
}

func (t pileText) result() result.Object {
	c := t.choice
	made, panels := []result.Object{}, []result.Object{}
	job := t.job()
	sources := booking.Sources(job, c.Plan)
	for i, o := range t.ask.Offers {
		if n := c.Copies[i]; n > 0 {
			made = append(made, result.Object{{"want", o.Stem}, {"copies", n}, {"worth", float64(n) * o.Worth}})
			panels = append(panels, t.panel(o, n, sources))
		}
	}
	used := result.Each(t.used, func(u pile.Used) result.Object {
		return result.Object{{"species", u.Species}, {"rack_cm3", u.RackCM3}, {"used_cm3", u.UsedCM3}}
	})
	left := result.Each(t.left, func(l pile.Left) result.Object { return result.Object{{"id", l.Entry.ID}, {"reason", t.why(l)}} })
	return result.Object{
		{"format", "oddments/pile 1"}, {"status", c.Status()}, {"worth", c.Worth}, {"bound", c.Bound}, {"made", made}, {"panels", panels},
		{"used_pct", used}, {"plan", t.planJSON(job, c.Plan, worksteps.ByMachine)}, {"left", left},
	}
}

// panel returns the JSON of a pattern that is made n times; its strips' sources are those of the
// first copy.
func (t pileText) panel(o pile.Offer, n int, sources map[cutting.Ref]booking.Source) result.Object {
	return pileset.Panel(t.Workshop, o.Pattern, o.Stem, o.Stem, n, "any", func(i int) string {
		return sources[cutting.Ref{Pattern: o.Stem, Copy: 1, Strip: i + 1}].ID
	})
}
