package pileview

import (
	"fmt"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/pile/sets"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/tui/overlay/page"
	"example.com/oddments/tui/screen"
)

// why shows what stays on the rack, and why.
func (s Screen) why(ctx screen.Context) (screen.Screen, []screen.Request) {
	f := s.now.found
	switch {
	case s.works || !f.have:
		_, no := s.chosen(ctx)
		return s, no
	case !f.whole && s.stale(ctx) != "":
		return s, []screen.Request{screen.Refuse(s.stale(ctx))}
	case !f.whole:
		return s.planned(Screen.tell, ctx)
	}
	return s, s.tell(ctx)
}

// tell shows it of a set that is planned.
func (s Screen) tell(ctx screen.Context) []screen.Request {
	f := s.now.found
	return []screen.Request{screen.Show{Overlay: page.New("what stays on the rack, and why", append(without(f, ctx), stays(f.left, len(f.set.Panels) > 0, ctx)...))}}
}

// without says of wants of which nothing is made that their timber is not there.
func without(f found, ctx screen.Context) (lines []string) {
	for i, w := range f.wants {
		if no := lacks(w, ctx); no != "" && f.set.Made[i] == 0 {
			lines = append(lines, w.ID+" is not made: "+no)
		}
	}
	return lines
}

// stays says what stays on the rack, and why: pieces of one timber that stay for one reason together.
func stays(left []sets.Left, made bool, ctx screen.Context) []string {
	type reason struct{ timber, words string }
	var alike tell.Groups[reason, rack.Entry]
	for _, l := range left {
		alike.Add(reason{ctx.Name(l.Entry.Species), l.Words(ctx.Name, ctx.Unit)}, l.Entry)
	}
	lines := []string{}
	for why, all := range alike.All() {
		cm3, ids := 0.0, []string{}
		for _, e := range all {
			cm3 += e.VolumeCM3()
			ids = append(ids, e.ID)
		}
		lines = append(lines, fmt.Sprintf("%s, %s (%s): %s", why.timber, length.Volume(cm3, ctx.Unit), tell.List(ids, "and"), why.words))
	}
	if len(lines) == 0 {
		return []string{"something is taken of every piece; what is left of each stands below the set"}
	}
	if made {
		lines = append(lines, "All other pieces are cut; what is left of each timber stands below the set.")
	}
	return lines
}
