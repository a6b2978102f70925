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

// The figures are those worked by hand at TestDetailOfAPlank. What lies
// flat on the table is common practice, no source; the fork is the prong test of E. Wengert, Checking
// for casehardening.
func TestStepsOfAPlank(t *testing.T) {
	job := solvetest.CherryJob()
	want := []string{
		"B1: take the black cherry, 720 x 88 x 77 mm; " + Manuals,
		"B1: square the near end, 10 mm off",
		"B1: true it, 2 mm off width and thickness: 86 x 75 mm are left",
		"B1: resaw the whole piece standing on its edge, its face against the fence, bandsaw fence at 26 mm for 2 slices, the sawn face cleaned before the next cut; a spare thickness of 19 mm is left; " +
			"cut a test fork from thick stock before you resaw it: stressed wood curls when it is opened and can grip the blade; stand to one side; " +
			"lay a flat face on the bandsaw's table: a lump that rolls grabs the blade",
		"B1: plane the slices from 26 to 24 mm",
		"B1: rip, saw fence at 23 mm for 6 strips, edges jointed to 22 mm",
		"B1: crosscut last, stop at 310 mm (2); strips: lane board 1 strips 1, 2, 3, 4, 5, 6; lane board 2 strips 1, 2, 3, 4, 5, 6; " +
			"chalk each as it comes off; rings expected: flat, check the ends, since rings turn within a thick piece",
		"B1: back to the rack: 2 offcuts of spare thickness 310 x 86 x 19 mm; where the real offcut is longer, cut it to this, or keep it whole and edit the rack",
	}
	if diff := cmp.Diff(want, Steps(ByPiece, job, planned(t, job), plainly, length.InMM)); diff != "" {
		t.Error(diff)
	}
}

// Stacks differ, so the plank is crosscut first; but the three sections of one stack
// stay together until they are planed.
func TestStepsOfAMixedPlank(t *testing.T) {
	job, plan := mixedJob()
	steps := Steps(ByPiece, job, plan, plainly, length.InMM)
	at := -1
	for _, want := range []string{
		"P (2): take the ash",
		"P (2): square the near end, 10 mm off, cut the end offcut off before anything else: 377.2 mm go back whole",
		"P (2): true it",
		"P (2): crosscut first, since the stacks differ: 786.4 (3 lengths), 320 mm",
		"P (2): plane the slice of the length of 786.4 mm from 28 to 24 mm; a length of 260 mm is under the thicknesser's default 305 mm (set thicknesser_length from its manual): plane the run of 786.4 mm whole",
		"P (2): crosscut now, since the slices are ripped differently: 583.2 (2 lengths), 200 mm",
		"P (2): rip, saw fence at 31 mm for 1 strip, edges jointed to 30 mm, then saw fence at 21 mm",
		"P (2): crosscut last, stop at 320 mm (1), then 260 mm (1); strips: of 320 mm: a strips 1, 2; of 260 mm: a strips 3, 4",
		"P (2): resaw the length of 320 mm standing on its edge, its face against the fence, bandsaw fence at 16 mm for 1 slice; a spare thickness of 10 mm is left",
		"P (2): before planing, rip the spare width off each slice: 23.8 x 16 mm",
		"P (2): plane the slice of the length of 320 mm from 16 to 14 mm",
		"P (2): back to the rack: 1 end offcut 377.2 x 80 x 30 mm, 1 offcut of spare width 320 x 23.8 x 16 mm",
	} {
		found := slices.IndexFunc(steps, func(s string) bool { return strings.HasPrefix(s, want) })
		if found <= at {
			t.Errorf("step %d of the work, after %d: %q; steps:\n%s", found, at, want, strings.Join(steps, "\n"))
		}
		at = max(at, found)
	}
}

// Every strip is named in the steps of its own piece, each word of caution at most
// once, and every leftover.
func TestStepsSayEverything(t *testing.T) {
	onceOnly := []string{Manuals, "test fork", "a lump that rolls", "push block"}
	for seed := range uint64(40) {
		job := solvetest.BenchJob(seed)
		plan := planned(t, job)
		for _, unit := range []length.Unit{length.InMM, length.InInches} {
			text := strings.Join(Steps(ByPiece, job, plan, plainly, unit), "\n")
			for _, once := range onceOnly {
				if strings.Count(text, once) > 1 {
					t.Errorf("job %d: %q stands twice", seed, once)
				}
			}
			for _, want := range wordsFor(job, plan, unit) {
				if !strings.Contains(text, want) {
					t.Errorf("job %d: %q is not said in\n%s", seed, want, text)
				}
			}
		}
		chalk := Chalk(job, plan)
		if len(chalk) != len(cutting.Needs(job))-plan.Short {
			t.Errorf("job %d: %d lines of chalk", seed, len(chalk))
		}
		slices.Sort(chalk)
		if len(slices.Compact(chalk)) != len(cutting.Needs(job))-plan.Short {
			t.Errorf("job %d: two strips are chalked alike", seed)
		}
	}
}

