package solve

import (
	"bytes"
	"errors"
	"fmt"
	"maps"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
)

// A program writes a job as an integer program: a variable for every set of strips
// that a piece can yield, at the least it then draws, one for every kind of strip
// that every kind of ready strip may serve, and one for the strips short. The sets
// are listed by a setLister, which like brute shares only Needs and Clear with Solve.
type program struct {
	job     cutting.Job
	choices []cutting.Choice
	joined  bool // strips take ways
	kinds   []cutting.Strip
	want    tallied
	stocks  []rack.Piece // pieces, alike ones once
	avail   []int        // of each stock
	ready   []rack.Strip
	columns []programColumn
}

// mostKinds is how many kinds of strip a program may have.
const mostKinds = 16

// tallied counts the strips of each kind.
type tallied [mostKinds]uint8

func (t tallied) plus(u tallied) tallied {
	for k := range u {
		t[k] += u[k]
	}
	return t
}

func (t tallied) within(most tallied) bool {
	for k := range t {
		if t[k] > most[k] {
			return false
		}
	}
	return true
}

type programColumn struct {
	stock  int
	counts tallied
	drawn  float64
}

func newProgram(job cutting.Job) *program {
	p := &program{job: job, choices: cutting.Choices(job)}
	for _, c := range p.choices {
		p.joined = p.joined || len(c.Ways) > 1 || len(c.Ways[0]) > 1
		var most tallied
		for _, way := range c.Ways {
			for k, n := range p.wants(way) {
				most[k] = max(most[k], n)
			}
		}
		p.want = p.want.plus(most)
	}
	for _, piece := range job.Rack.Pieces {
		for _, c := range piece.Clear() {
			alike := c.Piece
			alike.ID, alike.Quantity, alike.Note = "", 0, ""
			at := slices.IndexFunc(p.stocks, func(s rack.Piece) bool { return fmt.Sprint(s) == fmt.Sprint(alike) })
			if at < 0 {
				at = len(p.stocks)
				p.stocks, p.avail = append(p.stocks, alike), append(p.avail, 0)
			}
			p.avail[at] += piece.Quantity
		}
	}
	for _, s := range job.Rack.Strips {
		for range s.Quantity {
			p.ready = append(p.ready, s)
		}
	}
	for i, s := range p.stocks {
		l := setLister{job: job, piece: s, kinds: p.kinds, want: p.want}
		columns := l.list()
		for _, counts := range slices.SortedFunc(maps.Keys(columns), func(a, b tallied) int { return bytes.Compare(a[:], b[:]) }) {
			p.columns = append(p.columns, programColumn{i, counts, columns[counts]})
		}
	}
	return p
}

// wants counts the pieces of a way by their kinds.
func (p *program) wants(way []cutting.Strip) (counts tallied) {
	for _, n := range way {
		n.Ref = cutting.Ref{}
		at := slices.Index(p.kinds, n)
		if at < 0 {
			at = len(p.kinds)
			p.kinds = append(p.kinds, n)
		}
		counts[at]++
	}
	return counts
}

// A setLister finds every set of strips that a piece can yield, with the least that is
// then drawn. It works with maps from what counts to the best there is, and knows no
// bound.
type setLister struct {
	job   cutting.Job
	piece rack.Piece
	kinds []cutting.Strip
	want  tallied
}

// A laid set is strips with the length or thickness that they use.
type laidSet struct {
	counts tallied
	used   length.Length
}

// list returns what is drawn, for each set of strips.
func (l *setLister) list() map[tallied]float64 {
	sh := l.job.Shop
	sections := map[laidSet]float64{} // by strips and length with its crosscut: what goes back, in cm3
	tried := map[length.Length]bool{}
	for _, k := range l.kinds {
		if tried[k.Length] || k.Species != l.piece.Species {
			continue
		}
		tried[k.Length] = true
		for counts, back := range l.sections(k.Length) {
			sections[laidSet{counts, k.Length + sh.Kerf.Crosscut}] = back
		}
	}
	room := l.piece.Length - 2*sh.Allowance.EndTrim + sh.Kerf.Crosscut
	least := map[tallied]float64{}
	level := map[laidSet]float64{{}: 0}
	for len(level) > 0 {
		next := map[laidSet]float64{}
		for have, back := range level {
			for s, more := range sections {
				sum := laidSet{have.counts.plus(s.counts), have.used + s.used}
				if sum.used > room || !sum.counts.within(l.want) {
					continue
				}
				if best, ok := next[sum]; !ok || back+more > best {
					next[sum] = back + more
				}
			}
		}
		for s, back := range next {
			now := l.drawn(s.used, back)
			if best, ok := least[s.counts]; !ok || now < best {
				least[s.counts] = now
			}
		}
		level = next
	}
	return least
}

