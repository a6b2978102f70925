package pile_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/cutting/solve/solvetest"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/pile"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop/shoptest"
)

// request draws offers of a rack: patterns of strips strips in all, from pieces pieces.
func request(seed uint64, patterns, strips, pieces, timbers int) pile.Request {
	rng := rand.New(rand.NewPCG(seed, 17))
	r := pile.Request{}
	for n := range patterns {
		job := solvetest.RandomJob(seed*100+uint64(n), strips+rng.IntN(3), pieces, timbers)
		r.Rack, r.Shop = job.Rack, job.Shop // of the last: the same timbers
		p := job.Patterns[0].Pattern
		worth := float64(10 + 5*rng.IntN(6))
		r.Offers = append(r.Offers, pile.Offer{Stem: fmt.Sprintf("p%d", n+1), Pattern: p, Worth: worth})
	}
	for i := range r.Rack.Pieces { // short ends
		p := &r.Rack.Pieces[i]
		p.Length = min(p.Length, length.Length(300+rng.IntN(600))*length.Millimetre)
		p.Width = min(p.Width, 120*length.Millimetre)
		p.Thickness = min(p.Thickness, 45*length.Millimetre)
	}
	return r
}

// every calls do with all choices of up to most copies of each offer.
func every(most []int, do func([]int)) {
	at := make([]int, len(most))
	for {
		do(at)
		i := 0
		for ; i < len(at); i++ {
			if at[i]++; at[i] <= most[i] {
				break
			}
			at[i] = 0
		}
		if i == len(at) {
			return
		}
	}
}

func job(r pile.Request, copies []int) cutting.Job {
	job := cutting.Job{Rack: r.Rack, Shop: r.Shop}
	for i, o := range r.Offers {
		if copies[i] > 0 {
			job.Patterns = append(job.Patterns, cutting.Demand{Stem: o.Stem, Pattern: o.Pattern, Copies: copies[i]})
		}
	}
	return job
}

// The choice is the best of all that there are, each of them planned by itself.
func TestAgainstTryingAll(t *testing.T) {
	seeds := 8
	if testing.Short() {
		seeds = 3
	}
	proved, most := 0, 0
	for seed := range uint64(seeds) {
		r := request(seed, 2+int(seed%2), 3, 4+int(seed%3), 2)
		limits := make([]int, len(r.Offers))
		for i := range r.Offers {
			r.Offers[i].Most, limits[i] = 3, 3
			if seed%3 == 0 {
				r.Offers[i].Least = int(seed) % 2 * (i + 1)
			}
		}
		got, err := pile.Find(t.Context(), r, nil)
		if err != nil {
			t.Fatal(err)
		}
		short, worth, drawn, unsure := math.MaxInt, 0.0, 0.0, false
		every(limits, func(copies []int) {
			wanting, sum := 0, 0.0
			for i, o := range r.Offers {
				wanting += max(0, o.Least-copies[i])
				sum += o.Worth * float64(copies[i])
			}
			var plan cutting.Plan
			if j := job(r, copies); len(j.Patterns) > 0 {
				if plan, err = solve.Plan(context.Background(), j, solve.Options{}); err != nil {
					t.Fatal(err)
				}
			}
			unsure = unsure || plan.Status != cutting.Optimal && len(plan.Cuts) > 0
			if plan.Short > 0 || wanting > short || wanting == short && (sum < worth || sum == worth && plan.DrawnCM3 >= drawn) {
				return
			}
			short, worth, drawn = wanting, sum, plan.DrawnCM3
		})
		if unsure {
			t.Logf("seed %d: not every plan is proved", seed)
			continue
		}
		most = max(most, int(worth))
		if got.Fewest && got.Greatest && got.Least {
			proved++
			if got.Short != short || math.Abs(got.Worth-worth) > 1e-9 || math.Abs(got.Plan.DrawnCM3-drawn) > 1e-3 {
				t.Errorf("seed %d: %v: %d short, %g worth, %g drawn; trying all: %d, %g, %g", seed, got.Copies, got.Short, got.Worth, got.Plan.DrawnCM3, short, worth, drawn)
			}
		}
		if got.Bound < worth-1e-9 && got.Short == short {
			t.Errorf("seed %d: the bound %g is below %g", seed, got.Bound, worth)
		}
		if err := cutting.Verify(job(r, got.Copies), got.Plan); err != nil && got.Worth > 0 {
			t.Errorf("seed %d: %v", seed, err)
		}
	}
	if proved < seeds*3/4 || most == 0 {
		t.Errorf("%d of %d proved, at most %d worth", proved, seeds, most)
	}
}

