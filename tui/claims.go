package tui

import (
	"context"
	"errors"
	"time"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/mistake"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/tui/screens/planview"
)

// solvers are what searches. Tests have some that err.
type solvers struct {
	plan    func(context.Context, cutting.Job, cutting.Options) (cutting.Plan, error)
	ways    func(context.Context, cutting.Job, cutting.Plan, movement.Reckoner) (cutting.Ways, error)
	yields  func(context.Context, cutting.Job) ([]cutting.Supply, []cutting.Yield, error)
	suggest func(context.Context, movement.Reckoner, suggest.Ask, suggest.Options) (suggest.Answer, error)
	again   func(context.Context, movement.Reckoner, suggest.AgainAsk, suggest.Options) (suggest.AgainAnswer, error)
}

func searching() solvers {
	return solvers{cutting.Solve, cutting.WaysOut, cutting.Yields, suggest.Solve, suggest.Again}
}

// A teller writes the report of a claim that broke. It belongs into work that goes on
// beside the screen, for it touches the disk.
type teller struct {
	files *store.Home
	now   func() time.Time
}

func (a App) teller() teller { return teller{a.files, a.now} }

// tell gives what to tell of a claim that broke; nil where none did. asked is what was
// asked for beside the job.
func (t teller) tell(broken error, shown mistake.Shown, job cutting.Job, asked string) *mistake.Withdrawn {
	if broken == nil {
		return nil
	}
	return mistake.Teller{Home: t.files, At: t.now()}.Claim(broken, shown, job, asked)
}

// unfit gives what to tell of an error that is a claim that broke, and the error that is
// left where it is another.
func (t teller) unfit(err error, shown mistake.Shown, job cutting.Job) (*mistake.Withdrawn, error) {
	var broken *cutting.Broken
	if !errors.As(err, &broken) {
		return nil, err
	}
	return t.tell(err, shown, job, ""), nil
}

// withdrawn tells that a claim is not made: at once in the line of messages, and in full
// as soon as nothing else lies over the screen.
func (a App) withdrawn(w *mistake.Withdrawn) App {
	if w == nil {
		return a
	}
	page := planview.NewPage("a check failed", []string{w.Error(), w.Where()})
	return a.refuse(w.Row()).askWhenFree(w.Report, func(App) bool { return true }, page, nil)
}
