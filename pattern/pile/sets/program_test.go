package sets

import (
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
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/orders"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/suggest/look"
	"example.com/oddments/species"
)

// A demand is one strip that is to be cut.
type demand struct {
	species  string
	moisture pattern.Reading
	rings    pattern.Rings
	glued    length.Length
	width    length.Length
	long     length.Length
}

// A column is a panel: the strips that it needs, in order, and what it makes.
type column struct {
	want, along int
	needs       []int // of the demands
}

// A program is an integer program: which panels, cut from the rack in which way, are worth most.
type program struct {
	r       Request
	demands []demand
	columns []column
	at      map[demand]int
	rows    []string
	names   []string
}

// Bounds above which a case is left out.
const (
	mostTried   = 40_000
	mostColumns = 400
	mostNames   = 2_500
)

// programOf lists all panels and all ways to saw; nil where there are too many, or none.
func programOf(r Request) *program {
	p := &program{r: r, at: map[demand]int{}}
	for i, w := range r.Wants {
		if !p.allPanels(i, w) {
			return nil
		}
	}
	if len(p.columns) == 0 || len(p.columns) > mostColumns {
		return nil
	}
	p.write()
	if len(p.names) > mostNames {
		return nil
	}
	return p
}

// kindsOf lists what strips there may be: of each entry as wide as it is or as is standing, with
// the rings that it shows upright and turned over.
func (p *program) kindsOf(w orders.Want) (out []pattern.Strip) {
	put := func(e rack.Piece, rings pattern.Rings, width length.Length) {
		s := pattern.Strip{Species: e.Species, Width: width, Rings: rings, Moisture: e.Moisture}
		if !slices.Contains(out, s) && !slices.Contains(w.Without, s.Species) {
			out = append(out, s)
		}
	}
	widths := p.r.Physics.Shop().Standing.Widths()
	if w.Look == look.Accent {
		widths = append(widths, min(12*mm, slices.Min(widths)))
	}
	for _, e := range p.r.Rack.Pieces {
		for _, width := range widths {
			put(e, e.Rings, width)
			if !e.Planed {
				put(e, turned(e.Rings), width)
			}
		}
	}
	for _, e := range p.r.Rack.Strips {
		put(rack.Piece{Species: e.Species, Moisture: e.Moisture}, e.Rings, e.Width)
	}
	return out
}

// turned returns how rings lie when a piece is turned by a quarter.
func turned(r pattern.Rings) pattern.Rings {
	switch r {
	case pattern.RingsFlat():
		return pattern.RingsQuarter()
	case pattern.RingsQuarter():
		return pattern.RingsFlat()
	}
	return r
}

// allPanels tries all rows of strips that a want's panels may be of; false: there are too many.
func (p *program) allPanels(at int, w orders.Want) bool {
	sh := p.r.Physics.Shop()
	_, across := sizeOf(w)
	least := across + 2*sh.Cut.SideMargin
	kinds := p.kindsOf(w)
	floor := w.LeastContrast
	if w.Look == look.Fade {
		floor = min(floor, 4)
	}
	told := map[[2]int]bool{}
	for i, a := range kinds {
		for j, b := range kinds {
			told[[2]int{i, j}] = species.Contrast(oiledOf(p.r, a), oiledOf(p.r, b)) >= floor
		}
	}
	seen := map[string]bool{}
	tried := 0
	var row []int
	var from func(wide length.Length)
	from = func(wide length.Length) {
		if tried++; tried > mostTried {
			return
		}
		if wide >= least && wide <= least+w.Spare {
			var strips []pattern.Strip
			for _, k := range row {
				strips = append(strips, kinds[k])
			}
			if p.keeps(w, strips) {
				p.put(at, w, strips, seen)
			}
		}
		for k := range kinds {
			if wide+kinds[k].Width <= least+w.Spare && (len(row) == 0 || told[[2]int{row[len(row)-1], k}]) {
				row = append(row, k)
				from(wide + kinds[k].Width)
				row = row[:len(row)-1]
			}
		}
	}
	from(0)
	return tried <= mostTried
}

// keeps holds strips to what a want says of its panels.
func (p *program) keeps(w orders.Want, strips []pattern.Strip) bool {
	panel := pattern.Pattern{Strips: strips}
	panel.Panel.Thickness, panel.Panel.Length = w.Thickness, 500*mm
	panel.Panel.Width = panel.Width()
	for _, l := range p.r.Physics.Panel(panel).Lines() {
		if l.Level > w.Level {
			return false
		}
	}
	if !hasLook(p.r, w, strips) {
		return false
	}
	wide, all := map[string]float64{}, 0.0
	for _, s := range strips {
		wide[s.Species], all = wide[s.Species]+s.Width.MM(), all+s.Width.MM()
	}
	for _, key := range w.With {
		if wide[key] == 0 {
			return false
		}
	}
	for _, s := range w.AtMost {
		if 100*wide[s.Species] > s.Pct*all+1e-9 {
			return false
		}
	}
	return w.Timbers.Most == 0 || len(wide) >= w.Timbers.Least && len(wide) <= w.Timbers.Most
}