// wordsFor returns what the steps of a plan must say.
func wordsFor(job cutting.Job, plan cutting.Plan, unit length.Unit) []string {
	var want []string
	called := func(r cutting.Ref) string {
		for _, d := range job.Patterns {
			if d.Copies > 1 || len(job.Patterns) == 1 {
				return fmt.Sprintf("%s board %d strip", r.Pattern, r.Copy)
			}
		}
		return r.Pattern + " strip"
	}
	for _, r := range plan.Ready {
		want = append(want, fmt.Sprintf("%s: take ready strip %d", r.ID, r.Copy))
	}
	for _, m := range plan.Missing {
		want = append(want, called(m.Ref))
	}
	for _, d := range Details(job, plan) {
		for _, l := range append(append(slices.Clone(d.Fence), d.Stops...), d.Bandsaw...) {
			want = append(want, l.Format(unit))
		}
		for _, b := range d.Back {
			want = append(want, b.Piece.Length.Format(unit)+" x "+b.Piece.Width.Format(unit)+" x "+b.Piece.Thickness.Format(unit))
		}
		for _, s := range d.Sections {
			for _, sl := range s.Slices {
				for _, st := range sl.Strips {
					want = append(want, called(st.Ref))
				}
			}
		}
	}
	return want
}

// The default limits are published: 300 for a surface planer, "under 300 mm consider
// another method" (HSE woodworking sheet 17), and 305 for a thicknesser, "at least 12 in
// long" (an insurer's planer talk; a magazine's tip on short boards has runners for
// less). The thinnest, 3/16 in, is of a bench thicknesser's manual. A push stick under 300 long is of HSE
// woodworking sheet 16, from memory. Ripping under 20 with a push block is common practice, no source.
func TestNotes(t *testing.T) {
	along := []rack.Fault{{Along: true, From: 0, To: 5 * mm}}
	for _, c := range []struct {
		name                   string
		piece                  rack.Piece
		width, thickness, long length.Length
		want                   string // rules, the level in brackets where it is not fine
	}{
		{"a plain plank", rack.Piece{Length: 600 * mm, Width: 60 * mm, Thickness: 30 * mm}, 40 * mm, 22 * mm, 500 * mm, ""},
		{"resawn", rack.Piece{Length: 600 * mm, Width: 60 * mm, Thickness: 50 * mm}, 40 * mm, 22 * mm, 500 * mm, "stress_fork flat_face"},
		{"299 when squared, surfacer 300, thicknesser 305", rack.Piece{Length: 309 * mm, Width: 60 * mm, Thickness: 30 * mm}, 40 * mm, 22 * mm, 270 * mm,
			"short_surfacer(too much) short_thicknesser(too much) short_rip(take care)"},
		{"300 when squared, surfacer 300", rack.Piece{Length: 310 * mm, Width: 60 * mm, Thickness: 30 * mm}, 40 * mm, 22 * mm, 270 * mm, "short_thicknesser(too much)"},
		{"304.9 fed to 305", rack.Piece{Length: 3149 * tenths, Width: 60 * mm, Thickness: 30 * mm}, 40 * mm, 22 * mm, 285 * mm, "short_thicknesser(too much)"},
		{"305 fed to 305", rack.Piece{Length: 315 * mm, Width: 60 * mm, Thickness: 30 * mm}, 40 * mm, 22 * mm, 285 * mm, "keep_long"},
		{"304.9 when the tail is off", rack.Piece{Length: 600 * mm, Width: 60 * mm, Thickness: 30 * mm}, 40 * mm, 22 * mm, 3049 * tenths,
			"short_thicknesser(too much)"},
		{"299.9 when the tail is off", rack.Piece{Length: 600 * mm, Width: 60 * mm, Thickness: 30 * mm}, 40 * mm, 22 * mm, 2999 * tenths,
			"short_surfacer(too much) short_thicknesser(too much) short_rip(take care)"},
		{"305 when the tail is off", rack.Piece{Length: 600 * mm, Width: 60 * mm, Thickness: 30 * mm}, 40 * mm, 22 * mm, 305 * mm, ""},
		{"304.9, whole till it is planed", rack.Piece{Length: 400 * mm, Width: 60 * mm, Thickness: 30 * mm}, 40 * mm, 22 * mm, 3049 * tenths, "keep_long"},
		{"short but planed already", rack.Piece{Length: 280 * mm, Width: 60 * mm, Thickness: 24 * mm, Planed: true}, 40 * mm, 22 * mm, 226 * mm, "short_rip(take care)"},
		{"short, planed, to be planed thinner", rack.Piece{Length: 280 * mm, Width: 60 * mm, Thickness: 25 * mm, Planed: true}, 40 * mm, 22 * mm, 226 * mm,
			"short_thicknesser(too much) short_rip(take care)"},
		{"ripped 20, which is not narrow", rack.Piece{Length: 600 * mm, Width: 60 * mm, Thickness: 30 * mm}, 19 * mm, 22 * mm, 500 * mm, ""},
		{"ripped 19.9", rack.Piece{Length: 600 * mm, Width: 60 * mm, Thickness: 30 * mm}, 189 * tenths, 22 * mm, 500 * mm, "narrow_rip"},
		{"4.7 thin", rack.Piece{Length: 600 * mm, Width: 60 * mm, Thickness: 30 * mm}, 40 * mm, 27 * tenths, 500 * mm, "stress_fork flat_face thin_thicknesser(take care)"},
		{"3/16 in thin", rack.Piece{Length: 600 * mm, Width: 60 * mm, Thickness: 30 * mm}, 40 * mm, 3*length.Inch/16 - 2*mm, 500 * mm, "stress_fork flat_face"},
		{"wider than 318", rack.Piece{Length: 600 * mm, Width: 321 * mm, Thickness: 30 * mm}, 40 * mm, 22 * mm, 500 * mm, "wide_thicknesser(take care)"},
		{"318 wide when trued", rack.Piece{Length: 600 * mm, Width: 320 * mm, Thickness: 30 * mm}, 40 * mm, 22 * mm, 500 * mm, ""},
		{"deeper than 80", rack.Piece{Length: 600 * mm, Width: 60 * mm, Thickness: 88 * mm}, 40 * mm, 79 * mm, 500 * mm, "saw_depth(take care)"},
		{"a shake along it", rack.Piece{Length: 600 * mm, Width: 65 * mm, Thickness: 30 * mm, Faults: along}, 40 * mm, 22 * mm, 500 * mm, "fault_along(take care)"},
	} {
		t.Run(c.name, func(t *testing.T) {
			job, plan := solvetest.OnePiece(c.piece, c.width, c.thickness, c.long)
			if len(c.piece.Faults) > 0 {
				plan.Cuts[0].Piece = "A/1"
			}
			var got []string
			for _, n := range Notes(job, plan, length.InMM) {
				rule := n.Rule
				if n.Level > pattern.Fine {
					rule += "(" + n.Level.String() + ")"
				}
				got = append(got, rule)
				if n.Piece != plan.Cuts[0].Piece || n.Message == "" || strings.Contains(n.Message, "safe") {
					t.Errorf("note %+v", n)
				}
				if text := strings.Join(Steps(ByPiece, job, plan, plainly, length.InMM), "\n"); !strings.Contains(text, n.Message) {
					t.Errorf("%q is not among the steps", n.Message)
				}
			}
			if strings.Join(got, " ") != c.want {
				t.Errorf("notes %v, want %q", got, c.want)
			}
		})
	}
}

