package store

import (
	"fmt"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/shop"
)

// A Beginning is what is asked of a maker when their own workshop begins: all else is
// built in until it is set.
type Beginning struct {
	Sawn   length.Length // how thick a slice is sawn for a board BeginsWith thick
	Longer length.Length // how much longer than the board strips are cut
	Units  length.Unit
}

const (
	// BeginsWith is the thickness of the board that is asked about.
	BeginsWith = 25 * length.Millimetre
	// mostMilled is the most that planing and flattening are taken to take off it.
	mostMilled = 100 * length.Millimetre
	// tailsBegun is the percent at which a tail is credited in a workshop that begins: a
	// little less than all, so that a short end is opened before a long board.
	tailsBegun = 95
)

// UsualBeginning returns the answers that are built in.
func UsualBeginning() Beginning {
	usual := shop.Default()
	return Beginning{Sawn: usual.Sawn(BeginsWith), Longer: usual.Allowance.Length, Units: usual.Units}
}

// ReadSawn reads how thick is sawn, without a unit in u.
func ReadSawn(typed string, u length.Unit) (length.Length, error) {
	l, err := length.ParseIn(typed, u)
	if err == nil && (l < BeginsWith || l > BeginsWith+mostMilled) {
		err = fmt.Errorf("%s: must be %s to %s", l.With(u), BeginsWith.With(u), (BeginsWith + mostMilled).With(u))
	}
	return l, err
}

// ReadLonger reads how much longer strips are cut.
func ReadLonger(typed string, u length.Unit) (length.Length, error) {
	l, err := length.ParseIn(typed, u)
	if err == nil && l > maxTaken {
		err = fmt.Errorf("%s: must be 0 to %s", l.With(u), maxTaken.With(u))
	}
	return l, err
}

// ShopFile returns the file of the workshop. What is sawn off beside the board's own
// thickness is half planed, half flattened.
func (b Beginning) ShopFile() (f ShopFile, err error) {
	milled := (b.Sawn - BeginsWith).Split(2)
	for _, set := range []struct{ key, value string }{
		{"units", b.Units.String()},
		{"allowance.planing", milled[0].Exact()},
		{"allowance.flattening", milled[1].Exact()},
		{"allowance.length", b.Longer.Exact()},
		{"draw.tails", fmt.Sprint(tailsBegun)},
	} {
		one, err := f.Setting(set.key)
		if err == nil {
			f, err = f.Set(one, set.value, length.InMM)
		}
		if err != nil {
			return f, err
		}
	}
	return f, nil
}
