package work

import (
	"fmt"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/spoken"
)

// longestLine bounds what is read of a typed line; a long note fits.
const longestLine = 10_000

// BatchLine returns a batch as it is typed, numbers without a unit in u; ParseBatch
// reads it back to the same.
func BatchLine(m pattern.Made, u length.Unit) string {
	words := []string{m.Date.String(), fmt.Sprintf("x%d", m.Copies)}
	if m.Width > 0 {
		words = append(words, m.Width.Typed(u)+" wide")
	}
	if m.Thickness > 0 {
		words = append(words, m.Thickness.Typed(u)+" thick")
	}
	if m.Minutes > 0 {
		words = append(words, fmt.Sprintf("%d min", m.Minutes))
	}
	if m.Note != "" {
		words = append(words, "note "+m.Note)
	}
	return strings.Join(words, ", ")
}

// ParseBatch reads a batch that was made as it is spoken, in any order, parted by
// blanks or commas. What is not said stays as today's batch of one
// would have it; numbers without a unit are in u.
//
//	4, 299.5 wide, 21.6 thick, 310 min, note one kept for the hall
//	2026-11-02 x4 wide 299.5 thick 21.6
//
// A size stands before its name, or behind it where no number stands before it. The
// first bare number, or the one behind x, is how many were made; note is the last, to
// the end of the line.
func ParseBatch(text string, u length.Unit, today pattern.Date) (pattern.Made, error) {
	if len(text) > longestLine {
		return pattern.Made{}, fmt.Errorf("a batch of %d letters: write it like 4, 299.5 wide, 310 min", len(text))
	}
	r := batchReader{Line: spoken.Line{Text: text, Unit: u}, made: pattern.Made{Date: today, Copies: 1}}
	for r.More() {
		if err := r.next(); err != nil {
			return pattern.Made{}, err
		}
	}
	return r.made, nil
}

// A batchReader goes through a typed batch.
type batchReader struct {
	spoken.Line
	made    pattern.Made
	counted bool
}

// next reads one thing that is said.
func (r *batchReader) next() (err error) {
	from := r.At
	word := r.Next()
	if what, into := r.sizeOf(word); into != nil {
		if !r.More() {
			return fmt.Errorf("missing: the %s you measured", what)
		}
		if *into, err = r.Length(); err != nil {
			err = fmt.Errorf("%s: %w", what, err)
		}
		return err
	}
	whole := spoken.Digits(word)
	count, behindX := strings.CutPrefix(word, "x")
	switch {
	case word == "note" || strings.HasPrefix(word, "note:"):
		r.At = from + len("note")
		if rest := r.Text[r.At:]; rest != "" && strings.Contains(":,;", rest[:1]) {
			r.At++
		}
		r.made.Note = r.Rest()
		return nil
	case strings.Count(word, "-") == 2:
		r.made.Date, err = pattern.ParseDate(word)
		return err
	case behindX:
		return r.copies(count)
	case whole && r.Skip("min", "minutes"):
		minutes, ok := spoken.Whole(word)
		if !ok || minutes > pattern.MaxMinutes {
			return fmt.Errorf("%s minutes: must be 0 to %d", word, pattern.MaxMinutes)
		}
		r.made.Minutes = minutes
		return nil
	case whole && r.Skip("copies", "boards", "panels"):
		return r.copies(word)
	}
	behind := r.At
	r.At = from
	if l, err := r.Length(); err == nil {
		if _, into := r.sizeOf(r.Next()); into != nil {
			*into = l
			return nil
		}
	}
	r.At = behind
	if whole && !r.counted {
		return r.copies(word)
	}
	return fmt.Errorf("%q: not a word I know. Use: 4, 299.5 wide, 21.6 thick, 310 min, 2026-11-02, or note and your words", r.Text[from:behind])
}

func (r *batchReader) copies(text string) (err error) {
	r.made.Copies, err = spoken.Count("copies", text, pattern.MaxBatch)
	r.counted = true
	return err
}

// sizeOf returns the size that a word names, and nil where it names none.
func (r *batchReader) sizeOf(word string) (what string, into *length.Length) {
	switch word {
	case "wide", "width":
		return "width", &r.made.Width
	case "thick", "thickness":
		return "thickness", &r.made.Thickness
	default:
		return "", nil
	}
}

// LabelOf returns what every label of a workshop says.
func LabelOf(m shop.Maker) Label {
	return Label{Maker: m.Name, Address: m.Address, Electronic: m.Electronic, Glue: m.Glue, Finish: m.Finish}
}

// OfBatch returns l with what the label of a batch takes from it: its number among those
// of the pattern and its day.
func (l Label) OfBatch(stem string, number int, m pattern.Made) Label {
	l.Batch, l.Date = fmt.Sprintf("%s-%d", stem, number), m.Date.String()
	return l
}
