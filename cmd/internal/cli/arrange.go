package cli

import (
	"context"
	"fmt"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"example.com/oddments/cmd/internal/command"
	"example.com/oddments/cmd/internal/failure"
	"example.com/oddments/cmd/internal/result"
	"example.com/oddments/cmd/internal/rows"
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/second"
	"example.com/oddments/pattern/store"
)

func (a *app) arrangeCommand() *cobra.Command {
	fresh := false
	cmd := a.command("arrange", task{json: "oddments/arrange 1", takes: somePatterns(""), complete: a.completeOnePattern,
		errand: func(_ context.Context, w workshop, args []string) error { return w.arrange(args[0], args[1:], fresh) }})
	cmd.Long += "\n"
	for _, m := range edit.SpokenMoves() {
		cmd.Long += fmt.Sprintf("\n  %s\n      %s", m.Usage(), m.Does())
	}
	cmd.Flags().BoolVar(&fresh, "new", false, "begin an empty pattern of that name")
	return cmd
}

func (w workshop) arrange(arg string, moves []string, fresh bool) error {
	var saved store.Saved
	var err error
	state := edit.State{}
	if fresh {
		if state, err = edit.SetName(state, strings.Trim(arg, " ")); err != nil {
			return failure.Usage("", "--new %q: %v", arg, err)
		}
		if state.Pattern.Name == "" {
			return failure.Usage(`write it like oddments arrange --new "Hearth trivet"`, "--new %q: a pattern needs a name, one line", arg)
		}
	} else if saved, err = w.Open(arg); err == nil {
		state.Pattern = saved.Pattern
	}
	if err != nil {
		return err
	}
	words, err := w.vocabulary()
	if err != nil {
		return err
	}
	for i, text := range moves {
		if err := command.OneLine(text); err != nil {
			return failure.Usage(command.UnchangedPattern, "move %d, %q: %v", i+1, text, err)
		}
		if state, err = words.Make(state, text); err != nil {
			return failure.Usage("the pattern is as it was; oddments help arrange lists the moves", "move %d, %q: %v", i+1, text, err)
		}
	}
	switch {
	case fresh && (state.Pattern.Panel.Length == 0 || state.Pattern.Panel.Thickness == 0):
		return failure.Usage(`add moves like "panel length 300" "panel thickness 20"`, "a new pattern needs the panel's length and thickness")
	case fresh:
		return w.keepNew(state.Pattern)
	case len(moves) > 0:
		err = w.KeepPattern(saved, state.Pattern)
	}
	if saved.Pattern = state.Pattern; err == nil {
		w.sayStrips(saved)
	}
	return err
}

// keepNew saves a new pattern under a stem of its own, and lists it.
func (w workshop) keepNew(p pattern.Pattern) error {
	stem, err := w.Home.FreeStem(p.Name)
	if err == nil {
		err = w.Keep(command.KeepFlags{Name: p.Name}, "", []pattern.Pattern{p})
	}
	if err == nil {
		w.sayStrips(store.Saved{Stem: stem, Pattern: p})
	}
	return err
}

// vocabulary returns what moves and strips need that are typed.
func (w workshop) vocabulary() (edit.Vocabulary, error) {
	r, err := w.ReadRack()
	return edit.Vocabulary{Allow: check.Allowances(w.Shop), Find: rack.NewLookup(w.Table, r.Species()).Key}, err
}

// sayStrips lists the panel and its strips, one fact a row.
func (w workshop) sayStrips(saved store.Saved) {
	p := saved.Pattern
	w.SayPattern(saved)
	made := "flat"
	if p.Panel.Make == pattern.MakeEdge {
		made = "on edge"
	}
	w.Fact("panel", "%s long, %s thick%s, strips made %s", p.Panel.Length.With(w.Unit), p.Panel.Thickness.With(w.Unit),
		command.Said(p.Panel.Width > 0, ", "+p.Panel.Width.With(w.Unit)+" wide wanted"), made)
	for _, m := range []struct {
		what string
		at   pattern.Reading
	}{{"glued at", p.Panel.Moisture}, {"flattened at", p.Panel.Flattened}} {
		if m.at.Known {
			w.Fact("panel", "%s %g %% moisture", m.what, m.at.Percent)
		}
	}
	if p.Notes != "" {
		w.Fact("notes", "%s", p.Notes)
	}
	strip := rows.Form{{"strip", "strip "}, {"timber", ": "}, {"width", ", ", " wide"}, {"rings", ", rings "}, {"moisture", ", moisture "},
		{"length", ", ", " long"}, {"start", ", starts at "}, {"", ", "}}
	for i, s := range p.Strips {
		rings := s.Rings.String()
		if _, word := s.Rings.Word(); !word {
			rings += " degrees"
		}
		w.Row(strip, pattern.Fine, strconv.Itoa(i+1), w.Name(s.Species), s.Width.With(w.Unit), rings,
			command.Said(s.Moisture.Known, fmt.Sprintf("%g %%", s.Moisture.Percent)), command.Said(s.Length > 0, s.Length.With(w.Unit)),
			command.Said(s.Start > 0, s.Start.With(w.Unit)),
			command.Together(append(s.Grain().Words(w.Unit), command.Said(s.Turned, "end for end"), command.Said(s.Over, "face down"), command.Said(s.Pinned, "pinned"))...))
	}
	w.Fact("glue-up width", "%s", p.Width().With(w.Unit))
	w.SayGlueUps(second.Of(p, w.Shop.Takes()))
	w.Result(func() result.Object { return result.Strips(saved.Stem, p) })
}
