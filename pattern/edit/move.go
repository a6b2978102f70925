package edit

import (
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/length"
)

// A Move is one hand move: what it does, what it must be told, and how it is made. Keys,
// fields, command words and help all go by it.
type Move struct {
	ID    string // the name of its function in lower case with hyphens; it stays for ever
	Does  string // what it does, as one plain sentence without a full stop
	Step  bool   // it is an undo step; choosing a strip is none
	Takes []Arg  // in the order in which they are said
	Said  Said   // by words; the zero value: it is not made by words
	Do    func(State, Args) (State, error)
}

// Said is how a move is made by words: the word that begins it, a second one where several
// moves share the first, and what it does with what is told in capitals.
type Said struct{ Word, Second, Does string }

// A Kind is what an argument is.
type Kind int

// The kinds, each with the field of Args that holds the argument.
const (
	OnStrip     Kind = iota // the strip that the move is made on: the chosen one, or by words the one named first
	AtStrip                 // another strip or place: Number
	OnTray                  // a strip of the tray: Number
	OfTimber                // Timber
	OfLength                // Length
	ByStep                  // a length that goes by the key: Length
	OfRings                 // Rings
	OfBark                  // Bark
	OfReading               // Reading
	OfMake                  // Make
	OfName                  // a text that is not empty: Text
	OfText                  // Text
	After                   // the strip that another goes behind: the chosen one, or by words the one named
	ForWidth                // the size of another order: Size
	OnItem                  // one of the products, knots or batches that are listed: Number
	OfProduct               // Product
	OfKnot                  // Avoid
	OfMade                  // Made
	ForProducts             // how the strips are laid, as a plan has them: Laid
	OfJoints                // Joints
	OfStrips                // several strips in one line: Strips
	OfAgain                 // what becomes of a second glue-up: Again
	OfBoard                 // a board that is wanted: Board
)

// An Arg is one argument of a move.
type Arg struct {
	Kind Kind
	What string           // how it is asked for; where the move is on a strip "of strip 3, pear" goes behind it
	Then string           // where What is a verb: what goes behind "strip 3, pear"
	None string           // what it stands for to say nothing; empty: something must be said
	Now  func(State) Args // what it is now; nil: there is nothing to start from
	Word string           // what stands for it in a command's help; empty: what is usual for the kind

	Optional bool // by words it may be left out; such arguments stand last
}

// Args is what a move is told, each argument by its kind, and what it goes by besides.
type Args struct {
	Number  int // of a strip, or of what is listed, from 0
	Timber  string
	Length  length.Length
	Rings   pattern.Rings
	Bark    pattern.Bark
	Colour  colour.Own // that the timber has on the rack
	Reading pattern.Reading
	Make    pattern.Make
	Text    string
	Size    Size
	Product pattern.Product
	Avoid   pattern.Avoid
	Made    pattern.Made
	Laid    []Laid
	Strips  []pattern.Strip
	Joints  pattern.Joints
	Again   Again
	Board   BoardSize
	Allow   Allowances // what the workshop's cuts take
}

// On reports whether the move is made on a strip.
func (m Move) On() bool { return len(m.Takes) > 0 && m.Takes[0].Kind == OnStrip }

// Asks returns what the move must be told besides the strip that it is made on.
func (m Move) Asks() []Arg {
	if m.On() {
		return m.Takes[1:]
	}
	return m.Takes
}

// do makes a move of one that needs nothing but the bench.
func do(f func(State) (State, error)) func(State, Args) (State, error) {
	return func(s State, _ Args) (State, error) { return f(s) }
}

// at makes a move of one that is told a number.
func at(f func(State, int) (State, error)) func(State, Args) (State, error) {
	return func(s State, t Args) (State, error) { return f(s, t.Number) }
}

// by makes a move of one that is told a length.
func by(f func(State, length.Length) (State, error)) func(State, Args) (State, error) {
	return func(s State, t Args) (State, error) { return f(s, t.Length) }
}

// allowed makes a move of one that goes by what the workshop's cuts take.
func allowed(f func(State, Allowances) (State, error)) func(State, Args) (State, error) {
	return func(s State, t Args) (State, error) { return f(s, t.Allow) }
}

// reading makes a move of one that is told a moisture, or none.
func reading(f func(State, pattern.Reading) (State, error)) func(State, Args) (State, error) {
	return func(s State, t Args) (State, error) { return f(s, t.Reading) }
}

// text makes a move of one that is told a text.
func text(f func(State, string) (State, error)) func(State, Args) (State, error) {
	return func(s State, t Args) (State, error) { return f(s, t.Text) }
}

// on is the argument of a move that is made on a strip, then those behind it.
func on(more ...Arg) []Arg { return append([]Arg{{Kind: OnStrip}}, more...) }

// now returns what an argument is now by the chosen strip.
func now(f func(pattern.Strip) Args) func(State) Args {
	return func(s State) Args {
		strip, _ := s.Strip()
		return f(strip)
	}
}

// nowPanel returns what an argument is now by the panel.
func nowPanel(f func(pattern.Panel) Args) func(State) Args {
	return func(s State) Args { return f(s.Pattern.Panel) }
}

// sized returns what a length is now by the chosen strip.
func sized(f func(pattern.Strip) length.Length) func(State) Args {
	return now(func(s pattern.Strip) Args { return Args{Length: f(s)} })
}
