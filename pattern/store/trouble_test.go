package store

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"example.com/oddments/pattern/rack"
)

// saves lists every way to save to a home, each over a version; the version of a set is
// that of its first file.
func saves(t *testing.T) map[string]func(h *Home, n int, base Version) (Version, error) {
	t.Helper()
	return map[string]func(h *Home, n int, base Version) (Version, error){
		"pattern": func(h *Home, n int, base Version) (Version, error) {
			return h.SavePattern("board", tray("Board", n), base)
		},
		"rack": func(h *Home, n int, base Version) (Version, error) {
			return h.SaveRack(rack.Rack{Strips: []rack.Strip{{ID: "P", Species: "pear", Width: 9 * mm, Thickness: 20 * mm, Length: 300 * mm, Quantity: n}}}, base)
		},
		"recovery copy": func(h *Home, n int, base Version) (Version, error) {
			return base, h.SaveRecovery("board", tray("Board", n), tray("", n).Strips, Absent)
		},
		"set": func(h *Home, n int, base Version) (Version, error) {
			_, one, _ := readHomeFile(h.patternPath("one"))
			_, two, _ := readHomeFile(h.patternPath("two"))
			_, r, _ := readHomeFile(h.path(rackFile))
			v, err := h.SaveTogether(generation(t, n, r, one, two)...)
			return append(v, base)[0], err
		},
	}
}

// TestFolderThatVanishes: a home that somebody takes away while it is used is made again
// by the next save, with what there is to save; nothing else is touched.
func TestFolderThatVanishes(t *testing.T) {
	h := newHome(t)
	v := mustSave(t, h, "tray", tray("Tray", 3), Absent)
	for _, gone := range []string{h.path(patternsFolder), h.Dir(), filepath.Dir(h.Dir())} {
		if err := os.RemoveAll(gone); err != nil {
			t.Fatal(err)
		}
		if _, err := h.Patterns(nil); err != nil {
			t.Errorf("%s is gone, and reading says %v", gone, err)
		}
		if _, err := h.Mend(); err != nil {
			t.Errorf("%s is gone, and the start says %v", gone, err)
		}
		v = mustSave(t, h, "tray", tray("Tray", 4), v)
		if err := h.SaveRecovery("tray", tray("Tray", 5), nil, v); err != nil {
			t.Error(err)
		}
		got, err := h.Pattern("tray", nil)
		if err != nil {
			t.Fatal(err)
		}
		same(t, got.Pattern, tray("Tray", 4))
	}
	set := generation(t, 1, Absent, Absent, Absent)
	if err := os.RemoveAll(h.Dir()); err != nil {
		t.Fatal(err)
	}
	if _, err := h.SaveTogether(set...); err != nil {
		t.Errorf("a set into a folder that is gone: %v", err)
	}
}

// TestFileThatBecomesAFolder: what stands in a file's place is named and left alone.
func TestFileThatBecomesAFolder(t *testing.T) {
	for _, c := range []struct{ file, save, words string }{
		{rackFile, "rack", "is a folder, and must be a file"},
		{"patterns/board.toml", "pattern", "is a folder, and must be a file"},
		{"patterns/board.toml.bak", "pattern", "keep the file before it as .bak: is a folder, and must be a file"},
		{"recovery/board.toml", "recovery copy", "is a folder, and must be a file"},
		{"recovery/board.tray.toml", "recovery copy", "is a folder, and must be a file"},
		{togetherFile, "set", "is a folder, and must be a file"},
		{"patterns/two.toml", "set", "is a folder, and must be a file"},
	} {
		h := newHome(t)
		save := saves(t)[c.save]
		var v Version
		for n := 1; n <= 2; n++ {
			var err error
			if v, err = save(h, n, v); err != nil {
				t.Fatal(err)
			}
		}
		path := h.path(c.file)
		if err := os.RemoveAll(path); err != nil {
			t.Fatal(err)
		}
		write(t, filepath.Join(path, "inside"), "of somebody")
		_, err := save(h, 3, v)
		if err == nil || !strings.Contains(err.Error(), strings.TrimSuffix(path, ".bak")) || !strings.Contains(err.Error(), c.words) {
			t.Errorf("%s: got %v, want it to name the file and say %q", c.file, err, c.words)
		}
		if read(t, filepath.Join(path, "inside")) != "of somebody" {
			t.Errorf("%s was touched", c.file)
		}
		if err := h.Close(); err != nil {
			t.Fatal(err)
		}
	}
	for _, folder := range []string{patternsFolder, recoveryFolder} {
		h := newHome(t)
		write(t, h.path(folder), "a file")
		_, err := saves(t)[map[string]string{patternsFolder: "pattern", recoveryFolder: "recovery copy"}[folder]](h, 1, Absent)
		if err == nil || !strings.Contains(err.Error(), h.path(folder)) {
			t.Errorf("%s is a file: %v", folder, err)
		}
		if read(t, h.path(folder)) != "a file" {
			t.Errorf("%s was touched", folder)
		}
	}
}

// TestClockThatGoesBack: what was kept later by the clock, or at its very beginning, is
// offered and taken away all the same, and saves go by what files hold.
func TestClockThatGoesBack(t *testing.T) {
	h := newHome(t)
	v := mustSave(t, h, "tray", tray("Tray", 3), Absent)
	if err := h.SaveRecovery("tray", tray("Tray", 4), nil, v); err != nil {
		t.Fatal(err)
	}
	copyFile, _ := h.recoveryPaths("tray")
	for _, at := range []time.Time{time.Unix(0, 0), time.Now().AddDate(10, 0, 0)} { // where a clock of 32 bits still goes
		for _, file := range []string{copyFile, h.patternPath("tray"), h.path(lockFile)} {
			if err := os.Chtimes(file, at, at); err != nil {
				t.Fatal(err)
			}
		}
		kept, err := h.Recoveries(nil)
		if err != nil || len(kept) != 1 || kept[0].Err != nil || !kept[0].At.Equal(at.Truncate(time.Microsecond)) && kept[0].At.Unix() != at.Unix() {
			t.Fatalf("kept %v, %v", kept, err)
		}
		v = mustSave(t, h, "tray", tray("Tray", 5+at.Year()%2), v)
		if err := h.SaveRecovery("tray", tray("Tray", 7), nil, v); err != nil {
			t.Error(err)
		}
	}
	if err := h.DropRecovery("tray"); err != nil {
		t.Error(err)
	}
}
