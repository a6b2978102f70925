package booking

import (
	"bytes"
	"context"
	"fmt"
	"math"
	"math/big"
	"slices"
	"strings"
	"testing"
	"time"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/cutting/solve/solvetest"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/worksteps"
	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

const (
	mm     = length.Millimetre
	tenths = mm / 10
)

// planned solves a job, and checks the plan.
func planned(t testing.TB, job cutting.Job) cutting.Plan {
	t.Helper()
	plan, err := solve.Plan(context.Background(), job, solve.Options{})
	if err == nil {
		err = cutting.Verify(job, plan)
	}
	if err != nil {
		t.Fatal(err)
	}
	return plan
}

func bookingDay() pattern.Date { return pattern.Date{Year: 2026, Month: time.November, Day: 2} }

// letters marks a timber by the first two of its key.
func letters(species string) string { return strings.ToUpper(species[:2]) }

func booked(t testing.TB, job cutting.Job, plan cutting.Plan) (rack.Rack, []Booked) {
	t.Helper()
	after, patterns, err := Book(job, plan, bookingDay(), letters)
	if err != nil {
		t.Fatal(err)
	}
	return after, patterns
}

// Of two planks like that of TestDetailOfAPlank six strips come from each, for then
// 720 - 10 - 310 - 3.2 = 396.8 of both go back whole. Alike leftovers are one entry.
func TestBookTwoPlanks(t *testing.T) {
	job := solvetest.CherryJob()
	p := &job.Rack.Pieces[0]
	p.ID, p.Quantity, p.UseFirst, p.Note = "BL6", 3, true, "from the gate"
	job.Patterns[0].Pattern.Made = []pattern.Made{{Copies: 1}}
	after, patterns := booked(t, job, planned(t, job))
	one, tail := *p, *p
	one.Quantity = 1
	tail.ID, tail.Length, tail.Quantity, tail.Note = "BL7", 3968*tenths, 2, "end offcut of BL6"
	want := rack.Rack{Pieces: []rack.Piece{one, tail, {
		ID: "BL8", Species: "black_cherry", Length: 310 * mm, Width: 86 * mm, Thickness: 19 * mm, Quantity: 2,
		Rings: pattern.RingsFlat(), Moisture: pattern.Read(8.5), UseFirst: true, Note: "spare thickness of BL6",
	}}}
	if diff := cmp.Diff(want, after, cmp.AllowUnexported(pattern.Rings{}), cmpopts.EquateEmpty()); diff != "" {
		t.Error(diff)
	}
	made := []pattern.Made{{Copies: 1}, {Date: bookingDay(), Copies: 2}}
	if len(patterns) != 1 || patterns[0].Stem != "lane" || !slices.Equal(patterns[0].Pattern.Made, made) {
		t.Errorf("booked %+v", patterns)
	}
	if len(job.Patterns[0].Pattern.Made) != 1 || job.Rack.Pieces[0].Quantity != 3 {
		t.Error("the job was written to")
	}
}

// Of a piece with faults the parts that were not cut stay, each with an id of its own.
// The far upper part of 470 x 95 is cut, of two copies of the piece one.
func TestBookAFaultyPiece(t *testing.T) {
	job := solvetest.CherryJob()
	job.Patterns[0].Copies = 1
	p := &job.Rack.Pieces[0]
	p.ID, p.Length, p.Width, p.Quantity = "W", 800*mm, 130*mm, 2
	p.Faults = []rack.Fault{{From: 0, To: 40 * mm}, {From: 300 * mm, To: 330 * mm}, {Along: true, From: 30 * mm, To: 35 * mm}}
	after, _ := booked(t, job, planned(t, job))
	var got []string
	for _, e := range after.Pieces {
		got = append(got, fmt.Sprintf("%s %v %v %v x%d f%d %s", e.ID, e.Length, e.Width, e.Thickness, e.Quantity, len(e.Faults), e.Note))
	}
	want := []string{
		"W 800 mm 130 mm 77 mm x1 f3 ",
		"BL1 260 mm 30 mm 77 mm x1 f0 clear part of W",
		"BL2 260 mm 95 mm 77 mm x1 f0 clear part of W",
		"BL3 470 mm 30 mm 77 mm x1 f0 clear part of W",
	}
	if len(got) < 5 || !slices.Equal(got[:4], want) || !strings.Contains(got[4], "spare thickness of W") {
		t.Errorf("rack %q, want %q and a slab", got, want)
	}
}

// A slab that was sawn off across the width shows on its broad face what was the edge.
func TestBookASideSlicedSlab(t *testing.T) {
	job, plan := solvetest.OnePiece(rack.Piece{Length: 600 * mm, Width: 90 * mm, Thickness: 50 * mm, Rings: pattern.RingsFlat()}, 40*mm, 22*mm, 500*mm)
	plan.Cuts[0].Sections[0].Side = true
	plan.Cuts[0].Sections[0].SlabLeft = 60 * mm // 88 - 26 - 2
	after := put(t, job, &plan)
	if len(after.Pieces) != 1 {
		t.Fatalf("rack %+v", after)
	}
	if s := after.Pieces[0]; s.Width != 48*mm || s.Thickness != 60*mm || s.Rings != pattern.RingsQuarter() || s.Moisture.Known {
		t.Errorf("slab %+v", s)
	}
}

// put completes the sums of a plan made by hand, and books it.
func put(t *testing.T, job cutting.Job, plan *cutting.Plan) rack.Rack {
	t.Helper()
	for _, d := range worksteps.Details(job, *plan) {
		whole := length.VolumeCM3(d.Piece.Length, d.Piece.Width, d.Piece.Thickness)
		plan.GoneCM3 += whole
		plan.DrawnCM3 += whole + job.Shop.Draw.OpenedCM3
		for _, l := range d.Back {
			plan.GoneCM3 -= l.Piece.VolumeCM3()
			counts := job.Shop.Draw.ReturnedPct / 100
			if l.Kind == worksteps.LeftTail {
				counts = job.Shop.Draw.TailsPct / 100
			}
			plan.DrawnCM3 -= counts * l.Piece.VolumeCM3()
		}
	}
	after, _ := booked(t, job, *plan)
	return after
}

// The strips of a copy that is short lie ready for when it is not, and are used then.
func TestBookAShortPlan(t *testing.T) {
	job := solvetest.CherryJob()
	job.Patterns[0].Copies = 3 // the plank gives 12 of 18
	plan := planned(t, job)
	after, patterns := booked(t, job, plan)
	if plan.Short != 6 || len(patterns) != 1 || patterns[0].Pattern.Made[0].Copies != 2 {
		t.Fatalf("%d short, booked %+v", plan.Short, patterns)
	}
	job.Patterns[0].Pattern.Strips = append(slices.Clone(job.Patterns[0].Pattern.Strips), job.Patterns[0].Pattern.Strips[0])
	job.Patterns[0].Copies = 2 // 12 of 14: the second is short of 2
	job.Rack.Strips = []rack.Strip{{ID: "R1", Species: "black_cherry", Width: 22 * mm, Thickness: 24 * mm, Length: 310 * mm, Quantity: 1, Rings: pattern.RingsFlat()}}
	plan = planned(t, job)
	after, patterns = booked(t, job, plan)
	if plan.Short != 1 || patterns[0].Pattern.Made[0].Copies != 1 || len(after.Strips) != 1 {
		t.Fatalf("%d short, booked %+v, rack %+v", plan.Short, patterns, after)
	}
	// 13 strips less the 7 of the first copy, of which one was R1.
	if s := after.Strips[0]; s.Quantity != 6 || s.Width != 22*mm || s.Thickness != 24*mm || s.Length != 310*mm || s.Rings != pattern.RingsFlat() {
		t.Errorf("laid aside: %+v", s)
	}
	job.Rack, job.Patterns[0].Copies = after, 1
	if plan = planned(t, job); plan.Short != 1 || len(plan.Ready) != 6 {
		t.Errorf("next time %d short, %d ready strips used", plan.Short, len(plan.Ready))
	}
}

func TestBookRefusesAnotherRack(t *testing.T) {
	job := solvetest.CherryJob()
	plan := planned(t, job)
	job.Rack.Pieces = nil
	after, patterns, err := Book(job, plan, bookingDay(), letters)
	if err == nil || !after.Equal(job.Rack) || patterns != nil || !strings.Contains(err.Error(), "plan it again") {
		t.Errorf("rack %+v, booked %v, error %v", after, patterns, err)
	}
}

// nm3 adds a volume, exactly.
func nm3(sum *big.Int, sign, quantity int, a, b, c length.Length) {
	v := big.NewInt(int64(sign) * int64(quantity))
	for _, l := range []length.Length{a, b, c} {
		v.Mul(v, big.NewInt(int64(l)))
	}
	sum.Add(sum, v)
}

// exactly returns the volume of a rack.
func exactly(r rack.Rack) *big.Int {
	sum := new(big.Int)
	for _, e := range r.Entries() {
		nm3(sum, 1, e.Quantity, e.Length, e.Width, e.Thickness)
	}
	return sum
}

// goneBy returns what a plan takes from the rack, computed from its cuts alone: what is
// gone of the opened rectangles, and besides the faults, the ready strips used, and
// less the strips laid aside.
func goneBy(job cutting.Job, plan cutting.Plan) (gone, besides *big.Int) {
	gone, besides = new(big.Int), new(big.Int)
	short := map[cutting.Ref]bool{}
	for _, m := range plan.Missing {
		short[cutting.Ref{Pattern: m.Pattern, Copy: m.Copy}] = true
	}
	asked := map[cutting.Ref]cutting.Strip{}
	for ref, n := range cutting.NeedsOf(job, plan) {
		asked[ref] = n
	}
	for _, r := range plan.Ready {
		if s, _ := job.Rack.Get(r.ID); !short[cutting.Ref{Pattern: r.For.Pattern, Copy: r.For.Copy}] {
			nm3(besides, 1, 1, s.Length, s.Width, s.Thickness)
		}
	}
	seen := map[string]bool{}
	for _, c := range plan.Cuts {
		id, _, _ := strings.Cut(c.Piece, "/")
		whole, _ := job.Rack.Get(id)
		clear := whole.Piece.Clear()
		p := clear[slices.IndexFunc(clear, func(r rack.Clear) bool { return r.ID == c.Piece })]
		if key := fmt.Sprint(id, c.Copy); !seen[key] {
			seen[key] = true
			nm3(besides, 1, 1, whole.Length, whole.Width, whole.Thickness)
			for _, r := range clear {
				nm3(besides, -1, 1, r.Length, r.Width, r.Thickness)
			}
		}
		across, through := p.Width, p.Thickness
		if !p.Planed {
			across, through = across-job.Shop.Allowance.Truing, through-job.Shop.Allowance.Truing
		}
		nm3(gone, 1, 1, p.Length-c.Tail, p.Width, p.Thickness)
		for _, s := range c.Sections {
			wide := across
			if s.Side {
				wide = through
			}
			nm3(gone, -1, 1, s.Length, wide, s.SlabLeft)
			for _, sl := range s.Slices {
				nm3(gone, -1, 1, s.Length, sl.RipLeft, sl.Thickness)
				for _, ref := range sl.Strips {
					if short[cutting.Ref{Pattern: ref.Pattern, Copy: ref.Copy}] {
						nm3(besides, -1, 1, asked[ref].Length, asked[ref].Width, asked[ref].Glued)
					}
				}
			}
		}
	}
	return gone, besides
}

// What was there is what is there with what is gone, to the cubic nanometre, and the
// booked rack is one that the reader takes.
func TestBookConserves(t *testing.T) {
	back, faulty, ready, short, parted, laid := 0, 0, 0, 0, 0, 0
	for seed := range uint64(120) {
		job := solvetest.BenchJob(seed)
		if seed%6 == 2 { // strips may be made of pieces
			job = solvetest.Parted(job)
		}
		plan := planned(t, job)
		before := job.Rack.Entries()
		after, patterns := booked(t, job, plan)
		if diff := cmp.Diff(before, job.Rack.Entries(), cmp.AllowUnexported(pattern.Rings{})); diff != "" {
			t.Fatalf("job %d: the rack was written to: %s", seed, diff)
		}
		gone, besides := goneBy(job, plan)
		left := exactly(after)
		left.Add(left, gone).Add(left, besides)
		if left.Cmp(exactly(job.Rack)) != 0 {
			t.Errorf("job %d: the rack had %v nm3, what is there and gone comes to %v", seed, exactly(job.Rack), left)
		}
		// 1 cm3 is 1e21 nm3.
		if cm3, _ := new(big.Float).Quo(new(big.Float).SetInt(gone), big.NewFloat(1e21)).Float64(); math.Abs(cm3-plan.GoneCM3) > 1e-9 {
			t.Errorf("job %d: %v cm3 are gone, the plan says %v", seed, cm3, plan.GoneCM3)
		}
		conservesCM3(t, seed, job, plan, after, besides)
		readBack(t, seed, after)
		newIDs(t, seed, job.Rack, after)
		made := 0
		for _, b := range patterns {
			made += b.Pattern.Made[len(b.Pattern.Made)-1].Copies
		}
		asked := 0
		for _, d := range job.Patterns {
			asked += d.Copies
		}
		if plan.Short == 0 && made != asked || plan.Short > 0 && made >= asked {
			t.Errorf("job %d: %d of %d copies made, %d strips short", seed, made, asked, plan.Short)
		}
		for _, p := range plan.Pieced {
			parted++
			for _, s := range after.Strips { // a piece that is laid aside is a ready strip of its length
				if _, old := job.Rack.Get(s.ID); !old && s.Length == p.Pieces[0].Length {
					laid++
				}
			}
		}
		back, ready, short = back+len(after.Entries()), ready+len(plan.Ready), short+plan.Short
		for _, c := range plan.Cuts {
			faulty += strings.Count(c.Piece, "/")
		}
	}
	if faulty < 20 || ready < 20 || short < 20 || back < 200 || parted < 20 || laid == 0 {
		t.Errorf("the jobs are too tame: %d faulty pieces, %d ready strips, %d short, %d entries, %d strips in pieces, %d laid aside", faulty, ready, short, back, parted, laid)
	}
}

// conservesCM3 says the same of the volumes that are shown.
func conservesCM3(t *testing.T, seed uint64, job cutting.Job, plan cutting.Plan, after rack.Rack, besides *big.Int) {
	t.Helper()
	sum := func(r rack.Rack) (cm3 float64) {
		for _, key := range job.Rack.Species() {
			cm3 += r.VolumeCM3(key)
		}
		return cm3
	}
	other, _ := new(big.Float).Quo(new(big.Float).SetInt(besides), big.NewFloat(1e21)).Float64()
	if before, now := sum(job.Rack), sum(after)+plan.GoneCM3+other; math.Abs(before-now) > 1e-9 {
		t.Errorf("job %d: %v cm3 before, %v after and gone: off by %g", seed, before, now, before-now)
	}
}

// readBack writes a rack and reads it again.
func readBack(t *testing.T, seed uint64, r rack.Rack) {
	t.Helper()
	var file bytes.Buffer
	if err := store.WriteRack(&file, r); err != nil {
		t.Fatalf("job %d: %v", seed, err)
	}
	read, err := store.ReadRack(&file, "rack.toml", nil)
	if err != nil || !read.Equal(r) {
		t.Errorf("job %d: the booked rack does not read back: %v", seed, err)
	}
}

// newIDs checks that ids are unique, and that no new one was on the rack before.
func newIDs(t *testing.T, seed uint64, before, after rack.Rack) {
	t.Helper()
	seen := map[string]bool{}
	for _, e := range after.Entries() {
		if seen[e.ID] {
			t.Errorf("job %d: id %s stands twice", seed, e.ID)
		}
		seen[e.ID] = true
		if old, ok := before.Get(e.ID); ok && (old.Length != e.Length || old.Width != e.Width || old.Quantity < e.Quantity) {
			t.Errorf("job %d: id %s was that of another: %+v, %+v", seed, e.ID, old, e)
		}
	}
}

// Budget: 20 ms for a plan of 200 strips on a rack of 40 pieces: it is one key.
func BenchmarkBook(b *testing.B) {
	job := solvetest.RandomJob(3, 200, 60, 4)
	ctx, cancel := context.WithTimeout(b.Context(), time.Second) // not the best, which is no matter here
	defer cancel()
	plan, err := solve.Plan(ctx, job, solve.Options{})
	if err != nil || len(plan.Cuts) < 10 {
		b.Fatalf("%d cuts: %v", len(plan.Cuts), err)
	}
	for b.Loop() {
		if _, _, err := Book(job, plan, bookingDay(), letters); err != nil {
			b.Fatal(err)
		}
	}
}

// Letters that make no id are refused, and nothing is booked.
func TestBookRefusesBadLetters(t *testing.T) {
	job := solvetest.CherryJob()
	after, patterns, err := Book(job, planned(t, job), bookingDay(), func(string) string { return "B/" })
	if err == nil || !after.Equal(job.Rack) || patterns != nil || !strings.Contains(err.Error(), "slash") {
		t.Errorf("rack %+v, booked %v, error %v", after, patterns, err)
	}
}
