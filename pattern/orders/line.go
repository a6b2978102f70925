package orders

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/spoken"
	"example.com/oddments/pattern/suggest/look"
)

// longestLine bounds what is read of a typed line.
const longestLine = 1000

// Example is a want as hints show it.
const Example = "round 290 x 25 thick, up to 6, 38 each, mirror"

// ParseLine reads a want as it is spoken: a product, as outline.ParseLine reads it, with how
// thick it is finished, then whatever else it wishes, in any order, parted by blanks or commas.
// Numbers without a unit are in u, timbers are found in look.
//
//	round 290 x 25 thick, up to 6, 38 each, mirror
//	rectangle 300 x 180 bevel 3 both, 18 thick, at least 1, 3..5 timbers, called tray
//	block 320 x 90 x 38 thick, with pear and ash, at most 40 % pear, no joints
//
// That is all that can be said, besides the product:
//
//	25 thick                          how thick it is when finished
//	at least 2, up to 6, just 4, x4   how many
//	38 each                           what one is worth
//	mirror                            the look
//	fine, take care, too much         the worst glue line
//	1..3 along, up to 2 along         products one after another in a panel
//	2..4 timbers, at least 3 timbers  different ones in a panel
//	with pear, without oak            timbers that must or must not be there
//	at most 40 % pear                 of the width
//	contrast 15                       the least of neighbours
//	spare 12                          how much wider the panel may be than its product needs
//	no joints                         every strip in one piece
//	called tray                       its id; empty where nothing is said
func ParseLine(text string, look rack.Lookup, u length.Unit) (Want, error) {
	if len(text) > longestLine {
		return Want{}, fmt.Errorf("a line of %d letters is too long: write it like %s", len(text), Example)
	}
	r := reader{Line: spoken.Line{Text: text, Unit: u, Times: true}, look: look, want: New()}
	if !r.More() {
		return Want{}, errors.New("missing: what would sell; write it like " + Example)
	}
	for r.More() {
		if err := r.next(); err != nil {
			return Want{}, err
		}
	}
	return r.finish()
}

// A reader goes through a typed want.
type reader struct {
	spoken.Line
	look    rack.Lookup
	want    Want
	product []string // what is said of the product
}

// finish reads the product, and says what is missing or cannot be.
func (r *reader) finish() (Want, error) {
	w := r.want
	p, err := outline.ParseLine(strings.Join(r.product, " "), r.Unit)
	if unknown := (*outline.UnknownWord)(nil); errors.As(err, &unknown) {
		return Want{}, fmt.Errorf("%q: not a word I know. Besides the product use: 25 thick, at least 2, up to 6, 38 each, mirror, fine, 1..3 along, 2..4 timbers, "+
			"with pear, without oak, at most 40 %% ash, contrast 15, spare 12, no joints, called tray", unknown.Word)
	}
	if err != nil {
		return Want{}, err
	}
	if p.Count > 1 && w.Most == 0 {
		w.Most = p.Count
	}
	p.Count, p.Centre = 1, pattern.Centre{}
	if w.Product = p; w.Thickness == 0 {
		return Want{}, errors.New("missing: how thick it is when finished; write it like 25 thick")
	}
	for _, wrong := range w.Wrongs() {
		return Want{}, fmt.Errorf("%s %s: %s", spokenKey(wrong.Key), wrong.Text, wrong.Hint)
	}
	return w, nil
}

// spokenKey returns what a key of the file is called in a typed want.
func spokenKey(key string) string {
	if key == "least" {
		return "at least"
	}
	return strings.ReplaceAll(key, "_", " ")
}

// once refuses what was said before.
func (r *reader) once(thing string) error {
	if r.Twice(thing) {
		return fmt.Errorf("%s is given twice: write it once", thing)
	}
	return nil
}

// next reads one thing that is said.
func (r *reader) next() error {
	from := r.At
	if r.SkipTimes() || r.AtNumber() || r.atMoney() {
		text := r.LengthText()
		after := r.At
		if said, err := r.number(text); said {
			return err
		}
		r.At = after
		r.product = append(r.product, r.Text[from:after])
		return nil
	}
	word := r.Next()
	for _, read := range []func(string) (bool, error){r.many, r.panel, r.timbers} {
		if said, err := read(word); said {
			return err
		}
	}
	r.product = append(r.product, r.Text[from:r.At])
	return nil
}

// atMoney reports whether a price with the sign of its money before it is read next, and goes past
// the sign.
func (r *reader) atMoney() bool {
	sign, width := utf8.DecodeRuneInString(r.Text[r.At:])
	if !unicode.Is(unicode.Sc, sign) {
		return false
	}
	r.At += width
	r.Spaces()
	return true
}

