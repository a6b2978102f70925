package store

import (
	"errors"
	"io/fs"
	"os"
	"slices"
	"strings"
	"testing"

	"example.com/oddments/pattern"
)

// SaveRecovery keeps unsaved work as Keep does, in the copy that goes by the stem.
func (h *Home) SaveRecovery(stem string, p pattern.Pattern, tray []pattern.Strip, base Version) error {
	_, err := h.Keep(Recovery{Copy: stem, Stem: stem, Pattern: p, Tray: tray, Base: base})
	return err
}

func TestStems(t *testing.T) {
	for name, want := range map[string]string{
		"Rookery square": "rookery-square", "  A  b ": "a-b", "Ærøskøbing Børd": "aeroskobing-bord", "Grüße!": "grusse", "St. John's": "st-johns",
		"": "pattern", "日本": "pattern", "---": "pattern", "../../etc/passwd": "etc-passwd", "con": "pattern-con", "LPT1": "pattern-lpt1",
		"-h": "h", "Board 2": "board-2", strings.Repeat("long name ", 20): "long-name-long-name-long-name-long-name-long-name-long-name",
	} {
		got := Stem(name)
		if got != want {
			t.Errorf("stem of %q is %q, want %q", name, got, want)
		}
		if err := CheckStem(got); err != nil {
			t.Error(err)
		}
	}
	taken := []string{"tray", "tray-2", strings.Repeat("x", longestStem-1)}
	for name, want := range map[string]string{"Tray": "tray-3", "Dish": "dish", strings.Repeat("x", 80): strings.Repeat("x", longestStem-2) + "-2"} {
		if got := freeStem(name, func(s string) bool { return slices.Contains(taken, s) }); got != want {
			t.Errorf("free stem of %.10q is %q, want %q", name, got, want)
		}
	}
	h := newHome(t)
	write(t, h.path("patterns/Tray.toml"), "x")
	if got, err := h.FreeStem("tray"); err != nil || got != "tray-2" {
		t.Errorf("beside Tray.toml: %q, %v", got, err)
	}
}

func FuzzStem(f *testing.F) {
	f.Add("Rookery square")
	f.Add("\xff../CON")
	f.Fuzz(func(t *testing.T, name string) {
		if err := CheckStem(Stem(name)); err != nil {
			t.Error(err)
		}
		n := 0
		if err := CheckStem(freeStem(name, func(string) bool { n++; return n < 12 })); err != nil {
			t.Error(err)
		}
	})
}

func TestRecovery(t *testing.T) {
	h := newHome(t)
	saved := mustSave(t, h, "tray", tray("Tray", 3), Absent)
	before := read(t, h.patternPath("tray"))
	aside := []pattern.Strip{{Species: "hornbeam", Width: 7 * mm}}
	if err := h.SaveRecovery("tray", tray("Tray", 5), aside, saved); err != nil {
		t.Fatal(err)
	}
	if err := h.SaveRecovery(Untitled, tray("New", 1), nil, Absent); err != nil {
		t.Fatal(err)
	}
	all, err := h.Recoveries(knownForTest)
	if err != nil || len(all) != 2 {
		t.Fatalf("%v, %v", all, err)
	}
	got := all[0]
	same(t, got.Pattern, tray("Tray", 5))
	same(t, got.Tray, aside)
	if got.Stem != "tray" || got.Base != saved || got.At.IsZero() || got.Err != nil || !strings.HasPrefix(got.String(), "tray, ") {
		t.Errorf("got %+v", got)
	}
	if all[1].Stem != Untitled || all[1].Base != Absent || len(all[1].Tray) != 0 {
		t.Errorf("got %+v", all[1])
	}
	if read(t, h.patternPath("tray")) != before {
		t.Error("the saved pattern was touched")
	}
	file, trayFile := h.recoveryPaths("tray")
	info, _ := os.Stat(file)
	if err := h.SaveRecovery("tray", tray("Tray", 5), nil, saved); err != nil {
		t.Fatal(err)
	}
	if again, _ := os.Stat(file); !os.SameFile(info, again) {
		t.Error("nothing changed and it was written anew")
	}
	if _, err := os.Stat(trayFile); !errors.Is(err, fs.ErrNotExist) {
		t.Error("the tray is empty and its file is still there")
	}
	write(t, file, "broken")
	if all, err = h.Recoveries(nil); err != nil || len(all) != 2 || all[0].Err == nil {
		t.Errorf("%v, %v", all, err)
	}
	for _, stem := range []string{"tray", Untitled, "none"} {
		if err := h.DropRecovery(stem); err != nil {
			t.Error(err)
		}
	}
	if all, err = h.Recoveries(nil); err != nil || len(all) != 0 {
		t.Errorf("%v, %v", all, err)
	}
}

