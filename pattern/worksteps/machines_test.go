package worksteps

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve/solvetest"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"github.com/google/go-cmp/cmp"
)

// The plank of TestStepsOfAPlank, with a second one like it: every machine is set once.
func TestStepsByMachine(t *testing.T) {
	job := solvetest.CherryJob()
	plan := planned(t, job)
	want := []string{
		"take the black cherry: B1 720 x 88 x 77 mm; " + Manuals,
		"square the near end, 10 mm off: B1",
		"true, 2 mm off width and thickness: B1 86 x 75 mm left",
		"resaw, bandsaw fence at 26 mm, standing on edge, face against the fence: B1 2 slices (spare thickness 19 mm); clean each sawn face before the next cut; " +
			"cut a test fork from thick stock before you resaw it: stressed wood curls when it is opened and can grip the blade; stand to one side; " +
			"lay a flat face on the bandsaw's table: a lump that rolls grabs the blade",
		"plane to 24 mm: B1 2 slices from 26 mm",
		"rip, saw fence at 23 mm: B1 6 strips; joint the edges to 22 mm",
		"crosscut to length, stop at 310 mm: B1 2 lengths, board 1 strips 1, 2, 3, 4, 5, 6; board 2 strips 1, 2, 3, 4, 5, 6 (rings expected: flat); " +
			"chalk each strip as it comes off; check the rings at the ends, since rings turn within a thick piece",
		"back to the rack: B1 2 offcuts of spare thickness 310 x 86 x 19 mm; where the real offcut is longer, cut it to this, or keep it whole and edit the rack",
	}
	if diff := cmp.Diff(want, Steps(ByMachine, job, plan, plainly, length.InMM)); diff != "" {
		t.Error(diff)
	}
}

// Alike pieces are told of together, and a caution that does not hold for all of them
// names those that it is about.
func TestStepsShareWhatIsTheSame(t *testing.T) {
	job, plan := solvetest.OnePiece(rack.Piece{Length: 600 * mm, Width: 60 * mm, Thickness: 30 * mm, Quantity: 3}, 40*mm, 22*mm, 500*mm)
	job.Rack.Pieces[0].Quantity = 3
	short := rack.Piece{ID: "B", Species: job.Rack.Pieces[0].Species, Length: 309 * mm, Width: 60 * mm, Thickness: 30 * mm, Quantity: 1}
	job.Rack.Pieces = append(job.Rack.Pieces, short)
	strip := job.Patterns[0].Pattern.Strips[0]
	little := strip
	little.Length = 270 * mm
	job.Patterns[0].Pattern.Strips = append(job.Patterns[0].Pattern.Strips, strip, little)
	cut := func(piece string, copied, strip int, long length.Length) cutting.Cut {
		return cutting.Cut{Piece: piece, Copy: copied, Sections: []cutting.Section{{Length: long,
			Slices: []cutting.Slice{{Thickness: 26 * mm, Strips: []cutting.Ref{{Pattern: "one", Copy: 1, Strip: strip}}}}}}}
	}
	plan.Cuts = []cutting.Cut{cut("B", 1, 3, 270*mm), cut("A", 2, 2, 500*mm), cut("A", 1, 1, 500*mm)}
	text := strings.Join(Steps(ByMachine, job, plan, plainly, length.InMM), "\n")
	for _, want := range []string{
		"take the oak: A (1), A (2) 600 x 60 x 30 mm each; B 309 x 60 x 30 mm",
		"true, 2 mm off width and thickness: A (1), A (2), B 58 x 28 mm left each; B: 299 mm is under",
		"rip, saw fence at 41 mm: A (1), A (2), B 1 strip each; joint the edges to 40 mm",
		"stop at 500 mm: A (1) strip 1; A (2) strip 2; chalk",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not said in\n%s", want, text)
		}
	}
}

// A done is what a walk through the steps has seen of one strip or piece.
type done struct {
	at   map[Work]int // step of each work, from 0
	many map[Work]int
}

