package store

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"time"

	"github.com/adrg/xdg"
	"github.com/gofrs/flock"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/orders"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/species"
)

// What lies in a home.
const (
	rackFile       = "rack" + tomlEnding
	shopFile       = "shop" + tomlEnding
	speciesFile    = "species" + tomlEnding
	ordersFile     = "orders" + tomlEnding
	patternsFolder = "patterns"
	recoveryFolder = "recovery"
	lockFile       = ".lock"
)

// ResolveHome returns the folder of the maker's files: flag where it is not empty,
// else env, which is what ODDMENTS_HOME says, else oddments in the user's folder for
// data. It is ErrNoHome where the user has none: the system's root is no place for files.
func ResolveHome(flag, env string) (string, error) {
	if named := cmp.Or(flag, env); named != "" {
		return named, nil
	}
	if _, err := os.UserHomeDir(); err != nil && !filepath.IsAbs(os.Getenv("XDG_DATA_HOME")) {
		return "", ErrNoHome
	}
	return filepath.Join(xdg.DataHome, "oddments"), nil
}

// A Home is the folder of the maker's files, which need not exist. It may be used by
// several goroutines. Whoever saved must Close it.
type Home struct {
	dir  string
	disk disk
	mu   sync.Mutex
	lock *flock.Flock // nil until this is the writer
}

// OpenHome returns the home in a folder. It touches nothing.
func OpenHome(dir string) *Home { return &Home{dir: dir} }

// Dir returns the folder.
func (h *Home) Dir() string { return h.dir }

// A Saved is a pattern with the file it came from.
type Saved struct {
	Stem    string
	File    string
	Pattern pattern.Pattern
	Version Version
}

// A reads reads a file of the given name.
type reads[T any] = func(r io.Reader, name string) (T, error)

// knowing returns what reads files whose timbers must be known.
func knowing[T any](known *species.Table, read func(io.Reader, string, *species.Table) (T, error)) reads[T] {
	return func(r io.Reader, name string) (T, error) { return read(r, name, known) }
}

// readOr reads a file of the home; where there is none it returns other.
func readOr[T any](path string, other T, read reads[T]) (T, Version, error) {
	data, version, err := readHomeFile(path)
	if err != nil || version == Absent {
		return other, version, err
	}
	v, err := read(bytes.NewReader(data), path)
	return v, version, err
}

// readGiven reads a file that the maker named.
func readGiven[T any](path string, read reads[T]) (v T, version Version, err error) {
	data, version, err := readGivenFile(path)
	if err != nil {
		return v, version, err
	}
	v, err = read(bytes.NewReader(data), path)
	return v, version, err
}

// Shop reads the workshop; where there is no file, the default one.
func (h *Home) Shop() (shop.Shop, Version, error) {
	return readOr(h.path(shopFile), shop.Default(), ReadShop)
}

// ShopFile reads the workshop with its text; where there is no file, the zero value.
func (h *Home) ShopFile() (ShopFile, Version, error) {
	return readOr(h.path(shopFile), ShopFile{}, ReadShopFile)
}

// Timbers reads the maker's own timbers; where there is no file, none.
func (h *Home) Timbers() ([]species.Species, Version, error) {
	return readOr(h.path(speciesFile), nil, ReadSpecies)
}

// Species returns the built-in timbers with the maker's own over them.
func (h *Home) Species() (*species.Table, error) {
	own, _, err := h.Timbers()
	if err != nil {
		return nil, err
	}
	table, err := species.Builtin().With(own)
	if err != nil {
		return nil, &Error{File: h.path(speciesFile), Doing: "read", Err: err}
	}
	return table, nil
}

// Rack reads the rack; where there is no file, an empty one. A species that known
// has not is refused; a nil known lets all pass.
func (h *Home) Rack(known *species.Table) (rack.Rack, Version, error) {
	return readOr(h.path(rackFile), rack.Rack{}, knowing(known, ReadRack))
}

// Orders reads what the maker would sell; where there is no file, nothing.
func (h *Home) Orders(against Against) ([]orders.Want, Version, error) {
	return readOr(h.path(ordersFile), nil, against.read)
}

// RackFile returns where the home's rack lies, or would.
func (h *Home) RackFile() string { return h.path(rackFile) }

// OrdersFile returns where the home's orders lie, or would.
func (h *Home) OrdersFile() string { return h.path(ordersFile) }

