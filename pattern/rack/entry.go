package rack

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// An Entry is one line of the rack, a piece or a ready strip. Of a ready strip the
// piece is neither planed nor has it faults or a note.
type Entry struct {
	Piece
	Ready bool // a ready strip
}

// EntryOf returns the entry of a ready strip.
func EntryOf(s Strip) Entry {
	return Entry{Ready: true, Piece: Piece{
		ID: s.ID, Species: s.Species, Length: s.Length, Width: s.Width, Thickness: s.Thickness,
		Quantity: s.Quantity, Rings: s.Rings, Bark: s.Bark, Heart: s.Heart, Moisture: s.Moisture, UseFirst: s.UseFirst,
		Colour: s.Colour, From: s.From,
	}}
}

// Strip returns the ready strip that e stands for.
func (e Entry) Strip() Strip {
	return Strip{
		ID: e.ID, Species: e.Species, Width: e.Width, Thickness: e.Thickness, Length: e.Length,
		Quantity: e.Quantity, Rings: e.Rings, Bark: e.Bark, Heart: e.Heart, Moisture: e.Moisture, UseFirst: e.UseFirst,
		Colour: e.Colour, From: e.From,
	}
}

// Again returns e for another one just like it: Add gives it an id of its own.
func Again(e Entry) Entry {
	e.ID = ""
	e.Faults = slices.Clone(e.Faults)
	return e
}

// Equal reports whether e and o say the same.
func (e Entry) Equal(o Entry) bool { return e.Ready == o.Ready && e.Piece.equal(o.Piece) }

func (p Piece) equal(o Piece) bool {
	return p.ID == o.ID && p.Species == o.Species && p.Length == o.Length && p.Width == o.Width && p.Thickness == o.Thickness &&
		p.Quantity == o.Quantity && p.Planed == o.Planed && p.Grain() == o.Grain() && p.Moisture == o.Moisture &&
		slices.Equal(p.Faults, o.Faults) && p.UseFirst == o.UseFirst && p.Note == o.Note &&
		p.Colour == o.Colour && p.From == o.From
}

// Check reports the first thing about e that a rack may not hold. Whether its id is
// free and its timber known is for others to say.
func (e Entry) Check() error {
	if err := CheckID(e.ID); err != nil {
		return err
	}
	return e.checkBut()
}

// checkBut is Check without the id, which a typed line need not have.
func (e Entry) checkBut() error {
	if e.Species == "" {
		return errors.New("no timber: name one, like black_cherry")
	}
	for _, s := range sizes() {
		if err := s.check(*s.of(&e.Piece)); err != nil {
			return err
		}
	}
	if e.Quantity < 1 || e.Quantity > MaxQuantity {
		return fmt.Errorf("quantity %d: must be 1 to %d", e.Quantity, MaxQuantity)
	}
	if m := e.Moisture; m.Known && !(m.Percent >= 0 && m.Percent <= pattern.MaxMoisture) {
		return fmt.Errorf("moisture %v %%: must be 0 to %v", m.Percent, pattern.MaxMoisture)
	}
	if err := e.Grain().Check(); err != nil {
		return err
	}
	for _, f := range e.Faults {
		if f.From < 0 || f.From >= f.To {
			return fmt.Errorf("fault %s: it must end after its start", f)
		}
	}
	if err := e.Piece.Check(); err != nil {
		return err
	}
	switch {
	case e.Ready && e.Planed:
		return errReadyPlaned
	case e.Ready && len(e.Faults) > 0:
		return errReadyFault
	case e.Ready && e.Note != "":
		return errReadyNote
	}
	if err := CheckNote(e.From); err != nil {
		return err
	}
	return CheckNote(e.FullNote())
}

// What a ready strip may not have, each with what to do.
var (
	errReadyPlaned = errors.New("a ready strip is planed as it is: leave planed out")
	errReadyFault  = errors.New("a ready strip has no faults: give the length and width that are clear")
	errReadyNote   = errors.New("a ready strip has no note: leave it out, or write it down as a piece that is planed")
)

// A size is one of the three that an entry has.
type size struct {
	name string
	most length.Length
	of   func(*Piece) *length.Length
}

// sizes lists them in the order in which they are said.
func sizes() []size {
	return []size{
		{"length", pattern.MaxLength, func(p *Piece) *length.Length { return &p.Length }},
		{"width", pattern.MaxAcross, func(p *Piece) *length.Length { return &p.Width }},
		{"thickness", pattern.MaxAcross, func(p *Piece) *length.Length { return &p.Thickness }},
	}
}

func (s size) check(l length.Length) error {
	if l <= 0 || l > s.most {
		return fmt.Errorf("%s %s: must be above 0, up to %s", s.name, l, s.most)
	}
	return nil
}

// longestID bounds ids: they are chalked on timber and stand in narrow columns.
const longestID = 40

// CheckID refuses an id that a rack may not hold: one that is empty, longer than 40
// characters, with spaces around it, or with a slash, which names the clear parts of
// a piece with faults (W3/1).
func CheckID(id string) error {
	switch {
	case id == "":
		return errors.New("an id must not be empty")
	case utf8.RuneCountInString(id) > longestID:
		return fmt.Errorf("an id of %d characters: must be at most %d", utf8.RuneCountInString(id), longestID)
	case strings.TrimSpace(id) != id:
		return fmt.Errorf("id %q: must not start or end with a space", id)
	case strings.Contains(id, "/"):
		return fmt.Errorf("id %q: must not hold a slash, which names the clear parts of a piece", id)
	}
	if r, bad := pattern.ForbiddenRune(id); bad {
		return fmt.Errorf("an id with the control character %U: must not hold one", r)
	}
	return nil
}

// CheckNote refuses a note that a rack may not hold: one that is too long, or with
// characters that could act on a screen.
func CheckNote(note string) error {
	if n := utf8.RuneCountInString(note); n > pattern.MaxTextRunes {
		return fmt.Errorf("a note of %d characters: must be at most %d", n, pattern.MaxTextRunes)
	}
	if r, bad := pattern.ForbiddenRune(note); bad {
		return fmt.Errorf("a note with the control character %U: must not hold one", r)
	}
	return nil
}
