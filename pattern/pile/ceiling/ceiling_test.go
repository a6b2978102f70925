package ceiling

import (
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/orders"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/shop/shoptest"
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/look"
	"example.com/oddments/species"
)

// That no set is worth more is held by package sets, whose TestGuard tries all panels of small
// racks, and holds every set to the bound.

const mm = length.Millimetre

// rackOf reads one of the ten invented racks with its orders.
func rackOf(t testing.TB, n int) Job {
	t.Helper()
	folder := filepath.Join("..", "..", "..", "testdata", "piles", fmt.Sprintf("%02d", n))
	known, sh := species.Builtin(), shop.Default()
	r, err := store.OpenRack(filepath.Join(folder, "rack.toml"), known)
	if err != nil {
		t.Fatal(err)
	}
	wants, err := store.OpenOrders(filepath.Join(folder, "orders.toml"), store.Against{Known: known, Shop: &sh, Rack: &r})
	if err != nil {
		t.Fatal(err)
	}
	pieces := r
	pieces.Strips = nil
	return Job{Wants: wants, Rack: r, Physics: movement.New(known, sh), Widths: suggest.UsualWidths(pattern.Pattern{}, pieces, sh.Standing, sh.Units)}
}

// boards is a planed piece each of maple and walnut, which give so many strips of 25 mm side by
// side, as long as one board needs; four strips make a board.
func boards(strips int) Job {
	sh := shoptest.Roomy()
	piece := func(id, key string) rack.Piece {
		return rack.Piece{ID: id, Species: key, Length: 210*mm + 2*sh.Allowance.EndTrim, Width: length.Length(strips)*(26*mm+sh.Kerf.Rip) - sh.Kerf.Rip,
			Thickness: 20*mm + sh.Allowance.Flattening, Quantity: 1, Planed: true}
	}
	w := orders.New()
	w.ID, w.Thickness, w.Worth = "board", 20*mm, 10
	w.Product = pattern.Product{Shape: outline.Rectangle, Length: 200 * mm, Width: 100*mm - 2*sh.Cut.SideMargin, Count: 1}
	return Job{Wants: []orders.Want{w}, Physics: movement.New(species.Builtin(), sh), Widths: []length.Length{25 * mm},
		Rack: rack.Rack{Pieces: []rack.Piece{piece("M", "hard_maple"), piece("W", "black_walnut")}}}
}

// lowest takes steps until more hardly gain.
func lowest(t *testing.T, job Job) float64 {
	t.Helper()
	c := New(job)
	was := c.Worth()
	for range 500 {
		if c.Ended() {
			break
		}
		c.Step(t.Context())
		if now := c.Worth(); now > was {
			t.Fatalf("the bound rose from %v to %v", was, now)
		}
		was = c.Worth()
	}
	return was
}

// Twelve strips make three boards of four, and no more; with seven of one timber and five of the
// other, turn about, two strips of each a board, two: half a board is none.
func TestCountedByHand(t *testing.T) {
	if got := lowest(t, boards(6)); got != 30 {
		t.Errorf("twelve strips: %v", got)
	}
	job := boards(6)
	job.Wants[0].Most = 2
	if got := lowest(t, job); got != 20 {
		t.Errorf("two are asked for: %v", got)
	}
	job = boards(6)
	job.Rack.Pieces[0].Length -= 10 * mm
	if got := lowest(t, job); got != 0 {
		t.Errorf("maple too short, and walnut not beside itself: %v", got)
	}
	job = boards(5)
	if got := lowest(t, job); got != 20 {
		t.Errorf("ten strips: %v", got)
	}
	job = boards(6)
	job.Wants[0].Without = []string{"hard_maple"}
	if got := lowest(t, job); got != 0 {
		t.Errorf("of walnut alone: %v", got)
	}
	job = boards(6)
	job.Rack.Strips = []rack.Strip{{ID: "R", Species: "hard_maple", Width: 25 * mm, Thickness: 22 * mm, Length: 210 * mm, Quantity: 2}, {ID: "Q", Species: "black_walnut", Width: 25 * mm, Thickness: 22 * mm, Length: 209 * mm, Quantity: 2}}
	if got := lowest(t, job); got != 30 {
		t.Errorf("two ready strips more of maple, and two of walnut that are too short: %v", got)
	}
	job.Rack.Strips[1].Length = 210 * mm
	if got := lowest(t, job); got != 40 {
		t.Errorf("four ready strips more: %v", got)
	}
}

