package cli

import "os"

// mayWrite reports whether a folder is not marked as read only. Who may write to it
// shows on the first save.
func mayWrite(dir string) bool {
	info, err := os.Stat(dir)
	return err == nil && info.Mode().Perm()&0o200 != 0
}
