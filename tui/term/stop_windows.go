package term

import tea "github.com/charmbracelet/bubbletea"

// Stops returns nothing: Windows has no such stops.
func Stops() (tea.Cmd, []tea.ProgramOption) { return nil, nil }
