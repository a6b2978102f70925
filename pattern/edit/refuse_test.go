package edit_test

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
)

// refused is a move that cannot be made, and a part of what it should say.
type refused struct {
	name string
	from edit.State
	move move
	says string
}

func checkRefused(t *testing.T, tests []refused) {
	t.Helper()
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			before := deep(tt.from)
			got, err := tt.move(tt.from)
			var refusal *edit.Refusal
			if !errors.As(err, &refusal) {
				t.Fatalf("error %v, want a refusal with %q", err, tt.says)
			}
			if !strings.Contains(err.Error(), tt.says) || strings.Contains(err.Error(), "%!") {
				t.Errorf("it says %q, want %q in it", err, tt.says)
			}
			if strings.Contains(refusal.In(length.InInches), "%!") {
				t.Errorf("in inches it says %q", refusal.In(length.InInches))
			}
			if !same(got, before) || !same(tt.from, before) {
				t.Errorf("the state changed from %s to %s", row(before), row(got))
			}
		})
	}
}

// at returns s with another strip chosen, whether there is one or not.
func at(s edit.State, selected int) edit.State {
	s.Selected = selected
	return s
}

func full() edit.State {
	return bench(0, slices.Repeat([]pattern.Strip{strip("oak", 10*mm)}, pattern.MaxStrips)...)
}

func TestArrangeRefuses(t *testing.T) {
	tray := must(t, full(), edit.LayAside, edit.Twin)
	pinnedRight := must(t, four(), with(edit.Select, 2), edit.Pin, edit.SelectLast, edit.Pin, edit.SelectFirst)
	checkRefused(t, []refused{
		{"carry past the left edge", at(four(), 0), edit.CarryLeft, "strip 1 is at the left edge already"},
		{"swap with none", four(), with(edit.Swap, 4), "there is no strip 5: the panel has 4"},
		{"swap with itself", four(), with(edit.Swap, 1), "strip 2 is the chosen one: name another to swap it with"},
		{"carry past the right edge", at(four(), 3), edit.CarryRight, "strip 4 is at the right edge already"},
		{"select beyond the left edge", at(four(), 0), edit.SelectLeft, "strip 1 is at the left edge"},
		{"select beyond the right edge", at(four(), 3), edit.SelectRight, "strip 4 is at the right edge"},
		{"select no strip", four(), with(edit.Select, 4), "there is no strip 5: the panel has 4"},
		{"select below", four(), with(edit.Select, -1), "there is no strip 0: the panel has 4"},
		{"put in without a timber", four(), with(edit.PutIn, strip(" ", 20*mm)), "a strip needs a timber"},
		{"put in without a width", four(), with(edit.PutIn, strip("oak", 0)), "width 0 mm: must be above 0, up to 2000 mm"},
		{"put in too wide", four(), with(edit.PutIn, strip("oak", 2*length.Metre+1)), "width 2000.000001 mm"},
		{"put in too long", four(), with(edit.PutIn, pattern.Strip{Species: "oak", Width: mm, Length: 20*length.Metre + 1}), "length 20000.000001 mm"},
		{"put in too far", four(), with(edit.PutIn, pattern.Strip{Species: "oak", Width: mm, Start: -1}), "start -0.000001 mm: must be 0 mm to 1000 mm"},
		{"put in too wet", four(), with(edit.PutIn, pattern.Strip{Species: "oak", Width: mm, Moisture: pattern.Read(31)}), "moisture 31 %"},
		{"put in a control character", four(), with(edit.PutIn, strip("oak\x1b", mm)), "species: must be one line"},
		{"put in where there is no room", full(), with(edit.PutIn, strip("oak", mm)), "the panel has 10000 strips"},
		{"put in after no strip", at(four(), 9), with(edit.PutIn, strip("oak", mm)), "there is no strip 10"},
		{"change to no timber", four(), with(toTimber, ""), "a strip needs a timber"},
		{"change to the same", four(), with(toTimber, "maple"), "strip 2 is maple already"},
		{"nothing on the tray", four(), with(edit.BringBack, 0), "no strip is laid aside"},
		{"not that many aside", tray, with(edit.BringBack, 1), "there is no strip 2 laid aside, only 1"},
		{"no room for one of the tray", tray, with(edit.BringBack, 0), "there is no room for another"},
		{"no room for a twin", full(), edit.Twin, "there is no room for another"},
		{"mirror one strip", bench(0, strip("oak", mm)), edit.Mirror, "no halves"},
		{"mirrored already", must(t, four(), edit.Mirror), edit.Mirror, "mirror each other already"},
		{"mirror onto pins", pinnedRight, edit.Mirror, "the other half has 2 pinned"},
	})
}

