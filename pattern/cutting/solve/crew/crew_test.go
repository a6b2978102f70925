package crew

import (
	"strings"
	"sync/atomic"
	"testing"
)

func faulty(value any) { panic(value) }

// The first panic reaches who waits, with the stack that it began on, once all have ended
// and whoever panicked has told the others to stop.
func TestPanicIsHandedOn(t *testing.T) {
	var ended, stopped atomic.Int32
	stop := make(chan struct{})
	var c Crew
	for range 3 {
		c.Start(func() { <-stop; ended.Add(1) }, func() { t.Error("nothing is wrong with it") })
	}
	c.Do(func() { faulty("injected") }, func() { stopped.Add(1); close(stop) })
	defer func() {
		p, ok := recover().(Panic)
		if !ok || p.Value != "injected" || !strings.Contains(string(p.Stack), "crew.faulty") || ended.Load() != 3 || stopped.Load() != 1 {
			t.Errorf("%v, %d ended, %d stopped", p.Value, ended.Load(), stopped.Load())
		}
		if value, stack := p.Panicked(); value != p.Value || string(stack) != string(p.Stack) || !strings.Contains(p.Error(), "injected") {
			t.Errorf("told as %v", p)
		}
	}()
	c.Join()
}

// What another crew caught keeps its stack.
func TestPanicThroughACrew(t *testing.T) {
	var outer Crew
	outer.Do(func() {
		var inner Crew
		inner.Start(func() { faulty(7) }, func() {})
		inner.Join()
	}, func() {})
	defer func() {
		if p, ok := recover().(Panic); !ok || p.Value != 7 || !strings.Contains(string(p.Stack), "crew.faulty") {
			t.Errorf("%v", p)
		}
	}()
	outer.Join()
}

// A crew in which nothing is wrong hands nothing on.
func TestCrew(t *testing.T) {
	var c Crew
	var n atomic.Int32
	for range 10 {
		c.Start(func() { n.Add(1) }, func() {})
	}
	if c.Join(); n.Load() != 10 {
		t.Errorf("%d of 10 have ended", n.Load())
	}
}