// number reads a number by the word behind it, and reports whether that is one of a want's.
func (r *reader) number(text string) (said bool, err error) {
	w := &r.want
	word := r.Next()
	if sign, width := utf8.DecodeRuneInString(word); width == len(word) && unicode.Is(unicode.Sc, sign) {
		word = r.Next()
	}
	if word == "to" { // 2 to 4 timbers
		text += ".." + r.LengthText()
		word = r.Next()
	}
	switch word {
	case "thick":
		if n := len(r.product); n > 0 && r.product[n-1] == "by" {
			r.product = r.product[:n-1]
		}
		if err = r.once("the thickness"); err == nil {
			w.Thickness, err = length.ParseIn(text, r.Unit)
		}
		if err == nil && (w.Thickness <= 0 || w.Thickness > pattern.MaxAcross) {
			err = fmt.Errorf("%q: must be more than 0 and at most %s", text, length.Length(pattern.MaxAcross).With(r.Unit))
		}
	case "each", "apiece":
		err = r.worth(text)
	case "along":
		err = r.span("along", &w.Along, text, MostAlong)
	case "timber", "timbers":
		err = r.span("timbers", &w.Timbers, text, MostTimbers)
	case "spare":
		err = r.spare(text)
	default:
		return false, nil
	}
	return true, err
}

func (r *reader) worth(text string) error {
	if err := r.once("what one is worth"); err != nil {
		return err
	}
	text = strings.TrimSpace(strings.TrimFunc(text, func(c rune) bool { return unicode.Is(unicode.Sc, c) }))
	worth, err := spoken.Decimal(text)
	if _, thousands, comma := strings.Cut(text, ","); err != nil || worth <= 0 || worth > MostWorth || comma && len(thousands) == len("250") {
		return fmt.Errorf("%q: what one is worth must be a plain number above 0, like 38 or 5.50", text)
	}
	r.want.Worth = worth
	return nil
}

func (r *reader) span(what string, into *Range, text string, most int) (err error) {
	if err = r.once(what); err == nil {
		*into, err = ParseRange(strings.Replace(text, "-", "..", 1), most)
	}
	return err
}

func (r *reader) spare(text string) (err error) {
	if err = r.once("spare"); err != nil {
		return err
	}
	w := &r.want
	if w.Spare, err = length.ParseIn(text, r.Unit); err != nil {
		err = fmt.Errorf("spare %w", err)
	} else if w.Spare < 0 || w.Spare > pattern.MaxStart {
		err = fmt.Errorf("spare %q: must be 0 to %s", text, length.Length(pattern.MaxStart).With(r.Unit))
	}
	return err
}

// many reads how many are wanted, and what is said with a number behind it.
func (r *reader) many(word string) (said bool, err error) {
	w := &r.want
	switch word {
	case "up":
		r.Skip("to")
		return true, r.bound(word, false)
	case "most", "max", "min":
		return true, r.bound(word, word == "min")
	case "at":
		switch {
		case r.Skip("most", "max"):
			return true, r.bound(word, false)
		case r.Skip("least", "min"):
			return true, r.bound(word, true)
		}
		return true, fmt.Errorf("%q: write at least 2 or at most 6", word)
	case "just", "exactly":
		if err = r.once("how many at least"); err == nil {
			err = r.once("how many at most")
		}
		if err == nil {
			w.Least, err = spoken.Count(word, r.Next(), MostCopies)
			w.Most = w.Least
		}
	case "any": // number, look, timbers: what holds where nothing is said
		r.Skip("number", "look", "timbers")
	case "worth":
		err = r.worth(r.LengthText())
	case "called":
		if err = r.once("the name"); err == nil {
			if !r.More() {
				return true, errors.New("missing: the name; write it like called tray")
			}
			w.ID = r.Word()
		}
	default:
		return false, nil
	}
	return true, err
}

// bound reads what is asked for at least or at most: so many, so many along or timbers, or a
// share of the width.
func (r *reader) bound(word string, least bool) (err error) {
	w := &r.want
	from := r.At
	text := r.Next()
	number, percent := strings.CutSuffix(text, "%")
	if percent = percent || r.Skip("%", "percent"); percent && !least {
		return r.share(number)
	}
	n, ok := spoken.Whole(number)
	into := map[string]*Range{"along": &w.Along, "timber": &w.Timbers, "timbers": &w.Timbers}
	mosts := map[string]int{"along": MostAlong, "timber": MostTimbers, "timbers": MostTimbers}
	behind := r.At
	if what := r.Next(); ok && into[what] != nil {
		text := fmt.Sprintf("1..%d", n)
		if least {
			text = fmt.Sprintf("%d..%d", n, mosts[what])
		}
		return r.span(strings.TrimSuffix(what, "s"), into[what], text, mosts[what])
	}
	if r.At = behind; percent || !ok {
		r.At = from
		said := map[bool]string{true: "at least 2", false: "up to 6, or at most 40 % pear"}[least]
		return fmt.Errorf("%s %q: must be a whole number, like %s", word, text, said)
	}
	if least {
		if err = r.once("how many at least"); err == nil {
			w.Least, err = spoken.Count("at least", number, MostCopies)
		}
		return err
	}
	if err = r.once("how many at most"); err == nil {
		w.Most, err = spoken.Count("up to", number, MostCopies)
	}
	return err
}

