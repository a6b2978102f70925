//go:build !windows

package term

import (
	"bytes"
	"errors"
	"os"
	"time"
	"unicode/utf8"

	tea "github.com/charmbracelet/bubbletea"
	xterm "github.com/charmbracelet/x/term"
	"golang.org/x/sys/unix"
)

// A keyboard is a terminal's input that never ends a read within a key. A slow line,
// or a read that is full, tears a key's sequence or a letter in parts, and the screen
// library takes the parts for keys of their own: the right arrow for Esc and two
// letters that do other things. So where a read ends in a beginning, the rest is
// waited for.
//
// Nor does a paste go on for ever: the library takes whatever comes for text until the
// paste ends, and one whose end was lost on the line would leave no key that works.
type keyboard struct {
	*os.File
	more func(within time.Duration) bool // reports whether something comes in time
	open bool                            // a paste has begun and not ended
	cut  bool                            // the last one was ended here; its rest may still come
	tail []byte                          // the end of the last read, which may begin a mark
}

const (
	// restWithin is how long the rest of a key is waited for: Esc alone answers so much
	// later, which no hand notices.
	restWithin = 20 * time.Millisecond
	// pasteWithin is how long the next of a paste is waited for.
	pasteWithin = time.Second
	// longestKey is the room left for the rest; a report of the mouse is the longest.
	longestKey = 48
)

// The marks that a terminal puts round a paste.
const (
	pasteStart = "\x1b[200~"
	pasteEnd   = "\x1b[201~"
)

// Typing returns the option by which the program reads f, where a maker types there.
func Typing(f *os.File) []tea.ProgramOption {
	if !xterm.IsTerminal(f.Fd()) {
		return nil
	}
	return []tea.ProgramOption{tea.WithInput(&keyboard{File: f, more: func(within time.Duration) bool { return comes(f, within) }})}
}

// Read reads what was typed, as whole keys. It never fills p, which would say that
// there is more.
func (k *keyboard) Read(p []byte) (int, error) {
	if len(p) <= 2*longestKey {
		return k.File.Read(p)
	}
	n, err := k.File.Read(p[:len(p)-longestKey])
	for err == nil && n < len(p)-1 && torn(p[:n]) && k.more(restWithin) {
		var got int
		got, err = k.File.Read(p[n : n+1])
		n += got
	}
	if k.cut {
		n = k.withoutRest(p, n)
	}
	k.note(p[:n])
	if err == nil && k.open && !k.more(pasteWithin) {
		k.open, k.cut, k.tail = false, true, nil
		n = min(n, len(p)-1-len(pasteEnd)) // a torn key may have taken the room
		n += copy(p[n:], pasteEnd)
	}
	return n, err
}

// withoutRest takes out of what was read the rest of a paste that was ended here: all up
// to its end, or more letters at once than a hand types. It returns how much is left.
func (k *keyboard) withoutRest(p []byte, n int) int {
	if end := bytes.Index(p[:n], []byte(pasteEnd)); end >= 0 {
		k.cut = false
		return copy(p, p[end+len(pasteEnd):n])
	}
	if n > longestKey && p[0] != '\x1b' {
		return 0
	}
	return n
}

// note takes note of the marks of pastes in what was read.
func (k *keyboard) note(b []byte) {
	text := append(k.tail, b...)
	for {
		mark := pasteStart
		if k.open {
			mark = pasteEnd
		}
		at := bytes.Index(text, []byte(mark))
		if at < 0 {
			break
		}
		k.open, k.cut = !k.open, false
		text = text[at+len(mark):]
	}
	k.tail = bytes.Clone(text[max(0, len(text)-len(pasteEnd)+1):])
}

// comes reports whether something can be read from f in time.
func comes(f *os.File, within time.Duration) bool {
	fds := []unix.PollFd{{Fd: int32(f.Fd()), Events: unix.POLLIN}}
	for until := time.Now().Add(within); ; {
		left := time.Until(until).Round(time.Millisecond)
		n, err := unix.Poll(fds, int(max(0, left)/time.Millisecond))
		if !errors.Is(err, unix.EINTR) { // which the runtime's own signals cause
			return err == nil && n > 0 && fds[0].Revents&unix.POLLIN != 0
		}
	}
}

// torn reports whether b ends within a key: in an escape sequence that has not come to
// its end, or in a letter.
func torn(b []byte) bool {
	at := bytes.LastIndexByte(b, '\x1b')
	if at >= 0 && tornSequence(b[at+1:]) {
		return true
	}
	for i := len(b) - 1; i >= max(0, len(b)-utf8.UTFMax); i-- {
		if utf8.RuneStart(b[i]) {
			return !utf8.FullRune(b[i:])
		}
	}
	return false
}

// tornSequence reports whether b, which follows an escape character, is the beginning
// of a sequence (ECMA-48, section 5.4, with what terminals added to it).
func tornSequence(b []byte) bool {
	if len(b) == 0 {
		return true
	}
	switch b[0] {
	case 'O': // one letter more
		return len(b) == 1
	case '[':
		b = b[1:]
	default:
		return false
	}
	if len(b) == 0 || b[0] == '[' && len(b) == 1 { // the latter is the console's
		return true
	}
	if b[0] == 'M' { // the mouse in three characters
		return len(b) < 4
	}
	for _, c := range b {
		if c >= '@' && c <= '~' {
			return false
		}
	}
	return true
}