// drawn is what the statement counts for a piece whose sections use so much of its
// length and give so much back.
func (l *setLister) drawn(used length.Length, back float64) float64 {
	sh, p := l.job.Shop, l.piece
	away := p.Length.MM()
	if tail := p.Length - sh.Allowance.EndTrim - used; tail > 0 && tail >= sh.Keep.Length {
		away -= sh.Draw.TailsPct / 100 * tail.MM()
	}
	share := 1.0
	if p.UseFirst {
		share = sh.Draw.UseFirstPct / 100
	}
	return share*(away*p.Width.MM()*p.Thickness.MM()/1000-sh.Draw.ReturnedPct/100*back) + sh.Draw.OpenedCM3
}

// sections returns what goes back, for each set of strips of a section so long.
func (l *setLister) sections(long length.Length) map[tallied]float64 {
	all := map[tallied]float64{}
	turns := []bool{false, true}
	if l.piece.Planed {
		turns = turns[:1]
	}
	for _, side := range turns {
		across, depth := l.piece.Width, l.piece.Thickness
		if !l.piece.Planed {
			across, depth = across-l.job.Shop.Allowance.Truing, depth-l.job.Shop.Allowance.Truing
		}
		if side {
			across, depth = depth, across
		}
		for counts, back := range l.stacks(long, side, across, depth) {
			if best, ok := all[counts]; !ok || back > best {
				all[counts] = back
			}
		}
	}
	return all
}

// stacks lays slice on slice.
func (l *setLister) stacks(long length.Length, side bool, across, depth length.Length) map[tallied]float64 {
	sh := l.job.Shop
	slices := map[laidSet]float64{}
	l.slice(long, side, across, 0, tallied{}, 0, 0, slices)
	waste := sh.Kerf.Resaw + sh.Allowance.Cleaning
	low := sh.Machine.BandsawHeight == 0 || across <= sh.Machine.BandsawHeight
	returns := long >= sh.Keep.Length
	all := map[tallied]float64{}
	level := map[laidSet]float64{{}: 0}
	for first := true; len(level) > 0 && (first || !l.piece.Planed && low); first = false {
		next := map[laidSet]float64{}
		for have, back := range level {
			for s, more := range slices {
				sum := laidSet{have.counts.plus(s.counts), have.used + s.used}
				if !l.piece.Planed {
					if sum.used > depth {
						continue
					}
					sum.used += waste
				}
				if !sum.counts.within(l.want) {
					continue
				}
				if best, ok := next[sum]; !ok || back+more > best {
					next[sum] = back + more
				}
			}
		}
		for s, back := range next {
			if slab := depth - s.used; !l.piece.Planed && low && returns && slab > 0 && slab >= sh.Keep.Thickness {
				back += slab.MM() * across.MM() * long.MM() / 1000
			}
			if best, ok := all[s.counts]; !ok || back > best {
				all[s.counts] = back
			}
		}
		level = next
	}
	return all
}

