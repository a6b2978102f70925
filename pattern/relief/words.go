package relief

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/tell"
)

// GiveOrTake is said of every figure of a relief: coefficients vary by so much.
const GiveOrTake = "give or take 15 %"

// A Figure is a height or a depth as a maker is told of it, in micrometres.
type Figure struct {
	What string  // in a word: crown, or hollow; ridge, or valley
	UM   float64 // never below 0
}

// signed returns a figure that has another word below 0.
func signed(um float64, above, below string) Figure {
	if um < 0 {
		return Figure{below, -um}
	}
	return Figure{above, um}
}

// In returns the figure in words: crown about 12 um.
func (f Figure) In(u length.Unit) string { return f.What + " about " + length.Step(f.UM, 0, u) }

// Crown returns how the strip stands on the visible face, Under how on the underside.
func (f StripFigures) Crown() Figure { return signed(f.CrownUM, "crown", "hollow") }

// Under returns how the strip stands on the underside, seen from there.
func (f StripFigures) Under() Figure { return signed(f.UnderUM, "crown", "hollow") }

// Ridge returns how the line stands above what lies beside it.
func (f LineFigures) Ridge() Figure { return signed(f.RidgeUM, "ridge", "valley") }

// Step returns the step of the line.
func (f LineFigures) Step() Figure { return Figure{"step", f.StepUM} }

// Edge returns the step that a finger meets.
func (f LineFigures) Edge() Figure { return Figure{"edge", f.EdgeUM} }

// Cup returns the panel's cup, and Gaps the gaps under a straightedge, in words.
func (f Figures) Cup(u length.Unit) string {
	way := ", edges up"
	if f.CupUM < 0 {
		way = ", edges down"
	}
	size := length.Step(math.Abs(f.CupUM), 0, u)
	if strings.HasPrefix(size, "0 ") || strings.HasPrefix(size, "0.0 ") {
		way = ""
	}
	return "cup about " + size + way
}

// Gaps returns the gaps under a straightedge in words.
func (f Figures) Gaps(u length.Unit) string {
	return fmt.Sprintf("gap under a straightedge about %s on the visible face, about %s on the underside",
		length.Step(f.GapTopUM, 0, u), length.Step(f.GapUnderUM, 0, u))
}

// Text returns what a turn brings, in words.
func (t Turn) Text(u length.Unit) string {
	value := func(um float64) string { return length.StepValue(um, u) }
	unit := length.StepUnit(u)
	text := fmt.Sprintf("turn strip %d end for end: gap under a straightedge about %s to %s %s",
		t.Strip, value(t.Before.TopUM), value(t.After.TopUM), unit)
	if value(t.After.UnderUM) != value(t.Before.UnderUM) {
		text += fmt.Sprintf(", on the underside about %s to %s %s", value(t.Before.UnderUM), value(t.After.UnderUM), unit)
	}
	return text
}

// Why says why p has no relief; nothing where it has one.
func (p Panel) Why() string {
	switch {
	case len(p.NoFigure) > 0:
		return "no figure for " + tell.List(p.NoFigure, "and")
	case p.TooLarge:
		return "too many strips, or too wide, to work out how the section stands"
	case len(p.Strips) == 0:
		return "no strips yet, a draft"
	default:
		return ""
	}
}

// Unseen says of how many strips nobody has seen the bark side; nothing where of none.
func (p Panel) Unseen() string {
	if len(p.NoBark) == 0 {
		return ""
	}
	has := "have"
	if len(p.NoBark) == 1 {
		has = "has"
	}
	return fmt.Sprintf("%d of %s %s no bark side yet: end grain shows it", len(p.NoBark), tell.Count(len(p.Strips), "strip"), has)
}

// Notes lists what to know of all figures of p, each a sentence.
func (p Panel) Notes(u length.Unit) []string {
	notes := []string{"every figure is about, " + GiveOrTake + ", and none has a level"}
	if unseen := p.Unseen(); unseen != "" {
		notes = append(notes, unseen)
	}
	if p.NoHeart > 0 {
		notes = append(notes, fmt.Sprintf("%s without a heart: the pith is assumed %s away", tell.Count(p.NoHeart, "strip"),
			length.Length(unseenHeartMM*float64(length.Millimetre)).With(u)))
	}
	return notes
}

// String returns a wetter face in words, nothing where neither is: visible face 1 point
// wetter.
func (w Wetter) String() string {
	if w.Points == 0 {
		return ""
	}
	face := "visible face"
	if w.Face == Under {
		face = "underside"
	}
	points := strconv.FormatFloat(w.Points, 'f', -1, 64)
	unit := "points"
	if w.Points == 1 {
		unit = "point"
	}
	return face + " " + points + " " + unit + " wetter"
}

// ParseWetter reads top=1 or under=1, the points above 0 and at most MostPoints.
func ParseWetter(s string) (Wetter, error) {
	name, number, found := strings.Cut(s, "=")
	points, err := strconv.ParseFloat(number, 64)
	if !found || err != nil || strings.Trim(number, "0123456789.") != "" || !(points > 0 && points <= MostPoints) {
		return Wetter{}, fmt.Errorf("%q: must be a face, = and points of moisture above 0 up to %g, like top=1", s, MostPoints)
	}
	face, err := ParseFace(name)
	return Wetter{face, points}, err
}
