package pattern

import (
	"reflect"
	"testing"

	"example.com/oddments/pattern/length"
)

func TestListsRepeatBarByBar(t *testing.T) {
	s := Second{Turned: []bool{false, true}, Shift: []Shift{{}, {Step: ShiftHalf}, {By: length.Millimetre}}}
	for i, want := range []struct {
		turned bool
		shift  string
	}{{false, "0 mm"}, {true, "half"}, {false, "1 mm"}, {true, "0 mm"}, {false, "half"}} {
		if s.TurnedAt(i) != want.turned || s.ShiftAt(i).String() != want.shift || s.OverAt(i) {
			t.Errorf("bar %d: turned %v, over %v, shift %v", i+1, s.TurnedAt(i), s.OverAt(i), s.ShiftAt(i))
		}
	}
	if s.Degrees() != Square || s.Mitred() || !(Second{Angle: 45}).Mitred() {
		t.Error("a glue-up that names no angle is square")
	}
}

func TestWordsOfSecondGlueUps(t *testing.T) {
	for _, l := range []Lay{LayEnd, LayFlat} {
		if got, err := ParseLay(l.String()); err != nil || got != l {
			t.Errorf("%v is read as %v, %v", l, got, err)
		}
	}
	if _, err := ParseLay("edge"); err == nil {
		t.Error("a lay that is none is read")
	}
	for text, want := range map[string]Shift{"half": {Step: ShiftHalf}, "strip": {Step: ShiftStrip}, "12.5 mm": {By: 12_500_000}, "-1 mm": {}, "2001 mm": {}, "whole": {}} {
		got, err := ParseShift(text)
		if got != want || (err == nil) != (want != Shift{}) {
			t.Errorf("%q is read as %v, %v", text, got, err)
		}
		if again, err := ParseShift(want.String()); err != nil || again != want {
			t.Errorf("%v does not read back", want)
		}
	}
	if (Pattern{}).EndGrain() || !(Pattern{Seconds: []Second{{}}}).EndGrain() {
		t.Error("a board's end grain is up by its first glue-up")
	}
}

// Whatever is said of a glue-up counts when two are compared.
func TestEveryPartOfAGlueUpCounts(t *testing.T) {
	changes := map[string]func(*Second){
		"Lay": func(s *Second) { s.Lay = LayFlat }, "Bar": func(s *Second) { s.Bar++ }, "Bars": func(s *Second) { s.Bars++ },
		"Angle": func(s *Second) { s.Angle = 45 }, "Turned": func(s *Second) { s.Turned = []bool{true} }, "Over": func(s *Second) { s.Over = []bool{true} },
		"Shift": func(s *Second) { s.Shift = []Shift{{Step: ShiftHalf}} }, "Trim": func(s *Second) { s.Trim++ }, "Moisture": func(s *Second) { s.Moisture = Read(0) },
	}
	fields := reflect.TypeFor[Second]()
	for i := range fields.NumField() {
		name, s := fields.Field(i).Name, Second{Angle: Square}
		change, ok := changes[name]
		if !ok {
			t.Fatalf("%s has no case", name)
		}
		change(&s)
		if s.Equal(Second{}) {
			t.Errorf("a change of %s goes unseen", name)
		}
	}
	if !(Second{Angle: Square}).Equal(Second{}) {
		t.Error("square is not square")
	}
}
