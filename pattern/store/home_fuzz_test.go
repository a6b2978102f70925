package store

import (
	"bytes"
	"path/filepath"
	"testing"
)

// FuzzNote: what is taken for a note on a set names files of the home alone, and what
// is written of it reads the same.
func FuzzNote(f *testing.F) {
	f.Add([]byte(`{"format":"oddments/together 1","files":[{"name":"rack.toml","base":"","data":"Zm9ybWF0"}]}`))
	f.Add([]byte(`{"format":"oddments/together 1","files":[{"name":"patterns/../../x.toml","base":"whatever","data":""}]}`))
	f.Add([]byte(`{"format":"oddments/together 1","files":[{"name":"patterns/a.toml"}]}{`))
	home := filepath.Join("a", "home")
	f.Fuzz(func(t *testing.T, data []byte) {
		n, ok := readNote(data)
		if !ok {
			return
		}
		for _, c := range n.Files {
			path := OpenHome(home).path(filepath.FromSlash(c.Name))
			if path != filepath.Join(home, rackFile) && filepath.Dir(path) != filepath.Join(home, patternsFolder) {
				t.Errorf("%q leads to %s", c.Name, path)
			}
		}
		again, ok := readNote(noteBytes(t, n.Files))
		if !ok || len(again.Files) != len(n.Files) {
			t.Fatalf("read again as %v", again)
		}
		for i, c := range again.Files {
			if c.Name != n.Files[i].Name || c.Base != n.Files[i].Base || !bytes.Equal(c.Data, n.Files[i].Data) {
				t.Errorf("%v is read again as %v", n.Files[i], c)
			}
		}
	})
}

// FuzzRecovery: what is read as a recovery copy is kept as one that reads the same.
func FuzzRecovery(f *testing.F) {
	f.Add([]byte(recoveryMark + "abc\n" + goodPattern))
	f.Add([]byte(recoveryMark + fromNothing + "\n" + goodPattern))
	f.Add([]byte(goodPattern))
	f.Fuzz(func(t *testing.T, data []byte) {
		p, err := ReadPattern(bytes.NewReader(data), "board.toml", nil)
		if err != nil {
			return
		}
		base, _ := recoveryOrigin(data)
		kept, err := recoveryBytes("board.toml", "board-2", Recovery{Stem: "board", Pattern: p, Base: base})
		if err != nil {
			t.Fatal(err)
		}
		again, err := ReadPattern(bytes.NewReader(kept), "board.toml", nil)
		if err != nil {
			t.Fatalf("what was kept cannot be read: %v", err)
		}
		same(t, again, p)
		if got, of := recoveryOrigin(kept); got != base || of != "board" {
			t.Errorf("made from %q, and kept as from %q, of %q", base, got, of)
		}
	})
}
