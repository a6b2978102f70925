package tui

import (
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/store"
)

// A board is begun in two lines: its sizes, then its strips, which are echoed while they are
// typed and unfolded where the board is mirrored.
func TestBoardInTwoLines(t *testing.T) {
	d := onDemo(t, 80, 24).keys("5 ctrl+n").text("800 x 340 x").shows("missing: thickness")
	d.text(" 25 mirror").shows("800 mm long, 340 mm wide, 25 mm thick, mirrored").keys("enter").shows("[BENCH]", ">  unfold")
	d.text("wa30 ma10 s").shows("2 strips, 40 mm wide: WA 30, MA 10; column 11").text("a40").shows("5 strips, 120 mm wide: WA 30, MA 10, SA 40, MA 10, WA 30")
	d.keys("enter").shows("put in: 5 strips", "wide 120 mm (220 short)", ">5<")
	d.keys("u").shows("An empty panel", "undone: strips in a line")
}

// A row goes in behind the chosen strip, as one step.
func TestRowOnTheBench(t *testing.T) {
	d := onDemo(t, 120, 24).keys("down I").text("wa10 x2 ma5 unfold").keys("enter").shows("put in: 5 strips", ">7<").keys("right left").shows("16 strips")
	d.keys("u").shows("undone: strips in a line").keys("down").shows("11 strips")
	d.keys("I").text("wa10 zz5").keys("enter").shows("column 6", "zz").keys("esc").shows("11 strips")
}

// onChequer starts on the bench with an end-grain board of squares of 25 mm, 12 by 16, and
// two rounds to cut out of it.
func onChequer(t *testing.T, w, h int) *hand {
	t.Helper()
	p := pattern.Pattern{Name: "Chequer", Panel: pattern.Panel{Length: 704 * mm, Thickness: 25 * mm}}
	for i := range 12 {
		key := []string{"hornbeam", "european_elm"}[i%2]
		p.Strips = append(p.Strips, pattern.Strip{Species: key, Width: 25 * mm, Rings: pattern.RingsFlat()})
	}
	p.Seconds = []pattern.Second{{Bar: 41 * mm, Bars: 16, Turned: []bool{false, true}}}
	p.Products = []pattern.Product{{Shape: outline.Round, Diameter: 120 * mm, Count: 2}}
	setup := demoSetup(t)
	setup.Open = store.Saved{Stem: "chequer", Pattern: p}
	return start(t, setup, w, h)
}

// One key shows the board and the panel, the board follows the strips, the mouse chooses a
// strip by any of its cells, and the advice is about the board.
func TestBoardOnTheBench(t *testing.T) {
	d := onChequer(t, 80, 24).shows("Y show board").keys("Y").shows("board 400 x 300 x 38 mm, 16 bars, end grain up", "1 2 3 4 5 6", "the board asks for no care")
	row := strings.Split(d.screen(), "\n")[10]
	at := strings.IndexAny(row, ".:-+*#%x")
	d.send(tea.MouseMsg{X: at + 1, Y: 10, Button: tea.MouseButtonLeft, Action: tea.MouseActionPress})
	d.send(tea.MouseMsg{X: at + 30, Y: 10, Button: tea.MouseButtonLeft, Action: tea.MouseActionRelease})
	if s := d.app.state(); s.Selected != 6 || s.Pattern.Strips[6].Species != "hornbeam" {
		t.Errorf("a press on the seventh row chose strip %d: %+v\n%s", s.Selected+1, s.Pattern.Strips, d.screen())
	}
	d.send(tea.MouseMsg{X: 0, Y: 10, Button: tea.MouseButtonLeft, Action: tea.MouseActionPress}).shows(" 7  hornbeam")
	// A strip more and the bars turned show the same from both ends: the board says so, and
	// Enter makes the change that it offers, which one step takes back.
	d.keys("end x").shows("board 400 x 275 x 38 mm", "take care, second glue-up 1", "Enter shift every other bar of glue-up 1 by a strip, and turn none")
	d.keys("enter").shows("done: shift every other bar", "board 400 x 250 x 38 mm").keys("u").shows("board 400 x 275 x 38 mm")
	d.keys("G").text("1 turn none x14").keys("enter").shows("14 bars", "2 bars more would come out", "Enter cut all 16 bars")
	d.keys("Y").shows("the panel", ">11<HB").keys("Y").shows("14 bars")
	d.keys("G").text("1 out").keys("enter").keys("Y").shows("there is no second glue-up")
}

// What is cut out lies on the board: its cells, its datum end, its sizes.
func TestCutOutOfABoard(t *testing.T) {
	onChequer(t, 120, 40).keys(toCutOut).shows("from the board's datum end, bar 1, square on A", "cursor 65 along, 82 across, bar 3, strip 4")
	d := onChequer(t, 80, 24).keys(toCutOut).shows("from the board's datum end, bar 1, square on A", "cursor 65 along, 82 across", "the end", "400")
	d.keys("c").shows("have their middle row on its middle").keys("h").shows("with a second glue-up every strip needs its")
	d.keys("x").shows("the board itself is the product").keys("u")
	d.keys("right").shows("cursor 75 along").keys("k").shows("a knot of radius 8 mm at 75 mm along")
	d.keys("s").shows("the mark-out", "lengths from the board's datum end").keys("esc")
	d.keys("u . ]").shows("moved to").keys("z").shows("kept by a keep-clear mark")
}
