package relief

import (
	"context"
	"fmt"
	"math"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/species"
)

// A Face is one of the two of a panel.
type Face int

// The faces.
const (
	Top Face = iota
	Under
)

// String returns top or under.
func (f Face) String() string { return tell.Word(f, "face", "top", "under") }

// ParseFace reads top or under.
func ParseFace(s string) (Face, error) {
	if f, ok := tell.Named(s, []Face{Top, Under}); ok {
		return f, nil
	}
	return Top, fmt.Errorf("face %q: must be top or under", s)
}

// MostPoints is by how much one face may be wetter at most, in points of moisture.
const MostPoints = 10.0

// A Wetter says that one face has so many points of moisture more than the other; the
// zero value: neither has. No other change of moisture through the thickness is computed:
// a board 22 mm thick settles in about a week (common practice, no source), a season lasts
// twelve.
type Wetter struct {
	Face   Face
	Points float64
}

// What is larger has no relief: a mesh of so many columns takes some 13 MB.
const (
	mostColumns = 4000
	mostWidthMM = 10_000
)

// A Panel is the section of a pattern, with what is not known of it.
type Panel struct {
	Section
	Run      []int    // by strip: which run of strips that move as one it is of
	NoBark   []int    // strips whose bark side nobody has seen, from 1
	NoHeart  int      // strips of which it is known, but not how far the pith is: computed with 120 mm
	NoFigure []string // the names of timbers without coefficients, each once; with one there is no relief
	TooLarge bool     // the mesh would be: there is no relief
}

// Of returns the section of p.
func Of(r movement.Physics, p pattern.Pattern, w Wetter) Panel {
	out := Panel{Section: Section{ThicknessMM: p.Panel.Thickness.MM()}}
	for i, s := range p.Strips {
		timber, ok := r.Table().Get(s.Species)
		if !ok {
			timber.Name = s.Species
		}
		if !timber.Moves() && !slices.Contains(out.NoFigure, timber.Name) {
			out.NoFigure = append(out.NoFigure, timber.Name)
		}
		switch {
		case !s.Bark.Known():
			out.NoBark = append(out.NoBark, i+1)
		case s.Heart == 0:
			out.NoHeart++
		}
		if timber.Moves() {
			out.Strips = append(out.Strips, stripOf(r, p, s, timber, w))
		}
	}
	for panel := r.Panel(p); len(out.Run) < panel.Len(); {
		first, last := panel.Run(len(out.Run))
		out.Run = append(out.Run, slices.Repeat([]int{first}, last-first+1)...)
	}
	out.TooLarge = out.columns() > mostColumns || out.WidthMM() > mostWidthMM
	return out
}

// stripOf returns strip s of p as a section has it.
func stripOf(r movement.Physics, p pattern.Pattern, s pattern.Strip, timber species.Species, w Wetter) Strip {
	degrees := s.Rings.Degrees()
	out := Strip{WidthMM: s.Width.MM(), Degrees: degrees, Elastic: ElasticOf(timber.DensityKgM3, timber.Pores == "softwood")}
	if s.Bark.Known() {
		sin, cos := math.Sincos(degrees * math.Pi / 180)
		out.Bark = Direction{float64(s.Bark.Right) * sin, float64(s.Bark.Up) * cos}
		if out.HeartMM = s.Heart.MM(); s.Heart == 0 {
			out.HeartMM = unseenHeartMM
		}
	}
	at := p.Panel.Flattened.Or(r.Moisture(p, s))
	for _, season := range movement.Seasons() {
		to := r.EquilibriumPct(season)
		out.Free = append(out.Free, Strain{
			Radial:     movement.FreeChange(timber.CR, timber.FSP(), at, to),
			Tangential: movement.FreeChange(timber.CT, timber.FSP(), at, to),
		})
	}
	points := w.Points
	if w.Face == Under {
		points = -points
	}
	out.Wetter = Strain{timber.CR * points, timber.CT * points}
	return out
}

// usualDensity is that of a timber without one, in kg/m3.
const usualDensity = 650

