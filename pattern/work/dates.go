package work

import (
	"math"
	"time"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/shop"
)

// benchDay is how long a maker stands at the bench in a day: a habit.
const benchDay = 8 * 60 // minutes

// A Timetable counts back from the day a job must be ready.
type Timetable struct {
	Glue  int // days: one for each glue-up and the wait after it
	Bench int // days of milling, cutting and sanding
	Dry   int // evenings on the drying rack
	Start pattern.Date
}

// LastStart returns the last day to start so that the pieces are ready the day before
// due, one thing after another. It reports false where the evenings of drying are not
// known.
func LastStart(due pattern.Date, j Job, f Figures, g shop.Glue) (Timetable, bool) {
	if !f.Finish.Evenings.Known {
		return Timetable{}, false
	}
	t := Timetable{Bench: 1, Dry: int(f.Finish.Evenings.Value)}
	if f.Glue.Joints > 0 {
		rounds := 1
		if f.Glue.Parts > 1 || f.Glue.GlueUps.Value > 1 {
			rounds = 2 // the parts, then the parts together
		}
		t.Glue = rounds * (1 + g.WaitDays)
	}
	for _, s := range f.Second {
		if s.Joints > 0 {
			t.Glue += 1 + g.WaitDays
		}
	}
	if j.Minutes > 0 {
		t.Bench = int(math.Ceil(float64(j.Minutes) / benchDay))
	}
	day := time.Date(due.Year, due.Month, due.Day, 0, 0, 0, 0, time.UTC).AddDate(0, 0, -(t.Glue + t.Bench + t.Dry))
	t.Start = pattern.Date{Year: day.Year(), Month: day.Month(), Day: day.Day()}
	return t, true
}
