package command

import (
	"errors"
	"syscall"
)

// ignoreGoneReader does nothing: Windows ends no program for a write that nobody reads.
func ignoreGoneReader() {}

// errorNoData is what a write to a pipe gives whose reader is closing it.
const errorNoData = syscall.Errno(232)

// readerIsGone reports whether a write failed because nobody reads any more.
func readerIsGone(err error) bool {
	return errors.Is(err, syscall.ERROR_BROKEN_PIPE) || errors.Is(err, errorNoData)
}
