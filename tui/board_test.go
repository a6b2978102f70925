package tui

import "testing"

// A board is begun in two lines: its sizes, then its strips, which are echoed while they are
// typed and unfolded where the board is mirrored.
func TestBoardInTwoLines(t *testing.T) {
	d := onDemo(t, 80, 24).keys("5 ctrl+n").text("800 x 340 x").shows("still wanted: thickness")
	d.text(" 25 mirror").shows("800 mm long, 340 mm wide, 25 mm thick, mirrored").keys("enter").shows("[BENCH]", ">  unfold")
	d.text("wa30 ma10 s").shows("2 strips, 40 mm wide: WA 30, MA 10; column 11").text("a40").shows("5 strips, 120 mm wide: WA 30, MA 10, SA 40, MA 10, WA 30")
	d.keys("enter").shows("put in: 5 strips", "wide 120 of 340 mm", ">5<")
	d.keys("u").shows("An empty panel", "taken back: strips in a line")
}

// A row goes in behind the chosen strip, as one step.
func TestRowOnTheBench(t *testing.T) {
	d := onDemo(t, 80, 24).keys("down I").text("wa10 x2 ma5 unfold").keys("enter").shows("put in: 5 strips", ">7<").keys("right left").shows("16 strips")
	d.keys("u").shows("taken back: strips in a line").keys("down").shows("11 strips")
	d.keys("I").text("wa10 zz5").keys("enter").shows("column 6", "no timber").keys("esc").shows("11 strips")
}
