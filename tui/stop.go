package tui

import tea "github.com/charmbracelet/bubbletea"

// stopMsg says that a stop was asked for from outside the screen.
type stopMsg struct{}

// stop gives the terminal back and stops the program, as the key for it does.
func (a App) stop() (App, tea.Cmd) { return a, tea.Batch(tea.Suspend, a.stopped) }
