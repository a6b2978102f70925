package cli

import (
	"strconv"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/suggest"
)

// The JSON of suggestions; lengths in mm.
type (
	suggestJSON struct {
		Format  string       `json:"format"`
		Status  string       `json:"status"`
		Bound   *boundJSON   `json:"bound"`
		Layouts []layoutJSON `json:"layouts"`
	}
	boundJSON struct {
		SmallestContrast float64 `json:"smallest_contrast"`
		TotalContrast    float64 `json:"total_contrast"`
	}
	layoutJSON struct {
		WidthMM          float64     `json:"width_mm"`
		SmallestContrast float64     `json:"smallest_contrast"`
		TotalContrast    float64     `json:"total_contrast"`
		UseFirstMM       float64     `json:"use_first_mm"`
		Level            string      `json:"level"`
		Strips           []stripJSON `json:"strips"`
		Plan             *planJSON   `json:"plan"`
	}
	stripJSON struct {
		Species string    `json:"species"`
		WidthMM float64   `json:"width_mm"`
		Rings   ringsJSON `json:"rings"`
		Source  string    `json:"source"`
	}
)

// ringsJSON is the word, or the number of another angle.
type ringsJSON pattern.Rings

// MarshalJSON returns them.
func (r ringsJSON) MarshalJSON() ([]byte, error) {
	if word, ok := pattern.Rings(r).Word(); ok {
		return strconv.AppendQuote(nil, word), nil
	}
	return strconv.AppendFloat(nil, pattern.Rings(r).Degrees(), 'f', -1, 64), nil
}

// statusJSON returns a status in the words that the format has. An open search has
// nothing that is wrong, and claims nothing.
func statusJSON(s suggest.Status) string {
	if s == suggest.Open {
		s = suggest.Feasible
	}
	return s.String()
}

// suggestOf returns the JSON of an answer that took so many seconds.
func suggestOf(w workshop, ask suggest.Request, answer suggest.Result, seconds float64) suggestJSON {
	out := suggestJSON{Format: "oddments/suggest 1", Status: statusJSON(answer.Status), Layouts: []layoutJSON{}}
	if b := answer.Bound; b != nil {
		out.Bound = &boundJSON{b.SmallestContrast, b.TotalContrast}
	}
	for _, l := range answer.Layouts {
		one := layoutJSON{WidthMM: l.Width.MM(), SmallestContrast: l.SmallestContrast, TotalContrast: l.TotalContrast,
			UseFirstMM: l.UseFirst.MM(), Level: l.Level.String(), Strips: []stripJSON{}}
		for _, s := range l.Strips {
			one.Strips = append(one.Strips, stripJSON{s.Species, s.Width.MM(), ringsJSON(s.Rings), s.Source})
		}
		if l.Plan != nil {
			plan := w.planOf(ask.Job(w.physics(), l), *l.Plan, seconds)
			one.Plan = &plan
		}
		out.Layouts = append(out.Layouts, one)
	}
	return out
}
