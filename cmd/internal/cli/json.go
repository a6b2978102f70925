package cli

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/work"
)

// An object is a JSON object whose members stand in this order.
type object []member

// A member is named as the format has it; inJSON says how its value is written.
type member struct {
	name  string
	value any
}

// MarshalJSON returns o with its members in their order.
func (o object) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	before := byte('{')
	for _, m := range o {
		b.WriteByte(before)
		before = ','
		fmt.Fprintf(&b, "%q:", m.name)
		if err := encode(&b, inJSON(m.value)); err != nil {
			return nil, fmt.Errorf("%s: %w", m.name, err)
		}
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// inJSON returns what stands in JSON for a value of the domain: millimetres for a length,
// the word or the angle of rings, null for what nobody knows, and the words of what else
// has some.
func inJSON(value any) any {
	switch v := value.(type) {
	case length.Length:
		return v.MM()
	case pattern.Rings:
		if word, ok := v.Word(); ok {
			return word
		}
		return v.Degrees()
	case work.Estimate:
		return known(v.Value, v.Known)
	case json.Marshaler:
		return v
	case fmt.Stringer:
		return v.String()
	default:
		return v
	}
}

// known returns nil, which is null in JSON, for a figure that nobody knows.
func known(value any, ok bool) any {
	if !ok {
		return nil
	}
	return inJSON(value)
}

// each returns the objects of all, never null.
func each[T any](all []T, of func(T) object) []object {
	out := make([]object, len(all))
	for i, one := range all {
		out[i] = of(one)
	}
	return out
}

// sizesOf returns what a shape is given by: the diameter of a round as a number, of
// another a list of its length along the grain and its width.
func sizesOf(s outline.Shape) any {
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

// jsonLine returns v on a line.
func jsonLine(v any) string {
	var b bytes.Buffer
	if err := encode(&b, v); err != nil {
		// A figure that is no number: a mistake of ours, and no reason to fall over.
		return fmt.Sprintf(`{"format":"oddments/error 1","code":"io","file":"","line":null,"column":null,"field":"","message":%q,"hint":""}`+"\n", err)
	}
	return b.String() + "\n"
}

// asksForJSON looks for --json before the flags are read, since a flag that is wrong
// ends the reading.
func asksForJSON(args []string) bool {
	if end := slices.Index(args, "--"); end >= 0 {
		args = args[:end]
	}
	return slices.Contains(args, "--json") || slices.Contains(args, "--json=true")
}
