package tui

import (
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
)

// widest starts on a pattern with as many strips as one may have.
func widest(b *testing.B) App {
	b.Helper()
	s := demoSetup(b)
	p := s.Open.Pattern
	one := p.Strips
	p.Strips = nil
	for i := range pattern.MaxStrips {
		p.Strips = append(p.Strips, one[i%len(one)])
	}
	s.Open.Pattern, s.Width, s.Height = p, 200, 60
	return New(s)
}

// BenchmarkWidestChange is a key that changes one of 10,000 strips, and its frame: 1 s. Nine
// tenths of it are the check's, most of that the remedies of some 5,000 findings.
func BenchmarkWidestChange(b *testing.B) {
	a := widest(b)
	for b.Loop() {
		model, _ := a.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{'+'}})
		_ = model.View()
	}
}

// BenchmarkWidestMove is a key that chooses the next strip of 10,000, and its frame: 20 ms.
func BenchmarkWidestMove(b *testing.B) {
	a := widest(b)
	for b.Loop() {
		model, _ := a.Update(tea.KeyMsg{Type: tea.KeyRight})
		_ = model.View()
	}
}

// BenchmarkManyTwins is a key that comes 2,000 times at once, as the screen is given it by
// some 200: 2 s.
func BenchmarkManyTwins(b *testing.B) {
	burst := tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(strings.Repeat("t", 200))}
	for b.Loop() {
		var m tea.Model = New(demoSetup(b))
		for range 10 {
			m, _ = m.Update(burst)
			_ = m.View()
		}
	}
}
