package cli

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"example.com/oddments/cmd/internal/command"
	"example.com/oddments/cmd/internal/failure"
	"example.com/oddments/cmd/internal/result"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/tell"
)

func (a *app) rackAddCommand() *cobra.Command {
	return a.command("rack add", task{json: "oddments/rack 1",
		takes:  cobra.MatchAll(needs("a LINE", `write it like oddments rack add "black cherry 620 85 77"`), a.ownRack),
		errand: func(_ context.Context, w workshop, args []string) error { return w.rackAdd(asLines(args)) }})
}

// asLines returns the lines that args are: each its own where all are of several words, else
// all of them together one that stands without quotes.
func asLines(args []string) []string {
	if slices.ContainsFunc(args, func(a string) bool { return !strings.ContainsAny(a, " \t") }) {
		return []string{strings.Join(args, " ")}
	}
	return args
}

func (w workshop) rackAdd(lines []string) error {
	if err := w.settleTimbers("rack add", lines); err != nil {
		return err
	}
	var added []rack.Entry
	after, err := w.ChangeRack(func(r rack.Rack) (next rack.Rack, err error) {
		next, added, err = w.addLines(r, lines)
		return next, err
	})
	if err != nil {
		return err
	}
	w.sayEntries("added ", after, added...)
	return nil
}

// settleTimbers asks, for each line of a command whose timber may be several, which is meant,
// and writes that into the line. Where nobody can be asked it says what to type.
func (w workshop) settleTimbers(command string, lines []string) error {
	r, _, err := w.Home.Rack(w.Table)
	if err != nil {
		return err
	}
	var chosen []string
	for i, line := range lines {
		look := w.lookup(r, chosen)
		if u := rack.UnclearTimber(line, look, length.InMM); u != nil {
			at := w.Choose(fmt.Sprintf("%q is the name of several timbers", u.Words), u.Names)
			if at < 0 {
				return typeOneOf(command, u)
			}
			lines[i] = u.Lines[at]
		}
		if e, err := rack.ParseLine(lines[i], look, length.InMM); err == nil {
			chosen = append(chosen, e.Species)
		}
	}
	return nil
}

// lookup finds timbers by name: that chosen last in the same command goes before those chosen
// earlier, and these before the timbers of the rack.
func (w workshop) lookup(r rack.Rack, chosen []string) rack.Lookup {
	var prefer [][]string
	for _, key := range slices.Backward(chosen) {
		prefer = append(prefer, []string{key})
	}
	return rack.NewLookup(w.Table, append(prefer, r.Species())...)
}

// typeOneOf says what to type in place of a command whose timber may be several.
func typeOneOf(called string, u *rack.Unclear) error {
	const most = 6
	var commands []string
	for _, line := range u.Lines[:min(most, len(u.Lines))] {
		commands = append(commands, fmt.Sprintf("oddments %s %q", called, line))
	}
	return failure.Usage(command.UnchangedRack+"; write "+tell.List(commands, "or"), "%q may be %s", u.Words, tell.List(u.Names, "or"))
}

// addLines puts what all lines say on r, as settleTimbers has settled them.
func (w workshop) addLines(r rack.Rack, lines []string) (rack.Rack, []rack.Entry, error) {
	var added []rack.Entry
	var chosen []string
	before := r
	var wrong []*failure.Problem
	for i, line := range lines {
		look := w.lookup(before, chosen)
		e, err := rack.ParseLine(line, look, length.InMM)
		if err == nil {
			chosen = append(chosen, e.Species)
			if r, e, err = r.Add(e, look); err == nil {
				added = append(added, e)
				continue
			}
		}
		wrong = append(wrong, failure.Usage("", "line %d: %v", i+1, err))
	}
	return r, added, failure.Join(command.UnchangedRack, wrong...)
}

