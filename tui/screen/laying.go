package screen

import (
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/suggest"
)

// Laying is what the gallery of layouts is told.
type Laying struct {
	Again   bool             // the bench's pattern again from other timber, in place of new layouts
	Ask     suggest.Ask      // what would be asked for now
	Same    suggest.AgainAsk // likewise, where Again
	Wrong   string           // why nothing can be asked for
	Running bool
	Further bool // what is running asks for more, unlike those shown
	Found   suggest.Progress

	Have    bool // there is an answer, or a part of one
	Part    bool // more of it is still being sought
	Stale   bool // the bench, the rack or the wishes have changed since
	Laid    []Laid
	Status  suggest.Status // of the answer
	Broken  string         // why nothing of it is called proved, in one row; empty: its claims hold
	Aim     suggest.Aim
	Bound   *suggest.Bound
	NoMore  bool     // no further layout is unlike enough: that is proved
	Loosen  []string // where there is no layout: the conditions of which each alone would do
	Seconds float64

	At    int // the chosen layout, or condition to loosen
	Strip int // the chosen strip of it, from 0; none: -1
}

// Laid is one layout to look at, with what was reckoned of it.
type Laid struct {
	Pattern pattern.Pattern
	Summary suggest.Summary
	Answer  suggest.Answer // of new layouts, once all are found: what this one belongs to
	Place   int            // its place in that, from 0
	Later   bool           // that answer is of layouts unlike those before
	Layout  suggest.Layout // where it is one of new layouts
	Against string         // in what it differs from the layout before it; empty where there is none
	Same    suggest.Same   // where the pattern is made again
}
