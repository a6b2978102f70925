package tomlread

import (
	"bytes"
	"regexp"
	"strconv"
	"strings"
)

// saidOf is what is told of a mistake in TOML that the parser names in words of its own.
type saidOf struct{ parser, message, hint string }

// syntaxWords lists what the parser's words begin with, and what is told in their place.
// What is not listed is told in the parser's words.
func syntaxWords() []saidOf {
	const (
		quote  = "write the text and both its quotes on one line"
		line   = `a line is written like width = "31 mm"`
		list   = `write the list like ["0-40 mm", "300-330 mm"]`
		escape = `write \\ for one \, or put the text in ' ' instead of " "`
		number = "write the number like 9.1 or 620"
		day    = "write the day like 2026-11-02"
	)
	return []saidOf{
		{"basic string", `the closing " is missing`, quote},
		{"literal strings cannot", "the closing ' is missing", quote},
		{"unterminated literal", "the closing ' is missing", quote},
		{"multiline basic string", `the closing """ is missing`, ""},
		{"multiline literal string", "the closing ''' is missing", ""},
		{"expected newline", "there is more after the value", "put each key on a line of its own"},
		{"expected value", "the value is missing", line},
		{"incomplete number", "the value is missing", line},
		{"expected = after", "the = and the value are missing", line},
		{"expected character =", "the = behind the key is missing", line},
		{"expected character ]", "the closing ] is missing", ""},
		{"array is incomplete", "the closing ] is missing", ""},
		{"expected character }", "the closing } is missing", ""},
		{"inline table is incomplete", "the closing } is missing", ""},
		{"expected character ,", "a comma or the quotes around a text are missing", `write it like {width = "31 mm", planed = true}`},
		{"array elements", "a comma, the quotes around a text or the closing ] is missing", list},
		{"array cannot start", "the list begins with a comma", list},
		{"invalid character at start of key", "a key cannot begin with this", line},
		{"expected key", "the key is missing", line},
		{"invalid escaped", `a \ must not come before this letter`, escape},
		{"need a character after", `a \ ends the text`, escape},
		{"unicode point", `a \u needs 4 digits behind it, a \U 8`, escape},
		{"non-hex", `a \u needs 4 digits behind it, a \U 8`, escape},
		{"invalid UTF-8", "a control character is in the text", "take it out"},
		{"invalid character", "a control character is in the file", "take it out"},
		{"couldn't parse decimal", "this is not a number", number},
		{"float", "this is not a number", number},
		{"number", "this is not a number", number},
		{"impossible date", "there is no such day", day},
		{"windows new line", "the line ends in half a line break", "save the file with plain line ends"},
	}
}

// bare finds a value without quotes: the key of its line, and what stands there.
var bare = regexp.MustCompile(`^\s*([A-Za-z0-9_.-]+)\s*=\s*([^\s"'\[{#=][^#]*?)\s*(#.*)?\r?$`)

// syntax returns what is wrong at a byte where the parser says words, with what to write
// there.
func (d *Document) syntax(at int, words string) *FileError {
	words = strings.TrimPrefix(words, "toml: ")
	message, hint := Visible(words), ""
	for _, w := range syntaxWords() {
		if strings.HasPrefix(words, w.parser) {
			message, hint = w.message, w.hint
			break
		}
	}
	line := d.lineOf(at)
	text, _, _ := bytes.Cut(d.data[d.lines[line-1]:], []byte{'\n'})
	if m := bare.FindSubmatch(text); m != nil && at >= d.lines[line-1]+bytes.IndexByte(text, '=') {
		var right string
		if message, right = unquoted(string(m[2]), message); right != "" {
			hint = "write " + string(m[1]) + " = " + right
		}
	}
	if hint != "" {
		hint += "; "
	}
	return d.errorAt(at, "", message, Visible(hint)+readOn)
}

// Values that TOML writes otherwise than people do.
var (
	percent = regexp.MustCompile(`^([0-9.]+)\s*%$`)
	comma   = regexp.MustCompile(`^([0-9]+),([0-9]+)$`)
	zeros   = regexp.MustCompile(`^0+([1-9][0-9.]*|0\.[0-9]+)$`)
	signs   = regexp.MustCompile(`^[-+0-9.,:_]*$`)
)

// unquoted returns what is wrong with a value that stands without quotes, and how it is
// written. It returns the message that it is given, and nothing to write, for a number or a
// day that no quotes would mend.
func unquoted(value, message string) (wrong, right string) {
	const notTOML = "this is not a number"
	switch word := strings.ToLower(value); {
	case word == "true" || word == "yes":
		return "yes or no is written true or false", "true"
	case word == "false" || word == "no":
		return "yes or no is written true or false", "false"
	case percent.MatchString(value):
		return "a moisture is written without %", percent.ReplaceAllString(value, "$1")
	case comma.MatchString(value):
		return notTOML, comma.ReplaceAllString(value, "$1.$2")
	case zeros.MatchString(value):
		return notTOML, zeros.ReplaceAllString(value, "$1")
	case signs.MatchString(value):
		return message, ""
	}
	value = strings.Trim(value, "“”„‘’«»")
	if strings.HasSuffix(value, `"`) && strings.Count(value, `"`) == 1 && !strings.Contains(value, "'") {
		if number := strings.TrimSuffix(value, `"`); signs.MatchString(number) {
			return "the quotes are missing", "'" + value + "'" // 24" is an inch measure
		}
		return `the opening " is missing`, `"` + value
	}
	return "the quotes are missing", strconv.Quote(value)
}
