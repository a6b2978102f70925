package edit

import (
	"cmp"
	"errors"
	"fmt"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/spoken"
)

// A SpokenMove is a move as it is typed: the word that begins it, and the moves that are
// made by it, told apart by a second word where they are several.
type SpokenMove struct {
	word  string
	moves []Move
}

// SpokenMoves lists the moves that are made by words, as the table of moves has them.
func SpokenMoves() []SpokenMove {
	var out []SpokenMove
	for _, m := range Moves() {
		switch last := len(out) - 1; {
		case m.Said.Word == "":
		case last >= 0 && out[last].word == m.Said.Word:
			out[last].moves = append(out[last].moves, m)
		default:
			out = append(out, SpokenMove{m.Said.Word, []Move{m}})
		}
	}
	return out
}

// A Vocabulary is what moves that are typed need beside their words.
type Vocabulary struct {
	Find  func(words string) (species string, err error) // a timber, by what it is called
	Allow Allowances
}

// Make makes the move that text says.
func (v Vocabulary) Make(s State, text string) (State, error) {
	w := &moveWords{Line: spoken.Line{Text: text}, Vocabulary: v}
	word := w.Next()
	var near []string
	for _, m := range SpokenMoves() {
		if m.word == word {
			next, err := m.make(s, w)
			if err == nil && w.More() {
				err = fmt.Errorf("%q is left over: write it like %s", w.text(), m.Usage())
			}
			return next, err
		}
		if word != "" && strings.HasPrefix(m.word, word[:1]) {
			near = append(near, m.word)
		}
	}
	if len(near) == 0 {
		return s, fmt.Errorf("there is no such move")
	}
	return s, fmt.Errorf("there is no such move; is it %s?", strings.Join(near, " or "))
}

// Does says what the move does.
func (s SpokenMove) Does() string { return s.moves[0].Said.Does }

// Usage says how the move is typed.
func (s SpokenMove) Usage() string {
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
func (s SpokenMove) seconds() []string {
	var out []string
	for _, m := range s.moves {
		out = append(out, m.Said.Second)
	}
	return out
}

// argWord returns what stands for an argument in the help.
func argWord(a Arg) string {
	word := map[Kind]string{
		OnStrip: "N", AtStrip: "M", OfTimber: "TIMBER", OfLength: "LENGTH", OfRings: "RINGS", OfBark: "SIDE", OfReading: "PERCENT",
		OfMake: "flat|edge", OfName: "TEXT", OfText: "TEXT", After: "after N", OfStrips: "STRIPS", OfAgain: "GLUE-UP", OfBoard: "SIZE", OfJoints: "JOINTS",
	}[a.Kind]
	word = cmp.Or(a.Word, word)
	if a.Optional {
		return "[" + word + "]"
	}
	return word
}

// which returns the move that the second word tells, or the only one.
func (s SpokenMove) which(w *moveWords) (Move, error) {
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
	return Move{}, fmt.Errorf("%s %s: must be %s %s or %s", s.word, word, s.word, strings.Join(seconds[:last], ", "), seconds[last])
}

// make makes the move that the words tell.
func (s SpokenMove) make(state State, w *moveWords) (State, error) {
	m, err := s.which(w)
	if err != nil {
		return state, err
	}
	told := Args{Allow: w.Allow}
	for _, a := range m.Takes {
		if a.Kind == After { // behind the last one, unless it is said
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
func (w *moveWords) take(m Move, a Arg, s State, told *Args) (State, error) {
	var err error
	switch a.Kind {
	case OnStrip:
		return w.choose(s)
	case AtStrip:
		told.Number, err = w.strip()
	case OfTimber:
		told.Timber, err = w.timber()
	case OfLength:
		what := strings.ToLower(cmp.Or(a.Word, m.Said.Second, m.Said.Word))
		if m.Takes[0].Kind == OnStrip {
			what += fmt.Sprintf(" of strip %d", s.Selected+1)
		}
		told.Length, err = w.length(what)
	case OfRings:
		told.Rings, err = pattern.ParseRings(w.Next())
	case OfBark:
		if side := strings.ToLower(w.text()); side != "none" {
			told.Bark, err = pattern.ParseBark(side)
		}
	case OfReading:
		told.Reading, err = w.reading()
	case OfMake:
		told.Make, err = pattern.ParseMake(w.Next())
	case OfName, OfText:
		told.Text = w.text()
	case OfJoints:
		told.Joints, err = pattern.ParseJointsIn(w.Rest(), w.Unit)
	case OfAgain:
		told.Again, err = ParseAgain(w.Rest(), w.Unit)
	case OfBoard:
		told.Board, err = ParseBoardSize(w.Rest(), w.Unit)
	case OfStrips:
		s.Selected = max(0, len(s.Pattern.Strips)-1)
		told.Strips, err = ParseRow(w.Rest(), w.Find, w.Unit)
	default:
		err = fmt.Errorf("%s cannot be told by words", m.ID)
	}
	return s, err
}

// option takes what may be said of a strip that is put in: its rings, or what it stands
// behind.
func (w *moveWords) option(s State, told *Args) (State, error) {
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
	Vocabulary
}

// text takes all that is left.
func (w *moveWords) text() string { return strings.Join(strings.Fields(w.Rest()), " ") }

// strip takes the number of a strip, and gives its place from 0.
func (w *moveWords) strip() (int, error) {
	word := w.Next()
	n, ok := spoken.Whole(word)
	switch {
	case word == "":
		return 0, errors.New("missing: the number of a strip, counted from 1")
	case !ok:
		return 0, fmt.Errorf("%q: must be the number of a strip, counted from 1", word)
	}
	return n - 1, nil
}

// choose takes the number of a strip and chooses that.
func (w *moveWords) choose(s State) (State, error) {
	n, err := w.strip()
	if err != nil {
		return s, err
	}
	return Select(s, n)
}

func (w *moveWords) length(what string) (length.Length, error) {
	if !w.More() {
		said := strings.TrimSpace(w.Text)
		return 0, fmt.Errorf("the %s is missing: write it like %q or %q", what, said+" 25", said+" 1 in")
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
		return "", errors.New("the timber is missing: write its letters, its name or its key")
	}
	return w.Find(strings.Join(words, " "))
}
