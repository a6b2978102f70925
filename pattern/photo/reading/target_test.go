package reading_test

import (
	"encoding/csv"
	"errors"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/photo"
	"example.com/oddments/pattern/photo/phototest"
	"example.com/oddments/pattern/photo/reading"
)

// patches returns the published colours of the target by daylight.
func patches(t *testing.T, edition reading.Edition) (out [24]colour.Lab) {
	t.Helper()
	f, err := os.Open("target24.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	lines, err := csv.NewReader(f).ReadAll()
	if err != nil || len(lines) != 25 {
		t.Fatal(len(lines), err)
	}
	toDaylight := photo.Adapt(photo.D50(), photo.D65())
	g := func(f float64) float64 {
		if f > 6./29 {
			return f * f * f
		}
		return (f - 16./116) * 3 * 36 / 841
	}
	for i, line := range lines[1:] {
		var v [3]float64
		for j := range v {
			if v[j], err = strconv.ParseFloat(line[1+3*int(edition)+j], 64); err != nil {
				t.Fatal(err)
			}
		}
		y := (v[0] + 16) / 116
		xyz := toDaylight.Times(photo.Triple{0.9642 * g(y+v[1]/500), g(y), 0.8249 * g(y-v[2]/200)})
		out[i] = oracleLab(vec(xyz))
	}
	return out
}

// withTarget puts the target into a room, turned by quarter turns.
func withTarget(t *testing.T, s *phototest.Scene, edition reading.Edition, turn int) reading.Box {
	box := reading.Box{X: 90, Y: 130, W: 210, H: 140}
	columns, rows := 6, 4
	if turn%2 == 1 {
		box.W, box.H, columns, rows = 120, 160, 4, 6
	}
	for i, lab := range patches(t, edition) {
		c, r := i%6, i/6
		switch turn {
		case 1:
			c, r = 3-r, c
		case 2:
			c, r = 5-c, 3-r
		case 3:
			c, r = r, 5-c
		}
		x, y := box.X+box.W*c/columns, box.Y+box.H*r/rows
		s.Things = append(s.Things, phototest.Thing{Box: reading.Box{X: x + 2, Y: y + 2, W: box.W/columns - 4, H: box.H/rows - 4}, Lab: lab})
	}
	return box
}

// The target takes out the camera's curve and the light's colour, whichever way round it
// lies, with paper or without. Paper takes out that one side is lighter.
func TestTarget(t *testing.T) {
	timbers := timbers()[:2]
	for turn := range 4 {
		for _, edition := range []reading.Edition{reading.Edition2005, reading.Edition2014} {
			scene, papers, _ := phototest.Room()
			pieces := []reading.Box{{X: 80, Y: 10, W: 240, H: 50}, {X: 80, Y: 70, W: 240, H: 50}}
			for i, b := range pieces {
				scene.Things = append(scene.Things, phototest.Thing{Box: b, Lab: timbers[i]})
			}
			box := withTarget(t, &scene, edition, turn)
			scene.Gamma, scene.Bright = 1.1, 0.75
			scene.Light = phototest.Slope(photo.Triple{1.08, 1, 0.85}, 1.08, 1)
			p := decode(t, phototest.PNG(scene.Image()))
			r := reader(t, p, reading.Setup{Target: &box, Edition: edition, White: papers})
			if r.Method != reading.ByTarget || r.Target > 2.5 || !r.Known {
				t.Errorf("turn %d: mean %.2f of the target", turn, r.Target)
			}
			bare := reader(t, p, reading.Setup{Target: &box, Edition: edition})
			if bare.Known || bare.About() != max(2, bare.Target) {
				t.Errorf("without paper: %+v", bare)
			}
			for i, b := range pieces {
				near(t, fmt.Sprintf("turn %d, %v, piece %d", turn, edition, i), piece(t, r, b).Lab, timbers[i], r.About())
			}
		}
	}
}

// By even light that is coded as it is, the target changes nothing.
func TestTargetIsExact(t *testing.T) {
	scene, papers, _ := phototest.Room()
	b := reading.Box{X: 80, Y: 10, W: 240, H: 50}
	scene.Things = append(scene.Things, phototest.Thing{Box: b, Lab: timbers()[3]})
	box := withTarget(t, &scene, reading.Edition2005, 0)
	r := reader(t, decode(t, phototest.PNG(scene.Image())), reading.Setup{Target: &box, White: papers})
	near(t, "exact", piece(t, r, b).Lab, timbers()[3], 0.3)
	if r.Target > 0.8 { // cyan lies outside sRGB
		t.Errorf("mean %.2f", r.Target)
	}
}

func TestTargetRefusals(t *testing.T) {
	for _, c := range []struct {
		bright float64
		box    reading.Box
		what   string
	}{
		{1.4, reading.Box{X: 90, Y: 130, W: 210, H: 140}, "grey patch 1"},
		{0.8, reading.Box{X: 90, Y: 130, W: 120, H: 80}, "does not look like"},
		{0.8, reading.Box{X: 90, Y: 130, W: 60, H: 8}, "too small"},
		{0.8, reading.Box{X: 90, Y: 130, W: 3600, H: 2400}, "outside the photo"},
	} {
		scene, _, _ := phototest.Room()
		withTarget(t, &scene, reading.Edition2005, 0)
		scene.Bright = c.bright
		_, err := reading.NewReader(decode(t, phototest.PNG(scene.Image())), reading.Setup{Target: &c.box})
		var r *reading.Refusal
		if !errors.As(err, &r) || r.Box != "target" || !strings.Contains(r.What, c.what) {
			t.Errorf("%v: %v, want %s", c.box, err, c.what)
		}
	}
	if math.IsNaN(patches(t, reading.Edition2014)[0].L) {
		t.Error("no values of 2014")
	}
}
