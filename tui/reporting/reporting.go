// Package reporting checks what lies on the bench: at once what a key may wait for, and the
// whole beside the screen.
package reporting

import (
	"context"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/tui/job"
)

// A Late makes a report whole beside the screen. The zero value makes none.
type Late struct {
	job.Job[struct{}, check.Report]
}

// Done brings a whole report.
type Done = job.Done[check.Report]

// longest is how long a whole report may take.
const longest = 20 * time.Second

// Again ends what l is at, and checks p: cmd waits for the whole report, nil where the one
// that is returned is whole.
func (l Late) Again(r movement.Physics, p pattern.Pattern, u length.Unit) (report check.Report, next Late, cmd tea.Cmd) {
	l.Stop()
	report, late := check.Soon(r, p, u)
	if late != nil {
		next.Job, cmd = job.Start(longest, func(ctx context.Context, _ <-chan time.Time, _ func(struct{})) check.Report { return late(ctx) })
	}
	return report, next, cmd
}
