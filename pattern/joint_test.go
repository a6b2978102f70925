package pattern

import (
	"slices"
	"testing"

	"example.com/oddments/pattern/length"
)

const mm = length.Millimetre

// A strip from 40 to 620 mm that stands open from 296 to 311 and whose last pieces touch.
func jointed() (Pattern, Strip) {
	p := Pattern{Panel: Panel{Length: 600 * mm}}
	return p, Strip{Start: 40 * mm, Length: 580 * mm, Joints: JointsOf(Joint{296 * mm, 311 * mm}, Joint{552 * mm, 552 * mm})}
}

func TestJointsAreReadAsTheyAreWritten(t *testing.T) {
	for _, c := range []struct {
		text  string
		u     length.Unit
		want  Joints
		again string
	}{
		{"296-311 mm, 552 mm", length.InMM, JointsOf(Joint{296 * mm, 311 * mm}, Joint{552 * mm, 552 * mm}), "296-311 mm, 552 mm"},
		{"296-311, 552", length.InMM, JointsOf(Joint{296 * mm, 311 * mm}, Joint{552 * mm, 552 * mm}), "296-311 mm, 552 mm"},
		{"1-1.25", length.InInches, JointsOf(Joint{25_400_000, 31_750_000}), "25.4-31.75 mm"},
		{"1-1.25 in", length.InMM, JointsOf(Joint{25_400_000, 31_750_000}), "25.4-31.75 mm"},
		{"none", length.InMM, "", ""},
		{" ", length.InMM, "", ""},
	} {
		got, err := ParseJointsIn(c.text, c.u)
		if err != nil || got != c.want || got.String() != c.again {
			t.Errorf("%q in %v: %v, %v; want %v", c.text, c.u, got, err, c.again)
		}
	}
	for _, text := range []string{"left", "311-296", "300-300", "1-2-3", "5,,6", "-4"} {
		if got, err := ParseJointsIn(text, length.InMM); err == nil {
			t.Errorf("%q is taken for %v", text, got)
		}
	}
}

// The pieces, put end to end with the joints, are the strip.
func TestPiecesOf(t *testing.T) {
	p, s := jointed()
	want := []StripPiece{{40 * mm, 256 * mm}, {311 * mm, 241 * mm}, {552 * mm, 68 * mm}}
	if got := p.PiecesOf(s, 20*mm); !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
	s.Length = 0 // then it is 620 long, up to 660
	want[2].Length = 108 * mm
	if got := p.PiecesOf(s, 20*mm); !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
	if got := p.PiecesOf(Strip{}, 20*mm); !slices.Equal(got, []StripPiece{{0, 620 * mm}}) {
		t.Errorf("a whole strip is %v", got)
	}
}

func TestCheckJoints(t *testing.T) {
	p, s := jointed()
	for _, c := range []struct {
		name string
		list []Joint
		bad  bool
	}{
		{"as they are", s.Joints.All(), false},
		{"none", nil, false},
		{"at the near end", []Joint{{40 * mm, 50 * mm}}, true},
		{"at the far end", []Joint{{600 * mm, 620 * mm}}, true},
		{"descending", []Joint{{300 * mm, 300 * mm}, {200 * mm, 200 * mm}}, true},
		{"without a piece between", []Joint{{200 * mm, 210 * mm}, {210 * mm, 220 * mm}}, true},
		{"with a nanometre between", []Joint{{200 * mm, 210 * mm}, {210*mm + 1, 220 * mm}}, false},
	} {
		s.Joints = JointsOf(c.list...)
		if err := p.CheckJoints(s); (err != nil) != c.bad {
			t.Errorf("%s: %v", c.name, err)
		}
	}
	_, s = jointed()
	s.Length = 500 * mm // it ends at 540
	if p.Fit(&s); s.Joints != JointsOf(Joint{296 * mm, 311 * mm}) {
		t.Errorf("shortened it keeps %v", s.Joints)
	}
	_, s = jointed()
	s.Start, s.Length = 0, 0 // what is beyond the finished panel is trimmed off
	s.Joints = JointsOf(Joint{590 * mm, 610 * mm})
	if p.Fit(&s); s.Joints != "" {
		t.Errorf("a joint in what is trimmed off stays: %v", s.Joints)
	}
}

func TestJointsGoWithTheStrip(t *testing.T) {
	_, s := jointed()
	s.SlideTo(50 * mm)
	if want := JointsOf(Joint{306 * mm, 321 * mm}, Joint{562 * mm, 562 * mm}); s.Joints != want {
		t.Errorf("slid by 10 mm: %v, want %v", s.Joints, want)
	}
	_, s = jointed()
	turned := s.Joints.Mirrored(40*mm, 620*mm)
	if want := JointsOf(Joint{108 * mm, 108 * mm}, Joint{349 * mm, 364 * mm}); turned != want {
		t.Errorf("turned: %v, want %v", turned, want)
	}
	if again := turned.Mirrored(40*mm, 620*mm); again != s.Joints {
		t.Errorf("turned twice: %v, want %v", again, s.Joints)
	}
}

func TestPieceName(t *testing.T) {
	for _, c := range []struct {
		strip, piece int
		want         string
	}{{4, 0, "4"}, {4, 1, "4a"}, {12, 2, "12b"}, {1, 26, "1z"}, {1, 27, "1aa"}, {1, 53, "1ba"}} {
		if got := PieceName(c.strip, c.piece); got != c.want {
			t.Errorf("piece %d of strip %d is %s, want %s", c.piece, c.strip, got, c.want)
		}
	}
}
