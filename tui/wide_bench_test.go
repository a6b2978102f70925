package tui

import (
	"fmt"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/rack"
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

// BenchmarkWidestChange is a key that changes one of 10,000 strips, and its frame: 50 ms.
// Four fifths of it are the check's, without the remedies of some 5,000 findings, which
// are looked for when they are seen: those of all took ten times as long.
func BenchmarkWidestChange(b *testing.B) {
	a := widest(b)
	for b.Loop() {
		model, _ := a.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{'+'}})
		_ = model.View()
	}
}

// BenchmarkWidestMove is a key that chooses the next strip of 10,000, and its frame: 15 ms.
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

// tallest starts on a rack of 20,000 pieces.
func tallest(b *testing.B) App {
	b.Helper()
	s := demoSetup(b)
	pieces := s.Rack.Pieces
	s.Rack = rack.Rack{}
	for i := range 20_000 {
		p := pieces[i%len(pieces)]
		p.ID = fmt.Sprint("T", i)
		s.Rack.Pieces = append(s.Rack.Pieces, p)
	}
	s.Width, s.Height = 200, 60
	var m tea.Model = New(s)
	m, _ = m.Update(key("tab"))
	return m.(App)
}

// BenchmarkTallestMove is a key that chooses the next of 20,000 pieces, and its frame: 5 ms.
// The first look at that rack, which puts it in order, takes ten times as long.
func BenchmarkTallestMove(b *testing.B) {
	a := tallest(b)
	for b.Loop() {
		model, _ := a.Update(tea.KeyMsg{Type: tea.KeyDown})
		a = model.(App)
		_ = a.View()
	}
}
