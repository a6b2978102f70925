//go:build !windows

package command

import (
	"errors"
	"os/signal"
	"syscall"
)

// ignoreGoneReader has a write that nobody reads fail, where the system would end the
// program by SIGPIPE.
func ignoreGoneReader() { signal.Ignore(syscall.SIGPIPE) }

// readerIsGone reports whether a write failed because nobody reads any more. Mostly
// the system ends the program before it gets here, by SIGPIPE.
func readerIsGone(err error) bool { return errors.Is(err, syscall.EPIPE) }
