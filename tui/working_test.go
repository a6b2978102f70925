package tui

import (
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/work"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screens/workview"
)

const toWork, toMade = "shift+tab shift+tab", "shift+tab"

// The screen shows what the command prints, line by line, and nothing else: every
// figure is found on it when it is scrolled through. A thicknesser of 254 takes a panel
// of 299 in two parts, so glue and wait take eight days, the bench two for ten hours,
// drying six evenings: sixteen days before 5 December.
func TestWorkShowsEveryLine(t *testing.T) {
	d := onLantern(t, 120, 40).keys(toWork + " + + + m")
	d.text("600").keys("enter p").text("45").keys("enter c").text("6").keys("enter d").text("2026-12-05").keys("enter o")
	d.shows("[WORK]", "4 panels   600 min   price 45.00   6 clamps   before 2026-12-05   drying oil")
	r := d.app.physics
	job, err := work.JobOf(r, d.app.state().Pattern, 4)
	if err != nil {
		t.Fatal(err)
	}
	job.Minutes, job.Asked, job.Clamps = 600, 45, 6
	job.Due, _ = pattern.ParseDate("2026-12-05")
	job.Label = work.Labels(r.Table(), job, length.InMM)[0]
	job.DryingOil = true
	want := work.Report(r, job, work.Of(r, job), length.InMM)
	seen := ""
	for range len(want) + 5 {
		for line := range strings.Lines(d.screen()) {
			seen += " " + strings.Join(strings.Fields(strings.TrimSpace(line)), " ")
		}
		d.keys("down")
	}
	got := of[workview.Screen](d.app).Shown().Lines
	if len(got) != len(want) {
		t.Fatalf("%d lines, want %d", len(got), len(want))
	}
	for i, l := range want {
		if got[i] != l {
			t.Errorf("line %d is %+v, want %+v", i, got[i], l)
		}
		first := strings.Fields(l.Text)
		if text := strings.Join(first[:min(1, len(first))], " "); !strings.Contains(seen, text) { // the rest may stand in the next row
			t.Errorf("%q is nowhere on the screen", text)
		}
	}
	for _, text := range []string{"[finish] rack_slots, coats", "set by [glue] spread_g_m2, waste_percent", "Follow your machine's manual",
		"catch fire by themselves", "8 clamps by force and reach, you have 6", "last day to start: 2026-11-19"} {
		if !strings.Contains(seen, text) {
			t.Errorf("%q is nowhere on the screen", text)
		}
	}
}

// At 80x24 the source of the chosen figure, and the key that changes it, stand beneath.
func TestWorkSaysWhatChangesAFigure(t *testing.T) {
	d := onLantern(t, 80, 24).keys(toWork + " down down")
	d.shows(">glue for all panels: ", "source: spread as set, 180 g/m2 by default (unchecked); waste is common", "Set by [glue] spread_g_m2, waste_percent in")
	d.keys("pgdown").shows("Cut out", ">product 1: round 290 mm, bevel 8 mm (under)", "from the pattern")
	d.keys("pgdown").shows("Sand", ">  sanding 1: sand the rim at grit 120")
	d.keys("pgdown").shows("Finish", ">products: 2")
	d.keys("pgdown").shows("Label", ">  item: Lantern pair")
	d.keys("pgdown").shows("Sell", ">products: 2")
	d.keys("pgup").shows(">  item: Lantern pair")
	d.keys("pgup pgup pgup pgup pgup").shows(">glue lines of a panel: 12")
	d.keys("i pgdown").shows("11 27/64 in")
}

// Copies are one number, here and in the plan; what is told is taken back by an empty
// field, and what cannot be is refused.
func TestWorkIsTold(t *testing.T) {
	d := onLantern(t, 80, 24).keys(toWork)
	d.keys("+ +").shows("3 panels")
	if d.app.batch.Made() != 3 {
		t.Errorf("the plan makes %d", d.app.batch.Made())
	}
	d.keys("- - -").shows("copies: from 1").keys("m").text("90").keys("enter").shows("90 min")
	d.keys("m ctrl+u enter")
	if of[workview.Screen](d.app).Shown().Job.Minutes != 0 {
		t.Error("an empty field keeps the minutes")
	}
	d.keys("m").text("x").keys("enter").shows("must be a whole number from 1 to 100000").keys("esc")
	d.keys("p").text("-3").keys("enter").shows("must be a plain amount").keys("esc")
	d.keys("c").text("0").keys("enter").shows("from 1 to 10000").keys("esc")
	d.keys("d").text("2026-02-30").keys("enter").shows("a day of the calendar").keys("esc")
	// Another pattern has its own minutes; the price asked stays the maker's.
	d.keys("m").text("90").keys("enter p").text("45").keys("enter ctrl+n enter").shows("[BENCH]", "An empty panel").keys("7")
	if job := of[workview.Screen](d.app).Shown().Job; job.Minutes != 0 || job.Asked != 45 {
		t.Errorf("%d minutes, asked %v", job.Minutes, job.Asked)
	}
	d.shows("[WORK]", "No strips yet: put them in on the bench")
}

