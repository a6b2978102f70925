package layouts

import (
	"fmt"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/joints"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/tui/screen"
)

// joinStrips lets strips be made of several pieces, as bricks or parted in any gap, or leaves
// them whole, and asks anew.
func (s Screen) joinStrips(ctx screen.Context) (screen.Screen, []screen.Request) {
	switch p := ctx.State.Pattern; {
	case s.again:
		return s, say(keepsStrips)
	case len(p.Products) == 0:
		return s, say("joints lie in the waste between products: list what is cut out first")
	case len(p.Seconds) > 0:
		return s, say("the panel is cut into bars: it has no waste to hide joints in")
	}
	next := map[joints.How]joints.How{joints.AsTheyAre: joints.Even, joints.Even: joints.Anywhere}
	s.wish.join = next[s.wish.join]
	then, asked := s.askAnew(ctx)
	return then, append(asked, screen.Say(map[joints.How]string{
		joints.AsTheyAre: "strips stay whole",
		joints.Even:      "strips may be in pieces, joints in the waste, neighbours parted in different gaps",
		joints.Anywhere:  "strips may be in pieces, joints in the waste, in any gap",
	}[s.wish.join]))
}

// joining returns what is asked for of joints in the panel of p.
func (w wish) joining(p pattern.Pattern) suggest.Joining {
	if w.join == joints.AsTheyAre || len(p.Products) == 0 || len(p.Seconds) > 0 {
		return suggest.Joining{}
	}
	return suggest.Joining{How: w.join, Products: p.Products, Avoids: p.Avoids}
}

// jointsWish says whether strips may be in pieces, where there are products.
func jointsWish(ctx scene) []wished {
	if len(ctx.State.Pattern.Products) == 0 {
		return nil
	}
	texts := map[joints.How][3]string{
		joints.AsTheyAre: {"whole", "whole strips", "whole strips"},
		joints.Even:      {"bricks", "joints as bricks", "joints as bricks"},
		joints.Anywhere:  {"any joint", "joints in any gap", "joints in any gap"},
	}
	return []wished{{layJoin, "", texts[ctx.q.Ask.Join.How]}}
}

// pieced says how many joints a layout has; nothing where it has none.
func pieced(l Candidate) string {
	if n := l.Layout.Joints(); n > 0 {
		return tell.Count(n, "joint") + ", in the waste between products."
	}
	return ""
}

// pieces says how each strip in pieces is laid.
func pieces(l Candidate, ctx scene) (out []string) {
	for i, s := range l.Pattern.Strips {
		if ways := l.Pattern.PiecesOf(s, ctx.Allow.Length); len(ways) > 1 {
			out = append(out, fmt.Sprintf("strip %d in pieces: %s", i+1, joints.Way(ways).Text(i+1, ctx.Unit)))
		}
	}
	return out
}
