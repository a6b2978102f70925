package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"
)

// RecoveryFile returns the file of the recovery copy that goes by a name.
func (h *Home) RecoveryFile(name string) string {
	file, _ := h.recoveryPaths(name)
	return file
}

// SaveReport writes down beside the recovery copies what a fault in the program was, and
// returns the file's path. A report takes no other's place, and needs no lock: a program
// that falls over beside another one is to say so too.
func (h *Home) SaveReport(at time.Time, text string) (string, error) {
	const most = 100 // reports of one second
	folder := h.path(recoveryFolder)
	if err := h.disk.makeFolder(folder); err != nil {
		return "", err
	}
	name := filepath.Join(folder, "fault-"+at.Format("20060102-150405"))
	for n := range most {
		path := name + ".txt"
		if n > 0 {
			path = fmt.Sprintf("%s-%d.txt", name, n+1)
		}
		f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
		if errors.Is(err, fs.ErrExist) {
			continue
		}
		if err == nil {
			_, err = f.WriteString(text)
			err = errors.Join(err, f.Close())
		}
		if err != nil {
			return "", &Error{File: path, Doing: "save", Err: plainCause(err)}
		}
		return path, nil
	}
	return "", &Error{File: name + ".txt", Doing: "save", Err: fs.ErrExist}
}