// OpenOrders reads orders from a file that stands in for the home's.
func OpenOrders(file string, against Against) ([]orders.Want, error) {
	wants, _, err := readGiven(file, against.read)
	return wants, err
}

func (a Against) read(r io.Reader, name string) ([]orders.Want, error) { return ReadOrders(r, name, a) }

// Pattern reads a saved pattern. It is ErrNotFound where there is none of that stem.
func (h *Home) Pattern(stem string, known *species.Table) (Saved, error) {
	s := Saved{Stem: stem, File: h.patternPath(stem)}
	if err := CheckStem(stem); err != nil {
		return s, &Error{File: stem, Doing: "read", Hint: "a file is given with a slash or with .toml", Err: err}
	}
	var err error
	s.Pattern, s.Version, err = readOr(s.File, pattern.Pattern{}, knowing(known, ReadPattern))
	if err == nil && s.Version == Absent {
		stems, _ := h.stems() // only for the hint
		return s, &Error{File: stem, Doing: "read", Hint: nearestStem(stem, stems), Err: ErrNotFound}
	}
	return s, err
}

// IsFile reports whether a command line names a pattern by its file.
func IsFile(arg string) bool {
	return strings.HasSuffix(arg, tomlEnding) || strings.ContainsRune(arg, '/') || strings.ContainsRune(arg, filepath.Separator)
}

// OpenPattern reads the pattern that a command line names: with a slash or .toml at
// its end a file, else a saved stem.
func (h *Home) OpenPattern(arg string, known *species.Table) (Saved, error) {
	if !IsFile(arg) {
		return h.Pattern(arg, known)
	}
	s := Saved{File: arg, Stem: strings.TrimSuffix(filepath.Base(arg), tomlEnding)}
	if CheckStem(s.Stem) != nil {
		s.Stem = Stem(s.Stem)
	}
	var err error
	s.Pattern, s.Version, err = readGiven(arg, knowing(known, ReadPattern))
	return s, err
}

// OpenRack reads a rack from a file that stands in for the home's: one whose name
// ends in .csv as CSV.
func OpenRack(file string, known *species.Table) (rack.Rack, error) {
	read := ReadRack
	if strings.EqualFold(filepath.Ext(file), csvEnding) {
		read = ReadRackCSV
	}
	r, _, err := readGiven(file, knowing(known, read))
	return r, err
}

// OpenShopFile reads a shop from a file that stands in for the home's.
func OpenShopFile(file string) (ShopFile, error) {
	f, _, err := readGiven(file, ReadShopFile)
	return f, err
}

// A Listed is a file of the patterns folder: a pattern, or the reason why it is
// none, with which Stem may be empty.
type Listed struct {
	Saved
	At  time.Time // when its file was last written
	Err error
}

// writtenAt returns when a file was last written; the zero time: it is not there.
func writtenAt(file string) (at time.Time) {
	if info, err := os.Stat(file); err == nil {
		at = info.ModTime()
	}
	return at
}

// Patterns reads all saved patterns, sorted by file. One that is broken is listed
// with its error and does not stop the others; the second result is an error of the
// folder itself.
func (h *Home) Patterns(known *species.Table) ([]Listed, error) {
	stems, err := h.stems()
	var all []Listed
	for _, stem := range stems {
		if err := CheckStem(stem); err != nil {
			file := h.patternPath(stem)
			hint := "rename it, to " + Stem(stem) + tomlEnding + " say"
			all = append(all, Listed{Saved: Saved{File: file}, Err: &Error{File: file, Doing: "read", Hint: hint, Err: err}})
			continue
		}
		saved, err := h.Pattern(stem, known)
		if !errors.Is(err, ErrNotFound) { // taken away meanwhile
			all = append(all, Listed{Saved: saved, At: writtenAt(saved.File), Err: err})
		}
	}
	return all, err
}

// FreeStem returns a stem for a new pattern of that name, one that no saved pattern
// has.
func (h *Home) FreeStem(name string) (string, error) {
	stems, err := h.stems()
	if err != nil {
		return "", err
	}
	for i, s := range stems {
		stems[i] = strings.ToLower(s) // some file systems do not tell them apart
	}
	return freeStem(name, func(stem string) bool { return slices.Contains(stems, stem) }), nil
}

func (h *Home) path(name string) string { return filepath.Join(h.dir, name) }

func (h *Home) patternPath(stem string) string {
	return filepath.Join(h.dir, patternsFolder, stem+tomlEnding)
}

