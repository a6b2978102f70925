package tui

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/document"
)

// failing is a home whose saves fail as long as there is an error; what it does else is
// the home's.
type failing struct {
	document.Files
	save, keep error
	late       bool // the save is made, and fails then
}

func (f *failing) SavePattern(stem string, p pattern.Pattern, base store.Version) (store.Version, error) {
	if f.save == nil || f.late {
		v, err := f.Files.SavePattern(stem, p, base)
		return v, errors.Join(err, f.save)
	}
	return base, f.save
}

func (f *failing) Keep(r store.Recovery) (string, error) {
	if f.keep != nil {
		return r.Copy, f.keep
	}
	return f.Files.Keep(r)
}

func (f *failing) DropRecovery(stem string) error {
	if f.keep != nil {
		return f.keep
	}
	return f.Files.DropRecovery(stem)
}

// heldByAnother has another oddments be the writer of a home.
func heldByAnother(t *testing.T, home *store.Home) *store.Home {
	t.Helper()
	if err := home.Close(); err != nil {
		t.Fatal(err)
	}
	other := store.OpenHome(home.Dir())
	if err := other.Hold(); err != nil {
		t.Fatal(err)
	}
	return other
}

// A cause makes every save to a home fail, and gives what ends it.
type cause struct {
	name string
	make func(t *testing.T, d *hand, home *store.Home) (end func())
}