func TestMillRefuses(t *testing.T) {
	unlike := func(f func(*pattern.Strip)) edit.State {
		s := bench(0, strip("oak", 20*mm), strip("oak", 20*mm))
		f(&s.Pattern.Strips[1])
		return s
	}
	thin := bench(0, strip("oak", 40*mm))
	thin.Pattern.Panel.Thickness = 0
	bad := edit.Allowances{Rip: -1}
	checkRefused(t, []refused{
		{"roll too narrow", at(bench(3, strip("a", 30*mm), strip("b", 30*mm), strip("c", 30*mm), strip("d", 22*mm)), 3), with(edit.Roll, allow),
			"strip 4 is 22 mm wide: rolled it would need 24 mm, the panel's 22 mm and 2 mm to flatten it"},
		{"roll short by a nanometre", bench(0, strip("oak", 24*mm-1)), with(edit.Roll, allow), "strip 1 is 23.999999 mm wide"},
		{"roll where jointing takes all", bench(0, strip("oak", 40*mm)), with(edit.Roll, edit.Allowances{Jointing: 22 * mm}), "strip 1 rolled would be 0 mm wide"},
		{"roll in a panel without thickness", thin, with(edit.Roll, allow), "no thickness yet"},
		{"roll with bad allowances", four(), with(edit.Roll, bad), "rip kerf -0.000001 mm: must be 0 mm to 1000 mm"},
		{"turn with bad allowances", four(), with(edit.Turn, edit.Allowances{Length: 2 * length.Metre}), "length allowance 2000 mm"},
		{"split with bad allowances", four(), with(edit.Split, bad), "rip kerf"},
		{"split too narrow", bench(0, strip("oak", 4200*um+1)), with(edit.Split, allow), "the cut takes 3.2 mm and its jointing 1 mm"},
		{"split less than the cut", bench(0, strip("oak", 3*mm)), with(edit.Split, allow), "which leaves no two strips"},
		{"split without room", full(), with(edit.Split, edit.Allowances{}), "there is no room for another"},
		{"join at the edge", at(four(), 3), edit.Join, "there is none to join it with"},
		{"join timbers", four(), edit.Join, "strips 2 and 3 differ in timber"},
		{"join rings", unlike(func(s *pattern.Strip) { s.Rings = pattern.RingsRift() }), edit.Join, "differ in rings"},
		{"join moistures", unlike(func(s *pattern.Strip) { s.Moisture = pattern.Read(8) }), edit.Join, "differ in moisture"},
		{"join lengths", unlike(func(s *pattern.Strip) { s.Length = 100 * mm }), edit.Join, "differ in length"},
		{"join starts", unlike(func(s *pattern.Strip) { s.Start = 1 }), edit.Join, "differ in start"},
		{"join ends", unlike(func(s *pattern.Strip) { s.Turned = true }), edit.Join, "differ in which end is where"},
		{"join faces", unlike(func(s *pattern.Strip) { s.Over = true }), edit.Join, "differ in which face is up"},
		{"join too wide", unlike(func(s *pattern.Strip) { s.Width = 1990 * mm }), edit.Join, "would be 2010 mm wide: must be 2000 mm at most"},
	})
}

