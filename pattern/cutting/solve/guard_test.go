package solve

import (
	"bufio"
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"sync"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/joints"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/shop/shoptest"
)

// The guard: families of random jobs made to be nasty, each compared with an integer
// program that another solver solves (program_test.go).

// A family draws jobs of one kind.
type family struct {
	name string
	draw func(g *nasty)
	from int // the seed of its first job
}

// A nasty job in the making.
type nasty struct {
	rng   *rand.Rand
	job   cutting.Job
	asked float64 // share of the rack's timber that the strips are to take
	most  int     // strips at most

	lengths, thicknesses, widths []length.Length // of panels and strips, to draw from
	makes                        []pattern.Make
	kinds                        int
	joined                       bool // strips may be made of pieces
	pieces                       int
	piece                        func() rack.Piece
}

func (g *nasty) of(values ...length.Length) length.Length { return values[g.rng.IntN(len(values))] }

func (g *nasty) percent(values ...float64) float64 { return values[g.rng.IntN(len(values))] }

// between draws a length of whole millimetres.
func (g *nasty) between(low, high int) length.Length {
	return length.Length(low+g.rng.IntN(high-low+1)) * mm
}

// families lists them; what is the same in all stands in drawNasty.
func families() []family {
	tight := func(g *nasty) {
		g.asked, g.job.Shop.Draw.ReturnedPct = 0.5+0.4*g.rng.Float64(), g.percent(70, 100)
		g.pieces, g.most = 2+g.rng.IntN(3), 26
	}
	return []family{
		{"tight racks with rents", tight, 0},
		{"over_length 40", func(g *nasty) { tight(g); g.job.Shop.Allowance.OverLength = 40 * mm }, 0},
		{"returned 0", func(g *nasty) { g.job.Shop.Draw.ReturnedPct = 0 }, 0},
		{"returned 100", func(g *nasty) {
			g.job.Shop.Draw.ReturnedPct = 100
			g.job.Shop.Keep = shop.Keep{Length: g.of(0, 100*mm, 200*mm), Width: g.of(0, 10*mm), Thickness: g.of(0, 8*mm)}
		}, 0},
		{"use first", func(g *nasty) {
			g.job.Shop.Draw.UseFirstPct = g.percent(0, 20, 60)
			piece := g.piece
			g.piece = func() rack.Piece { p := piece(); p.UseFirst = g.rng.IntN(3) > 0; return p }
		}, 0},
		{"many alike", func(g *nasty) {
			g.pieces, g.most = 2, 26
			piece := g.piece
			g.piece = func() rack.Piece { p := piece(); p.Quantity = 2 + g.rng.IntN(4); return p }
		}, 0},
		{"all planed", func(g *nasty) {
			g.pieces = 6 + g.rng.IntN(5)
			piece := g.piece
			g.piece = func() rack.Piece {
				p := piece()
				p.Planed, p.Thickness = true, g.of(20*mm, 24*mm, 27*mm)
				return p
			}
		}, 0},
		{"side-sliced", func(g *nasty) {
			g.piece = func() rack.Piece {
				return rack.Piece{Length: g.between(300, 900), Width: g.between(60, 150), Thickness: g.between(18, 40), Quantity: 1}
			}
		}, 0},
		{"edge strips", func(g *nasty) {
			g.makes = []pattern.Make{pattern.MakeEdge}
			g.thicknesses = []length.Length{25 * mm, 30 * mm, 35 * mm}
		}, 0},
		{"faults", func(g *nasty) {
			piece := g.piece
			g.piece = func() rack.Piece {
				p := piece()
				at := g.between(0, int(p.Length/mm)-60)
				p.Faults = append(p.Faults, rack.Fault{From: at, To: at + g.between(5, 60)})
				if g.rng.IntN(2) == 0 {
					at := g.between(0, int(p.Width/mm)-10)
					p.Faults = append(p.Faults, rack.Fault{Along: true, From: at, To: at + g.between(2, 10)})
				}
				return p
			}
		}, 0},
		{"ready strips", func(g *nasty) {
			for i := range 2 + g.rng.IntN(5) {
				g.job.Rack.Strips = append(g.job.Rack.Strips, rack.Strip{
					ID: fmt.Sprintf("s%d", i+1), Species: "oak", Quantity: 1 + g.rng.IntN(3), Thickness: g.of(20*mm, 24*mm, 30*mm),
					Width: g.of(g.widths...), Length: g.of(g.lengths...) + g.of(-20*mm, 0, 10*mm),
				})
			}
		}, 0},
		{"nearly short", func(g *nasty) { g.asked, g.pieces, g.most = 0.55+0.2*g.rng.Float64(), 2+g.rng.IntN(2), 26 }, 0},
		{"just short", func(g *nasty) { g.asked, g.pieces, g.most = 0.75+0.3*g.rng.Float64(), 2+g.rng.IntN(2), 26 }, 0},
		{"kerf and allowances 0", func(g *nasty) {
			sh := &g.job.Shop
			sh.Kerf, sh.Draw.OpenedCM3 = shop.Kerf{}, g.percent(0, 20)
			sh.Allowance = shop.Allowance{OverLength: g.of(0, 40*mm)}
			g.widths, g.thicknesses = []length.Length{20 * mm, 30 * mm, 40 * mm}, []length.Length{20 * mm, 30 * mm}
		}, 0},
		{"inches", func(g *nasty) {
			const sixteenth = length.Inch / 16
			sh := &g.job.Shop
			sh.Kerf = shop.Kerf{Rip: 2 * sixteenth, Crosscut: 2 * sixteenth, Resaw: sixteenth}
			sh.Allowance = shop.Allowance{Truing: sixteenth, Cleaning: sixteenth / 2, Planing: sixteenth, Jointing: sixteenth / 2, Flattening: sixteenth, EndTrim: 8 * sixteenth, OverLength: g.of(0, 24*sixteenth)}
			sh.Keep = shop.Keep{Length: 10 * length.Inch, Width: 12 * sixteenth, Thickness: 8 * sixteenth}
			g.lengths = []length.Length{10 * length.Inch, 12 * length.Inch, 14*length.Inch + 3*sixteenth}
			g.widths, g.thicknesses = []length.Length{10 * sixteenth, 14 * sixteenth, 18 * sixteenth}, []length.Length{12 * sixteenth, 14 * sixteenth}
			g.piece = func() rack.Piece {
				inch := func(low, high int) length.Length { return length.Length(low+g.rng.IntN(high-low+1)) * sixteenth }
				return rack.Piece{Length: inch(180, 560), Width: inch(24, 96), Thickness: inch(16, 40), Quantity: 1, UseFirst: g.rng.IntN(4) == 0}
			}
		}, 0},
		{"rings", func(g *nasty) {
			piece := g.piece
			g.piece = func() rack.Piece {
				p := piece()
				if p.Rings = g.rings(); g.rng.IntN(5) == 0 {
					p.Rings = pattern.Rings{}
				}
				return p
			}
		}, 0},
		{"low bandsaw", func(g *nasty) { g.job.Shop.Machine.BandsawHeight = g.of(45*mm, 60*mm, 80*mm) }, 0},
		{"chunky", func(g *nasty) { // few large strips fill each piece
			g.asked, g.most, g.kinds, g.pieces = 1, 22, 2, 4+g.rng.IntN(4)
			g.widths, g.thicknesses = []length.Length{13 * mm, 16 * mm, 19 * mm, 22 * mm, 25 * mm}, []length.Length{15 * mm, 18 * mm, 20 * mm}
			g.lengths = []length.Length{280 * mm, 320 * mm}
			g.piece = func() rack.Piece {
				return rack.Piece{Length: g.between(440, 1000), Width: g.of(90*mm, 120*mm, 150*mm), Thickness: g.of(41*mm, 52*mm, 65*mm), Quantity: 1, UseFirst: g.rng.IntN(4) == 0}
			}
		}, 0},
		// Of this family plans were once called optimal that were not: job 49 is the first.
		{"long searches", func(g *nasty) {
			tight(g)
			g.job.Shop.Draw.ReturnedPct = 100
			g.asked, g.most, g.kinds, g.pieces = 0.6+0.3*g.rng.Float64(), 90, 2, 5+g.rng.IntN(4)
			g.widths, g.thicknesses = []length.Length{30 * mm, 35 * mm}, []length.Length{18 * mm, 22 * mm, 25 * mm}
			g.lengths = []length.Length{280 * mm, 320 * mm}
			g.piece = func() rack.Piece {
				return rack.Piece{Length: g.between(620, 1300), Width: g.of(78*mm, 110*mm, 161*mm), Thickness: g.of(27*mm, 34*mm, 41*mm), Quantity: 1, UseFirst: g.rng.IntN(3) == 0}
			}
		}, 40},
		{"tails in part", func(g *nasty) {
			tight(g)
			g.job.Shop.Draw.TailsPct = g.percent(0, 40, 95)
			g.job.Shop.Draw.UseFirstPct = g.percent(0, 60, 100)
			g.job.Shop.Keep.Length = g.of(0, 60*mm, 150*mm)
			piece := g.piece
			g.piece = func() rack.Piece { p := piece(); p.UseFirst = g.rng.IntN(2) > 0; return p }
		}, 0},
	}
}

