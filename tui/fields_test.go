package tui

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/screens/layouts"
	"example.com/oddments/tui/screens/planview"
)

// eachOverlay opens every field and list that an action lays over a screen.
func eachOverlay(t *testing.T, each func(id keymap.ID, d *hand)) {
	t.Helper()
	opened := 0
	for place, shown := range screens() {
		d := onDemo(t, 80, 24)
		a, _ := d.app.goScreen(place)
		for _, action := range Keys().Actions() {
			if on, ok := a.keys.On(shown.Title(), action.Keys[0]); !ok || on.ID != action.ID {
				continue
			}
			after, cmd := a.act(action.ID)
			of[layouts.Screen](after).Stop() // a search finds nothing for this
			of[planview.Screen](after).Stop()
			if d.app = after; action.ID == keymap.Open {
				d.run(cmd)
			}
			if d.app.overlay != nil {
				opened++
				each(action.ID, d)
			}
		}
	}
	if opened < 20 {
		t.Errorf("%d fields and lists were opened", opened)
	}
}

// No key that edits text breaks a field or a search, wherever the cursor stands.
func TestEveryKeyInEveryField(t *testing.T) {
	edits := []string{
		"alt+d", "alt+delete", "alt+backspace", "alt+b", "alt+f", "alt+left", "alt+right", "ctrl+left", "ctrl+right",
		"ctrl+a", "ctrl+b", "ctrl+d", "ctrl+e", "ctrl+f", "ctrl+h", "ctrl+k", "ctrl+u", "ctrl+v", "ctrl+w", "delete", "backspace", "home", "end",
	}
	eachOverlay(t, func(id keymap.ID, d *hand) {
		ctx := d.app.context()
		for _, k := range edits {
			for _, before := range []string{"", "left", "home"} {
				func() {
					defer func() {
						if r := recover(); r != nil {
							t.Errorf("%s: a, b, %s, then %s: %v", id, before, k, r)
						}
					}()
					o := d.app.overlay
					for _, name := range strings.Fields("a b " + before) {
						o, _ = o.Key(key(name), ctx)
					}
					msg := key(k)
					if alt, ok := strings.CutPrefix(k, "alt+"); ok {
						msg = key(alt)
						msg.Alt = true
					}
					if msg.String() != k {
						t.Fatalf("the key %s is %s", k, msg.String())
					}
					_, _ = o.Key(msg, ctx)
				}()
			}
		}
	})
}

// A line to type into is made in one place, which leaves the keys out that break it.
func TestInputsAreMadeInOnePlace(t *testing.T) {
	made := regexp.MustCompile(`textinput\.New\(`)
	err := filepath.WalkDir(".", func(path string, _ os.DirEntry, err error) error {
		if err != nil || filepath.Ext(path) != ".go" || path == filepath.Join("screen", "input.go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		text, err := os.ReadFile(path)
		if made.Match(text) {
			t.Errorf("%s makes an input of its own", path)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}
