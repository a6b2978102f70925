package waysout

import (
	"context"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/cutting/solve/solvetest"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop/shoptest"
	"example.com/oddments/species"
	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
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

// The ways out say that they are not sure where a claim broke on the way.
func TestWaysOutDoubt(t *testing.T) {
	w := &wayfinder{sure: true}
	first := &cutting.Broken{Kind: cutting.Fewer}
	w.doubt(nil)
	if !w.sure || w.broken != nil {
		t.Error("in doubt without a reason")
	}
	w.doubt(first)
	w.doubt(&cutting.Broken{Kind: cutting.Unfit})
	if w.sure || w.broken != error(first) {
		t.Errorf("sure %v, %v", w.sure, w.broken)
	}
}

// planedPiece is a piece 340 long and 24 thick: with 10 trimmed off each end one
// section of 310 comes out of it, ripped into as many strips as its width allows.
func planedPiece(id, species string, width length.Length) rack.Piece {
	return rack.Piece{ID: id, Species: species, Length: 340 * mm, Width: width, Thickness: 24 * mm, Quantity: 1, Planed: true}
}

// pairOf is a panel of a cherry and a sapele strip, 22 wide and 22 thick; a strip takes
// 23 of a piece's width and 3.2 for the kerf.
func pairOf(first, second string) pattern.Pattern {
	return pattern.Pattern{
		Panel: pattern.Panel{Length: 290 * mm, Thickness: 22 * mm},
		Strips: []pattern.Strip{
			{Species: first, Width: 22 * mm, Moisture: pattern.Read(8)}, {Species: second, Width: 22 * mm, Moisture: pattern.Read(12), Rings: pattern.RingsFlat()},
		},
	}
}

// shortJob asks for four pairs. The sapele, 90 wide, gives three strips, 75.4 of its
// width; four would take 101.6.
func shortJob() cutting.Job {
	sapele := planedPiece("P2", "sapele", 90*mm)
	sapele.Rings = pattern.RingsFlat()
	iroko := planedPiece("I1", "iroko", 23*mm)
	iroko.Rings, iroko.Moisture = pattern.RingsFlat(), pattern.Read(9)
	return cutting.Job{
		Patterns: []cutting.Demand{{Stem: "pair", Pattern: pairOf("black_cherry", "sapele"), Copies: 4}}, Shop: shoptest.Roomy(),
		Rack: rack.Rack{Pieces: []rack.Piece{
			planedPiece("B1", "black_cherry", 102*mm), sapele, iroko, // the cherry for four, and no more
			planedPiece("M1", "hard_maple", 22*mm), // too narrow
			planedPiece("K1", "sycamore_maple_with_no_entry", 200*mm),
		}},
	}
}

func waysOut(t testing.TB, job cutting.Job) (Ways, cutting.Plan) {
	t.Helper()
	plan := planned(t, job)
	ways, err := Find(context.Background(), job, plan, movement.New(species.Builtin(), job.Shop))
	if err != nil {
		t.Fatal(err)
	}
	return ways, plan
}

// By hand: one sapele is short, so three copies come out. Four strips and three kerfs
// of 3.2 go into 90 when each takes at most 20.1 of it, so 19 wide: 3 narrower, and the
// pair 22 + 19. Iroko has one strip of 23 and shows flat rings; maple is 1 too narrow,
// and cherry has no more than its own four.
func TestWaysOut(t *testing.T) {
	job := shortJob()
	ways, plan := waysOut(t, job)
	if plan.Short != 1 || len(ways.Short) != 1 || !ways.Sure {
		t.Fatalf("%d short, ways %+v", plan.Short, ways)
	}
	if !slices.Equal(ways.Full, []int{3}) {
		t.Errorf("in full %v, want 3", ways.Full)
	}
	lack := ways.Short[0]
	if lack.Species != "sapele" || !slices.Equal(lack.Strips, []cutting.Ref{plan.Missing[0].Ref}) {
		t.Errorf("lack %+v", lack)
	}
	if want := (Narrower{3 * mm, []Narrowed{{"pair", 41 * mm}}}); !cmp.Equal(lack.Narrower, want) {
		t.Errorf("narrower %+v, want %+v", lack.Narrower, want)
	}
	if len(lack.Instead) != 1 || lack.Instead[0].Species != "iroko" {
		t.Fatalf("instead %+v", lack.Instead)
	}
	// The line as the bench would show it once the strip is changed to the iroko that
	// lies there, and its reading with it.
	r := movement.New(species.Builtin(), job.Shop)
	p := pairOf("black_cherry", "iroko")
	p.Strips[1].Moisture = pattern.Read(9)
	in := lack.Instead[0]
	if line := r.Of(p).Lines[0]; !cmp.Equal(in.Worst, line, cmp.AllowUnexported(movement.Line{})) || !in.Known || in.Pattern != "pair" || in.Copy != plan.Missing[0].Copy {
		t.Errorf("worst line %+v, want %+v", in.Worst, line)
	}
	sapele, _ := r.Table().Get("sapele")
	iroko, _ := r.Table().Get("iroko")
	if in.Contrast != species.Contrast(sapele.ColourOiled, iroko.ColourOiled) {
		t.Errorf("contrast %v", in.Contrast)
	}
}

// What stands in is judged by the colours that strips and rack have of their own.
func TestWaysOutByOwnColours(t *testing.T) {
	job := shortJob()
	strip, lies := species.RGB{R: 0x80, G: 0x50, B: 0x38}, species.RGB{R: 0x78, G: 0x52, B: 0x3A}
	for i, d := range job.Patterns {
		for k, s := range d.Pattern.Strips {
			if s.Species == "sapele" {
				job.Patterns[i].Pattern.Strips[k].Colour = colour.OwnOf(strip)
			}
		}
	}
	for i, p := range job.Rack.Pieces {
		if p.Species == "iroko" {
			job.Rack.Pieces[i].Colour = colour.OwnOf(lies)
		}
	}
	for i, s := range job.Rack.Strips {
		if s.Species == "iroko" {
			job.Rack.Strips[i].Colour = colour.OwnOf(lies)
		}
	}
	ways, _ := waysOut(t, job)
	if got, want := ways.Short[0].Instead[0].Contrast, species.Contrast(strip, lies); math.Abs(got-want) > 1e-9 {
		t.Errorf("contrast %v, want %v", got, want)
	}
}

func TestWaysOutCases(t *testing.T) {
	two := func(first, second int) func(*cutting.Job) {
		return func(j *cutting.Job) {
			j.Patterns = []cutting.Demand{{Stem: "a", Pattern: pairOf("black_cherry", "sapele"), Copies: first}, {Stem: "b", Pattern: pairOf("black_cherry", "sapele"), Copies: second}}
		}
	}
	for _, c := range []struct {
		name    string
		change  func(*cutting.Job)
		full    []int
		instead []string
		by      length.Length
	}{
		{"the last pattern gives way first", two(2, 2), []int{2, 1}, []string{"iroko"}, 6 * mm}, // only b's: 2 x 23 + 2 x 17.2 + 3 x 3.2
		{"and goes without before the first does", two(4, 1), []int{3, 0}, nil, 8 * mm},         // 5 x 15.44 + 4 x 3.2
		{"a pattern without the timber stays whole", func(j *cutting.Job) {
			j.Patterns = append(j.Patterns, cutting.Demand{Stem: "c", Pattern: pairOf("iroko", "iroko"), Copies: 1})
			j.Rack.Pieces[2].Width = 50 * mm // 23 + 3.2 + 23
		}, []int{3, 1}, nil, 3 * mm},
		{"iroko with room for one more", func(j *cutting.Job) {
			j.Patterns = append(j.Patterns, cutting.Demand{Stem: "c", Pattern: pairOf("iroko", "iroko"), Copies: 1})
			j.Rack.Pieces[2].Width = 76 * mm
		}, []int{3, 1}, []string{"iroko"}, 3 * mm},
		{"iroko that does not show the rings asked for", func(j *cutting.Job) { j.Rack.Pieces[2].Rings = pattern.RingsQuarter() }, []int{3}, nil, 3 * mm},
		{"three timbers serve, the nearest in colour first", func(j *cutting.Job) {
			for i := range j.Rack.Pieces {
				j.Rack.Pieces[i].Rings = pattern.RingsFlat()
			}
			j.Rack.Pieces[0].Width, j.Rack.Pieces[3].Width = 130*mm, 30*mm
		}, []int{3}, nearestTo(t, "sapele", "iroko", "black_cherry", "hard_maple"), 3 * mm},
		{"no sapele at all", func(j *cutting.Job) { j.Rack.Pieces = slices.Delete(j.Rack.Pieces, 1, 2) }, []int{0}, nil, 0},
		{"nothing short", func(j *cutting.Job) { j.Patterns[0].Copies = 3 }, []int{3}, nil, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			job := shortJob()
			c.change(&job)
			ways, plan := waysOut(t, job)
			var instead []string
			var by length.Length
			for _, l := range ways.Short {
				if l.Species == "sapele" {
					by = l.Narrower.By
					for _, in := range l.Instead {
						instead = append(instead, in.Species)
					}
				}
			}
			if !slices.Equal(ways.Full, c.full) || !slices.Equal(instead, c.instead) || by != c.by || !ways.Sure {
				t.Errorf("%d short: in full %v, instead %v, narrower by %v, sure %v; want %v, %v, %v", plan.Short, ways.Full, instead, by, ways.Sure, c.full, c.instead, c.by)
			}
		})
	}
}