// joinedFamilies are those whose strips may be made of pieces, in ways drawn for each.
func joinedFamilies() []family {
	joined := func(g *nasty) {
		g.joined, g.pieces, g.most = true, 4+g.rng.IntN(4), 8
		g.lengths = []length.Length{480 * mm, 560 * mm}
		g.job.Shop.Draw.JointCM3 = g.percent(0, 20, 60)
		g.job.Shop.Allowance.OverLength = g.of(0, 40*mm)
		piece := g.piece
		g.piece = func() rack.Piece { p := piece(); p.Length = g.between(200, 640); return p }
	}
	var out []family
	for _, f := range families() {
		switch f.name {
		case "over_length 40", "use first", "many alike", "side-sliced", "edge strips", "faults", "ready strips", "just short", "rings", "low bandsaw", "tails in part":
			draw := f.draw
			out = append(out, family{"joints, " + f.name, func(g *nasty) { joined(g); draw(g); g.most = min(g.most, 10) }, 0})
		}
	}
	return append(out, family{"joints", joined, 0})
}

// ways draws up to three ways for each strip of a pattern, the first whole.
func (g *nasty) ways(p pattern.Pattern) [][]joints.Way {
	way := func(parts ...length.Length) (w joints.Way) {
		at := length.Length(0)
		for _, long := range parts {
			w = append(w, pattern.StripPiece{Start: at, Length: long})
			at += long + 6*mm
		}
		return w
	}
	out := make([][]joints.Way, len(p.Strips))
	for i, s := range p.Strips {
		if i > 0 && s == p.Strips[i-1] && g.rng.IntN(3) > 0 {
			out[i] = out[i-1]
			continue
		}
		out[i] = []joints.Way{way(p.StripLength(s, g.job.Shop.Allowance.Length))}
		for _, w := range []joints.Way{way(240*mm, 240*mm), way(160*mm, 320*mm), way(160*mm, 160*mm, 160*mm)} {
			if g.rng.IntN(2) == 0 {
				out[i] = append(out[i], w)
			}
		}
	}
	return out
}

