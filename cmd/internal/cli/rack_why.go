package cli

import (
	"context"

	"github.com/spf13/cobra"

	"example.com/oddments/cmd/internal/failure"
	"example.com/oddments/cmd/internal/result"
	"example.com/oddments/cmd/internal/rows"
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/tell"
)

func (a *app) rackWhyCommand() *cobra.Command {
	one := func(_ *cobra.Command, args []string) error {
		if len(args) != 1 {
			return failure.Usage("name one saved pattern, or a file with a slash or .toml; =4 after it makes 4 copies", "rack why needs a PATTERN")
		}
		return nil
	}
	return a.command("rack why", task{json: "oddments/why 1", takes: one, complete: a.completePattern,
		errand: func(ctx context.Context, w workshop, args []string) error { return w.rackWhy(ctx, args) }})
}

// rackWhy says of every entry of the rack how many strips it gives a pattern by itself,
// and why it gives none.
func (w workshop) rackWhy(ctx context.Context, args []string) error {
	job, saved, err := w.JobOf(args)
	if err != nil {
		return err
	}
	_, gives, err := w.yieldsOf(ctx, job)
	if err != nil {
		return err
	}
	form := rows.Form{{"id", ""}, {"timber", ": "}, {"size", ", "}, {"gives", ": "}}
	var pieces []result.Object
	for _, e := range job.Rack.Entries() {
		miss, words := cutting.Why(job, e), yieldText(gives[e.ID])
		if miss.Reason != cutting.Gives {
			words = miss.Words(w.Unit)
		}
		w.Row(form, pattern.Fine, e.ID, w.Name(e.Species), tell.Size(w.Unit, e.Length, e.Width, e.Thickness), words)
		pieces = append(pieces, result.Object{{"id", e.ID}, {"gives", gives[e.ID].Strips}, {"reason", miss.Reason.String()}, {"short_mm", miss.Short}})
	}
	w.Result(func() result.Object {
		return result.Object{{"format", "oddments/why 1"}, {"pattern", saved[0].Stem}, {"pieces", append([]result.Object{}, pieces...)}}
	})
	return nil
}
