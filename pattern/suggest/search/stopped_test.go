package search

import (
	"context"
	"sync/atomic"
	"testing"
	"time"

	"example.com/oddments/pattern/suggest"
)

// What the clock left open says so, also where the time ended but for the reserve, so that
// the context itself still goes on; what was worked on to the end does not.
func TestAnswersSayThatTheyWereStopped(t *testing.T) {
	ask := suggest.New(300*mm, 20*mm, 400*mm)
	ask.Have = []suggest.ReadyStrips{{Species: "hard_maple", Width: 25 * mm, Count: 8}, {Species: "black_walnut", Width: 25 * mm, Count: 8}}
	if got, err := Solve(t.Context(), physics(), ask, suggest.Options{}); err != nil || got.Status != suggest.Optimal || got.Stopped {
		t.Errorf("in all the time: %v, stopped %v, %v", got.Status, got.Stopped, err)
	}
	long, cancel := context.WithTimeout(t.Context(), time.Hour)
	defer cancel()
	if got, err := Solve(long, physics(), ask, suggest.Options{Reserve: 2 * time.Hour}); err != nil || got.Status != suggest.Open || !got.Stopped || long.Err() != nil {
		t.Errorf("with nothing but the reserve: %v, stopped %v, %v", got.Status, got.Stopped, err)
	}
}

// Wherever a search is stopped on the way, it says so unless all is proved.
func TestStoppedOnTheWay(t *testing.T) {
	ask := suggest.New(300*mm, 20*mm, 400*mm)
	ask.Have = []suggest.ReadyStrips{{Species: "hard_maple", Width: 25 * mm, Count: 8}, {Species: "black_walnut", Width: 25 * mm, Count: 8}}
	open := 0
	for looks := int64(0); looks < 40; looks += 3 {
		stop, _ := counting(t, looks)
		got, err := solveUntil(t.Context(), physics(), ask, suggest.Options{}, hooks{}, stop)
		if err != nil || got.Stopped != (got.Status != suggest.Optimal) {
			t.Errorf("after %d looks: %v, stopped %v, %v", looks, got.Status, got.Stopped, err)
		}
		if got.Status != suggest.Optimal {
			open++
		}
	}
	if open == 0 {
		t.Error("none was stopped before its end")
	}
}

// hooked returns the answer to an ask with hooks in the search.
func hooked(t *testing.T, ask suggest.Request, h hooks) (suggest.Result, error) {
	t.Helper()
	return solveUntil(t.Context(), physics(), ask, suggest.Options{}, h, stopper{flag: new(atomic.Bool)})
}
