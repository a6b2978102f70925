package store

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
)

// ofLink returns an error about a link as it is, which names the link, and any other as
// one of path.
func ofLink(path, doing string, err error) error {
	if e, ok := errors.AsType[*Error](err); ok {
		return e
	}
	return newError(path, doing, err, "")
}

// followLinks returns the file that path stands for, which need not exist. A link that
// leads nowhere is refused: what it stands for lies on a disk that is not there now.
func followLinks(path string) (string, error) {
	const most = 40 // as Linux has it
	file := path
	for range most {
		info, err := os.Lstat(file)
		if errors.Is(err, fs.ErrNotExist) {
			return file, leadsNowhere(path)
		}
		if err == nil && info.Mode()&fs.ModeSymlink == 0 {
			return file, nil
		}
		if err != nil {
			return "", err
		}
		if file, err = behind(file); err != nil {
			return "", err
		}
	}
	return "", errors.New("links that lead in a circle")
}

// behind returns where a link leads.
func behind(link string) (string, error) {
	to, err := os.Readlink(link)
	if err == nil && !filepath.IsAbs(to) {
		to = filepath.Join(filepath.Dir(link), to)
	}
	return to, err
}

// leadsNowhere tells of the link by which a file, or a folder that it lies in, is
// missing; nil where it is missing without one.
func leadsNowhere(path string) error {
	for {
		info, err := os.Lstat(path)
		if err == nil && info.Mode()&fs.ModeSymlink != 0 {
			if to, err := behind(path); err == nil {
				if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
					return &Error{File: path, Doing: "read", Err: LinkError{To: to},
						Hint: "plug in its disk, or remove the link"}
				}
			}
		}
		up := filepath.Dir(path)
		if err == nil || up == path {
			return nil
		}
		path = up
	}
}

// A LinkError says of a link that what it leads to is not there.
type LinkError struct{ To string }

// Error says where the link leads.
func (e LinkError) Error() string { return "is a link that leads nowhere: " + e.To + " is not there" }
