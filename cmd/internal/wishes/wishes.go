// Package wishes is the flags of oddments suggest for looks, timbers and pieces, and what
// they come to once the rack is read.
package wishes

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"example.com/oddments/cmd/internal/command"
	"example.com/oddments/cmd/internal/failure"
	"example.com/oddments/cmd/internal/typed"
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/joints"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/spoken"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/look"
	"example.com/oddments/species"
)

// Flags are those of looks and timbers.
type Flags struct {
	ask       *suggest.Request
	changed   func(flag string) bool
	gallery   bool
	readyOnly bool
	join      bool
	anyJoint  bool
}

// Add gives a command the flags of looks and of timbers, which set what is asked for.
func (f *Flags) Add(cmd *cobra.Command, ask *suggest.Request) {
	f.ask, f.changed = ask, cmd.Flags().Changed
	to := cmd.Flags()
	typed.Flag(to, &ask.Looks, "look", "LOOK", "", f.readLook, "hold this look, again for another: "+strings.Join(typed.Words(look.Looks()...), ", "))
	to.BoolVar(&f.gallery, "gallery", false, "the best layout of each look that can be had")
	typed.Flag(to, &ask.ApartPct, "apart", "PERCENT", typed.Shown(suggest.DefaultApart), readPercent, "share of the width on which two layouts with a look differ")
	to.BoolVar(&ask.Vary, "vary", false, "other timbers in each: two that make up most of one layout are half of the next at most")
	typed.Flag(to, &ask.AccentWidth, "accent-width", "LENGTH", suggest.DefaultAccent.Exact(), command.Across, "most an accent strip is wide")
	typed.Flag(to, &ask.Timbers, "timbers", "N..M", "", readTimbers, "fewest and most different timbers")
	typed.Flag(to, &ask.With, "with", "TIMBER", "", more(&ask.With, oneLined), "a timber that there must be, again for another")
	typed.Flag(to, &ask.Without, "without", "TIMBER", "", more(&ask.Without, oneLined), "a timber that there must not be, again for another")
	typed.Flag(to, &ask.AtMost, "at-most", `"TIMBER PERCENT"`, "", more(&ask.AtMost, readShare), "most of the width that a timber may have, again for another")
	typed.Flag(to, &ask.Longest, "longest", "LENGTH", "", typed.Length(1, pattern.MaxLength), "leave rough pieces longer than this alone")
	to.BoolVar(&f.readyOnly, "ready-only", false, "ready strips alone; cut nothing from pieces")
	to.BoolVar(&f.join, "join", false, "let strips be made of several pieces, their joints in the waste between products, as bricks")
	to.BoolVar(&f.anyJoint, "any-joint", false, "like --join, and neighbours may be parted in one gap")
	typed.Flag(to, &ask.Join.Products, "product", "LINE", "", more(&ask.Join.Products, readProduct), `with --join: what is cut from the panel, like "round 140 x2"; again for another`)
	typed.Complete(cmd, "look", typed.Words(look.Looks()...))
}

func readProduct(text string) (pattern.Product, error) {
	if err := command.OneLine(text); err != nil {
		return pattern.Product{}, err
	}
	return outline.ParseLine(text, length.InMM)
}

// more returns what reads one more value of a list.
func more[T any](list *[]T, read func(string) (T, error)) func(string) ([]T, error) {
	return func(text string) ([]T, error) {
		v, err := read(text)
		if err != nil {
			return nil, err
		}
		return append(*list, v), nil
	}
}

func oneLined(text string) (string, error) { return text, command.OneLine(text) }

func (f *Flags) readLook(text string) ([]look.Look, error) {
	return more(&f.ask.Looks, look.Parse)(text)
}

func readPercent(text string) (float64, error) {
	pct, ok := typed.Number(text)
	if !ok || !(pct >= 0 && pct <= 100) {
		return 0, fmt.Errorf("%q: must be a percentage from 0 to 100", text)
	}
	return pct, nil
}

