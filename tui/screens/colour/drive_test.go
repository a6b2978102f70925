package colour_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/photo"
	"example.com/oddments/pattern/photo/phototest"
	"example.com/oddments/pattern/rack"
	screens "example.com/oddments/tui/screens/colour"

	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screen/screentest"
)

// dark and light are what the two pieces in the photo really are.
var dark, light = colour.Lab{L: 27, A: 9, B: 11}, colour.Lab{L: 76, A: 6, B: 22}

// written writes a photo of two pieces between papers, in a light of a colour that grows from
// side to side, and returns its file.
func written(t *testing.T) string {
	t.Helper()
	s, _, _ := phototest.Room(dark, light)
	s.Bright, s.Light = 0.65, phototest.Slope(photo.Triple{1.1, 1, 0.8}, 1.15, 1)
	s.Noise = 2
	file := filepath.Join(t.TempDir(), "timber.jpg")
	if err := os.WriteFile(file, phototest.JPEG(s.Image()), 0o600); err != nil {
		t.Fatal(err)
	}
	return file
}

// onPhoto is the screen with that photo, read for the first entries of the demo's rack. A point
// is 8 pixels of it.
func onPhoto(t *testing.T, n int) (d *screentest.Driver, ids []string) {
	t.Helper()
	d = screentest.Drive(t, screens.Screen{}, screentest.Demo(t, screens.Screen{}.Keys()...))
	d.Ctx.Now = time.Date(2026, 11, 14, 9, 0, 0, 0, time.UTC)
	for _, e := range d.Ctx.Rack.Entries()[:n] {
		ids = append(ids, e.ID)
	}
	d.Tell(screen.ReadPhoto{File: written(t), IDs: ids})
	d.Shows("reading the photo", "Esc stops")
	d.Work()
	return d, ids
}

// do does keys one after another, each so many times as said behind a colon, with what they
// have to be worked out.
func do(d *screentest.Driver, keys ...string) {
	d.T.Helper()
	for _, key := range keys {
		n := 1
		if at := strings.LastIndex(key, "*"); at > 0 {
			key, n = key[:at], int(key[at+1]-'0')
		}
		for range n {
			d.Do(key)
			d.Work()
		}
	}
}

// papers sets both papers: the frame begins at 50, 37 with 50 x 37 pixels.
func papers(d *screentest.Driver) {
	do(d, "left*5", "}*9", "enter", "shift+right*4", "right*2", "[", "enter")
}

// Colours come out of the photo as they are, whatever its light, and go to the rack as one
// step. Each is within what two colours of 8 bits and noise may differ by.
func TestColoursFromAPhoto(t *testing.T) {
	d, ids := onPhoto(t, 2)
	d.Shows("frame on paper 1", "no paper is set yet", "timber.jpg, 400 x 300", "- "+ids[0], "not set")
	papers(d)
	if d.Said != "paper 2 is set; n goes on to the pieces" {
		t.Errorf("said %q, refused %q", d.Said, d.Refuse)
	}
	d.Shows("by 2 papers", "daylight, oiled")
	do(d, "n", "shift+left*3", "left*2", "{*3")
	d.Shows("frame on "+ids[0], "about 4.5 off", "L* 2", "from "+d.Ctx.Name(entry(t, d, ids[0]).Species))
	do(d, "enter", "shift+down", "down*5")
	d.Shows("frame on "+ids[1], "contrast to "+ids[0], "> "+ids[1])
	do(d, "enter", "k")
	for i, want := range []colour.Lab{dark, light} {
		e := entry(t, d, ids[i])
		if off := e.Colour.RGB.Lab().Difference(want); !e.Colour.Known || off > 1.2 {
			t.Errorf("%s is %v, %.2f from the truth", ids[i], e.Colour, off)
		}
		if want := "photo 2026-11-14, paper, daylight, about 4.5"; e.From != want {
			t.Errorf("%s is from %q, want %q", ids[i], e.From, want)
		}
	}
	if len(d.Asked) != 1 || d.Asked[0] != (screen.Go{To: "rack"}) || !strings.HasPrefix(d.Said, "the colours of 2 pieces are on the rack") {
		t.Errorf("asked for %v, said %q", d.Asked, d.Said)
	}
}

func entry(t *testing.T, d *screentest.Driver, id string) rack.Entry {
	t.Helper()
	e, ok := d.Ctx.Rack.Get(id)
	if !ok {
		t.Fatalf("there is no %s", id)
	}
	return e
}

// Each box is a step of its own that can be taken back and set again.
func TestEachBoxIsAStep(t *testing.T) {
	d, ids := onPhoto(t, 2)
	d.Tell(screen.Undone{})
	if !strings.Contains(d.Said, "no box to take back") {
		t.Errorf("said %q", d.Said)
	}
	papers(d)
	do(d, "n", "shift+left*3", "left*2", "{*3", "enter")
	steps := 0
	for d.Screen.(screen.Undoer).CanUndo() {
		d.Tell(screen.Undone{})
		d.Work()
		steps++
	}
	if steps != 4 { // two papers, on to the pieces, one piece
		t.Errorf("%d steps", steps)
	}
	d.Shows("frame on paper 1", "by 0 papers")
	for range steps {
		d.Tell(screen.Undone{Redo: true})
		d.Work()
	}
	d.Shows("by 2 papers", "- "+ids[0]+" ", "#")
	do(d, ",", "x")
	d.Shows("> "+ids[0], "not set")
}