func TestValuesRefuse(t *testing.T) {
	noWidth, filled, pinned := four(), must(t, four(), edit.Fill), bench(0, strip("oak", mm))
	noWidth.Pattern.Panel.Width = 0
	pinned = must(t, pinned, edit.Pin)
	// 90 wide in four; down to 10 each would lose 20, and the oak is 15 wide.
	tooLittle := must(t, four(), with(edit.SetPanelWidth, 10*mm))
	tooMuch := bench(0, strip("oak", pattern.MaxAcross), strip("oak", mm), strip("oak", pattern.MaxAcross))
	tooMuch = must(t, tooMuch, edit.Pin, with(edit.Select, 1), edit.Pin, edit.SelectLast, with(edit.Narrow, 1999*mm), edit.SelectFirst, edit.LayAside,
		with(edit.SetPanelWidth, 2*length.Metre))
	checkRefused(t, []refused{
		{"bark without rings", four(), with(edit.SetBark, pattern.Bark{Up: 1}), "strip 2: a bark side needs the rings"},
		{"bark beside flat rings", must(t, four(), with(edit.SetRings, pattern.RingsFlat())), with(edit.SetBark, pattern.Bark{Right: 1}), "must be up or down"},
		{"heart without bark", four(), with(edit.SetHeart, 90*mm), "strip 2: a heart needs the bark side"},
		{"heart too far", must(t, four(), with(edit.SetRings, pattern.RingsFlat()), with(edit.SetBark, pattern.Bark{Up: 1})), with(edit.SetHeart, 3*length.Metre), "up to 2000 mm"},
		{"slide by nothing", four(), with(edit.SlideFar, 0), "a step of 0 mm: must be above 0"},
		{"slide back by less", four(), with(edit.SlideNear, -mm), "a step of -1 mm"},
		{"slide beyond the datum end", four(), with(edit.SlideNear, mm), "strip 2 starts at the datum end already"},
		{"slide too far", must(t, four(), with(edit.SetStart, pattern.MaxStart)), with(edit.SlideFar, 1), "as far as it may"},
		{"start too far", four(), with(edit.SetStart, pattern.MaxStart+1), "start 1000.000001 mm"},
		{"length below", four(), with(edit.SetLength, -1), "length -0.000001 mm: must be 0 mm to 20000 mm"},
		{"widen by nothing", four(), with(edit.Widen, 0), "a step of 0 mm"},
		{"widen too far", four(), with(edit.Widen, 1<<62), "more is above the most, 2000 mm"},
		{"narrow by nothing", four(), with(edit.Narrow, 0), "a step of 0 mm"},
		{"narrow to nothing", four(), with(edit.Narrow, 30*mm), "strip 2 is 30 mm wide: 30 mm less would leave nothing"},
		{"width of nothing", four(), with(edit.SetWidth, 0), "width 0 mm: must be above 0"},
		{"too wet", four(), with(edit.SetMoisture, pattern.Read(30.5)), "moisture 30.5 %: must be 0 to 30 %"},
		{"below dry", four(), with(edit.SetMoisture, pattern.Read(-1)), "moisture -1 %"},
		{"no number", four(), with(edit.SetMoisture, pattern.Read(math.NaN())), "moisture NaN %"},
		{"fill a draft", bench(0), edit.Fill, "there is no strip yet"},
		{"fill to no width", noWidth, edit.Fill, "no width set"},
		{"filled already", filled, edit.Fill, "the strips are 300 mm wide already"},
		{"fill with all pinned", pinned, edit.Fill, "every strip is pinned"},
		{"fill to less than nothing", tooLittle, edit.Fill, "to fill 10 mm strip 3 would go from 20 mm to 0 mm"},
		{"panel length", four(), with(edit.SetPanelLength, 0), "panel length 0 mm: must be above 0, up to 20000 mm"},
		{"thickness", four(), with(edit.SetThickness, 3*length.Metre), "panel thickness 3000 mm"},
		{"panel width", four(), with(edit.SetPanelWidth, -1), "panel width -0.000001 mm"},
		{"make", four(), with(edit.SetMake, pattern.Make(7)), "strips make(7): must be flat or edge"},
		{"panel moisture", four(), with(edit.SetPanelMoisture, pattern.Read(31)), "panel moisture 31 %"},
		{"flattened", four(), with(edit.SetFlattened, pattern.Read(-0.1)), "moisture when flattened -0.1 %"},
		{"name with a tab", four(), with(edit.SetName, "a\tb"), "name: must be one line without control characters"},
		{"name that turns the writing", four(), with(edit.SetName, "a\u202eb"), "name: must be one line without control characters (take out U+202E)"},
		{"notes that turn the writing", four(), with(edit.SetNotes, "a\u2067b"), "take out U+2067"},
		{"notes of two lines", four(), with(edit.SetNotes, "a\u2028b"), "take out U+2028"},
		{"name that is no text", four(), with(edit.SetName, "a\xff"), "name: must be readable text"},
		{"notes too long", four(), with(edit.SetNotes, strings.Repeat("é", 2001)), "notes of 2001 letters: must be 2000 at most"},
	})
	t.Run("fill to the greatest width", func(t *testing.T) {
		if _, err := edit.Fill(tooMuch); err != nil {
			t.Errorf("1 mm pinned and the other up to 1999 mm: %v", err)
		}
	})
	t.Run("notes as long as may be", func(t *testing.T) {
		must(t, four(), with(edit.SetNotes, strings.Repeat("é", 2000)))
	})
}

// TestDraftRefuses makes every move of one strip on an empty draft, and with a
// chosen strip that is not there.
func TestDraftRefuses(t *testing.T) {
	moves := map[string]move{
		"select": with(edit.Select, 0), "left": edit.SelectLeft, "right": edit.SelectRight, "first": edit.SelectFirst, "last": edit.SelectLast,
		"carry left": edit.CarryLeft, "carry right": edit.CarryRight, "timber": with(toTimber, "oak"), "lay aside": edit.LayAside,
		"twin": edit.Twin, "mirror": edit.Mirror, "turn": with(edit.Turn, allow), "over": edit.TurnOver, "roll": with(edit.Roll, allow),
		"split": with(edit.Split, allow), "join": edit.Join, "far": with(edit.SlideFar, mm), "near": with(edit.SlideNear, mm),
		"start": with(edit.SetStart, 0), "length": with(edit.SetLength, 0), "widen": with(edit.Widen, mm), "narrow": with(edit.Narrow, mm),
		"width": with(edit.SetWidth, mm), "next rings": edit.NextRings, "rings": with(edit.SetRings, pattern.Rings{}),
		"bark": with(edit.SetBark, pattern.Bark{}), "heart": with(edit.SetHeart, 0), "moisture": with(edit.SetMoisture, pattern.Read(8)), "pin": edit.Pin,
	}
	var tests []refused
	for name, m := range moves {
		tests = append(tests, refused{name, bench(0), m, "there is no strip yet: put one in first"})
		if name != "select" && name != "first" && name != "last" {
			tests = append(tests, refused{name + " beyond", at(four(), 7), m, "there is no strip 8: the panel has 4"})
		}
	}
	checkRefused(t, tests)
}