// A panel that is held is worth what it is worth, and takes what it takes.
func TestHeld(t *testing.T) {
	job := boards(6)
	p := pattern.Pattern{Panel: pattern.Panel{Length: 210 * mm, Thickness: 20 * mm}, Products: []pattern.Product{job.Wants[0].Product}}
	for i := range 4 {
		p.Strips = append(p.Strips, pattern.Strip{Species: job.Rack.Pieces[i%2].Species, Width: 25 * mm, Length: 210 * mm})
	}
	job.Held = []Held{{0, p}}
	if got := lowest(t, job); got != 30 {
		t.Errorf("with one held: %v", got)
	}
	for i := range p.Strips {
		p.Strips[i].Species = "hard_maple" // all four of one timber: then no two others have two of it
	}
	if got := lowest(t, job); got != 20 {
		t.Errorf("with one held of maple alone: %v", got)
	}
}

// Looks bound panels: what no panel has, none is worth anything.
func TestLooks(t *testing.T) {
	for l, want := range map[look.Look]float64{look.Any: 30, look.Mirror: 0, look.Repeat: 30, look.Calm: 30, look.Fade: 0, look.Lively: 0, look.Accent: 0} {
		job := boards(6)
		if job.Wants[0].Look = l; l == look.Fade {
			job.Wants[0].LeastContrast = 0 // twins would do, were there no third timber to be
			want = 30
		}
		if got := lowest(t, job); got != want {
			t.Errorf("%v: %v, must be %v", l, got, want)
		}
	}
}

// At the same prices, a want whose panels may hold several rows, and timbers that are told apart
// by their species alone, cost no more.
func TestLooser(t *testing.T) {
	costs := func(job Job, coarse bool) (out []float64) {
		c := New(job)
		if coarse {
			c = &Ceiling{job: job, shop: c.shop, glued: c.glued, timber: timber{coarse: true}}
			c.gather()
			c.finish()
		}
		c.reprice()
		for _, w := range c.wants {
			out = append(out, c.cheapest(t.Context(), w).cost)
		}
		return out
	}
	for n := 1; n <= 10; n += 3 {
		job := rackOf(t, n)
		fine, coarse := costs(job, false), costs(job, true)
		job.Wants = slices.Clone(job.Wants)
		for i := range job.Wants {
			job.Wants[i].Spare = 400 * mm
		}
		loose := costs(job, false)
		for i := range fine {
			if coarse[i] > fine[i]*(1+1e-9) || loose[i] > fine[i] || coarse[i] <= 0 || loose[i] <= 0 {
				t.Errorf("rack %d want %d: %v, told apart by species %v, in rows %v", n, i, fine[i], coarse[i], loose[i])
			}
		}
	}
}

// The same job gives the same bound.
func TestSame(t *testing.T) {
	bounds := func() (out []float64) {
		c := New(rackOf(t, 2))
		for range 40 {
			c.Step(t.Context())
			out = append(out, c.least)
		}
		return out
	}
	if a, b := bounds(), bounds(); !slices.Equal(a, b) {
		t.Errorf("%v and %v", a, b)
	}
}

// Widths that no millimetre divides: cells are rounded, and the bound stays one.
func TestOddWidths(t *testing.T) {
	job := boards(6)
	job.Widths = append(job.Widths, 25*mm+mm/3)
	if got := lowest(t, job); got < 30 || got > 40 {
		t.Errorf("%v", got)
	}
}

// What whole products can be worth.
func TestWhole(t *testing.T) {
	c := &Ceiling{wants: []*want{{each: 38, most: 3}, {each: 29, most: math.Inf(1)}}}
	for least, want := range map[float64]float64{37: 29, 57.9: 38, 66: 58, 67: 67, 28: 0, 133.5: 125, 1000: 995} {
		if c.least = least; c.Worth() != want {
			t.Errorf("at most %v: %v, must be %v", least, c.Worth(), want)
		}
	}
}

// BenchmarkRack takes 60 steps for 60 pieces and five wants. Budget: 1.5 s.
func BenchmarkRack(b *testing.B) {
	job := rackOf(b, 10)
	for b.Loop() {
		c := New(job)
		for range 60 {
			c.Step(b.Context())
		}
	}
}
