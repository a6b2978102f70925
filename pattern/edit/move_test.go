package edit_test

import (
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/species"
)

func TestArrange(t *testing.T) {
	tests := []struct {
		name  string
		from  edit.State
		moves []move
		want  string
	}{
		{"carry left", four(), []move{edit.CarryLeft}, ">maple 30 walnut 25 cherry 20 oak 15 |"},
		{"swap with the last", four(), []move{func(s edit.State) (edit.State, error) { return edit.Swap(s, 3) }}, "walnut 25 oak 15 cherry 20 >maple 30 |"},
		{"carry to the right edge", four(), []move{with(edit.CarryTo, 3)}, "walnut 25 cherry 20 oak 15 >maple 30 |"},
		{"carry to the left edge", at(four(), 2), []move{with(edit.CarryTo, 0)}, ">cherry 20 walnut 25 maple 30 oak 15 |"},
		{"carry right twice", four(), []move{edit.CarryRight, edit.CarryRight}, "walnut 25 cherry 20 oak 15 >maple 30 |"},
		{"put in after the chosen", four(), []move{with(edit.PutIn, strip("ash", 12*mm))},
			"walnut 25 maple 30 >ash 12 cherry 20 oak 15 |"},
		{"put in at the right edge", bench(0, strip("oak", 15*mm)), []move{with(edit.PutIn, strip("ash", 12*mm))}, "oak 15 >ash 12 |"},
		{"put in on a draft", bench(0), []move{with(edit.PutIn, strip("ash", 12*mm))}, ">ash 12 |"},
		{"put in on the zero state", edit.State{}, []move{with(edit.PutIn, strip("ash", 12*mm))}, ">ash 12 |"},
		{"change timber", four(), []move{with(toTimber, "ash")}, "walnut 25 >ash 30 cherry 20 oak 15 |"},
		{"lay aside", four(), []move{edit.LayAside}, ">walnut 25 cherry 20 oak 15 | maple 30"},
		{"lay two aside, oldest first", four(), []move{edit.LayAside, edit.LayAside}, ">cherry 20 oak 15 | maple 30 walnut 25"},
		{"lay the last one aside", bench(0, strip("oak", 15*mm)), []move{edit.LayAside}, "| oak 15"},
		{"bring back to a draft", bench(0, strip("oak", 15*mm)), []move{edit.LayAside, with(edit.BringBack, 0)}, ">oak 15 |"},
		{"bring the older back", four(), []move{edit.LayAside, edit.LayAside, with(edit.BringBack, 0)},
			"cherry 20 >maple 30 oak 15 | walnut 25"},
		{"twin", four(), []move{edit.Twin}, "walnut 25 maple 30 >maple 30 cherry 20 oak 15 |"},
		{"mirror an even count from the left", four(), []move{edit.Mirror}, "walnut 25 >maple 30 maple 30 walnut 25 |"},
		{"mirror an even count from the right", four(), []move{with(edit.Select, 2), edit.Mirror}, "oak 15 cherry 20 >cherry 20 oak 15 |"},
		{"mirror an odd count from its middle", four(), []move{edit.LayAside, with(edit.Select, 1), edit.Mirror},
			"walnut 25 >cherry 20 walnut 25 | maple 30"},
		{"mirror an odd count from the right", four(), []move{edit.LayAside, with(edit.Select, 2), edit.Mirror},
			"oak 15 cherry 20 >oak 15 | maple 30"},
		{"mirror past a pinned strip", four(), []move{edit.SelectLast, edit.Pin, edit.SelectFirst, edit.Mirror},
			">walnut 25 maple 30 maple 30 oak 15 |"},
		{"select", four(), []move{edit.SelectLeft, edit.SelectRight, edit.SelectRight}, "walnut 25 maple 30 >cherry 20 oak 15 |"},
		{"select the ends", four(), []move{edit.SelectFirst, edit.SelectLast}, "walnut 25 maple 30 cherry 20 >oak 15 |"},
		// (30 - 3.2 - 1)/2 = 12.9
		{"split", four(), []move{with(edit.Split, allow)}, "walnut 25 >maple 12.9 maple 12.9 cherry 20 oak 15 |"},
		// 12.9 + 12.9: what the cut took stays lost.
		{"split and join", four(), []move{with(edit.Split, allow), edit.Join}, "walnut 25 >maple 25.8 cherry 20 oak 15 |"},
		{"wider and narrower", four(), []move{with(edit.Widen, 1*mm), with(edit.Narrow, 100*um)}, "walnut 25 >maple 30.9 cherry 20 oak 15 |"},
		{"set width", four(), []move{with(edit.SetWidth, 12500*um)}, "walnut 25 >maple 12.5 cherry 20 oak 15 |"},
		// 300 - 90 = 210, a quarter of it 52.5 each
		{"fill", four(), []move{edit.Fill}, "walnut 77.5 >maple 82.5 cherry 72.5 oak 67.5 |"},
		// 210 over the three that are not pinned: 70 each
		{"fill past a pin", four(), []move{edit.Pin, edit.Fill}, "walnut 95 >maple 30 cherry 90 oak 85 |"},
		// 60 - 90 = -30, 7.5 less each
		{"fill to less", four(), []move{with(edit.SetPanelWidth, 60*mm), edit.Fill}, "walnut 17.5 >maple 22.5 cherry 12.5 oak 7.5 |"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := row(must(t, tt.from, tt.moves...)); got != tt.want {
				t.Errorf("\n got %s\nwant %s", got, tt.want)
			}
		})
	}
}

