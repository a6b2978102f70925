package result

import "example.com/oddments/pattern/store"

// Settings returns those of a workshop.
func Settings(all []store.Setting) Object {
	values := []Object{}
	for _, s := range all {
		values = append(values, Object{{"key", s.Key}, {"value", s.Value()}, {"default", s.Usual()}, {"source", s.Source()}, {"unit", s.Unit()}})
	}
	return Object{{"format", "oddments/shop-values 1"}, {"values", values}}
}
