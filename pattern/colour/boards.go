package colour

import "hash/fnv"

// boards is how boards of one timber differ from its colour: about 1 to 3 in CIEDE2000, as
// boards do (common practice, no source). They are few, since a picture in pixels has few
// inks.
var boards = [...]Lab{{}, {L: 2.4, A: -0.4, B: 0.7}, {L: -2.6, A: 0.5, B: -0.6}, {L: 1.1, A: 0.5, B: 1.6}, {L: -1.2, A: -0.3, B: -1.5}}

// Board returns how the board of a timber in a place differs from the timber's colour, always
// the same there. Two beside each other are never alike.
func Board(timber string, place int) Lab {
	h := fnv.New32a()
	_, _ = h.Write([]byte(timber)) // a hash takes all
	begin := h.Sum32()
	_, _ = h.Write([]byte{byte(place), byte(place >> 8)})
	// From place to place it goes on by 2, 3 or 4 of 5, never by none or all.
	at := int(begin%5) + 3*max(0, place) + int(h.Sum32()>>7&1)
	return boards[at%len(boards)]
}

// Shifted returns the colour moved so far in CIELAB.
func (c RGB) Shifted(by Lab) RGB {
	if by == (Lab{}) {
		return c
	}
	return c.Lab().Plus(Lab{}, by).RGB()
}
