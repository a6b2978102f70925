package cli

import (
	"errors"
	"fmt"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/spoken"
)

// A handMove is one of the bench's as it is typed: the word that begins it, what stands
// behind that, what it does, and how it is made.
type handMove struct {
	word, takes, does string
	make              func(s edit.State, w *moveWords) (edit.State, error)
}

// onStrip makes a move of what is done to the strip whose number stands first.
func onStrip(word, does string, f func(s edit.State, w *moveWords) (edit.State, error)) handMove {
	takes, does, _ := strings.Cut(does, ": ")
	return handMove{word, takes, does, func(s edit.State, w *moveWords) (edit.State, error) {
		s, err := w.choose(s)
		if err != nil {
			return s, err
		}
		return f(s, w)
	}}
}

// plain makes a move of one that needs no more than the chosen strip.
func plain(f func(edit.State) (edit.State, error)) func(edit.State, *moveWords) (edit.State, error) {
	return func(s edit.State, _ *moveWords) (edit.State, error) { return f(s) }
}

// withAllow makes a move of one that goes by what the workshop's cuts take.
func withAllow(f func(edit.State, edit.Allow) (edit.State, error)) func(edit.State, *moveWords) (edit.State, error) {
	return func(s edit.State, w *moveWords) (edit.State, error) { return f(s, w.allow) }
}

// withLength makes a move of one that takes a length.
func withLength(what string, f func(edit.State, length.Length) (edit.State, error)) func(edit.State, *moveWords) (edit.State, error) {
	return func(s edit.State, w *moveWords) (edit.State, error) {
		l, err := w.length(what)
		if err != nil {
			return s, err
		}
		return f(s, l)
	}
}

// withReading makes a move of one that takes a moisture, or none.
func withReading(f func(edit.State, pattern.Reading) (edit.State, error)) func(edit.State, *moveWords) (edit.State, error) {
	return func(s edit.State, w *moveWords) (edit.State, error) {
		m, err := w.reading()
		if err != nil {
			return s, err
		}
		return f(s, m)
	}
}

// handMoves lists them; a new one is one entry here, and the help has it.
func handMoves() []handMove {
	return []handMove{
		{"put", "TIMBER WIDTH [RINGS] [after N]", "put a strip in, behind the last one or after strip N", putStrip},
		onStrip("out", "N: take strip N out", plain(edit.LayAside)),
		onStrip("swap", "N M: let strips N and M change places", func(s edit.State, w *moveWords) (edit.State, error) {
			to, err := w.strip()
			if err != nil {
				return s, err
			}
			return edit.Swap(s, to)
		}),
		onStrip("carry", "N M: carry strip N to place M", carryStrip),
		onStrip("twin", "N: put a copy of strip N beside it", plain(edit.Twin)),
		onStrip("mirror", "N: mirror the half that strip N stands in", plain(edit.Mirror)),
		onStrip("roll", "N: roll strip N a quarter turn", withAllow(edit.Roll)),
		onStrip("turn", "N: turn strip N end for end", withAllow(edit.Turn)),
		onStrip("over", "N: turn strip N over", plain(edit.TurnOver)),
		onStrip("split", "N: rip strip N into two", withAllow(edit.Split)),
		onStrip("join", "N: make one strip of N and the next", plain(edit.Join)),
		onStrip("pin", "N: pin strip N, or take its pin out", plain(edit.Pin)),
		onStrip("timber", "N TIMBER: put another timber in its place", func(s edit.State, w *moveWords) (edit.State, error) {
			timber, err := w.timber()
			if err != nil {
				return s, err
			}
			return edit.ChangeTimber(s, timber)
		}),
		onStrip("width", "N LENGTH: make strip N so wide", withLength("width", edit.SetWidth)),
		onStrip("length", "N LENGTH: make strip N so long; 0 as the panel", withLength("length", edit.SetLength)),
		onStrip("start", "N LENGTH: begin strip N so far from the datum end", withLength("start", edit.SetStart)),
		onStrip("rings", "N RINGS: flat, rift, quarter, unknown or degrees", func(s edit.State, w *moveWords) (edit.State, error) {
			rings, err := pattern.ParseRings(w.Next())
			if err != nil {
				return s, err
			}
			return edit.SetRings(s, rings)
		}),
		onStrip("moisture", "N PERCENT: write its reading down; none takes it away", withReading(edit.SetMoisture)),
		{"fill", "", "share out what is wanting of the width", plain(edit.Fill)},
		{"panel", "length|width|thickness LENGTH", "say how large the panel is; width 0: as it comes", panelSize},
		{"strips", "flat|edge", "say how the strips are made", func(s edit.State, w *moveWords) (edit.State, error) {
			m, err := pattern.ParseMake(w.Next())
			if err != nil {
				return s, err
			}
			return edit.SetMake(s, m)
		}},
		{"glue-up", "PERCENT", "say what moisture the panel is glued at; none: the air's", withReading(edit.SetPanelMoisture)},
		{"flush", "PERCENT", "say what moisture it is made flush at; none: each strip's", withReading(edit.SetFlattened)},
		{"name", "TEXT", "call the pattern so", func(s edit.State, w *moveWords) (edit.State, error) { return edit.SetName(s, w.text()) }},
		{"notes", "TEXT", "write notes into it", func(s edit.State, w *moveWords) (edit.State, error) { return edit.SetNotes(s, w.text()) }},
	}
}