// The ways out of a short section: with a neighbour only where there is one.
func TestShortSectionWaysOut(t *testing.T) {
	job, plan := solvetest.OnePiece(rack.Piece{Length: 299 * mm, Width: 60 * mm, Thickness: 30 * mm}, 40*mm, 22*mm, 270*mm)
	notes := Notes(job, plan, length.InMM)
	if len(notes) != 3 || strings.Contains(notes[1].Message, "neighbour") || !strings.Contains(notes[1].Message, "runners") || !strings.Contains(notes[1].Message, "by hand") {
		t.Errorf("alone: %+v", notes)
	}
	job, plan = mixedJob()
	plan.Cuts[0].Sections = []cutting.Section{plan.Cuts[0].Sections[3], plan.Cuts[0].Sections[1]}
	notes = Notes(job, plan, length.InMM)
	if i := slices.IndexFunc(notes, func(n Note) bool { return n.Rule == "short_thicknesser" }); i < 0 || !strings.Contains(notes[i].Message, "neighbour") {
		t.Errorf("beside another: %+v", notes)
	}
}

// Runs are planed one by one, so each that is too short is told of, at its own step.
func TestShortRunsOfAPiece(t *testing.T) {
	job, plan := mixedJob()
	job.Shop.Machine.ThicknesserLength = 330 * mm
	all := plan.Cuts[0].Sections
	plan.Cuts[0].Sections = []cutting.Section{all[2], all[1]} // 260 of 26 thick, 320 of 16
	var short []Note
	for _, n := range Notes(job, plan, length.InMM) {
		if n.Rule == "short_thicknesser" {
			short = append(short, n)
		}
	}
	if len(short) != 2 || !slices.Equal(short[0].Sections, []int{1}) || !slices.Equal(short[1].Sections, []int{2}) {
		t.Fatalf("notes %+v, want one of each section", short)
	}
	steps := Steps(ByPiece, job, plan, plainly, length.InMM)
	for i, begins := range []string{"P (2): plane the slice of the length of 260 mm", "P (2): plane the slice of the length of 320 mm"} {
		at := slices.IndexFunc(steps, func(s string) bool { return strings.HasPrefix(s, begins) })
		if at < 0 || !strings.Contains(steps[at], short[i].Message) || strings.Contains(steps[at], short[1-i].Message) {
			t.Errorf("%q and its own note are not one step of\n%s", begins, strings.Join(steps, "\n"))
		}
	}
	// With its neighbours of one stack the first run is 786.4 long, and only the other is short.
	job, plan = mixedJob()
	job.Shop.Machine.ThicknesserLength = 330 * mm
	var rules []string
	for _, n := range Notes(job, plan, length.InMM) {
		if n.step == atPlane {
			rules = append(rules, fmt.Sprint(n.Rule, n.Sections))
		}
	}
	if want := []string{"short_thicknesser[2]", "keep_long[1 3 4]"}; !slices.Equal(rules, want) {
		t.Errorf("notes on planing %v, want %v", rules, want)
	}
}

