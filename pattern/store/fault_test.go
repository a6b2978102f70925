package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"example.com/oddments/pattern/rack"
)

// nightly says that tests may take long.
const nightly = "ODDMENTS_NIGHTLY"

// A fault is what happens at the Nth call of the file system.
type fault struct {
	name  string
	rare  bool                   // in the short run every fourth call is enough
	kill  bool                   // the work ends there, as if the process were killed
	after bool                   // the call is made all the same
	until func(call string) bool // and at which of the calls after it; nil: at none
}

func faults() []fault {
	takesRoom := func(call string) bool {
		return call == "create" || call == "write" || call == "sync" || call == "sync folder" || call == "make folder"
	}
	return []fault{
		{name: "an error"},
		{name: "an error though it is done", rare: true, after: true},
		{name: "a kill", kill: true},
		{name: "a disk that is full from then on", rare: true, until: takesRoom},
		{name: "a disk that is gone from then on", rare: true, until: func(string) bool { return true }},
	}
}

// errKilled ends the work at a call, and at every call that is made while it ends.
var errKilled = errors.New("killed")

// at returns a disk on which the fault happens at call n, and a report of the call; empty
// where there were fewer.
func (f fault) at(n int) (disk, func() string) {
	made, hit := 0, ""
	return disk{patience: time.Nanosecond, watch: func(name, path string, do func() error) error {
		made++
		do = unsynced(name, do)
		again := hit != "" && (f.kill || f.until != nil && f.until(name))
		first := hit == "" && made >= n && (f.until == nil || f.until(name))
		if !first && !again {
			return do()
		}
		if first {
			hit = name + " " + filepath.Base(path)
		}
		var err error
		if first && f.after && name != "lock" { // which this process would go on holding
			err = do()
		}
		if f.kill {
			panic(errKilled)
		}
		return errors.Join(err, &fs.PathError{Op: name, Path: path, Err: syscall.EIO})
	}}, func() string { return hit }
}

// unsynced leaves out what only a power cut could tell of, since it takes long.
func unsynced(name string, do func() error) func() error {
	if strings.HasPrefix(name, "sync") {
		return func() error { return nil }
	}
	return do
}

// A change of files that is to be whole or not at all.
type wholeChange struct {
	name   string
	before map[string]string // what lies in the home at the beginning
	after  map[string]string // what changes
	do     func(d disk, dir string) error
}

func text(t *testing.T, c Change) string {
	t.Helper()
	return string(c.Data)
}

func wholeChanges(t *testing.T) []wholeChange {
	t.Helper()
	older, now, next := generation(t, 1, Absent, Absent, Absent), generation(t, 2, Absent, Absent, Absent), generation(t, 3, Absent, Absent, Absent)
	all := map[string]string{}
	after := map[string]string{}
	for i, c := range now {
		next[i].Base = versionOf(c.Data)
		all[c.Name], all[c.Name+".bak"], after[c.Name] = text(t, c), text(t, older[i]), text(t, next[i])
	}
	home := func(d disk, dir string) *Home { h := OpenHome(dir); h.disk = d; return h }
	board, wider := string(must(patternBytes("board.toml", tray("Board", 2)))(t)), string(must(patternBytes("board.toml", tray("Board", 3)))(t))
	pile := rack.Rack{Pieces: []rack.Piece{{ID: "A9", Species: "pear", Length: 500 * mm, Width: 90 * mm, Thickness: 30 * mm, Quantity: 9}}}
	imported := text(t, must(RackChange(pile, Absent))(t))
	return []wholeChange{
		{"booking", all, after, func(d disk, dir string) error {
			h := home(d, dir)
			defer h.Close()
			_, err := h.SaveTogether(next...)
			return err
		}},
		{"booking of files that are not there yet", nil, after, func(d disk, dir string) error {
			h := home(d, dir)
			defer h.Close()
			_, err := h.SaveTogether(generation(t, 3, Absent, Absent, Absent)...)
			return err
		}},
		{"save", map[string]string{"patterns/board.toml": board, "patterns/board.toml.bak": text(t, older[1])}, map[string]string{"patterns/board.toml": wider},
			func(d disk, dir string) error {
				h := home(d, dir)
				defer h.Close()
				_, err := h.SavePattern("board", tray("Board", 3), versionOf([]byte(board)))
				return err
			}},
		{"first save", nil, map[string]string{"patterns/board.toml": wider}, func(d disk, dir string) error {
			h := home(d, dir)
			defer h.Close()
			_, err := h.SavePattern("board", tray("Board", 3), Absent)
			return err
		}},
		{"import", map[string]string{"rack.toml": all["rack.toml"]}, map[string]string{"rack.toml": imported}, func(d disk, dir string) error {
			h := home(d, dir)
			defer h.Close()
			_, err := h.SaveRack(pile, next[0].Base)
			return err
		}},
		{"picture", map[string]string{"x.svg": "old", "x.svg.bak": "older"}, map[string]string{"x.svg": "new"}, func(d disk, dir string) error {
			_, err := d.export(filepath.Join(dir, "x.svg"), []byte("new"))
			return err
		}},
		{"table", map[string]string{"x.toml": "of another"}, map[string]string{"x.csv": "new"}, func(d disk, dir string) error {
			return d.saveNew(filepath.Join(dir, "x.csv"), []byte("new"))
		}},
	}
}

