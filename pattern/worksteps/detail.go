package worksteps

import (
	"fmt"
	"iter"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/tell"
)

// A Detail is one opened piece of a plan with all that is drawn or said of cutting
// it. Lengths run from the near end, widths from the low edge, depths from the face
// that is trued first; widths and depths of an unplaned piece are those of the trued
// one.
type Detail struct {
	Cut              cutting.Cut   // as the plan has it
	Piece            rack.Piece    // what is cut: one copy, a clear rectangle where Whole has faults
	Whole            rack.Piece    // as it lies on the rack
	From, Low        length.Length // of Piece within Whole
	Width, Thickness length.Length // usable
	Trim             length.Length // squared off the near end
	TailFrom         length.Length // where the sections and their kerfs end
	InHand           length.Length // its length when the near end is square and the tail is off
	Sections         []SectionDetail
	Back             []Left          // tail, slabs, then rips
	Others           []rack.Clear    // clear parts of Whole that the plan leaves; told of with the first that it cuts
	Bandsaw          []length.Length // fence settings, each once, in the order of use
	Fence            []length.Length // of the saw that rips
	Stops            []length.Length // of the crosscut: lengths of sections, then of strips that are shorter
}

// Name returns what is chalked on the piece, and which of several alike it is: HB3 (1).
func (d Detail) Name() string {
	if d.Whole.Quantity > 1 {
		return fmt.Sprintf("%s (%d)", d.Cut.Piece, d.Cut.Copy)
	}
	return d.Cut.Piece
}

// Slices goes through the slices that come out of a piece in the order of the work, each
// with its section.
func (d Detail) Slices() iter.Seq2[SectionDetail, SliceDetail] { return slicesOf(d.Sections) }

// Strips goes through the strips that come out of a piece, likewise, each with its slice.
func (d Detail) Strips() iter.Seq2[SliceDetail, StripDetail] { return stripsOf(d.Sections) }

func slicesOf(sections []SectionDetail) iter.Seq2[SectionDetail, SliceDetail] {
	return func(yield func(SectionDetail, SliceDetail) bool) {
		for _, s := range sections {
			for _, sl := range s.Slices {
				if !yield(s, sl) {
					return
				}
			}
		}
	}
}

func stripsOf(sections []SectionDetail) iter.Seq2[SliceDetail, StripDetail] {
	return func(yield func(SliceDetail, StripDetail) bool) {
		for _, sl := range slicesOf(sections) {
			for _, st := range sl.Strips {
				if !yield(sl, st) {
					return
				}
			}
		}
	}
}

// A SectionDetail is one section. They lie along the piece in the order of the work:
// those with the same stack side by side, so that they are resawn and planed as one
// run and crosscut last.
type SectionDetail struct {
	Number   int // in the plan's cut
	Run      int // of the piece: its sections have the same stack
	Set      int // of the piece: sections of a run that are also ripped alike
	From     length.Length
	Length   length.Length
	Side     bool          // resawn across the piece's width
	Across   length.Length // what the bandsaw is to saw through
	Through  length.Length // what the stack is sawn out of
	Slices   []SliceDetail // in the order of sawing
	SlabFrom length.Length // depth
	Slab     length.Length // thickness of what goes back; 0: nothing
	Cuts     int           // of the bandsaw
}

// A SliceDetail is one slice of a section.
type SliceDetail struct {
	Number   int           // in the plan's section
	From     length.Length // depth
	Sawn     length.Length // as the plan counts it; the piece's thickness where that is planed
	Comes    length.Length // as it comes to the plane: more than Sawn where the rest is too thin to be sawn off
	PlanesTo length.Length // equal to Comes where nothing is to do
	Strips   []StripDetail // side by side from the low edge, the widest first
	RipFrom  length.Length
	RipLeft  length.Length // width of what goes back; 0: nothing
	Fill     cutting.Fill  // strips for the rack out of it; without Widths: none are made
}

// A StripDetail is one strip of a slice, with what it is for.
type StripDetail struct {
	cutting.Strip
	From      length.Length // across the slice
	Ripped    length.Length // width off the saw
	Jointed   length.Length // width when its edges are done
	Thickness length.Length // planed
	Showing   pattern.Grain // expected, with its visible face up
}

// A LeftKind says what of a piece goes back to the rack.
type LeftKind int

// The kinds of leftovers.
const (
	LeftTail LeftKind = iota // of its length
	LeftSlab                 // of a section's stack
	LeftRip                  // of a slice's width
)

// String returns what a maker calls it.
func (k LeftKind) String() string {
	return tell.Word(k, "leftover", "end offcut", "spare thickness", "spare width")
}

// count returns so many of a kind: 2 end offcuts, 2 offcuts of spare thickness.
func (k LeftKind) count(n int) string {
	if k == LeftTail {
		return tell.Count(n, k.String())
	}
	return tell.Count(n, "offcut") + " of " + k.String()
}

// A Left is something that goes back to the rack.
type Left struct {
	Kind    LeftKind
	Section int        // in the plan's cut; 0: of a tail
	Slice   int        // in the plan's section; 0: of a tail or a slab
	Piece   rack.Piece // one, without an id
}

// BackTexts tells of what goes back, alike pieces together: 2 offcuts of
// spare thickness 620 x 85 x 23 mm.
func BackTexts(all []Left, u length.Unit) []string {
	type alike struct {
		kind                     LeftKind
		length, width, thickness length.Length
	}
	var of tell.Groups[alike, Left]
	for _, l := range all {
		of.Add(alike{l.Kind, l.Piece.Length, l.Piece.Width, l.Piece.Thickness}, l)
	}
	var texts []string
	for a, same := range of.All() {
		texts = append(texts, a.kind.count(len(same))+" "+tell.Size(u, a.length, a.width, a.thickness))
	}
	return texts
}

// A Setting is one machine with what it is set to for a piece, each once, in the order
// of use.
type Setting struct {
	Name string
	At   []length.Length
}

// Text returns what it is set to.
func (s Setting) Text(u length.Unit) string { return tell.Lengths(u, s.At...) }

// Settings lists the machines that are used on the piece.
func (d Detail) Settings() []Setting {
	return slices.DeleteFunc([]Setting{{"bandsaw fence", d.Bandsaw}, {"saw fence", d.Fence}, {"crosscut stop", d.Stops}},
		func(s Setting) bool { return len(s.At) == 0 })
}

// Text says what the piece is and into how many lengths it is cut; timber is its name.
func (d Detail) Text(timber string, u length.Unit) string {
	state := "rough"
	if d.Piece.Planed {
		state = "planed"
	}
	part := ""
	if d.Piece.ID != d.Whole.ID {
		part = ", a clear part of " + d.Whole.ID
	}
	return fmt.Sprintf("%s, %s, %s%s, cut into %s", timber, tell.Size(u, d.Piece.Length, d.Piece.Width, d.Piece.Thickness), state, part,
		tell.Count(len(d.Sections), "length"))
}
