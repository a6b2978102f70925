package quiet

import (
	"testing"
	"time"

	"github.com/charmbracelet/lipgloss"
)

// The background is known without a question to the terminal, which would wait for an
// answer.
func TestBackgroundIsNotAskedFor(t *testing.T) {
	known := make(chan bool, 1)
	go func() { known <- lipgloss.HasDarkBackground() }()
	select {
	case dark := <-known:
		if !dark {
			t.Error("the background was asked for: it is not the one that was set")
		}
	case <-time.After(time.Second):
		t.Error("the terminal was asked")
	}
}
