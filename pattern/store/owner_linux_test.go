package store

import (
	"os"
	"path/filepath"
	"syscall"
	"testing"
)

// TestRootSavesForTheMaker: what root saves in a maker's home is the maker's, who can go
// on saving there.
func TestRootSavesForTheMaker(t *testing.T) {
	if os.Geteuid() != 0 {
		t.Skip("skipped: only root can give a file away")
	}
	const maker = 12345
	dir := filepath.Join(t.TempDir(), "home")
	if err := os.Mkdir(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.Chown(dir, maker, maker); err != nil {
		t.Skipf("skipped: files cannot be given away here: %v", err)
	}
	h := OpenHome(dir)
	defer h.Close()
	v, err := h.SaveTogether(generation(t, 1, Absent, Absent, Absent)...)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := h.SaveTogether(generation(t, 2, v[0], v[1], v[2])...); err != nil {
		t.Fatal(err)
	}
	if err := h.SaveRecovery("one", tray("One", 2), nil, v[1]); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"rack.toml", "rack.toml.bak", ".lock", "patterns", "patterns/one.toml", "patterns/one.toml.bak", "recovery", "recovery/one.toml"} {
		info, err := os.Stat(h.path(name))
		if err != nil {
			t.Fatal(err)
		}
		if of, ok := info.Sys().(*syscall.Stat_t); !ok || of.Uid != maker || of.Gid != maker {
			t.Errorf("%s is not the maker's but %v's", name, of.Uid)
		}
	}
}

// TestLockThatIsAPipe: to open it would wait for ever.
func TestLockThatIsAPipe(t *testing.T) {
	h := newHome(t)
	if err := os.MkdirAll(h.Dir(), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := syscall.Mkfifo(h.path(lockFile), 0o644); err != nil {
		t.Skipf("skipped: no pipe can be made here: %v", err)
	}
	if err := h.Hold(); err == nil {
		t.Error("a pipe is taken for a lock")
	}
	if _, err := h.SavePattern("tray", tray("Tray", 2), Absent); err == nil {
		t.Error("saved with a pipe for a lock")
	}
}
