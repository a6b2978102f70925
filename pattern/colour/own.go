package colour

// An Own colour is that of one board under oil, as it was read or set. The zero value says
// that nobody looked.
type Own struct {
	RGB   RGB
	Known bool
}

// OwnOf returns the Own colour of c.
func OwnOf(c RGB) Own { return Own{RGB: c, Known: true} }

// Or returns the colour, or the usual one where none is known.
func (o Own) Or(usual RGB) RGB {
	if o.Known {
		return o.RGB
	}
	return usual
}
