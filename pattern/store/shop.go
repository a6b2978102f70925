package store

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/moisture"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/store/tomlread"
)

// The ranges of a shop's values.
const (
	maxTaken   = 1 * length.Metre // kerfs and allowances
	maxKept    = 2 * length.Metre
	maxOpened  = 1_000_000 // cm3, a cubic metre
	minCelsius = -10
	maxCelsius = 60
	maxStep    = 10_000 // micrometres
	maxDeltaE  = 100
	hundred    = 100
)

// A lengthKey is a length of a shop file, with what its key means.
type lengthKey struct {
	key     string
	at      *length.Length
	comment string
}

// A numberKey is a number of a shop file, with its range and what its key means.
type numberKey struct {
	key       string
	at        *float64
	low, high float64
	comment   string
}

func kerfKeys(k *shop.Kerf) []lengthKey {
	return []lengthKey{
		{"rip", &k.Rip, "what the saw turns to dust along the grain"},
		{"crosscut", &k.Crosscut, "across the grain"},
		{"resaw", &k.Resaw, "and in resawing"},
	}
}

func allowanceKeys(a *shop.Allowance) []lengthKey {
	return []lengthKey{
		{"truing", &a.Truing, "off thickness and off width, once per piece that is not planed"},
		{"cleaning", &a.Cleaning, "off the sawn face before the next slice is resawn"},
		{"planing", &a.Planing, "slice thickness minus planed thickness"},
		{"jointing", &a.Jointing, "ripped width minus finished width of a flat strip, both edges together"},
		{"flattening", &a.Flattening, "planed thickness minus finished panel thickness"},
		{"length", &a.Length, "strip length at glue-up minus finished panel length"},
		{"end_trim", &a.EndTrim, "squared off each end of a piece"},
		{"over_length", &a.OverLength, "a strip may be cut from a section up to this much longer"},
	}
}

func keepKeys(k *shop.Keep) []lengthKey {
	return []lengthKey{
		{"length", &k.Length, "what is at least this large goes back to the rack"},
		{"width", &k.Width, ""},
		{"thickness", &k.Thickness, ""},
	}
}

func machineKeys(m *shop.Machine) []lengthKey {
	return []lengthKey{
		{"thicknesser_width", &m.ThicknesserWidth, "from the machine's manual; 0 where a limit does not apply"},
		{"thicknesser_length", &m.ThicknesserLength, "shortest it may be fed"},
		{"surfacer_length", &m.SurfacerLength, "shortest it may be fed"},
		{"bandsaw_height", &m.BandsawHeight, ""},
		{"saw_depth", &m.SawDepth, ""},
	}
}

func drawKeys(d *shop.Draw) []numberKey {
	return []numberKey{
		{"use_first", &d.UseFirstPct, 0, hundred, "percent at which a use-first piece counts"},
		{"returned", &d.ReturnedPct, 0, hundred, "percent at which slabs and rips that go back are credited"},
		{"opened", &d.OpenedCM3, 0, maxOpened, "cm3 added for every piece opened"},
	}
}

func airKeys(a *moisture.Air) []numberKey {
	return []numberKey{
		{"temperature", &a.TemperatureC, minCelsius, maxCelsius, "degrees Celsius"},
		{"humidity", &a.HumidityPct, 0, hundred, "percent"},
	}
}

// ReadShop reads a shop; the name is the file's. What the file does not say is as
// shop.Default has it.
func ReadShop(r io.Reader, name string) (shop.Shop, error) {
	d, err := tomlread.Parse(name, r)
	if err != nil {
		return shop.Shop{}, err
	}
	t := d.Root()
	t.Format("shop", shopVersion)
	s := shop.Default()
	t.May("units").Parse(func(word string) (err error) {
		s.Units, err = length.ParseUnit(word)
		return err
	})
	readLengths(t.May("kerf").Table(), kerfKeys(&s.Kerf), maxTaken)
	readLengths(t.May("allowance").Table(), allowanceKeys(&s.Allowance), maxTaken)
	readLengths(t.May("keep").Table(), keepKeys(&s.Keep), maxKept)
	readStanding(t.May("standing").Table().May("widths"), &s.Standing)
	readNumbers(t.May("draw").Table(), drawKeys(&s.Draw))
	readNumbers(t.May("air").Table(), airKeys(&s.Air))
	seasons := t.May("season").Table()
	readNumbers(seasons.May("dry").Table(), airKeys(&s.Dry))
	readNumbers(seasons.May("humid").Table(), airKeys(&s.Humid))
	readLimits(t.May("limits").Table(), &s.Limits)
	readLengths(t.May("machine").Table(), machineKeys(&s.Machine), pattern.MaxLength)
	readLengths(t.May("cut").Table(), cutKeys(&s.Cut), maxTaken)
	readGlue(t.May("glue").Table(), &s.Glue)
	readFinish(t.May("finish").Table(), &s.Finish)
	readNumbers(t.May("price").Table(), priceKeys(&s.Price))
	if err := d.Finish(); err != nil {
		return shop.Shop{}, err
	}
	return s, nil
}

