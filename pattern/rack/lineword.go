package rack

import (
	"errors"
	"regexp"
	"slices"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/spoken"
)

// A lineWord is a word of a line and what it does. Letters alone serve those that a pile
// needs in every second line.
type lineWord struct {
	word, short string
	take        func(l *line, from int)
}

func lineWords() []lineWord {
	once := func(thing string, set func(l *line, from int)) func(l *line, from int) {
		return func(l *line, from int) {
			if l.once(from, thing) {
				set(l, from)
			}
		}
	}
	rings := func(r pattern.Rings) func(l *line, from int) {
		return once("rings", func(l *line, _ int) { l.entry.Rings = r })
	}
	return []lineWord{
		{"planed", "p", once("planed", func(l *line, from int) { l.entry.Planed, l.planed = true, part{from, l.At} })},
		{"flat", "f", rings(pattern.RingsFlat())},
		{"rift", "r", rings(pattern.RingsRift())},
		{"quarter", "q", rings(pattern.RingsQuarter())},
		{"unknown", "", rings(pattern.Rings{})},
		{"heart", "", once("heart", (*line).heart)},
		{"first", "", once("first", func(l *line, _ int) { l.entry.UseFirst = true })},
		{"strip", "", once("strip", func(l *line, _ int) { l.entry.Ready = true })},
		{"id", "", (*line).id},
		{"note", "", (*line).noteToEnd},
	}
}

// alongWord makes a fault one that runs along the grain.
const alongWord = "along"

// sizeWords lists what may stand behind a size to say which it is, in the order of sizes.
func sizeWords() []string { return []string{"long", "wide", "thick"} }

// anyFault is a fault of which nothing more is said.
const anyFault = "fault"

// faultWords lists what a fault may be called.
func faultWords() []string {
	return []string{anyFault, "split", "crack", "shake", "knot", "check", "wane", "bark", "pith", "rot", "sapwood", "hole"}
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
	return slices.Contains(allWords(), word) || timesNumber.MatchString(word)
}

// spokenWord reads a word and what belongs to it.
func (l *line) spokenWord(sized bool) {
	from := l.At
	word := strings.ToLower(l.Word())
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
	if word == barkWord && l.barkSide(from) {
		return
	}
	if word == alongWord || slices.Contains(faultWords(), word) {
		l.At = from
		l.fault()
		return
	}
	if at := slices.Index(sizeWords(), word); at >= 0 && sized {
		l.sized = true
		if l.once(from, "the "+sizes()[at].name) {
			l.sizeTexts[l.sizes-1].named = at + 1
		}
		return
	}
	if !l.named && l.misplacedTimber(from, word) {
		return
	}
	could := slices.DeleteFunc(append(allWords(), sizeWords()...), func(w string) bool { return !strings.HasPrefix(w, word) })
	want, hint := "", ""
	if len(could) > 0 {
		want = strings.Join(could, " or ") + "?"
		hint = "; did you mean " + want
	}
	l.Fail(from, want, "not a word I know%s. Use: planed flat rift quarter 30deg 9.1%% split 0-40 along 30-45 bark up heart 90 x3 first strip id note", hint)
}

// misplacedTimber refuses a timber that stands behind the sizes, and reports whether word
// begins one.
func (l *line) misplacedTimber(from int, word string) bool {
	words, to := word, l.At
	for l.More() && !l.AtNumber() {
		next := l.Word()
		if endsTimber(strings.ToLower(next)) {
			break
		}
		words, to = words+" "+next, l.At
	}
	l.At = to
	_, err := l.look.Find(words)
	if e, ok := err.(*TimberError); ok && len(e.Could) == 0 {
		l.At = from + len(word)
		return false
	}
	const longest = 60
	first := words + " " + strings.TrimSpace(l.Text[:from])
	if len(first) > longest {
		first = example
	}
	l.Fail(from, "", "the timber comes first: write it like %s", first)
	return true
}

// whereFault asks where a fault of a kind is.
func whereFault(kind string) string {
	text := "... fault from where to where? like split 0-40 or shake along 30-45"
	if kind == barkWord {
		text += ", or the bark side, like bark up left"
	}
	return text
}

// fault reads what a fault is called, where a word says so, and where it lies.
func (l *line) fault() {
	from, to, kind, along := l.At, l.At, "", false
	for l.More() && !l.AtNumber() {
		start := l.At
		word := strings.ToLower(l.Word())
		switch {
		case kind == "" && slices.Contains(faultWords(), word):
			kind = word
		case word == alongWord && !along:
			along = true
		default:
			l.At = start
			want := ""
			if strings.HasPrefix(alongWord, word) && start+len(word) == len(l.Text) {
				l.At, to, want = len(l.Text), len(l.Text), alongWord+"?"
			}
			l.FailAt(from, to, want, "%s", whereFault(kind))
			return
		}
		to = l.At
	}
	if l.At == len(l.Text) {
		l.FailAt(from, to, "from-to?", "%s", whereFault(kind))
		return
	}
	l.stretch(from, kind, along)
}

// stretch reads where a fault lies: 0-40. A unit behind the second number stands for
// both.
func (l *line) stretch(from int, kind string, along bool) {
	low := l.Measure(false)
	if !l.dash() {
		if !l.Ended() {
			l.Word()
		}
		want := ""
		if low != "" {
			want = "from-to?"
		}
		l.Fail(from, want, "a fault runs from a place to a place, like 0-40")
		return
	}
	high := l.Measure(false)
	if high == "" || !l.Ended() {
		l.Word()
		l.Fail(from, "from-to?", "a fault runs from a place to a place, like 0-40")
		return
	}
	f, err := ParseFaultIn(low+"-"+high, l.Unit)
	if err != nil {
		l.Fail(from, "from-to?", "%v", err)
		return
	}
	f.Along = along
	if kind != anyFault {
		f.Kind = kind
	}
	l.entry.Faults = append(l.entry.Faults, f)
	l.faults = append(l.faults, part{from, l.At})
}

