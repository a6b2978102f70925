package layouts

import (
	"fmt"
	"strings"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

// A wished thing is a key with what it is set to: in few words, in more, and in full
// with the key that takes it back.
type wished struct {
	id    keymap.ID
	back  keymap.ID // or nothing
	texts [3]string
}

// The lengths of the words.
const (
	inFew = iota
	inMore
	inFull
)

// wishes lists what can be set, as it is set now.
func wishes(ctx scene) []wished {
	a := ctx.q.Ask
	same := func(text string) [3]string { return [3]string{text, text, text} }
	level := func(l string) [3]string { return [3]string{l, "up to " + l, "glue lines: up to " + l} }
	if ctx.q.Again {
		return []wished{
			{layLevel, "", level(ctx.q.Same.Level.String())},
			{layCount, layCountN, same(fmt.Sprintf("show %d", ctx.q.Same.Answers))},
			{layCopies, layCopiesN, same(fmt.Sprintf("make %d", ctx.q.Same.Copies))},
		}
	}
	out := append(lookWishes(ctx), widthWish(ctx), wished{layLevel, "", level(a.Level.String())})
	if a.Aim == suggest.UseUp {
		contrast := fmt.Sprintf("%g", a.LeastContrast)
		out = append(out, wished{layAim, "", [3]string{"use-first", "use-first wood", "aim: use-first wood"}},
			wished{layContrast, layContrastN, [3]string{contrast + "+", "contrast " + contrast + "+", "contrast " + contrast + " or more"}})
	} else {
		out = append(out, wished{layAim, "", [3]string{"contrast", "contrast", "aim: contrast"}})
	}
	twins := [3]string{"same wood ok", "same wood ok", "same wood side by side: yes"}
	if a.NoTwins {
		twins = [3]string{"same wood apart", "same wood apart", "same wood side by side: no"}
	}
	number := fmt.Sprintf("%d-%d", a.Strips[0], a.Strips[1])
	if a.Strips[0] == a.Strips[1] {
		number = fmt.Sprint(a.Strips[0])
	}
	out = append(out, wished{layTwins, "", twins},
		wished{layStrips, "", same(number + " strips")},
		wished{layCount, layCountN, same(fmt.Sprintf("show %d", a.Layouts))})
	out = append(out, jointsWish(ctx)...)
	if len(a.Widths) == 0 {
		return append(out, wished{layFrom, "", [3]string{"ready", "ready strips", "ready strips alone"}})
	}
	longest := [3]string{"any length", "pieces of any length", "pieces of any length"}
	if a.Longest > 0 {
		text := "pieces to " + a.Longest.With(ctx.Unit)
		longest = [3]string{text, text, text + " long"}
	}
	all := widths(a.Widths, ctx.Unit)
	return append(out, wished{layFrom, "", [3]string{"pieces", "pieces too", "ready strips and pieces"}},
		wished{layWidths, "", [3]string{all, all + " wide", all + " wide"}}, wished{layLongest, "", longest})
}

// lookWishes lists what is wished of looks and timbers.
func lookWishes(ctx scene) []wished {
	a := ctx.q.Ask
	same := func(text string) [3]string { return [3]string{text, text, text} }
	timbers, number := same("all timbers"), [3]string{"1+ timbers", "1 or more timbers", "any number of timbers"}
	var wish []string
	for i, n := range []int{len(a.With), len(a.Without), len(a.AtMost)} {
		if n > 0 {
			wish = append(wish, fmt.Sprintf([]string{"%d must", "%d out", "%d limited"}[i], n))
		}
	}
	if len(wish) > 0 {
		timbers = same(strings.Join(wish, ", "))
	}
	if a.Timbers[1] > 0 {
		number = same(fmt.Sprintf("%d-%d timbers", a.Timbers[0], a.Timbers[1]))
		if a.Timbers[0] == a.Timbers[1] {
			number = same(tell.Count(a.Timbers[0], "timber"))
		}
	}
	out := []wished{{layTimbers, "", timbers}, {layHowMany, "", number}}
	if len(a.Looks) == 0 {
		mirror := [3]string{"mirror: no", "mirror: no", "mirrored: no"}
		if a.Symmetric {
			mirror = [3]string{"mirror", "mirror", "mirrored: yes"}
		}
		return append([]wished{{layHold, "", same("no look")}}, append(out, wished{layMirror, "", mirror},
			wished{layDiffer, layDifferN, [3]string{fmt.Sprintf("%d+ differ", a.Differ), fmt.Sprintf("%d+ differ", a.Differ), fmt.Sprintf("%d+ strips differ", a.Differ)}})...)
	}
	look := same("one of each look")
	if l, held := ctx.s.wish.held(); held {
		look = [3]string{l.String(), "look " + l.String(), "look: " + l.String()}
	}
	vary := [3]string{"same timbers ok", "same timbers ok", "the same timbers in several"}
	if a.Vary {
		vary = [3]string{"other timbers", "other timbers each", "other timbers in each"}
	}
	apart := fmt.Sprintf("%g %% apart", a.ApartPct)
	return append([]wished{{layHold, "", look}}, append(out, wished{layVary, "", vary}, wished{layDiffer, layDifferN, same(apart)})...)
}

// widthWish says how wide a panel may be: within a range, or give or take.
func widthWish(ctx scene) wished {
	a := ctx.q.Ask
	if least, most := a.Limits(); a.Range[1] > 0 {
		text := least.Format(ctx.Unit) + ".." + most.With(ctx.Unit)
		return wished{layWithin, "", [3]string{text, text, "width " + text}}
	}
	tolerance := a.Tolerance.Format(ctx.Unit)
	return wished{layWider, layTighter, [3]string{"±" + tolerance, "±" + a.Tolerance.With(ctx.Unit), "width ±" + a.Tolerance.With(ctx.Unit)}}
}

func widths(all []length.Length, u length.Unit) string {
	texts := make([]string, len(all))
	for i, w := range all {
		texts[i] = w.Format(u)
	}
	return strings.Join(texts, ",")
}

// mostWishRows is how many rows the wishes may take.
const mostWishRows = 3

// wishRows returns how many rows w cells wide the wishes take.
func wishRows(w int, ctx scene) int {
	places := placeWishes(paint.Rect{W: w, H: mostWishRows}, ctx)
	return 1 + places[len(places)-1].Rect.Y
}

// placeWishes puts the wishes into the rows of r, with as many words as find room in
// one row, or else in two.
func placeWishes(r paint.Rect, ctx scene) []screen.KeyPlace {
	all := wishes(ctx)
	for rows := 1; rows <= mostWishRows; rows++ {
		r.H = rows
		for _, words := range [...]int{inFull, inMore, inFew} {
			if rows == 1 && words == inFew {
				continue // two rows with more words are read sooner
			}
			if places, fit := screen.Flow(r, worded(all, words, ctx.Keys)); fit {
				return places
			}
		}
	}
	places, _ := screen.Flow(r, worded(all, inFew, ctx.Keys))
	return places
}

// worded returns the wishes with their keys and so many words.
func worded(all []wished, words int, keys keymap.Map) []screen.KeyPlace {
	out := make([]screen.KeyPlace, len(all))
	for i, w := range all {
		out[i] = screen.KeyPlace{ID: w.id, Key: keys.KeyOf(w.id), Text: w.texts[words]}
		if words == inFull && w.back != "" {
			out[i].Key += " " + keys.KeyOf(w.back)
		}
	}
	return out
}

func drawWishes(c *paint.Canvas, r paint.Rect, ctx scene) {
	if ctx.wrong == "" {
		screen.DrawKeys(c, placeWishes(r, ctx), paint.RolePlain)
	}
}