func (d *done) see(w Work, step int) {
	if d.at == nil {
		d.at, d.many = map[Work]int{}, map[Work]int{}
	}
	d.at[w] = step
	d.many[w]++
}

// order tells of works that come in another order than the piece's own.
func (d *done) order(t *testing.T, what string, before ...Work) {
	t.Helper()
	for i, w := range before {
		for _, later := range before[i+1:] {
			at, has := d.at[w]
			then, also := d.at[later]
			if has && also && at >= then {
				t.Errorf("%s: %v is step %d, %v is step %d", what, w, at+1, later, then+1)
			}
		}
	}
}

// Every cut of a plan is in exactly one step, in an order that its piece allows, and each
// machine is set to each setting once. The walk goes by the plan and by the allowances
// alone, not by the details that steps are made of.
func TestEveryCutIsInOneStep(t *testing.T) {
	parted := 0
	for seed := range uint64(120) {
		job := solvetest.BenchJob(seed)
		if seed%2 == 1 {
			job = solvetest.RandomJob(seed, 9, 7, 3)
		}
		if seed%6 == 2 {
			job = solvetest.Parted(job)
		}
		plan := planned(t, job)
		parted += len(plan.Pieced)
		walk(t, fmt.Sprintf("job %d", seed), job, plan)
	}
	if parted < 20 {
		t.Errorf("only %d strips are in pieces", parted)
	}
}

func walk(t *testing.T, what string, job cutting.Job, plan cutting.Plan) {
	type pieceOf struct {
		id   string
		copy int
	}
	type setting struct {
		work Work
		at   length.Length
		of   string
	}
	strips, pieces, set := map[cutting.Ref]*done{}, map[pieceOf]*done{}, map[setting]bool{}
	seen := func(ref cutting.Ref) *done {
		if strips[ref] == nil {
			strips[ref] = &done{}
		}
		return strips[ref]
	}
	steps := Order(ByMachine, job, plan, plainly, length.InMM)
	for i, s := range steps {
		if s.Kind == StepShort {
			continue
		}
		of := ""
		if s.Work == Fetch {
			of = fmt.Sprint(s.Kind, s.Takes[0].Timber)
		}
		if key := (setting{s.Work, s.At, of}); set[key] {
			t.Errorf("%s: %v is set to %v twice", what, s.Work, s.At)
		} else {
			set[key] = true
		}
		for _, take := range s.Takes {
			if !strings.Contains(s.Text, take.Name) {
				t.Errorf("%s: step %q does not name %s", what, s.Text, take.Name)
			}
			if p := (pieceOf{take.Piece, take.Copy}); !take.Ready {
				if pieces[p] == nil {
					pieces[p] = &done{}
				}
				pieces[p].see(s.Work, i)
			}
			for _, ref := range take.Strips {
				seen(ref).see(s.Work, i)
			}
		}
	}
	for _, ready := range plan.Ready {
		d := seen(ready.For)
		if d.many[Fetch] != 1 || d.many[Rip] > 0 {
			t.Errorf("%s: ready strip for %v: %v", what, ready.For, d.many)
		}
		d.order(t, fmt.Sprint(what, ready.For), Fetch, Plane, Crosscut)
	}
	for _, c := range plan.Cuts {
		p := pieces[pieceOf{c.Piece, c.Copy}]
		if p == nil || p.many[Fetch] != 1 || p.many[True] > 1 {
			t.Fatalf("%s: piece %s %d: %+v", what, c.Piece, c.Copy, p)
		}
		tails := p.many[EndOff] + p.many[EndOffTrued] + p.many[EndOffPlaned]
		if (c.Tail > 0) != (tails == 1) || tails > 1 {
			t.Errorf("%s: end offcut of %s, %v, is cut off %d times", what, c.Piece, c.Tail, tails)
		}
		p.order(t, what+" "+c.Piece, Fetch, Square, True, PartStacks)
		p.order(t, what+" "+c.Piece, EndOff, True, EndOffTrued, PartStacks)
		for _, section := range c.Sections {
			sawn := 0
			for _, slice := range section.Slices {
				for _, ref := range slice.Strips {
					d := seen(ref)
					if d.many[Fetch] != 1 || d.many[Rip] != 1 || d.many[Crosscut]+d.many[Already] != 1 || d.many[Resaw] > 1 || d.many[Plane] > 1 {
						t.Errorf("%s: strip %v of %s: %v", what, ref, c.Piece, d.many)
					}
					if (slice.RipLeft > 0 && d.many[Plane] > 0) != (d.many[RipSpare] == 1) {
						t.Errorf("%s: strip %v leaves %v of its slice's width: %v", what, ref, slice.RipLeft, d.many)
					}
					d.order(t, fmt.Sprint(what, " ", ref), Fetch, True, PartStacks, Resaw, PartRough, RipSpare, Plane, PartPlaned, Rip, PlaneOn, Crosscut, Shorten)
				}
				if len(slice.Strips) > 0 && seen(slice.Strips[0]).many[Resaw] == 1 {
					sawn++
				}
			}
			if p.many[Resaw] > 0 && sawn < len(section.Slices)-1 && p.many[PartStacks] == 0 {
				t.Errorf("%s: of %d slices of %s %d are sawn off", what, len(section.Slices), c.Piece, sawn)
			}
		}
	}
	if want, asked := len(strips)+plan.Short, len(cutting.NeedsOf(job, plan)); want != asked {
		t.Errorf("%s: %d strips and pieces in the steps and %d short of %d", what, len(strips), plan.Short, asked)
	}
	for _, p := range plan.Pieced { // each piece is chalked with its letter
		for i := range p.Pieces {
			if name := fmt.Sprintf("%s board %d, strip %s,", p.Pattern, p.Copy, pattern.PieceName(p.Strip, i+1)); !strings.Contains(strings.Join(Chalk(job, plan), "\n"), name) {
				t.Errorf("%s: %q is not chalked", what, name)
			}
		}
	}
	inOrder(t, what, job, steps)
}

