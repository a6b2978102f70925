package tui

import tea "github.com/charmbracelet/bubbletea"

// stops gives nothing: Windows has no such stops.
func stops() (tea.Cmd, []tea.ProgramOption) { return nil, nil }
