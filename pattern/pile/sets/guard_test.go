package sets

import (
	"fmt"
	"hash/fnv"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/orders"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/shop/shoptest"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/look"
	"example.com/oddments/species"
)

// Of small racks and wants the best set is found by trying all: allPanels lists panels from the
// statement, and an integer program says which of them can be cut together (program_test.go).
// Neither shares code with the search or with its bound. No bound may be under the best, no
// set worth more, and only what is worth as much may be called optimal.
//
// Without cbc or glpsol the answers stored in testdata/guard.tsv stand for the program's.
// ODDMENTS_NIGHTLY=1 solves all cases anew, ODDMENTS_GUARD=store stores them.
func TestGuard(t *testing.T) {
	const cases, daily = 240, 60
	nightly, store := os.Getenv("ODDMENTS_NIGHTLY") != "", os.Getenv("ODDMENTS_GUARD") == "store"
	solvers, stored := installedSolvers(), storedBests(t)
	most := daily
	if nightly || store {
		most = cases
	}
	if store {
		clear(stored)
	}
	var lines []string
	seed, looked, proved, found, over := uint64(0), 0, 0, 0.0, 0.0
	for n := 0; n < most; seed++ {
		r := randomRequest(seed)
		key := caseKey(r)
		best, known := stored[seed]
		if !known && !store && (len(stored) > 0 || len(solvers) == 0) {
			if seed > 10*cases {
				break
			}
			continue // a case that was too large, or of no panels
		}
		if known && best.key != key {
			t.Fatalf("case %d is another than that stored: ODDMENTS_GUARD=store", seed)
		}
		if len(solvers) > 0 && (nightly || store || n%10 == 0) {
			p := programOf(r)
			if p == nil {
				continue
			}
			worth, err := p.solve(t, solvers)
			if err != nil {
				t.Logf("case %d: %v", seed, err)
				continue
			}
			if known && math.Abs(worth-best.worth) > 1e-6 {
				t.Errorf("case %d: best %v, %v is stored", seed, worth, best.worth)
			}
			best.worth = worth
		}
		n++
		lines = append(lines, fmt.Sprintf("%d\t%s\t%v\n", seed, key, best.worth))
		set, err := Find(t.Context(), r, Options{Rounds: 60})
		if err != nil {
			t.Fatalf("case %d: %v", seed, err)
		}
		hold(t, r, set)
		const same = 1e-6
		if set.Bound < best.worth-same {
			t.Errorf("case %d: the bound is %v, and a set is worth %v\n%s", seed, set.Bound, best.worth, rendered(r))
		}
		if set.Worth > best.worth+same {
			t.Errorf("case %d: a set is worth %v, and the best was %v\n%s\n%v", seed, set.Worth, best.worth, rendered(r), set.Panels)
		}
		if set.Status() == cutting.Optimal && set.Short == 0 && math.Abs(set.Worth-best.worth) > same {
			t.Errorf("case %d: %v is called optimal, %v is", seed, set.Worth, best.worth)
		}
		if t.Failed() {
			t.FailNow()
		}
		if looked++; best.worth > 0 {
			found, over = found+set.Worth/best.worth, over+set.Bound/best.worth
		} else {
			found, over = found+1, over+1
		}
		if set.Status() == cutting.Optimal {
			proved++
		}
	}
	t.Logf("%d cases, %d proved, worth %.3f of the best on average, bound %.3f", looked, proved, found/float64(looked), over/float64(looked))
	if looked < most/2 {
		t.Errorf("only %d cases", looked)
	}
	if store {
		if err := os.WriteFile(storedFile, []byte(strings.Join(lines, "")), 0o600); err != nil {
			t.Fatal(err)
		}
	}
}

var storedFile = filepath.Join("testdata", "guard.tsv")

type storedBest struct {
	key   string
	worth float64
}

func storedBests(t *testing.T) map[uint64]storedBest {
	out := map[uint64]storedBest{}
	data, err := os.ReadFile(storedFile)
	if err != nil {
		return out
	}
	for line := range strings.Lines(string(data)) {
		var seed uint64
		var one storedBest
		if _, err := fmt.Sscan(line, &seed, &one.key, &one.worth); err != nil {
			t.Fatal(err)
		}
		out[seed] = one
	}
	return out
}

// caseKey tells a case from others.
func caseKey(r Request) string {
	h := fnv.New64a()
	h.Write([]byte(rendered(r)))
	return fmt.Sprintf("%016x", h.Sum64())
}

func rendered(r Request) string {
	sh := r.Physics.Shop()
	return fmt.Sprintf("%+v\n%+v\n%+v %v", r.Wants, r.Rack, sh.Allowance, sh.Standing)
}

