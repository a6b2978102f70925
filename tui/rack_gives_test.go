package tui

import "testing"

// The rack says what it gives of what is made, and goes on saying so as it changes.
func TestRackSaysWhatItGives(t *testing.T) {
	d := onDemo(t, 80, 24).keys("tab").shows("Rookery square, made once, needs", "HB 6 of 11", "PE 2 of 6", "3 strips", "2 strips")
	d.keys("end") // not a key of the rack: nothing moves
	for range 7 { // HB3, both copies of it
		d.keys("down")
	}
	d.shows("> HB3").keys("x").shows("HB 6 of 6").keys("u").shows("HB 6 of 11")
	d.keys("tab + + + shift+tab").shows("made 4 times, needs", "HB 24 of")
}

// What runs short stands in capitals, for a screen without colour.
func TestRackSaysWhatIsShort(t *testing.T) {
	onDemo(t, 120, 40).keys("tab tab + + + + shift+tab").shows("SHORT")
}