// TestFillByTheNanometre: 100 mm lack 10 mm and a nanometre over three strips:
// 3 333 333.67 each, so two take 3 333 334 and one 3 333 333.
func TestFillByTheNanometre(t *testing.T) {
	s := bench(0, strip("a", 30*mm), strip("b", 30*mm), strip("c", 30*mm))
	s.Pattern.Panel.Width = 100*mm + 1
	got := must(t, s, edit.Fill).Pattern
	for i, want := range []length.Length{33_333_334, 33_333_334, 33_333_333} {
		if got.Strips[i].Width != want {
			t.Errorf("strip %d is %v wide, want %v", i+1, got.Strips[i].Width, want)
		}
	}
	if got.Width() != 100*mm+1 {
		t.Errorf("together %v", got.Width())
	}
}

// toTimber changes the timber to one whose colour nobody has read.
func toTimber(s edit.State, key string) (edit.State, error) {
	return edit.ChangeTimber(s, key, colour.Own{})
}

func TestChangeTimberIsAnotherPiece(t *testing.T) {
	old := pattern.Strip{
		Species: "walnut", Width: 25 * mm, Rings: pattern.RingsFlat(), Moisture: pattern.Read(8.5),
		Length: 268 * mm, Start: 35 * mm, Turned: true, Over: true, Pinned: true, Colour: colour.OwnOf(species.RGB{R: 80}),
	}
	got := must(t, bench(0, old), with(toTimber, "ash")).Pattern.Strips[0]
	want := pattern.Strip{Species: "ash", Width: 25 * mm, Length: 268 * mm, Start: 35 * mm, Pinned: true}
	if got != want {
		t.Errorf("got %+v, want %+v", got, want)
	}
	pale := colour.OwnOf(species.RGB{R: 220, G: 200, B: 180})
	next, err := edit.ChangeTimber(bench(0, old), "ash", pale)
	if want.Colour = pale; err != nil || next.Pattern.Strips[0] != want {
		t.Errorf("with a colour: %+v, %v", next.Pattern.Strips[0], err)
	}
}

func TestCopiesAreAlikeButForThePin(t *testing.T) {
	s := must(t, four(), with(edit.SetRings, pattern.RingsRift()), with(edit.SetMoisture, pattern.Read(9)),
		with(edit.SetLength, 300*mm), with(edit.SetStart, 40*mm), edit.TurnOver, with(edit.Turn, allow), edit.Pin)
	want, _ := s.Strip()
	want.Pinned = false
	if got, _ := must(t, s, edit.Twin).Strip(); got != want {
		t.Errorf("twin %+v, want %+v", got, want)
	}
	if got := must(t, s, edit.Mirror).Pattern.Strips[2]; got != want {
		t.Errorf("mirror image %+v, want %+v", got, want)
	}
}

