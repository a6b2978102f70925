package relief_test

import (
	"fmt"
	"math"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	domain "example.com/oddments/pattern/relief"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screen/screentest"
	"example.com/oddments/tui/screens/relief"
)

const mm = length.Millimetre

// leaners are four rift strips of hard maple that lean left, right, left, right.
func leaners() pattern.Pattern {
	p := pattern.Pattern{Name: "leaners", Panel: pattern.Panel{Length: 400 * mm, Thickness: 22 * mm, Moisture: pattern.Read(8)}}
	for i := range 4 {
		p.Strips = append(p.Strips, pattern.Strip{Species: "hard_maple", Width: 25 * mm, Rings: pattern.RingsRift(), Bark: pattern.Bark{Right: []int8{-1, 1}[i%2], Up: 1}})
	}
	return p
}

// on drives the screen with a pattern on the bench.
func on(t testing.TB, p pattern.Pattern) *screentest.Driver {
	t.Helper()
	demo, _ := screentest.Read(t)
	ctx := screentest.Demo(t, relief.Screen{}.Keys()...)
	ctx.State, ctx.Title = edit.New(p), p.Name
	ctx.Report = check.Of(ctx.Physics, p, length.InMM)
	ctx.Allow = check.Allowances(demo.Shop)
	return screentest.Drive(t, relief.Screen{}, ctx)
}

func shown(d *screentest.Driver) relief.Worked { return d.Screen.(relief.Screen).Shown() }

// What is shown is what the domain works out, and only once it has come; the largest steps,
// the bark sides nobody has seen and how far to trust the figures are told.
func TestShowsTheRelief(t *testing.T) {
	p := leaners()
	p.Strips[2].Species, p.Strips[1].Bark = "black_walnut", pattern.Bark{}
	d := on(t, p)
	d.Shows("Relief, working it out")
	d.Work()
	want := domain.Of(d.Ctx.Physics, p, domain.Wetter{}).Seasons()
	if !reflect.DeepEqual(shown(d).Seasons, want) || d.Screen.(relief.Screen).Works() {
		t.Fatal("it shows another relief than that of the bench")
	}
	worse := want[domain.WorseFor(want, domain.Top)]
	line := worse.Worst(1)[0]
	d.Shows(worse.Season.String()+" season, visible face: gap under a straightedge about "+length.Step(worse.GapTopUM, 0, length.InMM),
		fmt.Sprintf("largest steps %d|%d about %s", line, line+1, length.Step(worse.Lines[line-1].StepUM, 0, length.InMM)),
		"1 of 4 strips has no bark side yet: end grain shows it", "give or take 15 %", "3 strips without a heart: the pith is assumed 120 mm away")
	if screen := d.Draw(80, 22); strings.Contains(screen, "working") || strings.Contains(screen, "too much") || strings.Contains(screen, "take care") {
		t.Errorf("a level, or work without end:\n%s", screen)
	}
}

// Whenever the bench is another its relief is worked out anew; meanwhile what was there stays,
// and a result that comes too late is dropped.
func TestLiveAsStripsMove(t *testing.T) {
	d := on(t, leaners())
	d.Work()
	before := shown(d)
	move := func(by int) {
		d.Ctx.State, _ = edit.Select(d.Ctx.State, by)
		d.Ctx.State, _ = edit.Turn(d.Ctx.State, d.Ctx.Allow)
		d.Ctx.Stamp.Pattern++
		d.Tell(screen.Recomputed{})
	}
	move(0)
	d.Shows("Relief, working it out")
	if !reflect.DeepEqual(shown(d), before) {
		t.Error("what was there is gone before the new one has come")
	}
	move(3) // two jobs now, of which the first is stopped
	d.Work()
	want := domain.Of(d.Ctx.Physics, d.Ctx.State.Pattern, domain.Wetter{}).Seasons()
	if !reflect.DeepEqual(shown(d).Seasons, want) || reflect.DeepEqual(want, before.Seasons) {
		t.Error("the relief is not that of the last move")
	}
	d.Tell(screen.Recomputed{})
	d.Tell(screen.Enter{})
	if d.Works() {
		t.Error("the same bench is worked out again")
	}
	d.Tell(screen.Opened{})
	if len(shown(d).Seasons) > 0 {
		t.Error("the relief of another pattern is still shown")
	}
}

