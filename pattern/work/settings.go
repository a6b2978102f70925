package work

import (
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/shop"
)

// Settings are the maker's own habits: those that the workshop's file holds, and the
// few beside them that it does not. SettingsOf gives them.
type Settings struct {
	Cut    outline.Cut
	Glue   shop.Glue
	Finish Finish
	Price  shop.Price
}

// Finish is what a board is finished with and dries on.
type Finish struct {
	shop.Finish
	DryingOil bool // linseed, tung, walnut or another that hardens
}

// SettingsOf returns the settings of a workshop. What its file does not hold is a habit
// or a published figure; SourceOf says where figures come from.
func SettingsOf(s shop.Shop) Settings {
	return Settings{
		Cut:    CutOf(s),
		Glue:   s.Glue,
		Finish: Finish{Finish: s.Finish},
		Price:  s.Price,
	}
}

// CutOf returns the workshop's way of cutting out as package outline takes it.
func CutOf(s shop.Shop) outline.Cut { return s.Cut }
