package layouts

import (
	"context"
	"slices"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/suggest"
	sought "example.com/oddments/pattern/suggest/gallery"
	"example.com/oddments/pattern/suggest/look"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screen/screentest"
)

const mm = length.Millimetre

// A galleryHand has the gallery of a bench without strips and a rack of a few ready strips, and
// what was asked for.
type galleryHand struct {
	*screentest.Driver
	asked []suggest.Request
}

func opened(t *testing.T) *galleryHand {
	t.Helper()
	ctx := screentest.Demo(t, Screen{}.Keys()...)
	ctx.State.Pattern = pattern.Pattern{Panel: pattern.Panel{Width: 200 * mm, Length: 300 * mm, Thickness: 20 * mm}}
	ctx.Rack = rack.Rack{}
	for i, key := range []string{"hard_maple", "black_walnut", "sapele", "white_oak"} {
		ctx.Rack.Strips = append(ctx.Rack.Strips, rack.Strip{ID: string(rune('A' + i)), Species: key, Width: 20 * mm, Thickness: 30 * mm,
			Length: 400 * mm, Quantity: 6, Rings: pattern.RingsQuarter(), Moisture: pattern.Read(9)})
	}
	h := &galleryHand{}
	ctx.Beside.Solve.Suggest = func(c context.Context, r movement.Physics, a suggest.Request, o suggest.Options) (suggest.Result, error) {
		h.asked = append(h.asked, a)
		return sought.Solve(c, r, a, o)
	}
	h.Driver = screentest.Drive(t, Screen{}, ctx)
	h.Tell(screen.LayOut{})
	h.Work()
	return h
}

// last returns what was asked for last, once it is answered.
func (h *galleryHand) last() suggest.Request {
	h.T.Helper()
	h.Work()
	if len(h.asked) == 0 {
		h.T.Fatal("nothing was asked for")
	}
	return h.asked[len(h.asked)-1]
}

// does presses keys, and waits for what each is answered.
func (h *galleryHand) does(keys ...string) {
	h.T.Helper()
	for _, key := range keys {
		h.Do(key)
		h.Work()
	}
}

// types types into what lies over the gallery, and waits for the answer.
func (h *galleryHand) types(text string) {
	h.T.Helper()
	h.Type(text)
	h.Work()
}

func (h *galleryHand) laid() []Candidate { return h.Screen.(Screen).shown.Laid }

func space() tea.KeyMsg           { return tea.KeyMsg{Type: tea.KeySpace, Runes: []rune{' '}} }
func rune1(r rune) tea.KeyMsg     { return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}} }
func of(k tea.KeyType) tea.KeyMsg { return tea.KeyMsg{Type: k} }

// It begins with one of each look, 9 to 15 strips, 30 % apart, and other timbers in each; each
// says which look it is, and what is left out says why.
func TestItBeginsWithOneOfEachLook(t *testing.T) {
	h := opened(t)
	a := h.last()
	if !slices.Equal(a.Looks, look.Looks()) || a.Strips != [2]int{9, 15} || a.ApartPct != 30 || !a.Vary || a.Layouts != 7 {
		t.Errorf("asked for %+v", a.Wishes)
	}
	laid := h.laid()
	if len(laid) < 3 {
		t.Fatalf("%d layouts", len(laid))
	}
	h.Shows("h one of each look", "O other timbers each", "9-15 strips", "30 % apart", "Left out: ", "the best of each look", "Worst glue line")
	for _, l := range laid {
		h.Shows(lookName(l), worstBrief(l)+", "+sureBrief(l))
	}
	for i, l := range laid {
		for _, o := range laid[:i] {
			seen := func(c Candidate) []look.Strip { return suggest.Seen(h.Ctx.Physics, c.Layout.Strips) }
			if d := look.Apart(seen(l), seen(o), suggest.Told(h.Ctx.Physics)); d < 30 || l.Layout.Look == o.Layout.Look {
				t.Errorf("%v and %v differ on %.0f %%", l.Layout.Look, o.Layout.Look, d)
			}
		}
	}
	said := strings.Join(sentences(h.Screen.(Screen).scene(h.Ctx)), "\n")
	for _, out := range h.Screen.(Screen).shown.leftOut {
		if !strings.Contains(said, "no "+out.Look.String()+": "+out.Why) {
			t.Errorf("nothing says why there is no %v", out.Look)
		}
	}
}

// Where so many strips cannot come to the width, any number of them may.
func TestTheNumberOfStripsGivesWay(t *testing.T) {
	h := opened(t)
	h.Ctx.State.Pattern.Panel.Width = 100 * mm // 5 strips of 20 mm
	h.Ctx.Stamp.Stem = "another"
	h.Tell(screen.LayOut{})
	if a := h.last(); a.Strips != [2]int{suggest.DefaultFewest, suggest.DefaultMost} || len(h.laid()) == 0 {
		t.Errorf("%v strips, %d layouts", a.Strips, len(h.laid()))
	}
}

