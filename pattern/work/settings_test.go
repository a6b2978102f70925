package work

import (
	"fmt"
	"reflect"
	"strings"
	"testing"
	"time"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/shop/shoptest"
	"example.com/oddments/species"
)

// Every value of the shop for cutting out, gluing, finishing and selling gets to what a
// maker is told: where it is five times as much, or less, something reads otherwise.
func TestEveryValueOfTheShopCounts(t *testing.T) {
	p := job(t).Pattern
	p.Products = []pattern.Product{lantern()}
	end, mitred := p, p
	end.Seconds = []pattern.Second{{Bar: 41 * mm}}
	mitred.Seconds = []pattern.Second{{Lay: pattern.LayFlat, Bar: 41 * mm, Angle: 45}}
	told := func(s shop.Shop) (all string) {
		for _, p := range []pattern.Pattern{p, end, mitred} {
			j, err := JobOf(movement.New(species.Builtin(), s), p, 1)
			if err != nil {
				t.Fatal(err)
			}
			j.Minutes, j.Due = 600, pattern.Date{Year: 2026, Month: time.December, Day: 5}
			all += fmt.Sprint(Report(physicsOf(s), j, Of(physicsOf(s), j), length.InMM), MarkLines(physicsOf(s), j, length.InMM))
		}
		return all
	}
	before, counted := told(shoptest.Roomy()), 0
	var change func(of reflect.Value, s *shop.Shop, name string)
	change = func(of reflect.Value, s *shop.Shop, name string) {
		if of.Kind() == reflect.Struct {
			for i := range of.NumField() {
				change(of.Field(i), s, name+"."+of.Type().Field(i).Name)
			}
			return
		}
		was, same := reflect.ValueOf(of.Interface()), 0
		for _, by := range []float64{5, 0.7, 0.2} {
			of.Set(reflect.ValueOf(by * was.Convert(reflect.TypeFor[float64]()).Float()).Convert(of.Type()))
			if told(*s) == before {
				same++
			}
		}
		of.Set(was)
		switch name {
		case "Cut.Stop", "Cut.Shortest": // the stock plan goes by these
			return
		case "Glue.Clamps", "Glue.Handling", "Glue.EveningHours": // and the schedule of evenings by these
			return
		}
		if counted++; same == 3 {
			t.Errorf("nothing is told otherwise by another %s", name)
		}
	}
	s := shoptest.Roomy()
	for name, group := range map[string]any{"Cut": &s.Cut, "Glue": &s.Glue, "Finish": &s.Finish, "Price": &s.Price} {
		change(reflect.ValueOf(group).Elem(), &s, name)
	}
	if counted < 25 {
		t.Errorf("only %d values were changed", counted)
	}
}

// The settings of a workshop without a file are those that package outline is tested
// with.
func TestCutByHabit(t *testing.T) {
	want := shop.Cut{EndMargin: 5 * mm, SideMargin: 2 * mm, Gap: 16 * mm, Cutter: 12 * mm, Bush: 30 * mm, Pass: 3 * mm, Base: 1 * mm, Stop: 10 * mm, Shortest: 150 * mm}
	if got := shoptest.Roomy().Cut; got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
}

// A job of a pattern lays its products, keeps clear of its knots and takes the
// minutes of its last batch: 90 for two, so 180 for four.
func TestJobOf(t *testing.T) {
	p := job(t).Pattern
	p.Products = []pattern.Product{{Shape: outline.Round, Diameter: 290 * mm, Count: 2}}
	p.Made = []pattern.Made{{Copies: 2, Minutes: 90}}
	j, err := JobOf(physics(), p, 4)
	if err != nil || j.Copies != 4 || j.Minutes != 180 || len(j.Layout.Placed) != 2 || j.Layout.Placed[0].Along != 150*mm {
		t.Errorf("%+v, %v", j, err)
	}
	p.Avoids = []pattern.Avoid{{Along: 0, Across: 149_500 * length.Micrometre, Radius: 10 * mm}}
	if j, _ := JobOf(physics(), p, 4); j.Layout.Placed[0].Along != 155*mm {
		t.Errorf("beside a knot of 10 mm at the end: %v along, want 145 and 10", j.Layout.Placed[0].Along)
	}
	p.Products[0].Centre = pattern.Centre{Strip: 14}
	if _, err := JobOf(physics(), p, 4); err == nil {
		t.Error("laid on a strip that is not there")
	}
}

// A panel of 13 strips of 23, all three timbers under a round of 290; a small square
// on strip 7 takes from that alone, which is hard maple.
func TestLabelsNameWhatIsInThePiece(t *testing.T) {
	square := pattern.Product{Shape: outline.Rectangle, Length: 20 * mm, Width: 20 * mm, Count: 1}
	j := job(t, lantern(), square)
	j.Pattern.Name = "Trivet"
	j.Layout.Placed[2].Side = 139 * mm // strip 7 runs from 138 to 161
	labels := Labels(species.Builtin(), j, length.InMM)
	if len(labels) != 2 {
		t.Fatalf("%d labels", len(labels))
	}
	if l := labels[0]; l.Item != "Trivet" || l.Size != "290 mm round, 22 mm thick" || len(l.Timbers) != 3 {
		t.Errorf("%+v", l)
	}
	if l := labels[1]; l.Size != "20 mm x 20 mm x 22 mm" || strings.Join(l.Timbers, ", ") != "hard maple (Acer saccharum)" {
		t.Errorf("%+v", l)
	}
	alone := Labels(species.Builtin(), job(t), length.InMM)
	if len(alone) != 1 || alone[0].Size != "740 mm x 299 mm x 22 mm" || len(alone[0].Timbers) != 3 {
		t.Errorf("the panel itself: %+v", alone)
	}
}

// 12 joints of 40 s fit into 12 minutes; a thicknesser of 150 takes six strips of 23
// at a time, so 13 are three parts; joints of 70 s are two goes.
func TestStages(t *testing.T) {
	stages := func(change func(*shop.Shop)) Estimate {
		s := shoptest.Roomy()
		change(&s)
		return Of(physicsOf(s), job(t)).Glue.Stages
	}
	for name, c := range map[string]struct {
		change func(*shop.Shop)
		want   Estimate
	}{
		"in one go":      {func(*shop.Shop) {}, known(1)},
		"by thicknesser": {func(s *shop.Shop) { s.Machine.ThicknesserWidth = 150 * mm }, known(3)},
		"by open time":   {func(s *shop.Shop) { s.Glue.SecondsJoint = 70 }, known(2)},
		"no time at all": {func(s *shop.Shop) { s.Glue.OpenMinutes = 0.5 }, Estimate{}},
	} {
		if got := stages(c.change); got != c.want {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
}
