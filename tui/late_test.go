package tui

import (
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
)

// leaning puts strips that lean against each other on the bench of d.
func leaning(t *testing.T, d *hand) {
	t.Helper()
	p := pattern.Pattern{Name: "Heron", Panel: pattern.Panel{Length: 450 * length.Millimetre, Thickness: 22 * length.Millimetre, Moisture: pattern.Read(8)}}
	for i := range 4 {
		p.Strips = append(p.Strips, pattern.Strip{Species: "hard_maple", Width: 25 * length.Millimetre, Rings: pattern.RingsRift(),
			Bark: pattern.Bark{Right: int8(2*(i%2) - 1), Up: 1}})
	}
	var cmd tea.Cmd
	d.app, cmd = d.app.do(edit.New(p))
	d.run(cmd)
	d.send(nil)
}

// Strips that lean against each other are told of once that is worked out, beside the
// screen, and Enter turns the one that mends most.
func TestLeaningStripsAreToldOfLate(t *testing.T) {
	d := onDemo(t, 120, 40)
	leaning(t, d)
	d.shows("lean against each other", "about 73 um in the humid", "turn strip 2 end for end: gap under a straightedge about 163 to 70")
	d.keys("enter")
	if got := d.app.state().Pattern.Strips[1]; got.Bark != (pattern.Bark{Right: -1, Up: 1}) || !got.Turned {
		t.Errorf("Enter leaves strip 2 as %+v", got)
	}
	d.keys("u").shows("about 73 um in the humid")
}

// A report that comes after the next change is dropped.
func TestLateReportOfAnOlderState(t *testing.T) {
	d := onDemo(t, 120, 40)
	leaning(t, d)
	late := d.held("+")
	d.keys("e e e") // strip 1 ends turned: only 2|3 and 3|4 lean against each other
	now := len(d.app.doc.report.Findings)
	d.run(late)
	if got := len(d.app.doc.report.Findings); got != now {
		t.Errorf("%d findings, %d once an older report came", now, got)
	}
}