// panel reads what is asked of the panel but for its timbers.
func (r *reader) panel(word string) (said bool, err error) {
	w := &r.want
	level := func(l pattern.Level, behind string) error {
		if behind != "" && !r.Skip(behind) {
			return fmt.Errorf("%q: write %v", word, l)
		}
		w.Level = l
		return r.once("the level")
	}
	switch word {
	case "look", "level":
	case "fine":
		err = level(pattern.Fine, "")
	case "take":
		err = level(pattern.TakeCare, "care")
	case "too":
		err = level(pattern.TooMuch, "much")
	case "along":
		err = r.span(word, &w.Along, r.Next(), MostAlong)
	case "timbers":
		err = r.span(word, &w.Timbers, r.Next(), MostTimbers)
	case "spare":
		err = r.spare(r.LengthText())
	case "least":
		if !r.Skip("contrast") {
			return true, r.bound(word, true)
		}
		err = r.contrast()
	case "contrast":
		err = r.contrast()
	case "joints":
		r.Skip("yes")
		w.Joints = !r.Skip("no")
	case "no":
		if !r.Skip("joints", "joint") {
			return true, fmt.Errorf("%q: write no joints, or without and a timber", word)
		}
		w.Joints = false
	default:
		l, wrong := look.Parse(word)
		if wrong != nil {
			return false, nil
		}
		w.Look, err = l, r.once("the look")
	}
	return true, err
}

func (r *reader) contrast() error {
	if err := r.once("contrast"); err != nil {
		return err
	}
	r.Skip("at")
	r.Skip("least", "of")
	text := r.Next()
	c, err := spoken.Decimal(text)
	if err != nil || !(c >= 0 && c <= MostContrast) {
		return fmt.Errorf("contrast %q: must be a number from 0 to %.0f, like 15", text, MostContrast)
	}
	r.want.LeastContrast = c
	return nil
}

// timbers reads the timbers that must or must not be there.
func (r *reader) timbers(word string) (said bool, err error) {
	w := &r.want
	switch word {
	case "with":
		at := r.At
		if r.Skip("joints") {
			w.Joints = true
			return true, nil
		}
		if r.More(); r.AtNumber() || r.Skip("a", "an", "hole", "holes", "bevel") { // of the product
			r.At = at
			return false, nil
		}
		w.With, err = r.list(word, w.With)
	case "without":
		if r.Skip("joints") {
			w.Joints = false
			return true, nil
		}
		w.Without, err = r.list(word, w.Without)
	default:
		return false, nil
	}
	return true, err
}

// list reads timbers behind a word, with commas, and or or between them.
func (r *reader) list(word string, list []string) ([]string, error) {
	for {
		if !r.More() {
			return nil, fmt.Errorf("missing: the timber; write it like %s pear", word)
		}
		key, err := r.timber()
		if err != nil {
			return nil, fmt.Errorf("%s %w", word, err)
		}
		list = append(list, key)
		more := r.Skip("and", "or", "&") && (!r.More() || !r.AtNumber())
		if at := r.At; !more && r.more(true) && !r.AtNumber() && !r.wants() {
			_, err := r.timber()
			r.At, more = at, err == nil
		}
		if !more {
			return list, nil
		}
	}
}

// more goes past what parts words, and reports whether a comma or semicolon is as is said among
// it and anything follows.
func (r *reader) more(comma bool) bool {
	return r.Parted() == comma && r.More()
}

// wants reports whether a word of a want's own is read next: none of them is a timber.
func (r *reader) wants() bool {
	at := r.At
	defer func() { r.At = at }()
	word := r.Next()
	_, err := look.Parse(word)
	return err == nil || slices.Contains([]string{"up", "at", "with", "without", "called", "look", "level", "fine", "take", "too", "just", "exactly", "spare", "contrast",
		"along", "timbers", "joints", "no", "least", "worth", "and", "or", "for"}, word)
}

// timber reads the key of a timber: as many words, up to a comma, a number or a word of a want's
// own, as name one.
func (r *reader) timber() (string, error) {
	r.More()
	from := r.At
	var ends []int
	for len(ends) == 0 || r.more(false) && !r.AtNumber() && !r.wants() {
		r.Word()
		ends = append(ends, r.At)
	}
	var wrong error
	for _, end := range slices.Backward(ends) {
		s, err := r.look.Find(r.Text[from:end])
		if err == nil {
			r.At = end
			return s.Key, nil
		}
		if could := (*rack.TimberError)(nil); wrong == nil || errors.As(err, &could) && len(could.Could) > 0 {
			wrong = err
		}
	}
	r.At = from
	return "", wrong
}

// share reads the timber of which at most so many percent of the width may be.
func (r *reader) share(percent string) error {
	r.Skip("of")
	if !r.More() {
		return errors.New("missing: the timber; write it like at most 40 % pear")
	}
	key, err := r.timber()
	if err != nil {
		return fmt.Errorf("at most %s %% %w", percent, err)
	}
	s, err := ParseShare(key + " " + strings.Replace(percent, ",", ".", 1))
	if err != nil {
		return fmt.Errorf("at most %q: must be a percentage from 0 to 100", percent)
	}
	r.want.AtMost = append(r.want.AtMost, s)
	return nil
}
