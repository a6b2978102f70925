// Package pileset is the command that lays out panels for the orders of a market from all of a
// rack: what it reads, prints and saves.
package pileset

import (
	"context"
	"errors"
	"fmt"
	"math"
	"time"

	"example.com/oddments/cmd/internal/command"
	"example.com/oddments/cmd/internal/failure"
	"example.com/oddments/cmd/internal/result"
	"example.com/oddments/cmd/internal/rows"
	"example.com/oddments/cmd/internal/typed"
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/mistake"
	"example.com/oddments/pattern/orders"
	"example.com/oddments/pattern/pile"
	"example.com/oddments/pattern/pile/sets"
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/pattern/worksteps"
)

// Flags are those of pile without a PATTERN.
type Flags struct {
	Orders string
	Save   bool
}

// setText prints the set of panels that the pile becomes.
type setText struct {
	command.Workshop
	ask   sets.Request
	set   sets.Set
	used  []pile.Used
	left  []sets.Left
	money bool // worths are the maker's, else volumes
}

// Run lays panels out for the orders, from all of the rack.
func Run(ctx context.Context, w command.Workshop, f Flags) error {
	t := setText{Workshop: w}
	if f.Save {
		w.Hold()
	}
	if err := t.read(f); err != nil {
		return err
	}
	var err error
	if t.set, err = sets.Find(ctx, t.ask, sets.Options{}); err != nil {
		return err
	}
	w.TellBroken(w.Home, t.set.Plan.Broken, mistake.Plan, t.ask.Job(t.set.Panels))
	if t.used, t.left, err = sets.After(t.ask, t.set); err != nil {
		return err
	}
	if t.set.Short > 0 || len(t.set.Panels) == 0 {
		w.Worsen(command.ExitMuch)
	}
	w.Result(t.result)
	t.print(t.set.Late || errors.Is(ctx.Err(), context.DeadlineExceeded))
	if f.Save {
		return t.save()
	}
	return nil
}

// demo takes the demo's rack and market where the home has nothing yet, and reports whether it did.
func (t *setText) demo(f Flags) (bool, error) {
	if t.Flags.Rack != "" || f.Orders != "" {
		return false, nil
	}
	saved, err := t.Home.Patterns(t.Table)
	_, racked, wrong := t.Home.Rack(t.Table)
	_, ordered, wrongToo := t.Home.Orders(store.Against{Known: t.Table})
	if err = errors.Join(err, wrong, wrongToo); err != nil || len(saved) > 0 || racked != store.Absent || ordered != store.Absent {
		return false, err
	}
	if f.Save {
		return false, failure.Usage("add a piece of yours first: oddments rack add \"hornbeam 620 x 85 x 40\"", "this home has no rack yet, and the demo's boards are not saved")
	}
	w, demo, err := t.Workshop.Demo()
	t.Workshop, t.ask.Rack, t.ask.Wants = w, demo.Rack, demo.Orders
	t.Message("oddments: nothing is saved in %s, so here is what the demo's rack can become for its market; nothing is written\n", failure.Visible(t.Home.Dir()))
	return true, err
}

// read reads the rack, and the orders held against it.
func (t *setText) read(f Flags) error {
	demo, err := t.demo(f)
	if err == nil && !demo {
		err = t.readOwn(f.Orders)
	}
	if err != nil {
		return err
	}
	t.ask.Physics, t.money = t.Physics(), orders.InMoney(t.ask.Wants)
	taken := map[string]bool{}
	saved, err := t.Home.Patterns(t.Table)
	for _, one := range saved {
		taken[one.Stem] = true
	}
	t.ask.Taken = func(stem string) bool { return taken[stem] }
	return err
}

// readOwn reads the maker's own.
func (t *setText) readOwn(file string) (err error) {
	if t.ask.Rack, err = t.ReadRack(); err != nil {
		return err
	}
	if len(t.ask.Rack.Entries()) == 0 {
		return &failure.Problem{Code: failure.CodeBadFile, File: t.rackFile(), Line: new(1), Column: new(1), Field: "piece",
			Message: "the rack is empty", Hint: "add a piece: oddments rack add \"hornbeam 620 x 85 x 40\""}
	}
	against := store.Against{Known: t.Table, Shop: &t.Shop, Rack: &t.ask.Rack}
	named := file
	if named == "" {
		named = t.Home.OrdersFile()
		t.ask.Wants, _, err = t.Home.Orders(against)
	} else {
		t.ask.Wants, err = store.OpenOrders(file, against)
	}
	if err != nil {
		return err
	}
	if len(t.ask.Wants) == 0 {
		return &failure.Problem{Code: failure.CodeBadFile, File: named, Line: new(1), Column: new(1), Field: "want", Message: "there are no orders",
			Hint: "type them on the pile screen, or add [[want]] with id, shape, sizes and thickness; or name patterns: oddments pile PATTERN..."}
	}
	return nil
}

// rackFile names the file that the rack is read from.
func (t *setText) rackFile() string {
	if t.Flags.Rack != "" {
		return t.Flags.Rack
	}
	return t.Home.RackFile()
}

// save writes every panel as a pattern, all or none.
func (t setText) save() error {
	if len(t.set.Panels) == 0 {
		return nil
	}
	var all []store.Saved
	for _, p := range t.set.Panels {
		all = append(all, store.Saved{Stem: p.Stem, Pattern: p.Pattern})
	}
	t.Writes()
	_, err := t.Home.SaveSet(all)
	if err = t.Done(t.Home, err); err == nil {
		var stems []string
		for _, p := range t.set.Panels {
			stems = append(stems, p.Stem)
		}
		t.Fact("saved", "%s: %s", tell.Count(len(stems), "pattern"), tell.List(stems, "and"))
	}
	return err
}

