package sets

import (
	"context"
	"errors"
	"os"
	"slices"
	"testing"
	"time"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/orders"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop/shoptest"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/look"
	"example.com/oddments/species"
)

const mm = length.Millimetre

// Sets of a few rounds keep to the statement, on racks and orders of every sort, and nothing
// is worth more than the bound.
func TestSetsHold(t *testing.T) {
	for n := 1; n <= racks; n++ {
		if n%3 != 1 && os.Getenv("ODDMENTS_NIGHTLY") == "" {
			continue
		}
		r := rackOf(t, n)
		set, err := Find(t.Context(), r, Options{Rounds: 2})
		if err != nil {
			t.Fatalf("rack %d: %v", n, err)
		}
		hold(t, r, set)
		if set.Worth == 0 {
			t.Errorf("rack %d: nothing is made", n)
		}
	}
}

// The same input gives the same set.
func TestSameSet(t *testing.T) {
	r := rackOf(t, 2)
	one, err := Find(t.Context(), r, Options{Rounds: 12})
	if err != nil {
		t.Fatal(err)
	}
	two, err := Find(t.Context(), r, Options{Rounds: 12})
	if err != nil || one.Worth != two.Worth || one.Plan.DrawnCM3 != two.Plan.DrawnCM3 || len(one.Panels) != len(two.Panels) {
		t.Fatalf("%v and %v, %v", one.Worth, two.Worth, err)
	}
	for i := range one.Panels {
		if !slices.Equal(one.Panels[i].Pattern.Strips, two.Panels[i].Pattern.Strips) {
			t.Errorf("panel %d differs", i+1)
		}
	}
}

// A search that is stopped ends at once with a set that can be cut.
func TestStopped(t *testing.T) {
	r := rackOf(t, 4)
	ctx, cancel := context.WithCancel(t.Context())
	var stopped time.Time
	set, err := Find(ctx, r, Options{Tell: func(s Set) {
		if s.Worth > 0 && stopped.IsZero() {
			stopped = time.Now()
			cancel()
		}
	}})
	took := time.Since(stopped)
	if err != nil {
		t.Fatal(err)
	}
	hold(t, r, set)
	t.Logf("worth %.0f, ended after %v", set.Worth, took)
	if took > 5*time.Second { // half a second where the machine is free
		t.Errorf("ended %v after it was stopped", took)
	}
}

// What the time ended says so, though the plan was made in time; what ended by itself does not.
func TestLate(t *testing.T) {
	r := rackOf(t, 1)
	ctx, cancel := context.WithTimeout(t.Context(), 500*time.Millisecond)
	defer cancel()
	set, err := Find(ctx, r, Options{})
	if err != nil || !set.Late {
		t.Errorf("half a second ended it, late %t, after %d rounds: %v", set.Late, set.Rounds, err)
	}
	if set, err = Find(t.Context(), r, Options{Rounds: 2}); err != nil || set.Late {
		t.Errorf("two rounds ended it, late %t: %v", set.Late, err)
	}
}

// boards is a rack of maple and walnut of which everything can be counted by hand: each piece is
// planed as thick as a panel of 20 mm is glued, 22 mm, and gives so many strips of 25 mm side by
// side as it has 26 mm and a kerf for.
func boards(t *testing.T, strips int) Request {
	t.Helper()
	sh := shoptest.Roomy()
	sh.Standing = [8]length.Length{25 * mm}
	wide := length.Length(strips)*(26*mm+sh.Kerf.Rip) - sh.Kerf.Rip
	long := 210*mm + 2*sh.Allowance.EndTrim
	piece := func(id, key string) rack.Piece {
		return rack.Piece{ID: id, Species: key, Length: long, Width: wide, Thickness: 20*mm + sh.Allowance.Flattening, Quantity: 1, Planed: true}
	}
	w := orders.New()
	w.ID, w.Thickness, w.Worth = "board", 20*mm, 10
	w.Product = pattern.Product{Shape: outline.Rectangle, Length: 200 * mm, Width: 100*mm - 2*sh.Cut.SideMargin, Count: 1}
	return Request{Wants: []orders.Want{w}, Physics: movement.New(species.Builtin(), sh),
		Rack: rack.Rack{Pieces: []rack.Piece{piece("M", "hard_maple"), piece("W", "black_walnut")}}}
}

// Four strips of 25 mm, two of each timber, make a board of 96 mm: six strips of each make three.
func TestCountedByHand(t *testing.T) {
	r := boards(t, 6)
	set, err := Find(t.Context(), r, Options{Rounds: 5})
	if err != nil {
		t.Fatal(err)
	}
	hold(t, r, set)
	if set.Made[0] != 3 || set.Worth != 30 || set.Bound < 30 {
		t.Errorf("made %v worth %v of at most %v", set.Made, set.Worth, set.Bound)
	}
	r.Wants[0].Most = 2 // all that is asked for: proved by the bound
	if set, err = Find(t.Context(), r, Options{Rounds: 5}); err != nil || set.Worth != 20 || set.Bound != 20 {
		t.Errorf("worth %v of at most %v, %v", set.Worth, set.Bound, err)
	}
	r.Wants[0].Most, r.Wants[0].Least = 5, 5
	if set, err = Find(t.Context(), r, Options{Rounds: 5}); err != nil || set.Short != 2 {
		t.Errorf("%d short, %v", set.Short, err)
	}
	r.Wants[0].Least, r.Wants[0].Without = 0, []string{"black_walnut"}
	if set, err = Find(t.Context(), r, Options{Rounds: 5}); err != nil || set.Worth != 0 || set.Plan.Status != cutting.Optimal {
		t.Errorf("of maple alone %v, %v", set.Worth, err)
	}
}

