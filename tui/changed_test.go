package tui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A file that another program changed is never written over silently.
func TestSaveAsksWhenTheFileWasChanged(t *testing.T) {
	d := onDemo(t, 80, 24).keys("+ S")
	file := filepath.Join(d.app.files.Dir(), "patterns/rookery-square.toml")
	theirs := strings.Replace(saved(t, d, "patterns/rookery-square.toml"), "Rookery square", "Theirs", 1)
	if err := os.WriteFile(file, []byte(theirs), 0o644); err != nil {
		t.Fatal(err)
	}
	d.keys("+ S").shows("changed elsewhere", "save under another name")
	if got := saved(t, d, "patterns/rookery-square.toml"); got != theirs {
		t.Error("written over before the answer")
	}
	d.keys("down enter").shows("saved as rookery-square")
	if got := saved(t, d, "patterns/rookery-square.toml.bak"); got != theirs {
		t.Errorf("the other change is not in .bak: %q", got)
	}
}

// The question waits while something lies over the screen; it is not asked of another
// pattern that came onto the bench meanwhile, over whose file nothing is to be saved.
func TestChangedFileIsAskedAboutItsOwnPatternOnly(t *testing.T) {
	for _, c := range []struct {
		keys  string
		saved bool // over the other's change
	}{{"esc", true}, {"down enter", false}} {
		d := onDemo(t, 80, 24).keys("+ S")
		file := filepath.Join(d.app.files.Dir(), "patterns/rookery-square.toml")
		if err := os.WriteFile(file, []byte(strings.Replace(saved(t, d, "patterns/rookery-square.toml"), "Rookery square", "Theirs", 1)), 0o644); err != nil {
			t.Fatal(err)
		}
		a, cmd := d.keys("+").app.save()
		d.app = a
		d.keys("ctrl+o").run(cmd)
		if s := d.screen(); strings.Contains(s, "changed elsewhere") || !strings.Contains(s, "find:") {
			t.Fatalf("the question lies over the list:\n%s", s)
		}
		d.keys(c.keys)
		if strings.Contains(d.screen(), "changed elsewhere") {
			d.keys("down enter") // overwrite it
		}
		if len(d.app.waiting) > 0 {
			t.Error("the question waits on")
		}
		if over := !strings.Contains(saved(t, d, "patterns/rookery-square.toml"), "Theirs"); over != c.saved {
			t.Errorf("after %s: overwrote the other's change: %v\n%s", c.keys, over, d.screen())
		}
	}
}
