package tomlread

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/pelletier/go-toml/v2"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

func parse(t *testing.T, text string) *Document {
	t.Helper()
	d, err := Parse("a.toml", strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// TestReadsWhatTOMLMeans reads one length and one number in every form that the TOML
// specification 1.0.0 calls the same.
func TestReadsWhatTOMLMeans(t *testing.T) {
	for name, text := range map[string]string{
		"headings":               "[a]\nb = 25\n[a.c]\nn = 3",
		"headings, inner first":  "[a.c]\nn = 3\n[a]\nb = 25",
		"dotted keys":            "a.b = 25\na.c.n = 3",
		"spaces around the dots": "a . b = 25\n\"a\" . 'c' . n = 3",
		"inline":                 "a = { b = 25, c = { n = 3 } }",
		"inline with dots":       "a = { b = 25, c.n = 3.0 }",
		"text":                   "[a]\nb = '25 mm'\nc.n = 0b11",
		"escapes":                "[a]\n\"\\u0062\" = \"\\u0032\\u0035 mm\"\nc.n = 0x3",
		"long text":              "[a]\nb = \"\"\"\n25 mm\"\"\"\nc = { n = 3e0 }",
		"long literal":           "[a]\nb = '''25 mm'''\nc.n = 0_3.0",
		"CRLF":                   "[a]\r\nb = 25 # so\r\nc.n = 3\r\n",
		"byte order mark":        "\ufeffa.b = 25\na.c.n = +3",
	} {
		t.Run(name, func(t *testing.T) {
			if strings.Contains(text, "0_3") { // a leading zero is no TOML: say so, and read the plain form
				if _, err := Parse("a.toml", strings.NewReader(text)); err == nil {
					t.Error("0_3.0 was read")
				}
				text = strings.Replace(text, "0_3.0", "3.0", 1)
			}
			d := parse(t, text)
			var b length.Length
			var n int
			a := d.Root().NeedTable("a", "b")
			a.Need("b", "1").Size(&b, length.Metre)
			a.NeedTable("c", "n").Need("n", "1").Count(&n, 1, 9)
			if err := d.Finish(); err != nil {
				t.Fatal(err)
			}
			if b != 25*length.Millimetre || n != 3 {
				t.Errorf("read %v and %d", b, n)
			}
		})
	}
}

func TestTablesInEveryForm(t *testing.T) {
	for name, text := range map[string]string{
		"headings": "[[s]]\nn = 1\n[[s]]\nn = 2",
		"a list":   "s = [{n = 1}, {n = 2}]",
		"lines":    "s = [ # two\n  {n = 1}, # one\n  {n = 2},\n]",
	} {
		t.Run(name, func(t *testing.T) {
			d := parse(t, text)
			var all []int
			for _, s := range d.Root().May("s").Tables() {
				var n int
				s.Need("n", "1").Count(&n, 0, 9)
				all = append(all, n)
			}
			if err := d.Finish(); err != nil || fmt.Sprint(all) != "[1 2]" {
				t.Errorf("read %v, %v", all, err)
			}
		})
	}
}

// TestPlaces counts columns in characters, in every form a value can have.
func TestPlaces(t *testing.T) {
	const text = "'é' = { 'ß' = 1, 'ü'.x = true }\r\n" + // 1
		"list = [ 1,\n  [2], 2026-11-02,\n  12:30:00 ]\n" // 2 to 4
	d := parse(t, text)
	var s string
	e := d.Root().May("é").Table()
	e.May("ß").Text(&s)               // 1:15
	e.May("ü").Table().Need("y", "1") // 1:18
	e.May("ü").Table().May("x").Text(&s)
	for _, item := range d.Root().May("list").Items() {
		item.Text(&s)
	}
	err := d.Finish()
	var errs Errors
	if !errors.As(err, &errs) {
		t.Fatal(err)
	}
	var got []string
	for _, e := range errs {
		got = append(got, fmt.Sprintf("%d:%d %s", e.Line, e.Column, e.Field))
	}
	want := "[1:15 é ß 1:18 é ü y 1:26 é ü x 2:8 list 2 2:10 list 1 3:8 list 3 4:3 list 4]"
	if fmt.Sprint(got) != want {
		t.Errorf("places %v, want %s", got, want)
	}
}

func TestErrorsAreErrors(t *testing.T) {
	d := parse(t, "b = 1\na = 2")
	err := d.Finish()
	var one *FileError
	if !errors.As(err, &one) || one.Line != 1 || one.Field != "b" {
		t.Errorf("errors.As found %v", one)
	}
	want := "a.toml:1:1: b: unknown key \"b\" (known here: )\na.toml:2:1: a: unknown key \"a\" (known here: )"
	if err.Error() != want {
		t.Errorf("got %q, want %q", err, want)
	}
}

func TestMessagesCannotActOnAScreen(t *testing.T) {
	for _, text := range []string{
		"\"\\u001b[2J\" = 1", "a = \"\\u202e\"", "\"\\u009b\" = {}", "a = 1\n\x1b", "a = '\u202e", "\u202ea = 1", "a = 2026\u0007",
	} {
		d, err := Parse("a.toml", strings.NewReader(text))
		if err == nil {
			var s string
			d.Root().May("a").Parse(func(s string) error { return errors.New(s) })
			d.Root().May("a").Text(&s)
			err = d.Finish()
		}
		if err == nil {
			t.Errorf("%q was read", text)
			continue
		}
		for _, line := range strings.Split(err.Error(), "\n") {
			if r, bad := pattern.ForbiddenRune(line); bad {
				t.Errorf("%q: the error holds %U: %q", text, r, line)
			}
		}
	}
}

func TestTooLong(t *testing.T) {
	line := "# " + strings.Repeat("x", 1021) + "\n"
	full := strings.Repeat(line, MaxBytes/len(line))
	if _, err := Parse("a.toml", strings.NewReader(full)); err != nil {
		t.Errorf("%d bytes: %v", len(full), err)
	}
	if _, err := Parse("a.toml", strings.NewReader(full+"#")); err == nil {
		t.Errorf("a file above %d bytes was read", MaxBytes)
	}
}

func TestTooDeep(t *testing.T) {
	for name, c := range map[string]struct {
		text string
		deep bool
	}{
		"brackets in text":       {`a = "` + strings.Repeat("[", 900) + `"`, false},
		"brackets in literals":   {`a = '` + strings.Repeat("{", 900) + `'`, false},
		"brackets in long text":  {`a = """` + strings.Repeat("[\n\"x\"\\\"", 900) + `"""`, false},
		"brackets in comments":   {"# " + strings.Repeat("[", 900) + "\na = 1", false},
		"many numbers in a list": {"a = [" + strings.Repeat("1.5, ", 900) + "]", false},
		"lists in lists":         {"a = " + strings.Repeat("[", 65) + strings.Repeat("]", 65), true},
		"many lines of lists":    {"a = " + strings.Repeat("[\n", 65), true},
		"sixty-four":             {"a = " + strings.Repeat("[", 64) + strings.Repeat("]", 64), false},
		"tables in tables":       {strings.Repeat("a = {", 65), true},
		"a long heading":         {"[a" + strings.Repeat(".a", 65) + "]", true},
		"after long text":        {`a = """x""""` + "\nb = " + strings.Repeat("[", 65), true},
	} {
		if got := tooDeep([]byte(c.text)) >= 0; got != c.deep {
			t.Errorf("%s: too deep %v, want %v", name, got, c.deep)
		}
	}
	if _, err := Parse("a.toml", strings.NewReader("a = "+strings.Repeat("[", MaxBytes-4))); err == nil {
		t.Error("a file of brackets were read")
	}
}

func TestTooManyKeys(t *testing.T) {
	var b strings.Builder
	for i := range maxKeys + 1 {
		fmt.Fprintf(&b, "k%d = 1\n", i)
	}
	_, err := Parse("a.toml", strings.NewReader(b.String()))
	if err == nil || !strings.HasPrefix(err.Error(), "a.toml:1001:1: more than 1000 keys") {
		t.Errorf("got %v", err)
	}
}

// TestManyErrors: the list of errors ends with a word that it is not all.
func TestManyErrors(t *testing.T) {
	d := parse(t, strings.Repeat("[[s]]\nx = 1\n", maxErrors+1))
	d.Root().May("s").Tables()
	var errs Errors
	if !errors.As(d.Finish(), &errs) || len(errs) != maxErrors+1 || !strings.Contains(errs[maxErrors].Message, "more is wrong") {
		t.Errorf("%d errors", len(errs))
	}
	if text := errs.Error(); strings.Count(text, "\n") != mostShown || !strings.HasSuffix(text, "\nand 951 more") {
		t.Errorf("printed as %d lines, ending %q", 1+strings.Count(text, "\n"), text[len(text)-20:])
	}
}

func TestNearest(t *testing.T) {
	keys := []string{"length", "width", "thickness", "use_first", "id"}
	for name, want := range map[string]string{
		"widht": "width", "Width": "width", "lenght": "length", "usefirst": "use_first", "thicknes": "thickness",
		"colour": "", "x": "", "": "", strings.Repeat("width", 30): "",
	} {
		if got := Nearest(name, keys); got != want {
			t.Errorf("nearest of %q is %q, want %q", name, got, want)
		}
	}
}

func TestDates(t *testing.T) {
	d := parse(t, "a = 2024-02-29")
	var got pattern.Date
	d.Root().May("a").Date(&got)
	if got != (pattern.Date{Year: 2024, Month: 2, Day: 29}) {
		t.Errorf("read %v", got)
	}
}

// FuzzParse compares with go-toml: what one takes the other takes, and what is given
// twice always has a place.
// syntaxCases are mistakes in TOML: the text, the place, what is wrong and what to write.
func syntaxCases() [][4]string {
	const line = `a line is written like width = "31 mm"`
	return [][4]string{
		{"width = 31 mm", "1:12", "the quotes are missing", `write width = "31 mm"`},
		{"a = 1\r\nwidth = 1 1/8 in # a note\r\nb = 2", "2:11", "the quotes are missing", `write width = "1 1/8 in"`},
		{`width = 24"`, "1:11", "the quotes are missing", `write width = '24"'`},
		{`species = pear"`, "1:11", `the opening " is missing`, `write species = "pear"`},
		{"species = pear", "1:11", "the quotes are missing", `write species = "pear"`},
		{"species = “pear”", "1:11", "the quotes are missing", `write species = "pear"`},
		{"planed = yes", "1:10", "yes or no is written true or false", "write planed = true"},
		{"planed = False", "1:10", "yes or no is written true or false", "write planed = false"},
		{"moisture = 9.1 %", "1:16", "a moisture is written without %", "write moisture = 9.1"},
		{"moisture = 9,1", "1:13", "this is not a number", "write moisture = 9.1"},
		{"copies = 007", "1:11", "this is not a number", "write copies = 7"},
		{"copies = 1.", "1:10", "this is not a number", "write the number like 9.1 or 620"},
		{"date = 2026-13-40", "1:8", "there is no such day", "write the day like 2026-11-02"},
		{`name = "Tray`, "1:13", `the closing " is missing`, "write the text and both its quotes on one line"},
		{"name = \"Tray\nb = 1", "1:13", `the closing " is missing`, "write the text and both its quotes on one line"},
		{"name = 'Tray\nb = 1", "1:13", "the closing ' is missing", "write the text and both its quotes on one line"},
		{"name = 'Tray", "1:13", "the closing ' is missing", "write the text and both its quotes on one line"},
		{`name = """Tray`, "1:15", `the closing """ is missing`, ""},
		{"name = '''Tray", "1:15", "the closing ''' is missing", ""},
		{`name = "a" "b"`, "1:12", "there is more after the value", "put each key on a line of its own"},
		{`name = "a\x"`, "1:11", `a \ must not come before this letter`, `write \\ for one \`},
		{"name = \"a\x01\"", "1:10", "a control character is in the text", "take it out"},
		{"width =", "1:8", "the value is missing", line},
		{"width", "1:1", "the = and the value are missing", line},
		{"width : 31", "1:7", "the = behind the key is missing", line},
		{"! = 31", "1:1", "a key cannot begin with this", line},
		{"faults = [0-40 mm]", "1:12", "a comma, the quotes around a text or the closing ] is missing", `write the list like ["0-40 mm", "300-330 mm"]`},
		{`faults = ["0-40 mm"`, "1:20", "the closing ] is missing", ""},
		{"[strip", "1:7", "the closing ] is missing", ""},
		{"a = {width = 31 mm}", "1:17", "a comma or the quotes around a text are missing", `write it like {width = "31 mm", planed = true}`},
		{"a = {width = 31", "1:16", "the closing } is missing", ""},
		{"a = 12:99:00", "1:8", "minutes cannot be greater 59", ""},
	}
}

func TestSyntaxInOurWords(t *testing.T) {
	for _, c := range syntaxCases() {
		_, err := Parse("a.toml", strings.NewReader(c[0]))
		var errs Errors
		if !errors.As(err, &errs) || len(errs) != 1 {
			t.Errorf("%q: %v", c[0], err)
			continue
		}
		e := errs[0]
		place := fmt.Sprintf("%d:%d", e.Line, e.Column)
		if place != c[1] || e.Message != c[2] || !strings.HasPrefix(e.Hint, c[3]) || !strings.HasSuffix(e.Hint, readOn) {
			t.Errorf("%q: at %s %q, hint %q; want %s %q, %q", c[0], place, e.Message, e.Hint, c[1], c[2], c[3])
		}
	}
}

// What is advised to be written is read.
func TestAdviceIsTOML(t *testing.T) {
	for _, c := range syntaxCases() {
		line, ok := strings.CutPrefix(c[3], "write ")
		if !ok || !strings.Contains(line, " = ") || strings.Contains(line, "like") {
			continue
		}
		if _, err := Parse("a.toml", strings.NewReader(line)); err != nil {
			t.Errorf("%q: %v", line, err)
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, text := range []string{
		"a = 1\na = 2", "[a]\n[a]", "[a.b]\n[a]\n[a.b]", "a.b = 1\n[a]", "[a]\nb.c = 1\n[a.b]", "a = {b = 1}\n[a.c]", "a = {b = 1}\na.c = 2",
		"[[a]]\n[a]", "a = []\n[[a]]", "[a]\n[[a]]", "[[a.b]]\n[a]\nb.c = 1", "a = {b.c = 1, b.d = 2}", "a = {b = 1, b = 2}", "a = [{b=1,b=2}]",
		"[a.b.c]\n[a]\nb.d = 1", "a.b.c = 1\n[a.b.d]", "[fruit]\napple.colour = 1\napple.taste.sweet = true\n[fruit.apple.texture]", "[[a]]\n[a.b]\n[[a]]\n[a.b]",
	} {
		f.Add([]byte(text))
	}
	for _, c := range syntaxCases() {
		f.Add([]byte(c[0]))
	}
	samples, _ := filepath.Glob("../../../testdata/formats/*.toml")
	for _, s := range samples {
		data, err := os.ReadFile(s)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		d, err := Parse("a.toml", strings.NewReader(string(data)))
		var all map[string]any
		if tooDeep(data) >= 0 {
			return
		}
		other := toml.Unmarshal([]byte(strings.TrimPrefix(string(data), "\ufeff")), &all)
		if err == nil && other != nil {
			t.Fatalf("go-toml refuses this: %v", other)
		}
		if err == nil {
			_ = d.Finish()
			return
		}
		var errs Errors
		if !errors.As(err, &errs) || len(errs) != 1 || errs[0].Line < 1 || errs[0].Column < 1 {
			t.Fatalf("no place: %v", err)
		}
	})
}
