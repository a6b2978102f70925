package solve

import "example.com/oddments/pattern/cutting/solve/sections"

// A budget bounds work by its steps. They are counted and not timed, so that the same job
// gives the same plan; beside that whoever waits may have the work end.
type budget struct {
	steps int // that are left; below 0 they are over
	stop  sections.Stopper
}

// spend takes a step and reports whether the work must end.
func (b *budget) spend() bool {
	b.steps--
	return b.steps < 0 || b.steps%16 == 0 && b.stop.Stopped()
}
