package result

import (
	"math"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/work"
)

// Members keep their order, lengths are millimetres, rings a word or an angle, what nobody
// knows is null, a list of nothing is empty, and no sign is escaped for HTML.
func TestLine(t *testing.T) {
	thirty, err := pattern.ParseRings("30")
	if err != nil {
		t.Fatal(err)
	}
	got := Line(Object{
		{"z", "a <b> & c"}, {"a", 3 * length.Millimetre / 2}, {"level", pattern.TakeCare}, {"flat", pattern.RingsFlat()}, {"angle", thirty},
		{"labour", work.Estimate{}}, {"weight", work.Estimate{Value: 1.5, Known: true}}, {"season", Known(pattern.Fine, false)},
		{"width", Known(20*length.Millimetre, true)}, {"none", Each(nil, func(int) Object { return nil })},
		{"some", Each([]int{1, 2}, func(n int) Object { return Object{{"n", n}} })},
		{"round", Sizes(outline.ShapeOf(pattern.Product{Shape: "round", Diameter: 30 * length.Millimetre}))},
	})
	const want = `{"z":"a <b> & c","a":1.5,"level":"take care","flat":"flat","angle":30,"labour":null,"weight":1.5,"season":null,"width":20,` +
		`"none":[],"some":[{"n":1},{"n":2}],"round":30}` + "\n"
	if got != want {
		t.Errorf("%swant\n%s", got, want)
	}
	if got := Line(Object{{"x", math.NaN()}}); got != `{"format":"oddments/error 1","code":"io","file":"","line":null,"column":null,"field":"","message":"json: error calling MarshalJSON for type result.Object: x: json: unsupported value: NaN","hint":""}`+"\n" {
		t.Errorf("of no number: %s", got)
	}
}
