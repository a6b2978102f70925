package store

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
)

// A picture takes the place of what lay there, which is kept however long it is.
func TestSaveExport(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "board.png")
	if replaced, err := SaveExport(file, []byte("one")); replaced || err != nil {
		t.Fatal(replaced, err)
	}
	if info, err := os.Stat(file); err != nil || info.Mode().Perm()&0o044 == 0 && os.PathSeparator == '/' {
		t.Errorf("others may not look at it: %v, %v", info.Mode(), err)
	}
	long := bytes.Repeat([]byte("long "), 2<<20) // longer than any file that is read
	if replaced, err := SaveExport(file, long); !replaced || err != nil {
		t.Fatal(replaced, err)
	}
	if replaced, err := SaveExport(file, []byte("three")); !replaced || err != nil {
		t.Fatal(replaced, err)
	}
	for name, want := range map[string][]byte{file: []byte("three"), file + ".bak": long} {
		if got, err := os.ReadFile(name); err != nil || !bytes.Equal(got, want) {
			t.Errorf("%s: %d bytes, want %d, %v", filepath.Base(name), len(got), len(want), err)
		}
	}
	if left, err := os.ReadDir(dir); err != nil || len(left) != 2 {
		t.Errorf("%d files are left, %v", len(left), err)
	}
}

func TestSaveExportRefuses(t *testing.T) {
	dir := t.TempDir()
	var e *Error
	if _, err := SaveExport(filepath.Join(dir, "none", "a.svg"), nil); !errors.As(err, &e) || !errors.Is(err, fs.ErrNotExist) || e.Hint == "" {
		t.Errorf("into no folder: %v", err)
	}
	if _, err := SaveExport(dir, nil); !errors.As(err, &e) {
		t.Errorf("over a folder: %v", err)
	}
	if _, err := SaveExport(filepath.Join(dir, "file", "a.svg"), nil); err == nil {
		t.Error("into a folder that is none")
	}
	if info, err := os.Stat(os.DevNull); err == nil && !info.Mode().IsRegular() {
		if _, err := SaveExport(os.DevNull, []byte("x")); err == nil {
			t.Error("a device was written over")
		}
	}
}

// A link stays one.
func TestSaveExportFollowsLinks(t *testing.T) {
	dir := t.TempDir()
	real, link := filepath.Join(dir, "real.svg"), filepath.Join(dir, "link.svg")
	if err := os.WriteFile(real, []byte("old"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(real, link); err != nil {
		t.Skipf("skipped: no links here: %v", err)
	}
	if _, err := SaveExport(link, []byte("new")); err != nil {
		t.Fatal(err)
	}
	if got, err := os.ReadFile(real); err != nil || string(got) != "new" {
		t.Errorf("%q, %v", got, err)
	}
	if info, err := os.Lstat(link); err != nil || info.Mode()&fs.ModeSymlink == 0 {
		t.Errorf("the link is gone: %v", err)
	}
}