// Sapele that is quarter-sawn does not serve strips that ask for flat rings; with it
// nothing is short, and the worst line is that of the pattern made so.
func TestOtherRings(t *testing.T) {
	job := shortJob()
	spare := planedPiece("P3", "sapele", 23*mm)
	spare.Rings, spare.Moisture = pattern.RingsQuarter(), pattern.Read(9)
	job.Rack.Pieces = append(job.Rack.Pieces, spare)
	ways, plan := waysOut(t, job)
	if plan.Short != 1 {
		t.Fatalf("%d short", plan.Short)
	}
	got := ways.Short[0].AnyRings
	if want := []Other{{"P3", pattern.RingsQuarter()}}; !slices.Equal(got.Pieces, want) || !got.Known {
		t.Fatalf("%+v, want %v", got, want)
	}
	r := movement.New(species.Builtin(), job.Shop)
	p := pairOf("black_cherry", "sapele")
	worst := r.Of(p).Lines[0] // flat, as asked
	p.Strips[1].Rings = pattern.RingsQuarter()
	if line := r.Of(p).Lines[0]; r.Worse(line, worst) {
		worst = line
	}
	if got.Worst.Level != worst.Level || got.Worst.StepUM != worst.StepUM {
		t.Errorf("worst line %+v, want %+v", got.Worst, worst)
	}
	name := func(s string) string { return s }
	if text := strings.Join(ways.Say(job, name, length.InMM), "\n"); !strings.Contains(text, "use sapele whatever its rings: P3 is quarter; then nothing is missing") {
		t.Error(text)
	}
	if plan := planned(t, job.AnyRings()); plan.Short > 0 {
		t.Errorf("%d are short whatever the rings", plan.Short)
	}
}

