package cli

import (
	"context"
	"errors"

	"github.com/spf13/cobra"

	"example.com/oddments/cmd/internal/failure"
	"example.com/oddments/cmd/internal/result"
	"example.com/oddments/cmd/internal/rows"
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/mistake"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/tell"
)

func (a *app) rackWhyCommand() *cobra.Command {
	return a.command("rack why", task{json: true, errand: func(ctx context.Context, w workshop, args []string) error { return w.rackWhy(ctx, args) }, complete: a.completePattern, takes: func(_ *cobra.Command, args []string) error {
		if len(args) != 1 {
			return failure.Usage("name one saved pattern, or a file with a slash or .toml; =4 behind it makes it 4 times", "rack why needs a PATTERN")
		}
		return nil
	}})
}

// rackWhy says of every entry of the rack how many strips it gives a pattern, and why it
// gives none.
func (w workshop) rackWhy(ctx context.Context, args []string) error {
	job, saved, err := w.jobOf(args)
	if err != nil {
		return err
	}
	_, yields, err := w.env.Solvers.Yields(ctx, job)
	var broken *cutting.Broken
	if errors.As(err, &broken) {
		w.tellBroken(w.home, err, mistake.Counts, job)
	} else if err != nil {
		return err
	}
	gives, texts := map[string]int{}, map[string]string{}
	for _, y := range yields {
		gives[y.ID], texts[y.ID] = y.Strips, yieldText(y)
	}
	why := func(e rack.Entry) string {
		if miss := cutting.Why(job, e); miss.Reason != cutting.Gives {
			return miss.Words(w.unit)
		}
		return texts[e.ID]
	}
	if w.asJSON {
		w.json(result.Object{{"format", "oddments/why 1"}, {"pattern", saved[0].Stem},
			{"pieces", result.Each(job.Rack.Entries(), func(e rack.Entry) result.Object {
				miss := cutting.Why(job, e)
				return result.Object{{"id", e.ID}, {"gives", gives[e.ID]}, {"reason", miss.Reason.String()}, {"short_mm", miss.Short}}
			})}})
		return nil
	}
	form := rows.Form{{"id", ""}, {"timber", ": "}, {"size", ", "}, {"gives", ": "}}
	for _, e := range job.Rack.Entries() {
		w.row(form, pattern.Fine, e.ID, w.name(e.Species), tell.Size(w.unit, e.Length, e.Width, e.Thickness), why(e))
	}
	return nil
}
