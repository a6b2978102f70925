package result

import (
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/photo"
	"example.com/oddments/pattern/photo/reading"
)

// A Coloured piece is what was read of a piece or of a timber.
type Coloured struct {
	ID, Species string // the ID is empty of a timber
	reading.Piece
	FromTimber float64
}

// Colour returns the JSON of what was read of a photo.
func Colour(file string, day pattern.Date, p *photo.Photo, r *reading.Reader, pieces []Coloured) Object {
	findings := r.Findings
	for _, c := range pieces {
		findings = append(findings[:len(findings):len(findings)], c.Findings...)
	}
	return Object{
		{"format", "oddments/colour 1"}, {"photo", file}, {"date", day.String()}, {"width_px", p.Width}, {"height_px", p.Height},
		{"orientation", p.Orientation}, {"profile", p.Profile}, {"method", r.Method.String()}, {"light", r.Light.String()},
		{"light_ratio", Known(r.Ratio, r.Known)}, {"light_residual", Known(r.Residual, r.Known)},
		{"gamma", Known(r.Gamma, r.Method == reading.ByGrey)}, {"target_mean", Known(r.Target, r.Method == reading.ByTarget)},
		{"pieces", Each(pieces, func(c Coloured) Object {
			return Object{{"id", c.ID}, {"species", c.Species}, {"box", []int{c.Box.X, c.Box.Y, c.Box.W, c.Box.H}}, {"pixels", c.Pixels}, {"used", c.Used},
				{"lab", []float64{c.Lab.L, c.Lab.A, c.Lab.B}}, {"colour", c.Colour}, {"about", c.About}, {"spread", c.Spread}, {"range", c.Range},
				{"light", c.Light}, {"dark", c.Dark}, {"from_timber", c.FromTimber}}
		})},
		{"findings", Each(findings, func(f reading.Finding) Object {
			return Object{{"rule", f.Rule}, {"level", f.Level}, {"where", f.Where}, {"message", f.Message}, {"remedy", f.Remedy}}
		})},
	}
}
