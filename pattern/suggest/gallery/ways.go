package gallery

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"time"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/suggest"
)

// eachWay is how long one way out is tried.
const eachWay = 400 * time.Millisecond

// A wayOut is one wish that may be given up.
type wayOut struct {
	of   suggest.Condition
	with func(*suggest.Request)
	said func(suggest.Layout) string
}

// ways returns which one wish, given up alone, brings a layout; each was found.
func (s *show) ways(a suggest.Request) *suggest.Relaxation {
	out := &suggest.Relaxation{}
	for _, w := range s.givenUp(a) {
		with := a
		w.with(&with)
		with.Layouts, with.Looks = 1, s.looks()
		ctx, stop := context.WithTimeout(s.ctx, eachWay)
		spared := with.Spared()
		spared.Aim = spared.AimFor(s.physics.Shop())
		try := &show{ctx: ctx, physics: s.physics, ask: spared}
		got := try.search()
		stop()
		if len(got.Layouts) > 0 {
			out.Ways = append(out.Ways, suggest.Loosening{Condition: w.of, Request: with, Said: "it would work " + w.said(got.Layouts[0])})
		}
	}
	return out
}

// givenUp returns the wishes that may be given up.
func (s *show) givenUp(a suggest.Request) []wayOut {
	say := func(text string) func(suggest.Layout) string { return func(suggest.Layout) string { return text } }
	name := func(key string) string {
		timber, _ := s.physics.Table().Get(key)
		return cmp.Or(timber.Name, key)
	}
	least, most := a.Limits()
	out := []wayOut{{suggest.OfTolerance, func(r *suggest.Request) {
		r.Within(max(1, least-(most-least)-a.Width/widthShare), most+(most-least)+a.Width/widthShare)
	}, func(l suggest.Layout) string { return l.Width.String() + " wide" }}}
	if a.Strips != [2]int{suggest.DefaultFewest, suggest.DefaultMost} {
		out = append(out, wayOut{suggest.OfStrips, func(r *suggest.Request) { r.Strips = [2]int{suggest.DefaultFewest, suggest.DefaultMost} },
			func(l suggest.Layout) string { return fmt.Sprintf("with %d strips", len(l.Strips)) }})
	}
	for i, key := range a.Without {
		out = append(out, wayOut{suggest.OfWish, func(r *suggest.Request) { r.Without = slices.Delete(slices.Clone(r.Without), i, i+1) },
			say("with " + name(key) + " allowed")})
	}
	for i, key := range a.With {
		out = append(out, wayOut{suggest.OfWish, func(r *suggest.Request) { r.With = slices.Delete(slices.Clone(r.With), i, i+1) },
			say("without the wish for " + name(key))})
	}
	for i, share := range a.AtMost {
		out = append(out, wayOut{suggest.OfWish, func(r *suggest.Request) { r.AtMost = slices.Delete(slices.Clone(r.AtMost), i, i+1) },
			say(fmt.Sprintf("with more than %g %% %s", share.Pct, name(share.Species)))})
	}
	if a.Timbers != [2]int{} {
		out = append(out, wayOut{suggest.OfWish, func(r *suggest.Request) { r.Timbers = [2]int{} }, say("with another number of timbers")})
	}
	if a.Longest > 0 {
		out = append(out, wayOut{suggest.OfWish, func(r *suggest.Request) { r.Longest = 0 }, say("with the longer pieces cut too")})
	}
	if s.ask.Aim == suggest.UseUp && a.LeastContrast > 0 {
		out = append(out, wayOut{suggest.OfLeastContrast, func(r *suggest.Request) { r.LeastContrast = 0 },
			func(l suggest.Layout) string {
				return fmt.Sprintf("with a weakest contrast of %.1f", math.Floor(10*l.SmallestContrast)/10)
			}})
	}
	if a.NoTwins {
		out = append(out, wayOut{suggest.OfNoTwins, func(r *suggest.Request) { r.NoTwins = false }, say("with a timber beside itself")})
	}
	if a.Level < pattern.TooMuch {
		out = append(out, wayOut{suggest.OfLevel, func(r *suggest.Request) { r.Level++ }, say(fmt.Sprintf("with glue lines up to %q", a.Level+1))})
	}
	return out
}

// widthShare is the part of the width by which another width is tried.
const widthShare = 8
