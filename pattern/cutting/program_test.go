package cutting

import (
	"bytes"
	"context"
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
)

// A program writes a job as an integer program: a variable for every set of strips
// that a piece can yield, at the least it then draws, one for every kind of strip
// that every kind of ready strip may serve, and one for the strips short. The sets
// are found by trying them all, with the geometry of brute.
type program struct {
	b       *brute
	kinds   []Strip
	want    []int
	places  [][]int // of each kind, places in the needs
	columns []programColumn
}

type programColumn struct {
	piece  int
	counts string // one byte a kind
	drawn  float64
}

func newProgram(job Job) *program {
	p := &program{b: newBrute(job)}
	for i, n := range p.b.needs {
		n.Ref = Ref{}
		at := slices.Index(p.kinds, n)
		if at < 0 {
			at = len(p.kinds)
			p.kinds = append(p.kinds, n)
			p.want, p.places = append(p.want, 0), append(p.places, nil)
		}
		p.want[at]++
		p.places[at] = append(p.places[at], i)
	}
	for i := range p.b.pieces {
		p.piece(i)
	}
	return p
}

// A programKey tells apart what pieces yield that are cut alike far.
type programKey struct {
	counts string // one byte a kind
	used   length.Length
}

// piece adds the columns of one piece. Of the ways to get the same strips from the
// same length of it only the one that draws least is gone on from: what a section
// gives back does not hang on the others.
func (p *program) piece(i int) {
	piece := &p.b.pieces[i]
	options := p.options(piece)
	least := map[string]float64{}
	level := map[programKey][]bruteSection{{counts: string(make([]byte, len(p.kinds)))}: nil}
	for len(level) > 0 {
		next, drawn := map[programKey][]bruteSection{}, map[programKey]float64{}
		for key, sections := range level {
			for of, o := range options {
				sum := []byte(key.counts)
				for k := range sum {
					sum[k] += of.counts[k]
				}
				if !p.within(sum) {
					continue
				}
				piece.sections = append(slices.Clone(sections), o)
				if p.b.length(piece) > piece.Length {
					continue
				}
				to, now := programKey{string(sum), key.used + o.long}, p.b.drawn(piece)
				if have, ok := drawn[to]; !ok || now < have {
					next[to], drawn[to] = piece.sections, now
				}
				if have, ok := least[to.counts]; !ok || now < have {
					least[to.counts] = now
				}
			}
		}
		level = next
	}
	for _, counts := range slices.Sorted(maps.Keys(least)) {
		p.columns = append(p.columns, programColumn{i, counts, least[counts]})
	}
	piece.sections = nil
}

// options gives, for the strips that a section of a piece can yield, the way to use
// it that draws least.
func (p *program) options(piece *brutePiece) map[programKey]bruteSection {
	best, drawn := map[programKey]bruteSection{}, map[programKey]float64{}
	tried := map[length.Length]bool{}
	for _, k := range p.kinds {
		if k.Species != piece.Species || tried[k.Length] {
			continue
		}
		tried[k.Length] = true
		for _, side := range []bool{false, true} {
			for _, s := range p.sections(piece, k.Length, side) {
				piece.sections = []bruteSection{s}
				key, now := programKey{string(p.counts(&s)), s.long}, p.b.drawn(piece)
				if have, ok := drawn[key]; !ok || now < have {
					best[key], drawn[key] = s, now
				}
			}
		}
	}
	piece.sections = nil
	return best
}

func (p *program) counts(s *bruteSection) []byte {
	counts := make([]byte, len(p.kinds))
	for _, slice := range s.slices {
		for _, n := range slice {
			counts[p.kindOf(n)]++
		}
	}
	return counts
}

func (p *program) kindOf(place int) int {
	return slices.IndexFunc(p.places, func(places []int) bool { return places[0] == place })
}

func (p *program) within(counts []byte) bool {
	for k, n := range counts {
		if int(n) > p.want[k] {
			return false
		}
	}
	return true
}

