// Package crew has goroutines wait for one another, and hands on what one of them panicked
// with.
package crew

import (
	"fmt"
	"runtime/debug"
	"sync"
)

// A Panic is what a goroutine of a crew panicked with. It is raised again in the
// goroutine that waits, where whoever called can catch it.
type Panic struct {
	Value any
	Stack []byte // of the goroutine that panicked
}

// Panicked returns what the panic was, and the stack it began on.
func (p Panic) Panicked() (value any, stack []byte) { return p.Value, p.Stack }

// Error returns both, for where nobody catches it.
func (p Panic) Error() string { return fmt.Sprintf("%v\n\n%s", p.Value, p.Stack) }

// A Crew is goroutines that are waited for together. The zero value is ready.
type Crew struct {
	wait  sync.WaitGroup
	mu    sync.Mutex
	first *Panic
}

// Start has work done beside the caller; stop is called when it panics.
func (c *Crew) Start(work, stop func()) {
	c.wait.Go(func() { c.Do(work, stop) })
}

// Do does work at once, likewise.
func (c *Crew) Do(work, stop func()) {
	defer func() {
		if r := recover(); r != nil {
			c.caught(r, debug.Stack())
			stop()
		}
	}()
	work()
}

func (c *Crew) caught(r any, stack []byte) {
	p, ok := r.(Panic) // from a crew that work waited for
	if !ok {
		p = Panic{r, stack}
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.first == nil {
		c.first = &p
	}
}

// Join waits for all, and panics with the first Panic where one of them did.
func (c *Crew) Join() {
	c.wait.Wait()
	if c.first != nil {
		panic(*c.first)
	}
}
