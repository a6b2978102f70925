//go:build !windows

package cli

import (
	"errors"
	"syscall"
)

// readerIsGone reports whether a write failed because nobody reads any more. Mostly
// the system ends the program before it gets here, by SIGPIPE.
func readerIsGone(err error) bool { return errors.Is(err, syscall.EPIPE) }
