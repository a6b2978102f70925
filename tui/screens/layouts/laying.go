package layouts

import (
	"fmt"
	"reflect"
	"time"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/mistake"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/remake"
)

// A Question is all that an answer depends on.
type Question struct {
	Again bool            // the bench's pattern again from other timber, in place of new layouts
	Ask   suggest.Request // for new layouts
	Same  remake.Request  // for the pattern again
	Rack  int             // revision
}

// Alike reports whether two questions have the same answer. What they are unlike is
// left aside: further layouts belong to the same question.
func (q Question) Alike(other Question) bool {
	bare := func(q Question) Question {
		q.Ask.Rack.Pieces, q.Ask.Rack.Strips, q.Same.Rack = nil, nil, q.Ask.Rack
		q.Same.Rack.Pieces, q.Same.Rack.Strips, q.Ask.Unlike = nil, nil, nil
		return q
	}
	return reflect.DeepEqual(bare(q), bare(other))
}

// job returns the job that a question is about, for a report, with the layouts found.
func (q Question) job(r movement.Physics, found []suggest.Layout) cutting.Job {
	if q.Again {
		return cutting.Job{Rack: q.Same.Rack, Shop: r.Shop(), Patterns: []cutting.Demand{{Stem: q.Same.Stem, Pattern: q.Same.Pattern, Copies: q.Same.Copies}}}
	}
	return q.Ask.Found(r, found)
}

// String returns all of a question but its rack, for a report.
func (q Question) String() string {
	if q.Again {
		return fmt.Sprintf("the pattern again, %d answers, glue lines at most %v", q.Same.Answers, q.Same.Level)
	}
	ask := q.Ask
	ask.Rack = rack.Rack{}
	return fmt.Sprintf("layouts, %+v", ask)
}

// Shown is an answer, or as much of one as there is yet.
type Shown struct {
	Have    bool
	Part    bool     // more is being sought
	Of      Question // that it answers
	Laid    []Candidate
	Status  suggest.Status
	Aim     suggest.Aim
	Bound   *suggest.Bound
	Told    *mistake.Withdrawn // a claim that broke; nil: none did
	NoMore  bool               // no further layout is unlike enough: that is proved
	leftOut []suggest.LeftOut  // looks that there is no layout of
	stopped bool               // the time, or the maker, ended the search before all was proved
	loosen  []loosening
	took    time.Duration
}

// A loosening is one condition made less strict.
type loosening struct {
	text func(length.Unit) string
	wish wish
}

// Candidate is one layout to look at, with what was computed of it.
type Candidate struct {
	Pattern pattern.Pattern
	Summary suggest.Summary
	Answer  suggest.Result // of new layouts, once all are found: what this one belongs to
	Place   int            // its place in that, from 0
	Later   bool           // that answer is of layouts unlike those before
	Layout  suggest.Layout // where it is one of new layouts
	Sought  bool           // it has a look that was asked for
	Against string         // in what it differs from the layout before it; empty where there is none
	Same    remake.Way     // where the pattern is made again
}
