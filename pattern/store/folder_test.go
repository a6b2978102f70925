package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/rack"
)

// withBatch returns p with one batch more.
func withBatch(p pattern.Pattern, n int) pattern.Pattern {
	p.Made = append(p.Made[:len(p.Made):len(p.Made)], pattern.Made{Date: pattern.Date{Year: 2026, Month: 11, Day: 2}, Copies: n})
	return p
}

// TestTwoWritersOfOneFile: of those that write down a batch in one file outside of any
// home at the same time, every one that says it is saved is in the file.
func TestTwoWritersOfOneFile(t *testing.T) {
	file := filepath.Join(t.TempDir(), "x.toml")
	if _, err := SavePatternFile(file, tray("Tray", 2), Absent); err != nil {
		t.Fatal(err)
	}
	var all sync.WaitGroup
	said := make([]int, 5)
	for writer := range said {
		all.Go(func() {
			for n := range 20 {
				saved, err := OpenHome(t.TempDir()).OpenPattern(file, nil)
				if err != nil {
					t.Error(err)
					return
				}
				_, err = SavePatternFile(file, withBatch(saved.Pattern, writer*100+n+1), saved.Version)
				switch {
				case err == nil:
					said[writer]++
				case !errors.Is(err, ErrChanged) && !errors.Is(err, ErrBusy):
					t.Error(err)
				}
			}
		})
	}
	all.Wait()
	saved, err := OpenHome(t.TempDir()).OpenPattern(file, nil)
	if err != nil {
		t.Fatal(err)
	}
	sum := 0
	for _, n := range said {
		sum += n
	}
	if len(saved.Pattern.Made) != sum || sum == 0 {
		t.Errorf("%d said that it is saved, and %d batches are in the file", sum, len(saved.Pattern.Made))
	}
}

// TestSecondWriterWaits: while one is in the midst of a save to a file, another waits,
// gives up in the end and says so; what the first says is saved is in the file.
func TestSecondWriterWaits(t *testing.T) {
	file := filepath.Join(t.TempDir(), "x.toml")
	v, err := SavePatternFile(file, tray("Tray", 2), Absent)
	if err != nil {
		t.Fatal(err)
	}
	second := func(n int) error {
		data, err := patternBytes(file, tray("Tray", n))
		if err == nil {
			_, err = disk{patience: time.Millisecond}.saveOver(file, data, v)
		}
		return err
	}
	var between error
	first := disk{watch: func(name, _ string, do func() error) error {
		if name == "rename" && between == nil {
			between = second(4)
		}
		return do()
	}}
	data, err := patternBytes(file, tray("Tray", 3))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := first.saveOver(file, data, v); err != nil {
		t.Fatal(err)
	}
	if !errors.Is(between, ErrBusy) {
		t.Errorf("in the midst of the first save the second says %v, want that another is at it", between)
	}
	if err := second(4); !errors.Is(err, ErrChanged) {
		t.Errorf("after it the second says %v, want that the file was changed", err)
	}
	if read(t, file) != string(data) {
		t.Error("what was said to be saved is not in the file")
	}
}

func onlyUnix(t *testing.T) {
	t.Helper()
	if runtime.GOOS == "windows" {
		t.Skip("skipped: permission bits and links are another thing on Windows")
	}
}

// modeOf returns the permissions of a file.
func modeOf(t *testing.T, file string) fs.FileMode {
	t.Helper()
	info, err := os.Stat(file)
	if err != nil {
		t.Fatal(err)
	}
	return info.Mode().Perm()
}

// TestPermissions: a new file gets what any new file gets, one that is there keeps what
// it has, and .bak what the file has that it was.
func TestPermissions(t *testing.T) {
	onlyUnix(t)
	h := newHome(t)
	v := mustSave(t, h, "tray", tray("Tray", 2), Absent)
	file := h.patternPath("tray")
	usual := filepath.Join(t.TempDir(), "usual")
	f, err := os.Create(usual) // as umask has it
	if err != nil {
		t.Fatal(err)
	}
	f.Close()
	picture := filepath.Join(t.TempDir(), "x.svg")
	if _, err := SaveExport(picture, []byte("x")); err != nil {
		t.Fatal(err)
	}
	for _, new := range []string{file, picture, h.path(lockFile)} {
		if modeOf(t, new) != modeOf(t, usual) {
			t.Errorf("%s is %v; a new file is %v here", new, modeOf(t, new), modeOf(t, usual))
		}
	}
	for n, mode := range []fs.FileMode{0o600, 0o664, 0o640} {
		if err := os.Chmod(file, mode); err != nil {
			t.Fatal(err)
		}
		v = mustSave(t, h, "tray", tray("Tray", 3+n), v)
		if modeOf(t, file) != mode || modeOf(t, file+".bak") != mode {
			t.Errorf("of a file with %v the new one has %v, the .bak %v", mode, modeOf(t, file), modeOf(t, file+".bak"))
		}
	}
	if err := os.Chmod(file, 0o444); err != nil {
		t.Fatal(err)
	}
	before := read(t, file)
	_, err = h.SavePattern("tray", tray("Tray", 9), v)
	var e *Error
	if !errors.As(err, &e) || !errors.Is(err, errReadOnly) || !strings.Contains(e.Hint, "writable") || read(t, file) != before {
		t.Errorf("a read-only file: %v", err)
	}
}

