package edit

import (
	"cmp"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// step is change for a step, which must be above 0.
func (s State) step(by length.Length, f func(*pattern.Strip) error) (State, error) {
	return s.change(func(strip *pattern.Strip) error {
		if by <= 0 {
			return refuse("a step of %v: must be above 0", by)
		}
		return f(strip)
	})
}

// SlideFar slides the chosen strip by a step towards the far end; its start stops
// at pattern.MaxStart.
func SlideFar(s State, by length.Length) (State, error) {
	return s.step(by, func(strip *pattern.Strip) error {
		if strip.Start >= pattern.MaxStart {
			return refuse("strip %d starts %v from the datum end already: that is as far as it may", s.number(), strip.Start)
		}
		strip.SlideTo(min(strip.Start+min(by, pattern.MaxStart), pattern.MaxStart))
		return nil
	})
}

// SlideNear slides the chosen strip by a step towards the datum end, where it
// stops.
func SlideNear(s State, by length.Length) (State, error) {
	return s.step(by, func(strip *pattern.Strip) error {
		if strip.Start <= 0 {
			return refuse("strip %d starts at the datum end already", s.number())
		}
		strip.SlideTo(max(strip.Start-min(by, pattern.MaxStart), 0))
		return nil
	})
}

// SetStart lays the near end of the chosen strip start from the datum end.
func SetStart(s State, start length.Length) (State, error) {
	return s.change(func(strip *pattern.Strip) error {
		strip.SlideTo(start)
		return within("start", start, 0, pattern.MaxStart)
	})
}

// SetLength sets the own length of the chosen strip at glue-up; 0 gives it that of
// the panel and its allowance. Joints beyond its new end are gone.
func SetLength(s State, l length.Length) (State, error) {
	return s.change(func(strip *pattern.Strip) error {
		strip.Length = l
		return within("length", l, 0, pattern.MaxLength)
	})
}

// exampleJoints shows how joints are typed.
const exampleJoints = "296-311, 552"

// SetJoints lays the chosen strip from pieces that meet at joints.
func SetJoints(s State, joints pattern.Joints, allow Allowances) (State, error) {
	return s.change(func(strip *pattern.Strip) error {
		if err := allow.check(); err != nil {
			return err
		}
		strip.Joints = joints
		if err := s.Pattern.CheckJoints(*strip); err != nil {
			return refuse("strip %d: %v", s.number(), err)
		}
		return nil
	})
}

// A Laid says how a strip is laid: where it starts, how long it is, 0 as the panel, and
// where its pieces meet.
type Laid struct {
	Strip         int // from 1
	Start, Length length.Length
	Joints        pattern.Joints
}

// Lay lays strips as they are to be made of pieces.
func (s State) Lay(all []Laid) (State, error) {
	next := s
	next.Pattern.Strips = slices.Clone(s.Pattern.Strips)
	for _, l := range all {
		if l.Strip < 1 || l.Strip > len(s.Pattern.Strips) {
			return s, refuse("there is no strip %d: the panel has %d", l.Strip, len(s.Pattern.Strips))
		}
		strip := &next.Pattern.Strips[l.Strip-1]
		strip.Start, strip.Length, strip.Joints = l.Start, l.Length, l.Joints
		if err := cmp.Or(within("start", l.Start, 0, pattern.MaxStart), within("length", l.Length, 0, pattern.MaxLength)); err != nil {
			return s, err
		}
		if err := next.Pattern.CheckJoints(*strip); err != nil {
			return s, refuse("strip %d: %v", l.Strip, err)
		}
	}
	return next, nil
}

// ShortEnds lays strips in their own length where that draws less, short ends outside.
func ShortEnds(s State, all []Laid) (State, error) {
	if len(all) == 0 {
		return s, refuse("no strip draws less in its own length")
	}
	return s.Lay(all)
}

// Widen makes the chosen strip wider by a step.
func Widen(s State, by length.Length) (State, error) {
	return s.step(by, func(strip *pattern.Strip) error {
		if by > pattern.MaxAcross-strip.Width {
			return refuse("strip %d is %v wide: %v more is above the most, %v", s.number(), strip.Width, by, pattern.MaxAcross)
		}
		strip.Width += by
		return nil
	})
}

// Narrow makes the chosen strip narrower by a step, of which something must be
// left.
func Narrow(s State, by length.Length) (State, error) {
	return s.step(by, func(strip *pattern.Strip) error {
		if by >= strip.Width {
			return refuse("strip %d is %v wide: %v less would leave nothing", s.number(), strip.Width, by)
		}
		strip.Width -= by
		return nil
	})
}

// SetWidth makes the chosen strip width wide.
func SetWidth(s State, width length.Length) (State, error) {
	return s.change(func(strip *pattern.Strip) error {
		strip.Width = width
		return aboveNone("width", width, pattern.MaxAcross)
	})
}

// NextRings says that the chosen strip's rings are the next of unknown, flat, rift,
// quarter, and unknown again. From an angle between two of them it is the one
// above. A bark side that does not go with them is not known any more.
func NextRings(s State) (State, error) {
	return s.change(func(strip *pattern.Strip) error {
		strip.Lay(strip.Grain().With(ringsAfter(strip.Rings)))
		return nil
	})
}

func ringsAfter(r pattern.Rings) pattern.Rings {
	flat, rift, quarter := pattern.RingsFlat(), pattern.RingsRift(), pattern.RingsQuarter()
	switch {
	case !r.Known():
		return flat
	case r.Degrees() < rift.Degrees():
		return rift
	case r.Degrees() < quarter.Degrees():
		return quarter
	default:
		return pattern.Rings{}
	}
}

// SetRings says how the chosen strip's rings stand. A bark side that does not go with
// them is not known any more.
func SetRings(s State, rings pattern.Rings) (State, error) {
	return s.change(func(strip *pattern.Strip) error {
		strip.Lay(strip.Grain().With(rings))
		return nil
	})
}

// SetBark says on which side of the chosen strip the bark lay; the zero Bark says that
// nobody has looked, and how far away the pith lies is then not known either.
func SetBark(s State, side pattern.Bark) (State, error) {
	return s.change(func(strip *pattern.Strip) error {
		if strip.Bark = side; !side.Known() {
			strip.Heart = 0
		}
		return s.sound(strip.Grain())
	})
}

// SetHeart says how far the pith lies from the middle of the chosen strip; 0: not known.
func SetHeart(s State, heart length.Length) (State, error) {
	return s.change(func(strip *pattern.Strip) error {
		strip.Heart = heart
		return s.sound(strip.Grain())
	})
}

// sound refuses rings that cannot lie so in the chosen strip.
func (s State) sound(g pattern.Grain) error {
	if err := g.Check(); err != nil {
		return refuse("strip %d: %v", s.number(), err)
	}
	return nil
}

// SetMoisture sets the reading of the chosen strip; the zero Reading takes it away.
func SetMoisture(s State, reading pattern.Reading) (State, error) {
	return s.change(func(strip *pattern.Strip) error {
		var err error
		strip.Moisture, err = moist("moisture", reading)
		return err
	})
}

// Pin pins the chosen strip, or takes its pin out.
func Pin(s State) (State, error) {
	return s.change(func(strip *pattern.Strip) error {
		strip.Pinned = !strip.Pinned
		return nil
	})
}