// must fails a test on an error.
func must[T any](v T, err error) func(*testing.T) T {
	return func(t *testing.T) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

// TestEveryFault has a call of the file system fail, or the work end at it: each call of
// each change, one by one. All files change together or none does, what was said is so,
// everything can be read, .bak is the file before, and the next change goes through.
func TestEveryFault(t *testing.T) {
	long := os.Getenv(nightly) != ""
	if !long {
		t.Logf("of the rarer faults each fourth; all of them with %s=1", nightly)
	}
	for _, c := range wholeChanges(t) {
		for _, f := range faults() {
			t.Run(c.name+", "+f.name, func(t *testing.T) {
				t.Parallel()
				step := 1
				if (f.rare || c.before == nil) && !long {
					step = 4
				}
				for n := 1; ; n += step {
					call, ok := c.faulty(t, f, n)
					if call == "" {
						if n < 10 || c.name == "booking" && f.until == nil && n < 50 {
							t.Errorf("only %d calls were made", n-1)
						}
						t.Logf("%d calls", n-1)
						return
					}
					if !ok {
						t.Errorf("at call %d, %s", n, call)
					}
				}
			})
		}
	}
}

// faulty makes a change with a fault at call n and reports the call, and whether all is
// well.
func (c wholeChange) faulty(t *testing.T, f fault, n int) (call string, ok bool) {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "home")
	for name, data := range c.before {
		write(t, filepath.Join(dir, filepath.FromSlash(name)), data)
	}
	d, at := f.at(n)
	err, killed := c.untilKilled(d, dir)
	ok = true
	bad := func(format string, args ...any) {
		t.Helper()
		ok = false
		t.Errorf("%s (said: %v, killed: %v)", fmt.Sprintf(format, args...), err, killed)
	}
	if at() == "" && err != nil {
		bad("without a fault")
	}
	begun, unsure := errors.Is(err, ErrBegun), errors.Is(err, ErrUnsure)
	if !killed && !begun && !unsure {
		if got, want := c.holds(t, dir), err == nil; got != word(want) {
			bad("at once the files are %s", got)
		}
	}
	if err != nil && f.until == nil && unsure {
		bad("one fault leaves it unsure what came of it")
	}
	well := disk{watch: func(name, _ string, do func() error) error { return unsynced(name, do)() }}
	next := OpenHome(dir)
	next.disk = well
	defer next.Close()
	mended, mendErr := next.Mend()
	if mendErr != nil {
		bad("the next start says %v", mendErr)
	}
	if mended.wrote && !killed && !begun {
		bad("the next start says %v", mended)
	}
	got := c.holds(t, dir)
	if !killed && !unsure && got != word(err == nil || begun) || got == "torn" {
		bad("after the next start the files are %s", got)
	}
	c.looksAtBak(t, dir, got, f, bad)
	if left := leftIn(t, dir); len(left) > 0 && !killed && f.until == nil && !strings.HasPrefix(at(), "remove") {
		bad("left lying about: %v", left)
	}
	// The next change in each folder clears up.
	for _, name := range []string{"patterns/later.toml", "later.toml"} {
		if _, err := well.saveOver(filepath.Join(dir, filepath.FromSlash(name)), []byte("x"), Absent); err != nil {
			bad("with the fault gone a save says %v", err)
		}
	}
	if left := leftIn(t, dir); len(left) > 0 {
		bad("after the next save there still lies about: %v", left)
	}
	return at(), ok
}

// untilKilled makes the change, and reports whether it was killed in it.
func (c wholeChange) untilKilled(d disk, dir string) (err error, killed bool) {
	defer func() {
		if r := recover(); r == errKilled {
			killed = true
		} else if r != nil {
			panic(r)
		}
	}()
	return c.do(d, dir), false
}

func word(changed bool) string {
	if changed {
		return "new"
	}
	return "old"
}

// holds says whether all files of the change are old, or new.
func (c wholeChange) holds(t *testing.T, dir string) string {
	t.Helper()
	are := ""
	for name, after := range c.after {
		data, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(name)))
		before, was := c.before[name]
		is := "torn"
		switch {
		case err == nil && string(data) == after:
			is = "new"
		case errors.Is(err, fs.ErrNotExist) && !was, err == nil && was && string(data) == before:
			is = "old"
		}
		if are != "" && is != are {
			return "torn"
		}
		are = is
	}
	return are
}

// looksAtBak holds every .bak to the file before, once the change is made; before that it
// may be the one of old.
func (c wholeChange) looksAtBak(t *testing.T, dir, state string, f fault, bad func(string, ...any)) {
	t.Helper()
	for name := range c.after {
		data, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(name)) + ".bak")
		got := string(data)
		older, had := c.before[name+".bak"]
		now, was := c.before[name]
		isOlder := err == nil && had && got == older || errors.Is(err, fs.ErrNotExist) && !had
		isNow := err == nil && was && got == now
		switch {
		case state == "new" && was && !isNow:
			bad("the .bak of %s is not the file before, but %q", name, got)
		case state == "new" && !was && err == nil:
			bad("%s was not there, and has a .bak", name)
		case state == "old" && !f.kill && f.until == nil && !isOlder && !(f.after && isNow):
			bad("nothing changed, and the .bak of %s is now %q, %v", name, got, err)
		case state == "old" && !isOlder && !isNow && !(f.until != nil && errors.Is(err, fs.ErrNotExist)):
			bad("the .bak of %s is %q, %v", name, got, err)
		}
	}
}

// leftIn lists what saves have left in a home that belongs to nobody.
func leftIn(t *testing.T, dir string) []string {
	t.Helper()
	var all []string
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err == nil && (strings.HasSuffix(path, partEnding) || d.Name() == togetherFile) {
			all = append(all, d.Name())
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}
