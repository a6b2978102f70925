package rack

import "strings"

// lengthUnits are the units of package length, those first that others begin with.
func lengthUnits() []string { return []string{"mm", "cm", "in", "m", `"`, "″"} }

// startsNumber reports whether a number starts at at.
func (l *line) startsNumber(at int) bool {
	t := l.text[at:]
	return t != "" && (digit(t[0]) || len(t) > 1 && t[0] == '.' && digit(t[1]))
}

// digitsEnd gives where the digits from at on end.
func (l *line) digitsEnd(at int) int {
	for at < len(l.text) && digit(l.text[at]) {
		at++
	}
	return at
}

// decimalEnd gives where the decimal number that starts at at ends.
func (l *line) decimalEnd(at int) int {
	end := l.digitsEnd(at)
	if end+1 < len(l.text) && (l.text[end] == '.' || l.text[end] == ',') && digit(l.text[end+1]) {
		return l.digitsEnd(end + 1)
	}
	return end
}

// fractionEnd gives where the fraction that starts at at ends, or at where there is
// none.
func (l *line) fractionEnd(at int) int {
	over := l.digitsEnd(at)
	if over == at || over+1 >= len(l.text) || l.text[over] != '/' || !digit(l.text[over+1]) {
		return at
	}
	return l.digitsEnd(over + 1)
}

// lengthText reads a length and gives it as package length reads it: a decimal, a
// fraction, or both as in 24 1/2, with its unit where there is one. With hyphen 24-1/2
// is such a number too.
func (l *line) lengthText(hyphen bool) string {
	from := l.at
	text := ""
	if end := l.fractionEnd(from); end > from {
		text, l.at = l.text[from:end], end
	} else {
		whole := l.digitsEnd(from)
		l.at = l.decimalEnd(from)
		text = l.text[from:l.at]
		if l.at == whole && whole > from {
			text += l.fractionBehind(whole, hyphen)
		}
	}
	if text == "" {
		return ""
	}
	return text + l.unitBehind()
}

// fractionBehind reads the fraction behind a whole number that ends at whole.
func (l *line) fractionBehind(whole int, hyphen bool) string {
	next := l.spacesFrom(whole)
	if hyphen && next == whole && strings.HasPrefix(l.text[whole:], "-") {
		next = whole + 1
	}
	end := l.fractionEnd(next)
	if next == whole || end == next {
		return ""
	}
	l.at = end
	return " " + l.text[next:end]
}

// unitBehind reads the unit behind a number, where there is one.
func (l *line) unitBehind() string {
	next := l.spacesFrom(l.at)
	for _, unit := range lengthUnits() {
		end := next + len(unit)
		if !strings.HasPrefix(l.text[next:], unit) {
			continue
		}
		if l.ended(end) || strings.HasPrefix(l.text[end:], "-") || l.spacesFrom(end) != end {
			l.at = end
			return " " + unit
		}
	}
	return ""
}
