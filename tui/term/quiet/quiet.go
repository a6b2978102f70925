// Package quiet keeps the screen libraries from asking the terminal for its
// background colour when the program starts.
//
// bubbletea asks in an init of its own, and on a terminal that does not answer
// (a serial line, a recorder, some multiplexers) the program then stands still for
// five seconds, plain commands too. A background that was set by hand is not asked
// for. Go initialises packages that are ready in the order of their import paths,
// so this init runs before bubbletea's as long as this package imports lipgloss
// alone and the module's path sorts before bubbletea's; package tui imports it for
// that effect. Nothing of ours depends on the background being dark: the theme
// holds only colours that read on either.
package quiet

import "github.com/charmbracelet/lipgloss"

func init() { lipgloss.SetHasDarkBackground(true) }
