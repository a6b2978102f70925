//go:build !windows

package term

import (
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"
	"time"
)

func TestTorn(t *testing.T) {
	whole := []string{
		"a", "é", "x\x1b[C", "\x1bOP", "\x1bx", "\x1b[15~", "\x1b[<0;10;20M", "\x1b[1;5D", "\x1b[M !!", "\x1b[[A", "\x1b\x1b[C", "\x1b[200~a paste",
		"\xff", "\x1b[Cx", "",
	}
	for _, text := range whole {
		if torn([]byte(text)) {
			t.Errorf("%q is taken for the beginning of a key", text)
		}
	}
	// Every beginning of one of these is one; none is longer than the room left for it.
	for _, text := range []string{"\x1b[15~", "\x1b[<127;1000;1000M", "\x1b[1;5D", "\x1b[M !!", "\x1b[[A", "\x1bOP", "\x1b[200~", "€"} {
		for n := 1; n < len(text); n++ {
			if !torn([]byte("x" + text[:n])) {
				t.Errorf("%q is not taken for the beginning of a key", text[:n])
			}
		}
		if len(text) > longestKey {
			t.Errorf("%q does not fit", text)
		}
	}
}

// However a key's characters come, a read gives it whole; Esc alone comes by itself.
func TestKeyboardReadsWholeKeys(t *testing.T) {
	in, out, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	k := &keyboard{File: in, more: func(within time.Duration) bool { return comes(in, within) }}
	buf := make([]byte, 256)
	read := func() string {
		n, err := k.Read(buf)
		if err != nil {
			t.Fatal(err)
		}
		return string(buf[:n])
	}
	send := func(text string) {
		if _, err := out.WriteString(text); err != nil {
			t.Error(err)
		}
	}
	many := strings.Repeat("\x1b[<35;100;20M", 40) // 520 characters: reads fill up within one
	send(many)
	got := ""
	for len(got) < len(many) {
		part := read()
		if len(part) >= len(buf) || torn([]byte(part)) {
			t.Errorf("a read of %d ends within a key: %q", len(part), part)
		}
		got += part
	}
	if got != many {
		t.Errorf("read %q", got)
	}
	send("\x1b")
	if got := read(); got != "\x1b" {
		t.Errorf("Esc is read as %q", got)
	}
	send("\x1b[")
	done := make(chan string)
	go func() { done <- read() }()
	send("C") // while it is waited for
	if got := <-done; got != "\x1b[C" {
		t.Errorf("read %q", got)
	}
	if err := out.Close(); err != nil {
		t.Fatal(err)
	}
	if _, err := k.Read(buf); err == nil {
		t.Error("the end is read as keys")
	}
}

// A paste that never ends is ended when nothing more comes; keys work then, and what
// comes of it late is no key.
func TestPasteWithoutEnd(t *testing.T) {
	in, out, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	defer out.Close()
	var waited []time.Duration
	silent := false
	k := &keyboard{File: in, more: func(within time.Duration) bool {
		waited = append(waited, within)
		return !silent && comes(in, 0)
	}}
	buf := make([]byte, 256)
	long := strings.Repeat("x+-wq", 200)
	for _, step := range []struct {
		name, sent string
		silent     bool
		want       []string // of a read each
	}{
		{"a whole paste", "\x1b[200~x\x1b[201~q", true, []string{"\x1b[200~x\x1b[201~q"}},
		{"a mark alone", "\x1b[200~", true, []string{"\x1b[200~\x1b[201~"}},
		{"a key after it", "q", true, []string{"q"}},
		{"its rest with its end", "quit\x1b[201~+", true, []string{"+"}},
		{"a beginning", "a\x1b[200~xyz", true, []string{"a\x1b[200~xyz\x1b[201~"}},
		{"the mouse", strings.Repeat("\x1b[<35;100;20M", 8), true, []string{strings.Repeat("\x1b[<35;100;20M", 8)}},
		{"a rest that no hand types", long[:200], true, []string{""}},
		{"its end", "qq\x1b[201~", true, []string{""}},
		{"keys", "q", true, []string{"q"}},
		{"one that goes on", "\x1b[200~" + long[:394], false, []string{"\x1b[200~" + long[:202], long[202:394] + "\x1b[201~"}},
	} {
		if _, err := out.WriteString(step.sent); err != nil {
			t.Fatal(err)
		}
		silent = step.silent
		for _, want := range step.want {
			n, err := k.Read(buf)
			if got := string(buf[:n]); got != want || err != nil {
				t.Errorf("%s: read %q, %v, want %q", step.name, got, err, want)
			}
		}
	}
	if !slices.Contains(waited, pasteWithin) {
		t.Errorf("waited %v", waited)
	}
}

// However marks of pastes, keys and the mouse come, and wherever the line falls silent: no
// paste is left open for the screen library once nothing comes.
func TestKeyboardLeavesNoPasteOpen(t *testing.T) {
	in, out, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	defer out.Close()
	rng := rand.New(rand.NewPCG(31, 32))
	parts := []string{pasteStart, pasteEnd, "\x1b[2", "00~", "q", "text", "é", "\x1b[C", "\x1b[<35;100;20M", strings.Repeat("long ", 80)}
	for range 200 {
		k := &keyboard{File: in, more: func(time.Duration) bool { return comes(in, 0) }}
		var got strings.Builder
		for range 20 {
			if _, err := out.WriteString(parts[rng.IntN(len(parts))] + parts[rng.IntN(len(parts))]); err != nil {
				t.Fatal(err)
			}
			buf := make([]byte, 256)
			for comes(in, 0) { // then the line is silent
				n, err := k.Read(buf)
				if err != nil {
					t.Fatal(err)
				}
				got.Write(buf[:n])
			}
			if all := got.String(); strings.LastIndex(all, pasteStart) > strings.LastIndex(all, pasteEnd) {
				t.Fatalf("a paste is left open: %q", all)
			}
		}
	}
}
