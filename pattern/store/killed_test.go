package store

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/rack"
)

// The kinds of work that a process is killed in the midst of. Each writes its number,
// which goes up by one, so that the files tell what was done last.
const (
	bookWork   = "book"   // a rack and two patterns together
	saveWork   = "save"   // one pattern
	keepWork   = "keep"   // a recovery copy with its tray
	importWork = "import" // a rack out of CSV
)

func killedWorks() []string { return []string{bookWork, saveWork, keepWork, importWork} }

const killedHome = "ODDMENTS_TEST_KILLED_HOME"

// TestKilled has a process work on a home until it is killed at a random moment, two
// hundred times, by night a thousand. Then every file is whole, what is saved together agrees, and nothing
// that was reported as done is undone.
func TestKilled(t *testing.T) {
	if dir := os.Getenv(killedHome); dir != "" {
		var seed uint64
		if _, err := fmt.Sscan(os.Getenv(killedHome+"_SEED"), &seed); err != nil {
			t.Fatal(err)
		}
		workForEver(t, dir, seed)
	}
	rounds := 50
	switch {
	case os.Getenv(nightly) != "":
		rounds = 250
	case testing.Short():
		rounds = 15
	}
	t.Logf("killed %d times; 1000 times with %s=1", 4*rounds, nightly)
	for home := range uint64(4) { // side by side: most of it is waiting for the disk
		t.Run(fmt.Sprint("home ", home), func(t *testing.T) {
			t.Parallel()
			killOften(t, rounds, home)
		})
	}
}

func killOften(t *testing.T, rounds int, home uint64) {
	rng := rand.New(rand.NewPCG(11, home))
	dir := filepath.Join(t.TempDir(), "home")
	first := OpenHome(dir)
	if _, err := first.SaveTogether(generation(t, 1, Absent, Absent, Absent)...); err != nil {
		t.Fatal(err)
	}
	if err := first.Close(); err != nil {
		t.Fatal(err)
	}
	done := map[string]int{bookWork: 1} // the last of each kind that is known to be done
	// Rounds that were killed within a save. Within a set there are few: it is prepared
	// before, and TestEveryFault goes through it call by call.
	within := 0
	for round := range rounds {
		killOnce(t, dir, home<<32+uint64(round), time.Duration(rng.IntN(9_000))*time.Microsecond, done)
		if len(leftIn(t, dir)) > 0 {
			within++
		}
		wholeAfter(t, dir, done)
		if t.Failed() {
			t.Fatalf("in round %d", round)
		}
	}
	for _, kind := range killedWorks() {
		if done[kind] < rounds/20 {
			t.Errorf("in %d rounds %q was done %d times only", rounds, kind, done[kind])
		}
	}
	if within < rounds/50 {
		t.Errorf("only %d of %d rounds were killed within a save: the moments are not spread", within, rounds)
	}
	t.Logf("killed %d times, %d of them within a save; done %v", rounds, within, done)
}

// killOnce has a process work and kills it some time after its first piece of work.
// What it reported as done goes into done.
func killOnce(t *testing.T, dir string, seed uint64, after time.Duration, done map[string]int) {
	t.Helper()
	cmd := exec.Command(os.Args[0], "-test.run=^TestKilled$")
	cmd.Env = append(os.Environ(), killedHome+"="+dir, fmt.Sprintf("%s_SEED=%d", killedHome, seed))
	cmd.Stderr = os.Stderr
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	lines := bufio.NewReader(out)
	report := func() error {
		line, err := lines.ReadString('\n')
		if err != nil {
			return err
		}
		var kind string
		var n int
		if _, err := fmt.Sscan(line, &kind, &n); err != nil {
			t.Fatalf("the process says %q", line)
		}
		done[kind] = n
		return nil
	}
	if err := report(); err != nil {
		t.Fatalf("the process ended by itself: %v", err)
	}
	time.Sleep(after)
	if err := cmd.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	for err == nil { // what it said before it was killed
		err = report()
	}
	if !errors.Is(err, io.EOF) {
		t.Fatal(err)
	}
	_ = cmd.Wait() // it was killed
}

