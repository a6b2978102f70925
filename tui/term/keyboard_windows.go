package tui

import (
	"os"

	tea "github.com/charmbracelet/bubbletea"
)

// typing gives no option: Windows hands over keys as records, which are never torn.
func typing(*os.File) []tea.ProgramOption { return nil }
