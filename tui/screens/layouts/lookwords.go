package layouts

import (
	"fmt"
	"math"
	"strings"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

// lookWhy says what look a layout has, how different it looks, and how sure it is the best of
// its look.
func lookWhy(l Candidate, ctx scene) string {
	text := l.Layout.Look.String() + ", " + l.Layout.Look.Says()
	if ctx.s.at > 0 && !ctx.s.shown.Part {
		text += fmt.Sprintf("; %.0f %% of the width or more differs from those before", math.Floor(l.Layout.ApartPct))
	}
	if left := l.Layout.UseLeft(ctx.Unit); left != "" {
		text += "; " + left
	}
	switch plan := l.Layout.Plan; {
	case !l.Layout.Proved:
		return text + ". Not proved the best of its look."
	case plan != nil && !ctx.s.shown.Part && l.Summary.Sure < suggest.AllProved:
		return text + ". Proved the best of its look; its plan is complete, but not proved the best."
	default:
		return text + ". Proved the best of its look."
	}
}

// uses says how wide a layout is, of how much of each timber.
func uses(l Candidate, ctx scene) string {
	wide := map[string]length.Length{}
	for _, s := range l.Pattern.Strips {
		wide[s.Species] += s.Width
	}
	var parts []string
	for _, t := range l.Summary.Timbers {
		parts = append(parts, fmt.Sprintf("%d %s %s", t.Strips, ctx.Name(t.Species), wide[t.Species].Format(ctx.Unit)))
	}
	text := fmt.Sprintf("%s wide, %s: %s", l.Layout.Width.With(ctx.Unit), tell.Count(len(l.Pattern.Strips), "strip"), strings.Join(parts, ", "))
	if l.Layout.UseFirst > 0 {
		text += fmt.Sprintf("; %s of it use first", l.Layout.UseFirst.With(ctx.Unit))
	}
	return text + "."
}

// writeTexts writes texts beneath one another, with a blank row between two where they all
// find room so. Of a text that does not, what fits is written, and each leaves a row for those
// to come.
func writeTexts(c *paint.Canvas, r paint.Rect, texts []string, apart bool) {
	rows := len(texts) - 1
	for _, text := range texts {
		rows += len(screen.Wrap(text, r.W))
	}
	apart = apart && rows <= r.H
	row := 0
	for i, text := range texts {
		lines := screen.Wrap(text, r.W)
		if room := max(1, r.H-row-(len(texts)-1-i)); len(lines) > room {
			lines = lines[:room]
			lines[room-1] = cutOff(lines[room-1], r.W)
		}
		for _, line := range lines {
			c.Text(r.Row(row), line, paint.Style{})
			row++
		}
		if apart {
			row++
		}
		if row >= r.H {
			return
		}
	}
}

// cutOff ends a line that goes on where there is no room for it, between two words.
func cutOff(line string, w int) string {
	const goesOn = " .."
	for paint.Width(line)+len(goesOn) > w {
		at := strings.LastIndexByte(line, ' ')
		if at < 0 {
			break
		}
		line = line[:at]
	}
	return paint.Fit(line+goesOn, w)
}