func TestTurn(t *testing.T) {
	tests := []struct {
		name               string
		start, own, wanted length.Length
	}{
		// The panel is 450 + 20 = 470 long at glue-up.
		{"square panel", 0, 0, 0},
		{"ragged", 35 * mm, 268 * mm, 167 * mm}, // 470 - 35 - 268
		{"flush at the near end", 0, 300 * mm, 170 * mm},
		{"centred", 100 * mm, 270 * mm, 100 * mm},
		{"stands out at the far end", 50 * mm, 0, 0}, // 470 - 50 - 470 = -50, stops at 0
		{"far too long", 0, 600 * mm, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			st := strip("walnut", 25*mm)
			st.Start, st.Length = tt.start, tt.own
			got, _ := must(t, bench(0, st), with(edit.Turn, allow)).Strip()
			if got.Start != tt.wanted || !got.Turned || got.Length != tt.own {
				t.Errorf("got start %v, own length %v, turned %v; want start %v", got.Start, got.Length, got.Turned, tt.wanted)
			}
		})
	}
	t.Run("stops at the greatest start", func(t *testing.T) {
		s := bench(0, strip("walnut", 25*mm))
		s.Pattern.Panel.Length = 2 * length.Metre
		s.Pattern.Strips[0].Length = 300 * mm
		// 2020 - 0 - 300 = 1720, above the 1000 that a start may be.
		if got, _ := must(t, s, with(edit.Turn, allow)).Strip(); got.Start != pattern.MaxStart {
			t.Errorf("start %v, want %v", got.Start, pattern.MaxStart)
		}
	})
}

// TestRolled: a panel 22 thick is glued up 24 thick, so that is what an upright
// strip must measure; its faces lose 1 to the jointer.
func TestRolled(t *testing.T) {
	tests := []struct {
		name          string
		width         length.Length
		allow         edit.Allowances
		rings         pattern.Rings
		wide, planed  length.Length
		wantedDegrees float64
	}{
		{"just wide enough", 24 * mm, allow, pattern.RingsFlat(), 23 * mm, 0, 90},
		{"wider", 40 * mm, allow, pattern.RingsQuarter(), 23 * mm, 16 * mm, 0},
		{"no allowances", 30 * mm, edit.Allowances{}, pattern.RingsRift(), 22 * mm, 8 * mm, 45},
		{"rings not known", 30 * mm, allow, pattern.Rings{}, 23 * mm, 6 * mm, 45},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			st := strip("walnut", tt.width)
			st.Rings = tt.rings
			s := bench(0, st)
			rolled, planed, err := edit.Rolled(s.Pattern, 0, tt.allow)
			if err != nil {
				t.Fatal(err)
			}
			if rolled.Width != tt.wide || planed != tt.planed || rolled.Rings.Degrees() != tt.wantedDegrees ||
				rolled.Rings.Known() != tt.rings.Known() {
				t.Errorf("got %v wide, %v planed off, rings %v", rolled.Width, planed, rolled.Rings)
			}
			if got, _ := must(t, s, with(edit.Roll, tt.allow)).Strip(); got != rolled {
				t.Errorf("Roll gives %+v, Rolled %+v", got, rolled)
			}
		})
	}
}

// TestHalves: what the halves and the cut take, with one rule of the trade beside
// it (common practice, no source): a blank halved by a kerf k with an allowance a
// on each part leaves (t - k)/2 - a, so 52 with 1.2 and 3 leaves 22.4.
func TestHalves(t *testing.T) {
	tests := []struct {
		name                     string
		width                    length.Length
		allow                    edit.Allowances
		left, right, wantedLosts length.Length
	}{
		{"ordinary", 50 * mm, allow, 22900 * um, 22900 * um, 4200 * um}, // (50 - 4.2)/2
		{"odd nanometre", 50*mm + 1, allow, 22900*um + 1, 22900 * um, 4200 * um},
		{"worked example", 52 * mm, edit.Allowances{Rip: 1200 * um, Jointing: 6 * mm}, 22400 * um, 22400 * um, 7200 * um},
		{"thin as may be", 4200*um + 2, allow, 1, 1, 4200 * um},
		{"knife", 50 * mm, edit.Allowances{}, 25 * mm, 25 * mm, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			st := strip("walnut", tt.width)
			st.Pinned, st.Rings, st.Start = true, pattern.RingsRift(), 5*mm
			s := bench(0, st)
			left, right, lost, err := edit.Halves(s.Pattern, 0, tt.allow)
			if err != nil {
				t.Fatal(err)
			}
			if left.Width != tt.left || right.Width != tt.right || lost != tt.wantedLosts {
				t.Errorf("got %v and %v, %v lost", left.Width, right.Width, lost)
			}
			got := must(t, s, with(edit.Split, tt.allow))
			if got.Pattern.Strips[0] != left || got.Pattern.Strips[1] != right || got.Selected != 0 {
				t.Errorf("Split gives %+v", got)
			}
			left.Width, right.Width = st.Width, st.Width
			if left != st || right != st {
				t.Errorf("the halves differ from the strip in more than width: %+v, %+v", left, right)
			}
		})
	}
}

