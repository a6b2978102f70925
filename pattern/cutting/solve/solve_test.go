package solve

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve/solvetest"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
)

func mustSolve(t *testing.T, job cutting.Job) cutting.Plan {
	t.Helper()
	plan, err := Plan(context.Background(), job, Options{Workers: 2})
	if err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(plan.Broken, cutting.Verify(job, plan)); err != nil {
		t.Fatal(err)
	}
	return plan
}

// Each strip takes A = 26 and B = 26 mm from a piece that is not planed.
func TestPlansWorkedOutByHand(t *testing.T) {
	tests := []struct {
		name      string
		piece     rack.Piece
		change    func(*cutting.Job)
		short     int
		tail      length.Length
		side      bool
		slab, rip length.Length
		slices    int
		drawn     float64
	}{
		// 2 x 26 + 3 = 55 of 60 - 2 usable, 26 of 30 - 2; 600 long leaves 600 - 10 - 303 = 287.
		{name: "both on one slice", piece: rack.Piece{Length: 600 * mm, Width: 60 * mm, Thickness: 30 * mm},
			tail: 287 * mm, slices: 1, drawn: 313*60*30/1000.0 + 20},
		// 32 - 2 usable takes one strip; 60 - 2 deep takes 26 + 2 + 26 = 54 side by side, upright or turned.
		{name: "two slices", piece: rack.Piece{Length: 400 * mm, Width: 32 * mm, Thickness: 60 * mm},
			slices: 2, drawn: 400*32*60/1000.0 + 20},
		// one slice of 26 from 45 - 2: slab 43 - 26 - 2 = 15 at least 12, 58 wide; credited at 70 %
		{name: "a slab goes back", piece: rack.Piece{Length: 400 * mm, Width: 60 * mm, Thickness: 45 * mm},
			slab: 15 * mm, slices: 1, drawn: (400*60*45-0.7*15*58*300)/1000.0 + 20},
		// turned, two slices of 26 + 2 in 88 leave a slab of 32, 28 wide
		{name: "a slab goes back beside turned slices", piece: rack.Piece{Length: 400 * mm, Width: 90 * mm, Thickness: 30 * mm},
			slab: 32 * mm, slices: 2, drawn: (400*90*30-0.7*32*28*300)/1000.0 + 20},
		// that is too high for a bandsaw of 27; 90 - 2 - 55 - 3 = 30 wide goes back, 26 thick
		{name: "a rip goes back", piece: rack.Piece{Length: 400 * mm, Width: 90 * mm, Thickness: 30 * mm},
			change: func(j *cutting.Job) { j.Shop.Machine.BandsawHeight = 27 * mm }, rip: 30 * mm, slices: 1, drawn: (400*90*30-0.7*30*26*300)/1000.0 + 20},
		// t + flattening = 24 is just there, the width counts as it is: 2 x 26 + 3
		{name: "planed", piece: rack.Piece{Length: 320 * mm, Width: 55 * mm, Thickness: 24 * mm, Planed: true},
			slices: 1, drawn: 320*55*24/1000.0 + 20},
		{name: "planed, a nanometre too thin", piece: rack.Piece{Length: 320 * mm, Width: 55 * mm, Thickness: 24*mm - 1, Planed: true}, short: 2},
		{name: "a nanometre too short", piece: rack.Piece{Length: 320*mm - 1, Width: 60 * mm, Thickness: 30 * mm}, short: 2},
		{name: "use first counts less", piece: rack.Piece{Length: 600 * mm, Width: 60 * mm, Thickness: 30 * mm, UseFirst: true},
			tail: 287 * mm, slices: 1, drawn: 0.6*313*60*30/1000 + 20},
		// sawn through 58, which the bandsaw does not take: one slice, no slab; turned it would be
		// 43 wide and hold one strip a slice, 2 slices of 26 + 2 in 58: 54, and nothing goes back
		{name: "too high for the bandsaw", piece: rack.Piece{Length: 400 * mm, Width: 60 * mm, Thickness: 45 * mm},
			change: func(j *cutting.Job) { j.Shop.Machine.BandsawHeight = 50 * mm }, slices: 1, drawn: 400*60*45/1000.0 + 20},
		// rings asked for: quarter, from a flat-sawn piece: side-sliced, 2 slices of 26 in 58
		{name: "side-sliced for its rings", piece: rack.Piece{Length: 400 * mm, Width: 60 * mm, Thickness: 30 * mm, Rings: pattern.RingsFlat()},
			change: func(j *cutting.Job) {
				for i := range j.Patterns[0].Pattern.Strips {
					j.Patterns[0].Pattern.Strips[i].Rings = pattern.RingsQuarter()
				}
			}, side: true, slices: 2, drawn: 400*60*30/1000.0 + 20},
		// edge: A = 24 across, B = 25 + 2 = 27 thick: 2 x 24 + 3 = 51 of 52
		{name: "on edge", piece: rack.Piece{Length: 400 * mm, Width: 54 * mm, Thickness: 29 * mm},
			change: func(j *cutting.Job) { j.Patterns[0].Pattern.Panel.Make = pattern.MakeEdge }, slices: 1, drawn: 400*54*29/1000.0 + 20},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			job := solvetest.HandJob(test.piece)
			if test.change != nil {
				test.change(&job)
			}
			plan := mustSolve(t, job)
			if plan.Status != cutting.Optimal || plan.Short != test.short || math.Abs(plan.DrawnCM3-test.drawn) > 1e-6 {
				t.Errorf("%v, %d short, %v cm3 drawn, want optimal, %d, %v", plan.Status, plan.Short, plan.DrawnCM3, test.short, test.drawn)
			}
			if test.short > 0 {
				return
			}
			c := plan.Cuts[0]
			s := c.Sections[0]
			if c.Tail != test.tail || s.Side != test.side && test.side || s.SlabLeft != test.slab || len(s.Slices) != test.slices || s.Slices[0].RipLeft != test.rip {
				t.Errorf("cut %+v", c)
			}
		})
	}
}

