package failure_test

import (
	"testing"

	"example.com/oddments/cmd/internal/failure"
)

// FuzzVisible: nothing that Visible gives can act on a terminal, and what needs no
// change has none.
func FuzzVisible(f *testing.F) {
	for _, s := range []string{"oak", "a\x1b[2Jb", "\xff\xfe", "Bü\u202ero", `say "x"`, "±°½"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		got := failure.Visible(s)
		for _, r := range got {
			if r < ' ' || r >= 0x7f && r < 0xa0 || r == 0x202e || r == 0xfffd {
				t.Fatalf("%q gives %q", s, got)
			}
		}
		if failure.Visible(got) != got {
			t.Fatalf("%q gives %q, and that %q", s, got, failure.Visible(got))
		}
	})
}