// put lists the panels of strips: of as many products as may be, their strips whole or parted
// as bricks, of either sort.
func (p *program) put(at int, w orders.Want, strips []pattern.Strip, seen map[string]bool) {
	sh := p.r.Physics.Shop()
	wide := length.Length(0)
	for _, s := range strips {
		wide += s.Width
	}
	for along := w.Along.Least; along <= w.Along.Most; along++ {
		for parity := range 2 {
			all := [][]int{nil}
			offset := length.Length(0)
			for i, s := range strips {
				ways := p.waysOf(w, along, i+1, parity, offset, s.Width, wide)
				offset += s.Width
				var next [][]int
				for _, before := range all {
					for _, way := range ways {
						needs := slices.Clone(before)
						for _, long := range way {
							needs = append(needs, p.demand(demand{s.Species, s.Moisture, s.Rings, w.Thickness + sh.Allowance.Flattening, s.Width, long}))
						}
						next = append(next, needs)
					}
				}
				all = next
			}
			for _, needs := range all {
				slices.Sort(needs)
				if key := fmt.Sprint(at, along, needs); !seen[key] {
					seen[key] = true
					p.columns = append(p.columns, column{at, along, needs})
				}
			}
		}
	}
}

func (p *program) demand(d demand) int {
	at, there := p.at[d]
	if !there {
		at = len(p.demands)
		p.at[d] = at
		p.demands = append(p.demands, d)
	}
	return at
}

// waysOf lists the lengths of the pieces that a strip may be laid from, in millimetres and not
// in the program's own units, rounded down to a micrometre.
func (p *program) waysOf(w orders.Want, along, number, parity int, offset, width, wide length.Length) (out [][]length.Length) {
	sh := p.r.Physics.Shop()
	size, across := sizeOf(w)
	a, b, middle := offset.MM(), (offset + width).MM(), wide.MM()/2
	down := func(x float64) length.Length { return length.Length(math.Floor(x*1000+1e-6)) * length.Micrometre }
	gap, end := sh.Cut.Gap.MM(), sh.Cut.EndMargin.MM()
	step := size.MM() + gap
	if b <= middle-across.MM()/2+1e-9 || a >= middle+across.MM()/2-1e-9 { // no product touches it
		return [][]length.Length{{down(float64(along)*step - gap + 2*end + sh.Allowance.Length.MM())}}
	}
	half := size.MM() / 2
	if w.Product.Diameter > 0 {
		d := max(0, a-middle, middle-b)
		half = math.Sqrt(max(0, half*half-d*d))
	}
	reach := half + end
	out = append(out, []length.Length{down(float64(along-1)*step + 2*reach)})
	if !w.Joints || along == 1 {
		return out
	}
	for cuts := 1; cuts < 1<<(along-1); cuts++ {
		var way []length.Length
		before, first, ok := 0.0, 0, true
		for z := range along {
			if z < along-1 && cuts>>z&1 == 0 {
				continue
			}
			ok = ok && (z == along-1 || (number+z)%2 == parity)
			from, to := float64(first)*step+size.MM()/2+end-reach, float64(z)*step+size.MM()/2+end+reach
			long := max(to-from, sh.Cut.Shortest.MM())
			if stop := sh.Cut.Stop.MM(); stop > 0 {
				long = stop * math.Ceil(long/stop-1e-9)
			}
			start := max(before, to-long)
			ok = ok && start <= from+1e-6
			before, first = start+long, z+1
			way = append(way, down(long))
		}
		if ok {
			out = append(out, way)
		}
	}
	return out
}

// A sawn is timber under the saw: one clear piece.
type sawn struct {
	rack.Piece
	number int
}