func (a *app) rackChangeCommand() *cobra.Command {
	return a.command("rack change", task{json: "oddments/rack 1", complete: a.completeRackID,
		takes: func(cmd *cobra.Command, args []string) error {
			if len(args) < 2 {
				return failure.Usage("write it like oddments rack change PE1 pear 590 57 36 flat",
					"rack change needs an ID and a LINE")
			}
			return a.ownRack(cmd, args)
		},
		errand: func(_ context.Context, w workshop, args []string) error {
			return w.rackChange(args[0], strings.Join(args[1:], " "))
		}})
}

func (w workshop) rackChange(id, line string) error {
	lines := []string{line}
	if err := w.settleTimbers("rack change "+id, lines); err != nil {
		return err
	}
	var changed rack.Entry
	after, err := w.ChangeRack(func(r rack.Rack) (rack.Rack, error) {
		e, err := rack.ParseLine(lines[0], rack.NewLookup(w.Table, r.Species()), length.InMM)
		if err != nil {
			return r, err
		}
		old, ok := r.Get(id)
		if !ok {
			return r, noSuchID(id)
		}
		e.ID = cmp.Or(e.ID, id)
		e = e.Keeping(old)
		changed = e
		return r.Replace(id, e)
	})
	if err != nil {
		return err
	}
	w.sayEntries("changed ", after, changed)
	return nil
}

func (a *app) rackUsedCommand() *cobra.Command {
	return a.command("rack used", task{json: "oddments/used 1", complete: a.completeRackID,
		takes:  cobra.MatchAll(needs("an ID", "write it like oddments rack used PE1"), a.ownRack),
		errand: func(_ context.Context, w workshop, args []string) error { return w.rackUsed(args) }})
}

func (w workshop) rackUsed(args []string) error {
	var news []func()
	used := []result.Object{}
	_, err := w.ChangeRack(func(r rack.Rack) (rack.Rack, error) {
		for _, arg := range args {
			id, n, err := howManyUsed(r, arg)
			if err == nil {
				r, err = r.Use(id, n)
			}
			if err != nil {
				return r, err
			}
			e, left := r.Get(id)
			used = append(used, result.Object{{"id", id}, {"used", n}, {"left", e.Quantity}})
			if left {
				news = append(news, func() { w.sayEntry(fmt.Sprintf("used %d of %s, left ", n, id), e) })
			} else {
				news = append(news, func() { w.Say("used up %s", id) })
			}
		}
		return r, nil
	})
	if err != nil {
		return err
	}
	for _, say := range news {
		say()
	}
	w.Result(func() result.Object { return result.Object{{"format", "oddments/used 1"}, {"used", used}} })
	return nil
}

func noSuchID(id string) error {
	return failure.New(failure.CodeNotFound, command.UnchangedRack+"; oddments rack list prints the ids", "the rack has no %q", id)
}

// howManyUsed reads an ID, of which all are used, or ID=N.
func howManyUsed(r rack.Rack, arg string) (id string, n int, err error) {
	if e, ok := r.Get(arg); ok { // an id may have a = in it
		return arg, e.Quantity, nil
	}
	if id, n, err = command.WithCopies(arg); err != nil {
		return id, n, failure.Usage(command.UnchangedRack+"; PE1=2 takes two of PE1 off", "%q: must be an id, or an id with how many", arg)
	}
	e, ok := r.Get(id)
	switch {
	case !ok:
		return id, n, noSuchID(id)
	case n > e.Quantity:
		return id, n, failure.Usage(command.UnchangedRack, "%s=%d: the rack has %d", id, n, e.Quantity)
	}
	return id, n, nil
}

// completeRackID offers the ids of the rack.
func (a *app) completeRackID(*cobra.Command, []string, string) (ids []string, none cobra.ShellCompDirective) {
	none = cobra.ShellCompDirectiveNoFileComp
	w, err := a.workshop()
	if err != nil {
		return nil, none
	}
	r, _, _ := w.Home.Rack(w.Table) // one that cannot be read offers nothing
	for _, e := range r.Entries() {
		ids = append(ids, e.ID)
	}
	slices.Sort(ids)
	return ids, none
}