// Of three timbers at least, and of one no more than so much, panels are found too, though two
// would take less timber.
func TestTimbersWished(t *testing.T) {
	r := boards(t, 6)
	for _, key := range []string{"sapele", "european_ash"} {
		p := r.Rack.Pieces[0]
		p.ID, p.Species = key[:2], key
		r.Rack.Pieces = append(r.Rack.Pieces, p)
	}
	r.Wants[0].Timbers = orders.Range{Least: 3, Most: 4}
	set, err := Find(t.Context(), r, Options{Rounds: 10})
	if err != nil {
		t.Fatal(err)
	}
	hold(t, r, set)
	if set.Made[0] < 4 {
		t.Errorf("of three timbers %v", set.Made)
	}
	r.Wants[0].Timbers = orders.Range{}
	r.Wants[0].AtMost = []suggest.Share{{Species: "hard_maple", Pct: 25}, {Species: "european_ash", Pct: 25}}
	if set, err = Find(t.Context(), r, Options{Rounds: 10}); err != nil {
		t.Fatal(err)
	}
	hold(t, r, set)
	if set.Made[0] < 3 {
		t.Errorf("with a quarter of maple at most %v", set.Made)
	}
}

// A bound that a set breaks proves nothing, and is told.
func TestBrokenBound(t *testing.T) {
	r := boards(t, 6)
	for _, lie := range []float64{29.5, 10, 0} {
		set, err := Find(t.Context(), r, Options{Rounds: 5, tamper: func(float64) float64 { return lie }})
		var broken *cutting.Broken
		if err != nil || set.Worth != 30 || set.Status() == cutting.Optimal || set.Bound < 30 || !errors.As(set.Plan.Broken, &broken) || broken.Claimed != lie || broken.Found != 30 {
			t.Errorf("%v: worth %v of at most %v, %v: %v, %v", lie, set.Worth, set.Bound, set.Status(), set.Plan.Broken, err)
		}
	}
}

// A panel that is held stays as it is, and others are found beside it.
func TestHeld(t *testing.T) {
	r := boards(t, 6)
	set, err := Find(t.Context(), r, Options{Rounds: 5})
	if err != nil {
		t.Fatal(err)
	}
	r.Hold = set.Panels[:1]
	again, err := Find(t.Context(), r, Options{Rounds: 5})
	if err != nil {
		t.Fatal(err)
	}
	hold(t, r, again)
	at := slices.IndexFunc(again.Panels, func(p Panel) bool { return p.Stem == r.Hold[0].Stem })
	if at < 0 || !slices.Equal(again.Panels[at].Pattern.Strips, r.Hold[0].Pattern.Strips) || again.Worth != 30 {
		t.Errorf("%v: worth %v", again.Panels, again.Worth)
	}
}

// Where timber is short and a panel holds two products, strips are laid from two pieces.
func TestPieced(t *testing.T) {
	r := boards(t, 6)
	r.Wants[0].Along = orders.Range{Least: 2, Most: 2}
	r.Wants[0].Look = look.Mirror
	r.Wants[0].Product.Width += 25 * mm // an odd number of strips
	r.Rack.Pieces[0].Length += 230 * mm // maple whole, walnut in two: as bricks, every other strip
	r.Rack.Pieces[1].Quantity = 2
	set, err := Find(t.Context(), r, Options{Rounds: 5})
	if err != nil {
		t.Fatal(err)
	}
	hold(t, r, set)
	joints := 0
	for _, p := range set.Panels {
		joints += p.Pattern.Joints()
	}
	if set.Made[0] != 4 || joints != 4 {
		t.Errorf("made %v with %d joints", set.Made, joints)
	}
	r.Wants[0].Joints = false
	if set, err = Find(t.Context(), r, Options{Rounds: 5}); err != nil || set.Worth > 0 {
		t.Errorf("whole strips of 426 mm from pieces of 230: worth %v, %v", set.Worth, err)
	}
}

func TestRefused(t *testing.T) {
	r := boards(t, 6)
	r.Wants = append(r.Wants, r.Wants[0])
	if _, err := Find(t.Context(), r, Options{}); err == nil {
		t.Error("two wants of one id are taken")
	}
	r = boards(t, 6)
	r.Wants[0].Least, r.Wants[0].Most = 3, 2
	if _, err := Find(t.Context(), r, Options{}); err == nil {
		t.Error("a least over the most is taken")
	}
}

// BenchmarkRack finds a set for 24 pieces and three wants in 20 rounds. Budget: 2 s.
func BenchmarkRack(b *testing.B) {
	r := rackOf(b, 4)
	for b.Loop() {
		if _, err := Find(b.Context(), r, Options{Rounds: 20}); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkFirst finds the first set for 60 pieces and five wants, with its plan. Budget: 1 s.
func BenchmarkFirst(b *testing.B) {
	r := rackOf(b, 10)
	for b.Loop() {
		if _, err := Find(b.Context(), r, Options{Rounds: 1}); err != nil {
			b.Fatal(err)
		}
	}
}
