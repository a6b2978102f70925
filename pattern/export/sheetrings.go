package export

// ringSymbols returns the drawings of rings on end grain, once for the whole page; the
// rows of the list of strips show them by name.
func ringSymbols() part {
	return el("svg", at("width", "0"), at("height", "0"), at("aria-hidden", "true"), at("style", "position:absolute"), at("focusable", "false"),
		el("defs",
			ringSymbol("flat", "", "M1 5Q10 1.5 19 5M1 9Q10 5.5 19 9M1 12.5Q10 9.5 19 12.5", "1"),
			ringSymbol("quarter", "", "M4.5 1V13M8.2 1V13M11.9 1V13M15.6 1V13", "1"),
			ringSymbol("rift", "", "M1 7L7 1M1 13L13 1M7 13L19 1M13 13L19 7", "1"),
			ringSymbol("unknown", "2 1.6", "M8 5Q8 3 10 3T12 5Q12 6.5 10 7.2V8.6M10 10.2V11.6", "1.3")))
}

// ringSymbol draws the end of a strip, dashed where dashes says how, with lines so wide.
func ringSymbol(glyph, dashes, lines, wide string) part {
	const line = "#1c1916"
	return el("symbol", at("id", "r-"+glyph), at("viewBox", "0 0 20 14"),
		el("rect", at("x", ".6"), at("y", ".6"), at("width", "18.8"), at("height", "12.8"),
			at("fill", "#fff"), at("stroke", line), at("stroke-width", "1.2"),
			when(dashes != "", at("stroke-dasharray", dashes))),
		el("path", at("d", lines), at("fill", "none"), at("stroke", line), at("stroke-width", wide)))
}

// ringsGlyph shows one of the drawings.
func ringsGlyph(glyph string) part {
	return el("svg", class("rings"), at("aria-hidden", "true"), el("use", at("href", "#r-"+glyph)))
}