func TestReadyStripsServeFirst(t *testing.T) {
	job := solvetest.HandJob(rack.Piece{Length: 600 * mm, Width: 60 * mm, Thickness: 30 * mm})
	strip := rack.Strip{Species: "oak", Width: 25 * mm, Thickness: 24 * mm, Length: 300 * mm, Quantity: 1}
	short, long, thin, first := strip, strip, strip, strip
	short.ID, short.Length = "short", 299*mm
	thin.ID, thin.Thickness = "thin", 24*mm-1
	long.ID, long.Length = "long", 900*mm
	first.ID, first.Length, first.UseFirst = "first", 500*mm, true
	strip.ID = "just right"
	job.Rack.Strips = []rack.Strip{short, thin, long, strip, first}
	plan := mustSolve(t, job)
	want := []cutting.Ready{{ID: "first", Copy: 1, For: cutting.Ref{Pattern: "p", Copy: 1, Strip: 1}}, {ID: "just right", Copy: 1, For: cutting.Ref{Pattern: "p", Copy: 1, Strip: 2}}}
	if !slices.Equal(plan.Ready, want) || plan.DrawnCM3 != 0 || plan.Status != cutting.Optimal {
		t.Errorf("%v, %v cm3, want %v and nothing drawn", plan.Ready, plan.DrawnCM3, want)
	}
}

// A ready strip that would do for either of two strips serves the one that is dearer
// to cut.
func TestReadyStripsSaveMost(t *testing.T) {
	job := solvetest.HandJob(rack.Piece{Length: 400 * mm, Width: 30 * mm, Thickness: 30 * mm})
	job.Patterns[0].Pattern.Strips[1].Length = 700 * mm
	job.Rack.Strips = []rack.Strip{{ID: "r", Species: "oak", Width: 25 * mm, Thickness: 24 * mm, Length: 800 * mm, Quantity: 1}}
	plan := mustSolve(t, job)
	if len(plan.Ready) != 1 || plan.Ready[0].For.Strip != 2 || plan.Short != 0 {
		t.Errorf("ready %v, %d short", plan.Ready, plan.Short)
	}
}

