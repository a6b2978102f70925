package panel

import (
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// A joint that stands open is open in the picture from end to end; one where pieces touch
// is a seam one column wide.
func TestJointColumns(t *testing.T) {
	const mm = length.Millimetre
	d := lying{l: LyingLayout{perCol: 10}}
	d.l.Wood.W = 60
	d.v.Pattern.Strips = []pattern.Strip{{Joints: pattern.JointsOf(
		pattern.Joint{From: 100 * mm, To: 140 * mm}, pattern.Joint{From: 303 * mm, To: 303 * mm}, pattern.Joint{From: 401 * mm, To: 402 * mm})}}
	seen := map[int]bool{}
	d.joints(0, func(x int, open bool) { seen[x] = open })
	want := map[int]bool{10: true, 11: true, 12: true, 13: true, 30: false, 40: false}
	if len(seen) != len(want) {
		t.Errorf("%v, want %v", seen, want)
	}
	for x, open := range want {
		if got, there := seen[x]; !there || got != open {
			t.Errorf("column %d: open %v, %v", x, got, there)
		}
	}
}