// The goal of eight patterns and sixty pieces is five seconds, proved.
func BenchmarkEightPatterns(b *testing.B) {
	for b.Loop() {
		for seed := range uint64(3) {
			r := request(seed, 8, 12, 60, 4)
			ctx, stop := context.WithTimeout(b.Context(), 30*time.Second)
			began := time.Now()
			c, err := pile.Find(ctx, r, nil)
			stop()
			if err != nil {
				b.Fatal(err)
			}
			b.Logf("seed %d: %v worth %g of %g, greatest %t, least %t, %.1f s", seed, c.Copies, c.Worth, c.Bound, c.Greatest, c.Least, time.Since(began).Seconds())
		}
	}
}

func mm(n int) length.Length { return length.Length(n) * length.Millimetre }

// beech has pieces of which each gives one strip, for a tray of one strip and a dish of two.
func beech(pieces int) pile.Request {
	panel := pattern.Panel{Length: mm(300), Thickness: mm(20)}
	strip := pattern.Strip{Species: "european_beech", Width: mm(50)}
	return pile.Request{
		Offers: []pile.Offer{
			{Stem: "tray", Pattern: pattern.Pattern{Panel: panel, Strips: []pattern.Strip{strip}}, Worth: 5},
			{Stem: "dish", Pattern: pattern.Pattern{Panel: panel, Strips: []pattern.Strip{strip, strip}}, Worth: 11},
		},
		Rack: rack.Rack{Pieces: []rack.Piece{{ID: "B1", Species: "european_beech", Length: mm(400), Width: mm(60), Thickness: mm(40), Quantity: pieces}}},
		Shop: shoptest.Roomy(),
	}
}

// By hand: of n pieces the dishes take two each, and an odd one is a tray.
func TestByHand(t *testing.T) {
	for pieces := 1; pieces < 8; pieces++ {
		r := beech(pieces)
		c, err := pile.Find(t.Context(), r, nil)
		if err != nil {
			t.Fatal(err)
		}
		if want := []int{pieces % 2, pieces / 2}; !slices.Equal(c.Copies, want) || !c.Greatest || !c.Least || c.Bound != c.Worth {
			t.Errorf("%d pieces: %+v, want %v", pieces, c, want)
		}
		used, left, err := pile.After(r, c)
		if err != nil {
			t.Fatal(err)
		}
		if len(left) > 0 || len(used) != 1 || used[0].UsedCM3 <= 0 || used[0].UsedCM3 > used[0].RackCM3 {
			t.Errorf("%d pieces: %+v used, %+v left", pieces, used, left)
		}
		if !slices.Equal(c.Lacks[0], []string{"european_beech"}) {
			t.Errorf("one more tray lacks %v", c.Lacks[0])
		}
	}
}

// What is asked at least comes before what is worth more, and no more is made than is asked.
func TestBounds(t *testing.T) {
	r := beech(4)
	r.Offers[0].Least, r.Offers[1].Most = 3, 1
	c, err := pile.Find(t.Context(), r, nil)
	if err != nil || !slices.Equal(c.Copies, []int{4, 0}) || c.Short != 0 {
		t.Errorf("%v, %d short, %v", c.Copies, c.Short, err)
	}
	r.Offers[0].Least, r.Offers[0].Most = 6, 6
	if c, err = pile.Find(t.Context(), r, nil); err != nil || c.Short != 2 || !c.Fewest {
		t.Errorf("%v, %d short, %v", c.Copies, c.Short, err)
	}
	ctx, stop := context.WithCancel(t.Context())
	stop()
	if c, err = pile.Find(ctx, beech(4), nil); err != nil || c.Bound < c.Worth {
		t.Errorf("stopped at once: %+v, %v", c, err)
	}
	empty := beech(4)
	empty.Rack = rack.Rack{}
	if c, err = pile.Find(t.Context(), empty, nil); err != nil || c.Worth != 0 || !c.Greatest {
		t.Errorf("of nothing: %+v, %v", c, err)
	}
}

func TestWrongRequests(t *testing.T) {
	for name, change := range map[string]func(*pile.Offer){
		"no worth":        func(o *pile.Offer) { o.Worth = 0 },
		"worth no number": func(o *pile.Offer) { o.Worth = math.NaN() },
		"least over most": func(o *pile.Offer) { o.Least, o.Most = 3, 2 },
		"too many":        func(o *pile.Offer) { o.Most = pile.MostCopies + 1 },
	} {
		r := beech(1)
		change(&r.Offers[0])
		if _, err := pile.Find(t.Context(), r, nil); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

// A board of 200 x 100 x 20 mm has 0.4 cubic decimetres; its panel counts where nothing is cut.
func TestVolume(t *testing.T) {
	p := beech(1).Offers[1].Pattern
	if got := pile.VolumeDM3(p); math.Abs(got-0.6) > 1e-9 { // 100 x 300 x 20
		t.Errorf("panel %g", got)
	}
	p.Products = []pattern.Product{{Shape: outline.Rectangle, Length: mm(200), Width: mm(100), Count: 2}}
	if got := pile.VolumeDM3(p); math.Abs(got-0.8) > 1e-9 {
		t.Errorf("products %g", got)
	}
}
