package cli

import (
	"context"

	"github.com/spf13/cobra"

	"example.com/oddments/cmd/internal/command"
	"example.com/oddments/cmd/internal/result"
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/store"
)

func (a *app) checkCommand() *cobra.Command {
	return a.command("check", task{json: "oddments/check 1", takes: somePatterns(""), complete: a.completePattern,
		errand: func(_ context.Context, w workshop, args []string) error { return w.check(args) }})
}

func (w workshop) check(args []string) error {
	all, err := w.OpenAll(args, "name each once; two files of one name are checked one after the other")
	if err != nil {
		return err
	}
	printed := 0
	for _, one := range all {
		if one.Err != nil {
			w.Report(one.Err)
			continue
		}
		if printed > 0 {
			w.Say("")
		}
		w.printCheck(one.Saved)
		printed++
	}
	return nil
}

// printCheck prints what is known of a pattern and keeps the exit for it.
func (w workshop) printCheck(saved store.Saved) {
	if w.AsJSON {
		w.Unit = length.InMM
	}
	report := check.Of(w.Physics(), saved.Pattern, w.Unit)
	if report.Level == pattern.TooMuch {
		w.Worsen(command.ExitMuch)
	}
	if w.AsJSON {
		w.JSON(result.Check(saved.Stem, saved.Pattern, report))
		return
	}
	checkText{w, saved, report}.print()
}
