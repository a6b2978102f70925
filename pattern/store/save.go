package store

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/gofrs/flock"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/orders"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/store/tomlread"
	"example.com/oddments/species"
)

const maxBytes = tomlread.MaxBytes

// A Version is what a file held when it was read: a digest of its bytes. The zero
// value is Absent.
type Version string

const (
	Absent    Version = ""         // there was no file
	Overwrite Version = "whatever" // of a save: write over what is there, whatever it is
)

func versionOf(data []byte) Version {
	sum := sha256.Sum256(data)
	return Version(hex.EncodeToString(sum[:]))
}

// Hold makes this process the writer of the home until Close. The first save does so
// by itself; a session that is going to save does it at its start, to say at once
// that somebody else is at it. It is ErrBusy where another oddments is the writer.
// Of a home that does not exist Hold makes nothing, and leaves it to the first save.
func (h *Home) Hold() error {
	h.mu.Lock()
	defer h.mu.Unlock()
	if _, err := os.Stat(h.dir); errors.Is(err, fs.ErrNotExist) {
		return leadsNowhere(h.dir)
	}
	return h.hold()
}

// hold is Hold, and makes the folder.
func (h *Home) hold() error {
	if h.lock != nil {
		return nil
	}
	if err := h.disk.makeFolder(h.dir); err != nil {
		return err
	}
	lock, ok, err := h.tryLock()
	switch {
	case err != nil:
		return err
	case !ok:
		return &Error{File: h.dir, Doing: "write to", Err: ErrBusy,
			Hint: "close the other one, or name another folder with --home; reading still works"}
	}
	h.lock = lock
	return nil
}

// tryLock takes the lock of the home where it is free. What is no file in its place is
// refused: to open a pipe would wait for ever.
func (h *Home) tryLock() (lock *flock.Flock, ok bool, err error) {
	path := h.path(lockFile)
	info, err := os.Lstat(path)
	made := errors.Is(err, fs.ErrNotExist)
	switch {
	case made:
	case err != nil:
		return nil, false, newError(path, "lock", err, "")
	case !info.Mode().IsRegular():
		return nil, false, newError(path, "lock", errNoFile, "remove it: oddments makes its own; reading still works")
	}
	lock = flock.New(path, flock.SetPermissions(0o666))
	err = h.disk.call("lock", path, func() error { ok, err = lock.TryLock(); return err })
	if errors.Is(err, fs.ErrPermission) && !made {
		return nil, false, newError(path, "lock", err, "another user made it, and it is empty: remove it")
	}
	if err != nil {
		return nil, false, newError(h.dir, "write to", err, "reading works; name another folder with --home to save")
	}
	if ok && made {
		_ = ownFile(path, h.dir) // or the maker could not save where root did first
	}
	return lock, ok, nil
}

// Busy reports whether some process is the writer of the home. It asks for a share of the
// lock and gives it back at once; it makes no file, and one that is not there is held by
// nobody.
func (h *Home) Busy() (bool, error) {
	path := h.path(lockFile)
	if info, err := os.Lstat(path); err == nil && !info.Mode().IsRegular() {
		return false, newError(path, "read", errNoFile, "remove it: oddments makes its own")
	}
	lock := flock.New(path, flock.SetFlag(os.O_RDONLY))
	free, err := lock.TryRLock()
	_ = lock.Close() // nothing was written
	if errors.Is(err, fs.ErrPermission) {
		return false, newError(path, "read", err, "another user made it, and it is empty: remove it, or nothing can be saved")
	}
	return err == nil && !free, nil
}

// Close lets another process write to the home. The home can go on being read, and
// saved to again.
func (h *Home) Close() error {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.lock == nil {
		return nil
	}
	lock := h.lock
	h.lock = nil
	return lock.Close()
}

// SavePattern saves p under a stem, over the version base, and gives the version
// that lies there now. With base Absent it makes a new file.
func (h *Home) SavePattern(stem string, p pattern.Pattern, base Version) (Version, error) {
	if err := CheckStem(stem); err != nil {
		return base, &Error{File: stem, Doing: "save", Err: err}
	}
	data, err := patternBytes(h.patternPath(stem), p)
	if err != nil {
		return base, err
	}
	return h.save(h.patternPath(stem), data, base)
}

// SavePatternFile saves p to a file outside of any home, as SavePattern does.
func SavePatternFile(file string, p pattern.Pattern, base Version) (Version, error) {
	data, err := patternBytes(file, p)
	if err != nil {
		return base, err
	}
	return disk{}.saveOver(file, data, base)
}

// SaveRack saves r over the version base.
func (h *Home) SaveRack(r rack.Rack, base Version) (Version, error) {
	return saveAs(h, rackFile, r, base, WriteRack, knowing(nil, ReadRack))
}

// SaveShop saves s over the version base.
func (h *Home) SaveShop(s shop.Shop, base Version) (Version, error) {
	return saveAs(h, shopFile, s, base, WriteShop, ReadShop)
}

