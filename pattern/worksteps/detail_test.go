package worksteps

import (
	"context"
	"fmt"
	"math"
	"slices"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/cutting/solve/solvetest"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/shop/shoptest"
	"github.com/google/go-cmp/cmp"
)

const mm = length.Millimetre

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

// tenths are tenths of a millimetre.
const tenths = mm / 10

// By hand, with the default workshop: 88 x 77 trues to 86 x 75. A strip takes 23 of
// the width and 26 of the thickness. Two slices take 26 + 2 + 26, a third would come
// to 82; the slab is 75 - 54 - 2 = 19. Three strips take 69 + 6.4 of 86; 7.4 beside
// them are too little. Sections of 310 lie at 10 and 10 + 310 + 3.2, and end with
// their kerfs at 636.4; 83.6 are no tail.
func TestDetailOfAPlank(t *testing.T) {
	job := solvetest.CherryJob()
	details := Details(job, planned(t, job))
	if len(details) != 1 || len(details[0].Sections) != 2 {
		t.Fatalf("details: %+v", details)
	}
	d := details[0]
	for _, c := range []struct {
		what      string
		got, want any
	}{
		{"usable width", d.Width, 86 * mm},
		{"usable thickness", d.Thickness, 75 * mm},
		{"first section at", d.Sections[0].From, 10 * mm},
		{"second section at", d.Sections[1].From, 3232 * tenths},
		{"sections end at", d.TailFrom, 6364 * tenths},
		{"runs", [2]int{d.Sections[0].Run, d.Sections[1].Run}, [2]int{1, 1}},
		{"sets", [2]int{d.Sections[0].Set, d.Sections[1].Set}, [2]int{1, 1}},
		{"slices", len(d.Sections[0].Slices), 2},
		{"second slice at", d.Sections[0].Slices[1].From, 28 * mm},
		{"second slice comes", d.Sections[0].Slices[1].Comes, 26 * mm},
		{"slices plane to", d.Sections[0].Slices[1].PlanesTo, 24 * mm},
		{"third strip at", d.Sections[0].Slices[0].Strips[2].From, 524 * tenths},
		{"strip ripped", d.Sections[0].Slices[0].Strips[2].Ripped, 23 * mm},
		{"strip jointed", d.Sections[0].Slices[0].Strips[2].Jointed, 22 * mm},
		{"strip planed", d.Sections[0].Slices[0].Strips[2].Thickness, 24 * mm},
		{"strip shows", d.Sections[0].Slices[0].Strips[2].Showing, pattern.Grain{Rings: pattern.RingsFlat()}},
		{"slab at", d.Sections[0].SlabFrom, 56 * mm},
		{"slab", d.Sections[0].Slab, 19 * mm},
		{"bandsaw cuts", d.Sections[0].Cuts, 2},
		{"bandsaw fence", fmt.Sprint(d.Bandsaw), "[26 mm]"},
		{"saw fence", fmt.Sprint(d.Fence), "[23 mm]"},
		{"stops", fmt.Sprint(d.Stops), "[310 mm]"},
		{"leftovers", len(d.Back), 2},
	} {
		if c.got != c.want {
			t.Errorf("%s: %v, want %v", c.what, c.got, c.want)
		}
	}
	slab := d.Back[0]
	if slab.Kind != LeftSlab || slab.Piece.Length != 310*mm || slab.Piece.Width != 86*mm || slab.Piece.Thickness != 19*mm ||
		slab.Piece.Planed || slab.Piece.Rings != pattern.RingsFlat() || slab.Piece.Moisture != pattern.Read(8.5) {
		t.Errorf("slab %+v", slab)
	}
}

