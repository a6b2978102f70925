package store

import (
	"bytes"
	"fmt"
	"io"
	"strconv"
	"strings"
)

// A writer puts keys and headings on lines of their own.
type writer struct{ buf bytes.Buffer }

func newWriter(kind string, version int) *writer {
	w := &writer{}
	w.line("format = %s", quoted(fmt.Sprintf("oddments/%s %d", kind, version)))
	return w
}

func (w *writer) to(out io.Writer) error {
	_, err := out.Write(w.buf.Bytes())
	return err
}

func (w *writer) line(format string, args ...any) { fmt.Fprintf(&w.buf, format+"\n", args...) }

func (w *writer) heading(text string) { w.line("\n%s", text) }

// keys writes those that a file must have, and of the others what is not as usual.
func (w *writer) keys(keys []key) {
	for _, k := range keys {
		w.key(k)
	}
}

// key writes k as keys does and reports whether it was written.
func (w *writer) key(k key) bool {
	text := k.written()
	if text != "" {
		w.line("%s = %s", k.name, text)
	}
	return text != ""
}

// commented writes k, whatever it is, with what it means behind it.
func (w *writer) commented(k key) {
	text := k.name + " = " + k.text()
	if k.about != "" {
		text = fmt.Sprintf("%-30s # %s", text, k.about)
	}
	w.line("%s", text)
}

func decimal(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// quoted returns s as a TOML basic string on one line.
func quoted(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r < ' ' || r == 0x7f:
			fmt.Fprintf(&b, `\u%04X`, r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}