// Enter makes the turn that is offered, and leaves the gap that was said.
func TestTurnThatHelps(t *testing.T) {
	d := on(t, leaners())
	d.Work()
	said := shown(d).Turn
	d.Shows("Enter: turn strip 2 end for end: gap under a straightedge about " + length.StepValue(said.Before.TopUM, length.InMM) + " to ")
	d.Do("enter")
	if d.Edits() != 1 || d.Ctx.State.Pattern.Strips[1].Bark != (pattern.Bark{Right: -1, Up: 1}) {
		t.Fatalf("%+v", d.Ctx.State.Pattern.Strips[1])
	}
	d.Work()
	gap := 0.0
	for _, s := range shown(d).Seasons {
		gap = max(gap, s.GapTopUM)
	}
	if math.Abs(gap-said.After.TopUM) > 1e-9 || gap > said.Before.TopUM-20 {
		t.Errorf("the gap is %g after the turn, said was %+v", gap, said)
	}
	for shown(d).Turn.Strip > 0 {
		d.Do("enter")
		d.Work()
	}
	edits := d.Edits()
	d.Do("enter")
	if d.Edits() != edits || !strings.Contains(d.Said, "no turn") {
		t.Errorf("said %q, %d edits", d.Said, d.Edits())
	}
}

// Keys show the other face, the other season, a wetter face, numbers, and go back.
func TestKeys(t *testing.T) {
	d := on(t, leaners())
	d.Work()
	d.Do("f")
	d.Shows("humid season, underside: gap under a straightedge about " + length.Step(shown(d).Seasons[1].GapUnderUM, 0, length.InMM))
	d.Ctx.Season = screen.Dry
	d.Shows("dry season, underside: gap under a straightedge about " + length.Step(shown(d).Seasons[0].GapUnderUM, 0, length.InMM))
	for _, want := range []string{"visible face 1 point wetter", "underside 1 point wetter", ""} {
		d.Do("w")
		d.Work()
		if heading := strings.SplitN(d.Draw(80, 22), "\n", 2)[0]; want != "" && !strings.Contains(heading, "Relief, "+want) || want == "" && strings.Contains(heading, "wetter") {
			t.Errorf("%q does not say %q", heading, want)
		}
	}
	d.Do("n")
	f := shown(d).Seasons
	d.Shows("1 MA", "1|2", f[0].Strips[0].Under().In(length.InMM), f[1].Lines[1].Step().In(length.InMM), "dry season", "humid season")
	d.Do("e", "K", "shift+left", "right", "esc")
	acts := []screen.Request{screen.Act{ID: "turn"}, screen.Act{ID: "set-bark"}, screen.Act{ID: "carry-left"}, screen.Act{ID: "select-right"}, screen.Go{To: keymap.Bench}}
	if !reflect.DeepEqual(d.Asked, acts) {
		t.Errorf("asked for %+v", d.Asked)
	}
}

// Where there is no relief it is said why.
func TestNoRelief(t *testing.T) {
	p := leaners()
	p.Strips[2].Species = "plum"
	d := on(t, p)
	d.Work()
	d.Shows("No relief: no figure for plum.")
	p.Strips = nil
	d = on(t, p)
	d.Work()
	d.Shows("No relief: no strips yet, a draft.")
	for range 3 {
		d.Do("n")
		d.Draw(60, 14)
	}
}

