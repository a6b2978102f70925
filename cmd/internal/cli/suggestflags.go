package cli

import (
	"fmt"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/spoken"
	"example.com/oddments/pattern/suggest"
)

// standing is the word for the widths of the workshop.
const standing = "standing"

// readWidths reads widths of strips, parted by commas, or that word.
func (f *suggestFlags) readWidths(text string) ([]length.Length, error) {
	if f.standing = text == standing; f.standing {
		return nil, nil
	}
	texts, err := length.Together(strings.Split(text, ","), length.InMM)
	if err != nil {
		return nil, err
	}
	var all []length.Length
	for _, part := range texts {
		w, err := length.Parse(part)
		switch {
		case err != nil:
			return nil, err
		case w <= 0 || w > pattern.MaxAcross:
			return nil, fmt.Errorf("%q: must be above 0 and at most %s", part, pattern.MaxAcross)
		}
		all = append(all, w)
	}
	return all, nil
}

// parseRange reads the fewest and the most strips, or their one number.
func parseRange(text string) ([2]int, error) {
	low, high, both := strings.Cut(text, "..")
	if !both {
		high = low
	}
	fewest, ok := spoken.Whole(low)
	most, ok2 := spoken.Whole(high)
	if !ok || !ok2 || fewest < 2 || most < fewest || most > pattern.MaxStrips {
		return [2]int{}, fmt.Errorf("%q: must be a range from 2 to %d, like 9..13, or one number", text, pattern.MaxStrips)
	}
	return [2]int{fewest, most}, nil
}

// readHave adds ready strips that are named on the spot to those before.
func (f *suggestFlags) readHave(text string) ([]suggest.ReadyStrips, error) {
	h, err := parseHave(text)
	if err != nil {
		return nil, fmt.Errorf("%q: %w", text, err)
	}
	// No id of a rack holds a slash, so none is taken for this one.
	h.Source = fmt.Sprintf("have/%d", len(f.ask.Have)+1)
	return append(f.ask.Have, h), nil
}

// parseHave reads "hard_maple 25 x14 flat first": species and width first, the rest in
// any order.
func parseHave(text string) (suggest.ReadyStrips, error) {
	if err := oneLine(text); err != nil {
		return suggest.ReadyStrips{Count: 1}, err
	}
	l := spoken.Line{Text: text}
	l.More()
	h := suggest.ReadyStrips{Count: 1, Species: l.Word()}
	if !l.More() {
		return h, fmt.Errorf(`must be a timber and a width, and what more there is to say, like "hard_maple 25 x14 flat first"`)
	}
	var err error
	if h.Width, err = l.Length(); err != nil {
		return h, err
	}
	if h.Width <= 0 || h.Width > pattern.MaxAcross {
		return h, fmt.Errorf("width %s: must be above 0 and at most %s", h.Width, pattern.MaxAcross)
	}
	for l.More() {
		what, err := readHaveWord(&h, l.Next())
		if err != nil {
			return h, err
		}
		if l.Twice(what) {
			return h, fmt.Errorf("%s is said twice: say it once", what)
		}
	}
	return h, nil
}

// readHaveWord reads one word behind the width and says what it is about.
func readHaveWord(h *suggest.ReadyStrips, word string) (what string, err error) {
	if word == "first" {
		h.UseFirst = true
		return "first", nil
	}
	if number, ok := strings.CutPrefix(word, "x"); ok {
		if h.Count, ok = spoken.Whole(number); !ok || h.Count < 1 || h.Count > pattern.MaxStrips {
			return "", fmt.Errorf("%q: must be x1 to x%d, how many there are", word, pattern.MaxStrips)
		}
		return "the count", nil
	}
	rings, err := pattern.ParseRings(word)
	if err != nil {
		return "", fmt.Errorf("%q: must be a count like x14, rings like flat, rift, quarter or unknown, or first", word)
	}
	h.Rings = rings
	return "the rings", nil
}