// mostTimbers bounds what --timbers may say.
const mostTimbers = 60

func readTimbers(text string) ([2]int, error) {
	low, high, both := strings.Cut(text, "..")
	if !both {
		high = low
	}
	fewest, ok := spoken.Whole(low)
	most, ok2 := spoken.Whole(high)
	if !ok || !ok2 || fewest < 1 || most < fewest || most > mostTimbers {
		return [2]int{}, fmt.Errorf("%q: must be a range from 1 to %d, like 3..5, or one number", text, mostTimbers)
	}
	return [2]int{fewest, most}, nil
}

// readShare reads a timber and its percentage.
func readShare(text string) (suggest.Share, error) {
	at := strings.LastIndexByte(strings.TrimSuffix(text, "%"), ' ')
	if at < 0 {
		return suggest.Share{}, fmt.Errorf(`%q: must be a timber and a percentage, like "white_oak 30"`, text)
	}
	pct, ok := typed.Number(strings.TrimSuffix(strings.TrimSpace(text[at:]), "%"))
	if !ok {
		return suggest.Share{}, fmt.Errorf(`%q: must be a timber and a percentage, like "white_oak 30"`, text)
	}
	return suggest.Share{Species: strings.TrimSpace(text[:at]), Pct: pct}, command.OneLine(text)
}

// Width reads the glue-up width, or a range of it.
func (f *Flags) Width(text string) (length.Length, error) {
	low, high, both := strings.Cut(text, "..")
	if !both {
		f.ask.Range = [2]length.Length{}
		return command.Across(text)
	}
	texts, err := length.Together([]string{low, high}, length.InMM)
	if err != nil {
		return 0, err
	}
	least, err := command.Across(texts[0])
	if err != nil {
		return 0, err
	}
	most, err := command.Across(texts[1])
	if err != nil {
		return 0, err
	}
	if most < least {
		return 0, fmt.Errorf("%q: must be a range from less to more, like 330..345", text)
	}
	f.ask.Within(least, most)
	return f.ask.Width, nil
}

// Settle settles what the flags say, once the rack is read: timbers by their keys, the looks
// of a gallery, and the widths that strips have where none are named. nearest says which
// timbers are near to a name that is none.
func (f *Flags) Settle(w command.Workshop, nearest func(*species.Table, string) string) error {
	ask, changed := f.ask, f.changed
	if ask.Range != [2]length.Length{} && changed("tolerance") {
		return failure.Usage("leave out --tolerance", "--tolerance and a range of widths contradict each other")
	}
	for _, flag := range []struct {
		name string
		keys []*string
	}{{"with", places(ask.With)}, {"without", places(ask.Without)}, {"at-most", shares(ask.AtMost)}} {
		for _, key := range flag.keys {
			s, ok := w.Table.Find(*key)
			if !ok {
				return failure.Usage(nearest(w.Table, *key), "--%s: unknown timber %q", flag.name, *key)
			}
			*key = s.Key
		}
	}
	if f.gallery && len(ask.Looks) == 0 {
		ask.Looks = look.Looks()
	}
	if len(ask.Looks) > 0 {
		if !changed("apart") {
			ask.ApartPct = suggest.DefaultApart
		}
		if !changed("layouts") {
			ask.Layouts = max(len(ask.Looks), min(ask.Layouts, len(ask.Looks)*suggest.DefaultLayouts))
		}
	} else if !changed("apart") && !ask.Vary {
		ask.ApartPct = 0
	} else {
		ask.Looks = []look.Look{look.Any}
	}
	if c := ask.Clash(w.Physics()); c != nil {
		return failure.Usage(c.Hint, "%s", c.Wrong)
	}
	if err := f.settleJoints(w.Shop.Cut); err != nil {
		return err
	}
	if f.readyOnly && len(ask.Widths) > 0 {
		return failure.Usage("leave out one of the two", "--ready-only and --widths contradict each other")
	}
	if len(ask.Widths) == 0 && len(ask.Have) == 0 && !f.readyOnly && len(ask.Rack.Pieces) > 0 {
		ask.Widths = suggest.UsualWidths(pattern.Pattern{Panel: ask.Panel()}, ask.Rack, w.Shop.Standing, w.Unit)
	}
	if f.gallery && !changed("strips") {
		ask.Strips = ask.StartStrips(w.Shop)
	}
	return nil
}

