package keymap

// A Gesture is what the mouse does on the bench.
type Gesture struct{ Does, Mouse string }

// Gestures lists what the mouse does.
func Gestures() []Gesture {
	return []Gesture{
		{"choose a strip", "press on it"},
		{"move a strip", "drag it to its new place"},
		{"choose left or right", "turn the wheel"},
		{"wider or narrower", "turn the wheel with Ctrl held"},
		{"slide lengthwise", "turn the wheel with Shift held"},
		{"do what the footer shows", "press on its words"},
	}
}