// SaveShopFile saves f as it stands over the version base.
func (h *Home) SaveShopFile(f ShopFile, base Version) (Version, error) {
	return saveAs(h, shopFile, f, base, WriteShopFile, ReadShopFile)
}

// SaveOrders saves what the maker would sell over the version base.
func (h *Home) SaveOrders(wants []orders.Want, base Version) (Version, error) {
	return saveAs(h, ordersFile, wants, base, WriteOrders, Against{}.read)
}

// SaveTimbers saves the maker's own timbers over the version base.
func (h *Home) SaveTimbers(list []species.Species, base Version) (Version, error) {
	return saveAs(h, speciesFile, list, base, WriteSpecies, ReadSpecies)
}

func saveAs[T any](h *Home, name string, v T, base Version, write func(io.Writer, T) error, read reads[T]) (Version, error) {
	data, err := checkedBytes(h.path(name), name, v, write, read)
	if err != nil {
		return base, err
	}
	return h.save(h.path(name), data, base)
}

func patternBytes(file string, p pattern.Pattern) ([]byte, error) {
	return checkedBytes(file, file, p, WritePattern, knowing(nil, ReadPattern))
}

// checkedBytes writes a file in memory and reads it back as one of that name: what could
// not be read again must not take the place of what can.
func checkedBytes[T any](file, name string, v T, write func(io.Writer, T) error, read reads[T]) ([]byte, error) {
	var buf bytes.Buffer
	err := write(&buf, v)
	if err == nil {
		_, err = read(bytes.NewReader(buf.Bytes()), name)
	}
	if err != nil {
		return nil, &Error{File: file, Doing: "save", Err: fmt.Errorf("it could not be read again: %w", err)}
	}
	return buf.Bytes(), nil
}

// save is saveOver by the writer of the home. A set that was begun before is finished
// first: what is saved now may stand on what it leaves.
func (h *Home) save(path string, data []byte, base Version) (Version, error) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if err := h.ready(); err != nil {
		return base, err
	}
	return h.disk.saveOver(path, data, base)
}

// ready makes this the writer of the home, and leaves no set half done.
func (h *Home) ready() error {
	if err := h.hold(); err != nil {
		return err
	}
	mended, err := h.mend()
	if err == nil && mended.wrote {
		err = &Error{File: h.dir, Doing: "save", Err: ErrMended, Hint: mended.String() + "; read it again first, nothing more was written"}
	}
	return err
}

// saveOver writes data to path, and what lay there to its .bak, where it still is
// the version base. A file that was taken away may be written again: nothing is lost
// by that. A link is followed, so that it stays one.
func (d disk) saveOver(path string, data []byte, base Version) (Version, error) {
	held := d.holding()
	defer held.leave()
	target, before, now, err := held.look(path, base)
	if err != nil {
		return base, err
	}
	after := versionOf(data)
	if now == after {
		return after, nil
	}
	if err := d.saveStaged(target, reader(before, now), data); err != nil {
		return base, err
	}
	return after, nil
}

// look enters the folder of the file that path stands for and reads what lies there,
// which must be the version base, or nothing.
func (h *holding) look(path string, base Version) (target string, before []byte, now Version, err error) {
	target, err = followLinks(path)
	if err != nil {
		return "", nil, Absent, ofLink(path, "save", err)
	}
	if err := h.enter(filepath.Dir(target)); err != nil {
		return "", nil, Absent, err
	}
	if before, now, err = h.read(target); err != nil {
		return "", nil, Absent, err
	}
	if now != Absent && base != Overwrite && now != base {
		return "", nil, Absent, &Error{File: path, Doing: "save", Err: ErrChanged, Hint: "save it under another name, or read the file again"}
	}
	return target, before, now, nil
}

// reader reads what lay in a file; nil where there was none.
func reader(before []byte, now Version) io.Reader {
	if now == Absent {
		return nil
	}
	return bytes.NewReader(before)
}

// saveStaged changes one file, in a folder that is held, or leaves it as it was.
func (d disk) saveStaged(target string, before io.Reader, data []byte) error {
	s, err := d.stage(target, before, bytes.NewReader(data))
	if err != nil {
		return err
	}
	if err = d.commit(s); err == nil {
		return nil
	}
	if back := d.takeBack(s); back != nil {
		return andSo(err, ErrUnsure, "look at the file before you go on")
	}
	return withHint(err, untouched)
}

// withHint returns an error of the store with another hint.
func withHint(err error, hint string) error {
	if e, ok := errors.AsType[*Error](err); ok {
		return &Error{File: e.File, Doing: e.Doing, Err: e.Err, Hint: hint}
	}
	return err
}

// andSo is withHint with what has come of the error.
func andSo(err, came error, hint string) error {
	if e, ok := errors.AsType[*Error](err); ok {
		return &Error{File: e.File, Doing: e.Doing, Err: fmt.Errorf("%w; %w", e.Err, came), Hint: hint}
	}
	return err
}