// write writes the program.
func (p *program) write() {
	gives := make([][]string, len(p.demands)) // of each demand: what gives it
	variable := func() string {
		name := fmt.Sprintf("v%d", len(p.names))
		p.names = append(p.names, name)
		return name
	}
	for _, e := range p.r.Rack.Strips {
		var all []string
		for i, d := range p.demands {
			if d.species == e.Species && d.moisture == e.Moisture && d.rings == e.Rings && d.width == e.Width && d.glued <= e.Thickness && d.long <= e.Length {
				v := variable()
				all = append(all, v)
				gives[i] = append(gives[i], v)
			}
		}
		if len(all) > 0 {
			p.rows = append(p.rows, fmt.Sprintf("%s <= %d", strings.Join(all, " + "), e.Quantity))
		}
	}
	number := 0
	for _, e := range p.r.Rack.Pieces {
		for _, clear := range e.Clear() {
			for range e.Quantity {
				number++
				p.saw(sawn{clear.Piece, number}, gives, variable)
			}
		}
	}
	wanted := make([][]string, len(p.r.Wants))
	asked := make([][]string, len(p.demands))
	for _, c := range p.columns {
		v := variable()
		wanted[c.want] = append(wanted[c.want], fmt.Sprintf("%d %s", c.along, v))
		counts := map[int]int{}
		for _, d := range c.needs {
			counts[d]++
		}
		for _, d := range slices.Sorted(maps.Keys(counts)) {
			asked[d] = append(asked[d], fmt.Sprintf("- %d %s", counts[d], v))
		}
	}
	for i := range p.demands {
		p.rows = append(p.rows, fmt.Sprintf("%s %s >= 0", strings.Join(gives[i], " + "), strings.Join(asked[i], " ")))
	}
	var goal []string
	for i, w := range p.r.Wants {
		if len(wanted[i]) == 0 {
			continue
		}
		total := fmt.Sprintf("n%d", i)
		p.rows = append(p.rows, fmt.Sprintf("%s - %s = 0", strings.Join(wanted[i], " + "), total))
		if w.Most > 0 {
			p.rows = append(p.rows, fmt.Sprintf("%s <= %d", total, w.Most))
		}
		each := w.Worth
		if each == 0 {
			each = w.VolumeDM3()
		}
		goal = append(goal, fmt.Sprintf("%v %s", each, total))
	}
	p.rows = append([]string{strings.Join(goal, " + ")}, p.rows...)
}

// saw lists the ways to saw one piece: sections as long as strips, slices of a stack, strips
// of a slice.
func (p *program) saw(e sawn, gives [][]string, variable func() string) {
	sh := p.r.Physics.Shop()
	across, depth := e.Width, e.Thickness
	if !e.Planed {
		across, depth = across-sh.Allowance.Truing, depth-sh.Allowance.Truing
	}
	var lengths []length.Length
	for _, d := range p.demands {
		if d.species == e.Species && !slices.Contains(lengths, d.long) {
			lengths = append(lengths, d.long)
		}
	}
	var along []string
	for _, long := range lengths {
		if long > e.Length-2*sh.Allowance.EndTrim {
			continue
		}
		for side := range 2 {
			a, d, rings := across, depth, e.Rings
			if side == 1 {
				if e.Planed {
					continue
				}
				a, d, rings = depth, across, turned(e.Rings)
			}
			for _, v := range p.section(e, long, a, d, rings, gives, variable) {
				along = append(along, fmt.Sprintf("%.6f %s", (long+sh.Kerf.Crosscut).MM(), v))
			}
		}
	}
	if len(along) > 0 {
		p.rows = append(p.rows, fmt.Sprintf("%s <= %.6f", strings.Join(along, " + "), (e.Length-2*sh.Allowance.EndTrim+sh.Kerf.Crosscut).MM()))
	}
}

