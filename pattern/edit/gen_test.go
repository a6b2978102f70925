package edit_test

import (
	"cmp"
	"math/rand/v2"
	"slices"

	"pgregory.net/rapid"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/second"
)

var timbers = []string{"ash", "black_walnut", "cherry", "hard_maple", "oak"}

// upTo draws from 0 to n-1.
type upTo func(n int) int

// anyLength returns a length of lo to hi, most often in whole millimetres.
func (u upTo) anyLength(lo, hi length.Length) length.Length {
	// A draw is of an int, which has 32 bits on some machines.
	span := int64(hi-lo) / 1000
	l := lo + length.Length(int64(u(1001))*span) + length.Length(u(1000))
	if u(3) > 0 {
		l -= l % length.Millimetre
	}
	return min(max(l, lo), hi)
}

func (u upTo) rings() pattern.Rings {
	if u(4) == 0 {
		return pattern.Rings{}
	}
	r, err := pattern.RingsAt(float64(u(91)))
	if err != nil {
		panic(err)
	}
	return r
}

// grain lays rings with a side and a heart that they let be.
func (u upTo) grain() pattern.Grain {
	g := pattern.Grain{Rings: u.rings()}
	if g.Bark = u.side(g.Rings); g.Bark.Known() && u(2) == 0 {
		g.Heart = u.anyLength(0, 300*mm)
	}
	return g
}

func (u upTo) side(r pattern.Rings) pattern.Bark {
	sides := append(r.BarkSides(), pattern.Bark{})
	return sides[u(len(sides))]
}

func (u upTo) reading() pattern.Reading {
	if u(2) == 0 {
		return pattern.Reading{}
	}
	return pattern.Read(float64(u(301)) / 10)
}

func (u upTo) strip() pattern.Strip {
	s := pattern.Strip{
		Species: timbers[u(len(timbers))], Width: u.anyLength(5*mm, 80*mm), Moisture: u.reading(),
		Turned: u(2) == 0, Over: u(2) == 0, Pinned: u(4) == 0,
	}
	s.Lay(u.grain())
	if u(3) == 0 {
		s.Length, s.Start = u.anyLength(0, 600*mm), u.anyLength(0, 300*mm)
	}
	if u(10) == 0 { // the bench is 450 long
		s.Joints = u.joints(s.Start, s.Start+cmp.Or(s.Length, 400*mm))
	}
	return s
}

// joints returns one or two between two places of a strip.
func (u upTo) joints(start, end length.Length) pattern.Joints {
	third := (end - start) / 3
	if third < 3 {
		return ""
	}
	list := []pattern.Joint{{From: start + third, To: start + third}, {From: start + 2*third, To: start + 2*third + third/2}}
	return pattern.JointsOf(list[:1+u(2)]...)
}

// state returns n strips and some on the tray.
func (u upTo) state(n int) edit.State {
	strips := make([]pattern.Strip, n)
	for i := range strips {
		strips[i] = u.strip()
		if i > 0 && u(4) == 0 { // neighbours alike in all but width, which join
			width := strips[i].Width
			strips[i] = strips[i-1]
			strips[i].Width = width
		}
	}
	s := bench(0, strips...)
	if n > 0 {
		s.Selected = u(n)
	}
	if u(2) == 0 {
		s.Pattern.Seconds = []pattern.Second{{Bar: u.anyLength(10*mm, 60*mm), Angle: pattern.Square, Turned: []bool{false, true}}}
	}
	for range u(4) {
		s.Tray = append(s.Tray, u.strip())
	}
	for range u(4) {
		p := u.product()
		p.Count = max(1, p.Count)
		s.Pattern.Products = append(s.Pattern.Products, p)
		s.Pattern.Avoids = append(s.Pattern.Avoids, u.avoid())
		m := u.made()
		m.Copies, m.Date.Day = max(1, m.Copies), 1+m.Date.Day/2
		s.Pattern.Made = append(s.Pattern.Made, m)
	}
	return s
}

// agains are second glue-ups as they are typed.
var agains = []string{"end 41 x16 chequer", "flat 40 at 45 chevron", "flat 30 stripes", "1 shift 0 half trim 2", "1 turn 3", "1 over", "1 brick bars all",
	"1 stair moisture 8.2", "2 bar 25 x8", "1 out", "2 out", "3 out"}