// TestSplitYieldsWhatRippingDoes: from a blank, strips w1 and w2 take
// (w1 + jointing) + (w2 + jointing) + rip. A split strip must be no better and no
// worse than ripping the two from the blank it came from, w + jointing.
func TestSplitYieldsWhatRippingDoes(t *testing.T) {
	const w = 61234567 * length.Nanometre
	left, right, _, err := edit.Halves(bench(0, strip("oak", w)).Pattern, 0, allow)
	if err != nil {
		t.Fatal(err)
	}
	if took := left.Width + allow.Jointing + right.Width + allow.Jointing + allow.Rip; took != w+allow.Jointing {
		t.Errorf("the halves ripped from a blank take %v, the strip %v", took, w+allow.Jointing)
	}
}

// TestInchSteps: 64 steps of 1/64 in are one inch, 25.4 mm by the international
// yard agreement of 1959 (in the Federal Register of 1 July 1959).
func TestInchSteps(t *testing.T) {
	s := bench(0, strip("oak", 25*mm))
	for range 64 {
		s = must(t, s, with(edit.Widen, length.Inch/64))
	}
	if got, _ := s.Strip(); got.Width != 50400*um {
		t.Errorf("64 steps of 1/64 in on 25 mm make %v", got.Width)
	}
}

func TestSlide(t *testing.T) {
	s := bench(0, strip("oak", 25*mm))
	steps := []struct {
		name string
		move move
		want length.Length
	}{
		{"far", with(edit.SlideFar, 12*mm), 12 * mm},
		{"near", with(edit.SlideNear, 5*mm), 7 * mm},
		{"near stops at the datum end", with(edit.SlideNear, 50*mm), 0},
		{"far stops", with(edit.SlideFar, 1<<62), pattern.MaxStart},
		{"near by too much", with(edit.SlideNear, 1<<62), 0},
		{"set", with(edit.SetStart, 35*mm), 35 * mm},
	}
	for _, step := range steps {
		s = must(t, s, step.move)
		if got, _ := s.Strip(); got.Start != step.want {
			t.Errorf("%s: start %v, want %v", step.name, got.Start, step.want)
		}
	}
}