func (g *nasty) rings() pattern.Rings {
	r, err := pattern.RingsAt([]float64{0, 10, 45, 80, 90}[g.rng.IntN(5)])
	if err != nil {
		panic(err)
	}
	return r
}

// drawNasty draws a job of a family.
func drawNasty(f family, seed uint64) cutting.Job {
	g := &nasty{rng: rand.New(rand.NewPCG(seed, 41)), asked: 0.4, most: 20, kinds: 2}
	sh := shoptest.Roomy()
	sh.Allowance.Length, sh.Allowance.OverLength = 0, 0
	g.job.Shop = sh
	g.lengths = []length.Length{240 * mm, 280 * mm, 320 * mm}
	g.thicknesses = []length.Length{18 * mm, 22 * mm}
	g.widths = []length.Length{20 * mm, 25 * mm, 30 * mm, 35 * mm}
	g.makes = []pattern.Make{pattern.MakeFlat, pattern.MakeFlat, pattern.MakeEdge}
	g.pieces = 3 + g.rng.IntN(4)
	g.piece = func() rack.Piece {
		return rack.Piece{Length: g.between(300, 900), Width: g.between(36, 110), Thickness: g.between(24, 60), Quantity: 1, UseFirst: g.rng.IntN(5) == 0, Planed: g.rng.IntN(8) == 0}
	}
	f.draw(g)
	room := 0.0
	for len(g.job.Rack.Pieces) < g.pieces {
		p := g.piece()
		p.ID, p.Species = fmt.Sprintf("r%d", len(g.job.Rack.Pieces)+1), "oak"
		g.job.Rack.Pieces = append(g.job.Rack.Pieces, p)
		room += float64(p.Quantity) * length.VolumeCM3(p.Length, p.Width, p.Thickness)
	}
	g.demand(f.name == "rings", g.asked*room)
	return g.job
}

