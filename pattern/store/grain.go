package store

import (
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/store/tomlread"
)

// grainKeys are the keys of how rings lie, in the order in which they are read: a bark side
// must go with the rings, and a heart needs that side. What is wrong with one of them is not
// held against the next. Of what is not known nothing is written.
func grainKeys(rings *pattern.Rings, bark *pattern.Bark, heart *length.Length) (r, b, h key) {
	sound := true // all that was read of them so far
	r, h = ringsKey(rings), sizeKey("heart", heart, pattern.MaxHeart)
	look, lookCell, size := r.read, r.cell, h.read
	r.read = func(f tomlread.Field) {
		before := f.Wrongs()
		look(f)
		sound = f.Wrongs() == before
	}
	r.cell = func(c cell) {
		before := c.Wrongs()
		lookCell(c)
		sound = c.Wrongs() == before
	}
	b = key{name: "bark",
		text: func() string {
			if !bark.Known() {
				return ""
			}
			return quoted(bark.String())
		},
		read: func(f tomlread.Field) {
			if !tomlread.Word(f, bark, pattern.ParseBark) {
				sound = sound && !f.Given()
				return
			}
			hint := ""
			if !rings.Known() {
				hint = `give both, like rings = "rift" and bark = "up left"`
			}
			if err := rings.CheckBark(*bark); sound && err != nil {
				sound = f.Failf(hint, "%v", err)
			}
		}}
	b.cell = func(c cell) { b.read(c.With(c.column, strings.ToLower(c.text))) }
	h.read = func(f tomlread.Field) {
		if size(f); sound && *heart > 0 && !bark.Known() {
			f.Failf(`add bark, like bark = "up", or leave heart out`, "the distance to the pith needs the side that the bark lies on")
		}
	}
	return r, b, h
}
