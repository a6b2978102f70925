package species

import (
	"math"
	"strings"
	"testing"
)

// halfUnit is half a unit in the fifth decimal, the last that tables print, with room
// for binary rounding.
const halfUnit = 0.5e-5 + 1e-9

// fromShrinkage is USDA Wood Handbook FPL-GTR-190 (2010) eq. 13-3 from 10 percent,
// solved for the coefficient: total shrinkage in percent, fibre saturation in percent.
func fromShrinkage(s, fsp float64) float64 { return s / (100*fsp - (fsp-10)*s) }

func TestFromShrinkageByHand(t *testing.T) {
	// 7.8 / (3000 - 20 x 7.8) = 7.8 / 2844 = 0.002743
	if got := fromShrinkage(7.8, 30); math.Abs(got-7.8/2844) > 1e-15 {
		t.Errorf("got %v", got)
	}
}

// Table 13-5 is eq. 13-3 applied to Table 4-3 of the same book (USDA Wood Handbook
// FPL-GTR-190, 2010), so each checks the copy of the other.
func TestTable13_5AgreesWithTable4_3(t *testing.T) {
	apart := map[string]string{ // left out, each for its reason
		"white_oak":        "Table 13-5 is for the commercial group, Table 4-3 for Quercus alba",
		"red_oak":          "Table 13-5 is for the commercial group, Table 4-3 for northern red oak",
		"hickory":          "Table 13-5 is a mean of four hickories, Table 4-3 is shagbark",
		"western_redcedar": "the two, both from memory, do not agree",
	}
	table, checked := Builtin(), 0
	for _, r := range timberRows(t) {
		s := r.timber(table)
		if r.text("basis") != "Table 13-5" || r.text("s_from") != "Table 4-3" {
			continue
		}
		radial := math.Abs(fromShrinkage(r.number("sr"), 30) - s.CR)
		tangential := math.Abs(fromShrinkage(r.number("st"), 30) - s.CT)
		agrees := radial <= halfUnit && tangential <= halfUnit
		if reason := apart[s.Key]; agrees == (reason != "") {
			t.Errorf("%s: apart by %.6f radial, %.6f tangential; known reason: %q", s.Key, radial, tangential, reason)
		}
		checked++
	}
	if want := 22; checked != want {
		t.Errorf("%d timbers checked, want %d", checked, want)
	}
}

// Coefficients computed from published total shrinkage, with the timber's own fibre
// saturation where its basis says so (CIRAD Tropix: iroko 23, wenge 22, afrormosia 20,
// ovangkol 24).
func TestDerivedCoefficients(t *testing.T) {
	table, own, general := Builtin(), 0, 0
	for _, r := range timberRows(t) {
		s, fsp := r.timber(table), 30.0
		switch basis := r.text("basis"); {
		case strings.HasPrefix(basis, "S/(100F"):
			fsp = s.FSP()
			own++
		case strings.HasPrefix(basis, "S/(3000"):
			general++
		default:
			continue
		}
		if d := math.Abs(fromShrinkage(r.number("sr"), fsp) - s.CR); d > halfUnit {
			t.Errorf("%s: CR off by %.6f", s.Key, d)
		}
		if d := math.Abs(fromShrinkage(r.number("st"), fsp) - s.CT); d > halfUnit {
			t.Errorf("%s: CT off by %.6f", s.Key, d)
		}
		if s.Sources["cr"].Status != Derived {
			t.Errorf("%s: cr is %v, want derived", s.Key, s.Sources["cr"].Status)
		}
	}
	if own != 4 || general != 32 {
		t.Errorf("%d with their own fibre saturation and %d with 30, want 4 and 32", own, general)
	}
}

// Every timber known moves more along the rings than across them (USDA Wood Handbook
// FPL-GTR-190 chapter 4).
func TestTangentialAboveRadial(t *testing.T) {
	var without []string
	for _, s := range Builtin().All() {
		if !s.Moves() {
			without = append(without, s.Key)
		} else if s.CT <= s.CR {
			t.Errorf("%s: CT %v is not above CR %v", s.Key, s.CT, s.CR)
		}
	}
	if len(without) != 1 || without[0] != "plum" {
		t.Errorf("without figures: %v, want plum alone", without)
	}
}

// Mass at 12 percent is 1.12 times the oven-dry mass over the same volume: density =
// 1120 x specific gravity at 12 percent (definition of the USDA Wood Handbook).
func TestDensityFromSpecificGravity(t *testing.T) {
	table, checked := Builtin(), 0
	for _, r := range timberRows(t) {
		if r.text("status_density") != "derived" {
			continue
		}
		checked++
		if s := r.timber(table); math.Abs(1120*r.number("specific_gravity")-s.DensityKgM3) > 0.5+1e-9 {
			t.Errorf("%s: density %v, specific gravity %v", s.Key, s.DensityKgM3, r.number("specific_gravity"))
		}
	}
	if checked == 0 {
		t.Error("nothing checked")
	}
}

func TestFSP(t *testing.T) {
	for name, c := range map[string]struct {
		s    Species
		want float64
	}{
		"its own": {Species{FSPPct: 22}, 22},
		"general": {Species{}, 30},
	} {
		if got := c.s.FSP(); got != c.want {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
}