// mixedJob asks for a flat panel with strips of two lengths and two widths, and one
// that is thinner; mixedPlan cuts them from one plank with sections in an order that
// the bench would not choose.
func mixedJob() (cutting.Job, cutting.Plan) {
	strip := func(width, long length.Length) pattern.Strip {
		return pattern.Strip{Species: "ash", Width: width * mm, Length: long * mm}
	}
	thick := pattern.Pattern{Panel: pattern.Panel{Length: 300 * mm, Thickness: 22 * mm}, Strips: []pattern.Strip{
		strip(30, 320), strip(20, 320), strip(30, 260), strip(20, 260), strip(40, 200),
	}}
	thin := pattern.Pattern{Panel: pattern.Panel{Length: 300 * mm, Thickness: 12 * mm}, Strips: []pattern.Strip{strip(50, 320)}}
	job := cutting.Job{
		Patterns: []cutting.Demand{{Stem: "a", Pattern: thick, Copies: 1}, {Stem: "b", Pattern: thin, Copies: 1}}, Shop: shoptest.Roomy(),
		Rack: rack.Rack{Pieces: []rack.Piece{{ID: "P", Species: "ash", Length: 1500 * mm, Width: 80 * mm, Thickness: 30 * mm, Quantity: 2}}},
	}
	a := func(n int) cutting.Ref { return cutting.Ref{Pattern: "a", Copy: 1, Strip: n} }
	cut := cutting.Cut{Piece: "P", Copy: 2, Sections: []cutting.Section{
		{Length: 320 * mm, Slices: []cutting.Slice{{Thickness: 26 * mm, Strips: []cutting.Ref{a(2), a(1)}}}},
		{Length: 320 * mm, Slices: []cutting.Slice{{Thickness: 16 * mm, RipLeft: 238 * tenths, Strips: []cutting.Ref{{Pattern: "b", Copy: 1, Strip: 1}}}}},
		{Length: 260 * mm, Slices: []cutting.Slice{{Thickness: 26 * mm, Strips: []cutting.Ref{a(3), a(4)}}}},
		{Length: 200 * mm, Slices: []cutting.Slice{{Thickness: 26 * mm, Strips: []cutting.Ref{a(5)}}}},
	}}
	cut.Tail = 1500*mm - 10*mm - (320+320+260+200)*mm - 4*3200*length.Micrometre
	return job, cutting.Plan{Cuts: []cutting.Cut{cut}}
}

// The three sections 26 thick are one run, the two ripped 31 and 21 of them one set,
// whatever order the plan names their strips in.
func TestSectionsStayTogether(t *testing.T) {
	job, plan := mixedJob()
	d := Details(job, plan)[0]
	type at struct{ number, run, set int }
	var got []at
	for _, s := range d.Sections {
		got = append(got, at{s.Number, s.Run, s.Set})
	}
	if want := []at{{1, 1, 1}, {3, 1, 1}, {4, 1, 2}, {2, 2, 3}}; !slices.Equal(got, want) {
		t.Errorf("sections (number, run, set) %v, want %v", got, want)
	}
	// Usable 78 x 28: 28 - 26 - 2 = 0 is no slab and no cut: the slice comes 28 thick.
	// The thin one leaves 28 - 16 - 2 = 10, less than what goes back, but sawn off.
	if s := d.Sections[0]; s.Cuts != 0 || s.Slices[0].Comes != 28*mm {
		t.Errorf("thick section: %d cuts, slice of %v", s.Cuts, s.Slices[0].Comes)
	}
	if s := d.Sections[3]; s.Cuts != 1 || s.Slices[0].Comes != 16*mm || s.Slab != 0 {
		t.Errorf("thin section: %d cuts, slice of %v, slab %v", s.Cuts, s.Slices[0].Comes, s.Slab)
	}
	if got := fmt.Sprint(d.Bandsaw, d.Fence, d.Stops); got != "[16 mm] [31 mm 21 mm 41 mm 51 mm] [320 mm 260 mm 200 mm]" {
		t.Errorf("settings %s", got)
	}
	if got := d.Sections[3].From; got != 10*mm+(320+260+200)*mm+3*3200*length.Micrometre {
		t.Errorf("last section at %v", got)
	}
}

// Stacks named in another order are the same stack: the thicker slice is sawn first.
func TestStacksInAnotherOrder(t *testing.T) {
	job, plan := mixedJob()
	job.Rack.Pieces[0].Thickness = 50 * mm
	thick := func(n int) cutting.Slice {
		return cutting.Slice{Thickness: 26 * mm, Strips: []cutting.Ref{{Pattern: "a", Copy: 1, Strip: n}}}
	}
	thin := cutting.Slice{Thickness: 16 * mm, Strips: []cutting.Ref{{Pattern: "b", Copy: 1, Strip: 1}}}
	plan.Cuts[0].Sections = []cutting.Section{
		{Length: 320 * mm, Slices: []cutting.Slice{thin, thick(1)}}, {Length: 200 * mm, Slices: []cutting.Slice{thick(5)}}, {Length: 320 * mm, Slices: []cutting.Slice{thick(2), thin}},
	}
	d := Details(job, plan)[0]
	if a, b := d.Sections[0], d.Sections[1]; a.Number != 1 || b.Number != 3 || a.Run != b.Run || a.Slices[0].Sawn != 26*mm || a.Slices[0].Number != 2 || a.Slices[1].From != 28*mm {
		t.Errorf("sections %d of run %d, %d of run %d: %+v", a.Number, a.Run, b.Number, b.Run, a.Slices)
	}
}

