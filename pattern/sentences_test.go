package pattern_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// takesApart reports whether a function of package strings looks for something in a
// text, or parts it. What cuts blanks and marks off its ends does not.
func takesApart(name string) bool {
	for _, begins := range []string{"Has", "Contains", "Cut", "TrimPrefix", "TrimSuffix", "Split", "Index", "LastIndex", "Fields", "Lines", "Replace", "EqualFold", "Count"} {
		if strings.HasPrefix(name, begins) {
			return true
		}
	}
	return false
}

// tells reports whether what goes by a name puts a fact into words: a field of facts, or
// a function.
func tells(name string) bool {
	switch name {
	case "Text", "Message", "What", "Remedy", "Error", "String", "Say", "Why", "Steps", "Chalk", "Called", "Listed":
		return true
	}
	return strings.HasSuffix(name, "Text") || strings.HasSuffix(name, "Texts") || strings.HasSuffix(name, "Words")
}

// An offence is a place where code decides by the words of a sentence.
type offence struct {
	file string
	line int
	code string // the call, as strings.Cut
	with string // the literal that is looked for; empty where none is
}

// readBacks lists the offences in a file: what takes texts of facts apart, also by way
// of a variable, what compares them with words, and what looks for words that begin or
// end a sentence of our own.
func readBacks(set *token.FileSet, file *ast.File, ours func(string) bool) []offence {
	var out []offence
	for _, decl := range file.Decls {
		f, ok := decl.(*ast.FuncDecl)
		if !ok || f.Body == nil {
			continue
		}
		s := sentences{said: map[string]bool{}}
		for range 2 { // a variable may be filled behind the place that it is used at
			ast.Inspect(f.Body, s.follow)
		}
		ast.Inspect(f.Body, func(n ast.Node) bool {
			found := func(code, with string) {
				at := set.Position(n.Pos())
				out = append(out, offence{at.Filename, at.Line, code, with})
			}
			switch n := n.(type) {
			case *ast.CallExpr:
				name, ok := stringsCall(n)
				if !ok || !takesApart(name) || len(n.Args) == 0 {
					break
				}
				with := ""
				if len(n.Args) > 1 {
					with, _ = literal(n.Args[1])
				}
				if s.tell(n.Args[0]) || ours(with) {
					found("strings."+name, with)
				}
			case *ast.BinaryExpr:
				for _, side := range [][2]ast.Expr{{n.X, n.Y}, {n.Y, n.X}} {
					if with, ok := literal(side[1]); ok && with != "" && (n.Op == token.EQL || n.Op == token.NEQ) && s.tell(side[0]) {
						found(n.Op.String(), with)
					}
				}
			case *ast.SwitchStmt:
				if n.Tag != nil && s.tell(n.Tag) {
					found("switch", "")
				}
			}
			return true
		})
	}
	return out
}

// sentences are the variables of a function that hold one.
type sentences struct{ said map[string]bool }

// follow notes what is filled with a sentence.
func (s sentences) follow(n ast.Node) bool {
	note := func(to, from ast.Expr) {
		if name, ok := to.(*ast.Ident); ok && name.Name != "_" && s.tell(from) {
			s.said[name.Name] = true
		}
	}
	switch n := n.(type) {
	case *ast.AssignStmt:
		for i, to := range n.Lhs {
			note(to, n.Rhs[min(i, len(n.Rhs)-1)])
		}
	case *ast.RangeStmt:
		if n.Key != nil && n.Value == nil {
			note(n.Key, n.X)
		}
		if n.Value != nil {
			note(n.Value, n.X)
		}
	}
	return true
}

// tell reports whether an expression gives a sentence of a fact, or a part of one.
func (s sentences) tell(e ast.Expr) bool {
	switch e := e.(type) {
	case *ast.Ident:
		return s.said[e.Name]
	case *ast.SelectorExpr:
		return tells(e.Sel.Name)
	case *ast.CallExpr:
		if _, ok := stringsCall(e); ok {
			return len(e.Args) > 0 && s.tell(e.Args[0])
		}
		switch f := e.Fun.(type) {
		case *ast.SelectorExpr:
			return tells(f.Sel.Name)
		case *ast.Ident:
			return tells(f.Name)
		}
	case *ast.IndexExpr:
		return s.tell(e.X)
	case *ast.SliceExpr:
		return s.tell(e.X)
	case *ast.ParenExpr:
		return s.tell(e.X)
	case *ast.BinaryExpr:
		return e.Op == token.ADD && (s.tell(e.X) || s.tell(e.Y))
	}
	return false
}

// stringsCall returns the name of a function of package strings that is called.
func stringsCall(call *ast.CallExpr) (name string, ok bool) {
	f, ok := call.Fun.(*ast.SelectorExpr)
	if !ok {
		return "", false
	}
	pkg, ok := f.X.(*ast.Ident)
	return f.Sel.Name, ok && pkg.Name == "strings"
}

// literal returns the text of a literal.
func literal(e ast.Expr) (string, bool) {
	lit, ok := e.(*ast.BasicLit)
	if !ok || lit.Kind != token.STRING {
		return "", false
	}
	text, err := strconv.Unquote(lit.Value)
	return text, err == nil
}

