package rack

import (
	"errors"
	"regexp"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// The words of a line and what each does. Letters alone serve those that a pile
// needs in every second line.
func lineWords() []struct {
	word, short string
	take        func(l *line, from int)
} {
	rings := func(r pattern.Rings) func(l *line, from int) {
		return func(l *line, from int) {
			if l.once(from, "rings") {
				l.entry.Rings = r
			}
		}
	}
	return []struct {
		word, short string
		take        func(l *line, from int)
	}{
		{"planed", "p", func(l *line, from int) {
			if l.once(from, "planed") {
				l.entry.Planed, l.planed = true, part{from, l.at}
			}
		}},
		{"flat", "f", rings(pattern.RingsFlat())},
		{"rift", "r", rings(pattern.RingsRift())},
		{"quarter", "q", rings(pattern.RingsQuarter())},
		{"unknown", "", rings(pattern.Rings{})},
		{"first", "", func(l *line, from int) {
			if l.once(from, "first") {
				l.entry.UseFirst = true
			}
		}},
		{"strip", "", func(l *line, from int) { l.entry.Ready = l.once(from, "strip") || l.entry.Ready }},
		{"id", "", (*line).id},
		{"note", "", (*line).noteToEnd},
	}
}

// alongWord makes a fault one that runs along the grain.
const alongWord = "along"

// faultWords lists what a fault may be called.
func faultWords() []string {
	return []string{"fault", "split", "shake", "knot", "check", "wane", "rot", "sapwood", "hole"}
}

// allWords lists the words that may stand behind the timber.
func allWords() []string {
	words := append(faultWords(), alongWord)
	for _, w := range lineWords() {
		words = append(words, w.word)
	}
	return words
}

var timesNumber = regexp.MustCompile(`^[x×]([0-9]|$)`)

// endsTimber reports whether a small word behind a timber is no part of its name.
func endsTimber(word string) bool {
	for _, w := range allWords() {
		if w == word {
			return true
		}
	}
	return timesNumber.MatchString(word)
}

// spokenWord reads a word and what belongs to it.
func (l *line) spokenWord(sized bool) {
	from := l.at
	word := strings.ToLower(l.word())
	if word == "by" && sized && l.sizes < len(sizes()) {
		l.sized = true
		return
	}
	for _, w := range lineWords() {
		if word == w.word || word == w.short && word != "" {
			w.take(l, from)
			return
		}
	}
	for _, w := range append(faultWords(), alongWord) {
		if word == w {
			l.at = from
			l.fault()
			return
		}
	}
	var could []string
	for _, w := range allWords() {
		if strings.HasPrefix(w, word) {
			could = append(could, w)
		}
	}
	want, hint := "", ""
	if len(could) > 0 {
		want = strings.Join(could, " or ") + "?"
		hint = "; did you mean " + strings.Join(could, " or ") + "?"
	}
	l.fail(from, want, "no word that is known here%s: planed, flat, rift, quarter, 30deg, 9.1 %%, split 0-40, along 30-45, x3, first, strip, id or note", hint)
}

const whereFault = "say where the fault lies, like split 0-40 or shake along 30-45"

// fault reads what a fault is called, where a word says so, and where it lies.
func (l *line) fault() {
	from, to, kind, along := l.at, l.at, "", false
	for l.blanks(); l.at < len(l.text) && !l.startsNumber(l.at); l.blanks() {
		start := l.at
		word := strings.ToLower(l.word())
		named := false
		for _, w := range faultWords() {
			named = named || w == word
		}
		switch {
		case named && kind == "":
			kind = word
		case word == alongWord && !along:
			along = true
		default:
			l.at = start
			want := ""
			if strings.HasPrefix(alongWord, word) && start+len(word) == len(l.text) {
				l.at, to, want = len(l.text), len(l.text), alongWord+"?"
			}
			l.failAt(from, to, want, "%s", whereFault)
			return
		}
		to = l.at
	}
	if l.at == len(l.text) {
		l.failAt(from, to, "from-to?", "%s", whereFault)
		return
	}
	l.stretch(from, kind, along)
}

// stretch reads where a fault lies: 0-40. A unit behind the second number stands for
// both.
func (l *line) stretch(from int, kind string, along bool) {
	low := l.lengthText(false)
	next := l.spacesFrom(l.at)
	if !strings.HasPrefix(l.text[next:], "-") {
		if !l.ended(l.at) {
			l.toBlank()
		}
		want := ""
		if low != "" {
			want = "from-to?"
		}
		l.fail(from, want, "a fault goes from a place to a place, like 0-40")
		return
	}
	l.at = l.spacesFrom(next + 1)
	high := l.lengthText(false)
	if high == "" || !l.ended(l.at) {
		l.toBlank()
		l.fail(from, "from-to?", "a fault goes from a place to a place, like 0-40")
		return
	}
	f, err := ParseFaultIn(low+"-"+high, l.unit)
	if err != nil {
		l.fail(from, "from-to?", "%v", err)
		return
	}
	f.Along = along
	if kind == "" {
		kind = "fault"
	}
	l.entry.Faults = append(l.entry.Faults, f)
	l.faults = append(l.faults, spoken{kind, part{from, l.at}})
}

// number reads a moisture, an angle of the rings, a size or a fault.
func (l *line) number() {
	from := l.at
	end := l.decimalEnd(from)
	behind := l.spacesFrom(end)
	switch rest := l.text[behind:]; {
	case strings.HasPrefix(rest, "%"):
		l.at = behind + 1
		l.moisture(from, l.text[from:end])
	case strings.HasPrefix(rest, "°"):
		l.at = behind + len("°")
		l.angle(from, l.text[from:end])
	case strings.HasPrefix(rest, "deg") && l.ended(behind+len("deg")):
		l.at = behind + len("deg")
		l.angle(from, l.text[from:end])
	case l.sizes == len(sizes()):
		l.faultOrTooMany(from)
	default:
		l.size(from)
	}
}

func (l *line) moisture(from int, number string) {
	percent, err := strconv.ParseFloat(strings.Replace(number, ",", ".", 1), 64)
	if err != nil || percent > pattern.MaxMoisture {
		l.fail(from, "", "a moisture is 0 %% to %v %%", pattern.MaxMoisture)
		return
	}
	if l.once(from, "moisture") {
		l.entry.Moisture = pattern.Read(percent)
	}
}

func (l *line) angle(from int, number string) {
	degrees, err := strconv.ParseFloat(strings.Replace(number, ",", ".", 1), 64)
	if err != nil {
		l.fail(from, "", "an angle of the rings is 0deg to 90deg")
		return
	}
	rings, err := pattern.RingsAt(degrees)
	if err != nil {
		l.fail(from, "", "%v", err)
		return
	}
	if l.once(from, "rings") {
		l.entry.Rings = rings
	}
}

// faultOrTooMany reads a number behind the three sizes, which can only be a fault.
func (l *line) faultOrTooMany(from int) {
	l.lengthText(false)
	next := l.spacesFrom(l.at)
	if strings.HasPrefix(l.text[next:], "-") {
		l.at = from
		l.stretch(from, "", false)
		return
	}
	l.toBlank()
	l.fail(from, "% or deg or -?", "the three sizes are given already: write a moisture as 9.1 %%, an angle as 30deg, a fault as 0-40, how many as x3")
}

// size reads the next of the three sizes; what it means is settled with the others.
func (l *line) size(from int) {
	text := l.lengthText(true)
	if !l.ended(l.at) {
		l.toBlank()
		name := sizes()[l.sizes].name
		l.fail(from, name+"?", "no %s: write a number with or without mm, cm, m or in, like 620 or 24 1/2 in", name)
		text, l.wrong = "", true
	}
	l.sizeTexts = append(l.sizeTexts, sizeText{text, part{from, l.at}})
	l.sizes++
	l.sized = true
}

// settleSizes reads the sizes, whose unit may stand behind the last alone.
func (l *line) settleSizes() {
	texts := make([]string, len(l.sizeTexts))
	for i, t := range l.sizeTexts {
		texts[i] = t.text
	}
	meant, err := length.Together(texts, l.unit)
	var mixed *length.MixedError
	if errors.As(err, &mixed) && !l.wrong {
		l.wrong = true
		where := l.sizeTexts[mixed.Index].part
		l.failAt(where.from, where.to, "unit?", "%v", err)
	}
	for i, text := range meant {
		if text != "" {
			l.settleSize(sizes()[i], text, l.sizeTexts[i].part)
		}
	}
}

// settleSize takes text, which stands at where, for the size s.
func (l *line) settleSize(s size, text string, where part) {
	got, err := length.ParseIn(text, l.unit)
	if err == nil {
		err = s.check(got)
	}
	if err == nil {
		*s.of(&l.entry.Piece) = got
		return
	}
	want := ""
	if got == 0 {
		want = s.name + "?" // the first digit of one below 1
	}
	l.wrong = true
	l.failAt(where.from, where.to, want, "%v", err)
}

// id reads an id, in quotes where it has blanks.
func (l *line) id(from int) {
	l.at = l.spacesFrom(l.at)
	var id string
	if quoted, err := strconv.QuotedPrefix(l.text[l.at:]); err == nil && quoted[0] == '"' {
		l.at += len(quoted)
		id, _ = strconv.Unquote(quoted) // QuotedPrefix has seen to it
	} else {
		id = l.word()
	}
	if err := CheckID(id); err != nil {
		want := ""
		if id == "" {
			want = "which id?"
		}
		l.fail(from, want, "%v", err)
		return
	}
	if l.once(from, "id") {
		l.entry.ID = id
	}
}

// noteToEnd takes the rest of the line for a note, as it is, or whole in quotes.
func (l *line) noteToEnd(from int) {
	note := strings.TrimFunc(l.text[l.at:], unicode.IsSpace)
	l.at = len(l.text)
	if quoted, err := strconv.QuotedPrefix(note); err == nil && quoted == note && quoted[0] == '"' {
		note, _ = strconv.Unquote(quoted) // QuotedPrefix has seen to it
	}
	if err := CheckNote(note); err != nil {
		l.fail(from, "", "%v", err)
		return
	}
	l.entry.Note, l.note = note, part{from, l.at}
}

// wholeNumber reads digits alone.
func wholeNumber(s string) (int, bool) {
	const mostDigits = 9
	if s == "" || len(s) > mostDigits || strings.Trim(s, "0123456789") != "" {
		return 0, false
	}
	n, err := strconv.Atoi(s)
	return n, err == nil
}

func letter(r rune) bool { return unicode.IsLetter(r) }

func digit(b byte) bool { return b >= '0' && b <= '9' }

// isTimes reports whether r stands between sizes, or before a quantity.
func isTimes(r rune) bool { return r == 'x' || r == 'X' || r == '×' }

// parts reports whether r parts words.
func parts(r rune) bool { return unicode.IsSpace(r) || r == ',' || r == ';' }

// blanks goes past what parts words.
func (l *line) blanks() {
	for l.at < len(l.text) {
		r, width := utf8.DecodeRuneInString(l.text[l.at:])
		if !parts(r) {
			return
		}
		l.at += width
	}
}

// spacesFrom gives where spaces that start at at end.
func (l *line) spacesFrom(at int) int {
	for at < len(l.text) {
		r, width := utf8.DecodeRuneInString(l.text[at:])
		if !unicode.IsSpace(r) {
			return at
		}
		at += width
	}
	return at
}

// word reads up to the next blank or comma.
func (l *line) word() string {
	from := l.at
	l.toBlank()
	return l.text[from:l.at]
}

// toBlank goes to the next blank or comma. A comma before a digit belongs to a number.
func (l *line) toBlank() {
	for l.at < len(l.text) {
		r, width := utf8.DecodeRuneInString(l.text[l.at:])
		if parts(r) {
			return
		}
		l.at += width
	}
}

// ended reports whether a number may end at at.
func (l *line) ended(at int) bool {
	if at >= len(l.text) {
		return true
	}
	r, _ := utf8.DecodeRuneInString(l.text[at:])
	return parts(r) || isTimes(r)
}