// arbitrary holds a hand move by its ID, with its argument drawn. Every move of
// the list stands here.
func (u upTo) arbitrary() map[string]move {
	return map[string]move{
		"select":       func(s edit.State) (edit.State, error) { return edit.Select(s, u(len(s.Pattern.Strips)+1)) },
		"select-left":  edit.SelectLeft,
		"select-right": edit.SelectRight,
		"select-first": edit.SelectFirst,
		"select-last":  edit.SelectLast,

		"carry-left":  edit.CarryLeft,
		"carry-right": edit.CarryRight,
		"carry-to":    func(s edit.State) (edit.State, error) { return edit.CarryTo(s, u(len(s.Pattern.Strips)+1)) },
		"swap":        func(s edit.State) (edit.State, error) { return edit.Swap(s, u(len(s.Pattern.Strips)+1)) },
		"put-in-row": func(s edit.State) (edit.State, error) {
			strip := u.strip()
			if chosen, ok := s.Strip(); ok && u(2) == 0 { // some that join
				strip = chosen
			}
			return edit.PutInRow(s, slices.Repeat([]pattern.Strip{strip}, 2))
		},
		"put-in": func(s edit.State) (edit.State, error) { return edit.PutIn(s, u.strip()) },
		"change-timber": func(s edit.State) (edit.State, error) {
			return edit.ChangeTimber(s, timbers[u(len(timbers))], colour.Own{})
		},
		"lay-aside":  edit.LayAside,
		"bring-back": func(s edit.State) (edit.State, error) { return edit.BringBack(s, u(len(s.Tray)+1)) },
		"twin":       edit.Twin,
		"mirror":     edit.Mirror,

		"turn":      with(edit.Turn, allow),
		"turn-over": edit.TurnOver,
		"roll":      with(edit.Roll, allow),
		"split":     with(edit.Split, allow),
		"join":      edit.Join,

		"slide-far":  func(s edit.State) (edit.State, error) { return edit.SlideFar(s, u.anyLength(0, 20*mm)) },
		"slide-near": func(s edit.State) (edit.State, error) { return edit.SlideNear(s, u.anyLength(0, 20*mm)) },
		"set-start":  func(s edit.State) (edit.State, error) { return edit.SetStart(s, u.anyLength(0, 300*mm)) },
		"set-length": func(s edit.State) (edit.State, error) { return edit.SetLength(s, u.anyLength(0, 600*mm)) },
		"set-joints": func(s edit.State) (edit.State, error) {
			if u(4) > 0 { // else hardly any neighbours are alike and join
				return edit.SetJoints(s, "", allow)
			}
			return edit.SetJoints(s, u.joints(u.anyLength(0, 300*mm), u.anyLength(0, 600*mm)), allow)
		},
		"widen":        func(s edit.State) (edit.State, error) { return edit.Widen(s, u.anyLength(0, 2*mm)) },
		"narrow":       func(s edit.State) (edit.State, error) { return edit.Narrow(s, u.anyLength(0, 2*mm)) },
		"set-width":    func(s edit.State) (edit.State, error) { return edit.SetWidth(s, u.anyLength(5*mm, 80*mm)) },
		"next-rings":   edit.NextRings,
		"set-rings":    func(s edit.State) (edit.State, error) { return edit.SetRings(s, u.rings()) },
		"set-bark":     func(s edit.State) (edit.State, error) { return edit.SetBark(s, u.side(u.rings())) },
		"set-heart":    func(s edit.State) (edit.State, error) { return edit.SetHeart(s, u.anyLength(0, 3*length.Metre)) },
		"set-moisture": func(s edit.State) (edit.State, error) { return edit.SetMoisture(s, u.reading()) },
		"pin":          edit.Pin,

		"fill":             edit.Fill,
		"set-panel-length": func(s edit.State) (edit.State, error) { return edit.SetPanelLength(s, u.anyLength(0, length.Metre)) },
		"set-thickness":    func(s edit.State) (edit.State, error) { return edit.SetThickness(s, u.anyLength(0, 60*mm)) },
		"another-width": func(s edit.State) (edit.State, error) {
			return edit.AnotherWidth(s, edit.Size{Width: u.anyLength(0, 2*length.Metre), Tolerance: u.anyLength(0, 5*mm), Step: mm})
		},
		"set-panel-width":    func(s edit.State) (edit.State, error) { return edit.SetPanelWidth(s, u.anyLength(0, 2*length.Metre)) },
		"set-make":           func(s edit.State) (edit.State, error) { return edit.SetMake(s, pattern.Make(u(2))) },
		"set-panel-moisture": func(s edit.State) (edit.State, error) { return edit.SetPanelMoisture(s, u.reading()) },
		"set-flattened":      func(s edit.State) (edit.State, error) { return edit.SetFlattened(s, u.reading()) },
		"set-name":           func(s edit.State) (edit.State, error) { return edit.SetName(s, timbers[u(len(timbers))]) },
		"set-notes":          func(s edit.State) (edit.State, error) { return edit.SetNotes(s, timbers[u(len(timbers))]) },

		"glue-again": func(s edit.State) (edit.State, error) {
			a, err := edit.ParseAgain(agains[u(len(agains))], length.InMM)
			if err != nil {
				return s, err
			}
			return edit.GlueAgain(s, a)
		},
		"for-board": func(s edit.State) (edit.State, error) {
			size := second.Size{Length: u.anyLength(100*mm, 900*mm), Width: u.anyLength(400*mm, 2500*mm), Thickness: u.anyLength(10*mm, 50*mm)}
			return edit.ForBoard(s, edit.BoardSize{Size: size, Bars: u(20)}, second.Takes{Crosscut: 3 * mm, Second: 3 * mm, Length: 20 * mm})
		},

		"add-product":    func(s edit.State) (edit.State, error) { return edit.AddProduct(s, u.product()) },
		"set-product":    func(s edit.State) (edit.State, error) { return edit.SetProduct(s, u(4), u.product()) },
		"drop-product":   func(s edit.State) (edit.State, error) { return edit.DropProduct(s, u(4)) },
		"product-sooner": func(s edit.State) (edit.State, error) { return edit.ProductSooner(s, u(4)) },
		"add-avoid":      func(s edit.State) (edit.State, error) { return edit.AddAvoid(s, u.avoid()) },
		"set-avoid":      func(s edit.State) (edit.State, error) { return edit.SetAvoid(s, u(4), u.avoid()) },
		"drop-avoid":     func(s edit.State) (edit.State, error) { return edit.DropAvoid(s, u(4)) },
		"short-ends": func(s edit.State) (edit.State, error) {
			return edit.ShortEnds(s, []edit.Laid{{Strip: u(4) + 1, Start: u.anyLength(0, 300*mm), Length: u.anyLength(0, 600*mm)}})
		},
		"add-made":  func(s edit.State) (edit.State, error) { return edit.AddMade(s, u.made()) },
		"set-made":  func(s edit.State) (edit.State, error) { return edit.SetMade(s, u(4), u.made()) },
		"drop-made": func(s edit.State) (edit.State, error) { return edit.DropMade(s, u(4)) },
	}
}

