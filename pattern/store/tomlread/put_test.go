package tomlread

import (
	"bytes"
	"strings"
	"testing"
)

// Only the value of the key changes, or one line comes to its table; every comment stays.
func TestPut(t *testing.T) {
	for _, c := range []struct{ name, path, before, after string }{
		{"a value", "a.b", "# mine\n[a]\n b=1#why\nc = 2\n", "# mine\n[a]\n b=9#why\nc = 2\n"},
		{"text with signs in it", "a.b", "[a]\nb = \"x # ] \\\" y\" # why\n", "[a]\nb = 9 # why\n"},
		{"a list on several lines", "a.b", "[a]\nb = [ # the first\n  1,\n  2, # two\n]  # end\nc = 1", "[a]\nb = 9  # end\nc = 1"},
		{"no line end", "a.b", "[a]\nb = 1", "[a]\nb = 9"},
		{"windows", "a.b", "[a]\r\nb = 1\r\n", "[a]\r\nb = 9\r\n"},
		{"a byte order mark", "a.b", "\ufeff[a]\nb = 1\n", "\ufeff[a]\nb = 9\n"},
		{"a dotted key", "a.b", "a.b = 1 # why\n", "a.b = 9 # why\n"},
		{"a quoted key", "a.b", "[\"a\"]\n'b' = 1\n", "[\"a\"]\n'b' = 9\n"},
		{"an inline table", "a.b", "a = { c = 1, b = 2 } # why\n", "a = { c = 1, b = 9 } # why\n"},
		{"inline in inline", "a.b.c", "a = {b = {c = 1}}\n", "a = {b = {c = 9}}\n"},
		{"a key comes to its table", "a.b", "[a]\nc = 1 # why\n\n# of d\n[d]\ne = 1\n", "[a]\nc = 1 # why\nb = 9 # new\n\n# of d\n[d]\ne = 1\n"},
		{"behind the last of it", "a.b", "[a]\n\tc = 1\n\td = [\n1]\n", "[a]\n\tc = 1\n\td = [\n1]\n\tb = 9 # new\n"},
		{"to an empty table", "a.b", "[a] # mine\n\n[c]\n", "[a] # mine\nb = 9 # new\n\n[c]\n"},
		{"to a dotted table", "a.b", "x = 1\na.c = 1\n[d]\n", "x = 1\na.c = 1\na.b = 9 # new\n[d]\n"},
		{"to a table dotted in another", "a.d.b", "[a]\nd.c = 1\n", "[a]\nd.c = 1\nd.b = 9 # new\n"},
		{"to an inline table", "a.b", "a = {c = 1}\n", "a = {c = 1, b = 9}\n"},
		{"to an empty inline table", "a.b", "a = {}\n", "a = { b = 9 }\n"},
		{"to a table in an inline one", "a.d.b", "a = { c = 1 }\n", "a = { c = 1, d.b = 9 }\n"},
		{"outside of tables", "b", "# top\nx = 1\n\n[a]\nb = 1\n", "# top\nx = 1\nb = 9 # new\n\n[a]\nb = 1\n"},
		{"a new table", "a.b", "x = 1", "x = 1\n\n[a]\nb = 9 # new\n"},
		{"a new table in another", "a.c.b", "[a]\nx = 1\n[a.d]\ny = 1\n", "[a]\nx = 1\n[a.d]\ny = 1\n\n[a.c]\nb = 9 # new\n"},
		{"not into a list of tables", "a.b", "[[d]]\nb = 1\n[a]\nc = 1\n[[d]]\n", "[[d]]\nb = 1\n[a]\nc = 1\nb = 9 # new\n[[d]]\n"},
		{"an empty file", "a.b", "", "\n[a]\nb = 9 # new\n"},
	} {
		got := string(Put([]byte(c.before), strings.Split(c.path, "."), "9", "new"))
		if got != c.after {
			t.Errorf("%s: %q becomes %q, want %q", c.name, c.before, got, c.after)
		}
		if n := numberAt(t, got, c.path); n != 9 {
			t.Errorf("%s: it reads back as %v", c.name, n)
		}
	}
}