// demand asks for strips until they take so much timber, in panels of a few kinds of
// strip each.
func (g *nasty) demand(rings bool, room float64) {
	strips := 0
	for n := 0; n < 2 && (n == 0 || room > 0 && strips < g.most); n++ {
		p := pattern.Pattern{Panel: pattern.Panel{Length: g.of(g.lengths...), Thickness: g.of(g.thicknesses...), Make: g.makes[g.rng.IntN(len(g.makes))]}}
		for range g.kinds {
			s := pattern.Strip{Species: "oak", Width: g.of(g.widths...)}
			if g.rng.IntN(3) == 0 {
				s.Length = p.Panel.Length * 7 / 8
			}
			if rings && g.rng.IntN(2) == 0 {
				s.Rings = g.rings()
			}
			alone := pattern.Pattern{Panel: p.Panel, Strips: []pattern.Strip{s}}
			each := cutting.Needs(cutting.Job{Shop: g.job.Shop, Patterns: []cutting.Demand{{Pattern: alone, Copies: 1}}})[0]
			bulk := length.VolumeCM3(each.Length, each.Across, each.Sawn)
			for count := 1 + g.rng.IntN(max(1, g.most/(2*g.kinds))); count > 0 && strips < g.most && (strips == 0 || room > 0); count-- {
				p.Strips = append(p.Strips, s)
				strips, room = strips+1, room-bulk
			}
		}
		if len(p.Strips) > 0 {
			d := cutting.Demand{Stem: fmt.Sprintf("p%d", n+1), Pattern: p, Copies: 1}
			if g.joined {
				d.Ways = g.ways(p)
			}
			g.job.Patterns = append(g.job.Patterns, d)
		}
	}
}

// guardJobs is how many jobs of each family are compared, and in the nightly mode.
const (
	guardJobs    = 16
	guardNightly = 158
)

const storedOptima = "testdata/guard.tsv"

// readOptima reads what another solver once made of the jobs.
func readOptima(t *testing.T) map[string]optimum {
	t.Helper()
	f, err := os.Open(storedOptima)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	stored := map[string]optimum{}
	for in := bufio.NewScanner(f); in.Scan(); {
		cells := strings.Split(in.Text(), "\t")
		if len(cells) != 5 {
			t.Fatalf("%s: %q: want family, seed, ready, short, drawn", storedOptima, in.Text())
		}
		var o optimum
		if _, err := fmt.Sscan(strings.Join(cells[2:], " "), &o.ready, &o.short, &o.drawn); err != nil {
			t.Fatalf("%s: %q: %v", storedOptima, in.Text(), err)
		}
		stored[cells[0]+"\t"+cells[1]] = o
	}
	return stored
}

// A guard compares jobs with the answers of another solver.
type guard struct {
	solvers []intSolver // those that are here
	stored  map[string]optimum
	jobs    int // of each family
	mu      sync.Mutex
	out     []string // answers to store
}

// TestGuard solves the jobs of every family and compares each with the optimum that
// another solver finds: cbc or glpsol where one is installed, else, for the jobs of the
// short run, their stored answers. ODDMENTS_NIGHTLY=1 takes ten times as many jobs, all
// of them live. ODDMENTS_GUARD=store stores the answers anew.
func TestGuard(t *testing.T) {
	g := &guard{jobs: guardJobs}
	nightly, store := os.Getenv("ODDMENTS_NIGHTLY") != "", os.Getenv("ODDMENTS_GUARD") == "store"
	switch {
	case nightly:
		g.jobs = guardNightly
	case testing.Short():
		g.jobs = 3
	}
	g.solvers = installedSolvers()
	if (nightly || store) && len(g.solvers) == 0 {
		t.Fatal("this mode needs cbc (Debian: coinor-cbc) or glpsol (glpk-utils)")
	}
	if !store {
		g.stored = readOptima(t)
	}
	if len(g.solvers) > 0 {
		t.Logf("%s is here: it solves every job too", g.solvers[0].name)
	} else {
		t.Logf("neither cbc nor glpsol is here: compared with the answers stored in %s", storedOptima)
	}
	for _, f := range slices.Concat(families(), joinedFamilies()) {
		t.Run(f.name, func(t *testing.T) {
			t.Parallel()
			g.family(t, f)
		})
	}
	t.Cleanup(func() {
		if store {
			slices.Sort(g.out)
			if err := os.WriteFile(storedOptima, []byte(strings.Join(g.out, "")), 0o644); err != nil {
				t.Error(err)
			}
		}
	})
}

