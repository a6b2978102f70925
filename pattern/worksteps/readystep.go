package worksteps

import (
	"fmt"
	"math"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
)

// A readyUse is a ready strip with what it is to become.
type readyUse struct {
	cutting.Ready
	lies  rack.Strip
	need  cutting.Strip
	wants pattern.Reading // the moisture that its pattern counts on
}

// readyUses returns them in the plan's order.
func readyUses(job cutting.Job, plan cutting.Plan) []readyUse {
	asked, strips := cutting.NeedsByRef(job), cutting.StripsByRef(job)
	lying := cutting.ReadyByID(job.Rack)
	var out []readyUse
	for _, r := range plan.Ready {
		out = append(out, readyUse{r, lying[r.ID], asked[r.For], strips[r.For].Moisture})
	}
	return out
}

// ready returns the step of a ready strip: what is cut off its length and planed off its
// thickness, with the notes on that.
func (pl planner) ready(r readyUse) Step {
	text := fmt.Sprintf("take ready strip %d of it for %s", r.Copy, cutting.RefsText([]cutting.Ref{r.For}))
	if r.need.Glued > 0 && r.lies.Thickness > r.need.Glued {
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
	if text := pl.settling(r.lies.Moisture, r.wants, []cutting.Ref{r.For}); text != "" {
		out = append(out, Note{Rule: "settle", Level: pattern.TakeCare, Piece: r.ID, Message: text})
	}
	if least := pl.shop.Machine.ThicknesserLength; r.need.Glued > 0 && r.lies.Thickness > r.need.Glued && r.lies.Length < least {
		out = append(out, Note{Rule: "short_thicknesser", Level: pattern.TooMuch, Piece: r.ID,
			Message: pl.notFed(r.lies.Length, shop.Machine.ThicknesserLeast) + orByHand})
	}
	return out
}

// settling says of timber whose reading is not what strips count on that it must wait;
// nothing where it is near enough, or one of the two is not known.
func (pl planner) settling(reads, wants pattern.Reading, refs []cutting.Ref) string {
	if !reads.Known || !wants.Known || math.Abs(reads.Percent-wants.Percent) <= pl.shop.Limits.MoisturePct.Care {
		return ""
	}
	return fmt.Sprintf("it reads %.1f %%, and %s is counted on at %.1f %%: let it settle, and glue it when it reads that", reads.Percent, cutting.RefsText(refs), wants.Percent)
}