// One key holds a look: the chosen one's with one more. Others let go of it.
func TestHoldALook(t *testing.T) {
	h := opened(t)
	h.does("down")
	chosen := h.laid()[1].Layout.Look
	h.does("h")
	h.Press(rune1('1'))
	if a := h.last(); !slices.Equal(a.Looks, []look.Look{chosen}) || a.Layouts != suggest.DefaultLayouts {
		t.Errorf("held %v, %d layouts, chosen was %v", a.Looks, a.Layouts, chosen)
	}
	for _, l := range h.laid() {
		if l.Layout.Look != chosen {
			t.Errorf("%v is shown where %v is held", l.Layout.Look, chosen)
		}
	}
	h.Shows("h " + chosen.String())
	h.does("s")
	if a := h.last(); !slices.Equal(a.Looks, []look.Look{look.Mirror}) {
		t.Errorf("the key of mirrored layouts holds %v", a.Looks)
	}
	h.does("s")
	if a := h.last(); len(a.Looks) != 7 {
		t.Errorf("let go of, %v are asked for", a.Looks)
	}
	h.does("h")
	h.Press(rune1('9'))
	if a := h.last(); len(a.Looks) != 0 || a.ApartPct != 0 || a.Vary {
		t.Errorf("without a look %+v is asked for", a.Wishes)
	}
	h.does("O")
	if !strings.Contains(h.Said, "where looks are asked for") {
		t.Errorf("said %q", h.Said)
	}
	h.does("s")
	if a := h.last(); !a.Symmetric {
		t.Error("the classic search is not asked for mirrored layouts")
	}
}

// The list of timbers shows letters and how much there is; space takes one in or out, a digit
// says how much of it there may be at most.
func TestTimbersInAndOut(t *testing.T) {
	h := opened(t)
	h.does("e")
	if over := h.Over(); !strings.Contains(over, "MA hard maple") || !strings.Contains(over, "6 ready strips, 1.4 dm3") {
		t.Errorf("the list shows\n%s", over)
	}
	table := h.Ctx.Rack.Species()
	for _, k := range []tea.KeyMsg{space(), of(tea.KeyDown), space(), space(), of(tea.KeyDown), rune1('4')} {
		h.Press(k)
	}
	if over := h.Over(); !strings.Contains(over, "must") || !strings.Contains(over, "out") || !strings.Contains(over, "in, 40 % at most") {
		t.Errorf("the list shows\n%s", over)
	}
	h.Press(of(tea.KeyEnter))
	a := h.last()
	if !slices.Equal(a.With, table[:1]) || !slices.Equal(a.Without, table[1:2]) || !slices.Equal(a.AtMost, []suggest.Share{{Species: table[2], Pct: 40}}) {
		t.Errorf("with %v, without %v, at most %v", a.With, a.Without, a.AtMost)
	}
	for _, l := range h.laid() {
		wide := map[string]length.Length{}
		for _, s := range l.Pattern.Strips {
			wide[s.Species] += s.Width
		}
		if wide[table[0]] == 0 || wide[table[1]] > 0 || 100*wide[table[2]] > 40*l.Layout.Width {
			t.Errorf("%v is of %v", l.Layout.Look, wide)
		}
	}
	h.Shows("1 must, 1 out, 1 limited")
	h.does("e")
	for _, k := range []tea.KeyMsg{rune1('3'), of(tea.KeyEsc)} {
		h.Press(k)
	}
	if n := len(h.asked); !slices.Equal(h.last().AtMost, a.AtMost) || len(h.asked) != n {
		t.Error("a list that was closed changes something")
	}
	h.does("e")
	r := paint.Rect{W: 80, H: 22}
	next, _ := newTimberList(h.Ctx.Rack, taste{}).Press(3, 2, r, h.Ctx)
	if next, _ = next.Press(3, 2, r, h.Ctx); next.(timberList).all[1].part != must {
		t.Errorf("pressed twice: %+v", next)
	}
}

// The other keys: how many timbers, a range of widths, the longest piece, other timbers, how
// far apart. What contradicts is said.
func TestKeysOfTaste(t *testing.T) {
	h := opened(t)
	h.does("N")
	h.types("2-3")
	if a := h.last(); a.Timbers != [2]int{2, 3} {
		t.Errorf("%v timbers", a.Timbers)
	}
	h.Shows("2-3 timbers")
	h.does("N")
	h.types("")
	h.does("r")
	h.types("230..245")
	if a := h.last(); a.Range != [2]length.Length{230 * mm, 245 * mm} || a.Timbers != [2]int{} {
		t.Errorf("%v wide, %v timbers", a.Range, a.Timbers)
	}
	h.Shows("230..245 mm")
	for _, l := range h.laid() {
		if l.Layout.Width < 230*mm || l.Layout.Width > 245*mm {
			t.Errorf("%v is %v wide", l.Layout.Look, l.Layout.Width)
		}
	}
	h.does("r")
	h.types("345..330")
	if !strings.Contains(h.Over(), "from less to more") {
		t.Errorf("the field shows\n%s", h.Over())
	}
	h.Press(of(tea.KeyEsc))
	h.does("r")
	h.types("")
	h.does("L")
	h.types("600")
	if a := h.last(); a.Longest != 600*mm || a.Range != [2]length.Length{} {
		t.Errorf("longest %v, range %v", a.Longest, a.Range)
	}
	h.does("O", "d", "d", "D")
	if a := h.last(); a.Vary || a.ApartPct != 35 {
		t.Errorf("other timbers %v, %v %% apart", a.Vary, a.ApartPct)
	}
	h.does("N")
	h.types("1")
	h.does("h")
	h.Press(rune1('5'))
	if h.last(); !strings.Contains(h.Refuse+h.Draw(120, 30), "needs") {
		t.Errorf("a contradiction passes: %q\n%s", h.Refuse, h.Draw(120, 30))
	}
}