// section lists the stacks and the slices of sections of one length, and returns the variables
// that count sections.
func (p *program) section(e sawn, long, across, depth length.Length, rings pattern.Rings, gives [][]string, variable func() string) (counts []string) {
	sh := p.r.Physics.Shop()
	standing := sh.Standing.Widths()
	of := map[length.Length][]int{} // by thickness: the strips that may be cut from it
	for i, d := range p.demands {
		narrow := d.width <= 12*mm // of an accent
		if d.species == e.Species && d.moisture == e.Moisture && d.rings == rings && d.long <= long && long-d.long <= sh.Allowance.OverLength &&
			(slices.Contains(standing, d.width) || narrow) && d.width+sh.Allowance.Jointing <= across {
			of[d.glued] = append(of[d.glued], i)
		}
	}
	thicknesses := slices.Sorted(maps.Keys(of))
	slicesOf := make([][]string, len(thicknesses))
	between := sh.Kerf.Resaw + sh.Allowance.Cleaning
	one := e.Planed || sh.Machine.BandsawHeight > 0 && across > sh.Machine.BandsawHeight
	stack := make([]int, len(thicknesses))
	var piles func(g int, room length.Length, n int)
	piles = func(g int, room length.Length, n int) {
		if g == len(thicknesses) {
			if n > 0 {
				v := variable()
				counts = append(counts, v)
				for g, k := range stack {
					if k > 0 {
						slicesOf[g] = append(slicesOf[g], fmt.Sprintf("- %d %s", k, v))
					}
				}
			}
			return
		}
		takes := thicknesses[g] + sh.Allowance.Planing + between
		if e.Planed {
			takes -= sh.Allowance.Planing
		}
		for k := 0; length.Length(k)*takes <= room && (!one || n+k <= 1); k++ {
			stack[g] = k
			piles(g+1, room-length.Length(k)*takes, n+k)
		}
		stack[g] = 0
	}
	piles(0, depth+between, 0)
	for g, thick := range thicknesses {
		if len(slicesOf[g]) == 0 {
			continue
		}
		var all []string
		may := of[thick]
		fill := make([]int, len(may))
		var rips func(k int, room length.Length)
		rips = func(k int, room length.Length) {
			if k == len(may) {
				for _, i := range may { // only what has no room for more
					if p.demands[i].width+sh.Allowance.Jointing+sh.Kerf.Rip <= room {
						return
					}
				}
				v := variable()
				all = append(all, v)
				for k, n := range fill {
					if n > 0 {
						gives[may[k]] = append(gives[may[k]], fmt.Sprintf("%d %s", n, v))
					}
				}
				return
			}
			takes := p.demands[may[k]].width + sh.Allowance.Jointing + sh.Kerf.Rip
			for n := 0; length.Length(n)*takes <= room && len(p.names) <= mostNames; n++ {
				fill[k] = n
				rips(k+1, room-length.Length(n)*takes)
			}
			fill[k] = 0
		}
		rips(0, across+sh.Kerf.Rip)
		if len(all) > 0 {
			p.rows = append(p.rows, fmt.Sprintf("%s %s <= 0", strings.Join(all, " + "), strings.Join(slicesOf[g], " ")))
		}
	}
	return counts
}

// text returns the program in the format that CPLEX reads.
func (p *program) text() string {
	var b strings.Builder
	folded := func(row string) string { return strings.ReplaceAll(row, " + ", "\n  + ") }
	fmt.Fprintf(&b, "Maximize\n goal: %s\nSubject To\n", folded(p.rows[0]))
	for i, row := range p.rows[1:] {
		fmt.Fprintf(&b, " r%d: %s\n", i, folded(row))
	}
	fmt.Fprintf(&b, "General\n %s\nEnd\n", strings.Join(p.names, "\n "))
	return b.String()
}

// A solver is another program that solves integer programs.
type solver struct {
	name string
	run  func(in, out string) *exec.Cmd
	goal func(text string) (float64, error)
}

// installedSolvers returns COIN-OR's cbc and GLPK's glpsol where they are here.
func installedSolvers() []solver {
	return slices.DeleteFunc([]solver{
		{"cbc", func(in, out string) *exec.Cmd {
			return exec.Command("cbc", in, "-ratioGap", "0", "-allowableGap", "0", "-seconds", "20", "-solve", "-solution", out, "-quit")
		}, func(text string) (float64, error) {
			first, _, _ := strings.Cut(text, "\n")
			value, found := strings.CutPrefix(first, "Optimal - objective value ")
			if !found {
				return 0, fmt.Errorf("cbc found no optimum: %s", first)
			}
			worth, err := strconv.ParseFloat(strings.TrimSpace(value), 64)
			return math.Abs(worth), err
		}},
		{"glpsol", func(in, out string) *exec.Cmd {
			return exec.Command("glpsol", "--tmlim", "20", "--lp", in, "-w", out)
		}, func(text string) (float64, error) {
			for line := range strings.Lines(text) {
				if f := strings.Fields(line); len(f) == 6 && f[0] == "s" && f[1] == "mip" && f[4] == "o" {
					return strconv.ParseFloat(f[5], 64)
				}
			}
			return 0, errors.New("glpsol found no optimum")
		}},
	}, func(s solver) bool {
		_, err := exec.LookPath(s.name)
		return err != nil
	})
}

// solve runs the first solver that has an answer.
func (p *program) solve(t *testing.T, solvers []solver) (float64, error) {
	dir := t.TempDir()
	in, out := filepath.Join(dir, "job.lp"), filepath.Join(dir, "job.out")
	if err := os.WriteFile(in, []byte(p.text()), 0o600); err != nil {
		t.Fatal(err)
	}
	var failed error
	for _, s := range solvers {
		text, err := s.run(in, out).CombinedOutput()
		if err != nil {
			failed = errors.Join(failed, fmt.Errorf("%s: %w\n%.500s", s.name, err, text))
			continue
		}
		data, err := os.ReadFile(out)
		if err != nil {
			failed = errors.Join(failed, err)
			continue
		}
		worth, err := s.goal(string(data))
		if err == nil {
			return worth, nil
		}
		failed = errors.Join(failed, err)
	}
	return 0, failed
}