// Less than 3 over a slice and its saw cut is planed away, 3 is sawn off: 26 + 2 for
// saw and cleaning of a piece that 2 were trued off.
func TestThinRestIsPlanedAway(t *testing.T) {
	for _, c := range []struct {
		thickness, comes length.Length
		cuts             int
	}{{33 * mm, 26 * mm, 1}, {329 * tenths, 309 * tenths, 0}} {
		job, plan := solvetest.OnePiece(rack.Piece{Length: 600 * mm, Width: 60 * mm, Thickness: c.thickness}, 40*mm, 22*mm, 500*mm)
		if s := Details(job, plan)[0].Sections[0]; s.Cuts != c.cuts || s.Slices[0].Comes != c.comes {
			t.Errorf("%v thick: %d cuts, slice of %v; want %d, %v", c.thickness, s.Cuts, s.Slices[0].Comes, c.cuts, c.comes)
		}
	}
}

// Of W the faults leave two stretches with two bands each; W/4 is the far one's upper.
func TestDetailOfAClearPart(t *testing.T) {
	job := solvetest.CherryJob()
	job.Patterns[0].Copies = 1
	p := &job.Rack.Pieces[0]
	p.ID, p.Length, p.Faults = "W", 800*mm, []rack.Fault{{From: 0, To: 40 * mm}, {From: 300 * mm, To: 330 * mm}, {Along: true, From: 30 * mm, To: 35 * mm}}
	p.Width = 130 * mm
	d := Details(job, planned(t, job))[0]
	if d.Piece.ID != "W/4" || d.Whole.ID != "W" || d.From != 330*mm || d.Low != 35*mm || d.Piece.Length != 470*mm || d.Piece.Width != 95*mm || len(d.Whole.Faults) != 3 {
		t.Errorf("%s at %v, %v: %v x %v", d.Piece.ID, d.From, d.Low, d.Piece.Length, d.Piece.Width)
	}
}

// Everything of a plan stands once in its details, inside the timber, and nothing
// overlaps; what does not go back is gone.
func TestDetailsHoldTogether(t *testing.T) {
	cuts := 0
	for seed := range uint64(60) {
		job := solvetest.BenchJob(seed)
		if seed%6 == 2 {
			job = solvetest.Parted(job)
		}
		plan := planned(t, job)
		seen := map[cutting.Ref]bool{}
		gone := 0.0
		details := Details(job, plan)
		if len(details) != len(plan.Cuts) {
			t.Fatalf("job %d: %d details of %d cuts", seed, len(details), len(plan.Cuts))
		}
		for _, d := range details {
			cuts++
			gone += length.VolumeCM3(d.Piece.Length, d.Piece.Width, d.Piece.Thickness)
			for _, l := range d.Back {
				gone -= l.Piece.VolumeCM3()
			}
			if err := holdsTogether(job.Shop, d, seen); err != nil {
				t.Errorf("job %d, %s: %v", seed, d.Piece.ID, err)
			}
		}
		if math.Abs(gone-plan.GoneCM3) > 1e-9 {
			t.Errorf("job %d: %v cm3 gone, the plan says %v", seed, gone, plan.GoneCM3)
		}
		if want := len(cutting.NeedsOf(job, plan)) - plan.Short - len(plan.Ready); len(seen) != want {
			t.Errorf("job %d: %d strips in the details, want %d", seed, len(seen), want)
		}
	}
	if cuts < 100 {
		t.Errorf("only %d cuts were looked at", cuts)
	}
}