// dash takes the - between two numbers, with blanks around it, and reports whether it
// was there.
func (l *line) dash() bool {
	before := l.At
	if l.Spaces(); !strings.HasPrefix(l.Text[l.At:], "-") {
		l.At = before
		return false
	}
	l.At++
	l.Spaces()
	return true
}

// number reads a moisture, an angle of the rings, a size or a fault.
func (l *line) number() {
	from := l.At
	number := l.DecimalText()
	l.Spaces()
	switch {
	case l.takes("%"):
		l.moisture(from, number)
	case l.takes("°"), l.takes("deg") && l.Ended():
		l.angle(from, number)
	case l.sizes == len(sizes()):
		l.At = from
		l.faultOrTooMany(from)
	default:
		l.At = from
		l.size(from)
	}
}

// takes takes a sign that is read next, and reports whether it was there.
func (l *line) takes(sign string) bool {
	is := strings.HasPrefix(l.Text[l.At:], sign)
	if is {
		l.At += len(sign)
	}
	return is
}

func (l *line) moisture(from int, number string) {
	percent, err := spoken.Decimal(number)
	if err != nil || percent > pattern.MaxMoisture {
		l.Fail(from, "", "a moisture is 0 %% to %v %%", pattern.MaxMoisture)
		return
	}
	if l.once(from, "moisture") {
		l.entry.Moisture = pattern.Read(percent)
	}
}

func (l *line) angle(from int, number string) {
	degrees, err := spoken.Decimal(number)
	if err != nil {
		l.Fail(from, "", "an angle of the rings is 0deg to 90deg")
		return
	}
	rings, err := pattern.RingsAt(degrees)
	if err != nil {
		l.Fail(from, "", "%v", err)
		return
	}
	if l.once(from, "rings") {
		l.entry.Rings = rings
	}
}

// faultOrTooMany reads a number behind the three sizes, which can only be a fault.
func (l *line) faultOrTooMany(from int) {
	l.Measure(false)
	if l.dash() {
		l.At = from
		l.stretch(from, "", false)
		return
	}
	l.Word()
	l.Fail(from, "% or deg or -?", "the three sizes are there already: write a moisture as 9.1 %%, an angle as 30deg, a fault as 0-40, a quantity as x3")
}

// size reads the next of the three sizes; what it means is settled with the others.
func (l *line) size(from int) {
	text := l.Measure(true)
	if !l.Ended() {
		l.Word()
		name := sizes()[l.sizes].name // as it stands without words like wide
		l.Fail(from, name+"?", "no %s: write a number with or without mm, cm, m or in, like 620 or 24 1/2 in", name)
		text, l.wrong = "", true
	}
	l.sizeTexts = append(l.sizeTexts, sizeText{text: text, part: part{from, l.At}})
	l.sizes++
	l.sized = true
}

// settleSizes reads the sizes, whose unit may stand behind the last alone.
func (l *line) settleSizes() {
	texts := make([]string, len(l.sizeTexts))
	for i, t := range l.sizeTexts {
		texts[i] = t.text
	}
	meant, err := length.Together(texts, l.Unit)
	if mixed, ok := errors.AsType[*length.MixedError](err); ok && !l.wrong {
		l.wrong = true
		where := l.sizeTexts[mixed.Index].part
		l.FailAt(where.from, where.to, "unit?", "%v", err)
	}
	for i, at := range l.places() {
		l.given[at] = true
		if i < len(meant) && meant[i] != "" {
			l.settleSize(sizes()[at], meant[i], l.sizeTexts[i].part)
		}
	}
}

// places returns which size each of the texts is: the one that a word behind it names, else
// the next that none names.
func (l *line) places() []int {
	named := func(at int) bool {
		return slices.ContainsFunc(l.sizeTexts, func(t sizeText) bool { return t.named == at+1 })
	}
	places, next := make([]int, len(l.sizeTexts)), 0
	for i, t := range l.sizeTexts {
		if places[i] = t.named - 1; t.named > 0 {
			continue
		}
		for named(next) {
			next++
		}
		places[i] = next
		next++
	}
	return places
}

// settleSize takes text, which stands at where, for the size s.
func (l *line) settleSize(s size, text string, where part) {
	got, err := length.ParseIn(text, l.Unit)
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
	l.FailAt(where.from, where.to, want, "%v", err)
}

// id reads an id, in quotes where it has blanks.
func (l *line) id(from int) {
	l.Spaces()
	id, quoted := l.Quoted()
	if !quoted {
		id = l.Word()
	}
	if err := CheckID(id); err != nil {
		want := ""
		if id == "" {
			want = "which id?"
		}
		l.Fail(from, want, "%v", err)
		return
	}
	if l.once(from, "id") {
		l.entry.ID = id
	}
}

// noteToEnd takes the rest of the line for a note, as it is, or whole in quotes.
func (l *line) noteToEnd(from int) {
	l.Spaces()
	before := l.At
	note, quoted := l.Quoted()
	if quoted = quoted && l.Rest() == ""; !quoted {
		l.At = before
		note = l.Rest()
	}
	if err := CheckNote(note); err != nil {
		l.Fail(from, "", "%v", err)
		return
	}
	l.entry.Note, l.note = note, part{from, l.At}
}