// The blocks stand as high as the profile says, by the scale that is said beside them, and the
// strips' own texture and number beneath.
func TestBlocksAreTheProfile(t *testing.T) {
	d := on(t, leaners())
	d.Work()
	said := regexp.MustCompile(`magnified (\d+) times, one row is (\d+) um`)
	for _, size := range [][2]int{{80, 22}, {100, 30}, {109, 21}} {
		screen := d.Draw(size[0], size[1])
		scale := said.FindStringSubmatch(screen)
		if scale == nil {
			t.Fatalf("no scale on\n%s", screen)
		}
		factor, _ := strconv.Atoi(scale[1])
		cells := size[0] - 2
		rowUM := 1000 * 2 * 100 / float64(cells) / float64(factor) // a cell is twice as high as wide
		if scale[2] != strconv.Itoa(int(math.Round(rowUM))) {
			t.Errorf("one row is %s um, want %g", scale[2], rowUM)
		}
		rows := strings.Split(screen, "\n")
		base := screentest.RowOf(t, screen, "....|..")
		heights, _ := shown(d).Seasons[1].Columns(domain.Top, cells)
		least, most := shown(d).Seasons[1].Range(domain.Top)
		for x, um := range heights {
			drawn := 0
			for y := 2; y < base; y++ {
				if i := strings.IndexRune(" ▁▂▃▄▅▆▇█", []rune(rows[y])[1+x]); i > 0 {
					drawn += len([]rune(" ▁▂▃▄▅▆▇█"[:i]))
				}
			}
			if off := float64(drawn-1)/8 - (um-least)/rowUM; math.Abs(off) > 0.2 {
				t.Fatalf("%v: column %d is %d eighths high, off by %g rows\n%s", size, x, drawn, off, screen)
			}
		}
		if (most-least)/rowUM > float64(base-1) {
			t.Errorf("the heights do not fit:\n%s", screen)
		}
	}
}

// What may stand otherwise by bark sides that nobody has seen is between two thin lines.
func TestBand(t *testing.T) {
	p := leaners()
	d := on(t, p)
	d.Work()
	if screen := d.Draw(80, 22); strings.ContainsAny(screen, "─▔") {
		t.Errorf("a band though all bark sides are known:\n%s", screen)
	}
	for i := range p.Strips {
		p.Strips[i].Bark = pattern.Bark{}
	}
	d = on(t, p)
	d.Work()
	if screen := d.Draw(80, 22); !strings.ContainsAny(screen, "─▔") || !strings.Contains(screen, "4 of 4 strips have no bark side yet") {
		t.Errorf("no band:\n%s", screen)
	}
}

// Wide windows draw both seasons, high ones both faces; the numbers of the strips are all
// there, and that of the chosen one.
func TestRoom(t *testing.T) {
	d := on(t, leaners())
	d.Work()
	for _, c := range []struct {
		w, h int
		want []string
	}{
		{80, 21, []string{"humid season, visible face"}},
		{120, 37, []string{"dry season, visible face", "humid season, visible face", "dry season, underside", "humid season, underside"}},
		{200, 57, []string{"dry season, visible face", "humid season, underside"}},
		{80, 50, []string{"humid season, visible face", "humid season, underside"}},
		{120, 20, []string{"dry season, visible face", "humid season, visible face"}},
	} {
		screen := d.Draw(c.w, c.h)
		for _, want := range c.want {
			if !strings.Contains(screen, want) {
				t.Errorf("%d x %d: no %q on\n%s", c.w, c.h, want, screen)
			}
		}
		if !regexp.MustCompile(` >1< +2 +3 +4 `).MatchString(screen) {
			t.Errorf("%d x %d: no numbers on\n%s", c.w, c.h, screen)
		}
	}
}

// Budget: a frame of 60 strips at 200x60, both faces in both seasons with their bands, 4 ms.
func BenchmarkFrame(b *testing.B) {
	p := leaners()
	p.Strips = slices.Repeat(p.Strips, 15)
	for i := range p.Strips {
		p.Strips[i].Species = []string{"hard_maple", "black_walnut", "black_cherry"}[i%3]
		if i%4 == 0 {
			p.Strips[i].Bark = pattern.Bark{}
		}
	}
	d := on(b, p)
	d.Work()
	for _, profile := range []paint.Profile{paint.TrueColour, paint.ANSI256, paint.None} {
		b.Run(profile.String(), func(b *testing.B) {
			c := paint.New(200, 60, profile)
			for b.Loop() {
				c.Reset(200, 60)
				d.Screen.Draw(c, c.Bounds(), d.Ctx)
				_ = c.String()
			}
		})
	}
}
