package panel

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/species"
	"example.com/oddments/tui/paint"
)

// A joint that stands open is open in the picture from end to end, and one where pieces
// touch, or that is narrower than a step, is a seam; the datum end is at the left of a panel
// that lies, and at the bottom of one that stands.
func TestJointsInThePicture(t *testing.T) {
	const mm = length.Millimetre
	s := pattern.Strip{Joints: pattern.JointsOf(pattern.Joint{From: 100 * mm, To: 140 * mm},
		pattern.Joint{From: 303 * mm, To: 303 * mm}, pattern.Joint{From: 401 * mm, To: 402 * mm}, pattern.Joint{From: 590 * mm, To: 700 * mm})}
	l := Layout{Lies: true, along: 0.1, Wood: paint.Rect{W: 60, H: 3}}
	lying := []opening{{10, 14, false}, {30, 31, true}, {40, 41, true}, {59, 60, false}}
	if got := l.joints(Span{To: 60}, s); !slices.Equal(got, lying) {
		t.Errorf("lying: %v, want %v", got, lying)
	}
	l = Layout{along: 0.1, Wood: paint.Rect{W: 3, H: 30}}
	standing := []opening{{46, 50, false}, {29, 30, true}, {19, 20, true}, {0, 1, false}}
	if got := l.joints(Span{To: 60}, s); !slices.Equal(got, standing) {
		t.Errorf("standing: %v, want %v", got, standing)
	}
	l = Layout{Lies: true, along: 0.1, Wood: paint.Rect{W: 60, H: 1}}
	p := newPixels(l)
	p.joints(Span{W: 2, To: 60}, []opening{{1, 3, false}, {5, 6, true}}, 7)
	for at, want := range map[int]paint.Colour{1: paint.Default, 2: paint.Default, 5: 7, 65: 7, 6: 0} {
		if p.cells[at] != want {
			t.Errorf("cell %d is %v, want %v", at, p.cells[at], want)
		}
	}
}

// Without colours what is open is blank, a seam a stroke across the strip; where products are
// cut out the pieces have their names, datum end first, each on its own piece.
func TestJointsByTexture(t *testing.T) {
	p := pattern.Pattern{Panel: pattern.Panel{Length: 600 * millimetre, Thickness: 20 * millimetre}, Strips: []pattern.Strip{
		{Species: "pear", Width: 60 * millimetre}, {Species: "pear", Width: 60 * millimetre, Joints: pattern.JointsOf(
			pattern.Joint{From: 200 * millimetre, To: 260 * millimetre}, pattern.Joint{From: 400 * millimetre, To: 400 * millimetre})}}}
	v := View{Pattern: p, Timber: species.Builtin().Get, Selected: NoStrip, Lies: true, Exact: true, Pieces: true}
	_, rows := lyingRows(v, 68, 10, paint.None)
	named := slices.IndexFunc(rows, func(row string) bool { return strings.Contains(row, "2a") })
	if named < 0 || !regexp.MustCompile(`│.2a\S+ +\S2b\S+\|2c\S+|│.2a\S+ +\S2b\S+\|\S2c\S+`).MatchString(rows[named]) {
		t.Errorf("lying:\n%s", strings.Join(rows, "\n"))
	}
	v.Lies, v.Exact, v.Pieces = false, false, false
	l, rows := lyingRows(v, 68, 24, paint.None)
	seams, blanks := 0, 0
	for _, row := range rows[l.Wood.Y:l.Wood.Bottom()] {
		switch at := l.Strips[1]; []rune(row)[at.X+at.W-1] {
		case '_':
			seams++
		case ' ':
			blanks++
		}
	}
	if seams != 1 || blanks < 1 {
		t.Errorf("standing, %d seams, %d rows open:\n%s", seams, blanks, strings.Join(rows, "\n"))
	}
}