// causes lists what makes a save fail, once the pattern has a file and its work a
// recovery copy.
func causes() []cause {
	ok := func(t *testing.T, err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	return []cause{
		{"an injected error", func(_ *testing.T, d *hand, _ *store.Home) func() {
			f := &failing{Files: d.app.bench, save: errors.New("input/output error")}
			d.app.bench = f
			return func() { f.save = nil }
		}},
		{"a folder in the place of .bak", func(t *testing.T, d *hand, home *store.Home) func() {
			bak := filepath.Join(home.Dir(), "patterns", d.app.doc.Stem+".toml.bak")
			ok(t, os.Remove(bak))
			ok(t, os.Mkdir(bak, 0o755))
			return func() { ok(t, os.Remove(bak)) }
		}},
		{"a file in the place of patterns", func(t *testing.T, _ *hand, home *store.Home) func() {
			folder := filepath.Join(home.Dir(), "patterns")
			ok(t, os.Rename(folder, folder+".away"))
			ok(t, os.WriteFile(folder, nil, 0o644))
			return func() { ok(t, os.Remove(folder)); ok(t, os.Rename(folder+".away", folder)) }
		}},
		{"another oddments on the home", func(t *testing.T, _ *hand, home *store.Home) func() {
			other := heldByAnother(t, home)
			return func() { ok(t, other.Close()) }
		}},
		{"a folder that may only be read", func(t *testing.T, _ *hand, home *store.Home) func() {
			if os.Geteuid() == 0 {
				t.Skip("skipped: root may write everywhere")
			}
			folder := filepath.Join(home.Dir(), "patterns")
			ok(t, os.Chmod(folder, 0o555))
			return func() { ok(t, os.Chmod(folder, 0o755)) }
		}},
	}
}

// withCopy starts on a home of one's own with a pattern that was saved and then changed,
// and whose change has its recovery copy.
func withCopy(t *testing.T) (*hand, *store.Home) {
	t.Helper()
	d, home := ownHome(t)
	d.keys("+ S").aSecond().keys("+").aSecond()
	if n := len(copies(t, home)); n != 1 {
		t.Fatalf("%d recovery copies", n)
	}
	return d, home
}

// A save that fails saves nothing: the work counts as unsaved, its recovery copy stays,
// and leaving says so. When the cause is gone the same key saves it.
func TestFailedSaveSavesNothing(t *testing.T) {
	for _, c := range causes() {
		t.Run(c.name, func(t *testing.T) { failsToSave(t, c) })
	}
}

func failsToSave(t *testing.T, c cause) {
	d, home := withCopy(t)
	file := filepath.Join("patterns", d.app.doc.Stem+".toml")
	before := saved(t, d, file)
	end := c.make(t, d, home)
	d.keys("S").aSecond()
	d.shows("Rookery square *")
	if strings.Contains(d.screen(), "saved as") {
		t.Errorf("the failed save counts as saved:\n%s", d.screen())
	}
	if got := copies(t, home); len(got) != 1 {
		t.Errorf("kept after the failed save: %v", got)
	}
	var said strings.Builder
	d.keys("q")
	if err := d.app.keepLast(&said); err != nil {
		t.Log(err) // the copy was written before
	}
	if !strings.Contains(said.String(), "not saved; they are kept") || !d.quit {
		t.Errorf("quit %v, and at the end it says %q", d.quit, said.String())
	}
	if got := copies(t, home); len(got) != 1 {
		t.Errorf("kept after leaving: %v", got)
	}
	end()
	if got := saved(t, d, file); got != before {
		t.Error("the file was changed")
	}
	d.keys("S").shows("saved as " + d.app.doc.Stem).aSecond()
	if got := saved(t, d, file); got == before || d.app.doc.History.Dirty() || len(copies(t, home)) != 0 {
		t.Errorf("saved again: dirty %v, kept %v", d.app.doc.History.Dirty(), copies(t, home))
	}
}

// A save that fails when it is written, as where its folder cannot be synced, is not
// taken for another program's change by the next.
func TestSaveThatFailsLateIsNobodyElses(t *testing.T) {
	d, home := withCopy(t)
	f := &failing{Files: home, save: errors.New("input/output error"), late: true}
	d.app.bench = f
	d.keys("S").shows("Rookery square *", "input/output error")
	f.save = nil
	d.keys("+ S").shows("saved as " + d.app.doc.Stem)
}

// A recovery copy that cannot be taken away leaves the save as it is.
func TestSaveCountsWhereTheCopyStays(t *testing.T) {
	d, home := withCopy(t)
	f := &failing{Files: home, keep: errors.New("input/output error")}
	d.app.bench = f
	d.keys("S").shows("The recovery copy of saved work stays: input/output error")
	if d.app.doc.History.Dirty() {
		t.Error("what was saved counts as unsaved")
	}
	d.keys("q").shows("q again leaves all the same. The recovery copy of saved work stays")
	f.keep = nil
	d.app.quitFailed = false
	d.keys("q")
	if got := copies(t, home); !d.quit || len(got) != 0 {
		t.Errorf("quit %v, kept %v", d.quit, got)
	}
}

// A save asked for while one is under way waits for it, and saves what came meanwhile.
func TestSaveWaitsForASave(t *testing.T) {
	d, home := ownHome(t)
	d.run(d.held("+ S + S"))
	saved, err := home.Pattern(d.app.doc.Stem, nil)
	if err != nil || saved.Pattern.Width() != d.app.state().Pattern.Width() || d.app.doc.History.Dirty() {
		t.Errorf("saved %v wide, on the bench %v: %v\n%s", saved.Pattern.Width(), d.app.state().Pattern.Width(), err, d.screen())
	}
}

// Work kept while a slow save runs stays kept: the save knows nothing of it.
func TestSlowSaveTakesNoNewerCopyAway(t *testing.T) {
	d, home := withCopy(t)
	save := d.held("S")
	d.keys("+").aSecond()
	wide := d.app.state().Pattern.Width()
	d.run(save)
	kept, err := home.Recoveries(nil)
	if err != nil || len(kept) != 1 || kept[0].Pattern.Width() != wide {
		t.Errorf("kept %v, %v; on the bench %v wide", kept, err, wide)
	}
}

// Leaving within a second of a change keeps the work once.
func TestQuitKeepsOnce(t *testing.T) {
	d, home := ownHome(t)
	d.keys("+ q")
	if err := d.app.keepLast(nil); err != nil {
		t.Fatal(err)
	}
	if got := copies(t, home); !d.quit || len(got) != 1 {
		t.Errorf("quit %v, kept %v", d.quit, got)
	}

	d, home = ownHome(t) // ended while the copy is being written
	model, cmd := d.keys("+").app.Update(keepMsg{})
	d.app = model.(App)
	cmd() // and its message never comes
	if err := d.app.keepLast(nil); err != nil {
		t.Fatal(err)
	}
	if got := copies(t, home); len(got) != 1 {
		t.Errorf("kept %v", got)
	}
}

// What could not be kept is tried again by itself, one wait at a time and without a word,
// until what was in the way has gone.
func TestKeepingIsTriedAgain(t *testing.T) {
	d, home := ownHome(t)
	f := &failing{Files: home, keep: errors.New("input/output error")}
	d.app.bench = f
	d.keys("+ + +").aSecond().shows("Not kept: input/output error")
	for range 3 {
		d.aSecond()
		if len(d.later) != 1 {
			t.Fatalf("%d waits", len(d.later))
		}
	}
	d.keys("end").app = d.app.say("something else")
	d.aSecond().shows("something else")
	f.keep = nil
	d.aSecond().shows("something else")
	if got := copies(t, home); len(got) != 1 || len(d.later) != 0 || !d.app.doc.UpToDate() {
		t.Errorf("kept %v, %d waits", got, len(d.later))
	}
	f.keep = errors.New("input/output error")
	d.keys("+").aSecond().shows("Not kept: input/output error")
	f.keep = nil
	d.aSecond().shows("kept now")
}

// Beside another oddments in the home work is kept at the end in a copy of its own, and
// it is said where; the next start offers it.
func TestWorkBesideAnotherIsKeptAtTheEnd(t *testing.T) {
	d, home := ownHome(t)
	other := heldByAnother(t, home)
	defer other.Close()
	theirs, err := other.Keep(store.Recovery{Stem: d.app.doc.Stem, Pattern: pattern.Pattern{Name: "Theirs", Panel: d.app.state().Pattern.Panel}})
	if err != nil {
		t.Fatal(err)
	}
	d.keys("x").aSecond().shows("Not kept: another oddments")
	n := len(d.app.state().Pattern.Strips)
	var said strings.Builder
	if err := d.app.keepLast(&said); err != nil {
		t.Fatal(err)
	}
	got := copies(t, home)
	if strips, ok := got[theirs]; !ok || strips != 0 || len(got) != 2 {
		t.Fatalf("kept %v", got)
	}
	delete(got, theirs)
	for name, strips := range got {
		if strips != n || !strings.Contains(said.String(), home.RecoveryFile(name)) {
			t.Errorf("kept %v; %q", got, said.String())
		}
	}
}

// What the rack cannot be saved of at the end is said to be lost, and why.
func TestLostRackIsToldOf(t *testing.T) {
	d, home := ownHome(t)
	defer heldByAnother(t, home).Close()
	d.keys("tab x")
	err := d.app.keepLast(nil)
	if !errors.Is(err, store.ErrBusy) || !strings.Contains(err.Error(), "what was changed on the rack is not saved, and lost") {
		t.Errorf("told: %v", err)
	}
}
