package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/spoken"
	"example.com/oddments/pattern/store"
)

const arrangeLong = `arrange lists the strips of a pattern from left to right, with all that is said
of each, and makes the bench's moves by words, for whoever would rather not see
them drawn. Each MOVE stands in quotes and is made after the one before; strips
are counted from 1 as they lie then. Where one cannot be made none is. What
comes of them is saved, the file before it kept as .bak, and listed.

--new begins an empty pattern, which is called PATTERN and saved under that
name, with a number behind it where the name is taken. A number without a unit
is millimetres. The moves:

`

func arrangeHelp() string {
	var b strings.Builder
	b.WriteString(arrangeLong)
	for _, m := range spokenMoves() {
		fmt.Fprintf(&b, "  %s\n      %s\n", m.usage(), m.moves[0].Said.Does)
	}
	return strings.TrimSuffix(b.String(), "\n")
}

func (a *app) arrangeCommand() *cobra.Command {
	fresh := false
	cmd := &cobra.Command{
		Use:   "arrange PATTERN [MOVE...]",
		Short: "list a pattern's strips, and arrange them by words",
		Long:  arrangeHelp(),
		Example: "  oddments arrange rookery-square\n  oddments arrange rookery-square \"swap 3 5\" \"over 4\" fill\n" +
			"  oddments arrange --new \"Hearth trivet\" \"panel length 300\" \"panel thickness 20\" \"put hornbeam 25\" \"put pear 12\" \"twin 1\"",
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return usage("name a saved pattern, or a file with a slash or .toml", "arrange needs a PATTERN")
			}
			return nil
		},
		RunE:              func(_ *cobra.Command, args []string) error { return a.arrange(args[0], args[1:], fresh) },
		ValidArgsFunction: a.completeOnePattern,
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
	for i, text := range moves {
		if err := oneLine(text); err != nil {
			return usage("the pattern is as it was", "move %d, %q: %v", i+1, text, err)
		}
		words := moveWords{Line: spoken.Line{Text: text}, look: rack.NewLookup(w.table, r.Species()), allow: check.Allowances(w.shop)}
		if state, err = words.move(state); err != nil {
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

// move makes the move that the words say.
func (w *moveWords) move(s edit.State) (edit.State, error) {
	word := w.Next()
	var near []string
	for _, m := range spokenMoves() {
		if m.word == word {
			next, err := m.make(s, w)
			if err == nil && w.More() {
				err = fmt.Errorf("%q is left over: write it like %s", w.text(), m.usage())
			}
			return next, err
		}
		if word != "" && strings.HasPrefix(m.word, word[:1]) {
			near = append(near, m.word)
		}
	}
	if len(near) == 0 {
		return s, fmt.Errorf("there is no such move")
	}
	return s, fmt.Errorf("there is no such move; is it %s?", strings.Join(near, " or "))
}

// ringsWords returns rings by their word, or as 30 degrees.
func ringsWords(r pattern.Rings) string {
	if word, ok := r.Word(); ok {
		return word
	}
	return r.String() + " degrees"
}

// sayStrips lists the panel and its strips, one fact a line.
func (a *app) sayStrips(w workshop, saved store.Saved, u length.Unit) {
	p := saved.Pattern
	if saved.Stem == "" { // it was saved under a stem of its own, which was said
		a.say("pattern: %s", p.Name)
	} else {
		a.sayPattern(saved)
	}
	wanted := ""
	if p.Panel.Width > 0 {
		wanted = fmt.Sprintf(", %s wide wanted", p.Panel.Width.With(u))
	}
	made := "flat"
	if p.Panel.Make == pattern.MakeEdge {
		made = "on edge"
	}
	a.say("panel: %s long, %s thick%s, strips made %s", p.Panel.Length.With(u), p.Panel.Thickness.With(u), wanted, made)
	for _, m := range []struct {
		what string
		at   pattern.Reading
	}{{"glued at", p.Panel.Moisture}, {"made flush at", p.Panel.Flattened}} {
		if m.at.Known {
			a.say("panel: %s %g %% moisture", m.what, m.at.Percent)
		}
	}
	if p.Notes != "" {
		a.say("notes: %s", p.Notes)
	}
	for i, s := range p.Strips {
		parts := []string{w.name(s.Species), s.Width.With(u) + " wide", "rings " + ringsWords(s.Rings)}
		if s.Moisture.Known {
			parts = append(parts, fmt.Sprintf("moisture %g %%", s.Moisture.Percent))
		}
		if s.Length > 0 {
			parts = append(parts, s.Length.With(u)+" long")
		}
		if s.Start > 0 {
			parts = append(parts, "starts at "+s.Start.With(u))
		}
		for _, is := range []struct {
			so   bool
			word string
		}{{s.Turned, "turned end for end"}, {s.Over, "turned over"}, {s.Pinned, "pinned"}} {
			if is.so {
				parts = append(parts, is.word)
			}
		}
		a.say("strip %d: %s", i+1, strings.Join(parts, ", "))
	}
	a.say("glue-up width: %s", p.Width().With(u))
}
