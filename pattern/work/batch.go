package work

import (
	"fmt"
	"strconv"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// longestLine bounds what is read of a typed line; a long note fits.
const longestLine = 10_000

// BatchLine gives a batch as it is typed, numbers without a unit in u; ParseBatch
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
// blanks or by a comma with a blank. What is not said stays as today's batch of one
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
	r := batchReader{unit: u, made: pattern.Made{Date: today, Copies: 1}}
	text, r.made.Note = cutNote(text)
	for w := range strings.FieldsSeq(text) {
		if w = strings.TrimRight(w, ",;"); w != "" {
			r.words = append(r.words, w)
		}
	}
	for len(r.words) > 0 {
		if err := r.next(); err != nil {
			return pattern.Made{}, err
		}
	}
	return r.made, nil
}

// cutNote parts a line at the word note; what stands behind it is the note.
func cutNote(text string) (before, note string) {
	for at := 0; ; {
		i := strings.Index(text[at:], "note")
		if i < 0 {
			return text, ""
		}
		i += at
		begins := i == 0 || strings.ContainsRune(" ,;\t", rune(text[i-1]))
		rest := text[i+len("note"):]
		if begins && (rest == "" || strings.ContainsRune(" :\t", rune(rest[0]))) {
			return text[:i], strings.TrimSpace(strings.TrimPrefix(rest, ":"))
		}
		at = i + len("note")
	}
}

// A batchReader goes through the words of a typed batch.
type batchReader struct {
	words   []string
	unit    length.Unit
	made    pattern.Made
	counted bool
}

// next reads one thing that is said.
func (r *batchReader) next() (err error) {
	word := strings.ToLower(r.words[0])
	switch word {
	case "wide", "width":
		return r.size(&r.made.Width, r.words[1:], "width")
	case "thick", "thickness":
		return r.size(&r.made.Thickness, r.words[1:], "thickness")
	}
	if strings.Count(word, "-") == 2 {
		r.words = r.words[1:]
		r.made.Date, err = pattern.ParseDate(word)
		return err
	}
	if count, ok := strings.CutPrefix(word, "x"); ok {
		r.words = r.words[1:]
		return r.copies(count)
	}
	n, whole := strconv.Atoi(word)
	behind := ""
	if len(r.words) > 1 {
		behind = strings.ToLower(r.words[1])
	}
	switch {
	case whole == nil && (behind == "min" || behind == "minutes"):
		r.words = r.words[2:]
		if n < 0 || n > pattern.MaxMinutes {
			return fmt.Errorf("%d minutes: must be 0 to %d", n, pattern.MaxMinutes)
		}
		r.made.Minutes = n
		return nil
	case whole == nil && (behind == "copies" || behind == "boards" || behind == "panels"):
		r.words = r.words[2:]
		return r.copies(word)
	}
	if err := r.sizeFirst(); err == nil {
		return nil
	}
	if whole == nil && !r.counted {
		r.words = r.words[1:]
		return r.copies(word)
	}
	return fmt.Errorf("%q: what is it? 4, 299.5 wide, 21.6 thick, 310 min, 2026-11-02, or note and your words", r.words[0])
}

func (r *batchReader) copies(text string) error {
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 || n > pattern.MaxBatch {
		return fmt.Errorf("copies %q: must be a whole number from 1 to %d", text, pattern.MaxBatch)
	}
	r.made.Copies, r.counted = n, true
	return nil
}

// size reads a size behind its name.
func (r *batchReader) size(into *length.Length, words []string, what string) (err error) {
	if len(words) == 0 {
		return fmt.Errorf("still wanted: the %s as it came out", what)
	}
	if *into, r.words, err = length.Take(words, r.unit); err != nil {
		return fmt.Errorf("%s: %w", what, err)
	}
	return nil
}

// sizeFirst reads a size with its name behind it, and takes nothing where there is
// none.
func (r *batchReader) sizeFirst() error {
	l, rest, err := length.Take(r.words, r.unit)
	if err != nil || len(rest) == 0 {
		return fmt.Errorf("no size")
	}
	switch strings.ToLower(rest[0]) {
	case "wide", "width":
		r.made.Width = l
	case "thick", "thickness":
		r.made.Thickness = l
	default:
		return fmt.Errorf("no size")
	}
	r.words = rest[1:]
	return nil
}

// LabelOf gives what the label of a batch takes from it: its number among those of the
// pattern and its day.
func LabelOf(stem string, number int, m pattern.Made) Label {
	return Label{Batch: fmt.Sprintf("%s-%d", stem, number), Date: m.Date.String()}
}