// Work that has no copy yet never takes the place of another's copy, and both say whose
// they are.
func TestRecoveryCopiesAreApart(t *testing.T) {
	h := newHome(t)
	copies := map[string]int{}
	for n := 1; n <= 3; n++ {
		name, err := h.Keep(Recovery{Stem: Untitled, Pattern: tray("New", n)})
		if err != nil {
			t.Fatal(err)
		}
		copies[name] = n
	}
	name, err := h.Keep(Recovery{Stem: "untitled-2", Pattern: tray("Saved", 4), Base: "v"})
	if err != nil {
		t.Fatal(err)
	}
	copies[name] = 4
	if again, err := h.Keep(Recovery{Copy: name, Stem: "untitled-2", Pattern: tray("Saved", 5), Base: "v"}); err != nil || again != name {
		t.Errorf("kept again as %q, %v", again, err)
	}
	copies[name] = 5
	all, err := h.Recoveries(nil)
	if err != nil || len(all) != 4 || len(copies) != 4 {
		t.Fatalf("%v, %v of %v", all, err, copies)
	}
	for _, r := range all {
		want := Untitled
		if copies[r.Copy] == 5 {
			want = "untitled-2"
		}
		if len(r.Pattern.Strips) != copies[r.Copy] || r.Stem != want || r.Err != nil {
			t.Errorf("%s: %d strips of %s, %v", r.Copy, len(r.Pattern.Strips), r.Stem, r.Err)
		}
		if err := h.DropRecovery(r.Copy); err != nil {
			t.Error(err)
		}
	}
	if all, err = h.Recoveries(nil); err != nil || len(all) != 0 {
		t.Errorf("%v, %v", all, err)
	}
}

// Beside the writer of the home work is kept in copies of its own, also where it has one
// that may be the other's by now; the other's stays as it is.
func TestKeepBesideTheWriter(t *testing.T) {
	writer := newHome(t)
	if err := writer.SaveRecovery("tray", tray("Theirs", 2), nil, Absent); err != nil {
		t.Fatal(err)
	}
	theirs := read(t, writer.path("recovery/tray.toml"))
	h := OpenHome(writer.Dir())
	ours := Recovery{Stem: "tray", Pattern: tray("Ours", 3), Tray: tray("Ours", 1).Strips, Base: "v"}
	if _, err := h.Keep(ours); !errors.Is(err, ErrBusy) {
		t.Fatalf("beside the writer: %v", err)
	}
	for _, had := range []string{"", "tray"} {
		ours.Copy = had
		name, err := h.KeepBeside(ours)
		if err != nil || name == "tray" {
			t.Errorf("having %q: kept as %q, %v", had, name, err)
		}
		ours.Pattern.Strips = append(ours.Pattern.Strips, ours.Pattern.Strips[0])
	}
	if read(t, writer.path("recovery/tray.toml")) != theirs {
		t.Error("the writer's copy was written over")
	}
	all, err := writer.Recoveries(nil)
	if err != nil || len(all) != 3 {
		t.Fatalf("%v, %v", all, err)
	}
	for i, r := range all[1:] {
		if r.Err != nil || r.Stem != "tray" || r.Base != "v" || len(r.Pattern.Strips) != 3+i || len(r.Tray) != 1 {
			t.Errorf("kept %+v", r)
		}
	}
	if name, err := writer.Keep(Recovery{Stem: "tray", Pattern: tray("Theirs", 1)}); err != nil || name != "tray-4" {
		t.Errorf("the writer's next is %q, %v", name, err)
	}
	ours.Stem = "../tray"
	if _, err := h.KeepBeside(ours); !errors.Is(err, ErrStem) {
		t.Errorf("out of the folder: %v", err)
	}
}

// A copy that was written, and failed then, is the work's: tried again it takes no other
// name.
func TestKeepThatFailsLate(t *testing.T) {
	h := newHome(t)
	fails := true
	h.disk.watch = func(name, path string, do func() error) error {
		if fails && name == "sync folder" && strings.HasSuffix(path, recoveryFolder) {
			return errors.Join(do(), errors.New("input/output error"))
		}
		return do()
	}
	r := Recovery{Stem: Untitled, Pattern: tray("New", 2)}
	var err error
	if r.Copy, err = h.Keep(r); err == nil || r.Copy != Untitled {
		t.Fatalf("kept as %q, %v", r.Copy, err)
	}
	fails = false
	if r.Copy, err = h.Keep(r); err != nil || r.Copy != Untitled {
		t.Errorf("kept again as %q, %v", r.Copy, err)
	}
	h.disk.watch = func(name, path string, do func() error) error {
		if name == "write" {
			return errors.New("no space left on device")
		}
		return do()
	}
	if name, err := h.Keep(Recovery{Stem: "other", Pattern: tray("Other", 2)}); err == nil || name != "" {
		t.Errorf("what is not there goes by %q, %v", name, err)
	}
}
