package screen

import (
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"github.com/charmbracelet/bubbles/key"
	"github.com/charmbracelet/bubbles/textinput"

	"example.com/oddments/pattern"
)

// An Input is a line to type into. Build one with NewInput: every field and every search
// is one.
type Input struct{ textinput.Model }

// NewInput returns a focused line to type into, which takes at most so many characters.
// The library's keys for taking out the word after the cursor read beyond the text where
// that word is its last character (bubbles v1.0.0, textinput.go:450), and are left out.
func NewInput(most int) Input {
	input := textinput.New()
	input.Prompt = ""
	input.CharLimit = most
	input.KeyMap.DeleteWordForward.SetEnabled(false)
	input.Focus()
	return Input{input}
}

// Type returns the line after a key, and the first character that was left out of it since
// no file may hold it; 0: none was. A paste carries such characters unseen. Alt with a
// letter that edits nothing types nothing.
func (in Input) Type(k tea.KeyMsg) (Input, rune) {
	if k.Alt && k.Type == tea.KeyRunes && !key.Matches(k, in.KeyMap.WordForward, in.KeyMap.WordBackward) {
		return in, 0
	}
	var out rune
	k.Runes = slices.DeleteFunc(slices.Clone(k.Runes), func(r rune) bool {
		_, bad := pattern.ForbiddenRune(string(r))
		if strings.ContainsRune("\t\r\n", r) { // which the library makes blanks of
			return false
		}
		if bad && out == 0 {
			out = r
		}
		return bad
	})
	in.Model, _ = in.Update(k)
	return in, out
}