// A key goes with its line; comments stay but for the one that came with it.
func TestDrop(t *testing.T) {
	for _, c := range []struct{ name, path, before, after string }{
		{"a line", "a.b", "# mine\n[a]\n b = 1\nc = 2 # c\n", "# mine\n[a]\nc = 2 # c\n"},
		{"with what it is for", "a.b", "[a]\nb = 1 # new\nc = 2\n", "[a]\nc = 2\n"},
		{"a comment of its maker", "a.b", "[a]\nb = 1  # the old blade\nc = 2\n", "[a]\n# the old blade\nc = 2\n"},
		{"windows", "a.b", "[a]\r\nb = 1 # mine\r\nc = 2\r\n", "[a]\r\n# mine\r\nc = 2\r\n"},
		{"no line end", "a.b", "[a]\nb = 1", "[a]\n"},
		{"a list on several lines", "a.b", "[a]\nb = [ # the first\n  1,\n]  # end\nc = 1", "[a]\n# end\nc = 1"},
		{"a byte order mark", "a.b", "\ufeff[a]\nb = 1\n", "\ufeff[a]\n"},
		{"a dotted key", "a.b", "x = 1\na.b = 1\na.c = 2\n", "x = 1\na.c = 2\n"},
		{"the first of an inline table", "a.b", "a = { b = 2, c = 1 } # why\n", "a = { c = 1 } # why\n"},
		{"the last of one", "a.b", "a = { c = 1 , b = 2 }\n", "a = { c = 1  }\n"},
		{"the middle of one", "a.b", "a = {c = 1, b = \"x,y\",d = 3}\n", "a = {c = 1, d = 3}\n"},
		{"the only one", "a.b", "a = { b = 2 }\n", "a = { }\n"},
		{"inline in inline", "a.b.c", "a = {b = {c = 1}}\n", "a = {b = {}}\n"},
		{"outside of tables", "b", "b = 1\n[a]\nb = 1\n", "[a]\nb = 1\n"},
		{"where it does not stand", "a.b", "[a]\nc = 1\n[d]\nb = 1\n", "[a]\nc = 1\n[d]\nb = 1\n"},
	} {
		got := string(Drop([]byte(c.before), strings.Split(c.path, "."), "new"))
		if got != c.after {
			t.Errorf("%s: %q becomes %q, want %q", c.name, c.before, got, c.after)
		}
		if n := numberAt(t, got, c.path); n != 0 {
			t.Errorf("%s: it reads back as %v", c.name, n)
		}
	}
}

// numberAt reads the number that stands at a dotted key.
func numberAt(t *testing.T, text, path string) (n float64) {
	t.Helper()
	d, err := Parse("a.toml", strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	keys := strings.Split(path, ".")
	table := d.Root()
	for _, k := range keys[:len(keys)-1] {
		table = table.May(k).Table()
	}
	table.May(keys[len(keys)-1]).Number(&n, 0, 9)
	return n
}

// What was put once stands there: to put it again changes nothing.
func FuzzPut(f *testing.F) {
	f.Add([]byte("a.b = 1 # x\n[c]\nd = {e = [1, 2]} # y"))
	f.Add([]byte("a = {}\n"))
	f.Add([]byte("a = {c = {}, b = [ # x\n1]}\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		if _, err := Parse("a.toml", bytes.NewReader(data)); err != nil {
			return
		}
		path := []string{"a", "b"}
		once := Put(data, path, "9", "new")
		if _, err := Parse("a.toml", bytes.NewReader(once)); err != nil {
			return // something else stands in the way, like a list of tables
		}
		if _, err := Parse("a.toml", bytes.NewReader(Drop(once, path, "new"))); err != nil {
			t.Errorf("%q without the key is %q: %v", once, Drop(once, path, "new"), err)
		}
		if twice := Put(once, path, "9", "new"); !bytes.Equal(once, twice) {
			t.Errorf("%q becomes %q, and then %q", data, once, twice)
		}
	})
}