// works is what a home holds of each kind of work.
func works(t *testing.T, h *Home) (got map[string]int, r rack.Rack) {
	t.Helper()
	got = map[string]int{}
	for i, n := range generations(t, h) {
		if i > 0 && n != got[bookWork] {
			t.Errorf("of a set the files say %v", generations(t, h))
		}
		got[bookWork] = n
	}
	r, _, err := h.Rack(nil)
	if err != nil {
		t.Fatal(err)
	}
	if p, ok := r.Get("I1"); ok {
		got[importWork] = p.Quantity
	}
	saved, err := h.Pattern("board", nil)
	if err == nil {
		got[saveWork] = len(saved.Pattern.Strips)
	} else if !errors.Is(err, ErrNotFound) {
		t.Fatal(err)
	}
	kept, err := h.Recoveries(nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, k := range kept {
		if k.Err != nil {
			t.Fatalf("the recovery copy cannot be read: %v", k.Err)
		}
		n, err := strconv.Atoi(k.Pattern.Name)
		if err != nil {
			t.Fatal(err)
		}
		got[keepWork] = n
		if len(k.Tray)+len(k.Pattern.Strips) == 0 {
			t.Errorf("of work %d the one strip is neither on the panel nor on the tray", got[keepWork])
		}
	}
	return got, r
}

// wholeAfter finishes what was begun, as the next start does, and reads everything.
func wholeAfter(t *testing.T, dir string, done map[string]int) {
	t.Helper()
	h := OpenHome(dir)
	defer h.Close()
	if _, err := h.Mend(); err != nil {
		t.Fatal(err)
	}
	got, _ := works(t, h)
	for _, kind := range killedWorks() {
		if n := done[kind]; got[kind] < n || got[kind] > n+1 {
			t.Errorf("%s: %d was reported as done, and the files hold %d", kind, n, got[kind])
		}
		done[kind] = got[kind]
	}
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(path, ".toml.bak") {
			return err
		}
		f, err := os.Open(path)
		if err != nil {
			return err
		}
		defer f.Close()
		if strings.HasPrefix(filepath.Base(path), "rack") {
			_, err = ReadRack(f, path, nil)
		} else {
			_, err = ReadPattern(f, path, nil)
		}
		return err
	})
	if err != nil {
		t.Errorf("a file before the last is not whole: %v", err)
	}
}

// workForEver does work of each kind in random order and says what is done.
func workForEver(t *testing.T, dir string, seed uint64) {
	rng := rand.New(rand.NewPCG(seed, 13))
	h := OpenHome(dir)
	if _, err := h.Mend(); err != nil {
		t.Fatal(err)
	}
	done, r := works(t, h)
	for {
		kind := killedWorks()[rng.IntN(len(killedWorks()))]
		n := done[kind]%pattern.MaxStrips + 1
		var err error
		if r, err = doWork(t, h, kind, n, r); err != nil {
			t.Fatal(err)
		}
		done[kind] = n
		fmt.Println(kind, n)
	}
}

func doWork(t *testing.T, h *Home, kind string, n int, r rack.Rack) (rack.Rack, error) {
	version := func(path string) Version {
		_, v, err := readHomeFile(path)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	switch kind {
	case bookWork:
		set := generation(t, n, version(h.path(rackFile)), version(h.patternPath("one")), version(h.patternPath("two")))
		booked, err := ReadRack(strings.NewReader(string(set[0].Data)), rackFile, nil)
		if err != nil {
			return r, err
		}
		r = withPiece(r, booked.Pieces[0])
		if set[0], err = RackChange(r, set[0].Base); err != nil {
			return r, err
		}
		_, err = h.SaveTogether(set...)
		return r, err
	case saveWork:
		_, err := h.SavePattern("board", tray("Board", n), version(h.patternPath("board")))
		return r, err
	case keepWork:
		// The strip is laid aside and brought back, turn about.
		work, aside := tray(fmt.Sprint(n), 1), []pattern.Strip(nil)
		if n%2 == 1 {
			work.Strips, aside = aside, work.Strips
		}
		return r, h.SaveRecovery(Untitled, work, aside, Absent)
	default:
		text := fmt.Sprintf("kind,id,species,length,width,thickness,quantity\npiece,I1,pear,620,85,40,%d\n", n)
		imported, err := ReadRackCSV(strings.NewReader(text), "pile.csv", nil)
		if err != nil {
			return r, err
		}
		r = withPiece(r, imported.Pieces[0])
		_, err = h.SaveRack(r, version(h.path(rackFile)))
		return r, err
	}
}

// withPiece returns r with p in the place of the piece of that id, or behind the others.
func withPiece(r rack.Rack, p rack.Piece) rack.Rack {
	next := rack.Rack{Pieces: slices.Clone(r.Pieces)}
	if i := slices.IndexFunc(next.Pieces, func(old rack.Piece) bool { return old.ID == p.ID }); i >= 0 {
		next.Pieces[i] = p
		return next
	}
	next.Pieces = append(next.Pieces, p)
	return next
}
