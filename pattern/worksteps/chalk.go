package worksteps

import (
	"fmt"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
)

// Chalk returns what to write on each strip, in the order in which they come off the
// plan: ready strips, then piece by piece. Two strips of a copy never read alike.
func Chalk(job cutting.Job, plan cutting.Plan) []string {
	var out []string
	chalk := func(from string, s cutting.Strip, face string) {
		text := fmt.Sprintf("%s: %s copy %d, strip %s, arrow to the far end, cross on %s", from, s.Pattern, s.Copy, s.Name(), face)
		if s.Asked.Over {
			text += ", turned over"
		}
		if s.Asked.Turned {
			text += ", turned end for end"
		}
		out = append(out, text)
	}
	for _, r := range readyUses(job, plan) {
		chalk(r.ID, r.need, "its face")
	}
	for _, d := range Details(job, plan) {
		for _, st := range d.Strips() {
			face := "the planed face"
			if st.Make == pattern.MakeEdge {
				face = "the ripped edge, which becomes the face"
			}
			chalk(d.Piece.ID, st.Strip, face)
		}
	}
	return out
}
