package panel

import (
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/species"
	"example.com/oddments/tui/paint"
)

// sampleTimbers are timbers as the tests need them; the colours are visual
// estimates, as those of the built-in table.
func sampleTimbers() map[string]species.Species {
	list := []species.Species{
		{Key: "black_walnut", Letters: "WA", ColourOiled: species.RGB{R: 0x4A, G: 0x32, B: 0x22}, Pores: "semi-ring", OpenPored: true},
		{Key: "hard_maple", Letters: "MA", ColourOiled: species.RGB{R: 0xDD, G: 0xBF, B: 0x8A}, Pores: "diffuse"},
		{Key: "black_cherry", Letters: "CH", ColourOiled: species.RGB{R: 0xA5, G: 0x63, B: 0x3B}, Pores: "diffuse"},
		{Key: "wild_cherry", Letters: "CE", ColourOiled: species.RGB{R: 0xAF, G: 0x77, B: 0x47}, Pores: "diffuse"},
		{Key: "sapele", Letters: "SA", ColourOiled: species.RGB{R: 0x78, G: 0x40, B: 0x2A}, Pores: "diffuse", OpenPored: true},
		{Key: "white_ash", Letters: "AS", ColourOiled: species.RGB{R: 0xC9, G: 0xA6, B: 0x73}, Pores: "ring", OpenPored: true},
		{Key: "european_beech", Letters: "BE", ColourOiled: species.RGB{R: 0xBC, G: 0x8A, B: 0x5C}, Pores: "diffuse"},
		{Key: "purpleheart", Letters: "PH", ColourOiled: species.RGB{R: 0x5E, G: 0x2F, B: 0x4B}, Pores: "diffuse", OpenPored: true},
	}
	out := make(map[string]species.Species, len(list))
	for _, s := range list {
		out[s.Key] = s
	}
	return out
}

func sampleTimber(key string) (species.Species, bool) {
	s, ok := sampleTimbers()[key]
	return s, ok
}

// timberOf returns a lookup that does not build its table anew.
func timberOf() func(string) (species.Species, bool) {
	table := sampleTimbers()
	return func(key string) (species.Species, bool) {
		s, ok := table[key]
		return s, ok
	}
}

// hearthTrivet is a ragged panel of 13 strips and 295 mm.
func hearthTrivet() View {
	keys := []string{"hard_maple", "black_walnut", "black_cherry", "sapele", "hard_maple", "black_walnut", "black_cherry",
		"black_walnut", "hard_maple", "sapele", "black_cherry", "black_walnut", "hard_maple"}
	widths := []length.Length{25, 22, 22, 22, 25, 22, 22, 22, 25, 22, 22, 22, 22}
	rings := []pattern.Rings{pattern.RingsFlat(), pattern.RingsQuarter(), pattern.RingsFlat(), pattern.RingsRift(), {}}
	p := pattern.Pattern{Panel: pattern.Panel{Length: 290 * length.Millimetre, Thickness: 22 * length.Millimetre}}
	for i, key := range keys {
		s := pattern.Strip{Species: key, Width: widths[i] * length.Millimetre, Rings: rings[i%len(rings)]}
		if far := max(i-6, 6-i); far > 3 {
			s.Start = length.Length(far-3) * 28 * length.Millimetre
			s.Length = 310*length.Millimetre - 2*s.Start
		}
		p.Strips = append(p.Strips, s)
	}
	marks := make([]Mark, len(keys)-1)
	for i := range marks {
		marks[i] = []Mark{{',', paint.RoleFine}, {'!', paint.RoleCare}, {'X', paint.RoleMuch}, {'?', paint.RoleUnknown}}[i%4]
	}
	return View{Pattern: p, Timber: timberOf(), Allowance: 20 * length.Millimetre, Selected: 1, Marks: marks}
}

// many is a panel of n strips whose timbers and widths vary.
func many(n int) View {
	keys := []string{"hard_maple", "black_walnut", "black_cherry", "wild_cherry", "white_ash", "european_beech", "purpleheart"}
	v := View{Timber: timberOf(), Selected: NoStrip, Allowance: 20 * length.Millimetre}
	v.Pattern.Panel.Length = 450 * length.Millimetre
	for i := range n {
		v.Pattern.Strips = append(v.Pattern.Strips, pattern.Strip{
			Species: keys[(i*i+i/3)%len(keys)],
			Width:   length.Length(5+i*7%40) * length.Millimetre,
			Rings:   []pattern.Rings{pattern.RingsFlat(), pattern.RingsQuarter(), {}}[i%3],
		})
	}
	v.Marks = make([]Mark, max(0, n-1))
	for i := range v.Marks {
		v.Marks[i] = Mark{'!', paint.RoleCare}
	}
	return v
}