func TestChalk(t *testing.T) {
	job, plan := solvetest.OnePiece(rack.Piece{Length: 600 * mm, Width: 60 * mm, Thickness: 50 * mm}, 40*mm, 22*mm, 500*mm)
	s := &job.Patterns[0].Pattern.Strips[0]
	s.Over, s.Turned = true, true
	want := []string{"A: one board 1, strip 1, arrow to the far end, cross on the planed face, turned over, turned end for end"}
	if got := Chalk(job, plan); !slices.Equal(got, want) {
		t.Errorf("chalk %q, want %q", got, want)
	}
}

// Sections of one stack that are ripped differently are planed as one run; but where
// some of a slice goes back as it was sawn they are parted before that, so that what
// is ripped off one leaves the other's strips whole.
func TestRestComesOffBeforePlaning(t *testing.T) {
	job, plan := mixedJob()
	cut := &plan.Cuts[0]
	a := func(n int) cutting.Ref { return cutting.Ref{Pattern: "a", Copy: 1, Strip: n} }
	cut.Sections = []cutting.Section{
		{Length: 320 * mm, Slices: []cutting.Slice{{Thickness: 26 * mm, RipLeft: 438 * tenths, Strips: []cutting.Ref{a(1)}}}},
		{Length: 320 * mm, Slices: []cutting.Slice{{Thickness: 26 * mm, RipLeft: 538 * tenths, Strips: []cutting.Ref{a(2)}}}},
	}
	var got []string
	for _, s := range Steps(ByPiece, job, plan, plainly, length.InMM) {
		got = append(got, strings.Fields(strings.TrimPrefix(s, "P (2): "))[0])
	}
	if want := strings.Fields("take square true crosscut before plane rip, 320 before plane rip, 320 back"); !slices.Equal(got, want) {
		t.Errorf("steps begin %q, want %q", got, want)
	}
	if text := strings.Join(Steps(ByPiece, job, plan, plainly, length.InMM), "\n"); strings.Count(text, "plane the slice of the length of 320 mm from 28 to 24 mm") != 2 {
		t.Errorf("each set is planed by itself:\n%s", text)
	}
	for _, n := range Notes(job, plan, length.InMM) {
		if n.Rule == "short_thicknesser" {
			t.Errorf("320 is long enough: %+v", n)
		}
	}
	job.Shop.Machine.ThicknesserLength = 330 * mm // the run of 643.2 is longer, but is not planed whole
	if notes := Notes(job, plan, length.InMM); !slices.ContainsFunc(notes, func(n Note) bool { return n.Rule == "short_thicknesser" && n.Level == pattern.TooMuch }) {
		t.Errorf("320 is under 330: %+v", notes)
	}
}