// Worth writes what something is worth: in money, or by its volume.
func Worth(x float64, money bool, u length.Unit) string {
	if money {
		return fmt.Sprintf("%.2f", x)
	}
	return length.Volume(1000*x, u) + " of finished boards"
}

func (t setText) worth(x float64) string { return Worth(x, t.money, t.Unit) }

// proof says how much more a set could be worth at most.
func (t setText) proof() string {
	const same = 1e-9
	if t.set.Bound <= t.set.Worth*(1+same) {
		return "no set is worth more (proved)"
	}
	return fmt.Sprintf("no set is worth more than %s", t.worth(t.set.Bound))
}

func (t setText) print(late bool) {
	for i, w := range t.ask.Wants {
		text := "none"
		if n := t.set.Made[i]; n == 0 {
			for _, key := range w.Lacks(t.ask.Rack) {
				text += "; the rack has no " + t.Name(key)
			}
		} else {
			text = fmt.Sprintf("%d, worth %s", n, t.worth(float64(n)*w.Each()))
		}
		if lack := w.Least - t.set.Made[i]; lack > 0 {
			text += fmt.Sprintf("; %d short of the %d wanted", lack, w.Least)
		}
		t.Fact("make "+w.ID, "%s", text)
	}
	t.Fact("worth", "%s, %s", t.worth(t.set.Worth), t.proof())
	if late {
		t.Fact("time", "the %s s ran out; more with --time may bring a better set", typed.Shown(t.Flags.Seconds))
	}
	if len(t.set.Panels) > 0 {
		t.Fact("uses up", "%s, which does not come back; nothing short", length.Volume(t.set.Plan.GoneCM3, t.Unit))
	}
	form := rows.Form{{"panel", ""}, {"holds", ": "}, {"wide", ", "}, {"level", ", "}, {"strips", ": "}}
	for _, p := range t.set.Panels {
		level := suggest.LevelOf(t.Physics(), p.Pattern)
		t.Row(form, level, p.Stem, tell.Count(p.Copies(), "product"), p.Pattern.Width().With(t.Unit)+" wide", level.String(), t.strips(p.Pattern))
	}
	for _, u := range t.used {
		if u.RackCM3 > 0 {
			t.Fact("timber", "%s: %.0f %% used of %s on the rack", t.Name(u.Species), math.Abs(100*u.UsedCM3/u.RackCM3), length.Volume(u.RackCM3, t.Unit))
		}
	}
	stays := rows.Form{{"stays", ""}, {"timber", ": "}, {"size", ", "}, {"why", ": "}}
	for _, l := range t.left {
		t.Row(stays, pattern.Fine, l.Entry.ID, t.Name(l.Entry.Species), tell.Size(t.Unit, l.Entry.Length, l.Entry.Width, l.Entry.Thickness), l.Words(t.Name, t.Unit))
	}
}

// strips says how many strips of each timber a panel has.
func (t setText) strips(p pattern.Pattern) string {
	var of tell.Groups[string, int]
	for i, s := range p.Strips {
		of.Add(s.Species, i)
	}
	var out []string
	for key, all := range of.All() {
		out = append(out, fmt.Sprintf("%d %s", len(all), t.Name(key)))
	}
	return tell.List(out, "and")
}

func (t setText) result() result.Object {
	made := []result.Object{}
	for i, w := range t.ask.Wants {
		if n := t.set.Made[i]; n > 0 {
			made = append(made, result.Object{{"want", w.ID}, {"copies", n}, {"worth", float64(n) * w.Each()}})
		}
	}
	panels := result.Each(t.set.Panels, func(p sets.Panel) result.Object {
		w := t.ask.Wants[p.Want]
		return Panel(t.Workshop, p.Pattern, w.ID, p.Stem, p.Copies(), w.Look.String(), func(i int) string { return p.Sources[i] })
	})
	used := result.Each(t.used, func(u pile.Used) result.Object {
		return result.Object{{"species", u.Species}, {"rack_cm3", u.RackCM3}, {"used_cm3", u.UsedCM3}}
	})
	left := result.Each(t.left, func(l sets.Left) result.Object {
		return result.Object{{"id", l.Entry.ID}, {"reason", l.Words(t.Name, t.Unit)}}
	})
	return result.Object{
		{"format", "oddments/pile 1"}, {"status", t.set.Status()}, {"worth", t.set.Worth}, {"bound", t.set.Bound}, {"made", made}, {"panels", panels},
		{"used_pct", used}, {"plan", result.Plan(t.set.Plan, time.Since(t.Began).Seconds(), worksteps.Steps(worksteps.ByMachine, t.ask.Job(t.set.Panels), t.set.Plan, t.Name, length.InMM))}, {"left", left},
	}
}

// Panel returns the JSON of a panel.
func Panel(w command.Workshop, p pattern.Pattern, want, stem string, copies int, look string, source func(strip int) string) result.Object {
	smallest := math.Inf(1)
	for _, l := range w.Physics().Panel(p).Lines() {
		smallest = min(smallest, l.Contrast)
	}
	strips := []result.Object{}
	for i, s := range p.Strips {
		strips = append(strips, result.Object{{"species", s.Species}, {"width_mm", s.Width},
			{"length_mm", p.StripLength(s, w.Shop.Allowance.Length)}, {"start_mm", s.Start}, {"rings", s.Rings}, {"source", source(i)}})
	}
	return result.Object{
		{"want", want}, {"pattern", stem}, {"copies", copies}, {"width_mm", p.Width()}, {"level", suggest.LevelOf(w.Physics(), p)},
		{"smallest_contrast", result.Known(smallest, !math.IsInf(smallest, 1))}, {"look", look}, {"strips", strips},
	}
}
