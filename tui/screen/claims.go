package screen

import (
	"context"
	"errors"
	"time"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/mistake"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/pile/sets"
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/gallery"
	"example.com/oddments/pattern/suggest/remake"
	"example.com/oddments/pattern/waysout"
)

// Beside is what work beside the screen goes by.
type Beside struct {
	Solve Solvers
	Teller
}

// Solvers are what searches. Tests have some that err.
type Solvers struct {
	Plan    func(context.Context, cutting.Job, solve.Options) (cutting.Plan, error)
	Ways    func(context.Context, cutting.Job, cutting.Plan, movement.Physics) (waysout.Ways, error)
	Yields  func(context.Context, cutting.Job) ([]solve.Supply, []solve.Yield, error)
	Suggest func(context.Context, movement.Physics, suggest.Request, suggest.Options) (suggest.Result, error)
	Again   func(context.Context, movement.Physics, remake.Request, suggest.Options) (remake.Result, error)
	Set     func(context.Context, sets.Request, sets.Options) (sets.Set, error)
}

// Searching returns the solvers of the domain.
func Searching() Solvers {
	return Solvers{solve.Plan, waysout.Find, solve.Yields, gallery.Solve, remake.Again, sets.Find}
}

// A Teller writes the report of a claim that broke. It belongs into work that goes on
// beside the screen, for it touches the disk.
type Teller struct {
	Files *store.Home
	Clock func() time.Time
}

// Tell returns what to tell of a claim that broke; nil where none did. asked is what was
// asked for beside the job.
func (t Teller) Tell(broken error, shown mistake.Shown, job cutting.Job, asked string) *mistake.Withdrawn {
	if broken == nil {
		return nil
	}
	return mistake.Teller{Home: t.Files, At: t.Clock()}.Claim(broken, shown, job, asked)
}

// Unfit returns what to tell of an error that is a claim that broke, and the error that is
// left where it is another.
func (t Teller) Unfit(err error, shown mistake.Shown, job cutting.Job) (*mistake.Withdrawn, error) {
	var broken *cutting.Broken
	if !errors.As(err, &broken) {
		return nil, err
	}
	return t.Tell(err, shown, job, ""), nil
}