func TestNextRings(t *testing.T) {
	at := func(degrees float64) pattern.Rings {
		r, err := pattern.RingsAt(degrees)
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	tests := []struct{ from, want pattern.Rings }{
		{pattern.Rings{}, pattern.RingsFlat()},
		{pattern.RingsFlat(), pattern.RingsRift()},
		{pattern.RingsRift(), pattern.RingsQuarter()},
		{pattern.RingsQuarter(), pattern.Rings{}},
		{at(30), pattern.RingsRift()},
		{at(60), pattern.RingsQuarter()},
	}
	for _, tt := range tests {
		st := strip("oak", 25*mm)
		st.Rings = tt.from
		if got, _ := must(t, bench(0, st), edit.NextRings).Strip(); got.Rings != tt.want {
			t.Errorf("after %v comes %v, want %v", tt.from, got.Rings, tt.want)
		}
	}
}

func TestStripValues(t *testing.T) {
	s := must(t, four(), with(edit.SetRings, pattern.RingsQuarter()), with(edit.SetMoisture, pattern.Read(8.5)),
		with(edit.SetLength, 268*mm), edit.TurnOver, edit.Pin)
	want := pattern.Strip{
		Species: "maple", Width: 30 * mm, Rings: pattern.RingsQuarter(), Moisture: pattern.Read(8.5),
		Length: 268 * mm, Over: true, Pinned: true,
	}
	if got, _ := s.Strip(); got != want {
		t.Errorf("got %+v, want %+v", got, want)
	}
	// A reading that nobody took is the zero Reading, whatever stood in it.
	s = must(t, s, with(edit.SetMoisture, pattern.Reading{Percent: 12}), with(edit.SetLength, 0), edit.TurnOver, edit.Pin,
		with(edit.SetRings, pattern.Rings{}))
	if got, _ := s.Strip(); got != strip("maple", 30*mm) {
		t.Errorf("put back it is %+v", got)
	}
}

// A bark side is told, carried by the moves, and gone with rings that it does not go with.
func TestBark(t *testing.T) {
	leaning := pattern.Bark{Right: -1, Up: 1}
	s := must(t, four(), with(edit.SetRings, pattern.RingsRift()), with(edit.SetBark, leaning), with(edit.SetHeart, 90*mm))
	for _, c := range []struct {
		name string
		move move
		want pattern.Grain
	}{
		{"turned", with(edit.Turn, allow), pattern.Grain{Rings: pattern.RingsRift(), Bark: pattern.Bark{Right: 1, Up: 1}, Heart: 90 * mm}},
		{"other face up", edit.TurnOver, pattern.Grain{Rings: pattern.RingsRift(), Bark: pattern.Bark{Right: 1, Up: -1}, Heart: 90 * mm}},
		{"rolled", with(edit.Roll, allow), pattern.Grain{Rings: pattern.RingsRift(), Bark: pattern.Bark{Right: 1, Up: 1}, Heart: 90 * mm}},
		{"twin", edit.Twin, pattern.Grain{Rings: pattern.RingsRift(), Bark: leaning, Heart: 90 * mm}},
		{"next rings", edit.NextRings, pattern.Grain{Rings: pattern.RingsQuarter()}},
		{"no bark", with(edit.SetBark, pattern.Bark{}), pattern.Grain{Rings: pattern.RingsRift()}},
		{"another heart", with(edit.SetHeart, 0), pattern.Grain{Rings: pattern.RingsRift(), Bark: leaning}},
		{"another timber", with(toTimber, "oak"), pattern.Grain{}},
	} {
		got, _ := must(t, s, with(edit.SetWidth, 40*mm), c.move).Strip()
		if got.Grain() != c.want {
			t.Errorf("%s: %+v, want %+v", c.name, got.Grain(), c.want)
		}
	}
	twins := must(t, s, edit.Twin, with(edit.SetBark, pattern.Bark{Right: 1, Up: 1}), edit.SelectLeft)
	if _, err := edit.Join(twins); err == nil || !strings.Contains(err.Error(), "differ in bark side") {
		t.Errorf("strips that lean against each other are joined: %v", err)
	}
}

func TestPanelValues(t *testing.T) {
	got := must(t, edit.State{}, with(edit.SetPanelLength, 600*mm), with(edit.SetThickness, 18*mm), with(edit.SetPanelWidth, 250*mm),
		with(edit.SetMake, pattern.MakeEdge), with(edit.SetPanelMoisture, pattern.Read(8)), with(edit.SetFlattened, pattern.Read(7.5)),
		with(edit.SetName, "Quay board"), with(edit.SetNotes, "for the autumn fair"))
	want := pattern.Panel{
		Length: 600 * mm, Thickness: 18 * mm, Width: 250 * mm, Make: pattern.MakeEdge,
		Moisture: pattern.Read(8), Flattened: pattern.Read(7.5),
	}
	if got.Pattern.Panel != want {
		t.Errorf("got %+v, want %+v", got.Pattern.Panel, want)
	}
	if got.Pattern.Name != "Quay board" || got.Pattern.Notes != "for the autumn fair" {
		t.Errorf("got name %q, notes %q", got.Pattern.Name, got.Pattern.Notes)
	}
	none := must(t, got, with(edit.SetPanelWidth, 0), with(edit.SetPanelMoisture, pattern.Reading{}), with(edit.SetFlattened, pattern.Reading{}))
	want.Width, want.Moisture, want.Flattened = 0, pattern.Reading{}, pattern.Reading{}
	if none.Pattern.Panel != want {
		t.Errorf("taken away: got %+v, want %+v", none.Pattern.Panel, want)
	}
}

// A shorter panel takes the joints beyond its end off the strips on the tray too: they lie
// there as they would come back.
func TestShorterPanelAndTheTray(t *testing.T) {
	joints := pattern.JointsOf(pattern.Joint{From: 300 * mm, To: 300 * mm})
	s := must(t, four(), func(s edit.State) (edit.State, error) { return edit.SetJoints(s, joints, edit.Allowances{}) }, edit.LayAside, with(edit.SetPanelLength, 200*mm))
	if err := s.Pattern.CheckJoints(s.Tray[0]); err != nil || s.Tray[0].Joints == joints {
		t.Errorf("on the tray: %v, %v", s.Tray[0].Joints, err)
	}
}
