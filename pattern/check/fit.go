package check

import (
	"errors"
	"fmt"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/work"
)

// RuleFit is the rule of a product that does not come out of the panel.
const RuleFit = work.RuleFit

// fitRule lays the products as the workshop cuts them, with what cannot be laid at all.
func fitRule(b *board) []Finding {
	if len(b.pattern.Products) == 0 {
		return nil
	}
	var out []Finding
	find := func(format string, args ...any) {
		out = append(out, Finding{Level: pattern.TooMuch, Message: fmt.Sprintf(format, args...)})
	}
	job, err := work.JobOn(b.physics, b.pattern, 1, b.figures.Board, nil)
	var wrongs outline.Wrongs
	switch {
	case errors.As(err, &wrongs):
		for _, w := range wrongs {
			find("%s: %s", w.Of, w.Text)
		}
	case err != nil:
		find("the products cannot be laid: %v", err)
	}
	for _, m := range work.Misfits(job, b.unit) {
		find("product %d, %s: %s", m.Product, outline.Text(b.pattern.Products[m.Product-1], b.unit), m.Text)
	}
	return out
}
