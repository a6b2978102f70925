// Package manual is the short manual: what the help on the screen, oddments help and
// the man page show beside the tables of keys and commands.
//
// Its text is one file; keys stand in it by the names of their actions, so that it
// says the keys that the program goes by.
package manual

import (
	_ "embed" // the text
	"regexp"
	"strings"
	"unicode/utf8"

	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/keymap"
)

//go:embed manual.txt
var source string

// A Chapter is one part of the manual.
type Chapter struct {
	Name  string // one word, as it is asked for: first-hour
	Title string
	// Lines are paragraphs, each one line; empty between two, and set in by two blanks
	// where it is an example to be typed.
	Lines []string
}

// action matches a key's place in the text.
var action = regexp.MustCompile(`\{[a-z-]+\}`)

// sampleMark stands in the text for a sample of shop.toml.
const sampleMark = "(a sample of shop.toml)"

// Chapters returns the manual in its order, with the shown keys of keys. An action that
// is not there stays as it is written.
func Chapters(keys keymap.Map) []Chapter {
	text := action.ReplaceAllStringFunc(source, func(name string) string {
		switch key := keys.KeyOf(keymap.ID(strings.Trim(name, "{}"))); len(key) {
		case 0:
			return name
		case 1:
			return `"` + key + `"` // or a full stop would end the sentence
		default:
			return key
		}
	})
	var out []Chapter
	for line := range strings.SplitSeq(text, "\n") {
		if line == sampleMark {
			for _, line := range (store.ShopFile{}).Sample("", "kerf", "allowance") {
				out[len(out)-1].Lines = append(out[len(out)-1].Lines, strings.TrimRight("  "+line, " "))
			}
			continue
		}
		if heading, ok := strings.CutPrefix(line, "= "); ok {
			name, title, _ := strings.Cut(heading, ": ")
			out = append(out, Chapter{Name: name, Title: title})
			continue
		}
		last := &out[len(out)-1]
		last.Lines = append(last.Lines, line)
	}
	for i, c := range out {
		out[i].Lines = trimmed(c.Lines)
	}
	return out
}

// Wrapped returns the lines of a chapter for a page w cells wide. Examples stay as they
// are.
func (c Chapter) Wrapped(w int) []string {
	var out []string
	for _, line := range c.Lines {
		if strings.HasPrefix(line, " ") {
			out = append(out, line)
			continue
		}
		row := ""
		for _, word := range strings.Fields(line) {
			switch joined := row + " " + word; {
			case row == "":
				row = word
			case utf8.RuneCountInString(joined) <= w:
				row = joined
			default:
				out, row = append(out, row), word
			}
		}
		out = append(out, row)
	}
	return out
}

// trimmed leaves out empty lines at the end.
func trimmed(lines []string) []string {
	for len(lines) > 0 && lines[len(lines)-1] == "" {
		lines = lines[:len(lines)-1]
	}
	return lines
}
