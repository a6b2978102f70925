//go:build !windows

package cli

import "golang.org/x/sys/unix"

// mayWrite reports whether files may be made in a folder. It makes none to find out.
func mayWrite(dir string) bool { return unix.Access(dir, unix.W_OK|unix.X_OK) == nil }