func readLengths(t *tomlread.Table, keys []lengthKey, high length.Length) {
	for _, k := range keys {
		t.May(k.key).Length(k.at, high)
	}
}

func readNumbers(t *tomlread.Table, keys []numberKey) {
	for _, k := range keys {
		t.May(k.key).Number(k.at, k.low, k.high)
	}
}

// readStanding reads up to so many widths, no two the same.
func readStanding(f tomlread.Field, into *shop.Standing) {
	items := f.Items()
	if len(items) > shop.StandingMost {
		f.Failf("", "a list of %d: must be at most %d widths, since each makes the search longer", len(items), shop.StandingMost)
		return
	}
	var all shop.Standing
	for i, item := range items {
		var w length.Length
		if !item.Size(&w, pattern.MaxAcross) {
			continue
		}
		if slices.Contains(all[:i], w) {
			item.Failf("", "%s: is in the list twice", w)
		}
		all[i] = w
	}
	*into = all
}

func readLimits(t *tomlread.Table, l *shop.Limits) {
	readLimit(t.May("step"), &l.StepUM, maxStep)
	readLimit(t.May("strain"), &l.StrainPct, hundred)
	readLimit(t.May("moisture"), &l.MoisturePct, pattern.MaxMoisture)
	t.May("contrast").Above(&l.Contrast, 0, maxDeltaE)
}

// readLimit reads a pair that ascends.
func readLimit(f tomlread.Field, into *shop.Limit, high float64) {
	items := f.Items()
	if !f.IsList() {
		return
	}
	if len(items) != 2 {
		f.Failf("", "a list of %d: must be two numbers, like [30, 80]", len(items))
		return
	}
	var l shop.Limit
	care, much := items[0].Above(&l.Care, 0, high), items[1].Above(&l.Much, 0, high)
	if !care || !much {
		return
	}
	if l.Care >= l.Much {
		f.Failf("the first is where take care begins, the second where too much does",
			"[%s, %s]: the second number must be above the first", decimal(l.Care), decimal(l.Much))
		return
	}
	*into = l
}

// WriteShop writes s in full, with a comment behind each key: makers edit it.
func WriteShop(out io.Writer, s shop.Shop) error {
	w := newWriter("shop", shopVersion)
	w.commented("units", quoted(s.Units.String()), "mm or in, for the screen; files keep what was typed")
	w.lengths("[kerf]", kerfKeys(&s.Kerf))
	w.lengths("[allowance]", allowanceKeys(&s.Allowance))
	w.lengths("[keep]", keepKeys(&s.Keep))
	w.heading("[standing] # what you rip as a rule")
	var widths []string
	for _, width := range s.Standing.Widths() {
		widths = append(widths, quoted(width.Exact()))
	}
	w.commented("widths", "["+strings.Join(widths, ", ")+"]", "of strips, up to 8; layouts may have them all")
	w.numbers("[draw]", drawKeys(&s.Draw))
	w.numbers("[air] # of the workshop; its equilibrium moisture is the default at glue-up", airKeys(&s.Air))
	w.numbers("[season.dry] # the air that dries the board most", airKeys(&s.Dry))
	w.numbers("[season.humid]", airKeys(&s.Humid))
	w.heading("[limits] # above the first take care, above the second too much")
	w.limit("step", s.Limits.StepUM, "micrometres per face")
	w.limit("strain", s.Limits.StrainPct, "percent")
	w.limit("moisture", s.Limits.MoisturePct, "points between neighbours")
	w.commented("contrast", decimal(s.Limits.Contrast), "colour difference below which neighbours read as one")
	w.lengths("[machine]", machineKeys(&s.Machine))
	w.work(&s)
	return w.to(out)
}

func (w *writer) commented(key, value, comment string) {
	text := key + " = " + value
	if comment == "" {
		w.line("%s", text)
		return
	}
	w.line("%-30s # %s", text, comment)
}

func (w *writer) lengths(heading string, keys []lengthKey) {
	w.heading(heading)
	w.lengthLines(keys)
}

func (w *writer) lengthLines(keys []lengthKey) {
	for _, k := range keys {
		w.commented(k.key, quoted(k.at.Exact()), k.comment)
	}
}

func (w *writer) numbers(heading string, keys []numberKey) {
	w.heading(heading)
	w.numberLines(keys)
}

func (w *writer) numberLines(keys []numberKey) {
	for _, k := range keys {
		w.commented(k.key, decimal(*k.at), k.comment)
	}
}

func (w *writer) limit(key string, l shop.Limit, comment string) {
	w.commented(key, fmt.Sprintf("[%s, %s]", decimal(l.Care), decimal(l.Much)), comment)
}
