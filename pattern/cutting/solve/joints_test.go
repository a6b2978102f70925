package solve

import (
	"context"
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"testing"
	"time"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve/solvetest"
	"example.com/oddments/pattern/joints"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop/shoptest"
)

// A jointExample is a rack and a panel with the optima that another program proved.
type jointExample struct {
	Seed int
	Shop map[string]float64
	Rack []struct {
		ID, Species              string
		Length, Width, Thickness float64
		UseFirst                 bool `json:"use_first"`
		Planed                   bool
	}
	Panel struct {
		Species           []string
		Widths            []float64
		Thickness, Length float64
		Product           []any
		Count             int
	}
	Ask map[string][]struct {
		Alternatives [][]float64
	}
	Optima map[string]struct {
		Short  int
		Drawn  float64 `json:"drawn_cm3"`
		Joints *int
	}
}

func jointExamples(t testing.TB) (all []jointExample) {
	t.Helper()
	data, err := os.ReadFile("../../joints/testdata/cases.json")
	if err == nil {
		err = json.Unmarshal(data, &all)
	}
	if err != nil || len(all) < 5 {
		t.Fatalf("%d examples: %v", len(all), err)
	}
	return all
}

func (e jointExample) job() cutting.Job {
	nm := func(f float64) length.Length { return length.Length(math.Round(f * 1e6)) }
	sh := shoptest.Roomy()
	sh.Kerf.Rip, sh.Kerf.Crosscut, sh.Kerf.Resaw = nm(e.Shop["rip"]), nm(e.Shop["crosscut"]), nm(e.Shop["resaw"])
	a := &sh.Allowance
	a.EndTrim, a.Truing, a.Cleaning, a.Planing = nm(e.Shop["end_trim"]), nm(e.Shop["truing"]), nm(e.Shop["cleaning"]), nm(e.Shop["planing"])
	a.Jointing, a.Flattening, a.OverLength = nm(e.Shop["jointing"]), nm(e.Shop["flattening"]), nm(e.Shop["over_length"])
	a.Length = nm(e.Ask["whole"][0].Alternatives[0][0] - e.Panel.Length)
	sh.Keep.Length, sh.Keep.Width, sh.Keep.Thickness = nm(e.Shop["keep_length"]), nm(e.Shop["keep_width"]), nm(e.Shop["keep_thickness"])
	sh.Machine.BandsawHeight = nm(e.Shop["bandsaw_height"])
	sh.Draw.UseFirstPct, sh.Draw.ReturnedPct, sh.Draw.OpenedCM3 = e.Shop["use_first"], e.Shop["returned"], e.Shop["opened"]
	job := cutting.Job{Shop: sh}
	for _, p := range e.Rack {
		job.Rack.Pieces = append(job.Rack.Pieces, rack.Piece{ID: p.ID, Species: p.Species, Length: nm(p.Length), Width: nm(p.Width),
			Thickness: nm(p.Thickness), Quantity: 1, Planed: p.Planed, UseFirst: p.UseFirst})
	}
	p := pattern.Pattern{Panel: pattern.Panel{Length: nm(e.Panel.Length), Thickness: nm(e.Panel.Thickness)}}
	for i, s := range e.Panel.Species {
		p.Strips = append(p.Strips, pattern.Strip{Species: s, Width: nm(e.Panel.Widths[i])})
	}
	product := pattern.Product{Shape: pattern.ShapeName(e.Panel.Product[0].(string)), Count: e.Panel.Count}
	along, across := nm(e.Panel.Product[1].(float64)), nm(e.Panel.Product[2].(float64))
	if product.Diameter = along; product.Shape != outline.Round {
		product.Diameter, product.Length, product.Width = 0, along, across
	}
	p.Products = []pattern.Product{product}
	job.Patterns = []cutting.Demand{{Stem: "panel", Pattern: p, Copies: 1}}
	return job
}

// jointAsks are what the examples name: they count strips from 0, so that their bricks 0 are
// our odd ones. cm3 is what a joint counts for.
func jointAsks() map[string]struct {
	how    joints.How
	bricks bool
	cm3    float64
} {
	type ask = struct {
		how    joints.How
		bricks bool
		cm3    float64
	}
	return map[string]ask{
		"whole": {joints.AsTheyAre, false, 0}, "whole or short ends": {joints.Ends, false, 0},
		"bricks 0": {joints.Odd, false, 0}, "bricks 1": {joints.Even, false, 0}, "any joint": {joints.Anywhere, false, 0},
		"bricks, joint 20 cm3": {joints.Even, true, 20}, "any joint, joint 20 cm3": {joints.Anywhere, false, 20},
	}
}

// withinSecond is what each example is to be proved in on a machine of its own; tests share
// theirs, and are given more.
const withinSecond = 20 * time.Second

