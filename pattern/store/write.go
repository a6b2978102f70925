package store

import (
	"bytes"
	"fmt"
	"io"
	"strconv"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// A writer puts keys and headings on lines of their own.
type writer struct{ buf bytes.Buffer }

func newWriter(kind string, version int) *writer {
	w := &writer{}
	w.text("format", fmt.Sprintf("oddments/%s %d", kind, version))
	return w
}

func (w *writer) to(out io.Writer) error {
	_, err := out.Write(w.buf.Bytes())
	return err
}

func (w *writer) line(format string, args ...any) { fmt.Fprintf(&w.buf, format+"\n", args...) }

func (w *writer) heading(text string) { w.line("\n%s", text) }

func (w *writer) text(key, value string) { w.line("%s = %s", key, quoted(value)) }

func (w *writer) textIfAny(key, value string) {
	if value != "" {
		w.text(key, value)
	}
}

func (w *writer) length(key string, l length.Length) { w.text(key, l.Exact()) }

// lengthIfAny leaves out a length of 0, which says that there is none.
func (w *writer) lengthIfAny(key string, l length.Length) {
	if l != 0 {
		w.length(key, l)
	}
}

func (w *writer) number(key string, x float64) { w.line("%s = %s", key, decimal(x)) }

func (w *writer) reading(key string, r pattern.Reading) {
	if r.Known {
		w.number(key, r.Percent)
	}
}

// rings leaves out unknown, which a missing key says.
func (w *writer) rings(r pattern.Rings) {
	word, ok := r.Word()
	switch {
	case !r.Known():
	case ok:
		w.text("rings", word)
	default:
		w.number("rings", r.Degrees())
	}
}

func (w *writer) countUnless(key string, n, usual int) {
	if n != usual {
		w.line("%s = %d", key, n)
	}
}

func (w *writer) flagIfSet(key string, set bool) {
	if set {
		w.line("%s = true", key)
	}
}

func (w *writer) texts(key string, values []string) {
	all := make([]string, len(values))
	for i, v := range values {
		all[i] = quoted(v)
	}
	w.line("%s = [%s]", key, strings.Join(all, ", "))
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
