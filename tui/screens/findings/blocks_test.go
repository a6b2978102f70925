package findings

import (
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/length"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen/screentest"
)

// What is put into lines is what would be seen if all were, at the same place.
func TestBlocksInView(t *testing.T) {
	ctx := screentest.Demo(t)
	for _, n := range []int{3, 13, 60} {
		p := ctx.State.Pattern
		one := p.Strips
		p.Strips = nil
		for i := range n {
			s := one[(i*5)%len(one)]
			s.Moisture = pattern.Read(float64(6 + i%7))
			p.Strips = append(p.Strips, s)
		}
		ctx.Report = check.Of(ctx.Physics, p, length.InMM)
		for at := range ctx.Report.Groups {
			for h := 1; h <= 60; h += 1 + h/7 {
				r := paint.Rect{X: 1, Y: 2, W: 78, H: h}
				got := List{at}.blocks(r, ctx)
				want := allBlocks(at, r, ctx.Report, func(i int) block { return blockOf(i, r, ctx) })
				for len(want) > 0 && want[0].index < got[0].index {
					if want[0].y+len(want[0].words) > r.Y {
						t.Fatalf("%d strips, finding %d of %d, %d rows: finding %d is left out", n, at, len(ctx.Report.Groups), h, want[0].index)
					}
					want = want[1:]
				}
				for i, b := range want {
					switch {
					case i < len(got) && (got[i].index != b.index || got[i].y != b.y):
						t.Fatalf("%d strips, finding %d, %d rows: finding %d at %d, want %d at %d", n, at, h, got[i].index, got[i].y, b.index, b.y)
					case i >= len(got) && b.y < r.Bottom():
						t.Fatalf("%d strips, finding %d, %d rows: finding %d is left out", n, at, h, b.index)
					}
				}
			}
		}
	}
}

// allBlocks puts every finding into lines.
func allBlocks(at int, r paint.Rect, report check.Report, of func(int) block) []block {
	all := make([]block, len(report.Groups))
	total := 0
	for i := range all {
		all[i] = of(i)
		all[i].y = total
		total += len(all[i].words)
	}
	top := max(0, min(all[at].y-r.H/3, total-r.H))
	for i := range all {
		all[i].y += r.Y - top
	}
	return all
}