// nearestTo orders timbers by the contrast of their oiled colours to one.
func nearestTo(t *testing.T, key string, keys ...string) []string {
	t.Helper()
	one, ok := species.Builtin().Get(key)
	if !ok {
		t.Fatalf("no %s", key)
	}
	slices.SortStableFunc(keys, func(a, b string) int {
		sa, _ := species.Builtin().Get(a)
		sb, _ := species.Builtin().Get(b)
		if one.Contrast(sa) < one.Contrast(sb) {
			return -1
		}
		return 1
	})
	return keys
}

// What is said holds: the whole solver makes the copies in full, and no more of any
// pattern; narrower strips are enough, and a millimetre less is not.
func TestWaysOutHold(t *testing.T) {
	tried, narrower := 0, 0
	seeds := uint64(14)
	if os.Getenv("ODDMENTS_NIGHTLY") != "" {
		seeds = 60
	}
	for seed := range seeds {
		job := solvetest.BenchJob(seed)
		solvetest.Rename(&job, map[string]string{solvetest.Timbers[0]: "sapele", solvetest.Timbers[1]: "hard_maple"})
		for i := range job.Patterns {
			job.Patterns[i].Copies += 2
		}
		ways, plan := waysOut(t, job)
		if plan.Short == 0 {
			continue
		}
		tried++
		again, _ := waysOut(t, job)
		if diff := cmp.Diff(ways, again, cmpopts.EquateEmpty(), cmp.AllowUnexported(movement.Line{})); diff != "" {
			t.Errorf("job %d: not the same twice: %s", seed, diff)
		}
		if short := shortOf(t, job, ways.Full); short != 0 {
			t.Errorf("job %d: %d short of %v copies", seed, short, ways.Full)
		}
		if !ways.Sure {
			continue
		}
		for i, n := range ways.Full {
			if n == job.Patterns[i].Copies {
				continue
			}
			more := slices.Clone(ways.Full)
			more[i]++
			for k := i + 1; k < len(more); k++ {
				more[k] = 0
			}
			if shortOf(t, job, more) == 0 {
				t.Errorf("job %d: %v copies can be made, not only %v", seed, more, ways.Full)
			}
		}
		for _, l := range ways.Short {
			if l.Narrower.By == 0 {
				continue
			}
			narrower++
			in := map[string]bool{}
			for _, ref := range l.Strips {
				in[ref.Pattern] = true
			}
			w := &wayfinder{job: job}
			for _, by := range []length.Length{l.Narrower.By, l.Narrower.By - mm} {
				j := w.narrowed(in, l.Species, by)
				lacking := slices.ContainsFunc(planned(t, j).Missing, func(m cutting.Missing) bool { return m.Species == l.Species })
				if lacking != (by < l.Narrower.By) {
					t.Errorf("job %d: %s narrower by %v: short %v", seed, l.Species, by, lacking)
				}
			}
		}
	}
	if tried < int(seeds)/3 || narrower < int(seeds)/14 {
		t.Errorf("only %d jobs were short, %d had narrower strips", tried, narrower)
	}
}

