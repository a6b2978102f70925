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

// Each entry of the list makes the move that it is called by, and not another.
func TestMovesMakeWhatTheyAreCalled(t *testing.T) {
	parsed, err := parser.ParseFile(token.NewFileSet(), "moves.go", nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	entries := 0
	ast.Inspect(parsed, func(n ast.Node) bool {
		entry, ok := n.(*ast.CompositeLit)
		if !ok || len(entry.Elts) != 6 {
			return true
		}
		id, ok := entry.Elts[0].(*ast.BasicLit)
		if !ok {
			return true
		}
		entries++
		made := false
		ast.Inspect(entry.Elts[5], func(n ast.Node) bool {
			name, ok := n.(*ast.Ident)
			made = made || ok && `"`+hyphened(name.Name)+`"` == id.Value
			return true
		})
		if !made {
			t.Errorf("%s makes another move", id.Value)
		}
		return true
	})
	if want := len(edit.Moves()); entries != want {
		t.Errorf("%d entries were read, want %d", entries, want)
	}
}

// What a move takes is told in the field of its kind: arguments that may be left out stand
// last, and a move that is made by words takes nothing that words cannot tell.
func TestWhatMovesTake(t *testing.T) {
	said := map[string]string{}
	for _, m := range edit.Moves() {
		optional := false
		for i, a := range m.Takes {
			if a.Kind == edit.OnStrip && i > 0 {
				t.Errorf("%s: the strip it is made on stands behind %v", m.ID, m.Takes[i-1])
			}
			if optional && !a.Optional {
				t.Errorf("%s: an argument stands behind one that may be left out", m.ID)
			}
			optional = a.Optional
			switch a.Kind {
			case edit.OnTray, edit.ByStep, edit.ForWidth, edit.OnItem, edit.OfProduct, edit.OfKnot, edit.OfMade, edit.ForProducts:
				if m.Said.Word != "" {
					t.Errorf("%s: words cannot tell argument %d", m.ID, i+1)
				}
			}
		}
		if key := m.Said.Word + " " + m.Said.Second; m.Said.Word != "" {
			if said[key] != "" {
				t.Errorf("%s is %s and %s", key, said[key], m.ID)
			}
			said[key] = m.ID
			if m.Said.Does == "" {
				t.Errorf("%s says nothing of what it does", m.ID)
			}
		}
	}
	if len(said) < 20 {
		t.Errorf("%d moves are made by words", len(said))
	}
}
