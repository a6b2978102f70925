package export

import (
	"bytes"
	"encoding/xml"
	"strconv"
	"strings"
	"unicode"
)

// clean returns s with a stand-in for whatever does not print: control characters, marks
// that turn the direction of writing, broken UTF-8.
func clean(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\t' || r == '\n':
			return ' '
		case !unicode.IsPrint(r):
			return unicode.ReplacementChar
		default:
			return r
		}
	}, s)
}

// escaped returns s cleaned and fit to stand in XML, as text or in an attribute.
func escaped(s string) string {
	var b bytes.Buffer
	_ = xml.EscapeText(&b, []byte(clean(s))) // a buffer takes all
	return b.String()
}

// number returns x with at most two decimals, the shortest way.
func number(x float64) string { return decimals(x, 2) }

// tenth returns x to a tenth of a millimetre: grain needs no more.
func tenth(x float64) string { return decimals(x, 1) }

func decimals(x float64, most int) string {
	text := strings.TrimRight(strings.TrimRight(strconv.FormatFloat(x, 'f', most, 64), "0"), ".")
	if text == "-0" {
		return "0"
	}
	return text
}

// letter is how wide a letter is beside its height, on the whole: what a text needs is
// judged by it where no font is at hand.
const letter = 0.56

// wide judges how wide s is at a height of size.
func wide(s string, size float64) float64 {
	n := 0.0
	for _, r := range s {
		if n++; r >= 0x1100 { // scripts with letters as wide as high
			n += 0.8
		}
	}
	return n * letter * size
}

// fit cuts s where it would be wider than room.
func fit(s string, size, room float64) string {
	if wide(s, size) <= room {
		return s
	}
	runes := []rune(s)
	for len(runes) > 0 && wide(string(runes)+"...", size) > room {
		runes = runes[:len(runes)-1]
	}
	return strings.TrimRight(string(runes), " ") + "..."
}

// wrap parts s at blanks into lines no wider than room; a word that is wider alone is
// cut. It gives at most the given number of lines.
func wrap(s string, size, room float64, most int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(s) {
		switch {
		case line == "":
			line = word
		case wide(line+" "+word, size) <= room:
			line += " " + word
		default:
			lines, line = append(lines, line), word
		}
	}
	if line != "" {
		lines = append(lines, line)
	}
	if len(lines) > most {
		lines[most-1] = strings.Join(lines[most-1:], " ")
		lines = lines[:most]
	}
	for i := range lines {
		lines[i] = fit(lines[i], size, room)
	}
	return lines
}