// sections gives every way to use a section, strips of a kind all standing for the
// kind's first, and slices in any order being the same.
func (p *program) sections(piece *brutePiece, long length.Length, side bool) []bruteSection {
	var all []bruteSection
	seen := map[string]bool{}
	cur := bruteSection{long: long, side: side}
	var add func(kind int)
	try := func(kind int) {
		copied := bruteSection{long: long, side: side}
		for _, slice := range cur.slices {
			copied.slices = append(copied.slices, slices.Clone(slice))
		}
		slices.SortFunc(copied.slices, slices.Compare)
		key := fmt.Sprint(copied.slices)
		if seen[key] {
			return
		}
		seen[key] = true
		if p.within(p.counts(&cur)) && p.b.fits(piece, &cur) {
			all = append(all, copied)
			add(kind)
		}
	}
	add = func(kind int) {
		for k := kind; k < len(p.kinds); k++ {
			if p.kinds[k].Species != piece.Species {
				continue
			}
			n := p.places[k][0]
			for i := range cur.slices {
				cur.slices[i] = append(cur.slices[i], n)
				try(k)
				cur.slices[i] = cur.slices[i][:len(cur.slices[i])-1]
			}
			cur.slices = append(cur.slices, []int{n})
			try(k)
			cur.slices = cur.slices[:len(cur.slices)-1]
		}
	}
	add(0)
	return all
}

// write gives the program in the LP format. Rows beyond those of the statement are
// sums that are to be met.
func (p *program) write(goal string, sums map[string]int) []byte {
	var w bytes.Buffer
	var rows, names []string
	terms := map[string][]string{} // of each quantity that may be the goal
	perKind := make([][]string, len(p.kinds))
	perPiece := make([][]string, len(p.b.pieces))
	for i, c := range p.columns {
		x := fmt.Sprintf("x%d", i)
		names = append(names, x)
		terms["drawn"] = append(terms["drawn"], fmt.Sprintf("%.9f %s", c.drawn, x))
		perPiece[c.piece] = append(perPiece[c.piece], x)
		for k, n := range []byte(c.counts) {
			if n > 0 {
				perKind[k] = append(perKind[k], fmt.Sprintf("%d %s", n, x))
			}
		}
	}
	for i, r := range p.b.ready {
		var used []string
		for k, n := range p.kinds {
			if r.Species == n.Species && r.Width == n.Width && r.Length >= n.Length && r.Thickness >= n.Glued && bruteRings(r.Rings, n.Rings, 0) {
				y := fmt.Sprintf("y%d_%d", i, k)
				names, used = append(names, y), append(used, y)
				perKind[k] = append(perKind[k], y)
				terms["ready"] = append(terms["ready"], y)
			}
		}
		if len(used) > 0 {
			rows = append(rows, strings.Join(used, " + ")+" <= 1")
		}
	}
	for k := range p.kinds {
		s := fmt.Sprintf("s%d", k)
		names = append(names, s)
		terms["short"] = append(terms["short"], s)
		rows = append(rows, strings.Join(append(perKind[k], s), " + ")+fmt.Sprintf(" = %d", p.want[k]))
	}
	for _, used := range perPiece {
		if len(used) > 0 {
			rows = append(rows, strings.Join(used, " + ")+" <= 1")
		}
	}
	for _, name := range []string{"ready", "short"} {
		if n, ok := sums[name]; ok && len(terms[name]) > 0 {
			rows = append(rows, strings.Join(terms[name], " + ")+fmt.Sprintf(" = %d", n))
		}
	}
	sense := "Minimize"
	if goal == "ready" {
		sense = "Maximize"
	}
	fmt.Fprintf(&w, "%s\n goal: %s\nSubject To\n", sense, strings.Join(append(terms[goal], "0 zero"), "\n + "))
	for i, row := range rows {
		fmt.Fprintf(&w, " r%d: %s\n", i, strings.ReplaceAll(row, " + ", "\n  + "))
	}
	fmt.Fprintf(&w, "General\n %s\nEnd\n", strings.Join(names, "\n "))
	return w.Bytes()
}

