package edit_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"slices"
	"strings"
	"testing"

	"example.com/oddments/pattern/edit"
)

// TestMovesAreAllThere reads the package's own source: every exported function that
// takes a State and gives a State and an error is in the list, and nothing else.
func TestMovesAreAllThere(t *testing.T) {
	files, err := os.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	var want []string
	for _, f := range files {
		if !strings.HasSuffix(f.Name(), ".go") || strings.HasSuffix(f.Name(), "_test.go") {
			continue
		}
		parsed, err := parser.ParseFile(token.NewFileSet(), f.Name(), nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, decl := range parsed.Decls {
			if f, ok := decl.(*ast.FuncDecl); ok && isMove(f) {
				want = append(want, hyphened(f.Name.Name))
			}
		}
	}
	var got []string
	for _, m := range edit.Moves() {
		got = append(got, m.ID)
	}
	slices.Sort(got)
	slices.Sort(want)
	if !slices.Equal(got, want) {
		t.Errorf("the list has\n%v, the source\n%v", got, want)
	}
}

func isMove(f *ast.FuncDecl) bool {
	if f.Recv != nil || !f.Name.IsExported() || f.Type.Params.NumFields() == 0 || f.Type.Results.NumFields() != 2 {
		return false
	}
	return isState(f.Type.Params.List[0].Type) && isState(f.Type.Results.List[0].Type)
}

func isState(e ast.Expr) bool {
	name, ok := e.(*ast.Ident)
	return ok && name.Name == "State"
}

// hyphened writes CarryLeft as carry-left.
func hyphened(name string) string {
	var out strings.Builder
	for i, r := range name {
		if r >= 'A' && r <= 'Z' {
			if i > 0 {
				out.WriteByte('-')
			}
			r += 'a' - 'A'
		}
		out.WriteRune(r)
	}
	return out.String()
}
