package command

import (
	"context"
	"errors"
	"os"
	"runtime/debug"
	"strings"
	"time"

	"example.com/oddments/cmd/internal/failure"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/mistake"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/gallery"
	"example.com/oddments/pattern/suggest/remake"
	"example.com/oddments/pattern/waysout"
)

// Solvers are what searches. A nil one is that of its package; tests have some that err.
type Solvers struct {
	Plan    func(context.Context, cutting.Job, solve.Options) (cutting.Plan, error)
	Ways    func(context.Context, cutting.Job, cutting.Plan, movement.Physics) (waysout.Ways, error)
	Yields  func(context.Context, cutting.Job) ([]solve.Supply, []solve.Yield, error)
	Suggest func(context.Context, movement.Physics, suggest.Request, suggest.Options) (suggest.Result, error)
	Again   func(context.Context, movement.Physics, remake.Request, suggest.Options) (remake.Result, error)
}

// filled returns s with nothing missing.
func (s Solvers) filled() Solvers {
	if s.Plan == nil {
		s.Plan = solve.Plan
	}
	if s.Ways == nil {
		s.Ways = waysout.Find
	}
	if s.Yields == nil {
		s.Yields = solve.Yields
	}
	if s.Suggest == nil {
		s.Suggest = gallery.Solve
	}
	if s.Again == nil {
		s.Again = remake.Again
	}
	return s
}

// Solve plans a job. Where a claim broke that is told, and the plan has none; a plan that
// failed its check is an error.
func (w Workshop) Solve(ctx context.Context, job cutting.Job) (cutting.Plan, error) {
	plan, err := w.Env.Solvers.Plan(ctx, job, solve.Options{Workers: planWorkers})
	var broken *cutting.Broken
	if errors.As(err, &broken) {
		return plan, w.withdrawn(w.Home, err, mistake.None, job)
	}
	w.TellBroken(w.Home, plan.Broken, mistake.Plan, job)
	return plan, err
}

// TellBroken tells of a claim that broke; nil: none did. What is shown stays what it is.
func (a *App) TellBroken(home *store.Home, broken error, shown mistake.Shown, job cutting.Job) {
	if broken == nil {
		return
	}
	a.Send()
	for _, p := range failure.Of(a.withdrawn(home, broken, shown, job)) {
		a.tell(p)
	}
}

// withdrawn returns the error of a claim that broke, with its report written.
func (a *App) withdrawn(home *store.Home, broken error, shown mistake.Shown, job cutting.Job) error {
	return a.teller(home).Claim(broken, shown, job, "oddments "+strings.Join(a.args, " "))
}

func (a *App) teller(home *store.Home) mistake.Teller {
	return mistake.Teller{Home: home, Version: a.Env.Version, At: a.now()}
}

// now returns the time.
func (a *App) now() time.Time {
	if a.Env.Now != nil {
		return a.Env.Now()
	}
	return time.Now()
}

// caught runs work, and gives its error, or that of a panic: what it was and where stands
// in a report, where a home is there already, and not on the terminal.
func (a *App) caught(work func() error) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = a.panicked(r, debug.Stack())
		}
	}()
	return work()
}

func (a *App) panicked(value any, stack []byte) error {
	home, err := a.Home()
	if err == nil {
		_, err = os.Stat(home.Dir())
	}
	if err != nil {
		return mistake.Unreported(value)
	}
	return a.teller(home).Panic(value, stack)
}
