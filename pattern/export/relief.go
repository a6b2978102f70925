package export

import (
	"fmt"
	"html/template"
	"math"
	"strconv"
	"strings"

	"example.com/oddments/pattern/relief"
	"example.com/oddments/species"
)

// A section is a panel cut across, with how it stands in each season.
type section struct {
	relief.Panel
	seasons []relief.Season
	colours []species.RGB // by strip
	factor  int           // by which heights are magnified
}

// sectionOf returns the section of a job's panel, without seasons where it has no relief.
func sectionOf(j Job) section {
	s := section{Panel: relief.Of(j.Physics, j.Work.Pattern, relief.Wetter{})}
	s.seasons = s.Seasons()
	for _, k := range panelOf(j).planks {
		s.colours = append(s.colours, k.shades[shadeBase])
	}
	s.factor = relief.Magnification(relief.RangeUM(s.seasons), s.reach())
	return s
}

// reach returns by how much either face may be drawn off its place, in mm of wood: so little
// that the faces never cross.
func (s section) reach() float64 { return 0.45 * s.ThicknessMM }

// says tells what the drawing of a section is.
func (s section) says() string {
	return fmt.Sprintf("The section across the grain, strip 1 at the left, visible face up, in the dry and the humid season: heights magnified %d times", s.factor)
}

// words tells what is read off the section, and what is not known of it, each a sentence.
func (s section) words(j Job) []string {
	if why := s.Why(); why != "" {
		return []string{"No relief: " + why}
	}
	out := []string{s.says()}
	for _, season := range s.seasons {
		text := fmt.Sprintf("%v season: %s, %s", season.Season, season.Cup(j.Unit), season.Gaps(j.Unit))
		if len(s.NoBark) > 0 {
			text += ", dashed: give or take by unknown bark sides"
		}
		out = append(out, capital(text))
	}
	for _, note := range s.Notes(j.Unit) {
		out = append(out, capital(note))
	}
	return out
}

// reliefPicture draws the section for the sheet; nothing where there is no relief.
func reliefPicture(j Job, s section) template.HTML {
	if len(s.seasons) == 0 {
		return ""
	}
	across := s.WidthMM()
	size := 2.6 * 1.12 * across / printedWide
	l := &layout{job: j, size: size}
	l.margin, l.wide = size, across+2*size
	l.sections(s)
	l.high = l.y + size/2
	return inline(l.page, j.mark+"r", "How the panel will stand", strings.Join(s.words(j), ". ")+".", "")
}

// relief draws the section of the panel in both seasons beneath all else, with words.
func (l *layout) relief() {
	s := sectionOf(l.job)
	l.says += "; " + strings.Join(s.words(l.job), "; ")
	l.sections(s)
	small := 0.8 * l.size
	for _, text := range s.words(l.job) {
		for _, line := range wrap(text+".", small, l.room(), 3) {
			l.text(line, small, faint, false)
		}
	}
	l.y += l.size
}

// sections draws the section in each season, one beneath the other.
func (l *layout) sections(s section) {
	scale := min(1, l.room()/s.WidthMM())
	for _, season := range s.seasons {
		l.text(season.Season.String()+" season", 0.85*l.size, ink, false)
		l.y += scale * (s.reach() + s.ThicknessMM/2)
		l.section(s, season, point{(l.wide - scale*s.WidthMM()) / 2, l.y}, scale)
		l.y += scale*(s.reach()+s.ThicknessMM/2) + 1.6*l.size
	}
}

// section draws the section in one season; at is its left end, in the middle of the thickness.
func (l *layout) section(s section, season relief.Season, at point, scale float64) {
	face := func(f relief.Face, x, shift float64) point {
		height, band := season.At(f, x)
		off := s.ThicknessMM/2 + (height+shift*band)*float64(s.factor)/1000
		if f == relief.Top {
			off = -off
		}
		return point{at.x + scale*x, at.y + scale*off}
	}
	curve := func(f relief.Face, from, to, shift float64) []point {
		const fine = 150 // parts of the whole width
		n := max(4, int(math.Ceil(fine*math.Abs(to-from)/s.WidthMM())))
		var out []point
		for i := range n + 1 {
			out = append(out, face(f, from+(to-from)*float64(i)/float64(n), shift))
		}
		return out
	}
	from := 0.0
	for i, strip := range s.Strips {
		to := from + strip.WidthMM
		top, under := curve(relief.Top, from, to, 0), curve(relief.Under, to, from, 0)
		outline := append(top, under...)
		l.add(fillOp{outline, s.colours[i]})
		l.add(strokeOp{outline, true, l.size / 30, ink, false})
		if text := strconv.Itoa(i + 1); wide(text, 0.8*l.size) < scale*strip.WidthMM {
			l.add(textOp{at: point{at.x + scale*(from+to)/2, at.y + scale*(s.reach()+s.ThicknessMM/2) + 0.9*l.size}, size: 0.8 * l.size, text: text, colour: faint, middle: true})
		}
		from = to
	}
	if len(s.NoBark) == 0 {
		return
	}
	for _, f := range [...]relief.Face{relief.Top, relief.Under} {
		for _, shift := range [...]float64{-1, 1} {
			l.add(strokeOp{curve(f, 0, s.WidthMM(), shift), false, l.size / 24, faint, true})
		}
	}
}
