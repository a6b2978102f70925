// Package secondtest has worked second glue-ups for tests: whole patterns, each with the
// answer that another program of ours gave to it, which tests convex pieces by points and
// shares no line with this one.
package secondtest

import (
	_ "embed"
	"encoding/json"
	"fmt"
	"slices"

	"github.com/pelletier/go-toml/v2"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/second"
)

//go:embed cases.json
var stored []byte

// A Case is one pattern with its answer.
type Case struct {
	Name   string `json:"name"`
	TOML   string `json:"toml"`
	Answer Answer `json:"answer"`
}

// An Answer is what comes out, by the names of the formats.
type Answer struct {
	Second   []Second   `json:"second"`
	Seasons  []Season   `json:"seasons"`
	Board    Board      `json:"board"`
	BarLines []BarLine  `json:"bar_lines"`
	Work     []Work     `json:"work_second"`
	Timber   []Timber   `json:"timber"`
	Findings [][]string `json:"findings"` // rule and level
	Probes   [][]any    `json:"probes"`   // x, y, strip, bars, face
	Cells    int        `json:"cells"`
	CellList []Cell     `json:"cell_list"`
}

// Second is one glue-up of an answer.
type Second struct {
	Lay         string             `json:"lay"`
	AngleDeg    float64            `json:"angle_deg"`
	BarMM       float64            `json:"bar_mm"`
	Bars        int                `json:"bars"`
	BarsShort   int                `json:"bars_short"`
	BarsMore    int                `json:"bars_more"`
	PitchMM     float64            `json:"pitch_mm"`
	LeftMM      float64            `json:"left_mm"`
	LengthMM    float64            `json:"length_mm"`
	WidthMM     float64            `json:"width_mm"`
	ThicknessMM float64            `json:"thickness_mm"`
	TakenCM3    map[string]float64 `json:"taken_cm3"`
}

// Season is what a season does to the board of an answer.
type Season struct {
	LengthChangeMM float64 `json:"length_change_mm"`
	WidthChangeMM  float64 `json:"width_change_mm"`
	Round100MM     float64 `json:"round_100_mm"`
}

// Board is the board of an answer; the rows are missing where it has none.
type Board struct {
	EndGrain      bool     `json:"end_grain"`
	BowMM         float64  `json:"bow_mm"`
	ZigzagMM      float64  `json:"zigzag_mm"`
	AlongPct      *float64 `json:"along_pct"`
	AlongMostPct  *float64 `json:"along_most_pct"`
	AlongFromMM   *float64 `json:"along_from_mm"`
	AlongToMM     *float64 `json:"along_to_mm"`
	AcrossPct     *float64 `json:"across_pct"`
	AcrossMostPct *float64 `json:"across_most_pct"`
	AcrossFromMM  *float64 `json:"across_from_mm"`
	AcrossToMM    *float64 `json:"across_to_mm"`
	RowLevel      string   `json:"row_level"`
}

// BarLine is one bar line of an answer.
type BarLine struct {
	Second     int      `json:"second"`
	Line       int      `json:"line"`
	CellPct    float64  `json:"cell_pct"`
	CellPMPct  float64  `json:"cell_pm_pct"`
	LeastPct   float64  `json:"least_pct"`
	MostPct    float64  `json:"most_pct"`
	Season     string   `json:"season"`
	StepUM     *float64 `json:"step_um"`
	SlopeDeg   float64  `json:"slope_deg"`
	Level      string   `json:"level"`
	Settled    bool     `json:"settled"`
	Borderline bool     `json:"borderline"`
}

// Work is what one glue-up of an answer takes.
type Work struct {
	Joints  int     `json:"joints"`
	AreaM2  float64 `json:"area_m2"`
	Grams   float64 `json:"grams"`
	Minutes float64 `json:"minutes"`
	Stages  int     `json:"stages"`
	Clamps  int     `json:"clamps"`
}

// Timber is what the board of an answer has of one.
type Timber struct {
	Species     string  `json:"species"`
	FinishedCM3 float64 `json:"finished_cm3"`
	MassKg      float64 `json:"mass_kg"`
}

// Cell is one cell of an answer.
type Cell struct {
	Strip    int          `json:"strip"`
	Bars     []int        `json:"bars"`
	Up       string       `json:"up"`
	PointsMM [][2]float64 `json:"points_mm"`
}

