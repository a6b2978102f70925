package suggest

import (
	"context"
	"math/rand/v2"
	"testing"
	"time"
)

// What the clock left open says so, also where the time ended but for the reserve, so that
// the context itself still goes on; what was worked on to the end does not.
func TestAnswersSayThatTheyWereStopped(t *testing.T) {
	ask := New(300*mm, 20*mm, 400*mm)
	ask.Have = []ReadyStrips{{Species: "hard_maple", Width: 25 * mm, Count: 8}, {Species: "black_walnut", Width: 25 * mm, Count: 8}}
	again := randomAgain(rand.New(rand.NewPCG(3, 5)))
	if got, err := Solve(t.Context(), physics(), ask, Options{}); err != nil || got.Status != Optimal || got.Stopped {
		t.Errorf("in all the time: %v, stopped %v, %v", got.Status, got.Stopped, err)
	}
	if got, err := Again(t.Context(), physics(), again, Options{}); err != nil || got.Status == Open || got.Stopped {
		t.Errorf("again, in all the time: %v, stopped %v, %v", got.Status, got.Stopped, err)
	}
	long, cancel := context.WithTimeout(t.Context(), time.Hour)
	defer cancel()
	if got, err := Solve(long, physics(), ask, Options{Reserve: 2 * time.Hour}); err != nil || got.Status != Open || !got.Stopped || long.Err() != nil {
		t.Errorf("with nothing but the reserve: %v, stopped %v, %v", got.Status, got.Stopped, err)
	}
	cancel()
	if got, err := Again(long, physics(), again, Options{}); err != nil || got.Status != Open || !got.Stopped {
		t.Errorf("again, in no time: %v, stopped %v, %v", got.Status, got.Stopped, err)
	}
}

// Wherever a search is stopped on the way, it says so unless all is proved.
func TestStoppedOnTheWay(t *testing.T) {
	ask := New(300*mm, 20*mm, 400*mm)
	ask.Have = []ReadyStrips{{Species: "hard_maple", Width: 25 * mm, Count: 8}, {Species: "black_walnut", Width: 25 * mm, Count: 8}}
	open := 0
	for looks := int64(0); looks < 40; looks += 3 {
		stop, _ := counting(t, looks)
		got, err := solveUntil(t.Context(), physics(), ask, Options{}, stop)
		if err != nil || got.Stopped != (got.Status != Optimal) {
			t.Errorf("after %d looks: %v, stopped %v, %v", looks, got.Status, got.Stopped, err)
		}
		if got.Status != Optimal {
			open++
		}
	}
	if open == 0 {
		t.Error("none was stopped before its end")
	}
}