// solve runs glpsol on the program and gives the value of its goal.
func (p *program) solve(t *testing.T, glpsol, goal string, sums map[string]int) float64 {
	t.Helper()
	dir := t.TempDir()
	in, out := filepath.Join(dir, "job.lp"), filepath.Join(dir, "job.out")
	if err := os.WriteFile(in, p.write(goal, sums), 0o600); err != nil {
		t.Fatal(err)
	}
	if text, err := exec.Command(glpsol, "--lp", in, "-w", out).CombinedOutput(); err != nil {
		t.Fatalf("glpsol: %v\n%s", err, text)
	}
	data, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(data)) {
		if f := strings.Fields(line); len(f) == 6 && f[0] == "s" && f[1] == "mip" && f[4] == "o" {
			value, err := strconv.ParseFloat(f[5], 64)
			if err != nil {
				t.Fatal(err)
			}
			return value
		}
	}
	t.Fatalf("glpsol found no optimum:\n%s", data)
	return 0
}

// smallJob draws a job of some ten strips of one timber.
func smallJob(seed uint64) Job {
	rng := rand.New(rand.NewPCG(seed, 5))
	job := Job{Shop: randomShop(rng)}
	for i := range 1 + rng.IntN(2) {
		p := pattern.Pattern{Panel: pattern.Panel{
			Length: []length.Length{240, 280, 320}[rng.IntN(3)] * mm, Thickness: []length.Length{18, 22}[rng.IntN(2)] * mm, Make: pattern.Make(rng.IntN(2)),
		}}
		for range 2 {
			s := pattern.Strip{Species: "oak", Width: []length.Length{20, 25, 35}[rng.IntN(3)] * mm}
			if rng.IntN(3) == 0 {
				s.Length = p.Panel.Length * 9 / 10
			}
			for range 2 + rng.IntN(3) {
				p.Strips = append(p.Strips, s)
			}
		}
		job.Patterns = append(job.Patterns, Demand{Stem: fmt.Sprintf("p%d", i+1), Pattern: p, Copies: 1})
	}
	for pieces := 2 + rng.IntN(6); len(job.Rack.Pieces) < pieces; {
		job.Rack.Pieces = append(job.Rack.Pieces, rack.Piece{
			ID: fmt.Sprintf("r%d", len(job.Rack.Pieces)+1), Species: "oak", Quantity: 1, Planed: rng.IntN(5) == 0, UseFirst: rng.IntN(4) == 0,
			Length: length.Length(280+rng.IntN(500)) * mm, Width: length.Length(36+rng.IntN(50)) * mm, Thickness: length.Length(24+rng.IntN(30)) * mm,
		})
	}
	for i := range rng.IntN(3) {
		job.Rack.Strips = append(job.Rack.Strips, rack.Strip{
			ID: fmt.Sprintf("s%d", i+1), Species: "oak", Quantity: 1 + rng.IntN(2), Thickness: 24 * mm,
			Width: []length.Length{20, 25, 35}[rng.IntN(3)] * mm, Length: []length.Length{230, 260, 330}[rng.IntN(3)] * mm,
		})
	}
	return job
}

// TestAgainstIntegerProgram compares with GLPK's glpsol, where that is installed.
func TestAgainstIntegerProgram(t *testing.T) {
	glpsol, err := exec.LookPath("glpsol")
	if err != nil {
		t.Skip("glpsol (GLPK) is not installed; the brute force test covers smaller jobs")
	}
	for seed := range 20 {
		job := smallJob(uint64(seed))
		plan, err := Solve(context.Background(), job, Options{})
		if err != nil {
			t.Fatal(err)
		}
		if err := Verify(job, plan); err != nil {
			t.Errorf("job %d: %v", seed, err)
		}
		p := newProgram(job)
		sums := map[string]int{}
		sums["ready"] = int(math.Round(p.solve(t, glpsol, "ready", sums)))
		sums["short"] = int(math.Round(p.solve(t, glpsol, "short", sums)))
		drawn := p.solve(t, glpsol, "drawn", sums)
		t.Logf("job %d: %d strips, %d columns, %d ready, %d short, %.4f cm3", seed, len(p.b.needs), len(p.columns), sums["ready"], sums["short"], drawn)
		if plan.Status != Optimal || len(plan.Ready) != sums["ready"] || plan.Short != sums["short"] || math.Abs(plan.DrawnCM3-drawn) > 1e-3 {
			t.Errorf("job %d: %v, %d ready, %d short, %.6f cm3, want optimal, %d, %d, %.6f", seed, plan.Status, len(plan.Ready), plan.Short, plan.DrawnCM3, sums["ready"], sums["short"], drawn)
		}
	}
}
