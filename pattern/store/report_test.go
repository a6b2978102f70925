package store_test

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"example.com/oddments/pattern/store"
)

// Reports of one second take no other's place, need no lock, and are no work to bring back.
func TestReports(t *testing.T) {
	home := store.OpenHome(filepath.Join(t.TempDir(), "home"))
	other := store.OpenHome(home.Dir())
	at := time.Date(2026, 11, 29, 9, 15, 0, 0, time.UTC)
	var files []string
	for _, text := range []string{"one", "two"} {
		file, err := home.SaveReport(at, text)
		if err != nil {
			t.Fatal(err)
		}
		if got, err := os.ReadFile(file); err != nil || string(got) != text {
			t.Errorf("%s holds %q, %v", file, got, err)
		}
		files = append(files, filepath.Base(file))
		if err := other.Hold(); err != nil { // the second is written beside another oddments
			t.Fatal(err)
		}
	}
	if files[0] != "fault-20261129-091500.txt" || files[1] != "fault-20261129-091500-2.txt" {
		t.Errorf("the files are called %v", files)
	}
	if kept, err := home.Recoveries(nil); err != nil || len(kept) != 0 {
		t.Errorf("kept %v, %v", kept, err)
	}
	if err := other.Close(); err != nil {
		t.Fatal(err)
	}
	if got, want := home.RecoveryFile("larch"), filepath.Join(home.Dir(), "recovery", "larch.toml"); got != want {
		t.Errorf("the copy is %s, want %s", got, want)
	}
}