// shortOf plans so many copies.
func shortOf(t *testing.T, job cutting.Job, copies []int) int {
	t.Helper()
	job.Patterns = slices.Clone(job.Patterns)
	for i := range job.Patterns {
		job.Patterns[i].Copies = copies[i]
	}
	return planned(t, job).Short
}

// Once the context has ended, nothing is claimed that was not tried.
func TestWaysOutStops(t *testing.T) {
	job := shortJob()
	plan := planned(t, job)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	ways, err := Find(ctx, job, plan, movement.New(species.Builtin(), job.Shop))
	if err != nil || ways.Sure || len(ways.Short) != 1 || len(ways.Short[0].Instead) > 0 || ways.Short[0].Narrower.By > 0 || ways.Full[0] > 3 {
		t.Errorf("ways %+v, error %v", ways, err)
	}
}

func TestWaysOutOfNoJob(t *testing.T) {
	job := shortJob()
	job.Patterns = append(job.Patterns, job.Patterns[0])
	if _, err := Find(context.Background(), job, cutting.Plan{}, movement.New(species.Builtin(), job.Shop)); err == nil {
		t.Error("a pattern that stands twice was taken")
	}
}

// Budget: 1 s for a job of 100 strips from 12 pieces, which is short.
func BenchmarkWaysOut(b *testing.B) {
	job := solvetest.RandomJob(5, 100, 12, 4)
	names := map[string]string{}
	for i, key := range []string{"sapele", "hard_maple", "black_walnut", "black_cherry"} {
		names[solvetest.Timbers[i]] = key
	}
	solvetest.Rename(&job, names)
	plan, err := solve.Plan(context.Background(), job, solve.Options{})
	if err != nil || plan.Short == 0 {
		b.Fatalf("%d short: %v", plan.Short, err)
	}
	r := movement.New(species.Builtin(), job.Shop)
	for b.Loop() {
		if _, err := Find(context.Background(), job, plan, r); err != nil {
			b.Fatal(err)
		}
	}
}