// More are the next best of each look, which look different from all that are shown.
func TestMoreLooksDifferent(t *testing.T) {
	h := opened(t)
	before := len(h.laid())
	h.does("a")
	if a := h.last(); len(a.Unlike) != before || len(a.Looks) != 7 {
		t.Errorf("%d layouts to be unlike, looks %v", len(a.Unlike), a.Looks)
	}
	if len(h.laid()) <= before {
		t.Fatalf("%d layouts, then %d", before, len(h.laid()))
	}
	seen := func(c Candidate) []look.Strip { return suggest.Seen(h.Ctx.Physics, c.Layout.Strips) }
	for i, l := range h.laid() {
		for j, o := range h.laid()[:i] {
			if d := look.Apart(seen(l), seen(o), suggest.Told(h.Ctx.Physics)); d < 30 {
				t.Errorf("layouts %s and %s differ on %.0f %%", Name(j), Name(i), d)
			}
		}
	}
}

// What is found later does not move what is shown already, and looks are shown as they are
// found.
func TestLooksAreShownAsTheyAreFound(t *testing.T) {
	h := opened(t)
	s := h.Screen.(Screen)
	s.works, s.asked = true, s.shown.Of
	all := s.shown.Laid
	var before []paint.Rect
	for n := 1; n <= len(all); n++ {
		s.shown.Part, s.shown.Laid = true, all[:n]
		h.Screen = s
		drawn := h.Draw(120, 36)
		cells := lay(h.Ctx.Window.Body, s.scene(h.Ctx)).gallery.cells
		if before != nil && !slices.Equal(cells, before) {
			t.Errorf("with %d layouts they lie at %v, before at %v", n, cells, before)
		}
		before = cells
		for i, l := range all {
			if strings.Contains(drawn, Name(i)+"  "+lookName(l)) != (i < n) {
				t.Errorf("%d found, and %v:\n%s", n, lookName(l), drawn)
			}
		}
	}
}

// Letters above a layout never touch, however narrow its strips are.
func TestLettersDoNotTouch(t *testing.T) {
	h := opened(t)
	for _, size := range [][2]int{{80, 20}, {120, 36}, {200, 56}} {
		drawn := h.Draw(size[0], size[1])
		for line := range strings.SplitSeq(drawn, "\n") {
			for _, word := range strings.Fields(line) {
				for _, two := range []string{"MAMA", "MAWA", "WAMA", "WAWA", "SAMA", "MASA", "WOMA", "MAWO"} {
					if strings.Contains(word, two) {
						t.Errorf("%v: %q", size, line)
					}
				}
			}
		}
	}
}

// A pattern that is made again keeps its strips: no wish of looks has a use.
func TestAgainHasNoTaste(t *testing.T) {
	h := opened(t)
	s := h.Screen.(Screen)
	s.again = true
	h.Screen = s
	for _, key := range []string{"h", "e", "N", "r", "L", "O"} {
		h.does(key)
		if !strings.Contains(h.Said, "keeps its strips") {
			t.Errorf("%s says %q", key, h.Said)
		}
	}
}

// A press chooses the layout that it meets, side by side or in the list.
func TestPressALayout(t *testing.T) {
	h := opened(t)
	for _, size := range [][2]int{{80, 20}, {120, 36}, {200, 56}} {
		h.Ctx.Window.Body = paint.Rect{W: size[0], H: size[1]}
		at := h.Screen.(Screen).scene(h.Ctx)
		l := lay(h.Ctx.Window.Body, at)
		found := map[int]bool{}
		for y := range size[1] {
			for x := range size[0] {
				if i, ok := layoutAt(x, y, h.Ctx.Window.Body, at); ok {
					found[i] = true
				}
			}
		}
		if len(found) != len(h.laid()) || l.gallery.list.Empty() != (size[0] > 100) {
			t.Errorf("%v: %d of %d can be pressed", size, len(found), len(h.laid()))
		}
	}
	h.Tell(screen.Press{X: 30, Y: lay(h.Ctx.Window.Body, h.Screen.(Screen).scene(h.Ctx)).gallery.cells[1].Y})
}