// ourWords returns whether a text begins or ends a wording of the program: a literal with
// more words than it.
func ourWords(files []*ast.File) func(string) bool {
	var all []string
	for _, f := range files {
		ast.Inspect(f, func(n ast.Node) bool {
			if e, ok := n.(ast.Expr); ok {
				if text, ok := literal(e); ok && strings.Contains(text, " ") {
					all = append(all, text)
				}
			}
			return true
		})
	}
	return func(text string) bool {
		letters := strings.IndexFunc(text, func(r rune) bool { return r >= 'a' && r <= 'z' }) >= 0
		if len(strings.Trim(text, " ,:;.")) < 4 || !letters {
			return false
		}
		return slices.ContainsFunc(all, func(s string) bool {
			return len(strings.TrimSpace(s)) > len(text) && (strings.HasPrefix(s, text) || strings.HasSuffix(s, text))
		})
	}
}

// TestNoSentenceIsReadBack fails where code takes apart what our own code has put into
// words: what is to be decided by stands in a field of the fact, so that a sentence can
// be reworded without anything else changing.
func TestNoSentenceIsReadBack(t *testing.T) {
	set := token.NewFileSet()
	var files []*ast.File
	root := ".."
	err := filepath.WalkDir(root, func(file string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && (d.Name() == "testdata" || strings.HasPrefix(d.Name(), ".") && file != root):
			return filepath.SkipDir
		case d.IsDir() || !strings.HasSuffix(file, ".go") || strings.HasSuffix(file, "_test.go"):
			return nil
		}
		parsed, err := parser.ParseFile(set, file, nil, parser.SkipObjectResolution)
		files = append(files, parsed)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(files) < 200 {
		t.Fatalf("only %d files were read", len(files))
	}
	ours := ourWords(files)
	used := map[exception]bool{}
	for _, f := range files {
		for _, o := range readBacks(set, f, ours) {
			rel, err := filepath.Rel(root, o.file)
			if err != nil {
				t.Fatal(err)
			}
			e := exception{filepath.ToSlash(rel), o.with}
			if _, ok := mayReadBack()[e]; ok {
				used[e] = true
				continue
			}
			t.Errorf("%s:%d: %s with %q decides by the words of a sentence: let a field say it", e.file, o.line, o.code, o.with)
		}
	}
	for e, why := range mayReadBack() {
		if !used[e] {
			t.Errorf("%v is no exception any more (%s)", e, why)
		}
	}
}

// An exception is a file, with what is looked for in it.
type exception struct{ file, with string }

// mayReadBack lists what is no sentence of ours, or is none any more, with the reason.
func mayReadBack() map[exception]string {
	const typed, unit = "what the maker typed", "a length's text without its unit, to be typed"
	return map[exception]string{
		{"cmd/internal/rows/table.go", "\n"}: "the lines of a table that is drawn",
		{"tui/paint/detect.go", "screen"}:    "a terminal's name",
		{"tui/paint/detect.go", "256color"}:  "a terminal's name",
		{"pattern/check/timbers.go", ""}:     "the text of a file, which may say already what the finding says",
		{"pattern/joint.go", " mm"}:          unit,
		{"pattern/length/together.go", " "}:  unit,
		{"pattern/rack/lineword.go", "-"}:    typed,
		{"pattern/spoken/number.go", ""}:     typed,
		{"pattern/spoken/number.go", "-"}:    typed,
		{"pattern/spoken/spoken.go", ""}:     "whether a word is quoted, not to say it twice",
		{"pattern/rack/lineprint.go", " mm"}: unit,
		{"pattern/rack/lineprint.go", "mm"}:  unit,
		{"pattern/rack/lineword.go", ""}:     typed,
		{"pattern/rack/rack.go", " mm"}:      unit,
	}
}

// The test above sees what it is there for.
func TestReadBackIsSeen(t *testing.T) {
	const wording = `package p
func say() { print("short, to be found first"); print("product %d: too wide"); print("cut the 45 degree bevel, on top") }`
	for _, c := range []struct {
		code string
		seen bool
	}{
		{`if strings.HasPrefix(s.Text, "short, ") {}`, true},
		{`if strings.HasPrefix(s, "short, ") {}`, true}, // whatever holds the sentence
		{`name := "HB1"; text, ok := strings.CutPrefix(s.Text, name); _, _ = text, ok`, true},
		{`for line := range strings.Lines(l.Text()) { a, b, _ := strings.Cut(strings.TrimSpace(line), ": "); _, _ = a, b }`, true},
		{`told := err.Error(); at := strings.Index(told, ": "); _ = at`, true},
		{`if strings.Contains(s.Text, "degree") {}`, true},
		{`if s.What == "glue" {}`, true},
		{`switch c.Message { case "a": }`, true},
		{`words := OutOfRoundText(j); a, b, _ := strings.Cut(words, ": "); _, _ = a, b`, true},
		{`if s.Text == "" {}`, false},
		{`if s.Kind == StepShort { out = append(out, s.Text) }`, false},
		{`typed := "x4"; n, ok := strings.CutPrefix(typed, "x"); _, _ = n, ok`, false},
		{`text := strings.TrimRight(name, " "); _ = text`, false},
	} {
		set := token.NewFileSet()
		var files []*ast.File
		for _, src := range []string{wording, "package p\nfunc f() { " + c.code + " }"} {
			f, err := parser.ParseFile(set, "p.go", src, parser.SkipObjectResolution)
			if err != nil {
				t.Fatal(err)
			}
			files = append(files, f)
		}
		if seen := len(readBacks(set, files[1], ourWords(files))) > 0; seen != c.seen {
			t.Errorf("%s: seen %v, want %v", c.code, seen, c.seen)
		}
	}
}