// ElasticOf returns the stiffness of air-dry wood of a density in kg/m3, 0: not known: the
// ratios of the Wood Handbook's means, carried to other densities by powers that we fitted
// (derived, not published).
func ElasticOf(density float64, softwood bool) Elastic {
	if density == 0 {
		density = usualDensity
	}
	if softwood {
		q := math.Pow(density/540, 1.3)
		return Elastic{RadialMPa: 1040 * q, TangentialMPa: 750 * q, ShearMPa: 0.11 * 750 * q, CrossPerMPa: -0.37 / (750 * q)}
	}
	of := density / usualDensity
	tangential := 840 * math.Pow(of, 1.82)
	return Elastic{RadialMPa: 1620 * math.Pow(of, 1.40), TangentialMPa: tangential, ShearMPa: 0.36 * tangential, CrossPerMPa: -0.34 / tangential}
}

// A Season is how a panel stands in one, with what is read of it.
type Season struct {
	Season movement.Season
	Profile
	Figures
	BandUM []float64 // by how much strips of unknown bark may shift it either way, at each point
}

// MostBandUM returns by how much strips of unknown bark may shift the section where that is
// most.
func (s Season) MostBandUM() float64 { return slices.Max(s.BandUM) }

// Known reports whether p has a relief: strips that can be computed, and not too many.
func (p Panel) Known() bool { return len(p.Strips) > 0 && len(p.NoFigure) == 0 && !p.TooLarge }

// Seasons computes how p stands in each; there are none where p has no relief.
func (p Panel) Seasons() []Season {
	if !p.Known() {
		return nil
	}
	var out []Season
	for i, profile := range p.Profiles(len(movement.Seasons())) {
		out = append(out, Season{movement.Season(i), profile, p.Figures(profile, p.Run), p.Band(i)})
	}
	return out
}

// Rift strips lean: those whose rings meet the face at such angles.
const (
	leastRift = 15
	mostRift  = 75
)

// Leans reports whether rings are known to be such that a strip leans.
func Leans(r pattern.Rings) bool {
	return r.Known() && r.Degrees() >= leastRift && r.Degrees() <= mostRift
}

// rift reports whether strip i, from 0, leans.
func (s Section) rift(i int) bool {
	return s.Strips[i].Degrees >= leastRift && s.Strips[i].Degrees <= mostRift
}

// Against reports whether the strips of glue line n, from 1, are both rift and lean against
// each other, as far as their bark is known.
func (s Section) Against(n int) bool {
	a, b := s.Strips[n-1].Bark, s.Strips[n].Bark
	return s.rift(n-1) && s.rift(n) && a.X*a.Z*b.X*b.Z < 0
}

// Gaps are the largest distances under a straightedge across each face, in the season in
// which that is larger.
type Gaps struct{ TopUM, UnderUM float64 }

// A Turn is what it brings to turn one strip end for end.
type Turn struct {
	Strip         int // from 1
	Before, After Gaps
}

// A turn is worth its while where it takes off so much of the gap across the visible face, in
// micrometres and as a share.
const (
	leastOff      = 20
	leastOffShare = 0.2
)

// BestTurn tries to turn each rift strip of known bark end for end, and returns the one that
// leaves the smallest gap across the visible face; false where none is worth its while, or the
// context ended before. Of several the first counts.
func (p Panel) BestTurn(ctx context.Context) (Turn, bool) {
	if !p.Known() {
		return Turn{}, false
	}
	const tie = 1e-6
	k := newKept()
	best := Turn{Before: p.gaps(k)}
	best.After = best.Before
	for i := range p.Strips {
		if !p.rift(i) || !p.Strips[i].Bark.Known() {
			continue
		}
		if ctx.Err() != nil {
			return Turn{}, false
		}
		turned := p
		turned.Strips = slices.Clone(p.Strips)
		turned.Strips[i].Bark.X = -turned.Strips[i].Bark.X
		if gaps := turned.gaps(k); gaps.TopUM < best.After.TopUM-tie {
			best.Strip, best.After = i+1, gaps
		}
	}
	off := best.Before.TopUM - best.After.TopUM
	return best, off >= leastOff && off >= leastOffShare*best.Before.TopUM
}

func (p Panel) gaps(k *kept) (g Gaps) {
	for _, profile := range p.profiles(len(movement.Seasons()), k) {
		f := p.Figures(profile, p.Run)
		g.TopUM, g.UnderUM = max(g.TopUM, f.GapTopUM), max(g.UnderUM, f.GapUnderUM)
	}
	return g
}
