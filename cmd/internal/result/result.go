// Package result writes the results of commands as JSON: objects whose members stand in the
// order that the format has, one object a line, lengths in millimetres.
package result

import (
	"bytes"
	"encoding/json"
	"fmt"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/work"
)

// An Object is a JSON object whose members stand in this order.
type Object []Member

// A Member is a name, as the format has it, and a value.
type Member [2]any

// MarshalJSON returns o with its members in their order.
func (o Object) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	before := byte('{')
	for _, m := range o {
		b.WriteByte(before)
		before = ','
		fmt.Fprintf(&b, "%q:", m[0])
		if err := encode(&b, written(m[1])); err != nil {
			return nil, fmt.Errorf("%s: %w", m[0], err)
		}
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// written returns what stands in JSON for a value of the domain: millimetres for a length,
// the word or the angle of rings, null for what nobody knows, and the words of what else
// has some.
func written(value any) any {
	switch v := value.(type) {
	case length.Length:
		return v.MM()
	case pattern.Rings:
		if word, ok := v.Word(); ok {
			return word
		}
		return v.Degrees()
	case work.Estimate:
		return Known(v.Value, v.Known)
	case json.Marshaler:
		return v
	case fmt.Stringer:
		return v.String()
	default:
		return v
	}
}

// Known returns nil, which is null in JSON, for a figure that nobody knows.
func Known(value any, ok bool) any {
	if !ok {
		return nil
	}
	return written(value)
}

// Each returns the objects of all, never null.
func Each[T any](all []T, of func(T) Object) []Object {
	out := make([]Object, len(all))
	for i, one := range all {
		out[i] = of(one)
	}
	return out
}

// Sizes returns what a shape is given by: the diameter of a round as a number, of
// another a list of its length along the grain and its width.
func Sizes(s outline.Shape) any {
	var mm []float64
	for _, l := range s.Sizes() {
		mm = append(mm, l.MM())
	}
	if len(mm) == 1 {
		return mm[0]
	}
	return mm
}

// encode writes v on one line. Signs that only HTML cares about stay as they are.
func encode(b *bytes.Buffer, v any) error {
	encoder := json.NewEncoder(b)
	encoder.SetEscapeHTML(false)
	err := encoder.Encode(v)
	b.Truncate(len(bytes.TrimSuffix(b.Bytes(), []byte{'\n'})))
	return err
}

// Line returns v on a line.
func Line(v any) string {
	var b bytes.Buffer
	if err := encode(&b, v); err != nil {
		// A figure that is no number: a mistake of ours, and no reason to fall over.
		return fmt.Sprintf(`{"format":"oddments/error 1","code":"io","file":"","line":null,"column":null,"field":"","message":%q,"hint":""}`+"\n", err)
	}
	return b.String() + "\n"
}