// A Wanted is a board of a size, with what it takes.
type Wanted struct {
	TOML   string     `json:"toml"`
	Want   [3]float64 `json:"want"` // length, width, thickness
	Bars   int        `json:"bars"` // 0: as many as it takes
	Answer struct {
		Bars          int       `json:"bars"`
		BarMM         float64   `json:"bar_mm"`
		ThicknessMM   float64   `json:"thickness_mm"`
		StripWidthsMM []float64 `json:"strip_widths_mm"`
		WidthMM       float64   `json:"width_mm"`
		LengthMM      float64   `json:"length_mm"`
		OverLengthMM  float64   `json:"over_length_mm"`
		OverWidthMM   float64   `json:"over_width_mm"`
	} `json:"answer"`
}

// Stored returns the worked glue-ups, and the boards of wanted sizes.
func Stored() ([]Case, []Wanted, error) {
	var all struct {
		Cases []Case   `json:"cases"`
		Needs []Wanted `json:"needs"`
	}
	err := json.Unmarshal(stored, &all)
	return all.Cases, all.Needs, err
}

// Takes is what the workshop of the worked glue-ups takes off.
func Takes() second.Takes {
	return second.Takes{Crosscut: 3200 * length.Micrometre, Second: 3 * length.Millimetre, Length: 20 * length.Millimetre}
}

// Read reads what the worked patterns say. It is no reader of the format: what is wrong in
// one of them it may pass over.
func Read(text string) (pattern.Pattern, error) {
	var file struct {
		Name  string
		Panel struct {
			Length, Thickness string
			Moisture          *float64
			Flattened         *float64
		}
		Strip []struct {
			Species, Width string
			Rings          any
			Moisture       *float64
		}
		Second []struct {
			Lay, Bar, Trim string
			Bars           int
			Angle          any
			Turned, Over   []bool
			Shift          []string
			Moisture       *float64
		}
	}
	if err := toml.Unmarshal([]byte(text), &file); err != nil {
		return pattern.Pattern{}, err
	}
	r := reader{}
	p := pattern.Pattern{Name: file.Name, Panel: pattern.Panel{
		Length: r.length(file.Panel.Length), Thickness: r.length(file.Panel.Thickness),
		Moisture: reading(file.Panel.Moisture), Flattened: reading(file.Panel.Flattened)}}
	for _, s := range file.Strip {
		p.Strips = append(p.Strips, pattern.Strip{Species: s.Species, Width: r.length(s.Width), Rings: r.rings(s.Rings), Moisture: reading(s.Moisture)})
	}
	for _, s := range file.Second {
		one := pattern.Second{Bar: r.length(s.Bar), Bars: s.Bars, Angle: pattern.Square, Turned: s.Turned, Over: s.Over,
			Trim: r.length(s.Trim), Moisture: reading(s.Moisture)}
		one.Lay, r.err = pattern.ParseLay(s.Lay)
		if s.Angle != nil {
			_, r.err = fmt.Sscan(fmt.Sprint(s.Angle), &one.Angle)
		}
		for _, text := range s.Shift {
			shift, err := pattern.ParseShift(text)
			one.Shift, r.err = append(one.Shift, shift), err
		}
		p.Seconds = append(p.Seconds, one)
	}
	return p, r.err
}

// A reader keeps the last error.
type reader struct{ err error }

func (r *reader) length(text string) (l length.Length) {
	if text != "" {
		var err error
		if l, err = length.Parse(text); err != nil {
			r.err = err
		}
	}
	return l
}

func (r *reader) rings(value any) (rings pattern.Rings) {
	words := []any{nil, "unknown", "flat", "rift", "quarter"}
	if i := slices.Index(words, value); i >= 0 {
		return [...]pattern.Rings{{}, {}, pattern.RingsFlat(), pattern.RingsRift(), pattern.RingsQuarter()}[i]
	}
	var degrees float64
	_, r.err = fmt.Sscan(fmt.Sprint(value), &degrees)
	rings, err := pattern.RingsAt(degrees)
	if err != nil {
		r.err = err
	}
	return rings
}

func reading(percent *float64) pattern.Reading {
	if percent == nil {
		return pattern.Reading{}
	}
	return pattern.Read(*percent)
}