// family compares the jobs of one family.
func (g *guard) family(t *testing.T, f family) {
	var compared, proved, short, ready int
	for n := range g.jobs {
		seed := f.from + n
		job := drawNasty(f, uint64(seed))
		plan, err := Plan(context.Background(), job, Options{Workers: 2})
		if err != nil {
			t.Fatal(err)
		}
		if err := cutting.Verify(job, plan); err != nil {
			t.Errorf("job %d: %v", seed, err)
		}
		if plan.Status == cutting.Optimal {
			proved++
		}
		want, ok := g.optimum(t, f, seed, job, plan)
		if !ok {
			continue
		}
		compared++
		if err := claims(plan, want, strings.HasPrefix(f.name, "joints")); err != nil {
			t.Errorf("job %d: %v", seed, err)
		}
		if want.short > 0 {
			short++
		}
		if want.ready > 0 {
			ready++
		}
	}
	t.Logf("%-24s %4d jobs, %4d proved, %4d compared, %4d of them short of strips, %4d with ready strips", f.name, g.jobs, proved, compared, short, ready)
	if proved < g.jobs {
		t.Errorf("%d of %d jobs are not proved", g.jobs-proved, g.jobs)
	}
	if compared < g.jobs-g.jobs/20 {
		t.Errorf("%d of %d jobs are not compared", g.jobs-compared, g.jobs)
	}
}

// optimum returns what the other solver makes of a job, or once made of it; false where it
// came to nothing in its time.
func (g *guard) optimum(t *testing.T, f family, seed int, job cutting.Job, plan cutting.Plan) (optimum, bool) {
	t.Helper()
	key := fmt.Sprintf("%s\t%d", f.name, seed)
	want, known := g.stored[key]
	if len(g.solvers) == 0 {
		if !known {
			t.Fatalf("%s holds no answer to job %d", storedOptima, seed)
		}
		return want, true
	}
	now, err := newProgram(job).optimum(t, g.solvers, plan)
	if err != nil {
		t.Logf("job %d: %v", seed, err)
		return want, known
	}
	if known && (now.ready != want.ready || now.short != want.short || math.Abs(now.drawn-want.drawn) > guardWithin) {
		t.Errorf("job %d: another solver finds %+v, stored is %+v", seed, now, want)
	}
	g.mu.Lock()
	defer g.mu.Unlock()
	g.out = append(g.out, fmt.Sprintf("%s\t%d\t%d\t%.6f\n", key, now.ready, now.short, now.drawn))
	return now, true
}

// guardWithin is how far, in cubic centimetres, another solver's optimum may lie from
// ours: it works in floating point.
const guardWithin = 1e-3

// claims reports what a plan claims that is not so, given the optimum.
func claims(plan cutting.Plan, want optimum, joined bool) error {
	switch {
	case !joined && len(plan.Ready) != want.ready:
		return fmt.Errorf("%d ready strips serve, %d can", len(plan.Ready), want.ready)
	case plan.Short < want.short:
		return fmt.Errorf("%d strips short, but %d are at the fewest", plan.Short, want.short)
	case plan.Status == cutting.Optimal && plan.Short > want.short:
		return fmt.Errorf("optimal with %d strips short, %d will do", plan.Short, want.short)
	case plan.Short == want.short && plan.Counted() < want.drawn-guardWithin:
		return fmt.Errorf("draws %.6f cm3, the other solver's least is %.6f", plan.DrawnCM3, want.drawn)
	case plan.Status == cutting.Optimal && plan.Counted() > want.drawn+guardWithin:
		return fmt.Errorf("optimal with %.6f cm3 drawn, %.6f will do", plan.DrawnCM3, want.drawn)
	case plan.Short == want.short && plan.LowerBoundCM3+plan.JointsCM3 > want.drawn+guardWithin:
		return fmt.Errorf("bound of %.6f cm3, %.6f can be drawn", plan.LowerBoundCM3, want.drawn)
	}
	return nil
}