func putStrip(s edit.State, w *moveWords) (edit.State, error) {
	var strip pattern.Strip
	var err error
	if strip.Species, err = w.timber(); err != nil {
		return s, err
	}
	if strip.Width, err = w.length("width"); err != nil {
		return s, err
	}
	s.Selected = max(0, len(s.Pattern.Strips)-1)
	for w.More() {
		if word := w.Next(); word != "after" {
			if strip.Rings, err = pattern.ParseRings(word); err != nil {
				return s, err
			}
		} else if s, err = w.choose(s); err != nil {
			return s, err
		}
	}
	return edit.PutIn(s, strip)
}

func carryStrip(s edit.State, w *moveWords) (edit.State, error) {
	to, err := w.strip()
	if err != nil {
		return s, err
	}
	return edit.CarryTo(s, to)
}

func panelSize(s edit.State, w *moveWords) (edit.State, error) {
	what := w.Next()
	set := map[string]func(edit.State, length.Length) (edit.State, error){
		"length": edit.SetPanelLength, "width": edit.SetPanelWidth, "thickness": edit.SetThickness,
	}[what]
	if set == nil {
		return s, fmt.Errorf("panel %s: must be panel length, width or thickness", what)
	}
	return withLength(what, set)(s, w)
}

// moveWords are the words of a move that are still to be read.
type moveWords struct {
	spoken.Line
	look  rack.Lookup
	allow edit.Allow
}

// text takes all that is left.
func (w *moveWords) text() string { return strings.Join(strings.Fields(w.Rest()), " ") }

// strip takes the number of a strip, and gives its place from 0.
func (w *moveWords) strip() (int, error) {
	word := w.Next()
	n, ok := spoken.Whole(word)
	if !ok {
		return 0, fmt.Errorf("%q: must be the number of a strip, counted from 1", word)
	}
	return n - 1, nil
}

// choose takes the number of a strip and chooses that.
func (w *moveWords) choose(s edit.State) (edit.State, error) {
	n, err := w.strip()
	if err != nil {
		return s, err
	}
	return edit.Select(s, n)
}

func (w *moveWords) length(what string) (length.Length, error) {
	if !w.More() {
		return 0, fmt.Errorf("still wanted: the %s, like 25 or 1 in", what)
	}
	return w.Length()
}

// reading takes a moisture in percent, or none.
func (w *moveWords) reading() (pattern.Reading, error) {
	word := strings.TrimSuffix(w.Next(), "%")
	w.Skip("%")
	if word == "none" {
		return pattern.Reading{}, nil
	}
	percent, err := spoken.Decimal(word)
	if err != nil {
		return pattern.Reading{}, fmt.Errorf("%q: must be a moisture in percent, like 9.1, or none", word)
	}
	return pattern.Read(percent), nil
}

// timber takes the words of a timber, up to a number or the end.
func (w *moveWords) timber() (string, error) {
	var words []string
	for w.More() && !w.AtNumber() {
		words = append(words, w.Word())
	}
	if len(words) == 0 {
		return "", errors.New("still wanted: the timber, by its letters, its name or its key")
	}
	found, err := w.look.Find(strings.Join(words, " "))
	return found.Key, err
}