// A pattern whose products cannot be laid still has its figures for gluing.
func TestWorkWithALostCentre(t *testing.T) {
	setup := demoSetup(t)
	p := lantern()
	p.Products[0].Centre = pattern.Centre{Joint: 13}
	setup.Open = store.Saved{Stem: "lantern-pair", Pattern: p}
	start(t, setup, 80, 24).keys(toWork).shows("cannot be laid: product 1: centre joint 13", "glue lines of a panel: 12")
}

// A batch is written down from today and the copies planned, changed and struck out,
// each as one step; the label names it.
func TestMadeByKeys(t *testing.T) {
	d := onLantern(t, 80, 24).keys(toMade)
	d.shows("[MADE]", "No batch yet. a adds", "Label of product 1", "item: Lantern pair", "290 mm round, 22 mm thick",
		"to write by hand on the printed label: finish, glue, maker, postal", "Check current local law")
	before := d.app.state()
	d.app.batch.Copies = 4
	d.keys("a").shows("> 2026-11-25, x4,").text("299.5 wide, 310 min, note one kept").shows("299.5wide, 310 min, note one kept"[9:]).keys("enter")
	want := pattern.Made{Date: pattern.Date{Year: 2026, Month: 11, Day: 25}, Copies: 4, Width: 299500 * length.Micrometre, Minutes: 310, Note: "one kept"}
	if got := d.app.state().Pattern.Made; len(got) != 1 || got[0] != want {
		t.Fatalf("%+v, want %+v", got, want)
	}
	d.shows("1 batch, copies: 4", "> 1  2026-11-25  4", "299.5", "310", "78 minutes a copy; note: one kept", "to write by hand on the printed label: finish, glue, maker, postal")
	d.keys("l").shows("product 1, batch: lantern-pair-1", "product 1, date: 2026-11-25", "product 1, to write by hand on the printed label: finish", "Check current local law").keys("esc")
	d.keys("a ctrl+u").text("2026-11-26 x1").keys("enter").shows("2 batches, 5 copies in all", "> 2  2026-11-26", "no note")
	d.keys("up enter").shows("change batch 1", "> 2026-11-25, x4, 299.5 wide, 310 min, note one kept").text("!").keys("enter").shows("note: one kept!")
	d.keys("x").shows("1 batch, copies: 1").keys("u").shows("2 batches")
	d.keys("u u u")
	if !d.app.state().Alike(before) {
		t.Errorf("undone: %+v", d.app.state().Pattern.Made)
	}
	d.keys("a ctrl+u").text("4 5").keys("enter").shows("not a word I know").keys("esc")
	d.keys("x").shows("no batch yet").keys("g").shows("no batch yet").keys("enter").shows("a batch: day")
}

// Making again takes the copies over to the plan, and what was noted is shown there.
func TestMakeAgain(t *testing.T) {
	setup := owned(t)
	p := setup.Open.Pattern
	p.Made = []pattern.Made{
		{Date: pattern.Date{Year: 2026, Month: 9, Day: 1}, Copies: 1, Note: "tight"},
		{Date: pattern.Date{Year: 2026, Month: 10, Day: 3}, Copies: 2, Minutes: 150, Note: "glue in two goes"},
	}
	setup.Open.Pattern = p
	d := start(t, setup, 120, 40).keys(toMade + " g")
	d.shows("[PLAN]", "made 2 times", "planned ", "planned as on 2026-10-03: 2 copies; note then: glue in two goes")
	d.keys("7").shows("[WORK]", "2 panels   150 min") // as long as then
	d.keys("tab up g").shows("[PLAN]", "made once", "note then: tight")
}

// The records are saved with the pattern.
func TestMadeIsSaved(t *testing.T) {
	d := onDemo(t, 80, 24).keys(toMade + " a enter S").shows("saved as rookery-square")
	if text := saved(t, d, "patterns/rookery-square.toml"); !strings.Contains(text, "[[made]]\ndate = 2026-11-25\ncopies = 1\n") {
		t.Errorf("%s", text)
	}
}

// Budget: a frame of the working figures at 200x60 within 4 ms, a key of it 2 ms.
func BenchmarkViewWork(b *testing.B) {
	a := cutSixty(b, paint.TrueColour)
	model, _ := a.Update(key("tab"))
	a = model.(App)
	b.Run("view", func(b *testing.B) {
		for b.Loop() {
			_ = a.View()
		}
	})
	b.Run("copies", func(b *testing.B) {
		more, fewer := key("+"), key("-")
		for b.Loop() {
			model, _ := a.Update(more)
			model, _ = model.Update(fewer)
			a = model.(App)
		}
	})
}
