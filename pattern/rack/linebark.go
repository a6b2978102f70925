package rack

import (
	"slices"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// barkWord tells of a fault where a place follows it, else of the side that the bark lay on.
const barkWord = "bark"

// sideWords lists the words of a side: one up or down, one left or right, or both in this
// order.
func sideWords() []string { return []string{"up", "down", "left", "right"} }

// barkSide reads a side behind the word bark, and reports whether it is none of a fault.
func (l *line) barkSide(from int) bool {
	end := l.At
	var said []string
	for len(said) < 2 && l.More() && !l.AtNumber() {
		word := strings.ToLower(l.Word())
		could := slices.DeleteFunc(sideWords(), func(w string) bool { return !strings.HasPrefix(w, word) })
		if len(could) == 0 {
			break
		}
		if !slices.Contains(could, word) { // it is still being typed
			l.Fail(from, strings.Join(could, " or ")+"?", "%s is where? up, down, left or right, or up left and the like", barkWord)
			return true
		}
		said, end = append(said, word), l.At
	}
	if l.At = end; len(said) == 0 {
		return false
	}
	side, err := pattern.ParseBark(strings.Join(said, " "))
	if err != nil {
		l.Fail(from, "", "%v", err)
		return true
	}
	if l.once(from, "the bark side") {
		l.entry.Bark, l.grain = side, part{from, l.At}
	}
	return true
}

// heart reads how far away the pith lies.
func (l *line) heart(from int) {
	l.Spaces()
	text := l.Measure(true)
	far, err := length.ParseIn(text, l.Unit)
	switch {
	case text == "" || err != nil || !l.Ended():
		l.Word()
		l.Fail(from, "how far?", "heart is how far the pith lies from the middle, like heart 90")
	case far == 0 || far > pattern.MaxHeart:
		l.Fail(from, "", "heart %s: must be above 0, up to %s", far, pattern.MaxHeart)
	default:
		l.entry.Heart, l.grain = far, part{from, l.At}
	}
}
