package booking

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve/solvetest"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop/shoptest"
	"example.com/oddments/species"
)

// Design: a flat strip of an upright section shows the piece's rings; side-sliced or
// on edge, flat and quarter are exchanged; both together, the piece's again.
func TestRealRings(t *testing.T) {
	at30, err := pattern.RingsAt(30)
	if err != nil {
		t.Fatal(err)
	}
	at60 := at30.Rolled()
	for _, c := range []struct {
		piece pattern.Rings
		side  bool
		make  pattern.Make
		want  pattern.Rings
	}{
		{pattern.RingsFlat(), false, pattern.MakeFlat, pattern.RingsFlat()},
		{pattern.RingsFlat(), true, pattern.MakeFlat, pattern.RingsQuarter()},
		{pattern.RingsFlat(), false, pattern.MakeEdge, pattern.RingsQuarter()},
		{pattern.RingsFlat(), true, pattern.MakeEdge, pattern.RingsFlat()},
		{pattern.RingsQuarter(), true, pattern.MakeFlat, pattern.RingsFlat()},
		{pattern.RingsRift(), true, pattern.MakeFlat, pattern.RingsRift()},
		{at30, false, pattern.MakeEdge, at60},
		{pattern.Rings{}, true, pattern.MakeFlat, pattern.Rings{}},
	} {
		t.Run(fmt.Sprint(c.piece, c.side, c.make), func(t *testing.T) {
			job, plan := solvetest.OnePiece(rack.Piece{Length: 600 * mm, Width: 60 * mm, Thickness: 50 * mm, Rings: c.piece}, 40*mm, 22*mm, 500*mm)
			job.Patterns[0].Pattern.Panel.Make = c.make
			plan.Cuts[0].Sections[0].Side = c.side
			p, changed := Real(job, plan, "one", 1)
			if p.Strips[0].Rings != c.want || len(changed) > 0 != c.want.Known() {
				t.Errorf("rings %v, changed %v; want %v", p.Strips[0].Rings, changed, c.want)
			}
			if job.Patterns[0].Pattern.Strips[0].Rings.Known() {
				t.Error("the job was written to")
			}
		})
	}
}

