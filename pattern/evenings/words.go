package evenings

import (
	"fmt"
	"math"

	"example.com/oddments/pattern/tell"
)

// Text says how many evenings there are, and how sure it is that no schedule has fewer.
func (s Schedule) Text() string {
	n := len(s.Evenings)
	switch {
	case n <= 1:
		return fmt.Sprint(n)
	case s.Proved():
		return fmt.Sprintf("%d, no fewer is possible (proved)", n)
	default:
		return fmt.Sprintf("%d, at least %d", n, s.Least)
	}
}

// ClampsText says how many clamps are at hand.
func (r Request) ClampsText() string {
	if r.Clamps == 0 {
		return "not set, one glue-up an evening: set [glue] clamps"
	}
	return fmt.Sprint(r.Clamps)
}

// TimeText says how long an evening is.
func (r Request) TimeText() string {
	if r.Seconds == 0 {
		return "not set, no limit: set [glue] evening_hours"
	}
	return fmt.Sprintf("%g h", math.Round(float64(r.Seconds)/36)/100)
}

// Text says what of a panel is glued, the panel being called so.
func (g GlueUp) Text(called string) string {
	things := "strips"
	if g.Second > 0 {
		things = "bars"
		called += fmt.Sprintf(", second glue-up %d", g.Second)
	}
	switch g.Kind {
	case Part:
		called += fmt.Sprintf(", part of %s %d to %d", things, g.From, g.To)
	case Together:
		called += ", its parts together"
	}
	return fmt.Sprintf("%s: %s", called, tell.Count(g.Joints, "glue line"))
}

// TakesText says how long an evening takes about.
func (e Evening) TakesText() string { return fmt.Sprintf("about %d min", (e.Seconds+59)/60) }

// ClampsText says how many clamps are on at the end of an evening.
func (e Evening) ClampsText() string {
	for _, g := range e.GlueUps {
		if g.Clamps == 0 {
			return "clamps not known"
		}
	}
	return tell.Count(e.Clamps, "clamp")
}

// Lacks says what an evening takes more of than there is; nothing where there is enough.
func (r Request) Lacks(e Evening) string {
	switch {
	case r.Clamps > 0 && e.Clamps > r.Clamps:
		return fmt.Sprintf("takes %d clamps, you have %d: more clamps or a thicker caul", e.Clamps, r.Clamps)
	case r.Seconds > 0 && e.Seconds > r.Seconds:
		return "takes longer than your evening"
	default:
		return ""
	}
}

// Caveats says what a schedule leaves to the maker, each a sentence.
func (r Request) Caveats() []string {
	out := []string{
		"Spread each glue-up within the glue's open time, clamp it before the next is spread, and leave the clamps on overnight.",
		"The figures are estimates: open time, pressure, clamping and curing time are as the glue maker's sheet says.",
	}
	for _, p := range r.Panels {
		if len(p.Rounds) > 1 {
			return append(out, fmt.Sprintf("What is glued of glued parts waits %s, until these have cured and are planed.", tell.Count(max(1, r.Wait), "day")))
		}
	}
	return out
}
