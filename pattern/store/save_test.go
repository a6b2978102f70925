package store

import (
	"bufio"
	"errors"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"

	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
)

// TestChangedOnDisk: what another program wrote is never overwritten unasked.
func TestChangedOnDisk(t *testing.T) {
	h := newHome(t)
	v := mustSave(t, h, "tray", tray("Tray", 3), Absent)
	file := h.patternPath("tray")
	theirs := read(t, file) + "# by hand\n"
	write(t, file, theirs)
	for name, base := range map[string]Version{"read before": v, "never read": Absent} {
		_, err := h.SavePattern("tray", tray("Tray", 5), base)
		var e *Error
		if !errors.Is(err, ErrChanged) || !errors.As(err, &e) || e.Hint == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
	if read(t, file) != theirs {
		t.Error("the other program's work is gone")
	}
	mustSave(t, h, "tray", tray("Tray", 5), Overwrite)
	if read(t, file+".bak") != theirs {
		t.Error("forced, the other program's work is not in .bak")
	}
	got, err := h.Pattern("tray", nil)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.Remove(file); err != nil {
		t.Fatal(err)
	}
	mustSave(t, h, "tray", tray("Tray", 6), got.Version)
}

// TestLeftoversDoNotMatter: a save that was killed leaves a temporary file.
func TestLeftoversDoNotMatter(t *testing.T) {
	h := newHome(t)
	v := mustSave(t, h, "tray", tray("Tray", 3), Absent)
	write(t, h.patternPath("tray")+"123456", "format = half a fi")
	write(t, h.path("patterns/.tray.toml.swp.toml"), "x")
	all, err := h.Patterns(nil)
	if err != nil || len(all) != 1 || all[0].Err != nil {
		t.Errorf("patterns %v, %v", all, err)
	}
	mustSave(t, h, "tray", tray("Tray", 4), v)
}

// TestUnreadableIsNotSaved: what the reader would refuse never replaces a good file.
func TestUnreadableIsNotSaved(t *testing.T) {
	h := newHome(t)
	v := mustSave(t, h, "tray", tray("Tray", 3), Absent)
	before := read(t, h.patternPath("tray"))
	bad := tray("Tray\x1b[2J", 3)
	if _, err := h.SavePattern("tray", bad, v); err == nil || !strings.Contains(err.Error(), "could not be read again") {
		t.Errorf("got %v", err)
	}
	if read(t, h.patternPath("tray")) != before {
		t.Error("the good file is gone")
	}
}

func TestPermissionsAndLinksStay(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("links and permission bits are another thing on Windows")
	}
	h := newHome(t)
	real := filepath.Join(t.TempDir(), "elsewhere.toml")
	write(t, real, goodShop)
	if err := os.Chmod(real, 0o640); err != nil {
		t.Fatal(err)
	}
	if err := os.MkdirAll(h.Dir(), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(real, h.path(shopFile)); err != nil {
		t.Fatal(err)
	}
	_, v, err := h.Shop()
	if err != nil {
		t.Fatal(err)
	}
	if _, err := h.SaveShop(shop.Default(), v); err != nil {
		t.Fatal(err)
	}
	info, err := os.Lstat(h.path(shopFile))
	if err != nil || info.Mode()&fs.ModeSymlink == 0 {
		t.Errorf("the link is gone: %v, %v", info, err)
	}
	if info, err = os.Stat(real); err != nil || info.Mode().Perm() != 0o640 {
		t.Errorf("permissions %v, %v", info.Mode(), err)
	}
	if read(t, real) == goodShop || read(t, real+".bak") != goodShop {
		t.Error("the file behind the link was not saved")
	}
	circle := h.path(rackFile)
	if err := os.Symlink(circle, circle); err != nil {
		t.Fatal(err)
	}
	if _, err := h.SaveRack(rack.Rack{}, Absent); err == nil {
		t.Error("saved to a circle of links")
	}
}

func TestFoldersAndFilesMixedUp(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	write(t, file, "x")
	h := OpenHome(file)
	if _, _, err := h.Shop(); runtime.GOOS != "windows" && err == nil {
		t.Error("a home that is a file was read")
	}
	if _, err := h.SaveShop(shop.Default(), Absent); err == nil || !strings.Contains(err.Error(), file) {
		t.Errorf("a home that is a file: %v", err)
	}
	h = newHome(t)
	if err := os.MkdirAll(h.path(rackFile), 0o755); err != nil {
		t.Fatal(err)
	}
	if _, _, err := h.Rack(nil); err == nil || !strings.Contains(err.Error(), "is a folder") {
		t.Errorf("a rack that is a folder: %v", err)
	}
	if _, err := h.SaveRack(rack.Rack{}, Absent); err == nil || !strings.Contains(err.Error(), "is a folder") {
		t.Errorf("a rack that is a folder: %v", err)
	}
}

func TestReadOnlyHome(t *testing.T) {
	if runtime.GOOS == "windows" || os.Geteuid() == 0 {
		t.Skip("permission bits of a folder do not stop root, nor anybody on Windows")
	}
	h := newHome(t)
	v := mustSave(t, h, "tray", tray("Tray", 3), Absent)
	if err := h.Close(); err != nil {
		t.Fatal(err)
	}
	for _, dir := range []string{h.path(patternsFolder), h.Dir()} {
		if err := os.Chmod(dir, 0o555); err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() { _ = os.Chmod(dir, 0o755) })
	}
	if _, err := h.Pattern("tray", nil); err != nil {
		t.Error(err)
	}
	if _, err := h.SavePattern("tray", tray("Tray", 4), v); err == nil {
		t.Error("saved to a read-only folder")
	}
}