func TestWrongJobsAreRefused(t *testing.T) {
	twice := solvetest.HandJob(rack.Piece{})
	twice.Patterns = append(twice.Patterns, twice.Patterns[0])
	ids := solvetest.HandJob(rack.Piece{})
	ids.Rack.Strips = []rack.Strip{{ID: "A", Quantity: 1}}
	copies := solvetest.HandJob(rack.Piece{})
	copies.Patterns[0].Copies = -1
	for name, job := range map[string]cutting.Job{"pattern": twice, "id": ids, "copies": copies} {
		if _, err := Plan(context.Background(), job, Options{}); err == nil || !strings.Contains(err.Error(), name) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestEmptyJobs(t *testing.T) {
	for name, job := range map[string]cutting.Job{
		"nothing":      {},
		"a draft":      {Patterns: []cutting.Demand{{Stem: "d", Copies: 3}}},
		"no copies":    {Patterns: []cutting.Demand{{Stem: "d", Pattern: solvetest.HandJob(rack.Piece{}).Patterns[0].Pattern}}},
		"an idle rack": {Rack: solvetest.HandJob(rack.Piece{Length: 400 * mm, Width: 60 * mm, Thickness: 30 * mm}).Rack},
	} {
		plan := mustSolve(t, job)
		if plan.Status != cutting.Optimal || plan.DrawnCM3 != 0 || plan.Missing == nil || plan.Ready == nil || plan.Cuts == nil {
			t.Errorf("%s: %+v", name, plan)
		}
	}
	bare := solvetest.HandJob(rack.Piece{})
	bare.Rack = rack.Rack{}
	if plan := mustSolve(t, bare); plan.Status != cutting.Optimal || plan.Short != 2 {
		t.Errorf("no rack: %+v", plan)
	}
}

// better reports whether a is a better plan than b by more than rounding.
func better(a, b cutting.Plan) bool {
	return a.Short < b.Short || a.Short == b.Short && a.DrawnCM3 < b.DrawnCM3-1e-4
}

func TestMoreKerfNeverNeedsLess(t *testing.T) {
	rng := rand.New(rand.NewPCG(21, 1))
	for n := range 60 {
		job := solvetest.RandomJob(uint64(1000+n), 16, 24, 3)
		plan := mustSolve(t, job)
		for name, kerf := range map[string]*length.Length{
			"rip": &job.Shop.Kerf.Rip, "crosscut": &job.Shop.Kerf.Crosscut, "resaw": &job.Shop.Kerf.Resaw,
		} {
			old := *kerf
			*kerf += length.Length(1 + rng.Int64N(int64(3*mm)))
			if more := mustSolve(t, job); plan.Status != cutting.Optimal || more.Status != cutting.Optimal || better(more, plan) {
				t.Errorf("job %d, %s kerf %v for %v: %d short, %v cm3 after %d, %v", n, name, *kerf, old, more.Short, more.DrawnCM3, plan.Short, plan.DrawnCM3)
			}
			*kerf = old
		}
	}
}

func TestLargerRackIsNeverWorse(t *testing.T) {
	for n := range 60 {
		job := solvetest.RandomJob(uint64(2000+n), 16, 30, 3)
		all := job.Rack.Pieces
		var last cutting.Plan
		for count := 6; count <= len(all); count += 8 {
			job.Rack.Pieces = all[:count]
			plan := mustSolve(t, job)
			if plan.Status != cutting.Optimal {
				t.Errorf("job %d, %d pieces: %v", n, count, plan.Status)
			}
			if count > 6 && better(last, plan) {
				t.Errorf("job %d: %d pieces: %d short, %v cm3; 8 fewer: %d, %v", n, count, plan.Short, plan.DrawnCM3, last.Short, last.DrawnCM3)
			}
			last = plan
		}
	}
}

// The same job gives the same plan, however many timbers are worked on at a time.
func TestSameJobSamePlan(t *testing.T) {
	for n := range 12 {
		job := solvetest.RandomJob(uint64(3000+n), 60, 70, 1+n%4)
		one, err := Plan(context.Background(), job, Options{})
		if err != nil {
			t.Fatal(err)
		}
		two, err := Plan(context.Background(), job, Options{Workers: 4})
		if err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(one, two) {
			t.Errorf("job %d: plans differ: %v and %v cm3", n, one.DrawnCM3, two.DrawnCM3)
		}
	}
}

// All of a piece is in its strips, kerfs, allowances, what goes back and what is
// lost beside them; nothing is computed twice.
func TestNothingIsLostSight(t *testing.T) {
	for n := range 20 {
		job := solvetest.RandomJob(uint64(4000+n), 40, 60, 3)
		plan := mustSolve(t, job)
		back, drawn := 0.0, 0.0
		for _, c := range plan.Cuts {
			at := slices.IndexFunc(job.Rack.Pieces, func(p rack.Piece) bool { return p.ID == c.Piece })
			p := job.Rack.Pieces[at]
			used := c.Tail + job.Shop.Allowance.EndTrim
			given := length.VolumeCM3(c.Tail, p.Width, p.Thickness)
			for _, s := range c.Sections {
				used += s.Length + job.Shop.Kerf.Crosscut
				given += sectionBack(job.Shop, p, s)
			}
			if lost := p.Length - used; c.Tail > 0 && lost != 0 || lost >= job.Shop.Keep.Length {
				t.Errorf("job %d, piece %s: %v of its length is nowhere", n, c.Piece, lost)
			}
			back += given
			drawn += length.VolumeCM3(p.Length, p.Width, p.Thickness)
		}
		if math.Abs(drawn-back-plan.GoneCM3) > 1e-9*drawn {
			t.Errorf("job %d: %v cm3 opened, %v back, %v gone", n, drawn, back, plan.GoneCM3)
		}
	}
}

func sectionBack(sh shop.Shop, p rack.Piece, s cutting.Section) float64 {
	across := p.Width
	if s.Side {
		across = p.Thickness
	}
	if !p.Planed {
		across -= sh.Allowance.Truing
	}
	back := length.VolumeCM3(s.SlabLeft, across, s.Length)
	for _, sl := range s.Slices {
		back += length.VolumeCM3(sl.RipLeft, sl.Thickness, s.Length)
	}
	return back
}

// An ended context gives what there is, soon: this job is far from proved then.
func TestCancel(t *testing.T) {
	job := solvetest.RandomJob(5, 350, 500, 4)
	for _, after := range []time.Duration{0, 20 * time.Millisecond, 200 * time.Millisecond, time.Second} {
		ctx, cancel := context.WithCancel(context.Background())
		var ended time.Time
		time.AfterFunc(after, func() { ended = time.Now(); cancel() })
		plan, err := Plan(ctx, job, Options{Workers: 2})
		back := time.Now()
		<-ctx.Done()
		late := back.Sub(ended)
		cancel()
		if err != nil {
			t.Fatal(err)
		}
		if err := errors.Join(plan.Broken, cutting.Verify(job, plan)); err != nil {
			t.Errorf("after %v: %v", after, err)
		}
		t.Logf("after %v: %d short, %v late", after, plan.Short, late)
		if late > time.Second { // 0.1 s is asked; a loaded machine is given more
			t.Errorf("after %v it went on for %v", after, late)
		}
	}
}

func TestProgress(t *testing.T) {
	job := solvetest.RandomJob(3, 100, 150, 4)
	tick := make(chan time.Time, 1)
	for _, ticks := range []<-chan time.Time{nil, tick} {
		var told []cutting.Progress
		tick <- time.Time{}
		plan, err := Plan(context.Background(), job, Options{Workers: 2, Tick: ticks, Progress: func(p cutting.Progress) { told = append(told, p) }})
		if err != nil {
			t.Fatal(err)
		}
		if ticks != nil {
			if len(told) != 1 {
				t.Errorf("told %d times for one tick", len(told))
			}
			continue
		}
		last := told[len(told)-1]
		if last.Done != last.Timbers || last.Short != plan.Short || math.Abs(last.DrawnCM3-plan.DrawnCM3) > 1e-3 {
			t.Errorf("last told %+v, plan draws %v", last, plan.DrawnCM3)
		}
		for i, p := range told[1:] {
			if p.Short > told[i].Short {
				t.Errorf("told %+v after %+v", p, told[i])
			}
		}
		<-tick
	}
}

// Batches of some hundred strips are proved, from full racks and from scarce ones.
func TestBatchesAreProved(t *testing.T) {
	jobs := uint64(5)
	if testing.Short() {
		jobs = 2
	}
	for seed := range jobs {
		for _, pieces := range []int{150, 24} {
			job := solvetest.RandomJob(seed, 100, pieces, 4)
			if plan := mustSolve(t, job); plan.Status != cutting.Optimal {
				t.Errorf("job %d, %d pieces: %v, %d short, %v cm3, bound %v", seed, pieces, plan.Status, plan.Short, plan.DrawnCM3, plan.LowerBoundCM3)
			}
		}
	}
}

func BenchmarkBoard(b *testing.B) { // budget: 10 ms
	job := solvetest.RandomJob(1, 17, 40, 4)
	for b.Loop() {
		if plan, err := Plan(context.Background(), job, Options{Workers: 2}); err != nil || plan.Status != cutting.Optimal {
			b.Fatal(plan.Status, err)
		}
	}
}

func BenchmarkBatch(b *testing.B) { // 100 strips, 150 pieces; budget: 1 s, the worst of the seeds 3 s on two cores
	for seed := range uint64(4) {
		job := solvetest.RandomJob(seed, 100, 150, 4)
		b.Run(fmt.Sprint(seed), func(b *testing.B) {
			for b.Loop() {
				if plan, err := Plan(context.Background(), job, Options{Workers: 2}); err != nil || plan.Status != cutting.Optimal {
					b.Fatal(plan.Status, err)
				}
			}
		})
	}
}

func BenchmarkLargeBatch(b *testing.B) { // 350 strips, 500 pieces in 10 s; budget: nothing short, a gap of 2 %
	for seed := range uint64(3) {
		job := solvetest.RandomJob(seed, 350, 500, 4)
		b.Run(fmt.Sprint(seed), func(b *testing.B) {
			for b.Loop() {
				ctx, cancel := context.WithTimeout(context.Background(), 10*time.Second)
				plan, err := Plan(ctx, job, Options{Workers: 2})
				cancel()
				gap := 100 * (plan.DrawnCM3/plan.LowerBoundCM3 - 1)
				if err != nil || plan.Short > 0 || gap > 2 {
					b.Fatal(plan.Short, gap, err)
				}
				b.ReportMetric(gap, "%gap")
			}
		})
	}
}
