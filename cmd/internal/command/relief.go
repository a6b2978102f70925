package command

import (
	"context"
	"fmt"
	"strconv"

	"example.com/oddments/cmd/internal/rows"
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/relief"
	"example.com/oddments/pattern/store"
)

// SayRelief prints how the section of a pattern stands in each season, and the turn of a
// strip that is worth it.
func (w Workshop) SayRelief(ctx context.Context, saved store.Saved, panel relief.Panel, seasons []relief.Season, wetter relief.Wetter) {
	t := reliefText{w, saved, panel}
	t.SayPattern(t.saved)
	p := t.saved.Pattern
	t.Fact("section", "%s wide, %s thick, a free panel%s", p.Width().With(t.Unit), p.Panel.Thickness.With(t.Unit),
		Said(len(p.Seconds) > 0, " before it is cut into bars"))
	if wetter.Points > 0 {
		t.Fact("assumed", "%v", wetter)
	}
	if why := t.panel.Why(); why != "" {
		t.Fact("relief", "%s", why)
		return
	}
	for _, s := range seasons {
		t.season(s)
	}
	if turn, ok := t.panel.BestTurn(ctx); ok {
		t.Fact("remedy", "%s", turn.Text(t.Unit))
	}
	for _, note := range t.panel.Notes(t.Unit) {
		t.Say("%s", note)
	}
}

// reliefText prints a relief in plain words, one fact a row.
type reliefText struct {
	Workshop
	saved store.Saved
	panel relief.Panel
}

// season prints how the section stands in one season.
func (t reliefText) season(s relief.Season) {
	name := s.Season.String() + " season"
	t.Fact(name, "%s; %s; width %s%s", s.Cup(t.Unit), s.Gaps(t.Unit), length.Change(s.WidthChangeMM, t.Unit),
		Said(len(t.panel.NoBark) > 0, "; unknown bark sides shift heights by up to ±"+length.Step(s.MostBandUM(), 0, t.Unit)))
	strips := rows.Form{{"season"}, {"strip", ", strip "}, {"timber", ", "}, {"visible face", ": "}, {"underside", "; underside "}}
	for i, f := range s.Strips {
		t.Row(strips, pattern.Fine, name, strconv.Itoa(i+1), t.Name(t.saved.Pattern.Strips[i].Species), f.Crown().In(t.Unit), f.Under().In(t.Unit))
	}
	lines := rows.Form{{"season"}, {"line", ", line "}, {"strips", ", strips "}, {"step", ": "}, {"at the edge", ", "}, {"height", ", "}}
	for i, f := range s.Lines {
		t.Row(lines, pattern.Fine, name, strconv.Itoa(i+1), fmt.Sprintf("%d and %d", i+1, i+2), f.Step().In(t.Unit), f.Edge().In(t.Unit), f.Ridge().In(t.Unit))
	}
}
