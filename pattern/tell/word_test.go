package tell_test

import (
	"strings"
	"testing"

	"example.com/oddments/pattern/tell"
)

type size int

func (s size) String() string { return tell.Word(s, "size", "small", "large") }

// A value is told by its word and found by it; one without a word is told by its number.
func TestWord(t *testing.T) {
	for value, want := range map[size]string{0: "small", 1: "large", 2: "size(2)", -1: "size(-1)"} {
		if got := value.String(); got != want {
			t.Errorf("%d is called %s, want %s", int(value), got, want)
		}
	}
	if got, ok := tell.Named("large", []size{0, 1}); got != 1 || !ok {
		t.Errorf("large is %v, %v", got, ok)
	}
	if got, ok := tell.Named("huge", []size{0, 1}); got != 0 || ok {
		t.Errorf("huge is %v, %v", got, ok)
	}
}

func TestPhrases(t *testing.T) {
	var p tell.Phrases
	p.If(true, "planed")
	p.If(false, "rough")
	p.If(true, "flat")
	if got := strings.Join(p, " "); got != "planed flat" {
		t.Error(got)
	}
}

func TestList(t *testing.T) {
	for _, c := range []struct {
		words []string
		want  string
	}{{nil, ""}, {[]string{"a"}, "a"}, {[]string{"a", "b"}, "a or b"}, {[]string{"a", "b", "c"}, "a, b or c"}} {
		if got := tell.List(c.words, "or"); got != c.want {
			t.Errorf("%q is told as %q, want %q", c.words, got, c.want)
		}
	}
}

// Each slip counts once, whichever way round.
func TestDistance(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{
		{"", "", 0}, {"", "oak", 3}, {"oak", "", 3}, {"oak", "oak", 0}, {"kitten", "sitting", 3}, {"ash", "sah", 1}, {"ca", "abc", 3},
		{"wallnut", "walnut", 1}, {"walnu", "walnut", 1}, {"wulnut", "walnut", 1}, {"pear", "oak", 3},
	} {
		if got := tell.Distance([]rune(c.a), []rune(c.b)); got != c.want {
			t.Errorf("%q to %q: %d, want %d", c.a, c.b, got, c.want)
		}
		if got := tell.Distance([]byte(c.b), []byte(c.a)); got != c.want {
			t.Errorf("%q to %q: %d, want %d", c.b, c.a, got, c.want)
		}
	}
	if got := tell.Distance([]rune("ösch"), []rune("esch")); got != 1 {
		t.Errorf("ö to e: %d", got)
	}
}
