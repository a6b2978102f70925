package pattern_test

import (
	"bytes"
	"fmt"
	"go/ast"
	"go/parser"
	"go/scanner"
	"go/token"
	"io/fs"
	"maps"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// The budgets of the code without its tests: what is over is split by meaning. Packages
// are counted in lines that hold code, files and functions in all their lines.
const (
	mostPackageLines = 4000
	mostFields       = 20
	mostFileLines    = 500
	mostFileAt95     = 400
	mostFuncLines    = 80
	mostFuncAt95     = 40

	// mostLines is all code without its tests. It may only shrink, but for what a new
	// capability needs.
	mostLines = 76_500
)

// overBudget lists what was over its budget when the budgets were set. A figure may only
// shrink: TestBudgets fails where one is no longer needed, or stands a twentieth too high.
func overBudget() map[string]int {
	return map[string]int{}
}

// A sizing is how large the code is, by what it is: "package pattern/edit".
type sizing struct {
	packages, files, funcs, structs map[string]int
}

// TestBudgets measures every package, file, function and struct.
func TestBudgets(t *testing.T) {
	s := sizing{map[string]int{}, map[string]int{}, map[string]int{}, map[string]int{}}
	err := eachGoFile("..", func(file string, text []byte) error {
		if strings.HasSuffix(file, "_test.go") {
			return nil
		}
		return s.take(file, text)
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(s.packages) < 30 || len(s.files) < 250 || len(s.structs) < 300 || len(s.funcs) < 2500 {
		t.Fatalf("only %d packages, %d files, %d structs and %d functions were read", len(s.packages), len(s.files), len(s.structs), len(s.funcs))
	}
	all := 0
	for _, n := range s.packages {
		all += n
	}
	t.Logf("%d lines of code in all", all)
	if all > mostLines {
		t.Errorf("%d lines of code in all, at most %d", all, mostLines)
	}
	over := overBudget()
	for _, b := range []struct {
		of   map[string]int
		most int
		what string
	}{
		{s.packages, mostPackageLines, "lines of code"}, {s.files, mostFileLines, "lines"},
		{s.funcs, mostFuncLines, "lines"}, {s.structs, mostFields, "fields"},
	} {
		for _, name := range slices.Sorted(maps.Keys(b.of)) {
			n, most := b.of[name], b.most
			excepted, ok := over[name]
			switch {
			case ok && n <= most:
				t.Errorf("%s has %d %s and needs no exception any more", name, n, b.what)
			case ok && n*20 < excepted*19:
				t.Errorf("%s has %d %s: let its exception of %d shrink to that", name, n, b.what, excepted)
			case n > max(most, excepted):
				t.Errorf("%s has %d %s, at most %d", name, n, b.what, max(most, excepted))
			}
			delete(over, name)
		}
	}
	for name := range over {
		t.Errorf("there is no %s to make an exception of", name)
	}
	files, funcs := at95(s.files), at95(s.funcs)
	t.Logf("19 of 20 files have at most %d lines, functions %d", files, funcs)
	if files > mostFileAt95 || funcs > mostFuncAt95 {
		t.Errorf("19 of 20 files have up to %d lines, at most %d; functions up to %d, at most %d", files, mostFileAt95, funcs, mostFuncAt95)
	}
}

// at95 returns what 95 of 100 do not exceed.
func at95(of map[string]int) int {
	sorted := slices.Sorted(maps.Values(of))
	return sorted[len(sorted)*95/100]
}

// eachGoFile goes through the Go files of the module; what is kept as test data is none.
func eachGoFile(root string, do func(file string, text []byte) error) error {
	return filepath.WalkDir(root, func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && (d.Name() == "testdata" || strings.HasPrefix(d.Name(), ".") && name != root):
			return filepath.SkipDir
		case d.IsDir() || !strings.HasSuffix(name, ".go"):
			return nil
		}
		text, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(root, name)
		if err != nil {
			return err
		}
		return do(filepath.ToSlash(rel), text)
	})
}

// take measures one file.
func (s *sizing) take(file string, text []byte) error {
	set := token.NewFileSet()
	parsed, err := parser.ParseFile(set, file, text, 0)
	if err != nil {
		return err
	}
	pkg := path.Dir(file)
	s.packages["package "+pkg] += codeLines(text)
	s.files["file "+file] = bytes.Count(text, []byte("\n"))
	ast.Inspect(parsed, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.FuncDecl:
			name := fmt.Sprintf("func %s.%s%s", pkg, receiver(n), n.Name.Name)
			s.funcs[name] = max(s.funcs[name], set.Position(n.End()).Line-set.Position(n.Pos()).Line+1)
		case *ast.TypeSpec:
			if of, ok := n.Type.(*ast.StructType); ok {
				s.structs["struct "+pkg+"."+n.Name.Name] = fieldsOf(of)
			}
		}
		return true
	})
	return nil
}

// codeLines counts the lines that hold more than comments.
func codeLines(text []byte) int {
	set := token.NewFileSet()
	file := set.AddFile("", -1, len(text))
	var s scanner.Scanner
	s.Init(file, text, nil, 0)
	lines := map[int]bool{}
	for {
		pos, tok, lit := s.Scan()
		if tok == token.EOF {
			return len(lines)
		}
		if tok == token.SEMICOLON && lit == "\n" {
			continue
		}
		for i := range 1 + strings.Count(lit, "\n") { // a raw string has many
			lines[file.Line(pos)+i] = true
		}
	}
}

// receiver returns the type that a method is of, with a dot.
func receiver(f *ast.FuncDecl) string {
	if f.Recv == nil {
		return ""
	}
	of := f.Recv.List[0].Type
	if star, ok := of.(*ast.StarExpr); ok {
		of = star.X
	}
	if generic, ok := of.(*ast.IndexExpr); ok {
		of = generic.X
	}
	if name, ok := of.(*ast.Ident); ok {
		return name.Name + "."
	}
	return "?."
}

// fieldsOf counts the fields of a struct; what is embedded is one.
func fieldsOf(s *ast.StructType) int {
	n := 0
	for _, f := range s.Fields.List {
		n += max(1, len(f.Names))
	}
	return n
}

// Lines of tests beside lines of code: the share may only grow, up to 0.8.
func TestTestsBesideTheCode(t *testing.T) {
	const least = 0.66
	code, tests := 0, 0
	err := eachGoFile("..", func(file string, text []byte) error {
		if strings.HasSuffix(file, "_test.go") {
			tests += codeLines(text)
		} else {
			code += codeLines(text)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("%d lines of code, %d of tests: %.3f", code, tests, float64(tests)/float64(code))
	if float64(tests) < least*float64(code) {
		t.Errorf("%d lines of tests beside %d of code: less than %v", tests, code, least)
	}
}
