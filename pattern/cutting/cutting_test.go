package cutting

import (
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/rack"
)

// The part of a job that is about one timber keeps every pattern, so that its strips keep
// the names of their copies, and leaves the job as it is.
func TestPartOfOneTimber(t *testing.T) {
	strips := []pattern.Strip{{Species: "elm", Width: 20}, {Species: "ash", Width: 30}, {Species: "elm", Width: 40}}
	job := Job{
		Patterns: []Demand{{Stem: "tray", Copies: 2, Pattern: pattern.Pattern{Strips: strips}}, {Stem: "lid", Copies: 1, Pattern: pattern.Pattern{Strips: strips[1:2]}}},
		Rack:     rack.Rack{Pieces: []rack.Piece{{ID: "A", Species: "ash"}, {ID: "E", Species: "elm"}}, Strips: []rack.Strip{{ID: "R", Species: "ash"}}},
	}
	part := job.Of("elm")
	if len(part.Patterns) != 2 || part.Patterns[0].Copies != 2 || len(part.Patterns[0].Pattern.Strips) != 2 || part.Patterns[0].Pattern.Strips[1].Width != 40 || len(part.Patterns[1].Pattern.Strips) != 0 {
		t.Errorf("patterns: %+v", part.Patterns)
	}
	if len(part.Rack.Pieces) != 1 || part.Rack.Pieces[0].ID != "E" || len(part.Rack.Strips) != 0 {
		t.Errorf("rack: %+v", part.Rack)
	}
	if len(job.Patterns[0].Pattern.Strips) != 3 || job.Patterns[0].Pattern.Strips[1].Species != "ash" {
		t.Errorf("the job was changed: %+v", job.Patterns)
	}
}

// The board is named where a pattern is made more than once, or stands alone.
func TestRefsTextOfAJob(t *testing.T) {
	refs := []Ref{{Pattern: "tray", Copy: 1, Strip: 2}, {Pattern: "plate", Copy: 1, Strip: 1}, {Pattern: "tray", Copy: 1, Strip: 5}}
	set := Job{Patterns: []Demand{{Stem: "tray", Copies: 1}, {Stem: "plate", Copies: 1}}}
	if got := set.RefsText(refs); got != "tray strips 2, 5; plate strip 1" {
		t.Error(got)
	}
	set.Patterns[1].Copies = 2
	if got := set.RefsText(refs); got != "tray board 1 strips 2, 5; plate board 1 strip 1" {
		t.Error(got)
	}
}
