package term

import (
	"os"

	tea "github.com/charmbracelet/bubbletea"
)

// Typing returns no option: Windows hands over keys as records, which are never torn.
func Typing(*os.File) []tea.ProgramOption { return nil }