// TestLinkThatLeadsNowhere: the file may lie on a disk that is not plugged in. It is not
// taken for missing, and nothing is made in its place.
func TestLinkThatLeadsNowhere(t *testing.T) {
	onlyUnix(t)
	away := filepath.Join(t.TempDir(), "stick")
	link := func(to, at string) {
		t.Helper()
		if err := os.MkdirAll(filepath.Dir(at), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.Symlink(to, at); err != nil {
			t.Fatal(err)
		}
	}
	refused := func(what string, err error) {
		t.Helper()
		var nowhere LinkError
		if !errors.As(err, &nowhere) || !strings.Contains(err.Error(), away) {
			t.Errorf("%s: %v, want that the link leads nowhere", what, err)
		}
		if _, err := os.Lstat(away); !errors.Is(err, fs.ErrNotExist) {
			t.Fatalf("%s made %s", what, away)
		}
	}
	h := newHome(t)
	link(away, h.path(rackFile))
	link(away, h.patternPath("tray"))
	_, _, err := h.Rack(nil)
	refused("reading the rack", err)
	_, err = h.SaveRack(rack.Rack{}, Absent)
	refused("saving the rack", err)
	_, err = h.Pattern("tray", nil)
	refused("reading a pattern", err)
	_, err = h.SavePattern("tray", tray("Tray", 2), Absent)
	refused("saving a pattern", err)
	_, err = h.SaveTogether(generation(t, 1, Absent, Absent, Absent)...)
	refused("a set", err)
	_, err = SaveExport(h.patternPath("tray"), []byte("x"))
	refused("an export", err)

	gone := OpenHome(filepath.Join(t.TempDir(), "link"))
	link(away, gone.Dir())
	_, _, err = gone.Rack(nil)
	refused("reading a home", err)
	_, err = gone.Patterns(nil)
	refused("listing a home", err)
	refused("holding a home", gone.Hold())
	_, err = gone.SavePattern("tray", tray("Tray", 2), Absent)
	refused("saving to a home", err)
}

// TestSavesClearUp: what a killed save has left is taken away by the next one there, and
// nothing else is.
func TestSavesClearUp(t *testing.T) {
	h := newHome(t)
	v := mustSave(t, h, "tray", tray("Tray", 2), Absent)
	left := h.path("patterns/.oddments-123-4.part")
	kept := []string{h.path("patterns/.oddments-notes.part"), h.path("patterns/tray.toml2"), h.path("patterns/.oddments-1-2.part.toml")}
	for _, file := range append(kept, left) {
		write(t, file, "x")
	}
	if got := partsIn(h.path(patternsFolder)); len(got) != 1 || got[0] != left {
		t.Errorf("left over is %v, want %s alone", got, left)
	}
	mustSave(t, h, "tray", tray("Tray", 3), v)
	if _, err := os.Stat(left); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("%s stays: %v", left, err)
	}
	for _, file := range kept {
		if _, err := os.Stat(file); err != nil {
			t.Errorf("%s is none of ours, and is gone", file)
		}
	}
}

// TestEveryNewFolderIsSynced: of several new folders each is entered in the one it lies
// in for good.
func TestEveryNewFolderIsSynced(t *testing.T) {
	root := t.TempDir()
	synced := map[string]bool{}
	h := OpenHome(filepath.Join(root, "a", "b", "home"))
	h.disk.watch = func(name, path string, do func() error) error {
		if name == "sync folder" {
			synced[path] = true
		}
		return do()
	}
	defer h.Close()
	mustSave(t, h, "tray", tray("Tray", 2), Absent)
	for _, dir := range []string{"", "a", "a/b", "a/b/home", "a/b/home/patterns"} {
		if !synced[filepath.Join(root, dir)] {
			t.Errorf("%q was not synced, though something new is in it", dir)
		}
	}
}

// TestSaveNewIsWhole: a file that is to be new is there whole or not at all, at every
// moment, and one that is there already is left alone.
func TestSaveNewIsWhole(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "x.csv")
	seen := 0
	d := disk{watch: func(_, _ string, do func() error) error {
		if data, err := os.ReadFile(file); err == nil {
			if seen++; string(data) != "whole" {
				t.Errorf("in between it holds %q", data)
			}
		}
		return do()
	}}
	if err := d.saveNew(file, []byte("whole")); err != nil || seen == 0 {
		t.Errorf("%v; looked at %d times", err, seen)
	}
	if err := d.saveNew(file, []byte("another")); !errors.Is(err, fs.ErrExist) || read(t, file) != "whole" {
		t.Errorf("over one that is there: %v, it holds %q", err, read(t, file))
	}
	// A disk without hard links, like most sticks.
	d.watch = func(name, path string, do func() error) error {
		if name == "link" {
			return fmt.Errorf("link %s: %w", path, errors.ErrUnsupported)
		}
		return do()
	}
	if err := d.saveNew(file+"2", []byte("whole")); err != nil || read(t, file+"2") != "whole" {
		t.Errorf("without links: %v", err)
	}
	if err := d.saveNew(file, []byte("another")); !errors.Is(err, fs.ErrExist) || read(t, file) != "whole" {
		t.Errorf("without links, over one that is there: %v", err)
	}
	if left, _ := os.ReadDir(dir); len(left) != 2 {
		t.Errorf("left lying about: %v", left)
	}
}