// A planed piece serves strips of two thicknesses: the thinner are planed on.
func TestStepsOfAPlanedPiece(t *testing.T) {
	job, plan := mixedJob()
	p := &job.Rack.Pieces[0]
	p.Planed, p.Thickness, p.Width = true, 25*mm, 110*mm
	plan.Cuts[0].Sections = []cutting.Section{{Length: 320 * mm, Slices: []cutting.Slice{{Thickness: 25 * mm, Strips: []cutting.Ref{{Pattern: "a", Copy: 1, Strip: 1}, {Pattern: "b", Copy: 1, Strip: 1}}}}}}
	text := strings.Join(Steps(ByPiece, job, plan, plainly, length.InMM), "\n")
	for _, want := range []string{"110 x 25 mm, planed", "plane the slice from 25 to 24 mm", "saw fence at 51 mm for 1 strip, edges jointed to 50 mm, planed on to 14 mm, then saw fence at 31 mm for 1 strip, edges jointed to 30 mm"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not said in\n%s", want, text)
		}
	}
	for _, no := range []string{"true it", "resaw"} {
		if strings.Contains(text, no) {
			t.Errorf("%q is said of a planed piece in\n%s", no, text)
		}
	}
}

// A strip on edge is rolled, and one shorter than its section is shortened.
func TestStepsOnEdge(t *testing.T) {
	job, plan := solvetest.OnePiece(rack.Piece{Length: 600 * mm, Width: 60 * mm, Thickness: 50 * mm}, 22*mm, 40*mm, 500*mm)
	job.Patterns[0].Pattern.Panel.Make = pattern.MakeEdge
	job.Patterns[0].Pattern.Strips[0].Length = 480 * mm
	plan.Cuts[0].Sections[0].Slices[0].Thickness = 24 * mm // 22 and 2 for the plane
	text := strings.Join(Steps(ByPiece, job, plan, plainly, length.InMM), "\n")
	for _, want := range []string{"plane the slice from 24 to 22 mm", "saw fence at 42 mm for 1 strip, rolled a quarter turn: 22 mm wide", "stop at 500 mm (1)", "shortened to 480 mm: one board 1 strip 1"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not said in\n%s", want, text)
		}
	}
	if chalk := Chalk(job, plan); !strings.Contains(chalk[0], "ripped edge") {
		t.Errorf("chalk %q", chalk)
	}
}

// plainly says a timber as the tests do: by its key, without the hyphens of files.
func plainly(key string) string { return strings.ReplaceAll(key, "_", " ") }

// Where a piece is too short for a machine once its tail is off, the first way out stands
// where the tail would be cut off, and no step orders that it be cut off before.
func TestTailStaysOnWhereThePieceIsShort(t *testing.T) {
	job, plan := solvetest.OnePiece(rack.Piece{Length: 600 * mm, Width: 60 * mm, Thickness: 30 * mm}, 40*mm, 22*mm, 270*mm)
	text := strings.Join(Steps(ByPiece, job, plan, plainly, length.InMM), "\n")
	want := "square the near end, 10 mm off, keep the 316.8 mm end on while truing and planing: 270 mm alone is too short for your machines; " +
		"cut it off after, then enter its new size on the rack"
	if !strings.Contains(text, want) || strings.Contains(text, "before anything else") || strings.Contains(text, "crosscut last") {
		t.Errorf("%q is not said in\n%s", want, text)
	}
}

