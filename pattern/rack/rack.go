// Package rack holds the timber that lies in the workshop: pieces, their faults,
// and ready strips.
//
// A Rack is a value: whatever changes one takes it and gives a new one. ParseLine
// reads what a maker types about one piece, Understood says meanwhile what has been
// understood, and History undoes.
//
// Lengths are exact; moisture is percent of oven-dry mass. Values are in range once
// a reader has let them in. Ids of pieces and ready strips share one namespace.
package rack

import (
	"fmt"
	"slices"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/length"
)

// MaxQuantity is the most alike pieces that one entry may stand for.
const MaxQuantity = 10_000

// A Rack is what a workshop has in timber, in the order of its file.
type Rack struct {
	Pieces []Piece
	Strips []Strip
}

// A Piece is one piece of timber, or several alike.
type Piece struct {
	ID        string
	Species   string
	Length    length.Length
	Width     length.Length // the smallest clear one
	Thickness length.Length // the smallest clear one
	Quantity  int           // 1 or more
	Planed    bool          // both faces are planed: the thickness counts as it is
	Rings     pattern.Rings // on the face that is width wide
	Bark      pattern.Bark  // seen on the end grain with that face up; zero: nobody has looked
	Heart     length.Length // from its middle to the pith; 0: not known, and without Bark
	Moisture  pattern.Reading
	Faults    []Fault // of each copy
	UseFirst  bool
	Note      string
	Colour    colour.Own // as oiled
	From      string     // where the colour comes from
}

// A Strip is a ready strip, milled and lying on the rack, or several alike.
type Strip struct {
	ID        string
	Species   string
	Width     length.Length // finished
	Thickness length.Length // as it lies there
	Length    length.Length
	Quantity  int // 1 or more
	Rings     pattern.Rings
	Bark      pattern.Bark  // as of a piece
	Heart     length.Length // likewise
	Moisture  pattern.Reading
	UseFirst  bool
	Colour    colour.Own // as oiled
	From      string     // where the colour comes from
}

// Grain returns how the rings lie in p.
func (p Piece) Grain() pattern.Grain {
	return pattern.Grain{Rings: p.Rings, Bark: p.Bark, Heart: p.Heart}
}

// Lay makes the rings of p lie so.
func (p *Piece) Lay(g pattern.Grain) { p.Rings, p.Bark, p.Heart = g.Rings, g.Bark, g.Heart }

// A Fault is a part of a piece that must not end up in a strip: a stretch of its
// length, or, along the grain, a band of its width.
type Fault struct {
	Along    bool
	From, To length.Length
	Kind     string // what a maker called it: split, knot; empty: nothing was said
}

// String returns where the fault lies as files write it: 0-40 mm, along 30-45 mm.
func (f Fault) String() string {
	from := strings.TrimSuffix(f.From.String(), " mm")
	text := from + "-" + f.To.String()
	if f.Along {
		return "along " + text
	}
	return text
}

// ParseFault reads a fault: 0-40 mm is a stretch of the length, along 30-45 mm a
// band of the width. A unit behind the second number stands for both.
func ParseFault(s string) (Fault, error) { return ParseFaultIn(s, length.InMM) }

// ParseFaultIn is ParseFault for a field on the screen, where numbers without a unit
// are in u.
func ParseFaultIn(s string, u length.Unit) (Fault, error) {
	text, along := strings.CutPrefix(strings.TrimSpace(s), "along ")
	from, to, ok := strings.Cut(text, "-")
	if !ok {
		return Fault{}, fmt.Errorf("fault %q: write it like 0-40 mm or along 30-45 mm", s)
	}
	f := Fault{Along: along}
	meant, err := length.Together([]string{from, to}, u)
	if err == nil {
		f.From, err = length.ParseIn(meant[0], u)
	}
	if err == nil {
		f.To, err = length.ParseIn(meant[1], u)
	}
	if err != nil {
		return Fault{}, fmt.Errorf("fault %q: %w", s, err)
	}
	if f.From >= f.To {
		return Fault{}, fmt.Errorf("fault %q: it must end after its start", s)
	}
	return f, nil
}

// FullNote returns the note of p as files hold it: what its faults were called, each with
// where it lies, stands before the maker's own words, since a list of faults has no place for
// it. Split 0-40 mm, shake along 30-45 mm; from the shed.
func (p Piece) FullNote() string {
	var called []string
	for _, f := range p.Faults {
		if f.Kind != "" {
			called = append(called, f.Kind+" "+f.String())
		}
	}
	return strings.Join(slices.DeleteFunc([]string{strings.Join(called, ", "), p.Note}, func(s string) bool { return s == "" }), "; ")
}

// TakeNote takes a note as files hold it: what it says at its beginning of faults that p has
// is what they are called, the rest the note.
func (p *Piece) TakeNote(note string) {
	p.Note = note
	head, rest, _ := strings.Cut(note, "; ")
	faults := slices.Clone(p.Faults)
	for called := range strings.SplitSeq(head, ", ") {
		kind, where, _ := strings.Cut(called, " ")
		i := slices.IndexFunc(faults, func(f Fault) bool { return f.Kind == "" && f.String() == where })
		if i < 0 || kind == anyFault || !slices.Contains(faultWords(), kind) {
			return
		}
		faults[i].Kind = kind
	}
	p.Faults, p.Note = faults, rest
}

// Check reports the first fault of p that lies outside it.
func (p Piece) Check() error {
	for _, f := range p.Faults {
		limit, side := p.Length, "length"
		if f.Along {
			limit, side = p.Width, "width"
		}
		if f.To > limit {
			return fmt.Errorf("fault %s is outside the piece, whose %s is %s", f, side, limit)
		}
	}
	return nil
}

// VolumeCM3 returns the volume of all copies of p in cubic centimetres.
func (p Piece) VolumeCM3() float64 {
	return float64(p.Quantity) * length.VolumeCM3(p.Length, p.Width, p.Thickness)
}

// Totals returns how much entries are: pieces and ready strips, each copy, and their volume
// in cubic centimetres.
func Totals(entries []Entry) (pieces, ready int, cm3 float64) {
	for _, e := range entries {
		if e.Ready {
			ready += e.Quantity
		} else {
			pieces += e.Quantity
		}
		cm3 += e.VolumeCM3()
	}
	return pieces, ready, cm3
}

// VolumeCM3 returns the volume of all that the rack has of a species, in cubic
// centimetres.
func (r Rack) VolumeCM3(species string) float64 {
	var sum float64
	for _, p := range r.Pieces {
		if p.Species == species {
			sum += p.VolumeCM3()
		}
	}
	for _, s := range r.Strips {
		if s.Species == species {
			sum += float64(s.Quantity) * length.VolumeCM3(s.Length, s.Width, s.Thickness)
		}
	}
	return sum
}