// inOrder holds pieces to the order in which they lie, and slices of a piece to that in
// which they are sawn: the fence of each is no wider than of those before it.
func inOrder(t *testing.T, what string, job cutting.Job, steps []Step) {
	place := func(take Take) int {
		return slices.IndexFunc(job.Rack.Pieces, func(p rack.Piece) bool { return p.ID == take.Piece || strings.HasPrefix(take.Piece, p.ID+"/") })
	}
	last := map[Work]length.Length{}
	for _, s := range steps {
		if at, ok := last[s.Work]; ok && s.At > at && s.Kind != StepShort {
			t.Errorf("%s: %v at %v after %v", what, s.Work, s.At, at)
		}
		last[s.Work] = s.At
		for i := range s.Takes[min(1, len(s.Takes)):] {
			if a, b := s.Takes[i], s.Takes[i+1]; !a.Ready && !b.Ready && place(a) > place(b) {
				t.Errorf("%s: %s before %s in %q", what, a.Name, b.Name, s.Text)
			}
		}
	}
}

// Whatever is to be known of a plan stands at a step of either order, what is the same
// for all once.
func TestCautionsInBothOrders(t *testing.T) {
	for seed := range uint64(60) {
		job := solvetest.BenchJob(seed)
		plan := planned(t, job)
		rules := func(by By) map[string]bool {
			out := map[string]bool{}
			for _, s := range Order(by, job, plan, plainly, length.InMM) {
				for _, n := range s.Notes {
					out[n.Rule] = true
				}
			}
			return out
		}
		machine, text := rules(ByMachine), strings.Join(Steps(ByMachine, job, plan, plainly, length.InMM), "\n")
		for _, n := range Notes(job, plan, length.InMM) {
			if !machine[n.Rule] || !n.once && !strings.Contains(text, n.Message) {
				t.Errorf("job %d: %s is not said in\n%s", seed, n.Rule, text)
			}
			if n.once && strings.Count(text, n.Message) > 1 {
				t.Errorf("job %d: %s is said twice in\n%s", seed, n.Rule, text)
			}
		}
	}
}