// A ready strip that is longer or thicker than the strip it serves is cut and planed to
// it, and one that has not settled waits.
func TestReadyStripSteps(t *testing.T) {
	job, _ := solvetest.OnePiece(rack.Piece{Length: 600 * mm, Width: 60 * mm, Thickness: 30 * mm}, 40*mm, 22*mm, 270*mm)
	job.Rack = rack.Rack{Strips: []rack.Strip{{ID: "R", Species: "oak", Length: 290 * mm, Width: 40 * mm, Thickness: 25 * mm, Quantity: 1, Moisture: pattern.Read(11.7)}}}
	job.Patterns[0].Pattern.Strips[0].Moisture = pattern.Read(9.2)
	plan := planned(t, job)
	steps := Steps(ByPiece, job, plan, plainly, length.InMM)
	want := "R: take ready strip 1 for one board 1 strip 1; plane it from 25 to 24 mm; crosscut it from 290 to 270 mm; " +
		"it reads 11.7 %, one board 1 strip 1 is entered at 9.2 %: dry it to that before gluing; " +
		"290 mm is under the thicknesser's default 305 mm (set thicknesser_length from its manual), do not feed it: glue long runners to both edges, or plane it by hand"
	if len(steps) != 1 || steps[0] != want {
		t.Errorf("steps %q, want %q", steps, want)
	}
	if notes := Notes(job, plan, length.InMM); len(notes) != 2 || notes[1].Level != pattern.TooMuch {
		t.Errorf("notes %+v", notes)
	}
}

// Timber that reads otherwise than its strips are counted on is told of, beyond the
// limit of the shop only.
func TestSettleNote(t *testing.T) {
	for reads, want := range map[float64]bool{9.2: false, 10.2: false, 10.3: true, 8.1: true} {
		job, plan := solvetest.OnePiece(rack.Piece{Length: 600 * mm, Width: 60 * mm, Thickness: 30 * mm, Moisture: pattern.Read(reads)}, 40*mm, 22*mm, 500*mm)
		job.Patterns[0].Pattern.Strips[0].Moisture = pattern.Read(9.2)
		said := slices.ContainsFunc(Notes(job, plan, length.InMM), func(n Note) bool { return n.Rule == "settle" })
		if said != want {
			t.Errorf("read at %v: told of is %v", reads, said)
		}
	}
}

// The clear part that no strip is cut from is named with what goes back.
func TestOtherClearPartGoesBack(t *testing.T) {
	p := rack.Piece{Length: 1000 * mm, Width: 60 * mm, Thickness: 30 * mm, Faults: []rack.Fault{{From: 620 * mm, To: 660 * mm}}}
	job, plan := solvetest.OnePiece(p, 40*mm, 22*mm, 500*mm)
	plan.Cuts[0].Piece, plan.Cuts[0].Tail = "A/1", 0
	text := strings.Join(Steps(ByPiece, job, plan, plainly, length.InMM), "\n")
	if want := "the other clear part of A, 340 x 60 x 30 mm"; !strings.Contains(text, want) {
		t.Errorf("%q is not said in\n%s", want, text)
	}
}

// Two parts of one piece, of which the shorter is too short for the machine: where both
// begin with the same slice, that may be made before they are parted.
func TestSlicesInCommonAreMadeBeforeParting(t *testing.T) {
	job, plan := solvetest.OnePiece(rack.Piece{Length: 650 * mm, Width: 60 * mm, Thickness: 62 * mm}, 40*mm, 22*mm, 270*mm)
	strip := job.Patterns[0].Pattern.Strips[0]
	longer := strip
	longer.Length = 320 * mm
	job.Patterns[0].Pattern.Strips = []pattern.Strip{strip, longer, longer}
	one := func(n int) cutting.Slice {
		return cutting.Slice{Thickness: 26 * mm, Strips: []cutting.Ref{{Pattern: "one", Copy: 1, Strip: n}}}
	}
	sections := []cutting.Section{{Length: 270 * mm, Slices: []cutting.Slice{one(1)}}, {Length: 320 * mm, Slices: []cutting.Slice{one(2), one(3)}}}
	plan.Cuts[0].Sections, plan.Cuts[0].Tail = sections, 0
	const want = "a kerf between each two; but 270 mm is under the thicknesser's default 305 mm (set thicknesser_length from its manual): " +
		"resaw and plane to 24 mm before parting, where both parts are that thick"
	if text := strings.Join(Steps(ByPiece, job, plan, plainly, length.InMM), "\n"); !strings.Contains(text, want) {
		t.Errorf("%q is not said in\n%s", want, text)
	}
	plan.Cuts[0].Sections[1].Side = true
	if text := strings.Join(Steps(ByPiece, job, plan, plainly, length.InMM), "\n"); strings.Contains(text, "where both parts") {
		t.Errorf("sawn across one another they have no slice in common:\n%s", text)
	}
}
