package cli

import (
	"cmp"
	"errors"
	"fmt"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/spoken"
)

// A spokenMove is one of the bench's as it is typed: the word that begins it, and the moves
// that are made by it, told apart by a second word where they are several.
type spokenMove struct {
	word  string
	moves []edit.Move
}

// spokenMoves lists the moves that are made by words, as the table of moves has them.
func spokenMoves() []spokenMove {
	var out []spokenMove
	for _, m := range edit.Moves() {
		switch last := len(out) - 1; {
		case m.Said.Word == "":
		case last >= 0 && out[last].word == m.Said.Word:
			out[last].moves = append(out[last].moves, m)
		default:
			out = append(out, spokenMove{m.Said.Word, []edit.Move{m}})
		}
	}
	return out
}

// usage says how a move is typed.
func (s spokenMove) usage() string {
	words := []string{s.word}
	if seconds := s.seconds(); len(seconds) > 1 {
		words = append(words, strings.Join(seconds, "|"))
	}
	for _, a := range s.moves[0].Takes {
		words = append(words, argWord(a))
	}
	return strings.Join(words, " ")
}

// seconds lists the second words.
func (s spokenMove) seconds() []string {
	var out []string
	for _, m := range s.moves {
		out = append(out, m.Said.Second)
	}
	return out
}

// argWord returns what stands for an argument in the help.
func argWord(a edit.Arg) string {
	word := map[edit.Kind]string{
		edit.OnStrip: "N", edit.AtStrip: "M", edit.OfTimber: "TIMBER", edit.OfLength: "LENGTH", edit.OfRings: "RINGS", edit.OfReading: "PERCENT",
		edit.OfMake: "flat|edge", edit.OfName: "TEXT", edit.OfText: "TEXT", edit.After: "after N",
	}[a.Kind]
	word = cmp.Or(a.Word, word)
	if a.Optional {
		return "[" + word + "]"
	}
	return word
}

// which returns the move that the second word tells, or the only one.
func (s spokenMove) which(w *moveWords) (edit.Move, error) {
	if len(s.moves) == 1 {
		return s.moves[0], nil
	}
	word := w.Next()
	for _, m := range s.moves {
		if m.Said.Second == word {
			return m, nil
		}
	}
	seconds := s.seconds()
	last := len(seconds) - 1
	return edit.Move{}, fmt.Errorf("%s %s: must be %s %s or %s", s.word, word, s.word, strings.Join(seconds[:last], ", "), seconds[last])
}

// make makes the move that the words tell.
func (s spokenMove) make(state edit.State, w *moveWords) (edit.State, error) {
	m, err := s.which(w)
	if err != nil {
		return state, err
	}
	told := edit.Args{Allow: w.allow}
	for _, a := range m.Takes {
		if a.Kind == edit.After { // behind the last one, unless it is said
			state.Selected = max(0, len(state.Pattern.Strips)-1)
		}
		if a.Optional {
			continue
		}
		if state, err = w.take(m, a, state, &told); err != nil {
			return state, err
		}
	}
	for m.Takes != nil && m.Takes[len(m.Takes)-1].Optional && w.More() {
		if state, err = w.option(state, &told); err != nil {
			return state, err
		}
	}
	return m.Do(state, told)
}

// take takes the words of one argument.
func (w *moveWords) take(m edit.Move, a edit.Arg, s edit.State, told *edit.Args) (edit.State, error) {
	var err error
	switch a.Kind {
	case edit.OnStrip:
		return w.choose(s)
	case edit.AtStrip:
		told.Number, err = w.strip()
	case edit.OfTimber:
		told.Timber, err = w.timber()
	case edit.OfLength:
		told.Length, err = w.length(strings.ToLower(cmp.Or(a.Word, m.Said.Second, m.Said.Word)))
	case edit.OfRings:
		told.Rings, err = pattern.ParseRings(w.Next())
	case edit.OfReading:
		told.Reading, err = w.reading()
	case edit.OfMake:
		told.Make, err = pattern.ParseMake(w.Next())
	case edit.OfName, edit.OfText:
		told.Text = w.text()
	default:
		err = fmt.Errorf("%s cannot be told by words", m.ID)
	}
	return s, err
}

// option takes what may be said of a strip that is put in: its rings, or what it stands
// behind.
func (w *moveWords) option(s edit.State, told *edit.Args) (edit.State, error) {
	word := w.Next()
	if word == "after" {
		return w.choose(s)
	}
	var err error
	told.Rings, err = pattern.ParseRings(word)
	return s, err
}

// moveWords are the words of a move that are still to be read.
type moveWords struct {
	spoken.Line
	look  rack.Lookup
	allow edit.Allowances
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
