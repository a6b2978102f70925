package cli

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"example.com/oddments/cmd/internal/rows"
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/store"
)

func (a *app) arrangeCommand() *cobra.Command {
	fresh := false
	cmd := a.command("arrange", task{takes: somePatterns(""), complete: a.completeOnePattern,
		run: func(_ *cobra.Command, args []string) error { return a.arrange(args[0], args[1:], fresh) }})
	cmd.Long += "\n"
	for _, m := range edit.SpokenMoves() {
		cmd.Long += fmt.Sprintf("\n  %s\n      %s", m.Usage(), m.Does())
	}
	cmd.Flags().BoolVar(&fresh, "new", false, "begin an empty pattern of that name")
	return cmd
}

func (a *app) arrange(arg string, moves []string, fresh bool) error {
	w, err := a.workshop()
	if err != nil {
		return err
	}
	var saved store.Saved
	state := edit.State{}
	if fresh {
		if state, err = edit.SetName(state, strings.Trim(arg, " ")); err != nil {
			return usage("", "--new %q: %v", arg, err)
		}
		if state.Pattern.Name == "" {
			return usage(`write it like oddments arrange --new "Hearth trivet"`, "--new %q: a pattern needs a name, one line", arg)
		}
	} else if saved, err = w.home.OpenPattern(arg, w.known); err == nil {
		state.Pattern = saved.Pattern
	}
	if err != nil {
		return err
	}
	r, err := a.readRack(w)
	if err != nil {
		return err
	}
	look := rack.NewLookup(w.table, r.Species())
	words := edit.Vocabulary{Allow: check.Allowances(w.shop), Find: func(words string) (string, error) {
		found, err := look.Find(words)
		return found.Key, err
	}}
	for i, text := range moves {
		if err := oneLine(text); err != nil {
			return usage(unchangedPattern, "move %d, %q: %v", i+1, text, err)
		}
		if state, err = words.Make(state, text); err != nil {
			return usage("the pattern is as it was; oddments help arrange lists the moves", "move %d, %q: %v", i+1, text, err)
		}
	}
	switch {
	case fresh && (state.Pattern.Panel.Length == 0 || state.Pattern.Panel.Thickness == 0):
		return usage(`add moves like "panel length 300" "panel thickness 20"`, "a new pattern needs the panel's length and thickness")
	case fresh:
		err = a.keep(w, keepFlags{name: state.Pattern.Name}, "", []pattern.Pattern{state.Pattern})
	case len(moves) > 0:
		err = a.keepPattern(w, saved, state.Pattern)
	}
	if err != nil {
		return err
	}
	saved.Pattern = state.Pattern
	a.sayStrips(w, saved, a.unit(w.shop))
	return nil
}

// sayStrips lists the panel and its strips, one fact a row.
func (a *app) sayStrips(w workshop, saved store.Saved, u length.Unit) {
	p := saved.Pattern
	if saved.Stem == "" { // it was saved under a stem of its own, which was said
		a.fact("pattern", "%s", p.Name)
	} else {
		a.sayPattern(saved)
	}
	made := "flat"
	if p.Panel.Make == pattern.MakeEdge {
		made = "on edge"
	}
	a.fact("panel", "%s long, %s thick%s, strips made %s", p.Panel.Length.With(u), p.Panel.Thickness.With(u),
		said(p.Panel.Width > 0, ", "+p.Panel.Width.With(u)+" wide wanted"), made)
	for _, m := range []struct {
		what string
		at   pattern.Reading
	}{{"glued at", p.Panel.Moisture}, {"made flush at", p.Panel.Flattened}} {
		if m.at.Known {
			a.fact("panel", "%s %g %% moisture", m.what, m.at.Percent)
		}
	}
	if p.Notes != "" {
		a.fact("notes", "%s", p.Notes)
	}
	strip := rows.Form{{"strip", "strip "}, {"timber", ": "}, {"width", ", ", " wide"}, {"rings", ", rings "}, {"moisture", ", moisture "},
		{"length", ", ", " long"}, {"start", ", starts at "}, {"turned", ", turned "}, {"", ", turned "}, {"", ", "}}
	for i, s := range p.Strips {
		rings := s.Rings.String()
		if _, word := s.Rings.Word(); !word {
			rings += " degrees"
		}
		a.row(strip, pattern.Fine, strconv.Itoa(i+1), w.name(s.Species), s.Width.With(u), rings,
			said(s.Moisture.Known, fmt.Sprintf("%g %%", s.Moisture.Percent)), said(s.Length > 0, s.Length.With(u)),
			said(s.Start > 0, s.Start.With(u)), said(s.Turned, "end for end"), said(s.Over, "over"), said(s.Pinned, "pinned"))
	}
	a.fact("glue-up width", "%s", p.Width().With(u))
}