// slice gathers the ways to rip a slice, from the k-th kind on, with what their rips
// bring. used is their thickness.
func (l *setLister) slice(long length.Length, side bool, across length.Length, k int, counts tallied, width, sawn length.Length, all map[laidSet]float64) {
	if k == len(l.kinds) {
		return
	}
	l.slice(long, side, across, k+1, counts, width, sawn, all)
	n, sh := l.kinds[k], l.job.Shop
	over := long - n.Length
	turns := 0
	if side {
		turns++
	}
	if n.Make == pattern.MakeEdge {
		turns++
	}
	thick := n.Sawn
	if l.piece.Planed {
		thick = l.piece.Thickness
	}
	if n.Species != l.piece.Species || over < 0 || over > sh.Allowance.OverLength || !bruteRings(l.piece.Rings, n.Rings, turns) ||
		sawn > 0 && thick != sawn || l.piece.Planed && n.Least > l.piece.Thickness {
		return
	}
	for counts[k] < l.want[k] {
		if width > 0 {
			width += sh.Kerf.Rip
		}
		width += n.Across
		if width > across {
			return
		}
		counts[k]++
		back := 0.0
		if rip := across - width - sh.Kerf.Rip; long >= sh.Keep.Length && rip > 0 && rip >= sh.Keep.Width {
			back = rip.MM() * thick.MM() * long.MM() / 1000
		}
		all[laidSet{counts, thick}] = back
		l.slice(long, side, across, k+1, counts, width, thick, all)
	}
}

