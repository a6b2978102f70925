package tui

import (
	"fmt"
	"reflect"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/suggest"
)

// A question is all that an answer depends on.
type question struct {
	again bool
	ask   suggest.Ask
	same  suggest.AgainAsk
	rack  int // revision
}

// alike reports whether two questions have the same answer. What they are unlike is
// left aside: further layouts belong to the same question.
func (q question) alike(other question) bool {
	bare := func(q question) question {
		q.ask.Rack.Pieces, q.ask.Rack.Strips, q.same.Rack = nil, nil, q.ask.Rack
		q.same.Rack.Pieces, q.same.Rack.Strips, q.ask.Unlike = nil, nil, nil
		return q
	}
	return reflect.DeepEqual(bare(q), bare(other))
}

// job gives the job that a question is about, for a report, with the layouts found.
func (q question) job(r movement.Reckoner, found []suggest.Layout) cutting.Job {
	if q.again {
		return cutting.Job{Rack: q.same.Rack, Shop: r.Shop(), Patterns: []cutting.Demand{{Stem: q.same.Stem, Pattern: q.same.Pattern, Copies: q.same.Copies}}}
	}
	return q.ask.Found(r, found)
}

// String gives all of a question but its rack, for a report.
func (q question) String() string {
	if q.again {
		return fmt.Sprintf("the pattern again, %d answers, glue lines at most %v", q.same.Answers, q.same.Level)
	}
	ask := q.ask
	ask.Rack = rack.Rack{}
	return fmt.Sprintf("layouts, %+v", ask)
}
