package tui

import "testing"

// The rack says what it gives of what is made, and goes on saying so as it changes.
func TestRackSaysWhatItGives(t *testing.T) {
	d := onDemo(t, 80, 24).keys("tab").shows("Rookery square, made once, strips needed/rack", "HB 6/11", "PE 2/6", "gives 3", "gives 2")
	d.keys("end") // not a key of the rack: nothing moves
	for range 7 { // HB3, both copies of it
		d.keys("down")
	}
	d.shows("> HB3").keys("x").shows("HB 6/6").keys("u").shows("HB 6/11")
	d.keys("4 + + + 2").shows("made 4 times, strips needed/rack", "HB 24/")
}

// What runs short stands in capitals, for a screen without colour.
func TestRackSaysWhatIsShort(t *testing.T) {
	onDemo(t, 120, 40).keys("4 + + + + 2").shows("SHORT")
}