func TestOneWriter(t *testing.T) {
	h := newHome(t)
	v := mustSave(t, h, "tray", tray("Tray", 3), Absent)
	other := OpenHome(h.Dir())
	_, err := other.SavePattern("tray", tray("Tray", 4), v)
	var e *Error
	if !errors.Is(err, ErrBusy) || !errors.As(err, &e) || !strings.Contains(e.Hint, "--home") {
		t.Errorf("got %v", err)
	}
	if err := other.Hold(); !errors.Is(err, ErrBusy) {
		t.Errorf("got %v", err)
	}
	if _, err := other.Pattern("tray", nil); err != nil {
		t.Errorf("reading while another writes: %v", err)
	}
	if err := h.Close(); err != nil {
		t.Fatal(err)
	}
	mustSave(t, other, "tray", tray("Tray", 4), v)
	if err := h.Hold(); !errors.Is(err, ErrBusy) {
		t.Errorf("got %v", err)
	}
	if err := other.Close(); err != nil {
		t.Fatal(err)
	}
	if _, err := h.SavePattern("tray", tray("Tray", 5), v); !errors.Is(err, ErrChanged) {
		t.Errorf("the other's save was overlooked: %v", err)
	}
}

const holderEnv = "ODDMENTS_TEST_HOLD"

// TestHolder is not a test of its own: TestOneWriterOfTwoProcesses runs it.
func TestHolder(t *testing.T) {
	dir := os.Getenv(holderEnv)
	if dir == "" {
		t.Skip("run by TestOneWriterOfTwoProcesses")
	}
	h := OpenHome(dir)
	mustSave(t, h, "tray", tray("Tray", 1), Absent)
	if _, err := os.Stdout.WriteString("held\n"); err != nil {
		t.Fatal(err)
	}
	_, _ = bufio.NewReader(os.Stdin).ReadString('\n') // until it is killed
}

// TestOneWriterOfTwoProcesses: a process that holds the home and is killed lets go.
func TestOneWriterOfTwoProcesses(t *testing.T) {
	h := newHome(t)
	child := exec.Command(os.Args[0], "-test.run=^TestHolder$")
	child.Env = append(os.Environ(), holderEnv+"="+h.Dir())
	out, err := child.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	in, err := child.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	if err := child.Start(); err != nil {
		t.Fatal(err)
	}
	if line, err := bufio.NewReader(out).ReadString('\n'); line != "held\n" {
		t.Fatalf("the other process says %q, %v", line, err)
	}
	if err := h.Hold(); !errors.Is(err, ErrBusy) {
		t.Errorf("got %v", err)
	}
	if err := child.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	_ = child.Wait() // it was killed
	if err := h.Hold(); err != nil {
		t.Errorf("after its end: %v", err)
	}
}

// What a save that was killed has left is listed wherever a save writes: in the home's
// folders, and beside the files that its links stand for.
func TestLeftoversAreListed(t *testing.T) {
	h := newHome(t)
	mustSave(t, h, "tray", tray("Tray", 3), Absent)
	elsewhere := t.TempDir()
	want := []string{h.path(".oddments-77-1.part"), h.path("patterns/.oddments-77-2.part"), h.path("recovery/.oddments-77-1.part")}
	if runtime.GOOS != "windows" {
		for _, name := range []string{rackFile, shopFile} { // two links to one folder
			write(t, filepath.Join(elsewhere, name), "")
			if err := os.Symlink(filepath.Join(elsewhere, name), h.path(name)); err != nil {
				t.Fatal(err)
			}
		}
		want = append(want, filepath.Join(elsewhere, ".oddments-77-3.part"))
	}
	for _, file := range want {
		write(t, file, "half a fi")
	}
	write(t, h.path("notes.part"), "the maker's own")
	var got []string
	for _, l := range h.Leftovers() {
		if l.Old {
			t.Errorf("%s counts as an older oddments'", l.File)
		}
		got = append(got, l.File)
	}
	slices.Sort(got)
	slices.Sort(want)
	if !slices.Equal(got, want) {
		t.Errorf("left over %v, want %v", got, want)
	}
	mustSave(t, h, "dish", tray("Dish", 2), Absent)
	for _, l := range h.Leftovers() {
		if strings.Contains(l.File, patternsFolder) {
			t.Errorf("after a save there is still %s", l.File)
		}
	}
}
