package tui

import (
	"errors"
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"example.com/oddments/pattern/store"
)

// The same of a file outside the home, on a disk that is full.
func TestFailedSaveOnAFullDisk(t *testing.T) {
	disk := t.TempDir()
	if err := syscall.Mount("tmpfs", disk, "tmpfs", 0, "size=64k"); err != nil {
		t.Skipf("skipped: no disk can be mounted here: %v", err)
	}
	t.Cleanup(func() {
		if err := syscall.Unmount(disk, syscall.MNT_DETACH); err != nil {
			t.Error(err)
		}
	})
	d, home := ownHome(t)
	d.app.doc.File = filepath.Join(disk, "gift.toml")
	d.app.doc.Base = store.Absent
	d.keys("+ S").shows("saved as " + d.app.doc.File).keys("+").aSecond()
	filler := make([]byte, 4096)
	for i := range 64 { // till nothing fits any more
		if err := os.WriteFile(filepath.Join(disk, "filler"+string(rune('0'+i))), filler, 0o644); err != nil {
			if !errors.Is(err, syscall.ENOSPC) {
				t.Fatal(err)
			}
			break
		}
	}
	d.keys("S").aSecond().shows("Rookery square *", "no space left")
	if got := copies(t, home); len(got) != 1 {
		t.Errorf("kept after the failed save: %v", got)
	}
	d.keys("q")
	if got := copies(t, home); !d.quit || len(got) != 1 {
		t.Errorf("quit %v, kept %v", d.quit, got)
	}
}