// randomRequest returns a small case.
func randomRequest(seed uint64) Request {
	rng := rand.New(rand.NewPCG(seed, 77))
	one := func(n int) bool { return rng.IntN(n) == 0 }
	between := func(a, b int) length.Length { return length.Length(a+rng.IntN(b-a+1)) * mm }
	sh := shoptest.Roomy()
	if one(2) {
		sh = shop.Default()
	}
	sh.Standing = [][8]length.Length{{25 * mm}, {20 * mm, 30 * mm}, {20 * mm, 25 * mm}, {30 * mm, 40 * mm}}[rng.IntN(4)]
	timbers := []string{"hard_maple", "black_walnut", "sapele", "european_ash", "padauk", "european_beech", "wenge"}
	rng.Shuffle(len(timbers), func(i, j int) { timbers[i], timbers[j] = timbers[j], timbers[i] })
	timbers = timbers[:2+rng.IntN(3)]
	rings := []pattern.Rings{{}, pattern.RingsFlat(), pattern.RingsRift(), pattern.RingsQuarter()}
	readings := []pattern.Reading{{}, pattern.Read(8), pattern.Read(9.5), pattern.Read(11)}
	mostRings, mostReadings := 1+rng.IntN(3), 1+rng.IntN(2)
	var r rack.Rack
	for i := range 2 + rng.IntN(4) {
		p := rack.Piece{ID: fmt.Sprintf("P%d", i+1), Species: timbers[i%len(timbers)], Length: between(120, 560), Width: between(24, 84),
			Thickness: between(20, 52), Quantity: 1, Rings: rings[rng.IntN(mostRings+1)], Moisture: readings[rng.IntN(mostReadings)], Planed: one(5), UseFirst: one(6)}
		if one(8) {
			p.Quantity = 2
		}
		if one(8) {
			p.Faults = []rack.Fault{{From: p.Length / 3, To: p.Length/3 + 20*mm}}
		}
		r.Pieces = append(r.Pieces, p)
	}
	for i := range rng.IntN(3) {
		width := sh.Standing.Widths()[0]
		if one(2) {
			width = between(15, 40) + length.Length(rng.IntN(2))*mm/4
		}
		r.Strips = append(r.Strips, rack.Strip{ID: fmt.Sprintf("R%d", i+1), Species: timbers[rng.IntN(len(timbers))], Width: width, Thickness: between(16, 30),
			Length: between(100, 300), Quantity: 1 + rng.IntN(3), Rings: rings[rng.IntN(mostRings+1)], Moisture: readings[rng.IntN(mostReadings)]})
	}
	var wants []orders.Want
	for i := range 1 + rng.IntN(2) {
		wants = append(wants, randomWant(rng, fmt.Sprintf("w%d", i+1), sh, timbers))
	}
	return Request{Wants: wants, Rack: r, Physics: movement.New(species.Builtin(), sh)}
}

func randomWant(rng *rand.Rand, id string, sh shop.Shop, timbers []string) orders.Want {
	one := func(n int) bool { return rng.IntN(n) == 0 }
	between := func(a, b int) length.Length { return length.Length(a+rng.IntN(b-a+1)) * mm }
	w := orders.New()
	w.ID, w.Thickness, w.Worth = id, between(14, 24), float64(3+rng.IntN(30))
	sum := length.Length(0)
	widths := sh.Standing.Widths()
	for range 2 + rng.IntN(3) {
		sum += widths[rng.IntN(len(widths))]
	}
	across := sum - 2*sh.Cut.SideMargin - between(0, 8)
	w.Product = pattern.Product{Shape: outline.Rectangle, Length: between(90, 220), Width: across, Count: 1}
	if one(3) {
		w.Product = pattern.Product{Shape: outline.Round, Diameter: across, Count: 1}
	}
	w.Level = []pattern.Level{pattern.Fine, pattern.TakeCare, pattern.TakeCare, pattern.TooMuch}[rng.IntN(4)]
	w.LeastContrast = []float64{0, 8, 12, 12}[rng.IntN(4)]
	w.Along = []orders.Range{{Least: 1, Most: 1}, {Least: 1, Most: 2}, {Least: 2, Most: 2}, {Least: 1, Most: 3}}[rng.IntN(4)]
	w.Joints = !one(3)
	if one(3) {
		w.Most = 1 + rng.IntN(4)
	}
	if one(3) {
		w.Look = []look.Look{look.Mirror, look.Repeat, look.Fade, look.Calm, look.Accent, look.Lively}[rng.IntN(6)]
	}
	switch rng.IntN(8) {
	case 0:
		w.Without = timbers[:1]
	case 1:
		w.With = timbers[:1]
	case 2:
		w.AtMost = []suggest.Share{{Species: timbers[0], Pct: float64(30 + rng.IntN(40))}}
	case 3:
		if w.Look.Fewest() <= 2 {
			w.Timbers = orders.Range{Least: 1 + rng.IntN(2), Most: 2}
		}
	}
	return w
}
