package cli

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/spoken"
	"example.com/oddments/pattern/suggest"
)

// A lengthFlag is a length of at least least and at most most; a bare number is
// millimetres.
type lengthFlag struct {
	into        *length.Length
	least, most length.Length
}

func (f *lengthFlag) String() string {
	if f.into == nil || *f.into == 0 {
		return ""
	}
	return f.into.Exact()
}

func (f *lengthFlag) Type() string { return "LENGTH" }

func (f *lengthFlag) Set(text string) error {
	l, err := length.Parse(text)
	switch {
	case err != nil:
		return err
	case l < f.least || l > f.most:
		return fmt.Errorf("%q: must be %s to %s", text, f.least, f.most)
	}
	*f.into = l
	return nil
}

// A widthsFlag is widths of strips, parted by commas, or the word for those of the workshop.
type widthsFlag struct {
	into     *[]length.Length
	standing *bool
}

// standing is that word.
const standing = "standing"

func (f *widthsFlag) String() string { return "" }
func (f *widthsFlag) Type() string   { return "WIDTH,..." }

func (f *widthsFlag) Set(text string) error {
	if *f.standing = text == standing; *f.standing {
		return nil
	}
	texts, err := length.Together(strings.Split(text, ","), length.InMM)
	if err != nil {
		return err
	}
	var all []length.Length
	for _, part := range texts {
		w, err := length.Parse(part)
		switch {
		case err != nil:
			return err
		case w <= 0 || w > pattern.MaxAcross:
			return fmt.Errorf("%q: must be above 0 and at most %s", part, pattern.MaxAcross)
		}
		all = append(all, w)
	}
	*f.into = all
	return nil
}

// A rangeFlag is the fewest and the most strips, or their one number.
type rangeFlag [2]int

func (f *rangeFlag) String() string { return fmt.Sprintf("%d..%d", f[0], f[1]) }
func (f *rangeFlag) Type() string   { return "N..M" }

func (f *rangeFlag) Set(text string) error {
	low, high, both := strings.Cut(text, "..")
	if !both {
		high = low
	}
	fewest, err := strconv.ParseUint(low, 10, 31)
	most, err2 := strconv.ParseUint(high, 10, 31)
	if err != nil || err2 != nil || fewest < 2 || most < fewest || most > pattern.MaxStrips {
		return fmt.Errorf("%q: must be a range from 2 to %d, like 9..13, or one number", text, pattern.MaxStrips)
	}
	f[0], f[1] = int(fewest), int(most)
	return nil
}

// A levelFlag is a level in the words that makers read.
type levelFlag pattern.Level

func (f *levelFlag) String() string { return pattern.Level(*f).String() }
func (f *levelFlag) Type() string   { return "LEVEL" }

func (f *levelFlag) Set(text string) error {
	level, err := pattern.ParseLevel(text)
	if err == nil {
		*f = levelFlag(level)
	}
	return err
}

// levels lists them for a shell that completes them.
func levels() []string {
	var all []string
	for _, l := range pattern.Levels() {
		all = append(all, l.String())
	}
	return all
}

// An aimFlag is an aim; the zero value leaves it to what is marked use first.
type aimFlag suggest.Aim

func (f *aimFlag) String() string { return suggest.Aim(*f).String() }
func (f *aimFlag) Type() string   { return "use-up|contrast" }

func (f *aimFlag) Set(text string) error {
	aim, err := suggest.ParseAim(text)
	if err == nil {
		*f = aimFlag(aim)
	}
	return err
}

// A contrastFlag is a colour difference of 0 to 100.
type contrastFlag float64

func (f *contrastFlag) String() string { return strconv.FormatFloat(float64(*f), 'f', -1, 64) }
func (f *contrastFlag) Type() string   { return "CONTRAST" }

func (f *contrastFlag) Set(text string) error {
	c, err := strconv.ParseFloat(text, 64)
	if err != nil || strings.Trim(text, "0123456789.") != "" || !(c >= 0 && c <= 100) || math.IsInf(c, 0) {
		return fmt.Errorf("%q: must be a plain number from 0 to 100", text)
	}
	*f = contrastFlag(c)
	return nil
}

// A haveFlag collects ready strips that are named on the spot.
type haveFlag struct{ into *[]suggest.ReadyStrips }

func (f *haveFlag) String() string { return "" }
func (f *haveFlag) Type() string   { return "STRIPS" }

func (f *haveFlag) Set(text string) error {
	h, err := parseHave(text)
	if err != nil {
		return fmt.Errorf("%q: %w", text, err)
	}
	// No id of a rack holds a slash, so none is taken for this one.
	h.Source = fmt.Sprintf("have/%d", len(*f.into)+1)
	*f.into = append(*f.into, h)
	return nil
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
		what, err := readHave(&h, l.Next())
		if err != nil {
			return h, err
		}
		if l.Twice(what) {
			return h, fmt.Errorf("%s is said twice: say it once", what)
		}
	}
	return h, nil
}

// readHave reads one word behind the width and says what it is about.
func readHave(h *suggest.ReadyStrips, word string) (what string, err error) {
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