func (u upTo) product() pattern.Product {
	p := pattern.Product{Shape: outline.Round, Diameter: u.anyLength(10*mm, 300*mm), Count: u(4), Centre: pattern.Centre{Strip: u(4)}}
	if u(2) == 0 {
		p = pattern.Product{Shape: outline.Rectangle, Length: u.anyLength(10*mm, 600*mm), Width: u.anyLength(10*mm, 300*mm), Count: 1}
	}
	p.Bevel, p.BevelSide = u.anyLength(0, 4*mm), pattern.BevelSide(u(3))
	return p
}

func (u upTo) avoid() pattern.Avoid {
	return pattern.Avoid{Along: u.anyLength(0, 900*mm), Across: u.anyLength(0, 300*mm), Radius: u.anyLength(0, 20*mm)}
}

func (u upTo) made() pattern.Made {
	return pattern.Made{Date: pattern.Date{Year: 2026, Month: 5, Day: 1 + u(31)}, Copies: u(5), Width: u.anyLength(0, 300*mm),
		Minutes: u(600), Note: timbers[u(len(timbers))]}
}

// byRapid draws with rapid, which can shrink what fails.
func byRapid(t *rapid.T) upTo {
	return func(n int) int { return rapid.IntRange(0, n-1).Draw(t, "n") }
}

// bySeed draws quickly, for long runs.
func bySeed(a, b uint64) upTo {
	rng := rand.New(rand.NewPCG(a, b))
	return rng.IntN
}