// What cannot be is refused with its reason, and nothing is set.
func TestRefusals(t *testing.T) {
	d, _ := onPhoto(t, 1)
	do(d, "n")
	if !strings.Contains(d.Refuse, "set white paper first") {
		t.Errorf("pieces before paper: %q", d.Refuse)
	}
	do(d, "right*9", "enter") // on timber, which is too dark
	if !strings.Contains(d.Refuse, "white 1: ") || d.Screen.(screen.Undoer).CanUndo() {
		t.Errorf("timber as paper: %q", d.Refuse)
	}
	do(d, "k")
	if !strings.Contains(d.Refuse, "no piece is read yet") {
		t.Errorf("kept nothing: %q", d.Refuse)
	}
	d.Do("right", "enter") // before the answer came
	if !strings.Contains(d.Refuse, "still being read") {
		t.Errorf("set before it was read: %q", d.Refuse)
	}
	for file, want := range map[string]string{"none.jpg": "there is no file", "heic.jpg": "set the phone's camera to JPEG"} {
		file = filepath.Join(t.TempDir(), file)
		if strings.HasPrefix(want, "set") {
			if err := os.WriteFile(file, []byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic"), 0o600); err != nil {
				t.Fatal(err)
			}
		}
		d.Tell(screen.ReadPhoto{File: file})
		d.Work()
		if !strings.Contains(d.Refuse, want) {
			t.Errorf("%s: %q", file, d.Refuse)
		}
	}
}

// A photo that is decoded can be stopped, and another one takes its place.
func TestDecodingIsStopped(t *testing.T) {
	d := screentest.Drive(t, screens.Screen{}, screentest.Demo(t, screens.Screen{}.Keys()...))
	d.Tell(screen.ReadPhoto{File: written(t)})
	d.Do("esc")
	d.Work()
	if !strings.Contains(d.Refuse, "stopped") && !strings.Contains(d.Draw(80, 20), "frame on paper 1") { // it may have been quicker
		t.Errorf("refused %q:\n%s", d.Refuse, d.Draw(80, 20))
	}
	d.Do("esc")
	if d.Tell(screen.ReadPhoto{File: written(t)}); len(d.Asked) != 1 || d.Asked[0] != (screen.Go{To: "rack"}) {
		t.Errorf("asked for %v", d.Asked)
	}
	d.Work()
	d.Shows("frame on paper 1")
}

// The arrows move the frame or one of its sides, nearer is about the frame, and a press takes
// it there.
func TestFrames(t *testing.T) {
	d, _ := onPhoto(t, 1)
	before := d.Draw(80, 20)
	do(d, " ")
	if d.Said != "the arrows move the left side" {
		t.Errorf("said %q", d.Said)
	}
	do(d, "left*2")
	d.Shows("arrows on its left side")
	do(d, "+*3")
	if near := d.Draw(80, 20); strings.Count(near, "═") <= strings.Count(before, "═") {
		t.Errorf("nearer, the frame is no wider:\n%s", near)
	}
	do(d, "-*9", " *4")
	d.Tell(screen.Press{X: 4, Y: 8})
	d.Work()
	row := []rune(strings.Split(d.Draw(80, 20), "\n")[8])
	if row[0] != '║' && row[1] != '║' {
		t.Errorf("pressed at the left:\n%s", d.Draw(80, 20))
	}
	do(d, "l", "f", "f")
	if d.Said != "the timber in the photo is raw" {
		t.Errorf("said %q", d.Said)
	}
	d.Shows("frame on paper 1")
}

// Whatever is done on it, it is drawn within its rectangle, with a photo and without one.
func TestInside(t *testing.T) {
	screentest.Inside(t, screens.Screen{}, screentest.Demo(t, screens.Screen{}.Keys()...))
	d, _ := onPhoto(t, 3)
	papers(d)
	do(d, "n", "enter")
	screentest.Inside(t, d.Screen, d.Ctx)
	for _, profile := range []paint.Profile{paint.TrueColour, paint.ANSI256, paint.ANSI16, paint.None} {
		c := paint.New(80, 22, profile)
		d.Screen.Draw(c, paint.Rect{X: 1, Y: 1, W: 70, H: 18}, d.Ctx)
		if !strings.Contains(c.String(), "papers") {
			t.Errorf("%v: %s", profile, c.String())
		}
	}
}

// Budget: a frame at 200x60 within 4 ms.
func BenchmarkDraw(b *testing.B) {
	s, _, _ := phototest.Room(dark, light)
	file := filepath.Join(b.TempDir(), "timber.jpg")
	if err := os.WriteFile(file, phototest.JPEG(s.Image()), 0o600); err != nil {
		b.Fatal(err)
	}
	d := screentest.Drive(b, screens.Screen{}, screen.Context{Window: screen.Window{Body: paint.Rect{W: 200, H: 57}}})
	d.Tell(screen.ReadPhoto{File: file})
	d.Work()
	c := paint.New(200, 60, paint.TrueColour)
	for b.Loop() {
		c.Reset(200, 60)
		d.Screen.Draw(c, paint.Rect{W: 200, H: 57}, d.Ctx)
	}
}
