// Package term is what the screen knows of the terminal that it stands on: how keys are
// read whole, how the program is stopped from outside, and beneath it how frames reach
// the terminal and how it is kept from being asked questions at the start.
package term

// A StopMsg says that a stop was asked for from outside the screen.
type StopMsg struct{}

// A StaysMsg says why the program was not stopped.
type StaysMsg struct{ Err error }