// stems returns the names of the files in the patterns folder without .toml, good or
// not.
func (h *Home) stems() ([]string, error) { return stemsIn(h.path(patternsFolder)) }

// stemsIn returns the names of the .toml files of a folder without that, in the order of
// the files; none where the folder is missing.
func stemsIn(folder string) ([]string, error) {
	entries, err := os.ReadDir(folder)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, leadsNowhere(folder)
	}
	if err != nil {
		return nil, newError(folder, "read the folder", err, "")
	}
	var stems []string
	for _, e := range entries {
		stem, ok := strings.CutSuffix(e.Name(), tomlEnding)
		if ok && !strings.HasPrefix(e.Name(), ".") && !e.IsDir() {
			stems = append(stems, stem)
		}
	}
	return stems, nil
}

// readHomeFile reads a file of the home, and takes nothing but a plain file: to open
// a pipe would wait for ever.
func readHomeFile(path string) ([]byte, Version, error) {
	info, err := os.Stat(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, Absent, leadsNowhere(path)
	}
	if err == nil && !info.Mode().IsRegular() && !info.IsDir() {
		err = errNoFile
	}
	if err != nil {
		return nil, Absent, newError(path, "read", err, "")
	}
	return readGivenFile(path)
}

// readGivenFile reads a file that the maker named. It stops a little above the
// longest file that is read, so that the reader refuses it.
func readGivenFile(path string) ([]byte, Version, error) {
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		return nil, Absent, newError(path, "read", errFolder, "")
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, Absent, newError(path, "read", err, nearestFile(path, err))
	}
	data, err := io.ReadAll(io.LimitReader(f, maxBytes+1))
	if err = errors.Join(err, f.Close()); err != nil {
		return nil, Absent, newError(path, "read", err, "")
	}
	return data, versionOf(data), nil
}

// A Leftover is a file that a save which was cut short has left. Nothing needs it.
type Leftover struct {
	File string
	// Old is one of an oddments before this one. Its name could be that of a copy which
	// somebody made, so no save takes it away.
	Old bool
}

// Leftovers lists what saves to the home that were cut short have left there, and beside
// the files elsewhere that links of the home stand for.
func (h *Home) Leftovers() []Leftover {
	var all []Leftover
	seen := map[string]bool{}
	parts := func(folder string) {
		if seen[folder] {
			return
		}
		seen[folder] = true
		for _, part := range partsIn(folder) {
			all = append(all, Leftover{File: part})
		}
	}
	for _, folder := range []string{h.dir, h.path(patternsFolder), h.path(recoveryFolder)} {
		parts(folder)
		entries, _ := os.ReadDir(folder) // one that is not there has none
		for _, e := range entries {
			path := filepath.Join(folder, e.Name())
			if oldPart(e.Name()) {
				all = append(all, Leftover{File: path, Old: true})
			}
			if e.Type()&fs.ModeSymlink == 0 || !strings.HasSuffix(e.Name(), tomlEnding) {
				continue
			}
			if target, err := followLinks(path); err == nil {
				parts(filepath.Dir(target))
			}
		}
	}
	return all
}

// oldPart reports whether a file is called like one that an older oddments wrote before
// it took the place of another: with a long number behind the name.
func oldPart(name string) bool {
	const shortest = 6 // digits; who makes a copy by hand takes fewer
	of := strings.TrimRight(name, "0123456789")
	return len(name)-len(of) >= shortest &&
		(of == togetherFile || strings.HasSuffix(strings.TrimSuffix(of, ".bak"), tomlEnding))
}

// Reachable tells of a home that is a link, or lies behind one, which leads nowhere. A
// home that is not there is none the less one.
func (h *Home) Reachable() error {
	if _, err := os.Stat(h.dir); errors.Is(err, fs.ErrNotExist) {
		return leadsNowhere(h.dir)
	}
	return nil
}

// String returns the stem, or the file and what is wrong with it.
func (l Listed) String() string {
	if l.Err != nil {
		return fmt.Sprintf("%s: %v", l.File, l.Err)
	}
	return l.Stem
}

// Owns reports whether s lies in the home's folder of patterns, or would when saved,
// and not in a file elsewhere that the maker named.
func (h *Home) Owns(s Saved) bool {
	if s.File == "" {
		return true
	}
	given, err := filepath.Abs(s.File)
	if err != nil {
		return false
	}
	own, err := filepath.Abs(h.patternPath(s.Stem))
	return err == nil && given == own
}
