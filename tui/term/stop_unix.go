//go:build !windows

package term

import (
	"errors"
	"os"
	"os/signal"
	"sync/atomic"
	"syscall"

	tea "github.com/charmbracelet/bubbletea"
	"golang.org/x/sys/unix"
)

// Stops returns what waits for a stop that is asked for from outside (kill -TSTP), and
// the option that it needs.
//
// The library stops the program by that same signal and then waits to be brought back.
// Once a program has listened for it, Go never gives it back its old meaning, so the
// stop itself is made here, by the signal that nobody can listen for.
func Stops() (wait tea.Cmd, option []tea.ProgramOption) {
	asked := make(chan os.Signal, 1)
	signal.Notify(asked, syscall.SIGTSTP)
	var stopping atomic.Bool
	wait = func() tea.Msg {
		for range asked {
			if !stopping.Load() {
				break
			}
			_ = syscall.Kill(syscall.Getpid(), syscall.SIGSTOP)
		}
		return StopMsg{}
	}
	return wait, []tea.ProgramOption{tea.WithFilter(func(_ tea.Model, msg tea.Msg) tea.Msg {
		switch msg.(type) {
		case tea.SuspendMsg:
			if nobodyBringsBack() {
				return StaysMsg{errors.New("no shell started oddments here, so there is none to go back to")}
			}
			stopping.Store(true)
		case tea.ResumeMsg:
			stopping.Store(false)
		}
		return msg
	})}
}

// nobodyBringsBack reports whether no shell started the program, as in a window that
// was opened for it alone: stopped there it would stand still for ever.
func nobodyBringsBack() bool {
	session, err := unix.Getsid(0)
	return err == nil && session == os.Getpid()
}
