package worksteps

import (
	"fmt"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
)

// A readyUse is a ready strip with what it is to become.
type readyUse struct {
	cutting.Ready
	lies rack.Strip
	need cutting.Strip
}

// readyUses returns them in the plan's order.
func readyUses(job cutting.Job, plan cutting.Plan) []readyUse {
	asked, lying := cutting.NeedsOf(job, plan), cutting.ReadyByID(job.Rack)
	var out []readyUse
	for _, r := range plan.Ready {
		out = append(out, readyUse{r, lying[r.ID], asked[r.For]})
	}
	return out
}

// tooThick reports whether the strip is to be planed.
func (r readyUse) tooThick() bool { return r.need.Glued > 0 && r.lies.Thickness > r.need.Glued }

// ready returns the step of a ready strip: what is cut off its length and planed off its
// thickness, with the notes on that.
func (pl planner) ready(r readyUse) Step {
	text := fmt.Sprintf("take ready strip %d for %s", r.Copy, pl.named([]cutting.Ref{r.For}))
	if r.tooThick() {
		text += fmt.Sprintf("; plane it from %s to %s", r.lies.Thickness.Format(pl.unit), pl.with(r.need.Glued))
	}
	if r.need.Length > 0 && r.lies.Length > r.need.Length {
		text += fmt.Sprintf("; crosscut it from %s to %s", r.lies.Length.Format(pl.unit), pl.with(r.need.Length))
	}
	return Step{Kind: StepReady, Piece: r.ID, Name: r.ID, Text: text, Notes: pl.readyNotes(r)}
}

// readyNotes returns what to know of a ready strip before it is planed and glued.
func (pl planner) readyNotes(r readyUse) []Note {
	var out []Note
	if text := pl.settling(r.lies.Moisture, r.need.Asked.Moisture, []cutting.Ref{r.For}); text != "" {
		out = append(out, Note{Rule: "settle", Level: pattern.TakeCare, Piece: r.ID, Message: text})
	}
	if r.tooThick() && r.lies.Length < pl.shop.Machine.ThicknesserLength {
		out = append(out, Note{Rule: "short_thicknesser", Level: pattern.TooMuch, Piece: r.ID,
			Message: pl.notFed(r.lies.Length, shop.Machine.ThicknesserLeast) + orByHand})
	}
	return out
}