// A strip that nobody has looked at has the bark side of its piece, rolled with the rings
// and as the strip is laid; one of other rings, or with a side of its own, has not.
func TestRealBark(t *testing.T) {
	flat, quarter, rift := pattern.RingsFlat(), pattern.RingsQuarter(), pattern.RingsRift()
	up, right, down := pattern.Bark{Up: 1}, pattern.Bark{Right: 1}, pattern.Bark{Up: -1}
	lean := pattern.Bark{Right: -1, Up: 1}
	for _, c := range []struct {
		name  string
		piece pattern.Grain
		side  bool
		strip pattern.Strip
		want  pattern.Grain
		says  string
	}{
		{"as it lies", pattern.Grain{Rings: flat, Bark: up, Heart: 90 * mm}, false, pattern.Strip{}, pattern.Grain{Rings: flat, Bark: up, Heart: 90 * mm}, "rings and bark side"},
		{"side-sliced", pattern.Grain{Rings: flat, Bark: up}, true, pattern.Strip{}, pattern.Grain{Rings: quarter, Bark: right}, "rings and bark side"},
		{"its rings are known", pattern.Grain{Rings: flat, Bark: down}, false, pattern.Strip{Rings: flat}, pattern.Grain{Rings: flat, Bark: down}, "bark side"},
		{"turned and over", pattern.Grain{Rings: rift, Bark: lean}, false, pattern.Strip{Turned: true, Over: true},
			pattern.Grain{Rings: rift, Bark: pattern.Bark{Right: -1, Up: -1}}, "rings and bark side"},
		{"rings of its own", pattern.Grain{Rings: flat, Bark: up}, false, pattern.Strip{Rings: rift}, pattern.Grain{Rings: rift}, ""},
		{"a side of its own", pattern.Grain{Rings: flat, Bark: up}, false, pattern.Strip{Rings: flat, Bark: down}, pattern.Grain{Rings: flat, Bark: down}, ""},
	} {
		piece := rack.Piece{Length: 600 * mm, Width: 60 * mm, Thickness: 50 * mm}
		piece.Lay(c.piece)
		job, plan := solvetest.OnePiece(piece, 40*mm, 22*mm, 500*mm)
		s := &job.Patterns[0].Pattern.Strips[0]
		s.Lay(c.strip.Grain())
		s.Turned, s.Over = c.strip.Turned, c.strip.Over
		plan.Cuts[0].Sections[0].Side = c.side
		p, changed := Real(job, plan, "one", 1)
		if got := p.Strips[0].Grain(); got != c.want {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
		if said := fmt.Sprint(changed); c.says == "" && len(changed) > 0 || !strings.Contains(said, c.says) {
			t.Errorf("%s: says %s, want %s", c.name, said, c.says)
		}
	}
}

// What a strip says of itself stays; a strip that is short, or of another copy, stays
// as it is; a ready strip gives what is known of it.
func TestRealKeepsWhatIsKnown(t *testing.T) {
	strip := func(m pattern.Reading, r pattern.Rings) pattern.Strip {
		return pattern.Strip{Species: "oak", Width: 40 * mm, Moisture: m, Rings: r, Length: 500 * mm}
	}
	none, flat := pattern.Reading{}, pattern.RingsFlat()
	p := pattern.Pattern{Panel: pattern.Panel{Length: 500 * mm, Thickness: 22 * mm}, Strips: []pattern.Strip{
		strip(none, pattern.Rings{}), strip(pattern.Read(7), pattern.Rings{}), strip(none, flat), strip(pattern.Read(7), flat), strip(none, pattern.Rings{}), strip(none, pattern.Rings{}),
	}}
	job := cutting.Job{Patterns: []cutting.Demand{{Stem: "x", Pattern: p, Copies: 2}}, Shop: shoptest.Roomy(), Rack: rack.Rack{
		Pieces: []rack.Piece{{ID: "W", Species: "oak", Length: 620 * mm, Width: 240 * mm, Thickness: 30 * mm, Quantity: 1, Rings: flat, Moisture: pattern.Read(9.1),
			Faults: []rack.Fault{{From: 0, To: 10 * mm}}}},
		Strips: []rack.Strip{{ID: "R", Species: "oak", Width: 40 * mm, Thickness: 24 * mm, Length: 510 * mm, Quantity: 1, Moisture: pattern.Read(8.2)}},
	}}
	ref := func(n int) cutting.Ref { return cutting.Ref{Pattern: "x", Copy: 2, Strip: n} }
	plan := cutting.Plan{
		Ready:   []cutting.Ready{{ID: "R", Copy: 1, For: ref(5)}},
		Cuts:    []cutting.Cut{{Piece: "W/1", Copy: 1, Sections: []cutting.Section{{Length: 500 * mm, Slices: []cutting.Slice{{Thickness: 26 * mm, Strips: []cutting.Ref{ref(1), ref(2), ref(3), ref(4)}}}}}}},
		Missing: []cutting.Missing{{Ref: ref(6), Species: "oak"}},
	}
	got, changed := Real(job, plan, "x", 2)
	want := slices.Clone(p.Strips)
	want[0] = strip(pattern.Read(9.1), flat)
	want[1] = strip(pattern.Read(7), flat)
	want[2] = strip(pattern.Read(9.1), flat)
	want[4] = strip(pattern.Read(8.2), pattern.Rings{})
	if !slices.Equal(got.Strips, want) {
		t.Errorf("strips %+v, want %+v", got.Strips, want)
	}
	said := "[strip 1: moisture and rings from W strip 2: rings from W strip 3: moisture from W strip 5: moisture from R]"
	if fmt.Sprint(changed) != said {
		t.Errorf("changed %v, want %s", changed, said)
	}
	if got, changed := Real(job, plan, "x", 1); !slices.Equal(got.Strips, p.Strips) || len(changed) > 0 {
		t.Errorf("the other copy: %+v, %v", got.Strips, changed)
	}
	if got, changed := Real(job, plan, "y", 1); len(got.Strips) > 0 || len(changed) > 0 {
		t.Errorf("no such pattern: %+v, %v", got, changed)
	}
}

// looksJob has a panel maple, walnut, maple, cherry, cherry in two copies, from pieces
// that nobody looked at; its plan takes each timber from one piece, but the maple of
// the second copy from another.
func looksJob(t *testing.T) (cutting.Job, cutting.Plan, movement.Physics) {
	t.Helper()
	p := pattern.Pattern{Panel: pattern.Panel{Length: 400 * mm, Thickness: 30 * mm}}
	for _, key := range []string{"hard_maple", "black_walnut", "hard_maple", "black_cherry", "black_cherry"} {
		p.Strips = append(p.Strips, pattern.Strip{Species: key, Width: 40 * mm, Length: 400 * mm})
	}
	job := cutting.Job{Patterns: []cutting.Demand{{Stem: "x", Pattern: p, Copies: 2}}, Shop: shoptest.Roomy()}
	for _, id := range []string{"C1", "T1", "T2", "W1"} {
		key := map[byte]string{'C': "black_cherry", 'T': "hard_maple", 'W': "black_walnut"}[id[0]]
		job.Rack.Pieces = append(job.Rack.Pieces, rack.Piece{ID: id, Species: key, Length: 600 * mm, Width: 300 * mm, Thickness: 40 * mm, Quantity: 1})
	}
	job.Rack.Pieces[2].Width = 310 * mm // T2 is the larger of the maples
	cut := func(id string, refs ...cutting.Ref) cutting.Cut {
		return cutting.Cut{Piece: id, Copy: 1, Sections: []cutting.Section{{Length: 400 * mm, Slices: []cutting.Slice{{Thickness: 34 * mm, Strips: refs}}}}}
	}
	plan := cutting.Plan{Cuts: []cutting.Cut{
		cut("C1", cutting.Ref{Pattern: "x", Copy: 1, Strip: 4}, cutting.Ref{Pattern: "x", Copy: 1, Strip: 5}, cutting.Ref{Pattern: "x", Copy: 2, Strip: 4}, cutting.Ref{Pattern: "x", Copy: 2, Strip: 5}),
		cut("T1", cutting.Ref{Pattern: "x", Copy: 1, Strip: 1}, cutting.Ref{Pattern: "x", Copy: 1, Strip: 3}), cut("T2", cutting.Ref{Pattern: "x", Copy: 2, Strip: 1}, cutting.Ref{Pattern: "x", Copy: 2, Strip: 3}),
		cut("W1", cutting.Ref{Pattern: "x", Copy: 1, Strip: 2}, cutting.Ref{Pattern: "x", Copy: 2, Strip: 2}),
	}}
	r := movement.New(species.Builtin(), job.Shop)
	for _, l := range r.Panel(p).Lines() {
		if l.Settled {
			t.Fatalf("line %d is settled: the case needs another limit", l.Line)
		}
	}
	return job, plan, r
}

// Three lines of each copy are open between unlike timbers, 1|2, 2|3 and 3|4, and the
// one within the cherry. The cherry's piece touches 3|4 and 4|5 of both copies, 4; each
// maple's three of its own copy; the walnut's 1|2 and 2|3 of both, 4. The cherry comes
// first on the rack, then the walnut covers the rest.
func TestLookFirst(t *testing.T) {
	job, plan, r := looksJob(t)
	for _, c := range []struct {
		name string
		plan *cutting.Plan
		look func(*cutting.Job)
		want []Look
	}{
		{"by the plan", &plan, func(*cutting.Job) {}, []Look{{"C1", 4}, {"W1", 4}}},
		{"the cherry looked at", &plan, func(j *cutting.Job) { j.Rack.Pieces[0].Rings = pattern.RingsFlat() }, []Look{{"W1", 4}, {"T1", 1}, {"T2", 1}}},
		// All the maple from T2: it touches 1|2, 2|3 and 3|4 of both copies.
		{"without a plan", nil, func(*cutting.Job) {}, []Look{{"T2", 6}, {"C1", 2}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			j := job
			j.Rack.Pieces = slices.Clone(job.Rack.Pieces)
			c.look(&j)
			if got := LookFirst(j, c.plan, r); !slices.Equal(got, c.want) {
				t.Errorf("look first %v, want %v", got, c.want)
			}
		})
	}
}

// Once all that is named was looked at, no line has two strips that nobody looked at.
func TestLookFirstCoversEveryLine(t *testing.T) {
	keys := []string{"hard_maple", "black_walnut"}
	named := 0
	for seed := range uint64(40) {
		job := solvetest.BenchJob(seed)
		for i := range job.Rack.Pieces {
			job.Rack.Pieces[i].Rings = pattern.Rings{}
		}
		solvetest.Rename(&job, map[string]string{solvetest.Timbers[0]: keys[0], solvetest.Timbers[1]: keys[1]})
		r := movement.New(species.Builtin(), job.Shop)
		plan := planned(t, job)
		looks := LookFirst(job, &plan, r)
		lines := 0
		for i, l := range looks {
			named++
			lines += l.Lines
			if i > 0 && l.Lines > looks[i-1].Lines {
				t.Errorf("job %d: %v", seed, looks)
			}
			if e, ok := job.Rack.Get(l.Piece); !ok || e.Rings.Known() {
				t.Errorf("job %d: %s is not to be looked at", seed, l.Piece)
			}
		}
		of := Sources(job, plan)
		open := 0
		for _, d := range job.Patterns {
			for copy := 1; copy <= d.Copies; copy++ {
				p, _ := Real(job, plan, d.Stem, copy)
				for _, line := range r.Panel(p).Lines() {
					left, right := of[cutting.Ref{Pattern: d.Stem, Copy: copy, Strip: line.Line}].ID, of[cutting.Ref{Pattern: d.Stem, Copy: copy, Strip: line.Line + 1}].ID
					canLook := left != "" && !p.Strips[line.Line-1].Rings.Known() || right != "" && !p.Strips[line.Line].Rings.Known()
					if line.Settled || !canLook {
						continue
					}
					open++
					if !slices.ContainsFunc(looks, func(l Look) bool { return l.Piece == left || l.Piece == right }) {
						t.Errorf("job %d, %s copy %d: line %d is not covered", seed, d.Stem, copy, line.Line)
					}
				}
			}
		}
		if open != lines {
			t.Errorf("job %d: the looks cover %d lines, %d are open", seed, lines, open)
		}
	}
	if named < 20 {
		t.Errorf("only %d looks were named", named)
	}
}

// Budget: 2 ms for 200 strips, since the bench asks after each plan.
func BenchmarkLookFirst(b *testing.B) {
	job := solvetest.RandomJob(3, 200, 40, 2)
	solvetest.Rename(&job, map[string]string{solvetest.Timbers[0]: "hard_maple", solvetest.Timbers[1]: "black_walnut"})
	r := movement.New(species.Builtin(), job.Shop)
	for b.Loop() {
		LookFirst(job, nil, r)
	}
}

// A strip gets the colour of its piece, where that has one, and keeps its own where it has
// none; leftovers and strips laid aside keep the piece's.
func TestRealColour(t *testing.T) {
	pale, dark := colour.OwnOf(colour.RGB{R: 200, G: 170, B: 130}), colour.OwnOf(colour.RGB{R: 90, G: 60, B: 40})
	for _, c := range []struct{ piece, strip, want colour.Own }{
		{pale, colour.Own{}, pale}, {pale, dark, pale}, {colour.Own{}, dark, dark}, {pale, pale, pale},
	} {
		job, plan := solvetest.OnePiece(rack.Piece{Length: 1200 * mm, Width: 60 * mm, Thickness: 50 * mm, Colour: c.piece, From: "photo"}, 40*mm, 22*mm, 500*mm)
		job.Patterns[0].Pattern.Strips[0].Colour = c.strip
		p, changed := Real(job, plan, "one", 1)
		if p.Strips[0].Colour != c.want || len(changed) > 0 != (c.want != c.strip) {
			t.Errorf("%v from %v: %v, changed %v", c.strip, c.piece, p.Strips[0].Colour, changed)
		}
		if len(changed) > 0 && changed[0].String() != "strip 1: colour from "+changed[0].From {
			t.Errorf("told as %q", changed[0])
		}
	}
}
