package opening

import (
	"fmt"
	"slices"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/overlay/ask"
)

// Board returns the field for the sizes of a new board; what is not said is as of the last.
func Board(last pattern.Panel, unit length.Unit) ask.Field {
	return ask.New("new board: length x wanted width x thickness, like 800 x 340 x 25 mirror", "", func(s string) (edit.Board, string, error) {
		if strings.TrimSpace(s) == "" {
			return edit.Board{}, fmt.Sprintf("%s long and %s thick like the last one, no width yet", last.Length.With(unit), last.Thickness.With(unit)), nil
		}
		b, err := edit.ParseBoard(s, unit)
		return b, boardWords(b, unit, err), err
	})
}

// boardWords says what board was understood.
func boardWords(b edit.Board, u length.Unit, err error) string {
	if err != nil {
		return ""
	}
	text := fmt.Sprintf("%s long, %s wide, %s thick", b.Length.With(u), b.Width.With(u), b.Thickness.With(u))
	if b.Mirror {
		text += ", mirrored"
	}
	return text
}

// With returns patterns with one more, which takes the place of one of its stem.
func With(all []store.Saved, one store.Saved) []store.Saved {
	others := slices.DeleteFunc(slices.Clone(all), func(s store.Saved) bool { return s.Stem == one.Stem })
	return append(others, one)
}
