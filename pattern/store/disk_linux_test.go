package store

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// smallDisk mounts a disk of its own of so many KiB.
func smallDisk(t *testing.T, kib int) string {
	t.Helper()
	dir := t.TempDir()
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, fmt.Sprintf("size=%dk", kib)); err != nil {
		t.Skipf("skipped: no disk can be mounted here: %v", err)
	}
	t.Cleanup(func() {
		if err := syscall.Unmount(dir, syscall.MNT_DETACH); err != nil {
			t.Error(err)
		}
	})
	return dir
}

// fill writes until no more than so many bytes are free, and gives the file that does it.
func fill(t *testing.T, dir string, free int64) string {
	t.Helper()
	var disk syscall.Statfs_t
	if err := syscall.Statfs(dir, &disk); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(dir, "filler")
	size := int64(disk.Bavail)*int64(disk.Bsize) - free
	if err := os.WriteFile(file, make([]byte, max(0, size)), 0o644); err != nil {
		t.Fatal(err)
	}
	return file
}

// contents reads every file of a home but the lock.
func contents(t *testing.T, h *Home) map[string]string {
	t.Helper()
	all := map[string]string{}
	err := filepath.WalkDir(h.Dir(), func(path string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() || d.Name() == lockFile {
			return err
		}
		data, err := os.ReadFile(path)
		all[path] = string(data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// TestFullDisk: on a disk with no room a save says so, and every file is as it was, the
// .bak too; nothing is left lying about. With room again it goes through.
func TestFullDisk(t *testing.T) {
	for name, save := range saves(t) {
		t.Run(name, func(t *testing.T) {
			disk := smallDisk(t, 256)
			h := OpenHome(filepath.Join(disk, "home"))
			defer h.Close()
			var v Version
			var err error
			for n := 1; n <= 2; n++ {
				if v, err = save(h, n, v); err != nil {
					t.Fatal(err)
				}
			}
			before := contents(t, h)
			filler := fill(t, disk, 0)
			_, err = save(h, 3, v)
			refusedWith(t, err, syscall.ENOSPC, "no space left on device")
			for path, text := range contents(t, h) {
				if before[path] != text {
					t.Errorf("%s is not as it was:\n%s", path, text)
				}
			}
			if got := len(contents(t, h)); got != len(before) {
				t.Errorf("%d files, and %d before", got, len(before))
			}
			if err := os.Remove(filler); err != nil {
				t.Fatal(err)
			}
			if _, err = save(h, 3, v); err != nil {
				t.Errorf("with room again: %v", err)
			}
		})
	}
}

// refusedWith fails unless err has a cause, its words, and says of what file.
func refusedWith(t *testing.T, err, cause error, words string) {
	t.Helper()
	var e *Error
	if !errors.Is(err, cause) || !errors.As(err, &e) || !strings.HasSuffix(err.Error(), words) || e.File == "" {
		t.Errorf("got %v, want it to say %q and of what", err, words)
	}
}

// TestDiskThatFillsUp: wherever in a set the disk fills up, once there is room and the
// home is mended all files say the same.
func TestDiskThatFillsUp(t *testing.T) {
	disk := smallDisk(t, 256)
	failed := 0
	for free := int64(0); free <= 15; free++ {
		h := OpenHome(filepath.Join(disk, fmt.Sprint("home", free)))
		v, err := h.SaveTogether(generation(t, 1, Absent, Absent, Absent)...)
		if err != nil {
			t.Fatal(err)
		}
		filler := fill(t, disk, free*4096) // tmpfs has pages of 4 KiB
		_, err = h.SaveTogether(generation(t, 2, v[0], v[1], v[2])...)
		if err != nil {
			failed++
		}
		if got := generations(t, h); err != nil && got != [3]int{1, 1, 1} {
			t.Errorf("with %d pages free: %v, and at once the files say %v", free, err, got)
		}
		if err := os.Remove(filler); err != nil {
			t.Fatal(err)
		}
		if mended, err := h.Mend(); err != nil || !mended.None() {
			t.Fatalf("the next start says %v, %v: what was refused is done all the same", mended, err)
		}
		got := generations(t, h)
		if got != [3]int{1, 1, 1} && got != [3]int{2, 2, 2} || err == nil && got[0] != 2 {
			t.Errorf("with %d pages free: %v, then the files say %v", free, err, got)
		}
		h.Close()
		if err := os.RemoveAll(h.Dir()); err != nil {
			t.Fatal(err)
		}
	}
	if failed < 3 || failed > 14 {
		t.Errorf("%d of 16 saves failed: the disk does not fill up within a set", failed)
	}
}

// TestReadOnlyDisk: reading works as ever, a save says why it does not.
func TestReadOnlyDisk(t *testing.T) {
	for name, save := range saves(t) {
		t.Run(name, func(t *testing.T) {
			disk := smallDisk(t, 256)
			dir := filepath.Join(disk, "home")
			h := OpenHome(dir)
			v, err := save(h, 1, Absent)
			if err != nil {
				t.Fatal(err)
			}
			before := contents(t, h)
			if err := h.Close(); err != nil {
				t.Fatal(err)
			}
			if err := syscall.Mount("", disk, "", syscall.MS_REMOUNT|syscall.MS_RDONLY, ""); err != nil {
				t.Skipf("skipped: the disk cannot be made read-only: %v", err)
			}
			h = OpenHome(dir)
			defer h.Close()
			if _, _, err := h.Rack(nil); err != nil {
				t.Errorf("reading: %v", err)
			}
			if _, err := h.Patterns(nil); err != nil {
				t.Errorf("reading: %v", err)
			}
			if _, err := h.Mend(); err != nil {
				t.Errorf("at the start: %v", err)
			}
			_, err = save(h, 2, v)
			refusedWith(t, err, syscall.EROFS, "read-only file system")
			if got := contents(t, h); len(got) != len(before) {
				t.Errorf("%d files, and %d before", len(got), len(before))
			}
		})
	}
}