// settleJoints says in which gaps strips may be parted.
func (f *Flags) settleJoints(cut outline.Cut) error {
	join := &f.ask.Join
	switch {
	case f.anyJoint:
		join.How = joints.Anywhere
	case f.join:
		join.How = joints.Even
	case len(join.Products) > 0:
		return failure.Usage("write --join --product LINE", "--product has no effect without --join")
	}
	if join.On() && len(join.Products) == 0 {
		return failure.Usage(`write what is cut from the panel, like --product "round 140 x2"`, "--join needs --product: joints lie in the waste between products")
	}
	if err := outline.Check(pattern.Pattern{}, join.Products, nil, cut); err != nil {
		return failure.Usage("see oddments help mark", "--product: %v", err)
	}
	return nil
}

func places(list []string) []*string {
	out := make([]*string, len(list))
	for i := range list {
		out[i] = &list[i]
	}
	return out
}

func shares(list []suggest.Share) []*string {
	out := make([]*string, len(list))
	for i := range list {
		out[i] = &list[i].Species
	}
	return out
}

// Strips reads the fewest and the most strips, or their one number.
func Strips(text string) ([2]int, error) {
	low, high, both := strings.Cut(text, "..")
	if !both {
		high = low
	}
	fewest, ok := spoken.Whole(low)
	most, ok2 := spoken.Whole(high)
	if !ok || !ok2 || fewest < 2 || most < fewest || most > pattern.MaxStrips {
		return [2]int{}, fmt.Errorf("%q: must be a range from 2 to %d, like 9..13, or one number", text, pattern.MaxStrips)
	}
	return [2]int{fewest, most}, nil
}

// Have reads "hard_maple 25 x14 flat first": species and width first, the rest in
// any order.
func Have(text string) (suggest.ReadyStrips, error) {
	if err := command.OneLine(text); err != nil {
		return suggest.ReadyStrips{Count: 1}, err
	}
	l := spoken.Line{Text: text}
	l.More()
	h := suggest.ReadyStrips{Count: 1, Species: l.Word()}
	if !l.More() {
		return h, fmt.Errorf(`must be a timber and a width, and what more there is to say, like "hard_maple 25 x14 flat first"`)
	}
	var err error
	if h.Width, err = l.Length(); err != nil {
		return h, err
	}
	if h.Width <= 0 || h.Width > pattern.MaxAcross {
		return h, fmt.Errorf("width %s: must be above 0 and at most %s", h.Width, pattern.MaxAcross)
	}
	for l.More() {
		what, err := readHaveWord(&h, l.Next())
		if err != nil {
			return h, err
		}
		if l.Twice(what) {
			return h, fmt.Errorf("%s is given twice: write it once", what)
		}
	}
	return h, nil
}

// readHaveWord reads one word behind the width and says what it is about.
func readHaveWord(h *suggest.ReadyStrips, word string) (what string, err error) {
	if word == "first" {
		h.UseFirst = true
		return "first", nil
	}
	if number, ok := strings.CutPrefix(word, "x"); ok {
		if h.Count, ok = spoken.Whole(number); !ok || h.Count < 1 || h.Count > pattern.MaxStrips {
			return "", fmt.Errorf("%q: must be x1 to x%d, how many there are", word, pattern.MaxStrips)
		}
		return "the count", nil
	}
	rings, err := pattern.ParseRings(word)
	if err != nil {
		return "", fmt.Errorf("%q: must be a count like x14, rings like flat, rift, quarter or unknown, or first", word)
	}
	h.Rings = rings
	return "the rings", nil
}