func TestJointExamples(t *testing.T) {
	for _, e := range jointExamples(t) {
		for name, ask := range jointAsks() {
			want, given := e.Optima[name]
			if !given {
				t.Fatalf("seed %d has no optimum of %s", e.Seed, name)
			}
			job := e.job()
			job.Shop.Draw.JointCM3 = ask.cm3
			job, err := job.Joined(ask.how, ask.bricks)
			if err != nil {
				t.Fatal(err)
			}
			begun := time.Now()
			plan, err := Plan(context.Background(), job, Options{Workers: 2})
			took := time.Since(begun)
			if err != nil {
				t.Fatalf("seed %d, %s: %v", e.Seed, name, err)
			}
			t.Logf("seed %d, %s: %d short, %.4f cm3, %.0f ms, %v", e.Seed, name, plan.Short, plan.DrawnCM3, took.Seconds()*1000, plan.Broken)
			count := int(math.Round(plan.JointsCM3 / max(1, ask.cm3)))
			if plan.Claim().Sure != cutting.Least || plan.Short != want.Short || math.Abs(plan.DrawnCM3-want.Drawn) > 0.01 ||
				ask.cm3 > 0 && want.Joints != nil && count != *want.Joints {
				t.Errorf("seed %d, %s: %v, %d short, %.4f cm3, %d joints; want %d short, %.4f cm3", e.Seed, name, plan.Claim(), plan.Short, plan.DrawnCM3, count, want.Short, want.Drawn)
			}
			if took > withinSecond {
				t.Errorf("seed %d, %s: took %v", e.Seed, name, took)
			}
		}
	}
}

// tryWays tries every way of every strip of a job, and each strip short; what is left is to
// be cut whole, which brute tries in every way.
func tryWays(job cutting.Job) (short int, least float64) {
	choices := cutting.Choices(job)
	b := newBrute(job)
	b.needs, b.whole, b.all = nil, true, nil
	for _, c := range choices {
		b.all = append(b.all, slices.Concat(c.Ways...)...)
	}
	short = len(choices) + 1
	var from func(i, missing int, joints float64)
	from = func(i, missing int, joints float64) {
		if missing > short {
			return
		}
		if i == len(choices) {
			b.bestServed, b.bestShort, b.bestDrawn = 0, 0, math.MaxFloat64
			b.served = 0
			if b.place(0); b.bestDrawn < math.MaxFloat64 && (missing < short || b.bestDrawn+joints < least) {
				short, least = missing, b.bestDrawn+joints
			}
			return
		}
		for _, way := range choices[i].Ways {
			b.needs = append(b.needs, way...)
			from(i+1, missing, joints+float64(len(way)-1)*job.Shop.Draw.JointCM3)
			b.needs = b.needs[:len(b.needs)-len(way)]
		}
		from(i+1, missing+1, joints)
	}
	from(0, 0, 0)
	return short, least
}

// Small jobs whose strips may be made of pieces, against trying all.
func TestJointsAgainstBruteForce(t *testing.T) {
	jobs, joined, shorts := 200, 0, 0
	if os.Getenv("ODDMENTS_NIGHTLY") != "" {
		jobs = 1500
	}
	for seed := range uint64(jobs) {
		job := tinyJob(seed)
		rng := rand.New(rand.NewPCG(seed, 9))
		job.Shop.Draw.JointCM3 = []float64{0, 20, 100}[rng.IntN(3)]
		job.Patterns = job.Patterns[:1]
		job.Shop.Draw.TailsPct = 100 // else it may pay to leave a ready strip, and brute would not
		for i := range job.Patterns {
			d := &job.Patterns[i]
			d.Pattern.Strips = d.Pattern.Strips[:min(len(d.Pattern.Strips), 2)]
			d.Copies = 1
			for _, s := range d.Pattern.Strips {
				long := d.Pattern.StripLength(s, 0)
				ways := []joints.Way{{{Start: 0, Length: long}}}
				if rng.IntN(3) > 0 {
					ways = append(ways, joints.Way{{Start: 0, Length: 100 * mm}, {Start: 110 * mm, Length: 90 * mm}})
				}
				d.Ways = append(d.Ways, ways)
			}
		}
		plan, err := Plan(context.Background(), job, Options{})
		if err != nil {
			t.Fatalf("job %d: %v", seed, err)
		}
		short, least := tryWays(job)
		if plan.Claim().Sure != cutting.Least || plan.Short != short || math.Abs(plan.Counted()-least) > 1e-4 {
			t.Errorf("job %d: %v, %d short, %.6f cm3 counted (%v); want %d short, %.6f", seed, plan.Claim(), plan.Short, plan.Counted(), plan.Broken, short, least)
		}
		if plan.JointsCM3 > 0 || len(plan.Pieced) > 0 {
			joined++
		}
		if short > 0 {
			shorts++
		}
	}
	if joined < jobs/20 || shorts < jobs/20 {
		t.Errorf("only %d plans have joints, and %d are short", joined, shorts)
	}
}

// Where part of a job is searched that wants fewer of a kind than a pool of ready strips would
// hand out, that choice fits nowhere: once it was counted all the same, and the search ran
// over the end of its kinds.
func TestReadyStripsNotWantedInAPart(t *testing.T) {
	job := solvetest.Parted(solvetest.BenchJob(110))
	plan, err := Plan(context.Background(), job, Options{})
	if err != nil || plan.Broken != nil || plan.Claim().Sure != cutting.Least {
		t.Errorf("%v, %v, broken %v", err, plan.Claim(), plan.Broken)
	}
}
