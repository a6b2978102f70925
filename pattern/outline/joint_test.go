package outline

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// parted is a panel 600 long of six strips 30 wide with such joints.
func parted(joints map[int]pattern.Joints) pattern.Pattern {
	p := pattern.Pattern{Panel: pattern.Panel{Length: 600 * mm, Thickness: 20 * mm}}
	for i := range 6 {
		p.Strips = append(p.Strips, pattern.Strip{Species: "oak", Width: 30 * mm, Joints: joints[i+1]})
	}
	return p
}

func at(from, to length.Length) pattern.Joint { return pattern.Joint{From: from * mm, To: to * mm} }

// No product takes in a joint or comes nearer to one than the end margin, by floats and
// the distance of each strip from the centre.
func TestProductsKeepOffJoints(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 3))
	placed, moved := 0, 0
	for range 300 {
		joints := map[int]pattern.Joints{}
		for range 3 {
			from := length.Length(50 + rng.IntN(500))
			joints[1+rng.IntN(6)] = pattern.JointsOf(at(from, from+length.Length(rng.IntN(2)*rng.IntN(40))))
		}
		p := parted(joints)
		products := []pattern.Product{{Shape: Round, Diameter: length.Length(60+rng.IntN(100)) * mm, Count: 3}}
		if rng.IntN(2) == 0 {
			products[0] = pattern.Product{Shape: Rectangle, Length: 100 * mm, Width: length.Length(40+rng.IntN(120)) * mm, Count: 3}
		}
		l, err := Lay(p, 20*mm, products, nil, habits())
		if err != nil {
			t.Fatal(err)
		}
		free, err := Lay(parted(nil), 20*mm, products, nil, habits())
		if err != nil {
			t.Fatal(err)
		}
		if fmt.Sprint(free.Placed) != fmt.Sprint(l.Placed) {
			moved++
		}
		for _, at := range l.Placed {
			placed++
			along, across := ShapeOf(products[0]).Size()
			x, y := at.From.MM()+along.MM()/2, at.Side.MM()+across.MM()/2
			for i, s := range p.Strips {
				low, high := 30*float64(i), 30*float64(i+1)
				d := math.Max(0, math.Max(low-y, y-high))
				if d >= across.MM()/2 {
					continue
				}
				half := along.MM() / 2
				if products[0].Shape == Round {
					half = math.Sqrt(half*half - d*d)
				}
				for _, j := range s.Joints.All() {
					if x+half > j.From.MM()-5+1e-5 && x-half < j.To.MM()+5-1e-5 {
						t.Fatalf("%v at %v, %v takes in the joint %v of strip %d", products[0], x, y, j, i+1)
					}
				}
			}
		}
	}
	if placed < 300 || moved < 50 {
		t.Errorf("only %d were placed, and %d panels laid otherwise than without joints", placed, moved)
	}
}

// A round of 90 lies in one straight row about the axis at 90 mm, on strips 2 to 5. Strip
// 3 spans the centre line: its joint at 100 keeps the round 5 mm behind it. Strip 1 is not
// touched, so its joint is in nobody's way.
func TestAJointBinds(t *testing.T) {
	p := parted(map[int]pattern.Joints{1: pattern.JointsOf(at(30, 40)), 3: pattern.JointsOf(at(50, 100))})
	round := pattern.Product{Shape: Round, Diameter: 90 * mm, Count: 1}
	l, err := Lay(p, 20*mm, []pattern.Product{round}, nil, habits())
	if err != nil || len(l.Placed) != 1 {
		t.Fatalf("%+v, %v", l, err)
	}
	if got := l.Placed[0]; got.From != 105*mm || got.BindingStrip != 3 || StopOf(l, 0, []pattern.Product{round}, habits().Gap) != ByStrip {
		t.Errorf("lies at %v, bound by strip %d", got.From, got.BindingStrip)
	}
	c := ClearanceOf(p, 20*mm, round, l.Placed[0])
	if c.Near != 5*mm || c.NearStrip != 3 {
		t.Errorf("%v clear of strip %d, want 5 mm of strip 3", c.Near, c.NearStrip)
	}
	if l.Left.From != 195*mm {
		t.Errorf("left from %v, want 195 mm", l.Left.From)
	}
}

// Joints that keep a product off are named: of two that each alone leave no room the
// strip has to lose both.
func TestAJointIsNamed(t *testing.T) {
	block := pattern.Product{Shape: Rectangle, Length: 400 * mm, Width: 170 * mm, Count: 1}
	for _, c := range []struct {
		name   string
		joints map[int]pattern.Joints
		strip  int
		joint  pattern.Joint
	}{
		{"one joint", map[int]pattern.Joints{4: pattern.JointsOf(at(300, 310))}, 4, at(300, 310)},
		{"two of a strip", map[int]pattern.Joints{2: pattern.JointsOf(at(300, 310), at(350, 350))}, 2, at(300, 310)},
		{"of two strips", map[int]pattern.Joints{2: pattern.JointsOf(at(300, 310)), 5: pattern.JointsOf(at(320, 320))}, 0, pattern.Joint{}},
		{"out of the way", map[int]pattern.Joints{4: pattern.JointsOf(at(150, 160))}, -1, pattern.Joint{}},
	} {
		l, err := Lay(parted(c.joints), 20*mm, []pattern.Product{block}, nil, habits())
		if err != nil {
			t.Fatal(err)
		}
		switch {
		case c.strip < 0 && len(l.NotPlaced) > 0:
			t.Errorf("%s: not placed: %+v", c.name, l.NotPlaced)
		case c.strip >= 0 && (len(l.NotPlaced) != 1 || l.NotPlaced[0].Jointed != c.strip || l.NotPlaced[0].Joint != c.joint):
			t.Errorf("%s: %+v, want strip %d, joint %v", c.name, l.NotPlaced, c.strip, c.joint)
		}
	}
}