func holdsTogether(sh shop.Shop, d Detail, seen map[cutting.Ref]bool) error {
	at := sh.Allowance.EndTrim
	for i, s := range d.Sections {
		if s.From != at {
			return fmt.Errorf("section %d at %v, want %v", i+1, s.From, at)
		}
		at += s.Length + sh.Kerf.Crosscut
		if i > 0 && (s.Run < d.Sections[i-1].Run || s.Set < d.Sections[i-1].Set) {
			return fmt.Errorf("section %d: run %d, set %d out of order", i+1, s.Run, s.Set)
		}
		var deep length.Length
		for _, sl := range s.Slices {
			if sl.From < deep || sl.From+sl.Comes > s.Through || sl.PlanesTo > sl.Comes {
				return fmt.Errorf("slice at %v, %v thick, in %v", sl.From, sl.Comes, s.Through)
			}
			deep = sl.From + sl.Sawn
			var wide length.Length
			for _, st := range sl.Strips {
				if seen[st.Ref] || st.From < wide || st.From+st.Ripped > s.Across || st.Thickness > sl.PlanesTo || st.Strip.Length > s.Length {
					return fmt.Errorf("strip %v at %v, %v wide, of %v", st.Ref, st.From, st.Ripped, s.Across)
				}
				seen[st.Ref] = true
				wide = st.From + st.Ripped + sh.Kerf.Rip
			}
			if sl.RipLeft > 0 && sl.RipFrom+sl.RipLeft != s.Across {
				return fmt.Errorf("rip at %v, %v wide, of %v", sl.RipFrom, sl.RipLeft, s.Across)
			}
		}
		if s.Slab > 0 && s.SlabFrom+s.Slab != s.Through {
			return fmt.Errorf("slab at %v, %v thick, of %v", s.SlabFrom, s.Slab, s.Through)
		}
	}
	if d.TailFrom != at || d.Cut.Tail > 0 && d.TailFrom+d.Cut.Tail != d.Piece.Length {
		return fmt.Errorf("sections end at %v, want %v; tail %v", d.TailFrom, at, d.Cut.Tail)
	}
	return nil
}

// Details leave the plan as it was.
func TestDetailsOnlyRead(t *testing.T) {
	job, plan := mixedJob()
	_, same := mixedJob()
	Details(job, plan)
	if diff := cmp.Diff(same, plan); diff != "" {
		t.Error(diff)
	}
}

// largePlan returns a plan of 200 strips; not the best, which is no matter here.
func largePlan(b *testing.B) (cutting.Job, cutting.Plan) {
	b.Helper()
	job := solvetest.RandomJob(3, 200, 60, 4)
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	plan, err := solve.Plan(ctx, job, solve.Options{Progress: func(p cutting.Progress) {
		if p.Done > 0 {
			cancel()
		}
	}})
	if err != nil || len(plan.Cuts) < 10 {
		b.Fatalf("%d cuts: %v", len(plan.Cuts), err)
	}
	return job, plan
}

// Budget: 1 ms for a plan of 200 strips, since a screen asks once for each plan.
func BenchmarkDetails(b *testing.B) {
	job, plan := largePlan(b)
	for b.Loop() {
		Details(job, plan)
	}
}

// Budget: 5 ms for a plan of 200 strips.
func BenchmarkSteps(b *testing.B) {
	job, plan := largePlan(b)
	for b.Loop() {
		Steps(ByPiece, job, plan, plainly, job.Shop.Units)
	}
}

// Pieces that a plan leaves alone cost its details nothing, however many faults they
// have: budget 1 ms for a rack of 360,000 clear parts (0.5 s before).
func BenchmarkDetailsBesideFaults(b *testing.B) {
	const mm = length.Millimetre
	p := pattern.Pattern{Panel: pattern.Panel{Length: 200 * mm, Thickness: 15 * mm}, Strips: []pattern.Strip{{Species: "pear", Width: 20 * mm}}}
	job := cutting.Job{Shop: shoptest.Roomy(), Patterns: []cutting.Demand{{Stem: "one", Pattern: p, Copies: 1}}}
	job.Rack.Pieces = []rack.Piece{{ID: "A", Species: "pear", Length: 600 * mm, Width: 90 * mm, Thickness: 40 * mm, Quantity: 1}}
	plan, err := solve.Plan(b.Context(), job, solve.Options{})
	if err != nil || len(plan.Cuts) != 1 {
		b.Fatal(plan, err)
	}
	for n := range 20 {
		faulty := rack.Piece{ID: fmt.Sprint("F", n), Species: "pear", Length: 4 * length.Metre, Width: length.Metre, Thickness: 40 * mm, Quantity: 1}
		for k := range length.Length(200) {
			faulty.Faults = append(faulty.Faults, rack.Fault{From: 20 * k * mm, To: (20*k + 1) * mm})
		}
		for k := range length.Length(90) {
			faulty.Faults = append(faulty.Faults, rack.Fault{From: 11 * k * mm, To: (11*k + 1) * mm, Along: true})
		}
		job.Rack.Pieces = append(job.Rack.Pieces, faulty)
	}
	for b.Loop() {
		Details(job, plan)
	}
}