// write returns the program in the LP format. Rows beyond those of the statement are
// sums that are to be met.
func (p *program) write(goal string, sums map[string]int) []byte {
	var w bytes.Buffer
	var rows, names []string
	terms := map[string][]string{} // of each quantity that may be the goal
	perKind := make([][]string, len(p.kinds))
	perStock := make([][]string, len(p.stocks))
	for i, c := range p.columns {
		x := fmt.Sprintf("x%d", i)
		names = append(names, x)
		terms["drawn"] = append(terms["drawn"], fmt.Sprintf("%.9f %s", c.drawn, x))
		perStock[c.stock] = append(perStock[c.stock], x)
		for k, n := range c.counts {
			if n > 0 {
				perKind[k] = append(perKind[k], fmt.Sprintf("%d %s", n, x))
			}
		}
	}
	for i, r := range p.ready {
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
	for i, c := range p.choices {
		if !p.joined {
			break
		}
		s := fmt.Sprintf("s%d", i)
		names, terms["short"] = append(names, s), append(terms["short"], s)
		one := []string{s}
		for w, way := range c.Ways {
			z := fmt.Sprintf("z%d_%d", i, w)
			names, one = append(names, z), append(one, z)
			if joints := float64(len(way)-1) * p.job.Shop.Draw.JointCM3; joints > 0 {
				terms["drawn"] = append(terms["drawn"], fmt.Sprintf("%.9f %s", joints, z))
			}
			for k, n := range p.wants(way) {
				if n > 0 {
					perKind[k] = append(perKind[k], fmt.Sprintf("-%d %s", n, z))
				}
			}
		}
		rows = append(rows, strings.Join(one, " + ")+" = 1")
	}
	for k := range p.kinds {
		if p.joined {
			rows = append(rows, strings.Join(append(perKind[k], "0 zero"), " + ")+" = 0")
			continue
		}
		s := fmt.Sprintf("s%d", k)
		names = append(names, s)
		terms["short"] = append(terms["short"], s)
		rows = append(rows, strings.Join(append(perKind[k], s), " + ")+fmt.Sprintf(" = %d", p.want[k]))
	}
	for i, used := range perStock {
		if len(used) > 0 {
			rows = append(rows, strings.Join(used, " + ")+fmt.Sprintf(" <= %d", p.avail[i]))
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

// An intSolver is another program that solves integer programs.
type intSolver struct {
	name string
	run  func(in, out string) *exec.Cmd
	// goal reads the value of the goal from what the program wrote.
	goal func(text string) (float64, error)
}

// intSolvers are those that a check may be made with, the quickest first: COIN-OR's cbc
// and GLPK's glpsol.
func intSolvers() []intSolver {
	return []intSolver{
		{"cbc", func(in, out string) *exec.Cmd {
			return exec.Command("cbc", in, "-ratioGap", "0", "-allowableGap", "0", "-seconds", "60", "-solve", "-solution", out, "-quit")
		}, func(text string) (float64, error) {
			first, _, _ := strings.Cut(text, "\n")
			value, found := strings.CutPrefix(first, "Optimal - objective value ")
			if !found {
				return 0, fmt.Errorf("cbc found no optimum: %s", first)
			}
			return strconv.ParseFloat(strings.TrimSpace(value), 64)
		}},
		{"glpsol", func(in, out string) *exec.Cmd {
			return exec.Command("glpsol", "--tmlim", "60", "--lp", in, "-w", out)
		}, func(text string) (float64, error) {
			for line := range strings.Lines(text) {
				if f := strings.Fields(line); len(f) == 6 && f[0] == "s" && f[1] == "mip" && f[4] == "o" {
					return strconv.ParseFloat(f[5], 64)
				}
			}
			return 0, errors.New("glpsol found no optimum")
		}},
	}
}

// installedSolvers returns those of intSolvers that are here.
func installedSolvers() []intSolver {
	return slices.DeleteFunc(intSolvers(), func(s intSolver) bool {
		_, err := exec.LookPath(s.name)
		return err != nil
	})
}

// solve runs the first of solvers on the program that does not fail, as cbc does now and
// then by an assertion of its own, and returns the value of its goal. Each has a minute; an
// error says that none had an answer.
func (p *program) solve(t testing.TB, solvers []intSolver, goal string, sums map[string]int) (float64, error) {
	t.Helper()
	dir := t.TempDir()
	in, out := filepath.Join(dir, "job.lp"), filepath.Join(dir, "job.out")
	if err := os.WriteFile(in, p.write(goal, sums), 0o600); err != nil {
		t.Fatal(err)
	}
	var failed error
	for _, s := range solvers {
		text, err := s.run(in, out).CombinedOutput()
		if err != nil {
			failed = errors.Join(failed, fmt.Errorf("%s: %w\n%.2000s", s.name, err, text))
			continue
		}
		data, err := os.ReadFile(out)
		if err != nil {
			t.Fatal(err)
		}
		value, err := s.goal(string(data))
		if err == nil {
			return value, nil
		}
		failed = errors.Join(failed, err)
	}
	return 0, failed
}

// An optimum is what the statement asks for, as numbers.
type optimum struct {
	ready, short int
	drawn        float64
}

// optimum returns what other solvers make of the program. Where plan leaves no strip
// short, none need be; they are not asked how few. An error says that they made nothing
// of it.
func (p *program) optimum(t testing.TB, s []intSolver, plan cutting.Plan) (o optimum, err error) {
	t.Helper()
	sums := map[string]int{}
	ask := func(goal string) (value float64) {
		if err == nil {
			value, err = p.solve(t, s, goal, sums)
		}
		return value
	}
	if p.joined { // ready strips that serve draw nothing, which is goal enough
		o.ready = len(plan.Ready)
	} else {
		if len(p.ready) > 0 {
			o.ready = int(math.Round(ask("ready")))
		}
		sums["ready"] = o.ready
	}
	if plan.Short > 0 || len(plan.Ready) < o.ready {
		o.short = int(math.Round(ask("short")))
	}
	sums["short"] = o.short
	o.drawn = ask("drawn")
	return o, err
}

// What the setLister says of one piece alone is what trying all says.
func TestListerAgainstTryingAll(t *testing.T) {
	checked := 0
	for seed := range uint64(400) {
		job := tinyJob(seed)
		job.Rack.Strips = nil
		for i := range job.Rack.Pieces {
			one := job
			one.Rack.Pieces = []rack.Piece{job.Rack.Pieces[i]}
			one.Rack.Pieces[0].Quantity, one.Rack.Pieces[0].Faults = 1, nil
			b := newBrute(one)
			b.place(0)
			short, drawn := len(b.needs), 0.0
			for _, c := range newProgram(one).columns {
				left := len(b.needs)
				for _, n := range c.counts {
					left -= int(n)
				}
				if left < short || left == short && c.drawn < drawn {
					short, drawn = left, c.drawn
				}
			}
			if short != b.bestShort || math.Abs(drawn-b.bestDrawn) > 1e-6 {
				t.Errorf("job %d, piece %d: %d short, %.6f cm3, want %d, %.6f", seed, i, short, drawn, b.bestShort, b.bestDrawn)
			}
			if short < len(b.needs) {
				checked++
			}
		}
	}
	if checked < 300 {
		t.Errorf("only %d pieces yield anything", checked)
	}
}
